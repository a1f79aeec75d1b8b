"""What the bench found as the rack keeps it, on the invented bench, whose shafts are known."""

from datetime import date

import numpy as np
import pytest

from loftwright.constants import MILLIMETRE
from loftwright.domain.kept_profile import kept_profile
from loftwright.domain.likeness import likeness
from loftwright.domain.profile import SEEN, MeasuredProfile
from loftwright.domain.sections import Section, seen_share
from loftwright.physics.bench.measure import measure
from loftwright.physics.bench.readings import Diameter, Mass, ThreePoint
from loftwright.physics.shaft.deflection import three_point
from loftwright.services.demo_bench import demo_profile
from loftwright.services.demo_shafts import DEMO_SHAFTS

PLAIN = next(shaft for shaft in DEMO_SHAFTS if shaft.name == "Linnet")
DAY = date(2026, 3, 1)


def kept(seed: int) -> MeasuredProfile:
    return demo_profile(PLAIN, piece="s", day=DAY, seed=seed)


def across(last: float) -> list[ThreePoint]:
    span = 300.0 * MILLIMETRE
    stations = np.arange(0.15, last, 0.0381)
    return [
        ThreePoint(
            station=float(at),
            span=span,
            force=50.0,
            value=three_point(PLAIN.profile, float(at), span, 50.0),
        )
        for at in stations
    ]


def test_errors_cover_the_shaft_that_was_read() -> None:
    inside = []
    for seed in range(1, 41):
        one = kept(seed)
        true = np.interp(one.station, PLAIN.profile.stations, PLAIN.profile.bending)
        off = np.log(one.bending / true)
        error = np.hypot(one.bending_error / one.bending, one.scale_error)
        inside += (np.abs(off) < 1.96 * error).tolist()
    assert np.mean(inside) > 0.93


def test_two_looks_at_one_shaft_differ_by_their_noise_alone() -> None:
    found = [likeness(kept(seed), kept(seed + 1000)) for seed in range(1, 21)]
    told = [one.told for each in found for one in each.bending.values()]
    assert len(told) == 80
    assert sum(told) <= 4


def test_a_tip_that_nobody_read_counts_as_not_seen() -> None:
    found = measure(PLAIN.profile.length, across(0.80))
    profile = kept_profile(found, piece="s", day=DAY, bench="b", conditions="c")
    assert seen_share(profile, Section.UPPER_MIDDLE) == 1.0
    assert seen_share(profile, Section.TIP) < 0.5
    at_the_tip = (profile.bending_error / profile.bending)[-4:]
    assert (at_the_tip > 2.0 * SEEN).all()


def test_only_what_was_read_is_kept() -> None:
    bare = kept_profile(
        measure(PLAIN.profile.length, across(1.0)), piece="s", day=DAY, bench="b", conditions="c"
    )
    assert bare.twisting is None
    assert bare.mass is None
    assert bare.density is None
    assert bare.butt_diameter is None
    weighed = kept_profile(
        measure(
            PLAIN.profile.length,
            [*across(1.0), Mass(value=0.06)],
            [Diameter(station=0.02, value=0.0152), Diameter(station=0.5, value=0.0128)],
        ),
        piece="s",
        day=DAY,
        bench="b",
        conditions="c",
    )
    assert weighed.mass == pytest.approx(0.06, rel=1e-3)
    assert weighed.balance is None
    assert weighed.butt_diameter == 0.0152
    assert weighed.tip_diameter is None


def test_the_errors_that_a_bench_shares_stand_apart() -> None:
    one = kept(1)
    assert 0.005 < one.scale_error < 0.0125
    middle = (one.station > 0.3) & (one.station < 1.0)
    assert np.median((one.bending_error / one.bending)[middle]) == pytest.approx(0.019, abs=0.002)
