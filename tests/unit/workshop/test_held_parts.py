"""A part's figures beside the tested one's: in, out, cannot tell, or why nothing is told."""

from dataclasses import replace
from math import hypot

import pytest

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, INCH, MILLIMETRE
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.parts_acts import Part, PartCame
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Fit
from loftwright.workshop.held import Figure, Held, HitPiece, Known, Silent, Source, held_against
from ordered import HEAD, a_head_came

CARD = HitPiece(
    known={
        Figure.MASS: Known(value=200.0 * GRAM, source=Source.CARD),
        Figure.LOFT: Known(value=10.5 * DEGREE, source=Source.CARD),
        Figure.LIE: Known(value=58.0 * DEGREE, source=Source.CARD),
        Figure.FACE: Known(value=0.0, source=Source.CARD),
    }
)
SHAFT = PartFigures(mass=60.0 * GRAM, length=46.0 * INCH, balance=23.5 * INCH)
SHAFT_CARD = HitPiece(
    known={
        Figure.MASS: Known(value=60.0 * GRAM, source=Source.CARD),
        Figure.BALANCE: Known(value=23.5 * INCH, source=Source.CARD),
    },
    length=46.0 * INCH,
)


def lines(came: PartCame, tested: HitPiece = CARD) -> dict[Figure, Held]:
    return {one.figure: one for one in held_against(came, tested, Tolerances())}


def test_a_head_as_the_tested_one_is_in() -> None:
    assert {one.fit for one in lines(a_head_came()).values()} == {Fit.IN}


def test_three_grams_light_and_a_degree_strong_are_out() -> None:
    found = lines(a_head_came(mass=197.0 * GRAM, loft=9.5 * DEGREE))
    assert found[Figure.MASS].fit is Fit.OUT
    assert found[Figure.MASS].apart == pytest.approx(-3.0 * GRAM)
    assert found[Figure.LOFT].fit is Fit.OUT
    assert found[Figure.LIE].fit is Fit.IN


@pytest.mark.parametrize(
    ("apart", "fit"), [(0.14, Fit.IN), (0.16, Fit.CANNOT_TELL), (0.84, Fit.CANNOT_TELL)]
)
def test_two_readings_of_a_gauge_guard_the_tolerance_with_both_doubts(
    apart: float, fit: Fit
) -> None:
    """0.25 deg each way: 0.35 together, so that in ends at 0.146 and out begins at 0.854."""
    held = lines(a_head_came(loft=(10.5 + apart) * DEGREE))[Figure.LOFT]
    assert held.doubt == pytest.approx(hypot(0.25, 0.25) * DEGREE)
    assert held.fit is fit


def test_a_printed_loft_carries_no_doubt_of_its_own() -> None:
    joined = replace(CARD.known[Figure.LOFT], source=Source.JOINED)
    tested = replace(CARD, known={**CARD.known, Figure.LOFT: joined})
    held = lines(a_head_came(loft=10.74 * DEGREE), tested)[Figure.LOFT]
    assert held.doubt == pytest.approx(0.25 * DEGREE)
    assert held.fit is Fit.IN


def test_a_head_that_nobody_weighed_is_held_to_nothing() -> None:
    known: dict[Figure, Known] = {
        one: told for one, told in CARD.known.items() if one is not Figure.MASS
    }
    held = lines(a_head_came(), replace(CARD, known=known))[Figure.MASS]
    assert (held.fit, held.silent, held.apart) == (None, Silent.NOTHING_KNOWN, None)


def test_a_figure_that_the_build_needs_is_asked_for() -> None:
    held = lines(PartCame(part=Part.HEAD, figures=replace(HEAD, loft=None)))[Figure.LOFT]
    assert held.asked
    assert (held.fit, held.silent) == (None, Silent.NOT_READ)


def test_shafts_are_weighed_against_each_other_at_one_length_only() -> None:
    came = PartCame(part=Part.SHAFT, figures=SHAFT)
    assert lines(came, SHAFT_CARD)[Figure.MASS].fit is Fit.IN
    for other in (44.0 * INCH, None):
        found = lines(came, replace(SHAFT_CARD, length=other))
        assert found[Figure.MASS].silent is Silent.OTHER_LENGTH
        assert found[Figure.BALANCE].silent is Silent.OTHER_LENGTH


def test_a_printed_weight_is_shown_and_settles_nothing() -> None:
    printed = HitPiece(known={Figure.MASS: Known(value=58.0 * GRAM, source=Source.PRINTED)})
    held = lines(PartCame(part=Part.SHAFT, figures=SHAFT), printed)[Figure.MASS]
    assert (held.fit, held.silent, held.apart) == (None, Silent.PRINTED, None)


@pytest.mark.parametrize(("clamp", "told"), [(5.0, Fit.OUT), (5.5, None)])
def test_a_frequency_is_held_to_one_of_its_own_set_up(clamp: float, told: Fit | None) -> None:
    figures = replace(
        SHAFT, frequency=248.0 * CYCLE_PER_MINUTE, clamp=clamp * INCH, tip_mass=205.0 * GRAM
    )
    tested = HitPiece(
        known={Figure.FREQUENCY: Known(value=254.0 * CYCLE_PER_MINUTE, source=Source.CARD)},
        clamp=5.0 * INCH,
        tip_mass=205.0 * GRAM,
    )
    held = lines(PartCame(part=Part.SHAFT, figures=figures), tested)[Figure.FREQUENCY]
    assert held.fit is told
    assert (held.silent is Silent.OTHER_SET_UP) is (told is None)


def test_a_frequency_that_nobody_read_is_not_asked_for() -> None:
    assert Figure.FREQUENCY not in lines(PartCame(part=Part.SHAFT, figures=SHAFT), SHAFT_CARD)


def test_the_raw_length_is_written_down_and_held_to_nothing() -> None:
    held = lines(PartCame(part=Part.SHAFT, figures=SHAFT), SHAFT_CARD)[Figure.LENGTH]
    assert held.silent is Silent.NOT_HELD
    assert held.reading == pytest.approx(46.0 * INCH)
    assert held.tolerance > 1.0 * MILLIMETRE
