"""Trims, build-up and a larger butt, before anything is cut.

Figures of the reference shaft are self-consistent: an independent beam has them to the last digit
that is asked here.
"""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench_shafts import BENDING, STATIONS
from loftwright.arrays import FloatArray
from loftwright.constants import CYCLE_PER_MINUTE, GRAM, INCH, MILLIMETRE
from loftwright.domain.bench_figures import SetUp, bench_figures
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.sections import Section
from loftwright.domain.shaft_preview import Preview, Trims, preview
from loftwright.errors import InputError
from loftwright.physics.bench.piece import Estimate
from shafts import a_profile


def reference() -> MeasuredProfile:
    """Return the shaft of which an independent beam says what trims do: 62 g, spread evenly."""
    station, bending = np.array(STATIONS), np.array(BENDING)
    return replace(
        a_profile(grams=62.0),
        station=station,
        bending=bending,
        bending_error=0.02 * bending,
        twisting=0.42 * bending,
        twisting_error=0.01 * bending,
        balance=station[-1] / 2.0,
        butt_diameter=0.600 * INCH,
    )


def told(found: Estimate | None) -> Estimate:
    assert found is not None
    return found


def faster(found: Preview) -> float:
    return told(found.change.frequency).value / CYCLE_PER_MINUTE


@pytest.mark.parametrize(
    ("trims", "cycles"),
    [
        ({"tip": 0.5 * INCH}, 5.6),
        ({"tip": 1.0 * INCH}, 11.4),
        ({"tip": 2.0 * INCH}, 23.6),
        ({"butt": 1.0 * INCH}, 7.8),
    ],
)
def test_a_trim_quickens_a_shaft_as_an_independent_beam_has_it(
    trims: dict[str, Any], cycles: float
) -> None:
    found = preview(reference(), Trims(**trims))
    assert told(found.before.frequency).value / CYCLE_PER_MINUTE == pytest.approx(258.3, abs=0.05)
    assert faster(found) == pytest.approx(cycles, abs=0.05)


def test_a_larger_butt_at_equal_wall_is_firmer_by_the_tube() -> None:
    """Self-consistent: 0.620 in against 0.600 in at a wall of 1.1 mm, 11 % of EI."""
    large = Trims(butt_diameter=0.620 * INCH, wall=1.1 * MILLIMETRE)
    found = preview(reference(), large)
    butt = found.after.bending[Section.BUTT].value / found.before.bending[Section.BUTT].value
    assert 1.09 < butt < 1.11
    for section in (Section.UPPER_MIDDLE, Section.LOWER_MIDDLE, Section.TIP):
        assert found.change.bending[section].value == pytest.approx(0.0, abs=1e-6)
    assert 0.0 < faster(found) < 6.4 * 1.11
    assert told(found.change.mass).value > 0.0
    assert told(found.change.balance).value < 0.0
    assert told(found.change.torque).value < 0.0
    assert (found.hand, found.hand_after) == pytest.approx((0.600 * INCH, 0.620 * INCH))


def test_the_same_butt_changes_nothing() -> None:
    found = preview(reference(), Trims(butt_diameter=0.600 * INCH, wall=1.1 * MILLIMETRE))
    assert faster(found) == pytest.approx(0.0, abs=1e-3)
    assert told(found.change.mass).value == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("tape", "added"), [(0.10, 0.0079), (0.13, 0.0102), (0.17, 0.0134)])
def test_tape_copies_a_size_and_no_stiffness(tape: float, added: float) -> None:
    found = preview(reference(), Trims(wraps=1, tape=tape * MILLIMETRE))
    assert found.added / INCH == pytest.approx(added, abs=5e-5)
    assert told(Estimate(found.hand_after or 0.0, 0.0)).value == pytest.approx(
        0.600 * INCH + found.added
    )
    for figure in (found.change.frequency, found.change.torque, *found.change.bending.values()):
        assert told(figure) == (0.0, 0.0)


