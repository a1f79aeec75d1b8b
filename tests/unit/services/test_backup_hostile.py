"""A file that is no whole backup is refused, and the data folder stays to the last byte."""

import gzip
import json
import tarfile
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from kept_studios import (
    NOW,
    a_backup,
    a_studio,
    everything_in,
    listed_again,
    members_of,
    named,
    packed,
)
from loftwright.errors import IntakeError, LoftwrightError, SchemaError
from loftwright.services.backup_files import MANIFEST
from loftwright.services.backup_tar import read_backup
from loftwright.services.restore import restore

USTAR = tarfile.USTAR_FORMAT
Members = list[tuple[tarfile.TarInfo, bytes]]


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a backup that nothing is wrong with."""
    return a_backup(a_studio(tmp_path_factory.mktemp("good"))).path


def refused(file: Path, data: Path, kind: type[LoftwrightError] = IntakeError) -> LoftwrightError:
    """Try to restore a file over a studio; return the error, when nothing was changed."""
    before = everything_in(data)
    with pytest.raises(kind) as told:
        restore(file, data, NOW, over=True)
    assert everything_in(data) == before
    assert told.value.place
    assert told.value.mend
    return told.value


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of a studio over which files would be restored; every test leaves it."""
    return a_studio(tmp_path_factory.mktemp("stands") / "data", golfers=1, balls=1)


