"""Studios on the disk that are backed up, and what of a data folder is compared."""

import io
import json
import sqlite3
import tarfile
from collections.abc import Callable, Iterable
from contextlib import closing
from datetime import UTC, date, datetime, timedelta
from hashlib import sha256
from pathlib import Path

from loftwright.domain.acts import NotRead, ShotArrived
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Consents, Golfer, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.services.backup import Made, make_backup
from loftwright.services.backup_content import source_in
from loftwright.services.studio import Studio
from loftwright.store.engine import FILE
from loftwright.store.sqlite import open_store
from store_samples import with_rack

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
NAME = "Wilhelmina Unmistakable"
LEARNED = "shop/learned/0001.json"


def a_studio(folder: Path, golfers: int = 2, balls: int = 3) -> Path:
    """Keep a studio of a few golfers, each with a fitting of an hour ago; return its folder."""
    store = open_store(folder)
    with_rack(store)
    for number in range(golfers):
        golfer, fitting = f"g{number}", f"f{number}"
        consents = Consents(keep=True, contact=True, shop_record=True)
        store.add_golfer(Golfer(id=golfer, consents=consents), Identity(name=f"{NAME} {number}"))
        store.open_fitting(Fitting(id=fitting, golfer=golfer, opened=date(2026, 11, 25)))
        for ball in range(balls):
            shot = ShotArrived(numbers=ShotNumbers(ball_speed=60.0 + ball), line=f"line {ball}")
            at = NOW - timedelta(hours=1)
            store.append(fitting, [shot, NotRead()], at=at, by="feed", key=f"k{ball}")
    store.close()
    (folder / LEARNED).parent.mkdir(parents=True)
    (folder / LEARNED).write_text("{}", encoding="utf-8")
    (folder / "mappings.toml").write_text("# columns\n", encoding="utf-8")
    return folder


def a_backup(folder: Path, at: datetime = NOW) -> Made:
    """Back up a studio that is closed."""
    return make_backup(source_in(folder), at)


def opened(folder: Path, at: datetime = NOW) -> Studio:
    """Open a studio at an instant."""
    return Studio(store=open_store(folder), folder=folder, clock=lambda: at)


def everything_in(folder: Path) -> dict[str, str]:
    """Return the sum of every file of a folder, and which folders there are."""
    return {
        str(path.relative_to(folder)): (
            sha256(path.read_bytes()).hexdigest() if path.is_file() else "folder"
        )
        for path in sorted(folder.rglob("*"))
    }


def rows_of(folder: Path) -> dict[str, list[str]]:
    """Return every row of every table of a store."""
    with closing(sqlite3.connect(folder / FILE)) as door:
        names = [
            name
            for (name,) in door.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
            if not name.startswith("sqlite_")
        ]
        return {
            name: sorted(repr(row) for row in door.execute(f'SELECT * FROM "{name}"'))  # noqa: S608
            for name in names
        }


def members_of(backup: Path) -> list[tuple[tarfile.TarInfo, bytes]]:
    """Return the files of a backup, as another tar reads them."""
    with tarfile.open(backup) as tar:
        found = []
        for told in tar:
            held = tar.extractfile(told)
            found.append((told, held.read() if held else b""))
        return found


def packed(file: Path, members: Iterable[tuple[tarfile.TarInfo, bytes]], form: int) -> None:
    """Write a tar of whatever members."""
    with tarfile.open(file, "w:gz", format=form) as tar:
        for told, held in members:
            if told.isreg():
                told.size = len(held)
            tar.addfile(told, io.BytesIO(held))


def listed_again(raw: bytes, change: Callable[[dict[str, object]], None]) -> bytes:
    """Return a manifest with something changed and its own sum made to fit."""
    record = json.loads(raw)
    change(record)
    told = "".join(f"{one['sha256']} {one['size']} {one['name']}\n" for one in record["members"])
    record["sha256"] = sha256(told.encode()).hexdigest()
    return json.dumps(record).encode()


def named(name: str, kind: bytes = tarfile.REGTYPE, link: str = "") -> tarfile.TarInfo:
    """Return the header of a file in a tar."""
    told = tarfile.TarInfo(name)
    told.type, told.linkname = kind, link
    return told
