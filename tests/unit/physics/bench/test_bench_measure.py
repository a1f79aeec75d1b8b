"""From readings to a shaft: what is seen, what is doubted, what is never removed."""

from dataclasses import replace

import numpy as np
import pytest

from bench_readings import (
    LENGTH,
    PLAIN,
    bending_at,
    lever,
    noisy,
    retyped,
    swapped_digits,
    swing,
    swings,
    three_points,
    torque,
    weighed,
)
from bench_shafts import FIVE_INCHES
from loftwright.constants import DEGREE, GRAM, INCH, MILLIMETRE
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.bench import fit
from loftwright.physics.bench.beliefs import Beliefs
from loftwright.physics.bench.measure import expected, measure
from loftwright.physics.bench.readings import Balance, Diameter, Reading, ThreePoint
from loftwright.physics.bench.slips import Slip
from loftwright.physics.shaft.mount import End

TABLE = noisy(three_points(PLAIN), np.random.default_rng(1))
BAD = 9


def with_bad(bad: Reading) -> list[Reading]:
    return [*TABLE[:BAD], bad, *TABLE[BAD + 1 :]]


def seen_from_to(readings: list[Reading]) -> tuple[float, float]:
    piece = measure(LENGTH, readings).piece
    seen = piece.stations[piece.bending.seen]
    return (float(seen[0]), float(seen[-1])) if seen.size else (0.0, 0.0)


def test_twenty_two_readings_give_the_shaft_within_its_ranges() -> None:
    found = measure(LENGTH, [*TABLE, *weighed(PLAIN), swing(PLAIN), torque(PLAIN)])
    piece = found.piece
    truth = bending_at(PLAIN, piece.stations)
    seen = piece.bending.seen
    assert seen.sum() > 35
    assert (piece.bending.low() < truth)[seen].all()
    assert (piece.bending.high() > truth)[seen].all()
    assert found.doubts == ()
    assert found.without is None
    assert piece.mass.value == pytest.approx(62.0 * GRAM, rel=2e-3)
    assert piece.balance.value == pytest.approx(LENGTH / 2.0, rel=2e-3)
    assert 0.0 < piece.mass.spread < 0.3 * GRAM
    assert piece.length == LENGTH
    assert max(abs(one.residual) for one in found.agreements) < 4.0


def test_ranges_hold_what_a_common_error_of_the_load_would_do() -> None:
    """However many readings, EI is not known better than the load cell: 1.25 % at least."""
    many = measure(LENGTH, TABLE * 4).piece
    assert many.bending.spread[many.bending.seen].min() > 0.0125


def test_beyond_the_last_support_only_the_prior_speaks() -> None:
    start, end = seen_from_to(three_points(PLAIN, 11, 76.2 * MILLIMETRE))
    assert 0.0 < start <= 0.1
    assert 0.91 < end < 0.15 + 10 * 0.0762 + 0.15
    piece = measure(LENGTH, three_points(PLAIN, 11, 76.2 * MILLIMETRE)).piece
    assert not piece.bending.seen[-1]
    assert piece.bending.spread[-1] > 2.0 * piece.bending.spread[20]


def test_a_gap_between_readings_is_not_seen() -> None:
    piece = measure(LENGTH, three_points(PLAIN, 3, 0.35)).piece
    at = {
        round(float(one), 3): bool(ok)
        for one, ok in zip(piece.stations, piece.bending.seen, strict=True)
    }
    assert at[0.15]
    assert at[0.5]
    assert not at[0.325]
    assert not at[0.675]


def test_one_frequency_sees_no_section() -> None:
    assert seen_from_to([swing(PLAIN)]) == (0.0, 0.0)
    assert seen_from_to([swing(PLAIN), *weighed(PLAIN)]) == (0.0, 0.0)


def test_frequencies_by_the_butt_never_show_a_tip() -> None:
    start, end = seen_from_to([*swings(PLAIN), *weighed(PLAIN)])
    assert start < 0.3
    assert 0.7 < end < 0.951


def test_a_short_lever_by_the_tip_sees_the_tip() -> None:
    table = three_points(PLAIN, 11, 76.2 * MILLIMETRE)
    before = measure(LENGTH, table).piece
    levers = [lever(PLAIN, 0.15), lever(PLAIN, 0.25)]
    after = measure(LENGTH, [*table, *levers]).piece
    tip = (after.stations > 1.02) & (after.stations < 1.1)
    assert not before.bending.seen[tip].all()
    assert after.bending.seen[tip].all()
    assert (after.bending.spread[tip] < 0.7 * before.bending.spread[tip]).all()
    inside = after.stations > LENGTH - 0.03
    assert not after.bending.seen[inside].any()


