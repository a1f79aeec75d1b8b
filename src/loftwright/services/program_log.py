"""The program's own log: a plain file beside the store that turns over and names nobody.

`log_lines` says what a line may hold. Each process writes a file of its own, so that none turns
over what another writes. A line that cannot be written goes to standard error and is counted;
the studio goes on.
"""

import logging
import os
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from stat import S_ISREG
from types import TracebackType
from typing import Final, Self

from loftwright.services.log_lines import OURS, instant, lines_of, told
from loftwright.services.log_sentences import LOST, UNMADE

FOLDER: Final = "logs"
NAME: Final = "loftwright.log"
FILE_BYTES: Final = 1_000_000
FILES: Final = 5
"""Files that a process keeps, the one that it writes among them."""
_MOST_PROCESSES: Final = 64
_MODE: Final = 0o600

log: Final = logging.getLogger(__name__)


def _now() -> datetime:
    return datetime.now(UTC)


class ProgramLog(logging.Handler):
    """Writes what the program says of itself, from `start` until `close`.

    Parameters
    ----------
    file : Path, optional
        Another process's file is left to it, and `loftwright-2.log` taken; standard error
        without a file.
    clock : callable, optional
        Returns the instant that a line bears.
    file_bytes : int, optional
        Length that a file does not pass.
    """

    def __init__(
        self,
        file: Path | None,
        *,
        clock: Callable[[], datetime] = _now,
        file_bytes: int = FILE_BYTES,
    ) -> None:
        super().__init__(logging.INFO)
        self._wanted, self._clock, self._most = file, clock, file_bytes
        self._path: Path | None = None
        self._claim = self._out = -1
        self._torn = False
        self._level_before = logging.NOTSET
        self._hook_before = threading.excepthook
        self.lost = 0
        """Lines that could not be written since the last one that could."""

    @property
    def path(self) -> Path | None:
        """The file that is written; None before the first line and without one."""
        return self._path

    @property
    def well(self) -> bool:
        """Whether the last line could be written."""
        return self.lost == 0

    def start(self) -> Self:
        """Take in what the program and its libraries say, and of threads that die."""
        ours = logging.getLogger(OURS)
        self._level_before = ours.level
        ours.setLevel(logging.INFO)
        logging.getLogger().addHandler(self)
        self._hook_before = threading.excepthook
        threading.excepthook = _thread_died
        return self

    def close(self) -> None:
        """Take nothing in any more, and leave the file to the next process."""
        root = logging.getLogger()
        if self in root.handlers:
            root.removeHandler(self)
            logging.getLogger(OURS).setLevel(self._level_before)
            threading.excepthook = self._hook_before
        with self.lock or threading.RLock():
            for one in (self._out, self._claim):
                if one >= 0:
                    os.close(one)
            self._out = self._claim = -1
        super().close()

    def __enter__(self) -> Self:
        return self.start()

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def emit(self, record: logging.LogRecord) -> None:
        """Write a record; nothing that goes wrong meanwhile reaches whoever speaks."""
        try:
            lines = lines_of(record, self._clock())
        except Exception:  # noqa: BLE001 - a log that fails must fail nothing else
            lines = [f"{instant(_now())} ERROR {__name__}: {UNMADE}"]
        text = "".join(f"{line}\n" for line in lines)
        if self._wanted is None:
            _to_standard_error(text)
            return
        try:
            self._write(text)
        except Exception:  # noqa: BLE001 - the same; a full disk is the usual one
            self.lost += 1
            _to_standard_error(text)

    def _write(self, text: str) -> None:
        if self._out >= 0 and self._path is not None and not self._path.exists():
            # Somebody cleared it away: what is written next should be found.
            os.close(self._out)
            self._out = -1
        if self._out < 0:
            self._open()
        if self.lost:
            said = f"{instant(self._clock())} WARNING {__name__}: {LOST}"
            text = f"{said} | count={self.lost}\n{text}"
        # A line that was cut off by a full disk ends before the next one begins.
        data = (f"\n{text}" if self._torn else text).encode()
        if os.fstat(self._out).st_size + len(data) > self._most:
            self._turn_over()
        written = os.write(self._out, data)
        self._torn = written < len(data)
        if self._torn:
            raise OSError("the line was cut off")
        self.lost = 0

    def _open(self) -> None:
        if self._path is None and self._wanted is not None:
            self._wanted.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            self._path, self._claim = _own_file(self._wanted)
        if self._path is not None:
            self._out = os.open(self._path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, _MODE)

    def _turn_over(self) -> None:
        """Set the full file aside under a number; the oldest goes."""
        if self._path is None:
            return
        os.close(self._out)
        self._out = -1
        for number in range(FILES - 1, 0, -1):
            older = _numbered(self._path, number)
            newer = _numbered(self._path, number - 1) if number > 1 else self._path
            if newer.exists():
                newer.replace(older)
        self._open()


def log_file(folder: Path) -> Path:
    """Return where a data folder's log lies."""
    return folder / FOLDER / NAME


def log_files(file: Path) -> tuple[Path, ...]:
    """Return every file of a log, whichever process wrote it, the oldest lines first."""
    found = []
    for path in file.parent.glob(f"{file.stem}*{file.suffix}*"):
        # One may be set aside under another name meanwhile.
        with suppress(FileNotFoundError):
            kept = path.stat()
            if S_ISREG(kept.st_mode):
                found.append((kept.st_mtime, path.name, path))
    return tuple(path for _, _, path in sorted(found))


def _own_file(wanted: Path) -> tuple[Path, int]:
    """Return the first file that no other process writes, and what holds it."""
    if sys.platform == "win32":
        return wanted.with_stem(f"{wanted.stem}-{os.getpid()}"), -1
    import fcntl  # noqa: PLC0415 - not there on every system

    for number in range(1, _MOST_PROCESSES + 1):
        path = wanted if number == 1 else wanted.with_stem(f"{wanted.stem}-{number}")
        held = os.open(path.with_name(f".{path.name}.lock"), os.O_RDWR | os.O_CREAT, _MODE)
        try:
            fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            os.close(held)
            continue
        return path, held
    raise OSError("every file of the log is another process's")


def _numbered(path: Path, number: int) -> Path:
    return path.with_name(f"{path.name}.{number}")


def _to_standard_error(text: str) -> None:
    with suppress(OSError, ValueError, AttributeError):
        sys.stderr.write(text)
        sys.stderr.flush()


def _thread_died(died: "threading.ExceptHookArgs") -> None:
    if died.exc_value is None or died.exc_type is SystemExit:
        return
    shown = (died.exc_type, died.exc_value, died.exc_traceback)
    name = died.thread.name if died.thread is not None else None
    log.critical("a thread died", exc_info=shown, extra=told(thread=name))
