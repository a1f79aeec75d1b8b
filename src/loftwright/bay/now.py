"""What stands now in a fitting: the values that replaying its record gives."""

from dataclasses import dataclass, field
from datetime import date, datetime

from loftwright.domain.fitting import ClubCard, DeviceCard, Mark, PlanCard, Strip
from loftwright.domain.numbers import ShotNumbers


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """One ball, or one reading that turned out to be no ball of this golfer.

    Attributes
    ----------
    sequence : int
        Under which it entered the record; acts name it by this.
    number : int
        Place among the golfer's balls that count, over all visits, from 1; 0 for warm-up balls
        and for what is not the golfer's.
    visit : int
        From 0.
    order : int
        Place among all the golfer's swings of the visit, warm-up and unread ones included,
        from 0.
    club : str, optional
        None while no club was in hand.
    setting : str
        How the sleeve sat.
    numbers : ShotNumbers, optional
        None for a ball that was hit and not read.
    mark : Mark, optional
        Its own, or one of its set's.
    mark_set : int, optional
        Shared by balls whose marks are of unknown order.
    not_ours, odd, warm_up : bool
    """

    sequence: int
    at: datetime
    number: int
    visit: int
    order: int
    club: str | None
    setting: str
    numbers: ShotNumbers | None
    mark: Mark | None
    mark_set: int | None
    not_ours: bool
    odd: bool
    warm_up: bool
    strip: Strip
    source: str
    line: str
    time: str

    @property
    def compared(self) -> bool:
        """Whether it is a ball of the comparison: the golfer's, warm, with a known club."""
        return not (self.not_ours or self.warm_up) and self.club is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubNow:
    """A club of the fitting.

    Attributes
    ----------
    out : str
        Why it is out of the comparison: vetoed or dropped; empty while it is in.
    feel : float, optional
        Newest place on the line, from 0, would not play, to 1, want it.
    """

    name: str
    card: ClubCard
    out: str = ""
    feel: float | None = None
    word: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """A mark that waits for its ball."""

    sequence: int
    at: datetime
    mark: Mark
    club: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitNow:
    """One visit of the fitting.

    Attributes
    ----------
    warm : bool
        Whether its warm-up is over.
    unseen : int
        Warm-up swings that no device read.
    learned : int
        Version of what the shop's record had taught when it began; 0 for physics alone.
    """

    index: int
    day: date
    bay: str
    device: DeviceCard
    opened: datetime
    warm: bool
    unseen: int
    learned: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanNow:
    """The plan in force.

    Attributes
    ----------
    made : datetime
    swings_before : int
        Balls that counted before it was made.
    """

    plan: PlanCard
    made: datetime
    swings_before: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LastAct:
    """An act that a button names.

    Attributes
    ----------
    sequence : int
        What an `Undone` names to cancel it, or to do it again.
    kind : str
        Name of the act's class.
    """

    sequence: int
    kind: str
    club: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingNow:
    """A fitting as it stands.

    Attributes
    ----------
    upto : int
        Sequence of the last entry that was replayed.
    swings : tuple of Swing
        In the order of play.
    in_hand : str, optional
    seen : str, optional
        The sleeve's setting as it was seen; None while nobody looked.
    confirmed : datetime, optional
        When the club in hand was last handed over or confirmed.
    rested : int
        Swings of the visit when the golfer last rested.
    """

    upto: int
    visits: tuple[VisitNow, ...] = ()
    clubs: tuple[ClubNow, ...] = ()
    swings: tuple[Swing, ...] = ()
    waiting: tuple[Waiting, ...] = ()
    in_hand: str | None = None
    seen: str | None = None
    confirmed: datetime | None = None
    strip: Strip = field(default_factory=Strip)
    plan: PlanNow | None = None
    rested: int = 0
    pain: bool = False
    revealed: bool = False
    closed: bool = False
    undoable: LastAct | None = None
    repeatable: LastAct | None = None

    @property
    def visit(self) -> VisitNow | None:
        """The newest visit."""
        return self.visits[-1] if self.visits else None

    @property
    def learned(self) -> int:
        """The version of the shop's record that clubs are compared under; 0 for physics alone."""
        return self.visits[-1].learned if self.visits else 0

    @property
    def balls(self) -> tuple[Swing, ...]:
        """The balls that count, read or not, in the order of play."""
        return tuple(swing for swing in self.swings if swing.compared)

    @property
    def swings_today(self) -> int:
        """Every swing of the newest visit: warm-up, read or not, seen by the device or not."""
        if not self.visits:
            return 0
        here = self.visits[-1]
        seen = sum(1 for one in self.swings if one.visit == here.index and not one.not_ours)
        return here.unseen + seen

    def club(self, name: str) -> ClubNow | None:
        """Return a club by its name."""
        return next((club for club in self.clubs if club.name == name), None)

    def swing(self, sequence: int) -> Swing | None:
        """Return a ball by the sequence under which it entered the record."""
        return next((one for one in self.swings if one.sequence == sequence), None)
