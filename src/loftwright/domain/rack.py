"""What stands in the rack: models, pieces, sleeves and the clubs put together from them."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import TypeAlias

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.golfer import Hand
from loftwright.errors import InputError

SHORTEST_CLUB = 30.0 * INCH
LONGEST_CLUB = 52.0 * INCH
LEAST_LOFT = 4.0 * DEGREE
MOST_LOFT = 70.0 * DEGREE
HEAVIEST_PIECE = 350.0 * GRAM
"""A sand wedge's head, with room (common practice, no source)."""


class State(StrEnum):
    """Whether a piece may be handed over."""

    READY = "ready"
    LOCKED = "locked"
    RETIRED = "retired"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadModel:
    """A head as its maker sells it.

    Attributes
    ----------
    loft, lie, face : float
        As printed [rad]; face open positive.
    system : str
        Name of the sleeve system that fits its hosel; empty for a glued hosel.
    family : str
        Name that its generations share; empty where nobody said.
    generation : str
        Which one of its family it is, in words or a year.
    replaces : str, optional
        Id of the head model that it took the place of.
    stock : int, optional
        New ones on the shelf to sell; None where nobody counted.
    price : int, optional
        Of a new one, in the smallest unit of money.
    """

    id: str
    maker: str
    name: str
    hand: Hand = Hand.RIGHT
    loft: float
    lie: float = 58.0 * DEGREE
    face: float = 0.0
    system: str = ""
    generation: str = ""
    replaces: str | None = None
    family: str = ""
    stock: int | None = None
    price: int | None = None

    def __post_init__(self) -> None:
        _named(self.name, "head")
        _sold(self.stock, self.price)
        _not_itself(self.id, self.replaces)
        if not LEAST_LOFT <= self.loft <= MOST_LOFT:
            raise InputError(
                f"a head of {self.loft / DEGREE:.1f} deg cannot be used",
                place="loft",
                mend="Give the loft printed on the head; a driver has 4 to 20 deg, an iron to 70.",
            )
        if not 45.0 * DEGREE <= self.lie <= 70.0 * DEGREE:
            raise InputError(
                f"a lie of {self.lie / DEGREE:.1f} deg cannot be used",
                place="lie",
                mend="Give 45 to 70 deg; 58 is usual.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class ShaftModel:
    """A shaft as its maker sells it.

    Attributes
    ----------
    paper_mass : float, optional
        The printed weight of the uncut shaft [kg].
    paper_label : str
        What else is printed; it is no measurement.
    family : str
        Name that its weights, labels and generations share; empty where nobody said.
    generation : str
        Which one of its family it is, in words or a year.
    replaces : str, optional
        Id of the shaft model that it took the place of.
    stock : int, optional
        New ones on the shelf to sell; None where nobody counted.
    price : int, optional
        Of a new one, in the smallest unit of money.
    """

    id: str
    maker: str
    name: str
    paper_mass: float | None = None
    paper_label: str = ""
    generation: str = ""
    replaces: str | None = None
    family: str = ""
    stock: int | None = None
    price: int | None = None

    def __post_init__(self) -> None:
        _named(self.name, "shaft")
        _sold(self.stock, self.price)
        _not_itself(self.id, self.replaces)
        _mass(self.paper_mass, "paper_mass", 0.025, 0.150)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One sample of a model.

    Attributes
    ----------
    model : str
        Id of its head or shaft model.
    label : str
        What is written on it to tell it from its like.
    mass : float, optional
        Weighed here [kg].
    place : str
        Where it is.
    sleeve : str, optional
        Id of the sleeve glued to a shaft.
    locked_until : datetime, optional
        Not to be hit before, as while a bond cures.
    check_after : int, optional
        Balls between two inspections; None for the usual number.
    """

    id: str
    model: str
    label: str = ""
    mass: float | None = None
    place: str = ""
    sleeve: str | None = None
    state: State = State.READY
    reason: str = ""
    locked_until: datetime | None = None
    check_after: int | None = None

    def __post_init__(self) -> None:
        _mass(self.mass, "mass", 0.025, HEAVIEST_PIECE)
        if self.check_after is not None and not 1 <= self.check_after <= 100_000:
            raise InputError(
                f"{self.check_after} balls between inspections cannot be",
                place="check_after",
                mend="Give 1 to 100000 balls, or leave it empty for the usual number.",
            )
        if self.state is not State.READY and not self.reason.strip():
            raise InputError(
                f"a {self.state} piece needs a reason",
                place="reason",
                mend="Write what was seen: cracked at the tip, sold, lost.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class SleeveSetting:
    """One way to put the sleeve in.

    Attributes
    ----------
    name : str
        As the sleeve has it written, or in words.
    bore : float
        Angle between the shaft and the hosel's own axis [rad].
    azimuth : float
        Where the grip end leans in the head's frame: 0 to the target, a quarter turn to the
        player [rad].
    """

    name: str
    bore: float = 0.0
    azimuth: float = 0.0

    def __post_init__(self) -> None:
        _named(self.name, "setting")
        if not 0.0 <= self.bore <= 4.0 * DEGREE:
            raise InputError(
                f"a bore of {self.bore / DEGREE:.1f} deg cannot be used",
                place="bore",
                mend="Give 0 to 4 deg, as measured on a gauge.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Sleeve:
    """A kind of angled sleeve that fits one system of heads."""

    id: str
    name: str
    system: str
    settings: tuple[SleeveSetting, ...]

    def __post_init__(self) -> None:
        _named(self.name, "sleeve")
        if not self.settings:
            raise InputError(
                "a sleeve needs a setting", place="settings", mend="Name at least its middle one."
            )
        names = [setting.name for setting in self.settings]
        if len(set(names)) < len(names):
            raise InputError("two settings share a name", place="settings", mend="Rename one.")

    def setting(self, name: str) -> SleeveSetting:
        """Return a setting by its name.

        Raises
        ------
        InputError
            If the sleeve has none of that name.
        """
        for one in self.settings:
            if one.name == name:
                return one
        raise InputError(
            f"the sleeve {self.name} has no setting {name!r}",
            place="setting",
            mend="It has " + ", ".join(one.name for one in self.settings) + ".",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """A whole club: this head on this shaft, so set, so long, with this grip.

    Attributes
    ----------
    head, shaft : str
        Ids of their pieces.
    setting : str
        Name of the sleeve's setting; empty for a glued hosel.
    length : float
        Playing length [m].
    owner : str, optional
        Id of the golfer whose own club it is; none for the shop's.
    price : int, optional
        What a golfer pays for this club, in the smallest unit of money.
    """

    id: str
    head: str
    shaft: str
    length: float
    setting: str = ""
    grip: str = ""
    owner: str | None = None
    price: int | None = None

    def __post_init__(self) -> None:
        if not SHORTEST_CLUB <= self.length <= LONGEST_CLUB:
            raise InputError(
                f"a club of {self.length / INCH:.2f} in cannot be used",
                place="length",
                mend="Give the playing length, 30 to 52 in.",
            )
        _sold(None, self.price)


RackItem: TypeAlias = HeadModel | ShaftModel | Piece | Sleeve | Assembly


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """Everything in the rack, by id, in the order in which it came."""

    heads: dict[str, HeadModel]
    shafts: dict[str, ShaftModel]
    pieces: dict[str, Piece]
    sleeves: dict[str, Sleeve]
    assemblies: dict[str, Assembly]

    def head_of(self, assembly: Assembly) -> HeadModel:
        """Return the model of an assembly's head."""
        return self.heads[self.pieces[assembly.head].model]

    def shaft_of(self, assembly: Assembly) -> ShaftModel:
        """Return the model of an assembly's shaft."""
        return self.shafts[self.pieces[assembly.shaft].model]

    def sleeve_of(self, assembly: Assembly) -> Sleeve | None:
        """Return the sleeve on an assembly's shaft, if it has one."""
        sleeve = self.pieces[assembly.shaft].sleeve
        return self.sleeves[sleeve] if sleeve else None


def _named(name: str, what: str) -> None:
    if not name.strip():
        raise InputError(f"a {what} needs a name", place="name", mend="Write what is on it.")


def _mass(mass: float | None, place: str, least: float, most: float) -> None:
    if mass is not None and not least <= mass <= most:
        raise InputError(
            f"{1000.0 * mass:.1f} g cannot be",
            place=place,
            mend=f"Give {1000.0 * least:.0f} to {1000.0 * most:.0f} g.",
        )


def _sold(stock: int | None, price: int | None) -> None:
    for place, figure, words in (("stock", stock, "a stock"), ("price", price, "a price")):
        if figure is not None and not 0 <= figure < 2**53:
            raise InputError(
                f"{words} of {figure} cannot be", place=place, mend="Give nought or more."
            )


def _not_itself(model: str, replaces: str | None) -> None:
    if replaces is not None and replaces == model:
        raise InputError(
            "a model cannot replace itself", place="replaces", mend="Choose the one before it."
        )
