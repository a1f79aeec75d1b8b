"""Verdicts, limits, tolerances, contradictions and cautions."""

import re
from dataclasses import fields, replace

import pytest

from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE, MILLIMETRE
from loftwright.domain.built import (
    TOUCHED,
    Checked,
    Contradiction,
    Sheet,
    contradictions,
    swingweight_from,
    target_lines,
)
from loftwright.domain.cautions import CAUTIONS, Hazard, Work, cautions_for, hazards_of
from loftwright.domain.limits import (
    CUBIC_CENTIMETRE,
    PUBLISHED,
    Kind,
    Measured,
    NotMeasured,
    Rules,
    limit_lines,
    not_measured,
)
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Fit, Reading, Side, fit_of, too_tight
from loftwright.errors import InputError
from loftwright.physics.build.swingweight import USUAL_SCALE

INERTIA = KILOGRAM_SQUARE_CENTIMETRE
MASS = Reading(value=315.6 * GRAM, half_width=1.0 * GRAM)
BALANCE = Reading(value=33.522 * INCH, half_width=2.0 * MILLIMETRE)
SHEET = Sheet(
    targets={Checked.LENGTH: 45.5 * INCH, Checked.SWINGWEIGHT: 32.0},
    predicted={Checked.MASS: Reading(value=315.6 * GRAM, half_width=0.6 * GRAM)},
    tolerances=Tolerances(),
    scale=USUAL_SCALE,
)


@pytest.mark.parametrize(
    ("value", "fit"),
    [(45.55, Fit.IN), (45.56, Fit.CANNOT_TELL), (45.58, Fit.OUT), (45.42, Fit.OUT)],
)
def test_a_length_is_in_out_or_too_near_to_tell(value: float, fit: Fit) -> None:
    reading = Reading(value=value * INCH, half_width=0.0125 * INCH)
    assert fit_of(reading, 45.5 * INCH, INCH / 16.0) is fit


@pytest.mark.parametrize("width", [0.0, -1.0, float("nan"), float("inf")])
def test_a_reading_without_a_doubt_is_refused(width: float) -> None:
    with pytest.raises(InputError, match="doubt"):
        Reading(value=1.0, half_width=width)


def test_a_reading_that_is_no_number_and_a_tolerance_of_nothing_are_refused() -> None:
    with pytest.raises(InputError, match="no reading"):
        Reading(value=float("nan"), half_width=1.0)
    with pytest.raises(InputError, match="tolerance"):
        fit_of(MASS, 0.3, 0.0)


def test_a_tolerance_tighter_than_the_bench_is_flagged() -> None:
    reading = Reading(value=32.0, half_width=0.64)
    assert too_tight(reading, 0.5)
    assert not too_tight(reading, 0.64)


@pytest.mark.parametrize("name", [one.name for one in fields(Tolerances)])
def test_every_tolerance_is_editable_and_none_is_nothing(name: str) -> None:
    wider = replace(Tolerances(), **{name: 2.0 * getattr(Tolerances(), name)})
    assert getattr(wider, name) == 2.0 * getattr(Tolerances(), name)
    with pytest.raises(InputError, match="tolerance"):
        replace(Tolerances(), **{name: 0.0})


def test_a_short_club_lies_below_the_least_length() -> None:
    short = {Measured.LENGTH: Reading(value=17.5 * INCH, half_width=0.05 * INCH)}
    sides = {line.limit.least: line.side for line in limit_lines(short, Kind.WOOD, Rules())}
    assert sides == {False: Side.BELOW, True: Side.BELOW}


def test_a_putter_has_no_longest() -> None:
    long = {Measured.LENGTH: Reading(value=50.0 * INCH, half_width=0.05 * INCH)}
    lines = limit_lines(long, Kind.PUTTER, Rules(local_length=True))
    assert [line.limit.least for line in lines] == [True]


def test_heads_of_irons_are_held_against_no_limit_of_woods() -> None:
    volume = Reading(value=480.0 * CUBIC_CENTIMETRE, half_width=5.0 * CUBIC_CENTIMETRE)
    assert limit_lines({Measured.VOLUME: volume}, Kind.IRON, Rules()) == ()
    (line,) = limit_lines({Measured.VOLUME: volume}, Kind.WOOD, Rules())
    assert line.side is Side.ABOVE
    assert line.limit.roughly


