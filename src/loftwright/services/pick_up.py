"""Hit the built club against the tested one at pick-up, or again when there is a complaint."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.bay.now import FittingNow
from loftwright.domain.acts import Act, Closed, Planned, VisitOpened
from loftwright.domain.check_acts import Against, PickedUp, PickUpBegun
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.undoing import written
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.evidence.same_club import SameClub
from loftwright.services.acting import act, undo
from loftwright.services.bay_acts import closing_of
from loftwright.services.evidence import Desk
from loftwright.services.fittings import join_club
from loftwright.services.holding import local_now
from loftwright.services.job import job_act
from loftwright.services.pick_up_balls import plan_of, unlike, what_balls_say
from loftwright.services.pick_up_bars import Bar, Pair, begun_now, pair_of, picked_now
from loftwright.services.shop_beliefs import newest_version
from loftwright.services.studio import Studio
from loftwright.services.training_plays import is_training
from loftwright.services.visit_start import Start, visit_is_open


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PickUpNow:
    """A pick-up as it stands.

    Attributes
    ----------
    record : tuple of JobEntry
        The job's.
    now : FittingNow
    bar : Bar or None
        Why the club is not hit now; None where it can be, or was.
    pair : Pair or None
    begun : PickUpBegun or None
    picked : PickedUp or None
        How it ended.
    said : SameClub or None
        What the balls say; None before the first one that can be compared.
    unlike : tuple of str
        What was otherwise on the day when the tested club was hit.
    carry_alone : bool
        Whether the device gives no launch numbers, so that nothing can be said.
    """

    record: tuple[JobEntry, ...]
    now: FittingNow
    bar: Bar | None
    pair: Pair | None
    begun: PickUpBegun | None
    picked: PickedUp | None
    said: SameClub | None
    unlike: tuple[str, ...]
    carry_alone: bool = False

    @property
    def seen(self) -> int:
        """Sequence of the job's last entry."""
        return self.record[-1].sequence if self.record else 0


def pick_up_now(studio: Studio, desk: Desk, fitting: str) -> PickUpNow:
    """Return a fitting's pick-up as the store has it.

    Raises
    ------
    NotFoundError
        If there is no such fitting, or it is a training case.
    """
    if is_training(fitting):
        raise NotFoundError(
            "a training case has no pick-up", place=fitting, mend="Make the call instead."
        )
    record, now = studio.store.job_record(fitting), studio.standing(fitting)
    found = pair_of(record, now, studio.store.rack(), local_now(studio))
    pair = found if isinstance(found, Pair) else None
    begun = begun_now(record)
    said, carry_alone = None, False
    if pair is not None and begun is not None:
        said, carry_alone = what_balls_say(studio, desk, fitting, now, begun, pair)
    return PickUpNow(
        record=record,
        now=now,
        bar=found if isinstance(found, Bar) else None,
        pair=pair,
        begun=begun,
        picked=picked_now(record),
        said=said,
        unlike=() if pair is None or begun is None else unlike(now, begun, pair),
        carry_alone=carry_alone,
    )


