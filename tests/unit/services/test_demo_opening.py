"""The demo is in its place whole or not at all, whenever its filling is cut short."""

import os
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import StoreError
from loftwright.services.demo_opening import DRAFT, UNFINISHED
from loftwright.services.fittings import open_fitting
from loftwright.services.opening import open_demo_studio, open_studio
from loftwright.services.studio import Studio
from loftwright.store.engine import FILE

KILLED = """
import os, signal, sys
from loftwright.services import demo_opening, demo_studio
from loftwright.services.opening import open_demo_studio
left = int(sys.argv[1])
hit, put = demo_studio.virtual_ball, demo_opening._put
def ball(*told, **more):
    global left
    left -= 1
    if left == 0:
        os.kill(os.getpid(), signal.SIGKILL)
    return hit(*told, **more)
def never(*_):
    os.kill(os.getpid(), signal.SIGKILL)
demo_studio.virtual_ball = ball
demo_opening._put = never
open_demo_studio()
"""
OPENED = "from loftwright.services.opening import open_demo_studio; open_demo_studio()"
AFTER_ALL = 10_000


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("LOFTWRIGHT_DATA", str(tmp_path))
    return tmp_path


def is_whole(studio: Studio) -> bool:
    """Return whether a demo holds both fittings, one closed and one in its middle."""
    newest, first = (studio.standing(kept.value.id) for kept in studio.store.fittings())
    whole = (len(newest.balls), len(newest.waiting), first.closed, len(first.balls))
    return whole == (23, 2, True, 40)


@pytest.mark.parametrize("ball", [1, 46, 60, AFTER_ALL])
def test_a_demo_that_is_killed_while_it_fills_is_filled_anew(folder: Path, ball: int) -> None:
    ended = subprocess.run([sys.executable, "-c", KILLED, str(ball)], check=False)
    assert ended.returncode == -signal.SIGKILL
    assert not (folder / "demo").exists()
    (draft,) = folder.glob(f"{DRAFT}demo-*")
    # Nothing has changed in it for a while.
    for path in (*draft.iterdir(), draft):
        os.utime(path, (0.0, 0.0))
    studio = open_demo_studio()
    assert is_whole(studio)
    studio.store.close()
    assert [path.name for path in folder.iterdir()] == ["demo"]


def test_a_draft_that_another_program_fills_is_left_alone(folder: Path) -> None:
    draft = folder / f"{DRAFT}demo-other"
    draft.mkdir()
    (draft / FILE).write_bytes(b"half")
    open_demo_studio().store.close()
    assert (draft / FILE).read_bytes() == b"half"


def test_programs_that_open_the_demo_at_once_find_one_that_is_whole(folder: Path) -> None:
    programs = [subprocess.Popen([sys.executable, "-c", OPENED]) for _ in range(2)]
    assert [one.wait() for one in programs] == [0, 0]
    studio = open_demo_studio()
    assert is_whole(studio)
    studio.store.close()
    assert [path.name for path in folder.iterdir()] == ["demo"]


def test_a_demo_that_an_earlier_version_left_half_filled_goes_aside(folder: Path) -> None:
    half = open_studio(folder / "demo")
    golfer = half.store
    golfer.add_golfer(Golfer(id="g"), Identity(name="Half of a demo"))
    open_fitting(half, "g", bay="Bay 1")
    half.store.close()
    studio = open_demo_studio()
    assert is_whole(studio)
    studio.store.close()
    (aside,) = folder.glob(f"demo-{UNFINISHED}-*")
    kept = open_studio(aside)
    assert kept.store.identity("g").name == "Half of a demo"
    kept.store.close()


def test_a_whole_demo_stays_with_what_came_since() -> None:
    studio = open_demo_studio()
    fitting = studio.store.fittings()[-1].value
    open_fitting(studio, fitting.golfer, bay="Bay 2")
    studio.store.close()
    again = open_demo_studio()
    assert len(again.store.fittings()) == 3
    again.store.close()


def test_what_is_filled_aside_is_on_the_disk_like_any_other(folder: Path) -> None:
    studio = open_demo_studio()
    with studio.store.reading() as connection:  # type: ignore[attr-defined]
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2
    studio.store.close()
    door = sqlite3.connect(folder / "demo" / FILE)
    assert door.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    door.close()


def test_a_folder_that_cannot_be_written_is_named(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (folder / "file").write_text("not a folder")
    monkeypatch.setenv("LOFTWRIGHT_DATA", str(folder / "file"))
    with pytest.raises(StoreError, match="demo cannot be written"):
        open_demo_studio()
