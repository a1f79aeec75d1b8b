"""What the shop record says of fittings beside their balls and clubs."""

from pathlib import Path

from loftwright.shop.leverage import Who
from loftwright.shop.record import files


def who_in(folder: Path) -> dict[str, Who]:
    """Return who hit in every fitting of a record, on what and where."""
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    golfers: dict[str, str] = {}
    places: dict[tuple[str, str], set[str]] = {}
    names = ["fitting", "golfer", "device", "bay"]
    for file in files(folder):
        table = pq.read_table(file, columns=names, partitioning=None)
        for row in table.group_by(names).aggregate([]).to_pylist():
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