def begin_pick_up(
    studio: Studio,
    fitting: str,
    start: Start,
    *,
    complaint: bool = False,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> PickUpBegun:
    """Let the built club join the fitting and begin a visit that hits it against the tested one.

    A closed fitting is opened again for it. Without the tested club the golfer's own one ties
    the days together.

    Parameters
    ----------
    studio : Studio
    fitting : str
    start : Start
        Device and ball should be those of the tested club's day.
    complaint : bool
        Whether the club was taken and is hit again because of a complaint.
    by, key : str
        Who acts, and under which key it is written once.
    seen : int, optional
        Sequence of the job's last entry that the page showed.

    Raises
    ------
    InputError
        If something hurts.
    ConflictError
        If the club may not be hit yet, there is nothing to hit it against, a pick-up goes on, or
        the job went on since the page was drawn.
    """
    with studio.lock:
        record = studio.store.job_record(fitting)
        known = begun_now(record)
        if known is not None and written(record, key):
            return known
        pair = _may_begin(studio, fitting, record, start, complaint=complaint, seen=seen)
        _open_again(studio, fitting, by=by, key=key)
        if not pair.built:
            join_club(studio, fitting, pair.assembly, by=by, key=_under(key, "club"))
        now = studio.standing(fitting)
        built = next(one.name for one in now.clubs if one.card.assembly == pair.assembly)
        acts: list[Act] = [Planned(plan=plan_of(built, pair))]
        if not visit_is_open(studio, now):
            opened = studio.store.fitting(fitting).value
            day = studio.today()
            acts.insert(
                0,
                VisitOpened(
                    day=day,
                    bay=opened.bay,
                    device=start.device,
                    strip=start.strip,
                    learned=newest_version(studio, invented=opened.invented),
                ),
            )
        after = act(studio, fitting, acts, by=by, key=_under(key, "visit"))
        begun = PickUpBegun(
            built=built, tested=pair.tested, visit=len(after.visits) - 1, complaint=complaint
        )
        job_act(studio, fitting, [begun], by=by, key=key, seen=seen)
    return begun


def begin_again(
    studio: Studio,
    fitting: str,
    start: Start,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> PickUpBegun:
    """Begin to hit the new club against the tested one because of a complaint."""
    return begin_pick_up(studio, fitting, start, complaint=True, by=by, key=key, seen=seen)


def end_pick_up(
    studio: Studio,
    desk: Desk,
    fitting: str,
    *,
    taken: bool,
    told: tuple[str, ...],
    note: str = "",
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> PickedUp:
    """Write down that the golfer took the club or did not, with what the balls said.

    The fitting is closed with it.

    Raises
    ------
    InputError
        If a club that is not taken has no reason.
    ConflictError
        If the club cannot be handed over yet, it was taken already, or the job went on.
    """
    found = pick_up_now(studio, desk, fitting)
    if found.bar is not None and found.bar.step:
        raise ConflictError(found.bar.message, place="taken", mend=found.bar.mend)
    if found.picked is not None and found.picked.taken and not written(found.record, key):
        raise ConflictError(
            "the club was taken already", place="taken", mend="Undo the pick-up first."
        )
    if not taken and not note.strip():
        raise InputError(
            "it was not taken and nobody says why", place="note", mend="Write what is missing."
        )
    against: Against | None = None if found.said is None else found.said.against
    picked = PickedUp(against=against, taken=taken, told=told, note=note)
    job_act(studio, fitting, [picked], by=by, key=key, seen=seen)
    if found.begun is not None and not studio.standing(fitting).closed:
        act(studio, fitting, [Closed()], by=by, key=_under(key, "close"))
    return picked


def _may_begin(
    studio: Studio,
    fitting: str,
    record: Sequence[JobEntry],
    start: Start,
    *,
    complaint: bool,
    seen: int | None,
) -> Pair:
    if start.pain:
        raise InputError(
            "pain, dizziness or a recent operation: nobody swings today",
            place="pain",
            mend="Ask a doctor or a physiotherapist first. Nothing of it is written down.",
        )
    stands = record[-1].sequence if record else 0
    if seen is not None and seen != stands:
        raise ConflictError(
            "the job went on in the meantime",
            place="seen",
            mend="The page shows what stands now; act again if it is still wrong.",
        )
    found = pair_of(record, studio.standing(fitting), studio.store.rack(), local_now(studio))
    if isinstance(found, Bar):
        raise ConflictError(found.message, place="pick_up", mend=found.mend)
    begun, picked = begun_now(record), picked_now(record)
    if begun is not None and picked is None:
        raise ConflictError(
            "the club is being hit already", place="pick_up", mend="Go on in the bay."
        )
    if picked is not None and picked.taken and not complaint:
        raise ConflictError(
            "the golfer has the club", place="pick_up", mend="Undo the pick-up first."
        )
    return found


def _open_again(studio: Studio, fitting: str, *, by: str, key: str) -> None:
    closing = closing_of(studio, fitting)
    if studio.standing(fitting).closed and closing is not None:
        undo(studio, fitting, closing, by=by, key=_under(key, "open"), seen=None)


def _under(key: str, what: str) -> str:
    """Return the key of an act that belongs to another one."""
    return f"{key}:{what}" if key else ""
