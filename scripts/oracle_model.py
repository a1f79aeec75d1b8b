"""The comparison's equations as a density, sampled by the no-U-turn sampler.

A ball's launch follows y = B x + u_club + e with multivariate t errors; x holds the true strike,
which is seen through a mark with error, and its square. Everything that is not fixed is sampled:
coefficients, effects, every strike, every delivery reading that is missing and, if asked for, the
residual's scale matrix, the clubs' scale and the strike pattern. Discrete unknowns (the order of
marks in a set, the view of heads, the grid of scales) are summed over. No expectation, no weights
and no approximation of the comparison's own solver is used.

The unknowns of a regression are sampled along the axes of a normal approximation with unit
weights. That is a change of variables, which leaves the posterior as it is.

References
----------
Hoffman & Gelman 2014, The No-U-Turn Sampler, Journal of Machine Learning Research 15:1593.
Phan, Pradhan & Jankowiak 2019, Composable effects for flexible and accelerated probabilistic
programming in NumPyro, arXiv 1912.11554.
"""

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import jax
import jax.numpy as jnp
import numpy as np
from jax import Array
from jax.scipy.special import gammaln, logsumexp
from numpyro.diagnostics import effective_sample_size, split_gelman_rubin
from numpyro.infer import MCMC, NUTS

from oracle_rows import Floats, Stage, Unknown

jax.config.update("jax_enable_x64", True)

RESIDUAL_BALLS = 12.0
PATTERN_MEAN_BALLS = 4.0
PATTERN_BALLS = 8.0
SCALE_LOG_SD = 0.7

Unknowns = Mapping[str, Array]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spec:
    """What is sampled.

    Attributes
    ----------
    tail_df : float
        Of the errors; infinite for normal ones.
    fixed_scale : bool
        The clubs' scale is one and heads may differ, instead of unknown.
    spreads : bool
        Residual scale matrix, scale of the clubs (continuous) and strike pattern are sampled.
    """

    tail_df: float = 6.0
    fixed_scale: bool = False
    spreads: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Draws:
    """Draws of a stage, chains first."""

    theta: Floats
    pattern_mean: Floats | None
    worst_rhat: float
    least_ess: float
    divergences: int
    seconds: float


def normal_axes(stage: Stage) -> tuple[Floats, Floats]:
    """Return centre and axes of a normal approximation to the unknowns, unit weights."""
    responses, columns = stage.mean.shape
    width = columns + stage.clubs
    whole = np.hstack([stage.covariates, np.eye(stage.clubs)[stage.club]])
    share = np.ones(len(whole))
    for orders in stage.orders:
        rows, times = np.unique(orders, return_counts=True)
        share[rows] = times / len(orders)
    index = np.arange(responses * width).reshape(responses, width)
    precision = np.zeros((responses * width,) * 2)
    plain = index[:, :columns].ravel()
    precision[plain, plain] = stage.sd.ravel() ** -2.0
    effect = index[:, columns:].ravel()
    precision[np.ix_(effect, effect)] = stage.effect_precisions[-1]
    start = np.hstack([stage.mean, stage.effects]).ravel()
    pull = precision @ start
    for kind, seen in enumerate(stage.seen):
        spread = stage.mean @ stage.directions[kind].T
        noise = stage.residual + (spread * stage.variances[kind]) @ spread.T
        noise = noise + np.diag(stage.extra[kind])
        inverse = np.zeros_like(noise)
        inverse[np.ix_(seen, seen)] = np.linalg.inv(noise[np.ix_(seen, seen)])
        rows = stage.kind == kind
        weighted = whole[rows] * share[rows, None]
        precision += np.kron(inverse, weighted.T @ whole[rows])
        pull += (inverse @ stage.responses[rows].T @ weighted).ravel()
    axes = np.linalg.inv(np.linalg.cholesky(precision)).T
    return np.asarray(np.linalg.solve(precision, pull)), np.asarray(axes)