@given(tip=st.floats(0.0, 0.06), butt=st.floats(0.0, 0.06))
@settings(max_examples=12)
def test_what_is_left_weighs_less_and_turns_less(tip: float, butt: float) -> None:
    found = preview(reference(), Trims(tip=tip, butt=butt))
    assert found.after.length == pytest.approx(found.before.length - tip - butt)
    cut = tip + butt
    share = cut / found.before.length
    assert told(found.change.mass).value == pytest.approx(-share * 62.0 * GRAM, abs=1e-9)
    assert told(found.change.balance).value == pytest.approx(-cut / 2.0, abs=1e-9)
    assert faster(found) >= -1e-6
    assert told(found.change.torque).value <= 1e-12


def test_a_change_is_known_far_better_than_the_shaft() -> None:
    """The bench's error is in both; only what it does to the cut is left."""
    found = preview(reference(), Trims(tip=1.0 * INCH))
    assert told(found.change.frequency).spread < 0.1 * told(found.before.frequency).spread
    assert told(found.before.frequency) == pytest.approx(
        told(bench_figures(reference()).frequency)
    )


def test_sections_count_from_the_new_butt_end() -> None:
    found = preview(reference(), Trims(butt=0.1))
    for section in (Section.BUTT, Section.UPPER_MIDDLE, Section.LOWER_MIDDLE):
        assert found.change.bending[section].value < 0.0
    assert found.hand_after is None


def test_what_was_not_seen_stays_not_seen() -> None:
    blind = a_profile(blind_from=0.95)
    found = preview(blind, Trims(tip=0.5 * INCH))
    for side in (found.before, found.after, found.change):
        assert Section.TIP not in side.bending
        assert Section.BUTT in side.bending
    gone = preview(a_profile(), Trims(tip=0.2))
    assert Section.TIP in gone.before.bending
    assert Section.TIP not in gone.after.bending
    assert Section.TIP not in gone.change.bending


def test_what_was_not_measured_is_no_figure_on_either_side() -> None:
    found = preview(replace(a_profile(twist=False), mass=None, mass_error=None), Trims(tip=0.01))
    for side in (found.before, found.after, found.change):
        assert (side.torque, side.mass, side.frequency) == (None, None, None)
    assert found.assumed == ("twist", "weight")
    assert found.hand is None


@pytest.mark.parametrize(
    ("trims", "place"),
    [
        ({"tip": -0.01}, "tip"),
        ({"butt": float("nan")}, "butt"),
        ({"wraps": -1, "tape": 1e-4}, "wraps"),
        ({"wraps": 2}, "tape"),
        ({"tape": 1e-4}, "wraps"),
        ({"wraps": 1, "tape": 5e-3}, "tape"),
        ({"butt_diameter": 0.0157}, "wall"),
        ({"wall": 1e-3}, "butt_diameter"),
        ({"butt_diameter": 0.62, "wall": 1e-3}, "butt_diameter"),
        ({"butt_diameter": 0.0157, "wall": 1e-2}, "wall"),
    ],
)
def test_trims_that_cannot_be_name_what_is_wrong(trims: dict[str, Any], place: str) -> None:
    with pytest.raises(InputError) as refused:
        Trims(**trims)
    assert refused.value.place == place
    assert refused.value.mend


def test_too_little_left_is_refused_with_its_reason() -> None:
    with pytest.raises(InputError, match="leave"):
        preview(a_profile(), Trims(tip=0.7))
    with pytest.raises(InputError, match="leaves too little"):
        preview(a_profile(), Trims(tip=0.3, butt=0.3), SetUp(clamp=0.3))
    with pytest.raises(InputError, match="was not measured"):
        preview(a_profile(), Trims(butt_diameter=0.0157, wall=1.1e-3))


def test_errors_reach_no_further_than_shafts_do() -> None:
    """A shaft near the end of what shafts have is previewed like any other."""

    def firm(_: FloatArray) -> float:
        return 2.4

    assert (
        faster(preview(a_profile(firm, noise=0.04, scale=0.02, twist=False), Trims(tip=0.01)))
        > 0.0
    )
