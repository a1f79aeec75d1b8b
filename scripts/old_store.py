"""Make a small studio by whichever program is on the path, and pack it as text.

Run by `old_stores.py` with the source of an older program first on the path, so it may use only
what every program since the first has. Ids, keys and instants are the same on every run.
"""

import random
import sqlite3
import sys
import uuid
from datetime import UTC, datetime
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from types import SimpleNamespace

# Before the program is loaded: its modules take these by name.
_CHANCE = random.Random(20261125)  # noqa: S311 - invented golfers' keys, the same each time
NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
uuid.uuid4 = lambda: uuid.UUID(int=_CHANCE.getrandbits(128), version=4)

from cryptography import fernet  # noqa: E402 - after the ids are fixed

fernet.os = SimpleNamespace(urandom=_CHANCE.randbytes)  # type: ignore[attr-defined, assignment]
fernet.time = SimpleNamespace(time=NOON.timestamp)  # type: ignore[attr-defined, assignment]

import json  # noqa: E402 - after the ids are fixed

from loftwright.services.bay_now import bay_now  # noqa: E402
from loftwright.services.demo_studio import fill_demo  # noqa: E402
from loftwright.services.evidence import Desk  # noqa: E402
from loftwright.services.studio import Studio  # noqa: E402
from loftwright.store.interface import PairedDevice  # type: ignore[attr-defined] # noqa: E402
from loftwright.store.sqlite import open_store  # noqa: E402

FILE = "loftwright.sqlite"
NOWHERE = "-"
LIMITS = "sore left wrist (invented)"


def figures(studio: Studio, fitting: str) -> dict[str, object]:
    """Return what the program says of a fitting's clubs, in SI."""
    decision = bay_now(studio, Desk(), fitting).evidence.decision
    if decision is None:
        return {}
    return {
        "state": str(decision.state),
        "ranked_on": str(decision.ranked_on),
        "clubs": [
            {
                "club": one.club,
                "balls": one.balls,
                "value": None if one.value is None else [one.value.mean, one.value.sd],
                "p_best": one.p_best,
            }
            for one in decision.clubs
        ],
    }


def use_more(studio: Studio, fitting: str) -> None:
    """Fill tables that the demo leaves empty: limits, devices, a turn, a prediction."""
    golfer = studio.store.fitting(fitting).value.golfer
    studio.store.set_limits(golfer, NOON.date(), LIMITS)
    device = PairedDevice(
        id="d1", name="Tablet 1", role="fitter", key_hash="0" * 64, paired_at=NOON
    )
    studio.store.pair(device)
    studio.store.set_hitting("Bay 1", fitting, version=0)
    if find_spec("loftwright.services.predicting") is not None:
        predicting = import_module("loftwright.services.predicting")
        predicting.predict_next(studio, Desk(), fitting)


def rows(door: sqlite3.Connection) -> dict[str, int]:
    """Return how many rows each table has."""
    names = [row[0] for row in door.execute("SELECT name FROM sqlite_master WHERE type='table'")]
    return {
        name: door.execute(f"SELECT count(*) FROM {name}").fetchone()[0]  # noqa: S608 - own names
        for name in sorted(names)
    }


def make(folder: Path, commit: str) -> dict[str, object]:
    """Fill a folder and return what the program says of it."""
    studio = Studio(store=open_store(folder), folder=folder, clock=lambda: NOON)
    made = fill_demo(studio)
    if made is None:
        raise RuntimeError(f"{folder} is not empty")
    names = {
        fitting: studio.store.identity(studio.store.fitting(fitting).value.golfer).name
        for fitting in (made.finished, made.in_progress)
    }
    told = {fitting: figures(studio, fitting) for fitting in names}
    use_more(studio, made.in_progress)
    studio.store.close()
    with sqlite3.connect(folder / FILE) as door:
        found = rows(door)
        revision = door.execute("SELECT version_num FROM alembic_version").fetchone()[0]
    return {
        "revision": revision,
        "commit": commit,
        "finished": made.finished,
        "in_progress": made.in_progress,
        "names": names,
        "keys": {one.stem: one.read_text() for one in sorted((folder / "keys").glob("*.key"))},
        "rows": found,
        "figures": told,
    }


def copy_to(folder: Path, address: str) -> None:
    """Have the program itself copy the studio into a database, where it is one that can."""
    copying = import_module("loftwright.services.store_copy")
    copying.copy_studio(str(folder), address, folder)


def main() -> None:
    """Make the studio in the first argument's folder and write it behind the second's name."""
    folder, out, commit, address = Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3], sys.argv[4]
    told = make(folder, commit)
    with sqlite3.connect(folder / FILE) as door:
        text = "\n".join(door.iterdump()) + "\n"
    out.with_name(f"{out.name}.sql").write_text(text, encoding="utf-8")
    words = json.dumps(told, indent=1, ensure_ascii=False)
    out.with_name(f"{out.name}.json").write_text(words + "\n", encoding="utf-8")
    if address != NOWHERE:
        copy_to(folder, address)


if __name__ == "__main__":
    main()