def test_a_file_cut_anywhere_is_refused(good: Path, data: Path, tmp_path: Path) -> None:
    raw = good.read_bytes()
    file = tmp_path / "cut.tar.gz"
    for part in (0, 1, 10, 600, len(raw) // 3, len(raw) // 2, len(raw) - 9, len(raw) - 1):
        file.write_bytes(raw[:part])
        with pytest.raises(IntakeError):
            read_backup(file)
    file.write_bytes(raw[: len(raw) // 2])
    refused(file, data)


def test_a_byte_turned_anywhere_in_the_packed_data_is_refused(good: Path, tmp_path: Path) -> None:
    raw = good.read_bytes()
    file = tmp_path / "turned.tar.gz"
    # Behind the ten bytes of gzip's own header, which hold a time and a system and no data.
    for place in range(10, len(raw), max(len(raw) // 60, 1)):
        turned = bytearray(raw)
        turned[place] ^= 0x40
        file.write_bytes(turned)
        with pytest.raises(IntakeError):
            read_backup(file)


def test_a_byte_turned_in_a_member_is_refused(good: Path, data: Path, tmp_path: Path) -> None:
    members = members_of(good)
    told, held = members[1]
    members[1] = (told, held[:5000] + bytes([held[5000] ^ 1]) + held[5001:])
    packed(tmp_path / "x.tar.gz", members, USTAR)
    assert "not as it was written" in refused(tmp_path / "x.tar.gz", data).message


@pytest.mark.parametrize(
    "name",
    [
        "../escaped.sqlite",
        "shop/../../escaped",
        "/etc/escaped",
        "keys/g0.key",
        "shop\\..\\escaped",
        "C:/escaped",
        "shop//x",
        "shop/./x",
        "shop/.writing",
        "backups/loftwright-20261125-120000.tar.gz",
        "erased/x",
        "restoring.json",
        "loftwright.sqlite-wal",
        "training/keys/g0.key",
        "shop/" + "x/" * 30 + "\n",
    ],
)
@pytest.mark.parametrize("listed", [True, False], ids=["listed", "only packed"])
def test_a_name_that_leads_elsewhere_is_refused(
    good: Path, data: Path, tmp_path: Path, name: str, listed: bool
) -> None:
    members = members_of(good)
    held = b"escaped"
    if listed:

        def add(record: dict[str, Any]) -> None:
            digest = "f6b0ba4dc2eb3c2d8b2cc0ac4bf2cf0e2d9e9a0cd9e2b6b7f2aa0d5e2b4a1c3d"
            record["members"].append({"name": name, "size": len(held), "sha256": digest})

        members[0] = (members[0][0], listed_again(members[0][1], add))
    members.append((named(name), held))
    packed(tmp_path / "x.tar.gz", members, USTAR)
    refused(tmp_path / "x.tar.gz", data)
    assert not list(tmp_path.rglob("*escaped*"))


@pytest.mark.parametrize(
    "kind", [tarfile.SYMTYPE, tarfile.LNKTYPE, tarfile.DIRTYPE, tarfile.FIFOTYPE, tarfile.CHRTYPE]
)
def test_links_and_devices_are_refused(
    good: Path, data: Path, tmp_path: Path, kind: bytes
) -> None:
    members = members_of(good)
    members[1:1] = [(named("shop/link", kind, "../../escaped"), b"")]
    packed(tmp_path / "x.tar.gz", members, USTAR)
    assert "no plain file" in refused(tmp_path / "x.tar.gz", data).message


def test_headers_of_any_length_are_refused_unread(good: Path, data: Path, tmp_path: Path) -> None:
    members = members_of(good)
    members.append((named("shop/" + "x" * 400), b"x"))
    for form in (tarfile.GNU_FORMAT, tarfile.PAX_FORMAT):
        packed(tmp_path / "x.tar.gz", members, form)
        refused(tmp_path / "x.tar.gz", data)


def test_a_name_that_comes_twice_is_refused(good: Path, data: Path, tmp_path: Path) -> None:
    members = members_of(good)
    packed(tmp_path / "x.tar.gz", [*members, members[1]], USTAR)
    refused(tmp_path / "x.tar.gz", data)

    def twice(record: dict[str, Any]) -> None:
        record["members"].append(record["members"][0])

    again = [(members[0][0], listed_again(members[0][1], twice)), *members[1:], members[1]]
    packed(tmp_path / "y.tar.gz", again, USTAR)
    refused(tmp_path / "y.tar.gz", data)


def test_a_file_that_would_unpack_to_a_flood_is_refused_before_it_does(
    good: Path, data: Path, tmp_path: Path
) -> None:
    members = members_of(good)
    flood = 40 * 1024**2

    def swell(record: dict[str, Any]) -> None:
        record["members"][0]["size"] = flood

    listed = listed_again(members[0][1], swell)
    packed(tmp_path / "x.tar.gz", [(members[0][0], listed), (members[1][0], bytes(flood))], USTAR)
    assert "would unpack to" in refused(tmp_path / "x.tar.gz", data).message


def test_a_flood_behind_a_list_that_hides_it_is_refused(
    good: Path, data: Path, tmp_path: Path
) -> None:
    raw = gzip.decompress(good.read_bytes())
    (tmp_path / "x.tar.gz").write_bytes(gzip.compress(raw + bytes(50 * 1024**2)))
    assert "behind its last file" in refused(tmp_path / "x.tar.gz", data).message


def lie(key: str, value: object) -> Callable[[dict[str, Any]], None]:
    def told(record: dict[str, Any]) -> None:
        record[key] = value

    return told


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("form", "some other form"),
        ("made_at", "yesterday"),
        ("counts", {"golfers": -1}),
        ("counts", []),
        ("members", []),
        ("members", [{"name": "mappings.toml", "size": True, "sha256": "0" * 64}]),
    ],
)
def test_a_list_that_says_what_cannot_be_is_refused(
    good: Path, data: Path, tmp_path: Path, key: str, value: object
) -> None:
    members = members_of(good)
    members[0] = (members[0][0], listed_again(members[0][1], lie(key, value)))
    packed(tmp_path / "x.tar.gz", members, USTAR)
    refused(tmp_path / "x.tar.gz", data)


def test_a_list_that_lies_about_the_rows_is_refused(
    good: Path, data: Path, tmp_path: Path
) -> None:
    members = members_of(good)
    counts = {**json.loads(members[0][1])["counts"], "golfers": 9}
    members[0] = (members[0][0], listed_again(members[0][1], lie("counts", counts)))
    packed(tmp_path / "x.tar.gz", members, USTAR)
    told = refused(tmp_path / "x.tar.gz", data, LoftwrightError)
    assert "other rows than it says" in told.message


def test_a_list_whose_own_sum_does_not_fit_is_refused(
    good: Path, data: Path, tmp_path: Path
) -> None:
    members = members_of(good)
    record = json.loads(members[0][1])
    record["sha256"] = "0" * 64
    members[0] = (members[0][0], json.dumps(record).encode())
    packed(tmp_path / "x.tar.gz", members, USTAR)
    assert "its own sum" in refused(tmp_path / "x.tar.gz", data).message


def test_a_newer_schema_is_refused_by_its_name(good: Path, data: Path, tmp_path: Path) -> None:
    members = members_of(good)
    members[0] = (members[0][0], listed_again(members[0][1], lie("schema", "0999")))
    packed(tmp_path / "x.tar.gz", members, USTAR)
    assert "0999" in refused(tmp_path / "x.tar.gz", data, SchemaError).message
    path = [(members[0][0], listed_again(members[0][1], lie("schema", "../r0001")))]
    packed(tmp_path / "y.tar.gz", [*path, *members[1:]], USTAR)
    refused(tmp_path / "y.tar.gz", data, LoftwrightError)


def test_a_store_that_is_none_is_refused(good: Path, data: Path, tmp_path: Path) -> None:
    members = members_of(good)
    held = b"no database at all" * 100

    def swapped(record: dict[str, Any]) -> None:
        digest = sha256(held).hexdigest()
        record["members"][0] |= {"size": len(held), "sha256": digest}

    members[0] = (members[0][0], listed_again(members[0][1], swapped))
    members[1] = (members[1][0], held)
    packed(tmp_path / "x.tar.gz", members, USTAR)
    assert "not sound" in refused(tmp_path / "x.tar.gz", data, LoftwrightError).message


@pytest.mark.parametrize("raw", [b"", b"PK\x03\x04 a workbook", b"\x1f\x8b", bytes(5000)])
def test_what_is_no_tar_is_refused(data: Path, tmp_path: Path, raw: bytes) -> None:
    (tmp_path / "x.tar.gz").write_bytes(raw)
    refused(tmp_path / "x.tar.gz", data)


def test_the_tar_of_another_program_is_refused(data: Path, tmp_path: Path) -> None:
    packed(tmp_path / "x.tar.gz", [(named("photo.jpg"), b"x" * 9000)], USTAR)
    assert MANIFEST in refused(tmp_path / "x.tar.gz", data).message


def test_a_file_that_is_not_there_is_named(data: Path, tmp_path: Path) -> None:
    assert "none.tar.gz" in refused(tmp_path / "none.tar.gz", data).place
