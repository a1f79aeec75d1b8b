"""A key is whole, a golfer's own, and gone when it is gone."""

from pathlib import Path

import pytest

from loftwright.errors import InputError
from loftwright.store.keys import KeyRing


def test_another_golfers_key_opens_nothing(tmp_path: Path) -> None:
    ring = KeyRing(tmp_path)
    ring.make("one")
    ring.make("other")
    assert ring.opened("other", ring.seal("one", "secret")) is None
    assert ring.opened("one", ring.seal("one", "secret")) == "secret"


@pytest.mark.parametrize("golfer", ["", "../g1", "a/b", ".", "a\0b"])
def test_an_id_that_is_no_file_name_gets_no_key(tmp_path: Path, golfer: str) -> None:
    ring = KeyRing(tmp_path / "data")
    with pytest.raises(InputError, match="cannot be a golfer's id"):
        ring.make(golfer)
    assert not (tmp_path / "data").exists()


def test_a_key_is_made_once_and_another_ring_sees_it_go(tmp_path: Path) -> None:
    first, second = KeyRing(tmp_path), KeyRing(tmp_path)
    first.make("g1")
    sealed = first.seal("g1", "secret")
    second.make("g1")
    assert second.opened("g1", sealed) == "secret"
    first.forget("g1")
    first.forget("g1")
    assert second.opened("g1", sealed) is None
    assert [file.name for file in (tmp_path / "keys").iterdir()] == []


def test_half_a_key_reads_as_none(tmp_path: Path) -> None:
    ring = KeyRing(tmp_path)
    ring.make("g1")
    sealed = ring.seal("g1", "secret")
    (tmp_path / "keys" / "g1.key").write_bytes(b"half")
    assert KeyRing(tmp_path).opened("g1", sealed) is None
