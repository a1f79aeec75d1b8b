"""Sets of three balls whose marks are read together, in unknown order.

Golfers of four abilities by turns, seeds 1 to n and no others, six clubs in sets of three, 40
balls. Every width is set against the same balls with marks in order, and with none. The bounds
were set before the figures were known; one that is missed is an expected failure with its figure
beside it.

With delivery measured the five launch numbers nearly tell the order by themselves, so little is
lost with it.
"""

from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest

from dealt_fittings import IN_TURN, ability_of
from loftwright.arrays import FloatArray
from loftwright.domain.home import Home
from loftwright.evidence.balls import Balls
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.figures import Figure
from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.evidence.spreads import JUDGED
from loftwright.evidence.visit import Beliefs
from loftwright.intake.table import ReadOptions, read_shots
from loftwright.services.read import balls_of
from loftwright.services.training import DealOptions, deal_fitting
from loftwright.training.device import DEVICES
from loftwright.training.judging import pair_variance, pairs_of
from loftwright.training.scenarios import Scenario
from loftwright.training.summary import Mean, coverage, mean_of
from loftwright.training.truth_study import StudyFitting, study_fitting
from loftwright.training.world import World
from study_tables import Say

GOLFERS = 200
FEWER = 100
BALLS, CLUBS, SET = 40, 6, 3

pytestmark = [pytest.mark.study, pytest.mark.xdist_group("marks of unknown order")]


@cache
def covering(marks: int) -> list[StudyFitting]:
    """Return fittings with the widths of the product's own rule, undoubled, and their truth."""
    world = World(device=DEVICES["full"], clubs=CLUBS, unordered_marks=marks)
    scenario = Scenario(world=world, table=JUDGED, order="sets")
    return [
        study_fitting(scenario, ability_of(number), number, (BALLS,))
        for number in range(1, GOLFERS + 1)
    ]


def pooled(name: str, places: range) -> Mean:
    """Return the share in range over several launch numbers, per cent."""
    return mean_of(
        [
            100.0 * float(np.mean(getattr(one.model.outcomes[0], name)[places]))
            for one in covering(SET)
        ]
    )


def test_the_ranges_of_the_launch_numbers_hold_the_truth_four_times_in_five(say: Say) -> None:
    found = pooled("same_80", range(3))
    say(f"marks of unknown order, speed, launch and spin from the same swing, 80 %: {found}")
    assert 76.0 <= found.mean <= 84.0


@pytest.mark.parametrize(
    "place",
    [
        pytest.param(
            0,
            marks=pytest.mark.xfail(
                strict=True,
                reason="85.6 % (s.e. 0.9) of ball speeds lie in their 80 % range, 86.2 (0.9) with "
                "marks in order",
            ),
        ),
        1,
        2,
        *(
            pytest.param(
                place,
                marks=pytest.mark.xfail(
                    strict=True,
                    reason="99 to 100 % in the 80 % range, as with marks in order: these clubs "
                    "have no axis or direction of their own from the same swing",
                ),
            )
            for place in (3, 4)
        ),
    ],
    ids=lambda place: LAUNCH_NAMES[place],
)
def test_the_range_of_each_launch_number_holds_the_truth_four_times_in_five(
    place: int, say: Say
) -> None:
    found = coverage(covering(SET), "same_80", place)
    ordered = coverage(covering(0), "same_80", place)
    say(
        f"marks of unknown order, {LAUNCH_NAMES[place]} from the same swing, 80 %: {found}; "
        f"in order {ordered}"
    )
    assert 76.0 <= found.mean <= 84.0


@pytest.mark.parametrize("place", range(5), ids=LAUNCH_NAMES)
def test_ranges_as_swung_hold_the_truth_four_times_in_five(place: int, say: Say) -> None:
    found = coverage(covering(SET), "swung_80", place)
    say(f"marks of unknown order, {LAUNCH_NAMES[place]} as swung, 80 %: {found}")
    assert 76.0 <= found.mean <= 84.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Widths:
    """One golfer's widths, those of unknown order over another kind of marks."""

    slopes: float
    same: float
    same_over_none: float
    own_mark: float


def read_balls(folder: Path, options: DealOptions) -> Balls:
    shots = folder / "shots.csv"
    deal_fitting(options, shots)
    return balls_of(read_shots(shots, ReadOptions()), "right", None)


