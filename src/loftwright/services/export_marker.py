"""How a folder says that it is an export, and of whom."""

import json
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Final

from loftwright.store.tombstones import digest_of

FILE: Final = "export.json"
FORM: Final = "loftwright export 1"


def marker(golfers: Collection[str], told: dict[str, object]) -> bytes:
    """Return what a folder says of itself; golfers stand in it as digests of their ids."""
    who = sorted(digest_of(one) for one in golfers)
    whole = {"form": FORM, **told, "holds": who}
    return f"{json.dumps(whole, ensure_ascii=False, indent=1)}\n".encode()


def marked_folders(folder: Path) -> Iterator[Path]:
    """Return every folder below one that is an export, each found before anything is removed."""
    yield from [file.parent for file in sorted(folder.rglob(FILE)) if _told(file)]


def golfers_in(export: Path) -> frozenset[str]:
    """Return the digests of the golfers whose data an export holds."""
    return frozenset(str(one) for one in _told(export / FILE).get("holds", ()))


def _told(file: Path) -> dict[str, list[str]]:
    try:
        told = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return told if isinstance(told, dict) and told.get("form") == FORM else {}
