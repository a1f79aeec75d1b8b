"""What a data folder holds, as digests that tell whether anything of it changed."""

import sqlite3
from contextlib import closing
from hashlib import sha256
from pathlib import Path

from loftwright.store.engine import FILE

NOT_CONTENT = frozenset({"openings", "alembic_version", "sqlite_sequence"})
"""Tables that say who looked, not what is kept."""

NOT_FILES = ("logs/", f"{FILE}-wal", f"{FILE}-shm", FILE)


def content_of(folder: Path) -> dict[str, str]:
    """Return a digest of every table of a folder's store and of every other file in it."""
    found = {
        name: sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
        and not (name := path.relative_to(folder).as_posix()).startswith(NOT_FILES)
    }
    with closing(sqlite3.connect(f"file:{folder / FILE}?mode=ro", uri=True)) as store:
        tables = store.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
        for (table,) in tables:
            if table not in NOT_CONTENT:
                rows = store.execute(f'SELECT * FROM "{table}"').fetchall()  # noqa: S608 - our own
                found[f"table {table}"] = sha256(
                    repr(sorted(map(repr, rows))).encode()
                ).hexdigest()
    return found


def differing(before: dict[str, str], after: dict[str, str]) -> list[str]:
    """Return the names of what differs."""
    names = sorted(before.keys() | after.keys())
    return [name for name in names if before.get(name) != after.get(name)]
