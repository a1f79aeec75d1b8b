"""Work on the shop record that takes longer than a page: one at a time, beside the bays.

Comparing every fitting again takes seconds each. It runs in a thread of its own with a desk of
its own, so that what the bays keep at hand stays there, and pages say how it stands. Learning is
arithmetic without a pause: its thread has a process of its own do it.
"""

import logging
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum
from threading import Lock, Thread
from typing import Final

from loftwright.errors import LoftwrightError
from loftwright.services.evidence import Desk
from loftwright.services.shop_learning import learn_apart
from loftwright.services.shop_record import Kept, record_shop
from loftwright.services.studio import Studio

TOPIC: Final = "shop"
"""Of what is done to the shop record; its revision counts the changes in this process."""

log = logging.getLogger(__name__)


class Task(StrEnum):
    """What can be done."""

    RECORD = "record"
    LEARN = "learn"


class Stage(StrEnum):
    """How it stands."""

    IDLE = "idle"
    RUNNING = "running"
    DONE = "done"
    FAILED = "failed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """The last thing that was done, or is being done.

    Attributes
    ----------
    began, ended : datetime, optional
    done, of : int
        Fittings that were looked at, and of how many, while the record is brought up to date.
    kept : Kept, optional
        What a finished recording left.
    version : int
        What a finished learning was kept as; nought for anything else.
    message, mend : str
        Why it failed.
    revision : int
    """

    stage: Stage = Stage.IDLE
    task: Task | None = None
    began: datetime | None = None
    ended: datetime | None = None
    done: int = 0
    of: int = 0
    kept: Kept | None = None
    version: int = 0
    message: str = ""
    mend: str = ""
    revision: int = 0


class ShopWork:
    """Brings the shop record up to date and learns from it, beside everything else.

    Parameters
    ----------
    studio : Studio
    """

    def __init__(self, studio: Studio) -> None:
        self.studio = studio
        self._lock = Lock()
        self._now = Work()
        self._thread: Thread | None = None

    @property
    def now(self) -> Work:
        """How it stands."""
        with self._lock:
            return self._now

    def start(self, task: Task) -> bool:
        """Begin something; return whether it began, for there is one at a time."""
        with self._lock:
            if self._now.stage is Stage.RUNNING:
                return False
            revision = self._now.revision + 1
            self._now = Work(
                stage=Stage.RUNNING, task=task, began=self.studio.now(), revision=revision
            )
            self._thread = Thread(target=self._run, args=(task,), daemon=True)
        self.studio.hub.publish(TOPIC, revision)
        self._thread.start()
        return True

    def wait(self, seconds: float) -> None:
        """Wait until nothing is under way, or the time is over."""
        thread = self._thread
        if thread is not None:
            thread.join(seconds)

    def _run(self, task: Task) -> None:
        does: dict[Task, Callable[[], Work]] = {Task.RECORD: self._record, Task.LEARN: self._learn}
        try:
            ended = does[task]()
        except LoftwrightError as error:
            ended = Work(stage=Stage.FAILED, message=error.message, mend=error.mend)
        except Exception:
            # A thread has nobody above it who would tell the fitter.
            log.exception("work on the shop record")
            ended = Work(
                stage=Stage.FAILED,
                message="something went wrong that nobody foresaw",
                mend="Try again; what was there before stands. The log says more.",
            )
        self._end(task, ended)

    def _end(self, task: Task, ended: Work) -> None:
        with self._lock:
            self._now = replace(
                ended,
                task=task,
                began=self._now.began,
                ended=self.studio.now(),
                revision=self._now.revision + 1,
            )
            revision = self._now.revision
        self.studio.hub.publish(TOPIC, revision)

    def _record(self) -> Work:
        return Work(stage=Stage.DONE, kept=record_shop(self.studio, Desk(), self._looked_at))

    def _looked_at(self, done: int, of: int) -> None:
        with self._lock:
            self._now = replace(self._now, done=done, of=of, revision=self._now.revision + 1)
            revision = self._now.revision
        self.studio.hub.publish(TOPIC, revision)

    def _learn(self) -> Work:
        return Work(stage=Stage.DONE, version=learn_apart(self.studio))
