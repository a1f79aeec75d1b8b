"""Measured shafts for the command line: from the studio's rack, a rack file or a table."""

from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Final

from loftwright.domain.kept_profile import kept_profile
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Piece, Rack
from loftwright.errors import UsageError
from loftwright.physics.shaft.mount import BARE
from loftwright.services.bench import MeasuredShaft, measure_file
from loftwright.services.measuring import measured
from loftwright.services.rack_source import rack_of
from loftwright.services.shaft_named import shaft_named

TABLE: Final = ".csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShaftRack:
    """A rack that is only read.

    Attributes
    ----------
    rack : Rack
    profiles : dict of str to MeasuredProfile
        The one that stands of every measured piece.
    """

    rack: Rack
    profiles: dict[str, MeasuredProfile]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FoundShaft:
    """A measured shaft, wherever it was found.

    Attributes
    ----------
    name : str
    piece : Piece, optional
        None for one that a table of readings tells.
    measured : MeasuredProfile
    doubted : tuple of int
        Rows of that table that look wrong; they count as they stand.
    """

    name: str
    piece: Piece | None
    measured: MeasuredProfile
    doubted: tuple[int, ...] = ()


def open_rack(file: Path | None = None) -> ShaftRack:
    """Return the rack in a file of the open format, or of the studio in the data folder.

    Parameters
    ----------
    file : Path, optional

    Raises
    ------
    IntakeError, InputError
        If the file cannot be read, or a row of it is refused; it names the row.
    StoreError
        If there is no studio, or it cannot be read.
    """
    with rack_of(file) as studio:
        return ShaftRack(rack=studio.store.rack(), profiles=measured(studio))


def find_shaft(name: str, rack: Path | None = None, length: float | None = None) -> FoundShaft:
    """Return the measured shaft of a name, or the one that a table of readings tells.

    Parameters
    ----------
    name : str
        As the rack has it, or a table of readings.
    rack : Path, optional
        A rack file; the studio's rack without it.
    length : float, optional
        Of the shaft of a table, from butt to tip end [m].

    Raises
    ------
    UsageError
        If a table lacks the length, or a shaft of the rack is given one.
    """
    if is_table(name):
        return _of_table(Path(name), length)
    if length is not None:
        raise UsageError(
            f"the rack knows how long {name} is",
            place="--length",
            mend="Leave it out, or name a table of readings.",
        )
    at_hand = open_rack(rack)
    found = shaft_named(at_hand.rack, at_hand.profiles, name)
    return FoundShaft(name=found.name, piece=found.piece, measured=found.measured)


def is_table(name: str) -> bool:
    """Return whether a name is that of a table of readings."""
    return Path(name).suffix.casefold() == TABLE or Path(name).is_file()


def now() -> datetime:
    """Return the instant it is."""
    return datetime.now(UTC)


def _of_table(path: Path, length: float | None) -> FoundShaft:
    if length is None:
        raise UsageError(
            f"a shaft in a table of readings needs its length ({path})",
            place="--length",
            mend="Give --length as measured from butt to tip end, such as --length 1168.",
        )
    found: MeasuredShaft = measure_file(path, length, BARE)
    kept = kept_profile(
        found.measured,
        piece=str(path),
        day=_day_of(path),
        bench=str(path),
        conditions="as the table of readings tells",
    )
    return FoundShaft(
        name=path.name,
        piece=None,
        measured=kept,
        doubted=tuple(sorted(found.lines[one.place] for one in found.measured.doubts)),
    )


def _day_of(path: Path) -> date:
    return datetime.fromtimestamp(path.stat().st_mtime, UTC).date()
