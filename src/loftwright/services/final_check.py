"""Hold a finished club against its sheet, and keep what a second person found."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.built import TOUCHED, Checked
from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.undoing import written
from loftwright.domain.verdict import Fit, Reading
from loftwright.errors import ConflictError, InputError
from loftwright.intake.build_text import read_build_text, read_measured_text
from loftwright.services.build import targets_of
from loftwright.services.build_check import check_sheet
from loftwright.services.job import job_act
from loftwright.services.sheet_now import SheetNow, sheet_now
from loftwright.services.studio import Studio
from loftwright.workshop.final import (
    MAY_BE_ABSENT,
    FinalNow,
    FinalRound,
    FinalState,
    HandCheck,
    final_now,
    same_person,
)
from loftwright.workshop.standing import standing

HELD: Final = frozenset({FinalState.NO_SHEET, FinalState.OFF, FinalState.CURING})
"""Where no receipt is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenPoints:
    """What stands between a club and its acceptance without a word.

    Attributes
    ----------
    out, untold, unread : tuple of Checked
        Out of tolerance; not to be told because readings contradict; with a target, not measured.
    failed : tuple of HandCheck
        What did not stand.
    """

    out: tuple[Checked, ...]
    untold: tuple[Checked, ...]
    unread: tuple[Checked, ...]
    failed: tuple[HandCheck, ...]

    @property
    def any(self) -> bool:
        """Whether there is anything."""
        return bool(self.out or self.untold or self.unread or self.failed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reread:
    """A quantity read in two rounds; None where it was not read [SI, swingweight in points]."""

    checked: Checked
    before: Reading | None
    after: Reading | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldRound:
    """A receipt with its verdicts and what changed since the one before."""

    round: FinalRound
    checked: CheckedBuild
    reread: tuple[Reread, ...]
    put_right: tuple[HandCheck, ...]
    open_points: OpenPoints


def held(sheet: SheetNow, measured: str) -> CheckedBuild:
    """Return readings beside the sheet: its targets, and what its parts come to as built.

    Parameters
    ----------
    sheet : SheetNow
    measured : str
        Text of a file of measurements.

    Raises
    ------
    IntakeError, InputError
        If sheet or readings cannot be; the place names the key.
    """
    return check_sheet(read_build_text(sheet.as_built), read_measured_text(measured))


def held_rounds(record: Sequence[JobEntry], final: FinalNow) -> tuple[HeldRound, ...]:
    """Return every receipt with its verdicts, each against the sheet as it stood then.

    Parameters
    ----------
    record : sequence of JobEntry
    final : FinalNow
    """
    found: list[HeldRound] = []
    for one in final.rounds:
        sheet = sheet_at(record, one)
        if sheet is None:
            raise InputError(
                "a receipt stands on no build sheet",
                place="final check",
                mend="Issue the sheet again, then check the club again.",
            )
        checked = held(sheet, one.received.measured)
        before = found[-1] if found else None
        found.append(
            HeldRound(
                round=one,
                checked=checked,
                reread=() if before is None else _reread(before.checked, checked),
                put_right=() if before is None else _put_right(before, one),
                open_points=open_points(checked, one.received.looked),
            )
        )
    return tuple(found)


def sheet_at(record: Sequence[JobEntry], one: FinalRound) -> SheetNow | None:
    """Return the build sheet as it stood when a receipt was taken."""
    return sheet_now([entry for entry in standing(record) if entry.sequence <= one.sequence])


def open_points(checked: CheckedBuild, looked: dict[str, bool]) -> OpenPoints:
    """Return what is out, cannot be told, was not read or did not stand.

    Parameters
    ----------
    checked : CheckedBuild
    looked : dict of str to bool
        By the name of a `HandCheck`.
    """
    wanted = targets_of(checked.sheet)
    read = {line.checked: line for line in checked.targets}
    untold = {one for found in checked.contradicted for one in TOUCHED[found.what] if one in read}
    return OpenPoints(
        out=tuple(one for one, line in read.items() if line.fit is Fit.OUT),
        untold=tuple(one for one in Checked if one in untold),
        unread=tuple(one for one in Checked if one in wanted and one not in read),
        failed=tuple(one for one in HandCheck if looked.get(one.value) is False),
    )


def keep_check(
    studio: Studio,
    fitting: str,
    received: Received,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Keep a receipt and return the job's record after it.

    Parameters
    ----------
    studio : Studio
    fitting : str
    received : Received
    by, key : str
    seen : int, optional
        Sequence of the last entry that the page showed; 0 for none.

    Raises
    ------
    InputError
        If something is missing or cannot be; its place names the field: second, day, reason,
        rework, a look or a key of the readings.
    ConflictError
        If the club cannot be checked now, or the record went on since.
    """
    record = studio.store.job_record(fitting)
    if not written(record, key):
        final = final_now(record, studio.now())
        sheet = sheet_now(record)
        if final.state in HELD or sheet is None:
            raise _refused(studio, final)
        _complete(studio, final, received)
        _reasoned(received, open_points(held(sheet, received.measured), received.looked))
    return job_act(studio, fitting, [received], by=by, key=key, seen=seen)


def _refused(studio: Studio, final: FinalNow) -> ConflictError:
    if final.state is FinalState.OFF:
        return ConflictError(
            "the order is off", place="final check", mend="Make another quote first."
        )
    if final.bond is not None and final.state is FinalState.CURING:
        return ConflictError(
            f"the bond cures until {clock(studio, final.bond.not_before)}",
            place="final check",
            mend="Leave the club alone until then; what was typed stays here.",
        )
    return ConflictError(
        "this job has no build sheet to check against",
        place="final check",
        mend="Issue the build sheet first.",
    )


def clock(studio: Studio, at: datetime) -> str:
    """Return an instant on the shop's clock."""
    return f"{at.astimezone(studio.zone):%H:%M on %-d %B}"


def _complete(studio: Studio, final: FinalNow, received: Received) -> None:
    """Refuse a receipt in which a person has left something out."""
    for one in HandCheck:
        if one.value not in received.looked and one not in MAY_BE_ABSENT:
            raise InputError(
                "it was not looked at", place=one.value, mend="Look, then answer yes or no."
            )
    if not received.second.strip():
        raise InputError("nobody is named", place="second", mend="Write who looked.")
    if same_person(received.second, final.builders) and not received.alone:
        raise InputError(
            f"{received.second} is among those who built it",
            place="second",
            mend="Let somebody else look. If nobody else is there, tick it below.",
        )
    if received.day is None or received.day > studio.today():
        raise InputError(
            "the day is missing or still to come", place="day", mend="Give the day of the look."
        )


def _reasoned(received: Received, found: OpenPoints) -> None:
    """Refuse an outcome whose reason or rework is not written down."""
    if received.outcome is Outcome.REWORK and not received.rework.strip():
        raise InputError(
            "what is to be done again is not written", place="rework", mend="Write it down."
        )
    if received.outcome is Outcome.REJECT and not received.reason.strip():
        raise InputError("why it is rejected is not written", place="reason", mend="Write it.")
    if received.outcome is Outcome.ACCEPT and found.any and not received.reason.strip():
        raise InputError(
            "it is accepted although not everything stands",
            place="reason",
            mend="Write why, or choose rework.",
        )


def _reread(before: CheckedBuild, after: CheckedBuild) -> tuple[Reread, ...]:
    """Return what was read otherwise in two rounds."""
    old = {line.checked: line.reading for line in before.targets}
    new = {line.checked: line.reading for line in after.targets}
    return tuple(
        Reread(checked=one, before=old.get(one), after=new.get(one))
        for one in Checked
        if _value(old.get(one)) != _value(new.get(one))
    )


def _value(reading: Reading | None) -> float | None:
    return None if reading is None else reading.value


def _put_right(before: HeldRound, after: FinalRound) -> tuple[HandCheck, ...]:
    looked = after.received.looked
    return tuple(one for one in before.open_points.failed if looked.get(one.value) is True)
