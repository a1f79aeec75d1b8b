"""What the shop has learned moves with the studio whose fittings are pinned to it."""

from pathlib import Path

import pytest

from loftwright.errors import StoreError
from loftwright.services.opening import open_studio
from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_learning import LEARNED
from loftwright.services.store_copy import copy_studio


def a_studio_that_learned(folder: Path) -> Path:
    studio = open_studio(folder)
    try:
        learned = record_folder(studio) / LEARNED
        learned.mkdir(parents=True)
        (learned / "0001.json").write_bytes(b"one")
        (learned / "0001.effects.parquet").write_bytes(b"its effects")
    finally:
        studio.store.close()
    return learned


def test_versions_are_copied_with_the_studio(tmp_path: Path) -> None:
    learned = a_studio_that_learned(tmp_path / "here")
    copy_studio(str(tmp_path / "here"), str(tmp_path / "there"), tmp_path)
    copied = tmp_path / "there" / "shop" / LEARNED
    assert {one.name: one.read_bytes() for one in copied.iterdir()} == {
        one.name: one.read_bytes() for one in learned.iterdir()
    }


def test_a_studio_that_learned_nothing_is_copied_without(tmp_path: Path) -> None:
    open_studio(tmp_path / "here").store.close()
    copy_studio(str(tmp_path / "here"), str(tmp_path / "there"), tmp_path)
    assert not (tmp_path / "there" / "shop").exists()


def test_versions_that_cannot_be_copied_are_said(tmp_path: Path) -> None:
    a_studio_that_learned(tmp_path / "here")
    open_studio(tmp_path / "there").store.close()
    (tmp_path / "there" / "shop").write_text("in the way")
    with pytest.raises(StoreError, match="what the shop has learned cannot be copied"):
        copy_studio(str(tmp_path / "here"), str(tmp_path / "there"), tmp_path)
