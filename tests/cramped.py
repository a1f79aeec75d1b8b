"""A program whose files may not grow for a while, as on a disk that is full.

It ends without an error where what it was asked to do was refused clearly, left nothing half, and
went on when there was room again.
"""

import resource
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest

from loftwright.domain.acts import ShotArrived
from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import IntakeError, StoreError
from loftwright.store.engine import FILE
from loftwright.store.interface import Store
from loftwright.store.keys import FOLDER as KEYS
from loftwright.store.sqlite import open_store

ROOM = 50_000
"""Bytes that the log may still grow by."""


@contextmanager
def no_room(most: int) -> Iterator[None]:
    """Let no file grow past some bytes for the length of a block."""
    hard = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (hard, hard))


def feed(folder: Path) -> None:
    """Post balls until they are refused, and the same one again when there is room."""
    from bays import a_bay  # noqa: PLC0415 - slow to load, for this alone
    from loftwright.services.studio import Studio  # noqa: PLC0415 - as above
    from loftwright.web.app import create_app  # noqa: PLC0415 - as above
    from web_client import asking  # noqa: PLC0415 - as above

    studio = Studio(store=open_store(folder), folder=folder)
    bay = a_bay(studio=studio)
    where = f"/api/fittings/{bay.fitting}/shots"
    log = (folder / f"{FILE}-wal").stat().st_size
    with asking(create_app(studio)) as device:
        answered, answer = 0, device.post(where, json=told(0))
        with no_room(max(log, (folder / FILE).stat().st_size) + ROOM):
            while answer.status_code == 200 and answered < 400:
                answered += 1
                answer = device.post(where, json=told(answered))
            # 503: the sender is to try again (RFC 9110, 15.6.4).
            assert answer.status_code == 503, answer.text
            error = answer.json()["error"]
            assert "full" in error["mend"]
            assert error["place"].endswith(FILE)
            assert keys_in(studio.store, bay.fitting) == [f"k{one}" for one in range(answered)]
            assert device.get(f"/fittings/{bay.fitting}/bay").status_code == 200
        for _ in range(2):
            again = device.post(where, json=told(answered))
            assert again.status_code == 200, again.text
    assert keys_in(studio.store, bay.fitting) == [f"k{one}" for one in range(answered + 1)]
    studio.store.close()
    sys.stdout.write(f"{answered}\n")


def told(number: int) -> dict[str, object]:
    return {"key": f"k{number}", "ball_speed_mph": 120.0, "spin_rpm": 2500}


def keys_in(store: Store, fitting: str) -> list[str]:
    return [one.key for one in store.record(fitting) if isinstance(one.act, ShotArrived)]


def key(folder: Path) -> None:
    """Write a golfer down whose key finds no room."""
    store = open_store(folder)
    with no_room(0), pytest.raises(StoreError, match="space") as refused:
        store.add_golfer(Golfer(id="g1"), Identity(name="Nobody"))
    assert refused.value.place.endswith(KEYS)
    assert store.golfers() == ()
    assert list((folder / KEYS).iterdir()) == []
    store.add_golfer(Golfer(id="g1"), Identity(name="Nobody"))
    assert store.identity("g1").name == "Nobody"
    store.close()


def record(folder: Path) -> None:
    """Write a fitting into the shop record that finds no room."""
    from loftwright.shop.record import keep, standing  # noqa: PLC0415 - slow to load
    from shop_samples import a_fitting, shaft_effects  # noqa: PLC0415 - as above

    effects = shaft_effects(7)
    first, second = (replace(a_fitting(one, effects, balls=8), golfer="g") for one in (1, 2))
    keep(folder, first)
    before = standing(folder)
    with no_room(100), pytest.raises(StoreError, match="space") as refused:
        keep(folder, second)
    assert "part=" in refused.value.place
    assert standing(folder) == before
    assert not [one for one in folder.glob("part=*/*") if one.name.startswith(".new-")]
    keep(folder, second)
    assert len(standing(folder)) == 2


def files(folder: Path) -> None:
    """Write a file of which another state is there already, and find no room."""
    from loftwright.intake.files import write_whole  # noqa: PLC0415 - for this alone

    place = folder / "mappings.toml"
    write_whole(place, b"before")
    with no_room(3), pytest.raises(IntakeError, match="cannot be written") as refused:
        write_whole(place, b"afterwards")
    assert refused.value.place == str(place)
    assert refused.value.mend
    assert place.read_bytes() == b"before"
    assert list(folder.iterdir()) == [place]
    write_whole(place, b"afterwards")


JOBS: MappingProxyType[str, Callable[[Path], None]] = MappingProxyType(
    {"feed": feed, "key": key, "record": record, "files": files}
)


if __name__ == "__main__":
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    JOBS[sys.argv[1]](Path(sys.argv[2]))
