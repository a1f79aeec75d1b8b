"""Watched folders: what a device writes to disk goes into the fitting that is open."""

import json
import logging
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from threading import Event, Lock
from typing import Final

from loftwright.errors import InputError, LoftwrightError
from loftwright.intake.feed import FeedShot
from loftwright.intake.folder import FileReport, FolderWatch
from loftwright.intake.options import ReadOptions
from loftwright.services.data_folder import MAPPINGS
from loftwright.services.hands import handedness
from loftwright.services.overviews import may_be_open
from loftwright.services.studio import Studio
from loftwright.services.ways_in import take_shots

log = logging.getLogger(__name__)

EVERY: Final = 0.5
"""Seconds between two looks at a folder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Watched:
    """A folder that feeds a fitting.

    Attributes
    ----------
    path : str
        A file or folder of this machine.
    columns : tuple of str
        What is settled of its columns.
    before : tuple of str
        Keys of balls that stood there before and are not this golfer's.
    """

    path: str
    columns: tuple[str, ...] = ()
    before: tuple[str, ...] = ()


class Watches:
    """The folders that are looked at, one a fitting at most.

    Parameters
    ----------
    studio : Studio
    """

    def __init__(self, studio: Studio) -> None:
        self._studio = studio
        self._running: dict[str, FolderWatch] = {}
        self._problems: dict[str, str] = {}
        self._lock = Lock()

    def start(
        self, fitting: str, path: str, *, columns: Sequence[str] = (), take_present: bool = False
    ) -> None:
        """Watch a file or folder for a fitting; what stands there already stays out unless told.

        Raises
        ------
        InputError
            If the path is no absolute path of this machine.
        """
        where = Path(path).expanduser()
        if not where.is_absolute():
            raise InputError(
                f"{path!r} is no whole path",
                place="path",
                mend="Give the path from the root of this machine's disk.",
            )
        watched = Watched(path=str(where), columns=tuple(columns))
        if not take_present:
            present = FolderWatch(where, self._options(fitting, watched)).standing()
            watched = replace(watched, before=present)
        self._keep(fitting, watched)
        with self._lock:
            self._running[fitting] = self._watch(fitting, watched)

    def stop(self, fitting: str) -> None:
        """Watch nothing for a fitting any more."""
        self._keep(fitting, None)
        with self._lock:
            self._running.pop(fitting, None)
            self._problems.pop(fitting, None)

    def path(self, fitting: str) -> str:
        """Return what is watched for a fitting; empty if nothing is."""
        kept = self._kept(fitting)
        return kept.path if kept else ""

    def reports(self, fitting: str) -> tuple[FileReport, ...]:
        """Return how the watched files stand."""
        watch = self._running.get(fitting)
        told = watch.reports() if watch else ()
        problem = self._problems.get(fitting)
        return (FileReport(name=self.path(fitting), error=problem), *told) if problem else told

    def resume(self) -> None:
        """Watch again what was watched when the studio stopped."""
        for one in may_be_open(self._studio):
            kept = self._kept(one.fitting)
            if kept is not None and not self._studio.standing(one.fitting).closed:
                with self._lock:
                    self._running[one.fitting] = self._watch(one.fitting, kept)

    def look(self) -> int:
        """Take what is new in every watched folder and return how many balls that were."""
        taken = 0
        with self._lock:
            for fitting, watch in list(self._running.items()):
                taken += self._take(fitting, watch, watch.poll())
        return taken

    def run(self, stop: Event) -> None:
        """Look again and again until told to stop."""
        while not stop.wait(EVERY):
            try:
                self.look()
            except LoftwrightError:
                log.exception("a watched folder could not be looked at")

    def _take(self, fitting: str, watch: FolderWatch, shots: tuple[FeedShot, ...]) -> int:
        try:
            take_shots(self._studio, fitting, shots, source="folder")
        except LoftwrightError as error:
            watch.forget(shot.key for shot in shots)
            self._problems[fitting] = str(error)
            return 0
        self._problems.pop(fitting, None)
        return len(shots)

    def _watch(self, fitting: str, watched: Watched) -> FolderWatch:
        return FolderWatch(
            Path(watched.path), self._options(fitting, watched), known=watched.before
        )

    def _options(self, fitting: str, watched: Watched) -> ReadOptions:
        golfer = self._studio.store.golfer(self._studio.store.fitting(fitting).value.golfer).value
        return ReadOptions(
            columns=watched.columns,
            hand=handedness(golfer.hand),
            mappings_path=self._studio.folder / MAPPINGS,
        )

    def _kept(self, fitting: str) -> Watched | None:
        text = self._studio.store.setting(_name(fitting)).value
        if not text:
            return None
        record = json.loads(text)
        return Watched(
            path=record["path"],
            columns=tuple(record["columns"]),
            before=tuple(record["before"]),
        )

    def _keep(self, fitting: str, watched: Watched | None) -> None:
        name = _name(fitting)
        text = (
            ""
            if watched is None
            else json.dumps(
                {"path": watched.path, "columns": watched.columns, "before": watched.before}
            )
        )
        version = self._studio.store.setting(name).version
        self._studio.store.set_setting(name, text, version=version)


def _name(fitting: str) -> str:
    return f"watch:{fitting}"
