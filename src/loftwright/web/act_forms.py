"""What the forms of a fitting say, as acts: every name under `/fittings/{id}/acts/`."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from loftwright.bay.confounders import CONDITIONS
from loftwright.bay.mends import dropped_before, mirrored, not_read
from loftwright.bay.now import FittingNow
from loftwright.constants import MILLIMETRE
from loftwright.domain import acts
from loftwright.domain.acts import Act
from loftwright.domain.coarse_marks import coarse_mark
from loftwright.domain.fitting import MARK_ERROR, Mark
from loftwright.errors import InputError

LONGEST: Final = 80
"""Letters of a word or condition."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A form that was sent, and what it is read against.

    Attributes
    ----------
    fields : mapping of str to str
    now : FittingNow
        The fitting as it stands.
    mark_error : float
        Error of a mark that this fitter reads, one way [m].
    """

    fields: Mapping[str, str]
    now: FittingNow
    mark_error: float = MARK_ERROR

    def text(self, name: str, *, most: int = LONGEST) -> str:
        """Return a field that must be filled."""
        found = self.fields.get(name, "").strip()
        if not found:
            raise InputError(f"{name} is missing", place=name, mend=f"Give a {name}.")
        return _short(found, name, most)

    def maybe(self, name: str) -> str:
        """Return a field that may be empty."""
        return _short(self.fields.get(name, "").strip(), name, LONGEST)

    def whole(self, name: str) -> int:
        """Return a field as a whole number."""
        return _whole(self.text(name), name)

    def maybe_whole(self, name: str) -> int | None:
        """Return a field as a whole number, if it is filled."""
        return _whole(self.text(name), name) if self.maybe(name) else None

    def wholes(self, name: str) -> tuple[int, ...]:
        """Return a field of whole numbers parted by commas."""
        return tuple(_whole(part, name) for part in self.text(name, most=400).split(","))

    def number(self, name: str) -> float:
        """Return a field as a number."""
        return _number(self.text(name), name)

    def mark(self, toe: str, high: str) -> Mark:
        """Return a mark from its millimetres."""
        return Mark(
            toe=_number(toe, "toe_mm") * MILLIMETRE,
            high=_number(high, "high_mm") * MILLIMETRE,
            error=self.mark_error,
        )


def acts_of(name: str, told: Told) -> tuple[Act, ...]:
    """Return the acts that a form asks for, to be written together.

    Parameters
    ----------
    name : str
        Last part of the form's address.
    told : Told

    Raises
    ------
    InputError
        If there is no such act, or a field cannot be.
    """
    read = FORMS.get(name)
    if read is None:
        raise InputError(f"there is no act {name!r}", place="act", mend="Go back to the bay.")
    found = read(told)
    return found if isinstance(found, tuple) else (found,)


def _short(text: str, name: str, most: int) -> str:
    if len(text) > most:
        raise InputError(
            f"{name} has {len(text)} letters", place=name, mend=f"Give at most {most}."
        )
    return text


def _whole(text: str, name: str) -> int:
    plain = text.strip()
    if not (plain.isascii() and plain.isdigit()) or len(plain) > 9:
        raise InputError(f"{plain!r} is no whole number", place=name, mend="Give a number.")
    return int(plain)


def _number(text: str, name: str) -> float:
    try:
        found = float(text.strip().replace("\N{MINUS SIGN}", "-").replace(",", "."))
    except ValueError:
        found = float("nan")
    if not abs(found) < 1e6:
        raise InputError(f"{text.strip()!r} is no number", place=name, mend="Give a number.")
    return found


def _mark(told: Told) -> Act:
    mark = told.mark(told.text("toe_mm"), told.text("high_mm"))
    return acts.Marked(mark=mark, ball=told.maybe_whole("ball_of"))


def _coarse(told: Told) -> Act:
    mark = coarse_mark(told.text("words"))
    return acts.Marked(mark=mark, ball=told.maybe_whole("ball_of"))


def _set(told: Told) -> Act:
    places = [part.split(",") for part in told.text("marks", most=800).split(";")]
    if any(len(place) != 2 for place in places):
        raise InputError(
            "a mark of the set is not two numbers",
            place="marks",
            mend="Give toe and high of each mark: 4,-2;13,9.",
        )
    marks = tuple(told.mark(toe, high) for toe, high in places)
    return acts.SetMarked(balls=told.wholes("balls"), marks=marks)


def _join(told: Told) -> Act:
    return acts.MarksJoined(marks=told.wholes("marks"), balls=told.wholes("balls"))


def _mirror(told: Told) -> tuple[Act, ...]:
    last = told.whole("last") if told.fields.get("last") else None
    return mirrored(told.now, told.whole("first"), last)


def _shift(told: Told) -> Act:
    by = round(told.number("by"))
    return acts.MarksShifted(first=told.whole("first"), by=by)


def _not_read(told: Told) -> tuple[Act, ...]:
    after = told.maybe_whole("after")
    if after is not None:
        return (acts.NotRead(after=after, club=told.maybe("club")),)
    return not_read(told.now, told.now.upto + 1)


def _strip(told: Told) -> Act:
    changed = {name: told.maybe(name) for name in CONDITIONS if name in told.fields}
    return acts.StripChanged(strip=replace(told.now.strip, **changed))


def _run_moved(told: Told) -> Act:
    first, last = _run(told)
    return acts.RunMoved(first=first, last=last, club=told.text("club"))


def _run_set(told: Told) -> Act:
    first, last = _run(told)
    return acts.RunSet(first=first, last=last, setting=told.text("setting"))


def _run(told: Told) -> tuple[int, int]:
    """Return the first and last ball of a run, told by number or by place in the record."""
    if "first_ball" not in told.fields:
        return told.whole("first"), told.whole("last")
    numbered = {one.number: one.sequence for one in told.now.balls}
    found = []
    for name in ("first_ball", "last_ball"):
        number = told.whole(name)
        if number not in numbered:
            raise InputError(
                f"no ball has the number {number}",
                place=name,
                mend=f"Give 1 to {max(numbered, default=0)}.",
            )
        found.append(numbered[number])
    return found[0], found[1]


def _it_was(told: Told) -> tuple[Act, ...]:
    """Return the acts for a ball that was hit with another club than the page shows."""
    club = told.text("club")
    mine = [one for one in told.now.swings if not one.not_ours]
    handed = acts.HandedOver(club=club)
    if not mine:
        return (handed,)
    newest = mine[-1].sequence
    return (acts.RunMoved(first=newest, last=newest, club=club), handed)


def _felt(told: Told) -> Act:
    club = told.maybe("club") or told.now.in_hand or told.text("club")
    known = told.now.club(club)
    place = told.number("place") if told.maybe("place") else None
    before = None if known is None else known.feel
    if place is None and before is None:
        raise InputError("a word needs a place", place="place", mend="Tap the line first.")
    word = told.maybe("word") if "word" in told.fields else (known.word if known else "")
    return acts.Felt(
        club=club, place=float(place if place is not None else before or 0.0), word=word
    )


def _warm(told: Told) -> Act:
    return acts.WarmUpDone(unseen=told.maybe_whole("unseen") or 0)


FORMS: Final[Mapping[str, Callable[[Told], Act | tuple[Act, ...]]]] = {
    "hand-over": lambda told: acts.HandedOver(club=told.text("club")),
    "setting-seen": lambda told: acts.SettingSeen(setting=told.maybe("setting")),
    "mark": _mark,
    "coarse-mark": _coarse,
    "no-mark": lambda told: acts.NoMark(ball=told.whole("ball_of")),
    "set": _set,
    "join": _join,
    "shift-marks": _shift,
    "mirror-marks": _mirror,
    "drop-mark": lambda told: acts.MarkDropped(mark=told.whole("mark")),
    "not-read": _not_read,
    "dropped-before": lambda told: dropped_before(told.now, told.whole("first")),
    "not-ours": lambda told: acts.NotOurs(ball=told.whole("ball_of")),
    "odd": lambda told: acts.OddBall(ball=told.whole("ball_of")),
    "move-run": _run_moved,
    "set-run": _run_set,
    "it-was": _it_was,
    "felt": _felt,
    "veto": lambda told: acts.Vetoed(club=told.text("club")),
    "drop-club": lambda told: acts.ClubDropped(club=told.text("club")),
    "strip": _strip,
    "warm-up-done": _warm,
    "rested": lambda _: acts.Rested(),
    "pain": lambda _: acts.PainSaid(),
    "reveal": lambda _: acts.Revealed(),
    "close": lambda _: acts.Closed(),
}
"""The reader of each form, by the last part of its address."""
