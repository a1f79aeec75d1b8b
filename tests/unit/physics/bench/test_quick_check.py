"""Three figures of today against a kept shaft, and what handling explains that they differ."""

from dataclasses import replace

import numpy as np
import pytest

from bench_readings import PLAIN, shaft
from bench_shafts import WEIGHT
from loftwright.constants import GRAM, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.bench.handling import Cause, QuickReading, predicted
from loftwright.physics.bench.quick_check import Kept, QuickCheck, quick_check
from loftwright.physics.bench.readings import Balance, Frequency, Mass
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import BARE, Dressing, Mount
from loftwright.physics.shaft.profile import Profile, trimmed

CLAMP = 127.0 * MILLIMETRE
GRIP = Dressing(grip_mass=50.0 * GRAM, grip_length=265.0 * MILLIMETRE)
SLEEVE = Dressing(
    sleeve_mass=7.0 * GRAM, sleeve_length=36.0 * MILLIMETRE, sleeve_balance=18.0 * MILLIMETRE
)
FIRMER = shaft(1.06 * PLAIN.bending, 65.5 * GRAM)


def kept_of(profile: Profile) -> Kept:
    return Kept(profile=profile, mass_error=0.002, balance_error=0.002, frequency_error=0.004)


KEPT = kept_of(PLAIN)


def today(
    profile: Profile = PLAIN,
    *,
    seed: int = 1,
    on_it: Dressing = BARE,
    stated: Dressing = BARE,
    clamp: float = CLAMP,
    weight: TipBody = WEIGHT,
) -> list[QuickReading]:
    """Return what a bench reads of a shaft as it is, under the set-up that somebody stated."""
    rng = np.random.default_rng(seed)
    found: list[QuickReading] = []
    for one in (
        Mass(value=0.06, dressing=on_it),
        Balance(value=0.5, dressing=on_it),
        Frequency(mount=Mount(clamp=clamp, dressing=on_it), weight=weight, value=4.0),
    ):
        value = predicted(profile, one) * float(np.exp(one.sigma * rng.standard_normal()))
        if isinstance(one, Frequency):
            mount = Mount(clamp=CLAMP, dressing=stated)
            found.append(replace(one, mount=mount, weight=WEIGHT, value=value))
        else:
            found.append(replace(one, dressing=stated, value=value))
    return found


def test_the_kept_shaft_agrees_with_itself_on_99_days_of_100() -> None:
    agreed = [quick_check(KEPT, today(seed=seed)).agrees for seed in range(1, 201)]
    assert sum(agreed) >= 196


def test_a_shaft_that_agrees_has_no_explanation() -> None:
    found = quick_check(KEPT, today(), length=PLAIN.length)
    assert found.likely == ()
    assert [one.figure for one in found.figures] == ["mass", "balance", "frequency", "length"]
    assert found.figures[3].off == pytest.approx(0.0, abs=1e-12)


def first(found: QuickCheck) -> tuple[Cause, float | None]:
    assert not found.agrees
    return found.likely[0].cause, found.likely[0].size


@pytest.mark.parametrize(
    ("readings", "cause", "size", "within"),
    [
        (today(trimmed(PLAIN, tip=0.02)), Cause.TRIMMED_TIP, 0.02, 0.003),
        (today(trimmed(PLAIN, butt=0.03)), Cause.TRIMMED_BUTT, 0.03, 0.003),
        (today(on_it=GRIP), Cause.GRIP_ON, 0.05, 0.001),
        (today(on_it=SLEEVE), Cause.SLEEVE_ON, 0.007, 0.0005),
        (today(clamp=0.152), Cause.CLAMP, 0.025, 0.01),
    ],
    ids=["tip", "butt", "grip", "sleeve", "clamp"],
)
def test_usual_handling_is_named_with_its_size(
    readings: list[QuickReading], cause: Cause, size: float, within: float
) -> None:
    found = first(quick_check(KEPT, readings))
    assert found[0] is cause
    assert found[1] == pytest.approx(size, abs=within)


def test_a_grip_and_a_sleeve_that_are_stated_and_not_on_it_are_named() -> None:
    assert first(quick_check(KEPT, today(stated=SLEEVE))) == (Cause.SLEEVE_OFF, None)
    assert first(quick_check(KEPT, today(stated=GRIP))) == (Cause.GRIP_OFF, None)


def test_a_frequency_that_is_off_alone_names_clamp_and_weight_beside_another_piece() -> None:
    """One figure cannot tell them apart: both fit exactly."""
    found = quick_check(KEPT, today(weight=TipBody(mass=190.0 * GRAM)))
    assert [one.cause for one in found.likely] == [
        Cause.CLAMP,
        Cause.WEIGHT,
        Cause.ANOTHER_PIECE,
    ]
    assert found.likely[1].size == pytest.approx(-15.0 * GRAM, abs=3.0 * GRAM)


def test_another_piece_is_named_and_by_its_name_where_it_is_kept() -> None:
    readings = today(FIRMER)
    assert first(quick_check(KEPT, readings))[0] is Cause.ANOTHER_PIECE
    others = {"Alder 3": kept_of(shaft(0.9 * PLAIN.bending)), "Birch 2": kept_of(FIRMER)}
    best = quick_check(KEPT, readings, others=others).likely[0]
    assert (best.cause, best.name) == (Cause.LABELS, "Birch 2")


def test_a_length_tells_a_tip_from_a_butt() -> None:
    short = trimmed(PLAIN, tip=0.005)
    found = quick_check(KEPT, today(short), length=short.length)
    assert first(found)[0] is Cause.TRIMMED_TIP
    lengths = [one for one in found.figures if one.figure == "length"]
    assert lengths[0].surprise == pytest.approx(-5.0, abs=0.1)


def test_nothing_read_and_an_error_that_is_none_are_refused() -> None:
    with pytest.raises(InputError, match="no figure of today"):
        quick_check(KEPT, [])
    with pytest.raises(InputError, match="cannot be used"):
        replace(KEPT, mass_error=-0.1)
    with pytest.raises(InputError, match="shaft length"):
        quick_check(KEPT, today(), length=1143.0)
