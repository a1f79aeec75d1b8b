"""The ways to go on from a fitting: values that choice, page and paper share."""

from dataclasses import dataclass
from enum import StrEnum

from loftwright.bay.setups import SetUp
from loftwright.evidence.result import ClubResult, Estimate
from loftwright.evidence.run_band import RunBand


class Way(StrEnum):
    """How a golfer comes to a club."""

    HIT = "hit"
    """A club of this fitting, hit often enough to be ranked."""
    TOO_FEW = "too_few"
    OWN_NOT_HIT = "own_not_hit"
    TURN_SLEEVE = "turn_sleeve"
    """The own club with its sleeve turned; not hit."""
    NO_SLEEVE = "no_sleeve"
    """The own club, the sleeve of which cannot be turned to what was not hit."""
    NEW_SHAFT = "new_shaft"
    """A shaft of this fitting in the own head; not hit."""
    NOT_HIT = "not_hit"
    """Another neighbour of a club that was hit: a click, half an inch, four grams of head or of
    shaft, its head on the own shaft, or a club that joined without a ball."""
    OUTSIDE = "outside"
    """A club that is no driver: its balls are listed as read, and nothing is told at home."""
    OUT = "out"
    """Ended by the golfer or the fitter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceRow:
    """One way to go on.

    Attributes
    ----------
    label : str
        Name of the set-up, or of what is made from the own club.
    setting : str
        How the sleeve sits.
    result : ClubResult, optional
        What was seen; of what was not hit, what is told of it without a ball, if anything is.
    feel : float, optional
    price : int, optional
        In the smallest unit of money; None where nobody set one.
    reason : str
        Why it stands where it stands, where that is not its value.
    run : RunBand, optional
        How far its average drive runs.
    p_above_leader : float, optional
        Of what was not hit: probability that it is worth more than the club that leads.
    on_leader : Estimate, optional
        Of what was not hit: what it is worth more than the club that leads [m].
    balls_first : int
        Balls with it before anybody orders it.
    """

    label: str
    club: str
    way: Way
    set_up: SetUp | None
    result: ClubResult | None = None
    feel: float | None = None
    word: str = ""
    price: int | None = None
    reason: str = ""
    run: RunBand | None = None
    p_above_leader: float | None = None
    on_leader: Estimate | None = None
    balls_first: int = 0

    @property
    def hit(self) -> bool:
        """Whether it stands on balls of its own."""
        return self.result is not None and self.result.balls > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Clubs that are too close to call among themselves, or a single one."""

    rows: tuple[ChoiceRow, ...]
    ranked: bool

    @property
    def close(self) -> bool:
        """Whether the rows are told apart by feel and price alone."""
        return self.ranked and len(self.rows) > 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Every way to go on, the best supported first.

    Attributes
    ----------
    groups : tuple of Group
    to_confirm : ChoiceRow, optional
        A club that was not hit and is probably worth a yard more than the one that leads; it
        leads nothing before it was hit.
    p_keep : float, optional
        Probability that no club of the ranked ones is worth a change from the own club.
    """

    groups: tuple[Group, ...]
    to_confirm: ChoiceRow | None = None
    p_keep: float | None = None
