"""The table a record is replayed on: the one place where a fitting's state changes."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Final

from loftwright.bay.now import ClubNow, PlanNow, Swing, VisitNow, Waiting
from loftwright.domain.acts import Entry
from loftwright.domain.fitting import Mark, Strip
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import InputError

FRESH: Final = timedelta(seconds=15)
"""A single mark younger than this joins the ball that arrives (judgement): devices are slow."""


class Ball:
    """A ball while the record is replayed; acts change it.

    Parameters
    ----------
    sequence : int
    at : datetime
    visit : int
    club : str, optional
    setting : str
    strip : Strip
    warm_up : bool
    after : int, optional
        Sequence of the ball it was hit after, where that was told.
    """

    def __init__(
        self,
        *,
        sequence: int,
        at: datetime,
        visit: int,
        club: str | None,
        setting: str,
        strip: Strip,
        warm_up: bool,
        after: int | None = None,
    ) -> None:
        self.sequence, self.at, self.visit, self.after = sequence, at, visit, after
        self.club, self.setting, self.strip, self.warm_up = club, setting, strip, warm_up
        self.numbers: ShotNumbers | None = None
        self.mark: Mark | None = None
        self.mark_set: int | None = None
        self.not_ours = self.odd = False
        self.source = self.line = self.time = ""


class Table:
    """Everything that acts change, in the order of play."""

    def __init__(self) -> None:
        self.visits: list[VisitNow] = []
        self.clubs: dict[str, ClubNow] = {}
        self.balls: list[Ball] = []
        self.waiting: list[Waiting] = []
        self.in_hand: str | None = None
        self.seen: str | None = None
        self.confirmed: datetime | None = None
        self.handed = 0
        self.strip = Strip()
        self.plan: PlanNow | None = None
        self.rested = 0
        self.pain = self.revealed = self.closed = False

    def visit(self) -> VisitNow:
        """Return the newest visit."""
        if not self.visits:
            raise InputError("no visit is open", place="visit", mend="Open a visit first.")
        return self.visits[-1]

    def known_club(self, name: str) -> ClubNow:
        """Return a club of the fitting."""
        if name not in self.clubs:
            raise InputError(
                f"the fitting has no club {name!r}",
                place="club",
                mend="Its clubs are " + ", ".join(self.clubs) + ".",
            )
        return self.clubs[name]

    def ball(self, sequence: int) -> Ball:
        """Return a ball by the sequence under which it entered the record."""
        for ball in self.balls:
            if ball.sequence == sequence:
                return ball
        raise InputError(
            f"the fitting has no ball {sequence}",
            place="ball",
            mend="Name a ball by its sequence in the record.",
        )

    def run(self, first: int, last: int) -> list[Ball]:
        """Return the golfer's balls from first to last in the order of play."""
        begin, end = (self.balls.index(self.ball(one)) for one in (first, last))
        if end < begin:
            raise InputError(
                "the run ends before it begins", place="last", mend="Name the earlier ball first."
            )
        return [ball for ball in self.balls[begin : end + 1] if not ball.not_ours]

    def new_ball(self, entry: Entry, club: str, after: int | None) -> Ball:
        """Return a ball as it is hit now, or beside the ball after which it was hit."""
        beside = self._beside(after)
        named = self.clubs.get(club)
        if beside is not None and named is None:
            named_club, setting = beside.club, beside.setting
        elif named is None or named.name == self.in_hand:
            named_club, setting = self.in_hand, self.setting_in_hand()
        else:
            named_club, setting = named.name, named.card.setting
        here = beside.visit if beside else len(self.visits) - 1
        warm = bool(self.visits) and self.visits[here].warm
        return Ball(
            sequence=entry.sequence,
            at=entry.at,
            visit=here,
            club=named_club,
            setting=setting,
            strip=beside.strip if beside else self.strip,
            warm_up=beside.warm_up if beside else not warm,
            after=after,
        )

    def _beside(self, after: int | None) -> Ball | None:
        if after is None or not self.balls:
            return None
        return self.balls[0] if after == 0 else self.ball(after)

    def setting_in_hand(self) -> str:
        """Return how the sleeve of the club in hand sits: as seen, else as planned."""
        if self.in_hand is None:
            return ""
        return self.clubs[self.in_hand].card.setting if self.seen is None else self.seen

    def place(self, ball: Ball, after: int | None) -> None:
        """Put a ball last, or behind the ball after which it was hit."""
        if after is None:
            self.balls.append(ball)
            return
        at = 0 if after == 0 else self.balls.index(self.ball(after)) + 1
        while at < len(self.balls) and self.balls[at].after == after:
            at += 1
        self.balls.insert(at, ball)

    def newest(self) -> Ball | None:
        """Return the golfer's newest ball of this visit."""
        here = len(self.visits) - 1
        mine = (one for one in reversed(self.balls) if not one.not_ours and one.visit == here)
        return next(mine, None)

    def wait(self, entry: Entry, mark: Mark) -> None:
        """Let a mark wait for its ball."""
        self.waiting.append(
            Waiting(sequence=entry.sequence, at=entry.at, mark=mark, club=self.in_hand)
        )

    def take_waiting(self, sequence: int) -> Waiting:
        """Take a mark out of the tray."""
        for mark in self.waiting:
            if mark.sequence == sequence:
                self.waiting.remove(mark)
                return mark
        raise InputError(
            f"no mark {sequence} is waiting", place="mark", mend="It has found its ball already."
        )

    def join_fresh_mark(self, ball: Ball) -> None:
        """Give an arriving ball the one mark that was read moments before."""
        if len(self.waiting) == 1 and timedelta(0) <= ball.at - self.waiting[0].at <= FRESH:
            ball.mark = self.waiting.pop().mark

    def join_oldest_mark(self, ball: Ball) -> None:
        """Give a ball that was not read the mark that has waited longest."""
        if self.waiting:
            ball.mark = self.waiting.pop(0).mark

    def give_mark(self, ball: Ball, mark: Mark | None) -> None:
        """Give a ball a mark of its own, or none."""
        ball.mark, ball.mark_set = mark, None

    def mark_set(self, name: int, members: Sequence[Ball], marks: Sequence[Mark]) -> None:
        """Give balls the marks of a set whose order nobody knows."""
        padded = [*marks, *[None] * (len(members) - len(marks))]
        for ball, mark in zip(members, padded, strict=True):
            ball.mark, ball.mark_set = mark, name

    def shift_marks(self, entry: Entry, first: Ball, by: int) -> None:
        """Move every mark from a ball on by one ball; a mark without a ball waits.

        Raises
        ------
        InputError
            If the ball is none of the golfer's.
        """
        if first.not_ours:
            raise InputError(
                "marks are moved from a ball that is not the golfer’s",
                place="first",
                mend="Choose a ball of the golfer, or say first that this one is.",
            )
        mine = [one for one in self.balls if not one.not_ours and one.visit == first.visit]
        marks = [(one.mark, one.mark_set) for one in mine]
        start = mine.index(first)
        none = (None, None)
        if by > 0:
            lost, moved = marks[-1], [*marks[:start], none, *marks[start:-1]]
        else:
            taken = max(start - 1, 0)
            lost, moved = marks[taken], [*marks[:taken], *marks[taken + 1 :], none]
        for ball, (mark, mark_set) in zip(mine, moved, strict=True):
            ball.mark, ball.mark_set = mark, mark_set
        if lost[0] is not None:
            self.wait(entry, lost[0])

    def counted(self) -> int:
        """Return how many balls have counted so far."""
        return sum(1 for one in self.balls if not (one.not_ours or one.warm_up))

    def swings_of_visit(self) -> int:
        """Return the golfer's swings of this visit, unseen ones included."""
        here = len(self.visits) - 1
        seen = sum(1 for one in self.balls if one.visit == here and not one.not_ours)
        return seen + (self.visits[-1].unseen if self.visits else 0)

    def swings(self) -> tuple[Swing, ...]:
        """Return the balls as they stand, numbered."""
        number = 0
        orders = [visit.unseen for visit in self.visits] or [0]
        found = []
        for ball in self.balls:
            mine = not ball.not_ours
            counts = mine and not ball.warm_up
            number += counts
            place = max(ball.visit, 0)
            found.append(
                Swing(
                    sequence=ball.sequence,
                    at=ball.at,
                    number=number if counts else 0,
                    visit=place,
                    order=orders[place],
                    club=ball.club,
                    setting=ball.setting,
                    numbers=ball.numbers,
                    mark=ball.mark,
                    mark_set=ball.mark_set,
                    not_ours=ball.not_ours,
                    odd=ball.odd,
                    warm_up=ball.warm_up,
                    strip=ball.strip,
                    source=ball.source,
                    line=ball.line,
                    time=ball.time,
                )
            )
            orders[place] += mine
        return tuple(found)