def test_nothing_is_claimed_of_what_no_workshop_measures() -> None:
    assert set(not_measured({}, Kind.WOOD)) == set(NotMeasured)
    assert set(not_measured({}, Kind.IRON)) == {NotMeasured.BENDING_SYMMETRY, NotMeasured.FACE}
    volume = Reading(value=460.0 * CUBIC_CENTIMETRE, half_width=5.0 * CUBIC_CENTIMETRE)
    assert NotMeasured.VOLUME not in not_measured({Measured.VOLUME: volume}, Kind.WOOD)


def test_an_edition_and_its_limits_are_editable_and_one_is_always_named() -> None:
    longer = tuple(
        replace(limit, value=49.0 * INCH)
        if limit.measured is Measured.LENGTH and not limit.least and not limit.local
        else limit
        for limit in PUBLISHED
    )
    rules = Rules(edition="an invented edition", limits=longer)
    reading = {Measured.LENGTH: Reading(value=48.5 * INCH, half_width=0.05 * INCH)}
    upper = [line for line in limit_lines(reading, Kind.WOOD, rules) if not line.limit.least]
    assert [line.side for line in upper] == [Side.BELOW]
    with pytest.raises(InputError, match="edition"):
        Rules(edition=" ")


def test_readings_that_agree_contradict_nothing() -> None:
    derived = swingweight_from(MASS, BALANCE, USUAL_SCALE)
    assert derived.value == pytest.approx(32.19, abs=5e-3)
    readings = {Checked.MASS: MASS, Checked.BALANCE: BALANCE, Checked.SWINGWEIGHT: derived}
    assert contradictions(readings, SHEET) == ()


def test_a_scale_that_contradicts_weight_and_balance_is_named_and_both_wait() -> None:
    readings = {
        Checked.MASS: MASS,
        Checked.BALANCE: BALANCE,
        Checked.SWINGWEIGHT: Reading(value=35.0, half_width=0.3),
    }
    (found,) = contradictions(readings, SHEET)
    assert found.what is Contradiction.SCALE
    assert (found.read, found.expected) == pytest.approx((35.0, 32.19), abs=5e-3)
    fits = {line.checked: line.fit for line in target_lines(readings, SHEET)}
    assert fits == {Checked.SWINGWEIGHT: Fit.CANNOT_TELL, Checked.MASS: Fit.CANNOT_TELL}


def test_a_club_that_weighs_more_than_its_parts_is_named() -> None:
    heavy = {Checked.MASS: Reading(value=320.0 * GRAM, half_width=1.0 * GRAM)}
    (found,) = contradictions(heavy, SHEET)
    assert found.what is Contradiction.PARTS
    (line,) = target_lines(heavy, SHEET)
    assert line.fit is Fit.CANNOT_TELL
    assert not line.asked


def test_less_inertia_than_a_point_has_is_named() -> None:
    readings = {
        Checked.MASS: MASS,
        Checked.BALANCE: BALANCE,
        Checked.INERTIA: Reading(value=2200.0 * INERTIA, half_width=20.0 * INERTIA),
    }
    assert [one.what for one in contradictions(readings, SHEET)] == [Contradiction.POINT_MASS]


def test_every_contradiction_keeps_its_readings_from_being_told() -> None:
    assert set(TOUCHED) == set(Contradiction)
    assert all(TOUCHED.values())


def test_what_has_no_target_and_no_prediction_has_no_line() -> None:
    loft = {Checked.LOFT: Reading(value=0.18, half_width=0.004)}
    assert target_lines(loft, SHEET) == ()


def test_every_hazard_has_its_caution_and_every_caution_its_basis() -> None:
    assert list(CAUTIONS) == list(Hazard)
    for hazard, caution in CAUTIONS.items():
        assert caution.hazard is hazard
        assert caution.says.endswith(".")
        assert re.search(r"\d|practice", caution.basis)


def test_cautions_are_those_of_the_parts_at_hand() -> None:
    steel = Work(carbon=False, cut=True, glued=False)
    assert hazards_of(steel) == (Hazard.BLADE,)
    carbon = Work(carbon=True, cut=True, glued=True, screwed=True)
    assert hazards_of(carbon) == (
        Hazard.CARBON_DUST,
        Hazard.EPOXY,
        Hazard.BLADE,
        Hazard.SCREW,
        Hazard.UNCURED_BOND,
    )
    everything = Work(**{one.name: True for one in fields(Work)})
    assert hazards_of(everything) == tuple(Hazard)
    assert [one.hazard for one in cautions_for(everything)] == list(Hazard)
    assert hazards_of(Work(**{one.name: False for one in fields(Work)})) == ()
