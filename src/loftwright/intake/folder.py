"""Watches a file or folder into which a device writes its balls."""

import stat
import time
from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from loftwright.domain.shot import Refusal
from loftwright.errors import IntakeError, LoftwrightError
from loftwright.intake.doubts import Doubt, DoubtsError
from loftwright.intake.feed import FeedShot
from loftwright.intake.file_rows import FileRows, check_size, keys_of, one_by_one, rows_of
from loftwright.intake.files import SAMPLE_BYTES, cannot_open, encodings
from loftwright.intake.options import ReadOptions

TABLES: Final = frozenset({".csv", ".tsv", ".tab", ".txt", ".dat", ".log"})
"""Endings of the files in a folder that are looked at; a file named by itself may have any."""

MOST_FILES: Final = 200
PATIENCE: Final = 5.0
"""How long a last line without an end must stay as it is before it counts as whole [s]."""

_UNREADABLE: Final = (-1, -1, -1)


@dataclass(frozen=True, slots=True, kw_only=True)
class FileReport:
    """How one file stands.

    Attributes
    ----------
    name : str
    balls : int
        That it held when it was last read.
    waiting : bool
        Whether its last line is still being written.
    error : str
        Why it cannot be read now; what it held before stays taken.
    doubts : tuple of Doubt
        Questions to be settled.
    refused : tuple of Refusal
        Rows that are no ball.
    warnings : tuple of str
    """

    name: str
    balls: int = 0
    waiting: bool = False
    error: str = ""
    doubts: tuple[Doubt, ...] = ()
    refused: tuple[Refusal, ...] = ()
    warnings: tuple[str, ...] = ()


class _Watched:
    """What is remembered of one file while it is watched."""

    def __init__(self) -> None:
        self.stamp = _UNREADABLE
        self.since = 0.0
        self.tail = False
        self.early = ""
        self.settled: tuple[str, ...] = ()
        self.report = FileReport(name="")


