"""Every act of a job survives the store word for word."""

from datetime import UTC
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.domain.after_acts import Complained, LookedAt, Played, Round, Where
from loftwright.domain.home import Turf
from loftwright.domain.job_acts import JobAct
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.order import ClubSpec, PriceLine, Promise, Quote, Told
from loftwright.domain.order_acts import Quoted
from loftwright.domain.parts_acts import Matter, PartCame, PartSettled
from loftwright.domain.rack import SleeveSetting
from loftwright.domain.sheet_acts import Bonded
from loftwright.errors import SchemaError
from loftwright.store.codec import JOB_ACTS, job_act_of, job_act_text, kind_of

KINDS = sorted(JOB_ACTS)
WORDS = st.text(st.characters(exclude_categories=["Cs"]), min_size=1).filter(lambda t: t.strip())
INSTANTS = st.datetimes(timezones=st.just(UTC))
GRAMS = st.none() | st.floats(0.001, 0.6)
FIGURES = st.builds(PartFigures, mass=GRAMS, balance=st.none() | st.floats(0.1, 1.2))
ANGLES = st.floats(-0.1, 0.1)
SPECS = st.builds(
    ClubSpec,
    loft=ANGLES,
    lie=ANGLES,
    face=ANGLES,
    length=st.floats(0.9, 1.2),
    settings=st.just((SleeveSetting(name="L1", bore=0.01),)),
    promise=st.none()
    | st.builds(
        Promise,
        **dict.fromkeys(("ball_speed", "launch", "spin", "carry", "total"), ANGLES),
        fairways_in_14=st.none(),
        value=st.builds(Told, **dict.fromkeys(("mean", "low", "high"), ANGLES)),
    ),
)
LINES = st.builds(PriceLine, what=WORDS, price=st.none() | st.integers(0, 2**52), count=st.just(2))
QUOTES = st.builds(
    Quote,
    spec=SPECS,
    lines=st.lists(LINES, max_size=3).map(tuple),
    tax=st.floats(0.0, 1.0),
    deposit=st.floats(0.0, 1.0),
    lead_days=st.integers(0, 700),
)
ROUNDS = st.builds(
    Round,
    drives=st.just(14),
    fairways=st.integers(0, 14),
    total=st.just(231.4),
    measured=st.just(9),
)
DRAWN = {
    "quoted": st.builds(Quoted, quote=QUOTES),
    "part_came": st.builds(PartCame, figures=FIGURES, named=WORDS, other_hand=st.booleans()),
    "part_settled": st.builds(
        PartSettled, mass=st.floats(0.0, 0.01), matter=st.sampled_from(Matter)
    ),
    "bonded": st.builds(
        Bonded,
        mixed=INSTANTS,
        not_before=INSTANTS,
        temperature=st.none() | st.floats(280.0, 300.0),
    ),
    "complained": st.builds(Complained, short=st.none() | st.floats(0.1, 90.0)),
    "looked_at": st.builds(
        LookedAt,
        where=st.none()
        | st.builds(
            Where,
            temperature=st.none() | st.floats(264.0, 318.0),
            altitude=st.none() | st.floats(-400.0, 3900.0),
            turf=st.none() | st.sampled_from(Turf),
            wind_along=st.none() | st.floats(-13.0, 13.0),
        ),
    ),
    "played": st.builds(Played, rounds=st.lists(ROUNDS, max_size=3).map(tuple)),
}
"""Acts with figures in them; the others are drawn from their types."""


def test_every_act_of_a_job_has_a_kind_of_its_own() -> None:
    every = [act for one in get_args(JobAct) for act in (get_args(one) or (one,))]
    assert len(JOB_ACTS) == len(every)
    assert set(JOB_ACTS.values()) == set(every)


@pytest.mark.parametrize("kind", KINDS)
@given(data=st.data())
def test_an_act_of_a_job_comes_back_as_it_was(kind: str, data: st.DataObject) -> None:
    act = data.draw(DRAWN.get(kind, st.from_type(JOB_ACTS[kind])))
    assert job_act_of(kind_of(type(act)), job_act_text(act)) == act


def test_an_unknown_kind_is_refused() -> None:
    with pytest.raises(SchemaError, match="'danced'"):
        job_act_of("danced", "{}")
