"""The program's log turns over, is one process's alone, and never stops the studio."""

import logging
import stat
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from loftwright.services.log_lines import WITHHELD, is_line
from loftwright.services.program_log import (
    FILES,
    ProgramLog,
    log_file,
    log_files,
)
from loftwright.services.serving_log import started_log, tell_start
from studios import Clock, studio_in_memory

log = logging.getLogger("loftwright.tests")
"""The sentences of this module are its own: those of a program without a file are withheld."""

_FULL = """
import resource, signal, sys, logging
from pathlib import Path
from loftwright.services.program_log import ProgramLog
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
log = logging.getLogger("loftwright.tests")
with ProgramLog(Path(sys.argv[1])) as made:
    log.info("started")
    size = Path(sys.argv[1]).stat().st_size
    resource.setrlimit(resource.RLIMIT_FSIZE, (size + 20, resource.RLIM_INFINITY))
    log.info("stopped")
    log.info("stopped")
    lost = made.lost
    resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
    log.info("started")
    print(lost, made.lost)
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return log_file(tmp_path)


@pytest.fixture
def made(file: Path) -> Iterator[ProgramLog]:
    with ProgramLog(file, clock=Clock(), file_bytes=400) as begun:
        yield begun


def test_a_line_bears_the_instant_of_the_given_clock(made: ProgramLog, file: Path) -> None:
    tell_start(studio_in_memory())
    (line,) = file.read_text().splitlines()
    assert line.startswith(
        "2026-11-25T12:00:00.000Z INFO loftwright.services.serving_log: started"
    )
    assert "version=0.1.0 schema=" in line
    assert made.path == file


def test_full_files_are_set_aside_and_the_oldest_goes(made: ProgramLog, file: Path) -> None:
    for number in range(100):
        log.info("started", extra={"told": {"count": str(number)}})
    files = log_files(file)
    assert len(files) == FILES
    assert all(one.stat().st_size <= 400 for one in files)
    lines = [line for number in ("4", "3", "2", "1") for line in _lines(file, number)]
    lines += file.read_text().splitlines()
    counts = [int(line.rpartition("=")[2]) for line in lines]
    assert counts == list(range(counts[0], 100))
    assert made.well


def _lines(file: Path, number: str) -> list[str]:
    return file.with_name(f"{file.name}.{number}").read_text().splitlines()


def test_only_the_owner_may_read_it(made: ProgramLog, file: Path) -> None:
    log.info("started")
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert made.well


def test_each_process_writes_a_file_of_its_own(file: Path) -> None:
    with ProgramLog(file) as first:
        log.info("started")
        program = "\n".join(
            (
                "import logging, sys",
                "from pathlib import Path",
                "from loftwright.services.program_log import ProgramLog",
                "with ProgramLog(Path(sys.argv[1])) as made:",
                "    logging.getLogger('loftwright.tests').info('started')",
                "    print(made.path.name)",
            )
        )
        told = _run(program, file)
        assert told.stdout == "loftwright-2.log\n"
        assert first.path == file
    assert _run(program, file).stdout == "loftwright.log\n"
    assert len(log_files(file)) == 2


def test_a_disk_that_is_full_loses_lines_and_says_how_many(file: Path) -> None:
    told = _run(_FULL, file)
    assert told.stdout == "2 0\n", told.stderr
    assert told.stderr.count(WITHHELD) == 2
    lines = file.read_text().splitlines()
    assert lines[-2].endswith("lines of the log were lost | count=2")
    assert lines[-1].endswith(f"loftwright.tests: {WITHHELD}")
    assert all(is_line(lines[one]) for one in (0, -2, -1))


def _run(program: str, file: Path) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-c", program, str(file)], capture_output=True, text=True, check=True
    )


def test_a_folder_that_is_none_stops_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "logs").write_text("a file stands here")
    with ProgramLog(log_file(tmp_path), clock=Clock()) as made:
        log.warning("a wrong code was tried")
        assert not made.well
        assert made.lost == 1
    assert "a wrong code was tried" in capsys.readouterr().err


def test_a_file_that_was_cleared_away_is_begun_anew(made: ProgramLog, file: Path) -> None:
    log.info("started")
    file.unlink()
    log.info("stopped")
    assert file.read_text().splitlines()[0].endswith("stopped")
    assert made.well


def test_a_thread_that_dies_is_told_by_its_name(made: ProgramLog, file: Path) -> None:
    def dies() -> None:
        raise RuntimeError("Ottoline Brambleby")

    thread = threading.Thread(target=dies, name="warm-up")
    thread.start()
    thread.join()
    lines = file.read_text().splitlines()
    assert lines[0].endswith("a thread died | thread=warm-up")
    assert lines[1] == "  raised builtins.RuntimeError"
    assert "Ottoline" not in file.read_text()
    assert made.well


def test_what_fails_while_a_line_is_made_reaches_nobody(file: Path) -> None:
    def broken() -> None:
        raise ValueError

    with ProgramLog(file, clock=broken):  # type: ignore[arg-type]
        log.info("started")
    assert "a line could not be made" in file.read_text()


def test_a_dash_writes_to_standard_error_and_no_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("LOFTWRIGHT_DATA", str(tmp_path / "data"))
    with started_log("-") as made:
        log.info("started")
    assert made.path is None
    assert capsys.readouterr().err.rstrip().endswith("started")
    assert not (tmp_path / "data").exists()


def test_a_log_that_ended_takes_nothing_in(file: Path) -> None:
    with ProgramLog(file):
        log.info("started")
    before = threading.excepthook
    log.info("stopped")
    assert len(file.read_text().splitlines()) == 1
    assert before is threading.excepthook
    assert logging.getLogger("loftwright").level == logging.NOTSET


def test_a_file_that_is_set_aside_while_files_are_listed_is_no_fault(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = log_file(tmp_path)
    file.parent.mkdir()
    file.touch()
    gone = file.with_name(f"{file.name}.1")
    monkeypatch.setattr(Path, "glob", lambda *_: iter([gone, file]))
    monkeypatch.setattr(Path, "is_file", lambda _: True)
    assert log_files(file) == (file,)
