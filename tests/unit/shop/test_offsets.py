"""Devices and bays are told apart through golfers, and as well as these allow."""

import numpy as np
import pytest

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.learned import Offset
from loftwright.shop.offsets import Level, offsets_of

SPIN = 2
BIAS = np.array([0.0, 0.0, 0.75, 0.0, 0.0])
"""By how much the device Quill reads more: 150 rpm of spin."""
GOLFERS = np.array([3.0, 2.0, 2.0, 1.5, 1.0])
DAYS = np.array([0.5, 0.4, 0.4, 0.3, 0.4])


def levels(seed: int, *, shared: int, alone: int) -> list[Level]:
    """Return golfers of whom some hit on both devices, and others on one each."""
    rng = np.random.default_rng(seed)
    doubt = np.diag([0.05] * 5)
    found = []
    for golfer in range(shared + alone):
        own = GOLFERS * rng.standard_normal(5)
        devices = ("Slate", "Quill") if golfer < shared else (("Slate", "Quill")[golfer % 2],)
        for device in devices:
            noise = DAYS * rng.standard_normal(5) + rng.multivariate_normal(np.zeros(5), doubt)
            found.append(
                Level(
                    golfer=f"g{golfer}",
                    fitting=f"f{golfer}{device}",
                    device=device,
                    bay="Bay 1",
                    mean=frozen_array(own + noise + (BIAS if device == "Quill" else 0.0)),
                    doubt=frozen_array(doubt),
                )
            )
    return found


def apart(offsets: tuple[Offset, ...]) -> tuple[FloatArray, FloatArray]:
    """Return by how much more Quill reads than Slate, and the larger of their doubts."""
    of = {one.name: one for one in offsets if one.kind == "device"}
    return of["Quill"].mean - of["Slate"].mean, np.maximum(of["Quill"].sd, of["Slate"].sd)


def test_golfers_who_hit_on_both_devices_tell_them_apart() -> None:
    missed = []
    for seed in range(20):
        found, _ = apart(offsets_of(levels(seed, shared=20, alone=0)))
        missed.append(found - BIAS)
    assert np.abs(np.mean(missed, axis=0)).max() < 0.12
    assert np.abs(missed).max() < 0.6


def test_without_a_golfer_on_both_the_doubt_is_that_of_golfers() -> None:
    """The bias is shrunk towards nought, and the range says how little is known."""
    shared, sure = apart(offsets_of(levels(4, shared=20, alone=0)))
    alone, unsure = apart(offsets_of(levels(4, shared=0, alone=40)))
    assert abs(shared[SPIN] - BIAS[SPIN]) < 0.3
    assert (unsure >= sure).all()
    assert np.abs(alone / np.hypot(unsure, unsure)).max() < 3.0


def test_ranges_cover_what_is_true_of_a_difference() -> None:
    """Offsets drawn as they are judged beforehand, and golfers on both: within two doubts."""
    inside = []
    for seed in range(30):
        found, sd = apart(offsets_of(levels(100 + seed, shared=8, alone=10)))
        inside.append(np.abs(found - BIAS) < 2.0 * np.sqrt(2.0) * sd)
    assert np.mean(inside) > 0.9


def test_a_bay_that_all_share_is_not_told_from_the_golfers() -> None:
    found = {one.kind: one for one in offsets_of(levels(2, shared=10, alone=0))}
    assert np.abs(found["bay"].mean).max() < 0.1
    assert found["bay"].sd == pytest.approx([0.25, 0.2, 0.25, 0.12, 0.3], rel=0.25)
    assert found["bay"].fittings == 20


def test_order_of_levels_does_not_matter() -> None:
    told = levels(9, shared=6, alone=6)
    one, other = offsets_of(told), offsets_of(told[::-1])
    for left, right in zip(one, other, strict=True):
        assert (left.kind, left.name) == (right.kind, right.name)
        assert left.mean == pytest.approx(right.mean, abs=1e-9)


def test_no_level_has_no_offset() -> None:
    assert offsets_of([]) == ()
