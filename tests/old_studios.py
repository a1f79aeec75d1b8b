"""Studios that older programs made, packed as SQL with what those programs said of them."""

import gzip
import json
import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import psycopg

from loftwright.store.engine import FILE
from loftwright.store.keys import FOLDER as KEYS

FOLDER = Path(__file__).parent / "store" / "old"
NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
"""When each of them was left."""
LIMITS = "sore left wrist (invented)"
POSTGRESQL = ".postgresql.sql.gz"


@dataclass(frozen=True, slots=True, kw_only=True)
class OldStudio:
    """What the program that made a studio said of it."""

    name: str
    revision: str
    finished: str
    in_progress: str
    golfers: dict[str, str]
    keys: dict[str, str]
    rows: dict[str, int]
    figures: dict[str, Any]

    @property
    def sql(self) -> str:
        """The statements that make its file again."""
        return gzip.decompress((FOLDER / f"{self.name}.sql.gz").read_bytes()).decode()

    @property
    def in_postgresql(self) -> bool:
        """Whether its program also kept it in PostgreSQL."""
        return (FOLDER / f"{self.name}{POSTGRESQL}").exists()

    def unpack(self, folder: Path, *, keys: bool = True) -> None:
        """Make its data folder as that program left it."""
        folder.mkdir(parents=True, exist_ok=True)
        door = sqlite3.connect(folder / FILE)
        door.execute("PRAGMA journal_mode=WAL")
        door.executescript(self.sql)
        door.close()
        if keys:
            self.unpack_keys(folder)

    def unpack_keys(self, folder: Path) -> None:
        """Put its golfers' keys into a data folder."""
        (folder / KEYS).mkdir(mode=0o700, parents=True)
        for golfer, key in self.keys.items():
            (folder / KEYS / f"{golfer}.key").write_text(key)

    def unpack_into(self, address: str) -> None:
        """Fill an empty PostgreSQL database as that program left it."""
        packed = (FOLDER / f"{self.name}{POSTGRESQL}").read_bytes()
        with psycopg.connect(address.replace("+psycopg", ""), autocommit=True) as door:
            door.execute(gzip.decompress(packed))


def old_studios() -> tuple[OldStudio, ...]:
    """Return every studio that is kept, the oldest first."""
    found = [(path.stem, json.loads(path.read_text())) for path in FOLDER.glob("*.json")]
    made = [
        OldStudio(
            name=name,
            revision=told["revision"],
            finished=told["finished"],
            in_progress=told["in_progress"],
            golfers=told["names"],
            keys=told["keys"],
            rows=told["rows"],
            figures=told["figures"],
        )
        for name, told in found
    ]
    return tuple(sorted(made, key=lambda one: (one.revision, "-" not in one.name)))
