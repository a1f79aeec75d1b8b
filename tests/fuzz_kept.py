"""What a studio keeps beside its store, fed as if somebody had put a file into its place."""

import gzip
import json
import math
from functools import cache
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

from fuzz_seeds import EFFECTS
from learned_samples import learned
from loftwright.services.backup_files import Manifest, Member
from loftwright.services.backup_tar import pack, read_backup
from loftwright.services.data_folder import MAPPINGS
from loftwright.services.shop_folder import FOLDER as SHOP
from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_learning import _keep, newest_learned
from loftwright.services.shop_versions import kept_versions
from loftwright.services.studio import Studio
from loftwright.services.training_plays import FOLDER as PLAYS
from loftwright.services.training_plays import read_play
from loftwright.shop.engine import sums_in
from loftwright.shop.read_back import belongs_in, shifts_in, who_in
from loftwright.shop.record import FILE, files, keep
from loftwright.store.engine import FILE as STORE
from loftwright.store.schema import HEAD
from racks import a_measured_rack
from shop_samples import a_fitting, shaft_effects
from studios import studio_in_memory

_GZIP = b"\x1f\x8b"
_FITTING = "training-00000000-0000-0000-0000-000000000000"


@cache
def rack_studio() -> Studio:
    """Return a studio in memory with a measured rack; nothing that is fed changes it."""
    studio = studio_in_memory()
    a_measured_rack(studio)
    return studio


def feed_learned(content: bytes) -> None:
    """Read what a shop learned, its list of versions first."""
    with TemporaryDirectory(prefix="loftwright-") as folder:
        studio = Studio(store=rack_studio().store, folder=Path(folder), clock=rack_studio().clock)
        place = record_folder(studio) / "learned"
        place.mkdir(parents=True)
        (place / "0001.json").write_bytes(content)
        (place / EFFECTS).write_bytes(learned_files()[EFFECTS])
        kept_versions(studio)
        newest_learned(studio)


def feed_effects(content: bytes) -> None:
    """Read what a shop learned whose second file is damaged, its digest made to fit."""
    with TemporaryDirectory(prefix="loftwright-") as folder:
        studio = Studio(store=rack_studio().store, folder=Path(folder), clock=rack_studio().clock)
        place = record_folder(studio) / "learned"
        place.mkdir(parents=True)
        told = json.loads(learned_files()["0001.json"])
        told["covariance"]["sha256"] = sha256(content).hexdigest()
        (place / "0001.json").write_text(json.dumps(told))
        (place / EFFECTS).write_bytes(content)
        newest_learned(studio)


@cache
def learned_files() -> dict[str, bytes]:
    """Return the two files that the invented shop's learning makes."""
    with TemporaryDirectory(prefix="loftwright-") as folder:
        _keep(Path(folder), learned(1))
        return {one.name: one.read_bytes() for one in Path(folder).iterdir()}


def feed_record(content: bytes) -> None:
    """Sum a shop record one file of which holds this."""
    with TemporaryDirectory(prefix="loftwright-") as folder:
        place = Path(folder) / "part=00" / FILE
        place.parent.mkdir()
        place.write_bytes(content)
        list(sums_in(Path(folder)))
        belongs_in(Path(folder))
        who_in(Path(folder))
        assert all(math.isfinite(one) for row in shifts_in(Path(folder)).values() for one in row)


@cache
def record_file() -> bytes:
    """Return a file of a shop record with one fitting in it."""
    with TemporaryDirectory(prefix="loftwright-") as folder:
        keep(Path(folder), a_fitting(1, shaft_effects(3), balls=8))
        (place,) = files(Path(folder))
        return place.read_bytes()


def feed_play(content: bytes) -> None:
    """Take up a play of the training studio whose file holds this."""
    with TemporaryDirectory(prefix="loftwright-") as folder:
        studio = Studio(store=rack_studio().store, folder=Path(folder), clock=rack_studio().clock)
        (Path(folder) / PLAYS).mkdir()
        (Path(folder) / PLAYS / f"{_FITTING}.json").write_bytes(content)
        read_play(studio, _FITTING).player()


def feed_backup(content: bytes) -> None:
    """Read a backup as `restore` does before it lays anything in place.

    A tar that is not packed yet is packed: what is spoilt in it would else end at the first sum.
    """
    packed = content if content.startswith(_GZIP) else gzip.compress(content, 1)
    with TemporaryDirectory(prefix="loftwright-") as folder:
        place = Path(folder) / "loftwright-20261125-120000.tar.gz"
        place.write_bytes(packed)
        (Path(folder) / "into").mkdir()
        try:
            read_backup(place, Path(folder) / "into")
        finally:
            assert place.read_bytes() == packed
            assert {one.name for one in Path(folder).iterdir()} == {place.name, "into"}


def backups() -> tuple[bytes, ...]:
    """Return a small backup, packed and as the tar within."""
    files = {
        STORE: b"SQLite format 3\0" + bytes(600),
        MAPPINGS: b"# none\n",
        f"{SHOP}/learned/0001.json": b"{}",
    }
    with TemporaryDirectory(prefix="loftwright-") as folder:
        members = [_member(Path(folder), name, content) for name, content in files.items()]
        manifest = Manifest(
            program="0.1.0",
            schema=HEAD,
            made_at="2026-11-25T12:00:00+00:00",
            counts={"golfers": 2},
            members=tuple(members),
        )
        made = Path(folder) / "made"
        pack(manifest, Path(folder), made)
        packed = made.read_bytes()
    return packed, gzip.decompress(packed)


def _member(folder: Path, name: str, content: bytes) -> Member:
    place = folder / name
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_bytes(content)
    return Member(name=name, size=len(content), sha256=sha256(content).hexdigest())