def density(stage: Stage, spec: Spec) -> Callable[[Unknowns], Array]:
    """Return the log posterior density of a stage's unknowns, up to a constant."""
    centre, axes = normal_axes(stage)
    effects = _effects_density(stage, spec)
    likelihood = _likelihood(stage, spec)
    columns = stage.mean.shape[1]

    def log_density(unknowns: Unknowns) -> Array:
        theta = unfold(stage, centre, axes, unknowns["axes"])
        away = (theta[:, :columns] - stage.mean) / stage.sd
        total = -0.5 * (away**2).sum() + effects(theta[:, columns:], unknowns)
        total += likelihood(theta, unknowns)
        for name in ("strike", "gaps", "scale"):
            if name in unknowns:
                total += -0.5 * (unknowns[name] ** 2).sum()
        if spec.spreads:
            total += _residual_density(unknowns["residual"], stage.mean.shape[0])
        if "pattern" in unknowns and stage.unknown is not None:
            total += _pattern_density(stage.unknown, unknowns["pattern"])
        return total

    return log_density


def unfold(stage: Stage, centre: Floats, axes: Floats, along: Array) -> Array:
    """Return coefficients and effects from their places along the axes, shape (R, P + S)."""
    shape = (stage.mean.shape[0], stage.mean.shape[1] + stage.clubs)
    return (centre + axes @ along).reshape(shape)


def _effects_density(stage: Stage, spec: Spec) -> Callable[[Array, Unknowns], Array]:
    """Log prior of the effects, views and grid of scales summed over."""
    determinants = np.linalg.slogdet(stage.effect_precisions)[1]
    count = stage.effects.size
    precisions = jnp.asarray(stage.effect_precisions)
    grid = np.ones(1) if spec.fixed_scale else stage.scales
    logs = np.log(grid)
    grid_prior = -0.5 * (logs / SCALE_LOG_SD) ** 2

    def log_prior(effects: Array, unknowns: Unknowns) -> Array:
        away = (effects - stage.effects).ravel()
        energies = jnp.einsum("i,vij,j->v", away, precisions, away)
        if spec.fixed_scale:
            return -0.5 * energies[-1]
        if spec.spreads:
            log_scale = SCALE_LOG_SD * unknowns["scale"][0]
            return logsumexp(
                0.5 * (determinants - count * log_scale - energies * jnp.exp(-log_scale))
            )
        cells = 0.5 * (determinants[:, None] - count * logs - energies[:, None] / grid)
        return logsumexp(cells + grid_prior)

    return log_prior


def _residual_factor(unknowns: Array, size: int) -> Array:
    """Lower triangle with positive diagonal from free numbers, diagonal first."""
    below = jnp.zeros((size, size)).at[jnp.tril_indices(size, -1)].set(unknowns[size:])
    return below + jnp.diag(jnp.exp(unknowns[:size]))


def _residual_density(unknowns: Array, size: int) -> Array:
    """Log density of the residual in units of its prior mean.

    Inverse Wishart of mean I whose posterior mean from n known residuals is (12 I + S) / (12 + n),
    so its degrees of freedom are 12 + R + 1; the last sums are the Jacobian of M M' and of logs.
    """
    factor = _residual_factor(unknowns, size)
    inverse = jax.scipy.linalg.solve_triangular(factor, jnp.eye(size), lower=True)
    df = RESIDUAL_BALLS + size + 1.0
    logs = unknowns[:size]
    jacobian = ((size - jnp.arange(size)) * logs).sum() + logs.sum()
    return -(df + size + 1.0) * logs.sum() - 0.5 * RESIDUAL_BALLS * (inverse**2).sum() + jacobian


def _pattern(unknown: Unknown, numbers: Array) -> tuple[Array, Array]:
    """Mean and variance of the golfer's strike, of shape (2,) each."""
    sd = unknown.pattern_sd
    return numbers[:2] * sd, sd**2 * jnp.exp(numbers[2:])


