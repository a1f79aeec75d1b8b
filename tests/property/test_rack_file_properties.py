"""A rack written in the open format comes back the same, as JSON and as a table."""

from datetime import UTC, date, datetime
from decimal import Decimal

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from loftwright.constants import DEGREE
from loftwright.domain.golfer import Hand
from loftwright.domain.inspection import Finding, Inspection
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    RackItem,
    ShaftModel,
    Sleeve,
    SleeveSetting,
    State,
)
from loftwright.services.rack_in import bring_in, look_at
from loftwright.services.rack_out import degrees_of, rack_csv, rack_json
from loftwright.services.studio import Studio
from studios import studio_in_memory

# What a form keeps: trimmed, printable, and no letter that a text file cannot hold.
TEXT = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Zl", "Zp")), max_size=20
).map(str.strip)
NAME = TEXT.filter(bool)
DEGREES = st.decimals(-20, 20, places=2, allow_nan=False).map(lambda one: float(one) * DEGREE)


def floats(least: float, most: float) -> st.SearchStrategy[float]:
    return st.floats(least, most, allow_nan=False)


MONEY = st.none() | st.integers(0, 10**9)
LINE = {
    "family": TEXT,
    "generation": TEXT,
    "stock": st.none() | st.integers(0, 99),
    "price": MONEY,
}


@st.composite
def racks(draw: st.DrawFn) -> list[RackItem]:
    """Return a rack of one of everything, filled as it comes."""
    settings_of = st.lists(
        st.builds(
            SleeveSetting,
            name=NAME,
            bore=st.decimals(0, 4, places=2).map(lambda one: float(one) * DEGREE),
            azimuth=DEGREES,
        ),
        min_size=1,
        max_size=4,
        unique_by=lambda one: one.name,
    )
    sleeve = Sleeve(id="v1", name=draw(NAME), system="Q", settings=tuple(draw(settings_of)))
    head = draw(
        st.builds(
            HeadModel,
            id=st.just("h1"),
            maker=TEXT,
            name=NAME,
            hand=st.sampled_from(Hand),
            loft=st.decimals(4, 20, places=2).map(lambda one: float(one) * DEGREE),
            face=DEGREES,
            system=st.just("Q"),
            **LINE,
        )
    )
    shafts = [
        draw(
            st.builds(
                ShaftModel,
                id=st.just(f"s{place}"),
                maker=TEXT,
                name=NAME,
                paper_mass=st.none() | floats(0.025, 0.15),
                paper_label=TEXT,
                replaces=st.just("s0" if place else None),
                **LINE,
            )
        )
        for place in range(2)
    ]
    state = draw(st.sampled_from(State))
    shaft = Piece(
        id="p2",
        model="s1",
        label=draw(TEXT),
        mass=draw(st.none() | floats(0.025, 0.3)),
        place=draw(TEXT),
        sleeve="v1",
        state=state,
        reason="" if state is State.READY else draw(NAME),
        locked_until=draw(st.none() | st.datetimes(timezones=st.just(UTC))),
        check_after=draw(st.none() | st.integers(1, 100_000)),
    )
    club = Assembly(
        id="a1",
        head="p1",
        shaft="p2",
        length=draw(floats(0.77, 1.32)),
        setting=sleeve.settings[0].name,
        grip=draw(TEXT),
        price=draw(MONEY),
    )
    return [sleeve, head, *shafts, Piece(id="p1", model="h1"), shaft, club]


@st.composite
def profiles(draw: st.DrawFn) -> MeasuredProfile:
    """Return what a bench may have found of the shaft."""
    along = st.lists(floats(20.0, 80.0), min_size=3, max_size=3)
    errors = st.lists(floats(1e-6, 5.0), min_size=3, max_size=3)
    twisted = draw(st.booleans())
    return MeasuredProfile(
        id="m1",
        piece="p2",
        day=draw(st.dates(date(2000, 1, 1), date(2100, 1, 1))),
        bench=draw(NAME),
        conditions=draw(NAME),
        station=np.array([0.0, draw(floats(0.1, 0.6)), draw(floats(0.7, 1.3))]),
        bending=np.array(draw(along)),
        bending_error=np.array(draw(errors)),
        twisting=np.array(draw(along)) if twisted else None,
        twisting_error=np.array(draw(errors)) if twisted else None,
        scale_error=draw(floats(0.0, 0.2)),
        set_aside=draw(TEXT),
    )


def filled(
    items: list[RackItem], looks: list[Inspection], profile: MeasuredProfile | None
) -> Studio:
    studio = studio_in_memory()
    studio.store.put_together([(item, None) for item in items])
    for one in looks:
        studio.store.inspect(one)
    if profile is not None:
        studio.store.keep_profile(profile)
    return studio


LOOKS = st.lists(
    st.builds(
        Inspection,
        piece=st.sampled_from(["p1", "p2"]),
        at=st.datetimes(timezones=st.just(UTC), min_value=datetime(2000, 1, 1)),  # noqa: DTZ001
        balls=st.integers(0, 10**6),
        finding=st.sampled_from(Finding),
        words=NAME,
        by=TEXT,
    ),
    max_size=3,
    unique_by=lambda one: one.at,
)


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(items=racks(), looks=LOOKS, profile=st.none() | profiles(), as_json=st.booleans())
def test_what_is_written_comes_back_the_same(
    items: list[RackItem],
    looks: list[Inspection],
    profile: MeasuredProfile | None,
    as_json: bool,
) -> None:
    studio = filled(items, looks, profile)
    write = rack_json if as_json else rack_csv
    data = write(studio).encode()
    other = studio_in_memory()
    coming = look_at(other, "rack", data)
    assert coming.refused == ()
    bring_in(other, "rack", data, seen=coming.seen)
    assert other.store.rack() == studio.store.rack()
    assert other.store.inspections() == studio.store.inspections()
    assert write(other) == write(studio)
    again = look_at(studio, "rack", data)
    assert not again.anything
    assert again.same == len(items) + len(looks) + (profile is not None)


@given(degrees=st.decimals(-360, 360, places=3))
def test_an_angle_that_was_typed_is_written_as_it_was_typed(degrees: Decimal) -> None:
    assert degrees_of(float(degrees) * DEGREE) == degrees


@given(angle=floats(-0.3, 0.3))
def test_any_angle_comes_back_to_sixteen_digits(angle: float) -> None:
    assert abs(float(degrees_of(angle)) * DEGREE - angle) <= 3e-16 * abs(angle)
