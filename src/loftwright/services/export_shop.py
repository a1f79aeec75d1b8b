"""The files of a whole shop in an export: every golfer, the rack and what the shop keeps."""

import json
from collections.abc import Iterator

from loftwright.services.export_cells import table, told
from loftwright.services.export_golfer import golfer_files
from loftwright.services.rack_out import rack_json
from loftwright.services.shop_folder import record_folder
from loftwright.services.studio import Studio
from loftwright.shop.form import readme
from loftwright.shop.record import files


def shop_golfers(studio: Studio) -> tuple[str, ...]:
    """Return the golfers of a shop, each by the record that stands for all, in order."""
    return tuple(
        kept.value.id
        for kept in reversed(studio.store.golfers())
        if kept.value.merged_into is None
    )


def shop_files(studio: Studio, *, results: bool = False) -> Iterator[tuple[str, bytes]]:
    """Yield everything that a shop keeps, each file with its name.

    Parameters
    ----------
    studio : Studio
    results : bool
        Whether clubs are compared and reports printed, for every fitting.

    Notes
    -----
    Keys are in no export: neither golfers' keys nor those of devices.
    """
    numbers: dict[str, str] = {}
    for number, golfer in enumerate(shop_golfers(studio), start=1):
        numbers[golfer] = f"{number:05d}"
        for name, content in golfer_files(studio, golfer, results=results):
            yield f"golfers/{numbers[golfer]}/{name}", content
    yield "rack.json", rack_json(studio).encode()
    yield "places.csv", _places(studio, numbers)
    yield "devices.csv", _devices(studio)
    yield "settings.json", told(_settings(studio))
    there = files(record_folder(studio))
    for file in there:
        yield f"shop_record/balls/{file.parent.name.partition('=')[2]}.parquet", file.read_bytes()
    if there:
        yield "shop_record/README.md", readme().encode()
    for file in sorted((record_folder(studio) / "learned").glob("[0-9]*")):
        yield f"shop_record/learned/{file.name}", file.read_bytes()


def _places(studio: Studio, numbers: dict[str, str]) -> bytes:
    header = ("piece", "was", "place", "at", "by", "golfer")
    rows = [
        (
            one.piece,
            one.was,
            one.place,
            one.at.isoformat(),
            one.by,
            numbers.get(one.golfer or "", ""),
        )
        for piece in studio.store.places()
        for one in reversed(studio.store.place_history(piece))
    ]
    return table(header, rows)


def _devices(studio: Studio) -> bytes:
    rows = [
        (
            one.name,
            one.role,
            one.paired_at.isoformat(),
            "" if one.withdrawn_at is None else one.withdrawn_at.isoformat(),
        )
        for one in reversed(studio.store.paired())
    ]
    return table(("name", "role", "paired_at", "withdrawn_at"), rows)


def _settings(studio: Studio) -> dict[str, object]:
    """Return the shop's settings; those of one fitting or golfer are not the shop's."""
    return {
        name: _parsed(text)
        for name, text in sorted(studio.store.settings().items())
        if ":" not in name
    }


def _parsed(text: str) -> object:
    try:
        return json.loads(text)
    except ValueError:
        return text
