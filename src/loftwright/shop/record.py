"""The shop record on disk: every ball of every fitting that may be kept, in an open form.

One Parquet file a part of the golfers, so that a fitting is written again, and a golfer taken
out, without touching the others. SI and radians, in the golfer's own signs: what opens the face,
goes to the toe or curves away from the golfer is positive for left- and right-handers alike.
"""

import os
import tempfile
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from loftwright.errors import StoreError
from loftwright.evidence.balls import Balls
from loftwright.shop.levels import Belongs
from loftwright.shop.turns import turn

if TYPE_CHECKING:
    import pyarrow as pa

PARTS: Final = 256
FILE: Final = "balls.parquet"
VERSION: Final = "1"
"""Of the open form; written into every file."""

_DRAFT: Final = ".new-"
_TEXTS: Final = (
    *("fitting", "golfer", "bay", "device", "speed", "loading", "ability"),
    *("club", "head", "family", "generation", "model", "piece"),
)
_WHOLE: Final = ("visit", "order")
_FIGURES: Final = (
    *("ball_speed", "launch", "spin", "axis", "direction"),
    *("head_speed", "attack", "path", "face"),
    *("strike_toe", "strike_high", "weight"),
    *("shift_head_speed", "shift_attack", "shift_path", "shift_face", "shift_loft"),
)
COLUMNS: Final = (*_TEXTS, *_WHOLE, *_FIGURES)
"""Columns of the open form, in order."""

_MIRRORED: Final = (
    *("axis", "direction", "path", "face", "strike_toe"),
    *("shift_path", "shift_face"),
)


