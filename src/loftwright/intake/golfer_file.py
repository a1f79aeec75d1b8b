"""Reads a golfer for whom shafts are sought: TOML in trade units, every key known."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR
from loftwright.domain.golfer import Hand, Wish
from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.intake.toml_files import TableReader, load_toml, read_home
from loftwright.physics.shaft_swing.players import Loading

_KEYS: Final = ("hand", "head_speed_mph", "loading", "goal", "home", "own")
_OWN_KEYS: Final = (
    "head",
    "shaft",
    "setting",
    "grip",
    "length_inch",
    "loft_deg",
    "head_mass_g",
    "tip_trim_inch",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class GolferFile:
    """A golfer and the club that the golfer came with, as a file tells them.

    Attributes
    ----------
    head_speed : float
        With the own club [m s^-1].
    loadings : tuple of Loading
        Both where the file does not say.
    shaft : str
        What the own shaft is called in the rack.
    length, loft, head_mass, tip_trim : float
        Of the own club [m], [rad], [kg], [m].
    """

    place: str
    hand: Hand
    head_speed: float
    loadings: tuple[Loading, ...]
    wish: Wish
    home: Home
    shaft: str
    length: float
    loft: float | None
    head_mass: float
    tip_trim: float
    head: str = ""
    setting: str = ""
    grip: str = ""


def read_golfer(path: Path) -> GolferFile:
    """Return a golfer from a TOML file.

    Parameters
    ----------
    path : Path
        Keys ``hand, head_speed_mph, loading, goal, home`` and a table ``[own]`` with ``head,
        shaft, setting, grip, length_inch, loft_deg, head_mass_g, tip_trim_inch``. ``home`` names
        a file, found from this one's folder.

    Raises
    ------
    IntakeError
        When a file cannot be read.
    InputError
        When a key is not known, a needed one is missing, or a value cannot be.
    """
    place = str(path)
    reader = TableReader(load_toml(path), _KEYS, place)
    if "head_speed_mph" not in reader.table:
        raise InputError(
            "the head speed is missing",
            place=f"{place}, head_speed_mph",
            mend="Write head_speed_mph = 93, as it is with the own club.",
        )
    own = _own(reader, place)
    loading = reader.text("loading", "")
    home = reader.text("home", "")
    return GolferFile(
        place=place,
        hand=reader.word("hand", Hand, Hand.RIGHT),
        head_speed=reader.number("head_speed_mph") * MILE_PER_HOUR,
        loadings=(reader.word("loading", Loading, Loading.QUICK_LATE),)
        if loading
        else tuple(Loading),
        wish=reader.word("goal", Wish, Wish.DISTANCE),
        home=read_home(path.parent / home) if home else Home(),
        head=own.text("head", ""),
        shaft=own.text("shaft", ""),
        setting=own.text("setting", ""),
        grip=own.text("grip", ""),
        length=own.number("length_inch") * INCH,
        loft=own.number("loft_deg") * DEGREE if "loft_deg" in own.table else None,
        head_mass=own.number("head_mass_g", 200.0) * GRAM,
        tip_trim=own.number("tip_trim_inch", 0.0) * INCH,
    )


def _own(reader: TableReader, place: str) -> TableReader:
    table = reader.table.get("own")
    if not isinstance(table, Mapping):
        raise InputError(
            "the golfer's own club is missing",
            place=f"{place}, own",
            mend="Write a table [own] with shaft and length_inch.",
        )
    own = TableReader(table, _OWN_KEYS, f"{place}, own")
    if "length_inch" not in own.table:
        raise InputError(
            "the own club has no length",
            place=f"{place}, own, length_inch",
            mend="Write length_inch = 45.25, the playing length: the others are cut to it.",
        )
    return own
