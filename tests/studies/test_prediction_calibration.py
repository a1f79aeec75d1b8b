"""Single balls of simulated golfers against the ranges predicted for them; seeds 1 to n.

The ball after 10, 20, ..., 60 balls with six clubs is predicted from those before it, with what
the product believes of golfers and clubs. Mishits and misreadings are among the balls, as in a
bay. The bounds were set before the figures were known; what misses them is an expected failure
with its figure beside it.
"""

from functools import cache

import pytest

from loftwright.domain.prediction import QUANTITIES
from loftwright.training.foresight import Foresight, foresee, share_inside
from study_tables import Say

GOLFERS = 120

pytestmark = pytest.mark.study


@cache
def golfers(ability: str, device: str, *, stated: bool) -> list[Foresight]:
    return [foresee(ability, device, seed, stated=stated) for seed in range(1, GOLFERS + 1)]


def _one(device: str, ability: str, *, stated: bool = False, missed: str = "") -> object:
    words = f"{device}{', ability stated' if stated else ''}"
    marks = [pytest.mark.xdist_group(f"predictions, {words}")]
    if missed:
        marks.append(pytest.mark.xfail(strict=True, reason=missed))
    return pytest.param(device, stated, ability, marks=marks, id=f"{words}, {ability}")


KINDS = [
    _one("full", "tour", missed="85.6 % (s.e. 1.4) of ball speeds, 84.2 % of carries; 84 allowed"),
    _one("full", "low", missed="85.3 % (s.e. 1.4) of ball speeds, 84 allowed"),
    *(_one("full", ability) for ability in ("mid", "high", "senior")),
    *(_one("ball-only", ability) for ability in ("tour", "low")),
    _one("ball-only", "mid", missed="75.0 % (s.e. 1.7) of totals in the 80 % range, 76 asked"),
    _one(
        "ball-only",
        "senior",
        missed="75.4 % (s.e. 1.6) and 91.7 % (0.9) of carries, 76 and 92 asked: mishits",
    ),
    _one("ball-only", "high", missed="91.9 % (s.e. 0.9) of carries in the 95 % range: mishits"),
    *(_one("full", ability, stated=True) for ability in ("tour", "low", "mid")),
    _one("full", "high", stated=True, missed="84.2 % (s.e. 1.4) of ball speeds, 84 allowed"),
]


@pytest.mark.parametrize(("device", "stated", "ability"), KINDS)
def test_balls_fall_in_their_80_and_95_percent_ranges_as_often_as_they_say(
    device: str, stated: bool, ability: str, say: Say
) -> None:
    found = golfers(ability, device, stated=stated)
    words = f"{device}{', ability stated' if stated else ''}, {ability}"
    missed = []
    for quantity in QUANTITIES:
        halves, in_80, in_95 = (share_inside(found, quantity, place) for place in range(3))
        say(f"{words}: next ball, {quantity}: {halves}, {in_80}, {in_95} % in 50, 80, 95 % ranges")
        if not 76.0 <= in_80.mean <= 84.0:
            missed.append(f"{quantity} {in_80.mean:.1f} % in the 80 % range")
        if not 92.0 <= in_95.mean <= 98.0:
            missed.append(f"{quantity} {in_95.mean:.1f} % in the 95 % range")
    assert not missed, "; ".join(missed)
