"""What a data folder holds, as digests that tell whether anything of it changed."""

import sqlite3
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from loftwright.store.engine import FILE

NOT_CONTENT = frozenset({"openings", "predictions", "alembic_version", "sqlite_sequence"})
"""Tables that say who looked, or what is foreseen behind the pages, not what is kept."""

NOT_FILES = ("logs/", "cache/", f"{FILE}-wal", f"{FILE}-shm", FILE)


class Content:
    """What a data folder holds, to be told again and again.

    Tables are read anew once another connection has committed something (SQLite, "PRAGMA
    data_version"), files every time.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._store = sqlite3.connect(f"file:{folder / FILE}?mode=ro", uri=True)
        self._seen = -1
        self._tables: dict[str, str] = {}

    def now(self) -> dict[str, str]:
        """Return a digest of every table of the store and of every other file."""
        (seen,) = self._store.execute("PRAGMA data_version").fetchone()
        if seen != self._seen:
            self._seen, self._tables = seen, dict(self._told())
        return self._tables | {
            name: sha256(path.read_bytes()).hexdigest()
            for path in sorted(self._folder.rglob("*"))
            if path.is_file()
            and not (name := path.relative_to(self._folder).as_posix()).startswith(NOT_FILES)
        }

    def _told(self) -> Iterator[tuple[str, str]]:
        named = "SELECT name FROM sqlite_master WHERE type = 'table'"
        for (table,) in self._store.execute(named).fetchall():
            if table not in NOT_CONTENT:
                rows = self._store.execute(f'SELECT * FROM "{table}"').fetchall()  # noqa: S608 - our own
                told = repr(sorted(map(repr, rows)))
                yield f"table {table}", sha256(told.encode()).hexdigest()

    def close(self) -> None:
        """Let go of the store."""
        self._store.close()


def differing(before: dict[str, str], after: dict[str, str]) -> list[str]:
    """Return the names of what differs."""
    names = sorted(before.keys() | after.keys())
    return [name for name in names if before.get(name) != after.get(name)]
