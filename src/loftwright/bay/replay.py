"""Replay a fitting's record: shots and corrections become what stands now."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any, Final

from loftwright.bay.cancelled import repeatable, standing_entries, undoable
from loftwright.bay.now import ClubNow, FittingNow, PlanNow, VisitNow
from loftwright.bay.table import Table
from loftwright.domain import acts
from loftwright.domain.acts import Entry


def replay(record: Sequence[Entry]) -> FittingNow:
    """Return a fitting as it stands after its record.

    Parameters
    ----------
    record : sequence of Entry
        The whole record, in order.

    Returns
    -------
    FittingNow

    Raises
    ------
    InputError
        If an act names a ball, mark or club that the record does not hold.
    """
    table = Table()
    for entry in standing_entries(record):
        _STEPS[type(entry.act)](table, entry, entry.act)
    return FittingNow(
        upto=record[-1].sequence if record else 0,
        visits=tuple(table.visits),
        clubs=tuple(table.clubs.values()),
        swings=table.swings(),
        waiting=tuple(table.waiting),
        in_hand=table.in_hand,
        seen=table.seen,
        confirmed=table.confirmed,
        strip=table.strip,
        plan=table.plan,
        rested=table.rested,
        pain=table.pain,
        revealed=table.revealed,
        closed=table.closed,
        undoable=undoable(record),
        repeatable=repeatable(record),
    )


def _visit_opened(table: Table, entry: Entry, act: acts.VisitOpened) -> None:
    table.visits.append(
        VisitNow(
            index=len(table.visits),
            day=act.day,
            bay=act.bay,
            device=act.device,
            opened=entry.at,
            warm=not act.warm_up,
            unseen=0,
            learned=act.learned,
        )
    )
    table.strip = act.strip
    table.in_hand, table.seen, table.confirmed = None, None, None
    table.pain, table.rested, table.plan = False, 0, None


def _warm_up_done(table: Table, _: Entry, act: acts.WarmUpDone) -> None:
    table.visits[-1] = replace(table.visit(), warm=True, unseen=act.unseen)


def _club_joined(table: Table, _: Entry, act: acts.ClubJoined) -> None:
    table.clubs[act.club] = ClubNow(name=act.club, card=act.card)


def _club_dropped(table: Table, _: Entry, act: acts.ClubDropped) -> None:
    table.clubs[act.club] = replace(table.known_club(act.club), out="dropped")


def _vetoed(table: Table, _: Entry, act: acts.Vetoed) -> None:
    table.clubs[act.club] = replace(table.known_club(act.club), out="would not play it")


def _planned(table: Table, entry: Entry, act: acts.Planned) -> None:
    table.plan = PlanNow(plan=act.plan, made=entry.at, swings_before=table.counted())


def _handed_over(table: Table, entry: Entry, act: acts.HandedOver) -> None:
    table.known_club(act.club)
    if act.club != table.in_hand:
        table.in_hand, table.seen, table.handed = act.club, None, len(table.balls)
    table.confirmed = entry.at


def _setting_seen(table: Table, entry: Entry, act: acts.SettingSeen) -> None:
    first_look = table.seen is None
    table.seen = act.setting
    table.confirmed = entry.at
    # Nobody turned the sleeve between hand-over and the first look, so earlier balls had it too.
    if first_look:
        for ball in table.balls[table.handed :]:
            if ball.club == table.in_hand:
                ball.setting = act.setting


def _strip_changed(table: Table, _: Entry, act: acts.StripChanged) -> None:
    table.strip = act.strip


def _shot_arrived(table: Table, entry: Entry, act: acts.ShotArrived) -> None:
    ball = table.new_ball(entry, act.club, act.after)
    ball.numbers = act.numbers
    ball.source, ball.line, ball.time = act.source, act.line, act.time
    table.place(ball, act.after)
    if act.after is None:
        table.join_fresh_mark(ball)


def _not_read(table: Table, entry: Entry, act: acts.NotRead) -> None:
    ball = table.new_ball(entry, act.club, act.after)
    ball.source = "not read"
    table.place(ball, act.after)
    if act.after is None:
        table.join_oldest_mark(ball)


def _marked(table: Table, entry: Entry, act: acts.Marked) -> None:
    if act.ball is not None:
        table.give_mark(table.ball(act.ball), act.mark)
        return
    newest = table.newest()
    if newest is not None and newest.mark is None and newest.mark_set is None:
        newest.mark = act.mark
    else:
        table.wait(entry, act.mark)


def _no_mark(table: Table, _: Entry, act: acts.NoMark) -> None:
    table.give_mark(table.ball(act.ball), None)


def _set_marked(table: Table, entry: Entry, act: acts.SetMarked) -> None:
    table.mark_set(entry.sequence, [table.ball(ball) for ball in act.balls], act.marks)


def _marks_joined(table: Table, _: Entry, act: acts.MarksJoined) -> None:
    for mark, ball in zip(act.marks, act.balls, strict=True):
        table.give_mark(table.ball(ball), table.take_waiting(mark).mark)


def _marks_shifted(table: Table, entry: Entry, act: acts.MarksShifted) -> None:
    table.shift_marks(entry, table.ball(act.first), act.by)


def _mark_dropped(table: Table, _: Entry, act: acts.MarkDropped) -> None:
    table.take_waiting(act.mark)


def _not_ours(table: Table, _: Entry, act: acts.NotOurs) -> None:
    table.ball(act.ball).not_ours = True


def _odd_ball(table: Table, _: Entry, act: acts.OddBall) -> None:
    table.ball(act.ball).odd = True


def _run_moved(table: Table, _: Entry, act: acts.RunMoved) -> None:
    card = table.known_club(act.club).card
    for ball in table.run(act.first, act.last):
        ball.club, ball.setting = act.club, card.setting


def _run_set(table: Table, _: Entry, act: acts.RunSet) -> None:
    for ball in table.run(act.first, act.last):
        ball.setting = act.setting


def _felt(table: Table, _: Entry, act: acts.Felt) -> None:
    felt = replace(table.known_club(act.club), feel=act.place, word=act.word)
    table.clubs[act.club] = felt


def _rested(table: Table, _: Entry, __: acts.Rested) -> None:
    table.rested = table.swings_of_visit()


def _pain_said(table: Table, _: Entry, __: acts.PainSaid) -> None:
    table.pain = True


def _revealed(table: Table, _: Entry, __: acts.Revealed) -> None:
    table.revealed = True


def _closed(table: Table, _: Entry, __: acts.Closed) -> None:
    table.closed = True


_STEPS: Final[dict[type, Callable[[Table, Entry, Any], None]]] = {
    acts.VisitOpened: _visit_opened,
    acts.WarmUpDone: _warm_up_done,
    acts.ClubJoined: _club_joined,
    acts.ClubDropped: _club_dropped,
    acts.Vetoed: _vetoed,
    acts.Planned: _planned,
    acts.HandedOver: _handed_over,
    acts.SettingSeen: _setting_seen,
    acts.StripChanged: _strip_changed,
    acts.ShotArrived: _shot_arrived,
    acts.NotRead: _not_read,
    acts.Marked: _marked,
    acts.NoMark: _no_mark,
    acts.SetMarked: _set_marked,
    acts.MarksJoined: _marks_joined,
    acts.MarksShifted: _marks_shifted,
    acts.MarkDropped: _mark_dropped,
    acts.NotOurs: _not_ours,
    acts.OddBall: _odd_ball,
    acts.RunMoved: _run_moved,
    acts.RunSet: _run_set,
    acts.Felt: _felt,
    acts.Rested: _rested,
    acts.PainSaid: _pain_said,
    acts.Revealed: _revealed,
    acts.Closed: _closed,
}
