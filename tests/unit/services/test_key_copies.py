"""Copies of keys: apart, gone with an erase at once, and after a week when a key is just gone."""

import os
from datetime import timedelta
from pathlib import Path

import pytest

from kept_studios import NOW, a_backup, a_studio, members_of
from loftwright.errors import StoreError
from loftwright.services.backup import make_backup
from loftwright.services.backup_content import source_in
from loftwright.services.erasing_files import forget_keys
from loftwright.services.key_copies import (
    KEPT,
    bring_back,
    copies_of,
    copy_keys,
    names_in,
)
from loftwright.store.keys import FOLDER as KEYS
from loftwright.store.sqlite import open_store
from loftwright.store.tombstones import digest_of


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Return the folder of a studio whose keys were copied once."""
    data = a_studio(tmp_path / "data")
    copy_keys(data, copies_of(data), NOW)
    return data


def names(data: Path) -> list[str]:
    return list(names_in(copies_of(data)))


def test_no_key_is_ever_in_a_backup(data: Path) -> None:
    keys = [one.read_bytes() for one in (data / KEYS).iterdir()]
    assert len(keys) == 2
    members = members_of(a_backup(data).path)
    assert not any(key in held for key in keys for _, held in members)
    assert not any("key" in told.name for told, _ in members)


def test_copies_are_equal_and_for_their_owner_alone(data: Path) -> None:
    for copy in copies_of(data).glob("*.key"):
        assert copy.read_bytes() == (data / KEYS / copy.name).read_bytes()
        assert copy.stat().st_mode & 0o777 == 0o600
    assert copies_of(data).stat().st_mode & 0o777 == 0o700


def test_an_erased_golfers_copy_goes_at_once_or_with_the_next_backup(data: Path) -> None:
    store = open_store(data)
    store.forget_golfer("g0")
    store.forget_golfer("g1")
    store.close()
    assert forget_keys(data, [digest_of("g0"), digest_of("nobody")]) == 1
    assert names(data) == ["g1"]
    assert copy_keys(data, copies_of(data), NOW).destroyed == 1
    assert names(data) == []


def test_a_key_that_is_just_gone_keeps_its_copy_for_a_week_and_no_longer(data: Path) -> None:
    (data / KEYS / "g0.key").unlink()
    for days in range(KEPT.days):
        told = copy_keys(data, copies_of(data), NOW + timedelta(days=days))
        assert (told.waiting, told.destroyed) == (1, 0)
    assert copy_keys(data, copies_of(data), NOW + KEPT).destroyed == 1
    assert names(data) == ["g1"]
    assert "g0" not in "".join(one.name for one in copies_of(data).iterdir())


def test_a_clock_set_back_does_not_lengthen_the_week(data: Path) -> None:
    (data / KEYS / "g0.key").unlink()
    copy_keys(data, copies_of(data), NOW + timedelta(days=400))
    copy_keys(data, copies_of(data), NOW)
    assert copy_keys(data, copies_of(data), NOW + KEPT).destroyed == 1


def test_a_key_comes_back_from_a_copy_but_not_that_of_an_erased_golfer(data: Path) -> None:
    store = open_store(data)
    store.forget_golfer("g0")
    store.close()
    (data / KEYS / "g1.key").unlink()
    assert bring_back(copies_of(data), data, ["g0", "g1", "g2"]) == 1
    assert list(names_in(data / KEYS)) == ["g1"]


def test_who_was_erased_is_written_down_without_the_id(data: Path) -> None:
    store = open_store(data)
    store.forget_golfer("g0")
    store.close()
    (mark,) = (data / "erased").iterdir()
    assert "g0" not in mark.name
    assert mark.read_bytes() == b""


def test_keys_that_a_killed_restore_left_go_with_the_next_backup_after_a_day(data: Path) -> None:
    left, source = data / ".restored-abc", source_in(data)
    (left / KEYS).mkdir(parents=True)
    (left / KEYS / "g0.key").write_bytes((data / KEYS / "g0.key").read_bytes())
    a_backup(data)
    assert left.exists()
    os.utime(left, (0, 0))
    (data / "restoring.json").write_text("{}")
    make_backup(source, NOW)
    assert left.exists()
    (data / "restoring.json").unlink()
    a_backup(data)
    assert not left.exists()


def test_a_key_whose_writing_was_broken_off_goes_within_the_week(data: Path) -> None:
    drafts = [place / ".new-abc" for place in (data / KEYS, copies_of(data))]
    for draft in drafts:
        draft.write_bytes(b"a key")
    copy_keys(data, copies_of(data), NOW)
    assert all(one.exists() for one in drafts)
    for draft in drafts:
        os.utime(draft, (0, 0))
    copy_keys(data, copies_of(data), NOW)
    assert not any(one.exists() for one in drafts)


def test_copies_that_cannot_be_written_are_told(data: Path) -> None:
    (data / "elsewhere").write_text("a file")
    with pytest.raises(StoreError, match="copies of golfers' keys"):
        copy_keys(data, data / "elsewhere", NOW)
