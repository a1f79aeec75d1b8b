"""What the shop record says of clubs and fittings beside their balls."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final

from loftwright.shop.levels import KINDS, LINE, Belongs
from loftwright.shop.leverage import Who
from loftwright.shop.record import files

_PARTS: Final = ("head", *LINE, *KINDS)


def belongs_in(folder: Path) -> dict[tuple[str, str], Belongs]:
    """Return what every club of every fitting of a record belongs to, and who hits it."""
    found: dict[tuple[str, str], Belongs] = {}
    for row in _different(folder, ("fitting", "club", *_PARTS)):
        told = {name: row[name] or "" for name in _PARTS}
        found[row["fitting"], row["club"]] = Belongs(**told)
    return dict(sorted(found.items()))


def who_in(folder: Path) -> dict[str, Who]:
    """Return who hit in every fitting of a record, on what and where."""
    golfers: dict[str, str] = {}
    places: dict[tuple[str, str], set[str]] = {}
    for row in _different(folder, ("fitting", "golfer", "device", "bay")):
        golfers[row["fitting"]] = row["golfer"]
        for name in ("device", "bay"):
            places.setdefault((name, row["fitting"]), set()).add(row[name] or "")
    return {
        fitting: Who(
            golfer=golfer,
            devices=tuple(sorted(places["device", fitting] - {""})),
            bays=tuple(sorted(places["bay", fitting] - {""})),
        )
        for fitting, golfer in golfers.items()
    }


def _different(folder: Path, names: Sequence[str]) -> list[dict[str, Any]]:
    """Return what differs between the rows of a record in some columns."""
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    found: list[dict[str, Any]] = []
    for file in files(folder):
        table = pq.read_table(file, columns=list(names), partitioning=None)
        found += table.group_by(list(names)).aggregate([]).to_pylist()
    return found
