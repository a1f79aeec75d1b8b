"""Which steps of a job are behind it."""

from datetime import UTC, date, datetime

import pytest

from loftwright.domain.after_acts import FollowedUp, StillPlayed
from loftwright.domain.check_acts import Outcome, PickedUp, Received
from loftwright.domain.golfer import Hand
from loftwright.domain.job_acts import JobAct, JobEntry
from loftwright.domain.order import ClubSpec, Kept, Quote
from loftwright.domain.order_acts import Agreed, Quoted, Withdrawn
from loftwright.domain.sheet_acts import SheetIssued
from loftwright.workshop.stages import agreed_quote, changed_since, stages_done

DAY = date(2026, 5, 14)
SPEC = ClubSpec(
    label="Ash",
    club="Ash",
    assembly="a1",
    hand=Hand.RIGHT,
    kept=Kept.NOTHING,
    head="Harrow 460",
    shaft="Reedmace",
    grip="",
    head_piece="h1",
    shaft_piece="s1",
    loft=0.18,
    lie=1.0,
    face=0.0,
    setting="",
    settings=(),
    length=1.15,
    hit=True,
    promise=None,
)
QUOTED = Quoted(
    quote=Quote(
        spec=SPEC, lines=(), tax=0.2, deposit=0.5, currency="", lead_days=14, valid_until=DAY
    )
)
AGREED = Agreed(name="O")
ACCEPTED = Received(measured="", looked={}, outcome=Outcome.ACCEPT, second="R")
REWORK = Received(measured="", looked={}, outcome=Outcome.REWORK, second="R", rework="length")
SHEET = SheetIssued(build="", fields={})
TAKEN = PickedUp(against=None, taken=True)
LEFT = PickedUp(against=None, taken=False)


def record(*acts: JobAct) -> tuple[JobEntry, ...]:
    """Return a record of acts, each written by itself."""
    at = datetime(2026, 5, 14, 9, tzinfo=UTC)
    return tuple(
        JobEntry(sequence=place, at=at, by="", act=act, group=place)
        for place, act in enumerate(acts, 1)
    )


@pytest.mark.parametrize(
    ("acts", "agreed"),
    [
        ((QUOTED, AGREED), True),
        ((QUOTED,), False),
        ((QUOTED, AGREED, QUOTED), False),
        ((QUOTED, AGREED, QUOTED, AGREED), True),
        ((QUOTED, AGREED, Withdrawn(reason="moved")), False),
        ((), False),
    ],
)
def test_an_agreement_is_to_the_quote_that_stands(acts: tuple[JobAct, ...], agreed: bool) -> None:
    assert (agreed_quote(record(*acts)) is not None) is agreed


@pytest.mark.parametrize(
    ("acts", "done"),
    [
        ((), set()),
        ((QUOTED, AGREED), {"order"}),
        ((QUOTED, AGREED, REWORK), {"order"}),
        ((QUOTED, AGREED, REWORK, ACCEPTED), {"order", "build"}),
        ((QUOTED, AGREED, ACCEPTED, LEFT), {"order", "build"}),
        ((QUOTED, AGREED, ACCEPTED, TAKEN), {"order", "build", "final-check"}),
    ],
)
def test_a_step_is_done_when_what_it_asks_for_stands(
    acts: tuple[JobAct, ...], done: set[str]
) -> None:
    assert stages_done(record(*acts)) == done


@pytest.mark.parametrize(("again", "done"), [(None, True), (date(2026, 7, 1), False)])
def test_a_follow_up_is_done_when_nobody_is_to_ask_again(again: date | None, done: bool) -> None:
    asked = FollowedUp(day=DAY, answer=StillPlayed.KEPT, again=again)
    assert ("follow-up" in stages_done(record(TAKEN, asked))) is done


@pytest.mark.parametrize(
    ("acts", "changed"),
    [((), False), ((ACCEPTED,), False), ((ACCEPTED, SHEET), True), ((SHEET, ACCEPTED), False)],
)
def test_a_sheet_after_the_final_check_asks_for_another(
    acts: tuple[JobAct, ...], changed: bool
) -> None:
    assert changed_since(record(*acts)) is changed
    assert ("build" in stages_done(record(QUOTED, AGREED, *acts))) is (bool(acts) and not changed)
