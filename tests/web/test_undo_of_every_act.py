"""Every act that can be undone leaves, undone, the fitting and its page as they were."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from bays import Bay, a_bay, club_card, drive
from loftwright.bay.now import FittingNow
from loftwright.constants import MILLIMETRE
from loftwright.domain import acts
from loftwright.domain.acts import Act
from loftwright.domain.fitting import Mark, PlanCard, Strip
from loftwright.report.records import decision_record
from loftwright.services.acting import act, undo
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.evidence import Desk
from loftwright.web.views.bay import Drawing, bay_parts

NEVER = {"VisitOpened", "ShotArrived", "Undone"}
"""A visit and a ball stay in the record; an undone act is done again by its own road."""
ABOUT_UNDOING = {"bar", "more"}
"""The parts that say what can be undone and done again."""

Made = Callable[[Bay], Act]


def mark(toe_mm: float = 4.0, high_mm: float = -3.0) -> Mark:
    return Mark(toe=toe_mm * MILLIMETRE, high=high_mm * MILLIMETRE)


def ball(bay: Bay, number: int) -> int:
    return bay.now.balls[number - 1].sequence


MADE: dict[str, Made] = {
    "WarmUpDone": lambda _: acts.WarmUpDone(unseen=6),
    "ClubJoined": lambda _: acts.ClubJoined(club="Elm", card=club_card("Elm")),
    "ClubDropped": lambda _: acts.ClubDropped(club="Birch"),
    "Vetoed": lambda _: acts.Vetoed(club="Ash"),
    "Planned": lambda _: acts.Planned(plan=PlanCard(sets=(("Own", 3), ("Ash", 3)), seconds=900.0)),
    "HandedOver": lambda _: acts.HandedOver(club="Birch"),
    "SettingSeen": lambda _: acts.SettingSeen(setting="one up"),
    "StripChanged": lambda _: acts.StripChanged(strip=Strip(ball="range, worn")),
    "NotRead": lambda _: acts.NotRead(),
    "Marked": lambda _: acts.Marked(mark=mark(9.0)),
    "NoMark": lambda bay: acts.NoMark(ball=ball(bay, 2)),
    "SetMarked": lambda bay: acts.SetMarked(
        balls=(ball(bay, 4), ball(bay, 5)), marks=(mark(1.0), mark(-6.0))
    ),
    "MarksJoined": lambda bay: acts.MarksJoined(
        marks=(bay.now.waiting[0].sequence,), balls=(ball(bay, 5),)
    ),
    "MarksShifted": lambda bay: acts.MarksShifted(first=ball(bay, 2), by=1),
    "MarkDropped": lambda bay: acts.MarkDropped(mark=bay.now.waiting[0].sequence),
    "NotOurs": lambda bay: acts.NotOurs(ball=ball(bay, 3)),
    "OddBall": lambda bay: acts.OddBall(ball=ball(bay, 3)),
    "RunMoved": lambda bay: acts.RunMoved(first=ball(bay, 2), last=ball(bay, 3), club="Birch"),
    "RunSet": lambda bay: acts.RunSet(first=ball(bay, 4), last=ball(bay, 6), setting="one up"),
    "Felt": lambda _: acts.Felt(club="Ash", place=0.2, word="boardy"),
    "Rested": lambda _: acts.Rested(),
    "PainSaid": lambda _: acts.PainSaid(),
    "Revealed": lambda _: acts.Revealed(),
    "Closed": lambda _: acts.Closed(),
}


def under_way(kind: str) -> Bay:
    """Return a fitting with marked balls of two clubs, and a mark that waits."""
    bay = a_bay(warm=kind != "WarmUpDone")
    bay.hand("Own")
    for club in ("Own", "Ash"):
        if club == "Ash":
            bay.hand("Ash")
        for place in range(3):
            bay.ball(drive(bay.rng, club))
            if kind != "SetMarked":
                bay.do(acts.Marked(mark=mark(2.0 * place, place)))
    if kind in {"MarksJoined", "MarkDropped"}:
        bay.do(acts.Marked(mark=mark(12.0)))
    if kind == "Marked":
        bay.ball(drive(bay.rng, "Ash"))
    return bay


def stands(bay: Bay) -> tuple[FittingNow, BayNow, object]:
    """Return the fitting without what says how to undo, its page, and the comparison."""
    found = bay_now(bay.studio, Desk(), bay.fitting)
    decision = found.evidence.decision
    told = None if decision is None else decision_record(decision, found.evidence.table.table)
    return replace(found.now, upto=0, undoable=None, repeatable=None), found, told


def test_every_act_has_its_case_here() -> None:
    kinds = {kind.__name__ for kind in Act.__args__}
    assert kinds - NEVER == set(MADE)


@pytest.mark.parametrize("kind", MADE)
def test_an_act_undone_leaves_fitting_page_and_comparison_as_they_were(kind: str) -> None:
    bay = under_way(kind)
    before, page, told = stands(bay)
    act(bay.studio, bay.fitting, [MADE[kind](bay)])
    between, _, _ = stands(bay)
    assert between != before
    last = bay.now.upto
    undo(bay.studio, bay.fitting, last, seen=None)
    after, undone, told_after = stands(bay)
    assert after == before
    assert told_after == told
    shown, shown_after = (
        {
            name: html
            for name, html in bay_parts(one, Drawing()).items()
            if name not in ABOUT_UNDOING
        }
        for one in (page, undone)
    )
    assert shown_after == shown


@pytest.mark.parametrize("kind", MADE)
def test_an_act_undone_can_be_done_again(kind: str) -> None:
    bay = under_way(kind)
    act(bay.studio, bay.fitting, [MADE[kind](bay)])
    done, _, told = stands(bay)
    undo(bay.studio, bay.fitting, bay.now.upto, seen=None)
    assert bay.now.repeatable is not None
    undo(bay.studio, bay.fitting, bay.now.repeatable.sequence, seen=None)
    again, _, told_again = stands(bay)
    assert (again, told_again) == (done, told)
