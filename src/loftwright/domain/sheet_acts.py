"""What can happen to a build sheet: it is issued, worked through, and departed from."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import TypeAlias


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetIssued:
    """A build sheet was issued; each takes the place of the one before and is one revision on.

    Attributes
    ----------
    build : str
        Parts and targets as text of a build file, so that any bench can solve it again.
    fields : dict of str to str
        What a build file has no key for, by its name on the sheet.
    why : tuple of str
        One line a choice from the fitting.
    """

    build: str
    fields: dict[str, str]
    why: tuple[str, ...] = ()


class Step(StrEnum):
    """The steps of a build, in order."""

    WEIGHED = "weighed"
    COMPARED = "compared"
    TIP_TRIMMED = "tip_trimmed"
    DRY_FITTED = "dry_fitted"
    BUTT_TRIMMED = "butt_trimmed"
    DRY_CHECKED = "dry_checked"
    BONDED = "bonded"
    CURED = "cured"
    GRIPPED = "gripped"
    CHECKED = "checked"


@dataclass(frozen=True, slots=True, kw_only=True)
class StepDone:
    """A step was done and its hold point looked at."""

    step: Step
    initials: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Deviated:
    """Something was built otherwise than the sheet says; the target stays.

    Attributes
    ----------
    key : str
        Of the build file, with its table: ``head.mass_g``.
    sheet, built : str
        The value on the sheet and as built, as a build file writes them.
    """

    key: str
    sheet: str
    built: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bonded:
    """Head and shaft were bonded; nobody hits the club before its time.

    Attributes
    ----------
    not_before : datetime
        By the adhesive's own data sheet, in UTC.
    assembly, head_piece, shaft_piece : str
        Ids under which the new club stands in the rack.
    temperature : float or None
        Of the workshop [K].
    """

    adhesive: str
    batch: str
    mixed: datetime
    not_before: datetime
    assembly: str
    head_piece: str
    shaft_piece: str
    temperature: float | None = None


SheetAct: TypeAlias = SheetIssued | StepDone | Deviated | Bonded