def _pattern_density(unknown: Unknown, numbers: Array) -> Array:
    """Log density of the strike pattern given the marks, whoever's they are.

    Scaled inverse chi-square of eight balls for the variance, four balls at the middle for the
    mean; the sampled numbers are mean / sd and the log of variance / sd^2.
    """
    mean, variance = _pattern(unknown, numbers)
    ratio = jnp.exp(numbers[2:])
    prior = -0.5 * PATTERN_BALLS * (numbers[2:] + 1.0 / ratio)
    prior += -0.5 * PATTERN_MEAN_BALLS * numbers[:2] ** 2 / ratio - 0.5 * numbers[2:]
    spread = variance + unknown.errors[:, None] ** 2
    marks = -0.5 * (unknown.marks - mean) ** 2 / spread - 0.5 * jnp.log(spread)
    return prior.sum() + marks.sum()


def _covariates(stage: Stage, unknowns: Unknowns) -> Array:
    """Return the covariates of every row with the sampled strikes and readings in them."""
    rows = jnp.asarray(stage.covariates)
    unknown = stage.unknown
    if unknown is None:
        return rows
    if unknown.linear:
        expected, left = unknown.expected, unknown.left
        if "pattern" in unknowns:
            mean, variance = _pattern(unknown, unknowns["pattern"])
            pull = variance / (variance + unknown.row_error[:, None] ** 2)
            marked = np.isfinite(unknown.row_error)[:, None]
            expected = mean + pull * (jnp.where(marked, unknown.row_mark, 0.0) - mean)
            expected = jnp.where(marked, expected, mean)
            left = variance * (1.0 - pull)
        strike = expected + jnp.sqrt(left) * unknowns["strike"]
        rows = rows.at[:, np.array(unknown.linear)].set(strike)
        rows = rows.at[:, np.array(unknown.square)].set(strike**2)
    if unknown.gaps:
        row, column, variance = zip(*unknown.gaps, strict=True)
        shift = np.sqrt(np.array(variance)) * unknowns["gaps"]
        rows = rows.at[np.array(row), np.array(column)].add(shift)
    return rows


def _likelihood(stage: Stage, spec: Spec) -> Callable[[Array, Unknowns], Array]:
    """Log likelihood of the balls, orders of marks summed over."""
    size, columns = stage.mean.shape
    both = stage.seen[:, :, None] & stage.seen[:, None, :]
    count = stage.seen.sum(axis=1)[stage.kind].astype(np.float64)
    none = [np.zeros(0, dtype=np.int64)]
    listed = np.concatenate([*none, *(orders.ravel() for orders in stage.orders)])
    alone = np.setdiff1d(np.arange(len(stage.kind)), listed)
    root = np.linalg.cholesky(stage.residual)
    nu = spec.tail_df
    members = jnp.asarray(np.eye(stage.clubs)[stage.club])

    def log_likelihood(theta: Array, unknowns: Unknowns) -> Array:
        residual = jnp.asarray(stage.residual)
        if spec.spreads:
            factor = root @ _residual_factor(unknowns["residual"], size)
            residual = factor @ factor.T
        spread = jnp.einsum("rp,kdp->krd", theta[:, :columns], stage.directions)
        noise = residual + jnp.einsum("krd,kd,ksd->krs", spread, stage.variances, spread)
        noise = noise + jnp.eye(size) * stage.extra[:, None, :]
        factors = jnp.linalg.cholesky(jnp.where(both, noise, jnp.eye(size)))
        logs = jnp.log(jnp.diagonal(factors, axis1=1, axis2=2)).sum(axis=1)
        fitted = (
            _covariates(stage, unknowns) @ theta[:, :columns].T + members @ theta[:, columns:].T
        )
        away = jnp.where(stage.seen[stage.kind], stage.responses - fitted, 0.0)
        inverse = jax.scipy.linalg.solve_triangular(
            factors, jnp.broadcast_to(jnp.eye(size), factors.shape), lower=True
        )
        distance = (jnp.einsum("nrs,ns->nr", inverse[stage.kind], away) ** 2).sum(axis=1)
        if np.isinf(nu):
            log_ball = -0.5 * distance - 0.5 * count * np.log(2.0 * np.pi)
        else:
            log_ball = -0.5 * (nu + count) * jnp.log1p(distance / nu)
            log_ball += gammaln(0.5 * (nu + count)) - 0.5 * count * np.log(nu * np.pi)
        log_ball = log_ball - logs[stage.kind]
        total = log_ball[alone].sum()
        for orders in stage.orders:
            total += logsumexp(log_ball[orders].sum(axis=1)) - np.log(len(orders))
        return total

    return log_likelihood


