"""How far a build sheet was worked through: steps in order, each with its hold point."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order_acts import Agreed, Quoted, Withdrawn
from loftwright.domain.sheet_acts import Bonded, Deviated, SheetIssued, Step, StepDone
from loftwright.workshop.standing import standing

ORDER: Final = tuple(Step)
BEFORE_BOND: Final = ORDER[: ORDER.index(Step.BONDED)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A step that was done.

    Attributes
    ----------
    entry : JobEntry
        Who did it, and when.
    done : StepDone or Bonded
    """

    entry: JobEntry
    done: StepDone | Bonded


@dataclass(frozen=True, slots=True, kw_only=True)
class Issue:
    """One revision of a sheet, with what was departed from while it stood."""

    revision: int
    entry: JobEntry
    sheet: SheetIssued
    departures: tuple[Deviated, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far a job is in the workshop.

    Attributes
    ----------
    issues : tuple of Issue
        Every revision, the newest last.
    done : dict of Step to Worked
        Of the newest revision: what was done on an older one is done again, because its hold
        points were met on other figures.
    next : Step or None
        None where no sheet stands, or all is done.
    bond : Bonded or None
        That stands.
    off : Withdrawn or None
        Where the order is off.
    requoted : bool
        Whether a quote came after the sheet that stands.
    agreed : bool
        Whether the newest quote is agreed to.
    """

    issues: tuple[Issue, ...]
    done: dict[Step, Worked]
    next: Step | None
    bond: Bonded | None
    off: Withdrawn | None
    requoted: bool
    agreed: bool

    @property
    def cut(self) -> bool:
        """Whether the butt is cut."""
        return Step.BUTT_TRIMMED in self.done or self.bond is not None

    @property
    def may_issue(self) -> bool:
        """Whether another revision may come: after a bond only where the check sends it back."""
        return self.agreed and self.off is None and self.bond is None


def progress(record: Sequence[JobEntry]) -> Progress:
    """Return how far a job is in the workshop.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record, in order.
    """
    issues: list[Issue] = []
    done: dict[Step, Worked] = {}
    bond: Bonded | None = None
    off: Withdrawn | None = None
    requoted = agreed = False
    for entry in standing(record):
        act = entry.act
        if isinstance(act, SheetIssued):
            issues.append(Issue(revision=len(issues) + 1, entry=entry, sheet=act))
            done, requoted = {}, False
        elif isinstance(act, Deviated) and issues:
            last = issues[-1]
            issues[-1] = Issue(
                revision=last.revision,
                entry=last.entry,
                sheet=last.sheet,
                departures=(*last.departures, act),
            )
        elif isinstance(act, StepDone):
            done[act.step] = Worked(entry=entry, done=act)
        elif isinstance(act, Bonded):
            done.setdefault(Step.BONDED, Worked(entry=entry, done=act))
            bond = act
        elif isinstance(act, Received) and act.outcome is not Outcome.ACCEPT:
            bond = None
        elif isinstance(act, Quoted):
            off, agreed, requoted = None, False, bool(issues)
        elif isinstance(act, Agreed):
            agreed = True
        elif isinstance(act, Withdrawn):
            off, agreed = act, False
    return Progress(
        issues=tuple(issues),
        done=done,
        next=next((one for one in ORDER if one not in done), None) if issues else None,
        bond=bond,
        off=off,
        requoted=requoted,
        agreed=agreed,
    )
