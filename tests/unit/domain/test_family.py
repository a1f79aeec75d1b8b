"""Claims of a family: none without a known spread, and seldom a false one with it."""

from math import exp, log, sqrt

import numpy as np
import pytest
from scipy import stats

from loftwright.domain.family import against, spread_of
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.sections import Section
from shafts import a_profile, times


def samples(
    *factors: float, noise: float = 0.002, bench: str = "Bench 1", scale: float = 0.0
) -> list[MeasuredProfile]:
    """Return samples of one model, each stiffer throughout by its factor."""
    return [
        a_profile(times(factor), piece=f"p{place}", noise=noise, bench=bench, scale=scale)
        for place, factor in enumerate(factors)
    ]


def test_one_sample_each_bears_no_claim_however_large() -> None:
    models = {"old": samples(1.0), "new": samples(1.3)}
    assert spread_of(models, Section.TIP) is None
    found = against(models["new"], models["old"], Section.TIP, None)
    assert found is not None
    assert found.log == pytest.approx(log(1.3))
    assert found.margin is None
    assert not found.claimed


def test_the_margin_is_students_t_of_the_pooled_spread() -> None:
    """Student's two-sample test with equal spreads, as scipy computes it."""
    old, new = (1.00, 1.02, 0.97), (0.93, 0.95)
    models = {"old": samples(*old, noise=1e-5), "new": samples(*new, noise=1e-5)}
    spread = spread_of(models, Section.BUTT)
    found = against(models["new"], models["old"], Section.BUTT, spread)
    assert spread is not None
    assert found is not None
    assert found.margin is not None
    reference = stats.ttest_ind(np.log(new), np.log(old), equal_var=True)
    low, high = reference.confidence_interval(0.95)
    assert found.log == pytest.approx((low + high) / 2.0, abs=1e-9)
    assert found.margin == pytest.approx((high - low) / 2.0, rel=1e-6)
    assert spread.freedom == reference.df == 3
    assert found.claimed is bool(reference.pvalue < 0.05)


def test_the_spread_is_never_below_what_the_bench_shows() -> None:
    spread = spread_of({"one": samples(1.0, 1.0, noise=0.01)}, Section.BUTT)
    assert spread is not None
    assert spread.sd == pytest.approx(0.01, rel=1e-6)


def test_a_claim_smaller_than_the_spread_is_refused() -> None:
    models = {"old": samples(1.0, 1.06, 0.95), "new": samples(0.96)}
    found = against(models["new"], models["old"], Section.TIP, spread_of(models, Section.TIP))
    assert found is not None
    assert not found.claimed
    models["new"] = samples(0.7)
    found = against(models["new"], models["old"], Section.TIP, spread_of(models, Section.TIP))
    assert found is not None
    assert found.claimed


def test_benches_that_differ_widen_the_margin() -> None:
    models = {"old": samples(1.0, 1.01, scale=0.02)}
    here = samples(0.9, 0.91, scale=0.02)
    there = samples(0.9, 0.91, scale=0.02, bench="Bench 2")
    spread = spread_of(models, Section.TIP)
    near, far = (against(one, models["old"], Section.TIP, spread) for one in (here, there))
    assert near is not None
    assert far is not None
    assert near.margin is not None
    assert far.margin is not None
    assert spread is not None
    t = stats.t.ppf(0.975, spread.freedom)
    assert near.margin == pytest.approx(t * spread.sd)
    assert far.margin == pytest.approx(t * sqrt(spread.sd**2 + 2 * 0.02**2))


def test_what_was_not_seen_has_no_figure() -> None:
    blind = [a_profile(blind_from=0.95)]
    assert against(blind, samples(1.0), Section.TIP, None) is None
    assert spread_of({"one": [*blind, *samples(1.0)]}, Section.TIP) is None


def test_equal_models_are_seldom_told_apart() -> None:
    """Two in a hundred beyond five at most, over 400 families of equal models, seeds 1 to 400."""
    claims = 0
    for seed in range(1, 401):
        rng = np.random.default_rng(np.random.PCG64(seed))
        drawn = np.exp(rng.normal(0.0, 0.03, size=5))
        models = {"old": samples(*drawn[:3]), "new": samples(*drawn[3:])}
        spread = spread_of(models, Section.TIP)
        found = against(models["new"], models["old"], Section.TIP, spread)
        claims += found is not None and found.claimed
    assert claims <= 28


def test_a_true_difference_lies_within_its_margin() -> None:
    """Within 95 of 100 but for three standard errors, over 400 families, seeds 401 to 800."""
    held = 0
    for seed in range(401, 801):
        rng = np.random.default_rng(np.random.PCG64(seed))
        drawn = np.exp(rng.normal(0.0, 0.03, size=5))
        models = {"old": samples(*drawn[:3]), "new": samples(*(exp(-0.05) * drawn[3:]))}
        found = against(models["new"], models["old"], Section.TIP, spread_of(models, Section.TIP))
        held += (
            found is not None
            and found.margin is not None
            and abs(found.log + 0.05) <= found.margin
        )
    assert 367 <= held <= 393