def decided(balls: Balls, *, delivery: bool) -> Comparison:
    if not delivery:
        balls = replace(balls, delivery=np.full_like(balls.delivery, np.nan))
    return compare(balls, Home(), Beliefs())


def contrast_widths(figure: Figure) -> FloatArray:
    """Return the mean standard error of the differences of two clubs, one a launch number."""
    first, second = pairs_of(len(figure.launches))
    return np.array(
        [
            np.sqrt(pair_variance(figure.covariance[:, place, :, place], first, second)).mean()
            for place in range(len(LAUNCH_NAMES))
        ]
    )


def slope_errors(comparison: Comparison) -> FloatArray:
    """Return the standard errors of launch per strike, toe and high, shape (5, 2)."""
    fit = comparison.visit.launch
    deviation = np.sqrt(np.diag(fit.covariance)).reshape(fit.theta.shape)
    return np.asarray(deviation[:, comparison.visit.setup.columns.index("toe", "high")])


def own_mark(comparison: Comparison, ordered: Balls) -> float:
    """Return how probable the model finds each ball's own mark, on average."""
    rows = comparison.visit.setup.launch_rows
    strike = comparison.visit.setup.strike
    expected = strike.expected(ordered.marks)[rows.ball]
    seen = np.asarray(np.isfinite(ordered.marks).all(axis=1))[rows.ball]
    toe, high = comparison.visit.setup.columns.index("toe", "high")
    held = rows.covariates[:, [toe, high]] * 0.01
    own = seen & np.isclose(held, expected, atol=1e-9).all(axis=1)
    return float(comparison.visit.launch.probability[own].mean())


@cache
def widths(*, delivery: bool) -> list[Widths]:
    found = []
    with TemporaryDirectory() as name:
        folder = Path(name)
        for seed in range(1, FEWER + 1):
            options = DealOptions(seed=seed, clubs=CLUBS, balls=BALLS, golfer=ability_of(seed))
            ordered = read_balls(folder, options)
            mixed = read_balls(folder, replace(options, unordered_marks=SET))
            bare = replace(ordered, marks=np.full_like(ordered.marks, np.nan))
            unknown, known, none = (
                decided(balls, delivery=delivery) for balls in (mixed, ordered, bare)
            )
            same, same_known, same_none = (
                contrast_widths(one.visit.same) for one in (unknown, known, none)
            )
            found.append(
                Widths(
                    slopes=float((slope_errors(unknown) / slope_errors(known)).mean()),
                    same=float((same / same_known).mean()),
                    same_over_none=float((same / same_none).mean()),
                    own_mark=own_mark(unknown, ordered),
                )
            )
    return found


HOW = pytest.mark.parametrize("delivery", [True, False], ids=["full", "no delivery"])


def over(name: str, *, delivery: bool) -> Mean:
    return mean_of([getattr(one, name) for one in widths(delivery=delivery)])


def named(*, delivery: bool) -> str:
    return f"marks of unknown order, {'full' if delivery else 'no delivery'}"


@HOW
def test_slopes_are_less_sure_than_with_marks_in_order(delivery: bool, say: Say) -> None:
    found = over("slopes", delivery=delivery)
    say(f"{named(delivery=delivery)}: standard errors of slopes times {found}")
    assert found.mean > 1.0 + 2.0 * found.error


@HOW
def test_ranges_are_not_narrower_than_with_marks_in_order(delivery: bool, say: Say) -> None:
    found = over("same", delivery=delivery)
    say(f"{named(delivery=delivery)}: ranges from the same swing times {found} of those in order")
    assert found.mean >= 0.99


@HOW
def test_ranges_are_narrower_than_with_no_marks(delivery: bool, say: Say) -> None:
    found = over("same_over_none", delivery=delivery)
    say(f"{named(delivery=delivery)}: ranges from the same swing times {found} of those unmarked")
    assert found.mean < 1.0 - 2.0 * found.error


@HOW
def test_how_surely_launch_tells_the_order_is_printed(delivery: bool, say: Say) -> None:
    found = over("own_mark", delivery=delivery)
    say(f"{named(delivery=delivery)}: a ball's own mark is found with probability {found}")
    assert 1.0 / SET < found.mean < 1.0


def test_every_ability_takes_its_turn() -> None:
    assert {ability_of(seed) for seed in range(1, GOLFERS + 1)} == set(IN_TURN)