def test_one_torque_tells_the_twist_and_not_the_torsion_by_station() -> None:
    found = measure(LENGTH, [torque(PLAIN), *weighed(PLAIN)])
    assert not found.piece.torsion.seen.any()
    again = expected(found.solution, torque(PLAIN))
    assert again.value == pytest.approx(torque(PLAIN).value, rel=0.01)
    assert again.spread < 0.02 * again.value
    assert found.piece.torsion.spread.min() > 0.03


def test_torques_at_several_places_tell_torsion_between_them() -> None:
    places = np.arange(0.25, 1.12, 0.1)
    found = measure(LENGTH, [torque(PLAIN, float(place)) for place in places])
    assert found.piece.torsion.seen.sum() > 5
    seen = found.piece.torsion.seen
    truth = np.interp(found.piece.stations, PLAIN.stations, PLAIN.torsion)
    assert (found.piece.torsion.low() < truth)[seen].all()
    assert (found.piece.torsion.high() > truth)[seen].all()


def test_swapped_digits_are_named_and_the_shaft_without_them_is_beside() -> None:
    digits = TABLE[BAD].typed
    found = measure(LENGTH, with_bad(retyped(TABLE[BAD], swapped_digits(digits))))
    assert [doubt.place for doubt in found.doubts] == [BAD]
    doubt = found.doubts[0]
    assert abs(doubt.surprise) > 10.0
    assert doubt.mends[0].slip is Slip.SWAPPED_DIGITS
    mended = doubt.mends[0].reading
    assert mended is not None
    assert mended.value == pytest.approx(TABLE[BAD].value)
    assert found.without is not None
    truth = bending_at(PLAIN, found.piece.stations)
    seen = found.without.bending.seen
    assert ((found.without.bending.low() < truth) & (found.without.bending.high() > truth))[
        seen
    ].all()


def test_nothing_is_removed_silently() -> None:
    """The piece is made of all readings, the strange one too; it stands in the agreements."""
    digits = TABLE[BAD].typed
    bad = with_bad(retyped(TABLE[BAD], swapped_digits(digits)))
    found = measure(LENGTH, bad)
    assert found.without is not None
    assert [one.reading for one in found.agreements] == bad
    near = np.abs(found.piece.stations - 0.4929).argmin()
    assert found.piece.bending.values[near] > 1.01 * found.without.bending.values[near]
    assert abs(found.agreements[BAD].surprise) > 4.0


def test_a_slipped_decimal_point_is_named() -> None:
    digits = TABLE[BAD].typed
    found = measure(LENGTH, with_bad(retyped(TABLE[BAD], f"{float(digits) * 10:.2f}")))
    assert [doubt.place for doubt in found.doubts] == [BAD]
    assert found.doubts[0].mends[0].slip is Slip.DECIMAL_POINT


def test_a_load_in_pounds_is_named() -> None:
    reading = TABLE[BAD]
    assert isinstance(reading, ThreePoint)
    found = measure(LENGTH, with_bad(replace(reading, force=reading.force / 4.4482216)))
    assert found.doubts[0].mends[0].slip is Slip.UNIT
    mended = found.doubts[0].mends[0].reading
    assert isinstance(mended, ThreePoint)
    assert mended.force == pytest.approx(reading.force, rel=1e-6)


def test_another_span_in_use_is_named() -> None:
    wide = [
        replace(one, span=0.25)
        for one in three_points(PLAIN, 5, 0.15)
        if isinstance(one, ThreePoint)
    ]
    wide = [replace(one, value=one.value * (0.25 / 0.3) ** 3) for one in wide]
    reading = wide[2]
    bad = replace(reading, span=0.3)
    found = measure(LENGTH, [*TABLE, *wide[:2], bad, *wide[3:]])
    assert [doubt.place for doubt in found.doubts] == [len(TABLE) + 2]
    assert found.doubts[0].mends[0].slip is Slip.SPAN


