"""The comparison's own side of the check by sampling, and what both sides share."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from itertools import combinations
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.domain.home import Home
from loftwright.evidence.engine import fit
from loftwright.evidence.figures import Figure, as_swung, same_swing, swing_shift
from loftwright.evidence.flight_map import TOTAL, FlightMap, conditions_at, flight_map
from loftwright.evidence.model import Fit, Prior
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.value import with_holes
from loftwright.evidence.visit import Setup, set_up
from loftwright.evidence.worth import at_home, values
from oracle_fittings import FITTINGS

EXACT: Final = "exact"
EQUATIONS: Final = "equations"
MIXED: Final = "mixed"
LATENT: Final = "latent"
SPREADS: Final = "spreads"
VARIANTS: Final[Mapping[str, str]] = MappingProxyType(
    {
        EXACT: "normal errors, known spreads, one scale: the comparison's equations are exact",
        MIXED: "the same, scales and views of heads mixed: still exact",
        EQUATIONS: "t errors, known residual, scales and views mixed; strike as expected by the "
        "mark: the comparison's own equations, solved without its approximations",
        LATENT: "the same, but every ball's strike is an unknown of its own",
        SPREADS: "and the residual, the clubs' scale and the strike pattern are sampled too; "
        "against the comparison as it is in use",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stated:
    """Mean and sd of every pairwise difference, one row a pair."""

    mean: FloatArray
    sd: FloatArray


def variants_of(name: str) -> tuple[str, ...]:
    """Return the variants that a fitting is sampled in."""
    marked = bool(np.isfinite(FITTINGS[name].make().marks).any())
    return (
        *((EXACT, MIXED) if FITTINGS[name].exact else ()),
        EQUATIONS,
        *((LATENT,) if marked else ()),
        SPREADS,
    )


def pairs(clubs: int) -> tuple[tuple[int, int], ...]:
    """Return every pair of clubs, the first less the second."""
    return tuple(combinations(range(clubs), 2))


@cache
def setup_of(name: str) -> Setup:
    """Return the rows and beliefs of a fitting."""
    return set_up(FITTINGS[name].make(), FITTINGS[name].beliefs)


def usual_row(setup: Setup) -> FloatArray:
    """Return the plain mean of the covariates, fresh and undrifted."""
    row = setup.launch_rows.covariates.mean(axis=0)
    row[setup.columns.index("warm_up", "drift")] = 0.0
    return np.asarray(row)


def flights_of(setup: Setup) -> tuple[FlightMap, Home, FloatArray]:
    """Return flight map, home and scatter of single balls, the same for both sides."""
    conditions = conditions_at(Home())
    centre = np.nanmean(setup.balls.launch, axis=0)
    flights = flight_map(centre, [0, 1, 2, 3, 4], conditions)
    home = with_holes(Home(), float(flights.at_centre[TOTAL]))
    scatter = setup.ball_scatter * np.outer(LAUNCH_SCALE, LAUNCH_SCALE)
    return flights, home, scatter


def _as_in(variant: str, prior: Prior) -> Prior:
    if variant == SPREADS:
        return prior
    known = replace(prior, learn_residual=False, small_sample=0.0)
    if variant in {EXACT, MIXED}:
        known = replace(known, tail_df=np.inf)
    if variant != EXACT:
        return known
    return replace(
        known,
        scale_grid=np.array([1.0]),
        effect_precisions=prior.effect_precisions[-1:],
    )


@cache
def ours(name: str, variant: str) -> Mapping[str, Stated]:
    """Return what the comparison says of a fitting under the assumptions of a variant.

    Launch is in working units, value in metres. With the spreads learned its ranges are t ranges,
    whose sd is a little more than their scale.
    """
    setup = setup_of(name)
    clubs = len(setup.balls.clubs)
    launch = fit(setup.launch_rows, _as_in(variant, setup.launch_prior))
    row = usual_row(setup)
    same = same_swing(launch, row, clubs, setup.columns, setup.slopes)
    swung, shift, shift_wider = same, None, 1.0
    if setup.swing_rows is not None and setup.swing_prior is not None:
        swing = fit(setup.swing_rows, _as_in(variant, setup.swing_prior))
        shift = swing_shift(swing, clubs)
        shift_wider = _sd_of_t(swing) if variant == SPREADS else 1.0
        swung = as_swung(launch, row, shift, setup.strike, setup.columns, setup.slopes)
    wider = _sd_of_t(launch) if variant == SPREADS else 1.0
    found = {"same": _pairwise(same, wider)}
    if shift is not None:
        contrast = _contrasts(clubs)
        variance = np.einsum("ps,szty,pt->pzy", contrast, shift.covariance, contrast)
        sd = np.sqrt(np.diagonal(variance, axis1=1, axis2=2))
        found["shift"] = Stated(mean=contrast @ shift.mean, sd=shift_wider * sd)
        found["swung"] = _pairwise(swung, wider)
    flights, home, scatter = flights_of(setup)
    level, covariance = values(home, at_home(swung, flights, scatter))
    contrast = _contrasts(clubs)
    found["value"] = Stated(
        mean=contrast @ level,
        sd=wider * np.sqrt(np.diag(contrast @ covariance @ contrast.T)),
    )
    return found


def _sd_of_t(launch: Fit) -> float:
    return float(np.sqrt(launch.df / (launch.df - 2.0)))


def _contrasts(clubs: int) -> FloatArray:
    rows = np.zeros((len(pairs(clubs)), clubs))
    for place, (a, b) in enumerate(pairs(clubs)):
        rows[place, a], rows[place, b] = 1.0, -1.0
    return rows


def _pairwise(figure: Figure, wider: float) -> Stated:
    contrast = _contrasts(len(figure.launches))
    variance = np.einsum("ps,srtr,pt->pr", contrast, figure.covariance, contrast)
    return Stated(
        mean=contrast @ figure.launches / LAUNCH_SCALE,
        sd=wider * np.sqrt(variance) / LAUNCH_SCALE,
    )
