"""A backup that cannot be made says why, and where; one that is made is of one studio."""

import json
import os
from datetime import timedelta
from pathlib import Path

import pytest

from kept_studios import NOW, a_backup, a_studio, everything_in, rows_of
from loftwright.errors import IntakeError, StoreError
from loftwright.services import backup
from loftwright.services.backup import make_backup
from loftwright.services.backup_content import source_in
from loftwright.services.backup_files import DRAFT
from loftwright.services.opening import open_known_studio
from loftwright.services.restore import restore
from loftwright.services.restore_swap import FORMER, FRESH, PLAN
from loftwright.store.engine import FILE


def test_a_training_store_that_is_none_is_named_with_the_mend(tmp_path: Path) -> None:
    data = a_studio(tmp_path / "data")
    (data / "training").mkdir()
    (data / "training" / "loftwright.sqlite").write_bytes(b"no store" * 1000)
    with pytest.raises(StoreError, match="training bay's store cannot be read") as told:
        a_backup(data)
    assert told.value.place == str(data / "training" / "loftwright.sqlite")
    assert "move the folder `training`" in told.value.mend


def test_a_disk_that_gives_back_less_than_was_written_is_blamed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = a_studio(tmp_path / "data")
    a_backup(data)
    before = everything_in(data / "backups")

    def cut(file: Path, *_: object) -> None:
        raise IntakeError("it ends too early", place=str(file), mend="Take another backup.")

    monkeypatch.setattr(backup, "read_backup", cut)
    with pytest.raises(StoreError, match="not what is read back") as told:
        a_backup(data, NOW + timedelta(days=1))
    assert "The disk fails" in told.value.mend
    assert everything_in(data / "backups") == before


def test_what_was_given_up_on_a_drive_goes_and_nothing_of_others(tmp_path: Path) -> None:
    data, drive = a_studio(tmp_path / "data"), tmp_path / "drive"
    for name in (f"{DRAFT}abc", ".new-of-others"):
        (drive / name).mkdir(parents=True)
        os.utime(drive / name, (0, 0))
    make_backup(source_in(data), NOW, to=drive)
    assert not (drive / f"{DRAFT}abc").exists()
    assert (drive / ".new-of-others").exists()


def test_a_restore_that_was_broken_off_is_finished_before_a_backup_is_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = a_studio(tmp_path / "data")
    made = a_backup(data)
    wanted = rows_of(data)
    (data / "shop" / "learned" / "0001.json").write_text("of what stood")
    with monkeypatch.context() as broken:
        left = iter(range(3))
        rename = os.rename

        def fails(what: Path, to: Path) -> None:
            if next(left, None) is None:
                raise OSError(5, "Input/output error", str(what))
            rename(what, to)

        broken.setattr(os, "rename", fails)
        with pytest.raises(StoreError):
            restore(made.path, data, NOW, over=True)
    assert (data / PLAN).exists()
    again = a_backup(data, NOW + timedelta(days=1))
    assert not (data / PLAN).exists()
    restore(again.path, tmp_path / "new", NOW)
    assert rows_of(tmp_path / "new") == wanted
    assert (tmp_path / "new" / "shop" / "learned" / "0001.json").read_text() == "{}"


def test_a_store_that_a_killed_restore_took_away_is_brought_before_it_is_called_none(
    tmp_path: Path,
) -> None:
    data = a_studio(tmp_path / "data")
    fresh = data / f"{FRESH}abc"
    fresh.mkdir()
    (data / FILE).rename(fresh / FILE)
    told = {"fresh": fresh.name, "former": f"{FORMER}abc", "away": [], "come": [FILE]}
    (data / PLAN).write_text(json.dumps(told))
    studio = open_known_studio(data)
    assert len(studio.store.golfers()) == 2
    studio.store.close()
    assert not fresh.exists()
    assert not list(data.glob(f"{FORMER}*"))
