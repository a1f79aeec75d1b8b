"""Published limits that a workshop can measure by, and what it cannot measure.

Nothing here says what a club is under the Rules: a reading lies below a limit, above it, or too
close to call, and only The R&A and the USGA decide.

References
----------
Equipment Rules, part 2: 1c (length), 2a to 2c (shaft), 3 (grip) and 4b (wood heads), and the
guide to them, in copies of 2019 and before, seen. Model Local Rule G-10 (46 in, not putters),
2022, as announced, seen; its own text and any measuring tolerance in it were not seen.
"""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Final

from loftwright.constants import INCH
from loftwright.domain.verdict import Reading, Side, side_of, side_of_least
from loftwright.errors import InputError

USUAL_EDITION: Final = "Equipment Rules, in force from 1 January 2019"
CUBIC_CENTIMETRE: Final = 1e-6


class Kind(StrEnum):
    """What kind of club it is."""

    WOOD = "wood"
    IRON = "iron"
    PUTTER = "putter"


class Measured(StrEnum):
    """What a workshop can measure that a limit is published for."""

    LENGTH = "length"
    NECK = "neck"
    STRAIGHT_FROM = "straight_from"
    GRIP_LENGTH = "grip_length"
    GRIP_ACROSS = "grip_across"
    GRIP_RIB = "grip_rib"
    HEEL_TO_TOE = "heel_to_toe"
    SOLE_TO_CROWN = "sole_to_crown"
    VOLUME = "volume"


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedLimit:
    """A published limit.

    Attributes
    ----------
    measured : Measured
    value : float
        SI, any tolerance that is published with it included.
    least : bool
        Whether it is a lower limit.
    kinds : frozenset of Kind
        To which clubs it applies.
    local : bool
        Whether it holds only where the competition says so.
    roughly : bool
        Whether a workshop measures it only roughly.
    """

    measured: Measured
    value: float
    least: bool = False
    kinds: frozenset[Kind] = frozenset(Kind)
    local: bool = False
    roughly: bool = False


_NOT_PUTTERS: Final = frozenset({Kind.WOOD, Kind.IRON})
_WOODS: Final = frozenset({Kind.WOOD})
LOCAL_LENGTH: Final = 46.0 * INCH
PUBLISHED: Final = (
    PublishedLimit(measured=Measured.LENGTH, value=48.0 * INCH, kinds=_NOT_PUTTERS),
    PublishedLimit(measured=Measured.LENGTH, value=LOCAL_LENGTH, kinds=_NOT_PUTTERS, local=True),
    PublishedLimit(measured=Measured.LENGTH, value=18.0 * INCH, least=True),
    PublishedLimit(measured=Measured.NECK, value=5.0 * INCH),
    PublishedLimit(measured=Measured.STRAIGHT_FROM, value=5.0 * INCH),
    PublishedLimit(measured=Measured.GRIP_LENGTH, value=7.0 * INCH, least=True),
    PublishedLimit(measured=Measured.GRIP_ACROSS, value=1.75 * INCH),
    PublishedLimit(measured=Measured.GRIP_RIB, value=0.040 * INCH, kinds=_NOT_PUTTERS),
    PublishedLimit(measured=Measured.HEEL_TO_TOE, value=5.0 * INCH, kinds=_WOODS, roughly=True),
    PublishedLimit(measured=Measured.SOLE_TO_CROWN, value=2.8 * INCH, kinds=_WOODS, roughly=True),
    PublishedLimit(
        measured=Measured.VOLUME,
        value=(460.0 + 10.0) * CUBIC_CENTIMETRE,
        kinds=_WOODS,
        roughly=True,
    ),
)


class NotMeasured(StrEnum):
    """What the Rules limit and no workshop measures."""

    SPRING = "spring"
    HEAD_INERTIA = "head_inertia"
    BENDING_SYMMETRY = "bending_symmetry"
    FACE = "face"
    VOLUME = "volume"
    LISTED = "listed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """Which rules a sheet compares with.

    Attributes
    ----------
    edition : str
        Named on every sheet; a person has to check that it is the one in force.
    limits : tuple of PublishedLimit
    local_length : bool
        Whether the competition uses the local rule on length.
    """

    edition: str = USUAL_EDITION
    limits: tuple[PublishedLimit, ...] = field(default=PUBLISHED)
    local_length: bool = False

    def __post_init__(self) -> None:
        if not self.edition.strip():
            raise InputError(
                "no edition of the Equipment Rules is named",
                place="edition",
                mend=f"Write which you looked at, such as {USUAL_EDITION!r}.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitLine:
    """A reading beside a published limit.

    Attributes
    ----------
    limit : PublishedLimit
    reading : Reading
    side : Side
    """

    limit: PublishedLimit
    reading: Reading
    side: Side


def limit_lines(
    readings: dict[Measured, Reading], kind: Kind, rules: Rules
) -> tuple[LimitLine, ...]:
    """Return every reading beside the limits that are published for it.

    Parameters
    ----------
    readings : dict of Measured to Reading
        SI.
    kind : Kind
    rules : Rules

    Returns
    -------
    tuple of LimitLine
        In the order of the limits. The local rule's stands only where the competition uses it.
    """
    found = []
    for limit in rules.limits:
        reading = readings.get(limit.measured)
        if reading is None or kind not in limit.kinds:
            continue
        if limit.local and not rules.local_length:
            continue
        side = (side_of_least if limit.least else side_of)(reading, limit.value)
        found.append(LimitLine(limit=limit, reading=reading, side=side))
    return tuple(found)


def not_measured(readings: dict[Measured, Reading], kind: Kind) -> tuple[NotMeasured, ...]:
    """Return what the Rules limit of such a club and this workshop has not measured."""
    woods = (NotMeasured.SPRING, NotMeasured.HEAD_INERTIA, NotMeasured.VOLUME, NotMeasured.LISTED)
    return tuple(
        one
        for one in NotMeasured
        if (kind is Kind.WOOD or one not in woods)
        and not (one is NotMeasured.VOLUME and Measured.VOLUME in readings)
    )