class FolderWatch:
    """Gives out the balls that appear in a file or in the files of a folder.

    Nothing is kept on disk: a new watch gives out everything once more, with the same keys, and
    the record takes no key twice.

    Parameters
    ----------
    path : Path
        A file, there or not yet, or a folder.
    options : ReadOptions
        What is settled about its tables.
    known : iterable of str
        Keys of balls that are not to be given out, as what `standing` said before the visit.
    clock : callable
        Returns seconds that never go back.
    """

    def __init__(
        self,
        path: Path,
        options: ReadOptions,
        *,
        known: Iterable[str] = (),
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self.path, self.options, self._clock = path, options, clock
        self._given = set(known)
        self._files: dict[Path, _Watched] = {}
        self._problem = ""

    def poll(self) -> tuple[FeedShot, ...]:
        """Return the balls that have appeared since the last look, in order of play.

        What cannot be read is told by `reports` and read once it is mended. If the balls cannot
        be taken, `forget` has them given out again.
        """
        found = self._list()
        self._files = {path: self._files.get(path, _Watched()) for path in found}
        new: list[FeedShot] = []
        for path, stamp in found.items():
            new.extend(self._look(path, stamp, self._files[path]))
        return tuple(new)

    def reports(self) -> tuple[FileReport, ...]:
        """Return how every file stands, and what keeps the folder from being looked at."""
        files = [watched.report for watched in self._files.values()]
        if self._problem:
            files.insert(0, FileReport(name=str(self.path), error=self._problem))
        return tuple(files)

    def forget(self, keys: Iterable[str]) -> None:
        """Give these balls out again at the next look."""
        self._given.difference_update(keys)
        for watched in self._files.values():
            watched.stamp = _UNREADABLE

    def standing(self) -> tuple[str, ...]:
        """Return the key of every line that stands there now, given out or not.

        A last line without an end is one of them, and so are lines about which a question is
        open: none of them is a ball of a visit that has not begun.
        """
        keys: list[str] = []
        for path, stamp in self._list().items():
            with suppress(LoftwrightError):
                content, _ = _content(path, stamp[0], with_tail=True)
                keys.extend(keys_of(content, path.name, self.options))
        return tuple(keys)

    def _list(self) -> dict[Path, tuple[int, int, int]]:
        """Return the files there are with their size, time and place, the oldest first."""
        self._problem = ""
        try:
            if self.path.is_dir():
                inside = sorted(self.path.iterdir())
                paths = [one for one in inside if _is_table_name(one)]
            else:
                paths = [self.path]
        except OSError as error:
            self._problem = str(cannot_open(self.path, error))
            return {}
        stamps = {path: stamp for path in paths if (stamp := _stamp(path)) is not None}
        if not stamps and not self.path.exists():
            self._problem = f"{self.path}: is not there yet"
        ordered = sorted(stamps, key=lambda path: (stamps[path][1], path.name))
        if len(ordered) > MOST_FILES:
            self._problem = (
                f"{self.path}: holds {len(ordered)} tables; the newest {MOST_FILES} are read"
            )
        return {path: stamps[path] for path in ordered[-MOST_FILES:]}

    def _look(
        self, path: Path, stamp: tuple[int, int, int], watched: _Watched
    ) -> tuple[FeedShot, ...]:
        """Return what is new in one file, and note how it stands."""
        changed = stamp != watched.stamp
        ripe = watched.tail and self._clock() - watched.since >= PATIENCE
        if not changed and not ripe:
            return ()
        if changed:
            watched.since = self._clock()
        watched.stamp = stamp
        try:
            whole, tail = _content(path, stamp[0], with_tail=ripe and not changed)
        except IntakeError as error:
            if isinstance(error.__cause__, OSError):
                # Nothing about the file need change for it to be readable again.
                watched.stamp = _UNREADABLE
            watched.report = replace(watched.report, name=path.name, error=str(error))
            return ()
        watched.tail = bool(tail) and changed
        return self._take(path, whole, watched)

    def _take(self, path: Path, whole: bytes, watched: _Watched) -> tuple[FeedShot, ...]:
        report = FileReport(name=path.name, waiting=watched.tail)
        shots: tuple[FeedShot, ...] = ()
        if whole.strip():
            try:
                rows = rows_of(whole, path.name, self.options)
            except DoubtsError as error:
                report = replace(report, doubts=error.doubts, error=str(error))
                shots = self._in_spite(path, whole, watched)
            except LoftwrightError as error:
                report = replace(report, error=str(error), balls=watched.report.balls)
            else:
                watched.settled = rows.settled
                shots, report = rows.shots, _with_rows(report, rows)
        new = tuple(shot for shot in shots if shot.key not in self._given)
        self._given.update(shot.key for shot in new)
        watched.report = report
        return _told_late(new, watched, ended=_ends(whole))

    def _in_spite(self, path: Path, whole: bytes, watched: _Watched) -> tuple[FeedShot, ...]:
        """Return balls of a file that was read well until a doubt about the whole came up."""
        if not watched.settled:
            return ()
        settled = replace(self.options, columns=watched.settled, mappings_path=None)
        try:
            return one_by_one(whole, path.name, settled, self._given)
        except LoftwrightError:
            return ()


def _with_rows(report: FileReport, rows: FileRows) -> FileReport:
    return replace(report, balls=len(rows.shots), refused=rows.refused, warnings=rows.warnings)


def _told_late(
    new: tuple[FeedShot, ...], watched: _Watched, *, ended: bool
) -> tuple[FeedShot, ...]:
    """Return balls with a word on one whose line went on after it had counted as whole."""
    early = watched.early
    if new:
        watched.early = "" if ended else new[-1].line
    if not early:
        return new
    said = "Its line was read once before it was whole: set the ball before this one aside."
    return tuple(
        replace(shot, problems=(*shot.problems, said)) if shot.line.startswith(early) else shot
        for shot in new
    )


def _is_table_name(path: Path) -> bool:
    return path.suffix.casefold() in TABLES and not path.name.startswith((".", "~"))


def _stamp(path: Path) -> tuple[int, int, int] | None:
    try:
        found = path.stat()
    except OSError:
        return None
    if not stat.S_ISREG(found.st_mode):
        return None
    return found.st_size, found.st_mtime_ns, found.st_ino


def _content(path: Path, size: int, *, with_tail: bool) -> tuple[bytes, bytes]:
    """Return a file's whole lines, and what stands after their last end."""
    check_size(size, path.name)
    try:
        content = path.read_bytes()
    except OSError as error:
        raise cannot_open(path, error) from error
    check_size(len(content), path.name)
    end = len(content) if with_tail else _end_of_lines(content, path)
    return content[:end], content[end:]


def _end_of_lines(content: bytes, path: Path) -> int:
    """Return how many bytes the whole lines take."""
    if not content:
        return 0
    encoding = encodings(content[:SAMPLE_BYTES], path)[0]
    width = 4 if encoding.startswith("utf-32") else 2 if encoding.startswith("utf-16") else 1
    big = encoding.endswith("-be") or content.startswith((b"\xfe\xff", b"\x00\x00\xfe\xff"))
    ends = [bytes(width - 1) + mark if big else mark + bytes(width - 1) for mark in (b"\r", b"\n")]
    return max(_last(content, end) for end in ends)


def _ends(content: bytes) -> bool:
    return content.rstrip(b"\0").endswith((b"\n", b"\r"))


def _last(content: bytes, mark: bytes) -> int:
    """Return where the last whole mark ends, at a multiple of its own length; 0 for none."""
    place = len(content)
    while (place := content.rfind(mark, 0, place)) >= 0:
        if place % len(mark) == 0:
            return place + len(mark)
        place += len(mark) - 1
    return 0