def test_another_station_is_named() -> None:
    there = TABLE[BAD + 5]
    reading = TABLE[BAD]
    assert isinstance(reading, ThreePoint)
    found = measure(LENGTH, with_bad(replace(reading, value=there.value, typed="")))
    assert found.doubts[0].place == BAD
    assert found.doubts[0].mends[0].slip is Slip.STATION
    mended = found.doubts[0].mends[0].reading
    assert isinstance(mended, ThreePoint)
    assert abs(mended.station - (0.15 + 0.0381 * (BAD + 5))) < 0.05


def test_another_clamp_depth_is_named() -> None:
    clean = [*TABLE, *weighed(PLAIN), *swings(PLAIN)[:3]]
    wrong = replace(
        swing(PLAIN), mount=replace(FIVE_INCHES, clamp=127.0 * MILLIMETRE + 1.0 * INCH)
    )
    found = measure(LENGTH, [*clean, wrong, swing(PLAIN, 0.15)])
    assert [doubt.place for doubt in found.doubts] == [len(clean)]
    assert found.doubts[0].mends[0].slip is Slip.CLAMP


def test_two_wrong_readings_are_both_named() -> None:
    bad = list(TABLE)
    bad[4] = retyped(TABLE[4], swapped_digits(TABLE[4].typed))
    bad[15] = retyped(TABLE[15], f"{2.0 * float(TABLE[15].typed):.3f}")
    found = measure(LENGTH, bad)
    assert {doubt.place for doubt in found.doubts} == {4, 15}


def test_a_reading_that_no_slip_explains_is_said_to_be_unknown() -> None:
    bad = replace(TABLE[BAD], value=3.3 * TABLE[BAD].value, typed="")
    found = measure(LENGTH, with_bad(bad))
    assert found.doubts[0].mends[0].slip is Slip.UNKNOWN
    assert found.doubts[0].mends[0].reading is None


def test_a_lone_reading_that_no_shaft_gives_is_doubted() -> None:
    reading = three_points(PLAIN, 1)[0]
    found = measure(LENGTH, [replace(reading, value=8.0 * MILLIMETRE)])
    assert [doubt.place for doubt in found.doubts] == [0]
    assert found.without is not None
    assert not found.without.bending.seen.any()


def test_no_reading_and_a_far_diameter_are_refused() -> None:
    with pytest.raises(InputError, match="there is no reading"):
        measure(LENGTH, [])
    with pytest.raises(InputError, match="beyond a shaft"):
        measure(LENGTH, TABLE, [Diameter(station=1.2, value=9.0 * MILLIMETRE)])
    kept = measure(LENGTH, TABLE, [Diameter(station=0.1, value=15.2 * MILLIMETRE)]).piece
    assert kept.diameters[0].value == 15.2 * MILLIMETRE


def test_a_set_up_that_does_not_suit_the_shaft_is_told_with_its_reading() -> None:
    reading = TABLE[3]
    assert isinstance(reading, ThreePoint)
    with pytest.raises(InputError, match="reading 23, span"):
        measure(LENGTH, [*TABLE, replace(reading, station=1.1)])


def test_readings_that_do_not_settle_name_the_strangest(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fit, "MOST_STEPS", 1)
    bad = with_bad(retyped(TABLE[BAD], swapped_digits(TABLE[BAD].typed)))
    with pytest.raises(ConvergenceError, match=f"reading {BAD + 1}"):
        measure(LENGTH, bad)


def test_the_piece_goes_back_to_the_bench() -> None:
    """Its profile can be trimmed and swung like any other, and gives the readings again."""
    readings = [*TABLE, *weighed(PLAIN), swing(PLAIN), swing(PLAIN, held=End.TIP), torque(PLAIN)]
    found = measure(LENGTH, readings)
    profile = found.piece.profile()
    from bench_shafts import cycles  # noqa: PLC0415

    assert cycles(profile) == pytest.approx(cycles(PLAIN), rel=5e-3)
    assert expected(found.solution, torque(PLAIN)).value / DEGREE == pytest.approx(
        torque(PLAIN).value / DEGREE, rel=0.01
    )


def test_a_narrower_belief_gives_a_narrower_range() -> None:
    narrow = measure(LENGTH, TABLE, beliefs=Beliefs(static_scale=1e-6)).piece
    usual = measure(LENGTH, TABLE).piece
    assert (narrow.bending.spread <= usual.bending.spread + 1e-12).all()


def test_a_balance_in_the_wrong_place_is_refused() -> None:
    with pytest.raises(InputError, match="does not balance"):
        measure(LENGTH, [*TABLE, Balance(value=0.2)])