def starts(stage: Stage, spec: Spec, chains: int, rng: np.random.Generator) -> dict[str, Floats]:
    """Return dispersed starting places of every chain."""
    size, columns = stage.mean.shape
    shapes = {"axes": size * (columns + stage.clubs)}
    found = {name: rng.normal(size=(chains, count)) for name, count in shapes.items()}
    unknown = stage.unknown
    if unknown is not None and unknown.linear:
        found["strike"] = 0.5 * rng.normal(size=(chains, len(stage.kind), 2))
    if unknown is not None and unknown.gaps:
        found["gaps"] = 0.5 * rng.normal(size=(chains, len(unknown.gaps)))
    if spec.spreads:
        found["residual"] = 0.1 * rng.normal(size=(chains, size * (size + 1) // 2))
        found["scale"] = 0.5 * rng.normal(size=(chains, 1))
        if unknown is not None and unknown.linear:
            found["pattern"] = 0.2 * rng.normal(size=(chains, 4))
    return found


def sample(stage: Stage, spec: Spec, *, seed: int, chains: int, warm_up: int, draws: int) -> Draws:
    """Sample a stage.

    Parameters
    ----------
    stage : Stage
    spec : Spec
    seed : int
    chains, warm_up, draws : int
        Chains, and steps of each before and after its tuning ends.
    """
    log_density = density(stage, spec)
    begun = time.perf_counter()
    sampler = MCMC(
        NUTS(potential_fn=lambda unknowns: -log_density(unknowns), target_accept_prob=0.9),
        num_warmup=warm_up,
        num_samples=draws,
        num_chains=chains,
        chain_method="vectorized",
        progress_bar=False,
    )
    first = starts(stage, spec, chains, np.random.default_rng(seed))
    sampler.run(
        jax.random.PRNGKey(seed),
        init_params={name: jnp.asarray(value) for name, value in first.items()},
        extra_fields=("diverging",),
    )
    found = {k: np.asarray(v) for k, v in sampler.get_samples(group_by_chain=True).items()}
    centre, axes = normal_axes(stage)
    size, columns = stage.mean.shape
    theta = (centre + found["axes"] @ axes.T).reshape(chains, draws, size, columns + stage.clubs)
    pattern = None
    if "pattern" in found and stage.unknown is not None:
        pattern = found["pattern"][:, :, :2] * stage.unknown.pattern_sd
    everything = [value.reshape(chains, draws, -1) for value in found.values()]
    everything.append(theta.reshape(chains, draws, -1))
    flat = np.concatenate(everything, axis=2)
    # Each stage is compiled for itself; kept, the loops of twenty of them fill the memory.
    jax.clear_caches()
    return Draws(
        theta=theta,
        pattern_mean=pattern,
        worst_rhat=float(np.max(split_gelman_rubin(flat))),
        least_ess=float(np.min(effective_sample_size(flat))),
        divergences=int(np.asarray(sampler.get_extra_fields()["diverging"]).sum()),
        seconds=time.perf_counter() - begun,
    )


def summary(values: Floats) -> dict[str, Floats]:
    """Return mean, sd and the Monte Carlo errors of both, of draws with chains first."""
    mean = values.mean(axis=(0, 1))
    away = (values - mean) ** 2
    sd = np.sqrt(away.mean(axis=(0, 1)))
    ess = np.asarray(effective_sample_size(values))
    ess_of_squares = np.asarray(effective_sample_size(away))
    total = values.shape[0] * values.shape[1]
    return {
        "mean": mean,
        "sd": sd,
        "mean_error": sd / np.sqrt(np.minimum(ess, total)),
        "sd_error": away.std(axis=(0, 1))
        / np.sqrt(np.minimum(ess_of_squares, total))
        / (2.0 * sd),
        "ess": ess,
        "rhat": np.asarray(split_gelman_rubin(values)),
    }
