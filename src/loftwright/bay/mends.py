"""Mends that take several acts: a ball that was hit and not read, marks read mirrored."""

from dataclasses import replace

from loftwright.bay.now import FittingNow, Swing, Waiting
from loftwright.domain.acts import Act, Marked, MarksJoined, MarksShifted, NotRead, SetMarked
from loftwright.domain.fitting import Mark
from loftwright.errors import InputError

_BACK = 3
"""So many balls more than marks wait are looked back on."""


def not_read(now: FittingNow, first_new: int) -> tuple[Act, ...]:
    """Return the acts that say a ball was hit and not read.

    The mark that has waited longest is taken for that ball's. If balls came after it was
    tapped, the ball that was not read was hit before them.

    Parameters
    ----------
    now : FittingNow
    first_new : int
        Sequence under which the first of the acts will be written.
    """
    mine = _of_visit(now)
    oldest = now.waiting[0] if now.waiting else None
    if oldest is None or not mine or mine[-1].at <= oldest.at:
        return (NotRead(),)
    before = _hit_before(mine, oldest)
    if before is None:
        return (NotRead(),)
    return (
        NotRead(after=before.sequence),
        MarksJoined(marks=(oldest.sequence,), balls=(first_new,)),
    )


def dropped_before(now: FittingNow, first: int) -> tuple[Act, ...]:
    """Return the acts that put a ball that was not read before one whose mark is its own.

    Every mark from there on moves back by one ball, and the newest mark that waits finds the
    last ball, which has lost its mark to the ball before it.

    Parameters
    ----------
    now : FittingNow
    first : int
        Sequence of the first ball that carries the mark of the ball before.

    Raises
    ------
    InputError
        If it is no ball of this visit, or the first of the visit.
    """
    mine = _of_visit(now)
    place = next((at for at, one in enumerate(mine) if one.sequence == first), None)
    if not place:
        raise InputError(
            "no ball of this visit was hit before that one",
            place="first",
            mend="Choose a later ball of this visit.",
        )
    acts: list[Act] = [
        NotRead(after=mine[place - 1].sequence),
        MarksShifted(first=first, by=-1),
    ]
    if now.waiting:
        acts.append(MarksJoined(marks=(now.waiting[-1].sequence,), balls=(mine[-1].sequence,)))
    return tuple(acts)


def mirrored(now: FittingNow, first: int, last: int | None = None) -> tuple[Act, ...]:
    """Return the acts that put marks on the other side of the face, toe for heel.

    A set of unknown order is mirrored whole. The height of a mark stays; what was said of it in
    words does not, since it named the other side.

    Parameters
    ----------
    now : FittingNow
    first : int
        Sequence of the first ball whose mark is mirrored.
    last : int, optional
        Sequence of the last one; the newest ball without it.

    Raises
    ------
    InputError
        If no ball from the first to the last has a mark.
    """
    places = {one.sequence: at for at, one in enumerate(now.swings)}
    begin = places.get(first, len(places))
    end = places.get(last, -1) if last is not None else len(places)
    run = [one for one in now.swings[begin : end + 1] if not one.not_ours]
    acts: list[Act] = [
        Marked(mark=_other_side(one.mark), ball=one.sequence)
        for one in run
        if one.mark is not None and one.mark_set is None
    ]
    for name in dict.fromkeys(one.mark_set for one in run if one.mark_set is not None):
        members = [one for one in now.swings if one.mark_set == name]
        marks = tuple(_other_side(one.mark) for one in members if one.mark is not None)
        if marks:
            acts.append(SetMarked(balls=tuple(one.sequence for one in members), marks=marks))
    if not acts:
        raise InputError(
            "no ball of that run has a mark to mirror",
            place="first",
            mend="Choose a run with marks.",
        )
    return tuple(acts)


def joinable(now: FittingNow) -> tuple[Swing, ...]:
    """Return the balls that the waiting marks most likely belong to, in the order of the marks.

    They are the newest balls without a mark among the last few of the visit; fewer than marks
    where there are not so many.
    """
    wanted = len(now.waiting)
    newest = _of_visit(now)[-(wanted + _BACK) :] if wanted else []
    bare = [one for one in newest if one.mark is None and one.mark_set is None]
    return tuple(bare[-wanted:]) if wanted else ()


def _other_side(mark: Mark) -> Mark:
    # Taken from nothing, so that a mark in the middle does not become a negative zero.
    return replace(mark, toe=0.0 - mark.toe, words="")


def _of_visit(now: FittingNow) -> list[Swing]:
    here = len(now.visits) - 1
    return [one for one in now.swings if one.visit == here and not one.not_ours]


def _hit_before(mine: list[Swing], mark: Waiting) -> Swing | None:
    earlier = [one for one in mine if one.at <= mark.at]
    return earlier[-1] if earlier else None