_NO_SHIFT: Final = (0.0, 0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Recorded:
    """A fitting as the record keeps it.

    Attributes
    ----------
    golfer : str
        A code that stands for the golfer and tells nobody who it is.
    left_handed : bool
    bays, devices : tuple of str
        By visit.
    speed, loading, ability : str
        What kind of golfer it is; empty where nobody said.
    balls : Balls
        In world signs, as they were compared.
    weights : FloatArray or None, shape (n,)
        Robust weights as a share of an ordinary ball's; ones without.
    belongs : dict of str to Belongs
        By club.
    shifts : dict of str to tuple of float
        What physics and bench expect of each club: head speed [m/s], attack, path, face, dynamic
        loft [rad], in world signs; nought of a club that is not in it.
    """

    fitting: str
    golfer: str
    left_handed: bool
    bays: tuple[str, ...]
    devices: tuple[str, ...]
    balls: Balls
    belongs: dict[str, Belongs]
    speed: str = ""
    loading: str = ""
    ability: str = ""
    weights: np.ndarray[Any, np.dtype[np.float64]] | None = field(default=None)
    shifts: dict[str, tuple[float, float, float, float, float]] = field(default_factory=dict)


def part_of(golfer: str) -> str:
    """Return the part of the record in which a golfer's balls lie."""
    return sha256(golfer.encode()).hexdigest()[:2]


def table_of(recorded: Recorded) -> "pa.Table":
    """Return the balls of a fitting as a table of the open form."""
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it

    columns = _columns(recorded)
    kept = ~recorded.balls.set_aside
    types = _types()
    return pa.table(
        {
            name: pa.array(columns[name][kept], type=types[name], from_pandas=True)
            for name in COLUMNS
        },
        metadata={"form": f"loftwright balls {VERSION}"},
    )


def keep(folder: Path, recorded: Recorded) -> None:
    """Write a fitting into the record; one that is there is replaced.

    Raises
    ------
    StoreError
        If the record cannot be read or written; it stays as it was.
    """
    table = table_of(recorded)
    _rewrite(
        folder, recorded.golfer, lambda old: _without(old, "fitting", recorded.fitting), table
    )


def erase(folder: Path, golfer: str) -> int:
    """Take a golfer's balls out of the record and return how many went.

    Raises
    ------
    StoreError
        If the record cannot be read or written; it stays as it was.
    """
    return _rewrite(folder, golfer, lambda old: _without(old, "golfer", golfer), None)


def drop_all(folder: Path, fittings: Collection[tuple[str, str]]) -> int:
    """Take fittings, each with its golfer, out of the record and return how many balls went.

    Raises
    ------
    StoreError
        If the record cannot be read or written; no part of it is half written.
    """
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.compute as pc  # noqa: PLC0415 - only the shop record needs it

    by_part: dict[str, list[tuple[str, str]]] = {}
    for fitting, golfer in sorted(fittings):
        by_part.setdefault(part_of(golfer), []).append((fitting, golfer))
    gone = 0
    for there in by_part.values():
        names = pa.array([fitting for fitting, _ in there], pa.string())

        def cleaned(old: "pa.Table", names: "pa.Array" = names) -> "pa.Table":
            return old.filter(pc.invert(pc.is_in(old["fitting"], value_set=names)))

        gone += _rewrite(folder, there[0][1], cleaned, None)
    return gone


def standing(folder: Path) -> dict[tuple[str, str], int]:
    """Return the balls of every fitting and golfer in the record.

    Raises
    ------
    StoreError
        If a file of it cannot be read.
    """
    found: dict[tuple[str, str], int] = {}
    for file in files(folder):
        table = columns_in(file, ("fitting", "golfer"))
        told = table.group_by(["fitting", "golfer"]).aggregate([([], "count_all")])
        for row in told.to_pylist():
            found[row["fitting"], row["golfer"]] = row["count_all"]
    return found


def files(folder: Path) -> list[Path]:
    """Return the record's files; none before anything was kept."""
    return sorted(folder.glob(f"part=*/{FILE}"))


def columns_in(file: Path, names: Sequence[str] | None = None) -> "pa.Table":
    """Return some columns of one of the record's files, all of them without names.

    Raises
    ------
    StoreError
        If they cannot be read.
    """
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    try:
        return pq.read_table(file, columns=names and list(names), partitioning=None)
    except (OSError, pa.ArrowException) as error:
        raise StoreError(
            f"the shop record cannot be read: {error}",
            place=str(file),
            mend="Move the file away and make it again: loftwright shop record.",
        ) from error


def _columns(recorded: Recorded) -> dict[str, Any]:
    balls = recorded.balls
    count = len(balls)
    side = -1.0 if recorded.left_handed else 1.0
    # Of a mark in a set of unknown order nobody knows which ball it is of.
    marks = np.where((balls.mark_set >= 0)[:, None], np.nan, balls.marks)
    figures = {
        **dict(zip(_FIGURES[:5], balls.launch.T, strict=True)),
        **dict(zip(_FIGURES[5:9], balls.delivery.T, strict=True)),
        "strike_toe": marks[:, 0],
        "strike_high": marks[:, 1],
        "weight": np.ones(count) if recorded.weights is None else recorded.weights,
    }
    clubs = [balls.clubs[one] for one in balls.club]
    shifts = np.array([recorded.shifts.get(club, _NO_SHIFT) for club in clubs]).reshape(count, 5)
    figures |= dict(zip(_FIGURES[12:], shifts.T, strict=True))
    for name in _MIRRORED:
        figures[name] = side * figures[name]
    texts = {
        **{
            name: np.full(count, getattr(recorded, name), dtype=object)
            for name in ("fitting", "golfer", "speed", "loading", "ability")
        },
        "bay": np.array([recorded.bays[one] for one in balls.visit], dtype=object),
        "device": np.array([recorded.devices[one] for one in balls.visit], dtype=object),
        "club": np.array(clubs, dtype=object),
        **{
            name: np.array([getattr(recorded.belongs[club], name) for club in clubs], dtype=object)
            for name in ("head", "family", "generation", "model", "piece")
        },
    }
    return {**texts, "visit": balls.visit, "order": balls.order.astype(np.int64), **figures}


def lacking(schema: "pa.Schema") -> list[str]:
    """Return the columns of the open form that a file lacks or has as another kind."""
    types = _types()
    return [
        name
        for name in COLUMNS
        if name not in schema.names or schema.field(name).type != types[name]
    ]


def _types() -> dict[str, "pa.DataType"]:
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it

    return {
        **dict.fromkeys(_TEXTS, pa.string()),
        **dict.fromkeys(_WHOLE, pa.int64()),
        **dict.fromkeys(_FIGURES, pa.float64()),
    }


def _without(table: "pa.Table", column: str, value: str) -> "pa.Table":
    import pyarrow.compute as pc  # noqa: PLC0415 - only the shop record needs it

    return table.filter(pc.not_equal(table[column], value))


def _rewrite(
    folder: Path, golfer: str, cleaned: "Callable[[pa.Table], pa.Table]", more: "pa.Table | None"
) -> int:
    """Replace one part of the record, whole or not at all, and return how many rows went."""
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    place = folder / f"part={part_of(golfer)}" / FILE
    try:
        with turn(folder):
            _sweep(place.parent)
            old = pq.read_table(place, partitioning=None) if place.exists() else None
            left = None if old is None else cleaned(old)
            gone = 0 if old is None or left is None else old.num_rows - left.num_rows
            whole = [one for one in (left, more) if one is not None and one.num_rows]
            if not whole:
                place.unlink(missing_ok=True)
            elif more is not None or gone:
                _write(place, pa.concat_tables(whole))
    except (OSError, pa.ArrowException) as error:
        raise StoreError(
            f"the shop record cannot be written: {error}",
            place=str(place),
            mend="Make the folder writable and free some space; what was there is left as it was.",
        ) from error
    return gone


def _sweep(part: Path) -> None:
    """Remove drafts of programs that were killed: a golfer who leaves must not stay in one."""
    for draft in part.glob(f"{_DRAFT}*"):
        draft.unlink(missing_ok=True)


def _write(place: Path, table: "pa.Table") -> None:
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    place.parent.mkdir(parents=True, exist_ok=True)
    door, draft = tempfile.mkstemp(prefix=_DRAFT, dir=place.parent)
    os.close(door)
    try:
        pq.write_table(table, draft, compression="zstd")
        with Path(draft).open("rb") as written:
            # Before it takes the old file's place: power may go between the two.
            os.fsync(written.fileno())
        Path(draft).replace(place)
    except BaseException:
        Path(draft).unlink(missing_ok=True)
        raise
