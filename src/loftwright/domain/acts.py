"""What can happen in a fitting: shots that arrive, and acts and corrections that are appended.

Nothing in a record is edited or removed. An act that was wrong is cancelled by `Undone`, which
is an act itself; what stands now is found by replaying the record. Acts name balls by the
sequence number under which their shot, or the ball that was not read, entered the record.
"""

from dataclasses import dataclass, field
from datetime import date, datetime
from typing import TypeAlias

from loftwright.domain.fitting import ClubCard, DeviceCard, Mark, PlanCard, Strip
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitOpened:
    """A visit begins; everything until `WarmUpDone` is warm-up.

    Attributes
    ----------
    warm_up : bool
        Whether the golfer warms up in this bay; not for a visit that is typed in afterwards.
    learned : int
        Version of what the shop has learned that it is compared by; 0 for physics alone.
    """

    day: date
    bay: str
    device: DeviceCard
    strip: Strip = field(default_factory=Strip)
    warm_up: bool = True
    learned: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmUpDone:
    """The golfer is warm; `unseen` swings before it were read by no device and count too."""

    unseen: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubJoined:
    """A club joins the fitting under the name it keeps."""

    club: str
    card: ClubCard


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubDropped:
    """A club leaves the comparison; its balls stay."""

    club: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Vetoed:
    """The golfer would not play this club."""

    club: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A plan, or a new one when the visit runs late."""

    plan: PlanCard


@dataclass(frozen=True, slots=True, kw_only=True)
class HandedOver:
    """Another club is in the golfer's hand."""

    club: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingSeen:
    """The sleeve of the club in hand was looked at."""

    setting: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StripChanged:
    """Ball, tee, surface, place or face treatment from here on."""

    strip: Strip


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotArrived:
    """A ball as a device or a person recorded it; written once.

    Attributes
    ----------
    club : str
        The club that the sender names, taken only if the fitting has it.
    line : str
        The device's own line, letter for letter.
    time : str
        The device's own time.
    source : str
        How it came: feed, folder, table, keyboard, sheet or virtual.
    after : int, optional
        Sequence of the ball it was hit after, where it was typed in later.
    """

    numbers: ShotNumbers
    club: str = ""
    line: str = ""
    time: str = ""
    device: str = ""
    source: str = "feed"
    after: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NotRead:
    """A ball that was hit and not read.

    Attributes
    ----------
    after : int, optional
        Sequence of the ball it was hit after, where that was noticed later; 0 for the first
        ball. Without it the ball is the newest.
    """

    after: int | None = None
    club: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """A mark was read on the face: of this ball, else of the newest without one, or it waits."""

    mark: Mark
    ball: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NoMark:
    """A ball left no mark, or its mark is taken off."""

    ball: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SetMarked:
    """Marks of several balls in unknown order."""

    balls: tuple[int, ...]
    marks: tuple[Mark, ...]

    def __post_init__(self) -> None:
        if not 0 < len(self.marks) <= len(self.balls):
            raise InputError(
                f"{len(self.marks)} marks for {len(self.balls)} balls",
                place="set",
                mend="Tap a mark for each ball; first add a ball that was hit and not read.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class MarksJoined:
    """Waiting marks find their balls, in this order."""

    marks: tuple[int, ...]
    balls: tuple[int, ...]

    def __post_init__(self) -> None:
        if not 0 < len(self.marks) == len(self.balls):
            raise InputError(
                f"{len(self.marks)} marks cannot join {len(self.balls)} balls",
                place="marks",
                mend="Give one ball for each mark.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class MarksShifted:
    """Every mark from this ball on belongs to the next ball, or to the one before.

    Attributes
    ----------
    first : int
        The first ball whose mark moves.
    by : int
        1 or -1.
    """

    first: int
    by: int

    def __post_init__(self) -> None:
        if self.by not in {1, -1}:
            raise InputError(
                f"marks move by one ball, not by {self.by}", place="by", mend="Give 1 or -1."
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkDropped:
    """A waiting mark belongs to no ball of this golfer."""

    mark: int


@dataclass(frozen=True, slots=True, kw_only=True)
class NotOurs:
    """A reading that is no ball of this golfer: a waggle, a neighbour's ball."""

    ball: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OddBall:
    """A ball that the fitter sets aside."""

    ball: int


@dataclass(frozen=True, slots=True, kw_only=True)
class RunMoved:
    """Balls from first to last, in the order of play, were hit with another club."""

    first: int
    last: int
    club: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RunSet:
    """Balls from first to last, in the order of play, were hit with another setting."""

    first: int
    last: int
    setting: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Felt:
    """How a club feels to the golfer.

    Attributes
    ----------
    place : float
        From 0, would not play, to 1, want it.
    word : str
        The golfer's own.
    """

    club: str
    place: float
    word: str = ""

    def __post_init__(self) -> None:
        if not 0.0 <= self.place <= 1.0:
            raise InputError(f"{self.place} lies off the line", place="place", mend="Give 0 to 1.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Rested:
    """The golfer rested."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PainSaid:
    """The golfer feels pain: the test stops."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Revealed:
    """Names and comparison are shown to the golfer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """The fitter closes the fitting: corrections may follow, balls may not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Undone:
    """An earlier act is cancelled, with those that were written together with it.

    A shot cannot be cancelled; to cancel an `Undone` is to do its act again.
    """

    act: int


Act: TypeAlias = (
    VisitOpened
    | WarmUpDone
    | ClubJoined
    | ClubDropped
    | Vetoed
    | Planned
    | HandedOver
    | SettingSeen
    | StripChanged
    | ShotArrived
    | NotRead
    | Marked
    | NoMark
    | SetMarked
    | MarksJoined
    | MarksShifted
    | MarkDropped
    | NotOurs
    | OddBall
    | RunMoved
    | RunSet
    | Felt
    | Rested
    | PainSaid
    | Revealed
    | Closed
    | Undone
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of a fitting's record.

    Attributes
    ----------
    sequence : int
        From 1, without gaps within a fitting.
    at : datetime
        When it was written, in UTC.
    by : str
        The person or device that wrote it.
    group : int
        Sequence of the first act written together with this one.
    key : str
        The sender's idempotency key.
    """

    sequence: int
    at: datetime
    by: str
    act: Act
    group: int
    key: str = ""
