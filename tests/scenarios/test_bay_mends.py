"""A ball that was not read, its mark tapped, noticed only at ball 20 by the page's own doubt.

Eight virtual golfers of middling ability hit twenty balls with three clubs; ball 8 is not read
and every later mark stands at the ball after the one that made it. In all eight the bay doubts
the marks from ball 8 on (measured; seven were asked for before the figure was known), and one
tap on the mend it proposes gives what the fitting without the fault gives, to the last digit.
"""

from collections.abc import Iterator, Sequence

import pytest

from bays import CLUBS, Bay, a_bay
from loftwright.domain.acts import Marked, NotRead
from loftwright.domain.fitting import FARTHEST_MARK, Mark
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.domain.shot import Shot
from loftwright.report.records import decision_record
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.training.deal import DealOptions, deal
from loftwright.web.pages.acts import perform
from loftwright.web.views.bay_rest import doubts
from loftwright.web.views.bay_taps import Tap

LOST = 7
SEEDS = range(1, 9)
_MARKS = ("strike_toe", "strike_high")


def shots_of(seed: int) -> list[Shot]:
    options = DealOptions(seed=seed, clubs=3, balls=20, golfer="mid", misreads=0)
    return [one for one in deal(options).shots if one.strike_toe is not None]


def numbers_of(shot: Shot) -> ShotNumbers:
    told = {name: getattr(shot, name) for name in FIELDS if name not in _MARKS}
    return ShotNumbers(**told)


def mark_of(shot: Shot) -> Mark:
    toe, high = (
        min(max(value or 0.0, -FARTHEST_MARK), FARTHEST_MARK)
        for value in (shot.strike_toe, shot.strike_high)
    )
    return Mark(toe=toe, high=high)


def played(bay: Bay, shots: Sequence[Shot]) -> Iterator[tuple[int, Shot]]:
    """Hand over the club of each ball before it is hit."""
    names: dict[str, str] = {}
    for place, shot in enumerate(shots):
        club = names.setdefault(shot.club, CLUBS[len(names)])
        if bay.now.in_hand != club:
            bay.hand(club)
        yield place, shot


def without_the_fault(shots: Sequence[Shot]) -> Bay:
    bay = a_bay()
    for place, shot in played(bay, shots):
        if place == LOST:
            bay.do(NotRead(), wait=30.0)
        else:
            bay.ball(numbers_of(shot))
        bay.do(Marked(mark=mark_of(shot)))
    return bay


def with_the_fault(shots: Sequence[Shot]) -> Bay:
    bay = a_bay()
    for place, shot in played(bay, shots):
        if place != LOST:
            bay.ball(numbers_of(shot))
    marks = [mark_of(shot) for shot in shots]
    for mark, ball in zip(marks, bay.now.swings, strict=False):
        bay.do(Marked(mark=mark, ball=ball.sequence))
    bay.do(Marked(mark=marks[-1]))
    return bay


def proposal(bay: Bay) -> Tap | None:
    """Return the mend that the page proposes for a ball that was not read."""
    found = doubts(bay_now(bay.studio, Desk(), bay.fitting))
    taps = (tap for doubt in found for tap in doubt.taps if tap.act == "dropped-before")
    return next(taps, None)


def came_out(bay: Bay) -> object:
    evidence = bay_now(bay.studio, Desk(), bay.fitting).evidence
    assert evidence.decision is not None
    return decision_record(evidence.decision, evidence.table.table)


@pytest.mark.parametrize("seed", SEEDS)
def test_one_tap_on_the_proposed_mend_gives_what_no_fault_gives(seed: int) -> None:
    shots = shots_of(seed)
    faulty = with_the_fault(shots)
    tap = proposal(faulty)
    assert tap is not None
    assert tap.words == f"A ball before {LOST + 1} was not read"
    before = came_out(faulty)
    perform(faulty.studio, faulty.fitting, tap.act, tap.fields, by="", key="")
    clean = without_the_fault(shots)
    assert came_out(faulty) == came_out(clean) != before
    assert proposal(faulty) is None


@pytest.mark.parametrize("seed", SEEDS)
def test_the_fitting_without_the_fault_proposes_nothing(seed: int) -> None:
    assert proposal(without_the_fault(shots_of(seed))) is None
