"""Which case a training fitting plays under which seed, and what was called at its end.

The truth itself is written nowhere: it follows from case and seed when the call has been made.
"""

import json
import re
from collections.abc import Mapping
from dataclasses import asdict, astuple, dataclass
from pathlib import Path
from typing import Any, Final

from loftwright.errors import NotFoundError, StoreError
from loftwright.intake.files import write_whole
from loftwright.services.studio import Studio, new_id
from loftwright.training.case import CasePlayer
from loftwright.training.case_files import case_named

FOLDER: Final = "plays"
_ID: Final = re.compile(r"training-[0-9a-f-]{36}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Play:
    """A case that is played.

    Attributes
    ----------
    case : str
    seed : int
    call : str
        A club, or `too close`; empty before the call.
    upto : int
        Sequence of the last entry before the call.
    """

    case: str
    seed: int
    call: str = ""
    upto: int = 0

    def player(self) -> CasePlayer:
        """Return the golfer who hits."""
        return CasePlayer(case_named(self.case), self.seed)


def new_training_id() -> str:
    """Return a fresh id of a training fitting."""
    return f"training-{new_id()}"


def is_training(fitting: str) -> bool:
    """Return whether an id is that of a training fitting."""
    return _ID.fullmatch(fitting) is not None


def read_play(studio: Studio, fitting: str) -> Play:
    """Return what a training fitting plays.

    Raises
    ------
    NotFoundError
        If there is no such training fitting.
    StoreError
        If its file cannot be read.
    """
    path = _path(studio, fitting)
    try:
        return _play_of(json.loads(path.read_text(encoding="utf-8")))
    except FileNotFoundError:
        raise NotFoundError(
            "there is no such training fitting", place=fitting, mend="Open a case first."
        ) from None
    except (OSError, ValueError, TypeError, RecursionError) as error:
        raise StoreError(
            f"what is played cannot be read ({error})",
            place=str(path),
            mend="Delete the file: this one play is forgotten, and the case opens again.",
        ) from error


def _play_of(told: Mapping[str, Any]) -> Play:
    play = Play(**told)
    if tuple(type(value) for value in astuple(play)) != (str, int, str, int):
        raise TypeError("a value of another kind")
    return play


def keep_play(studio: Studio, fitting: str, play: Play) -> None:
    """Keep what a training fitting plays."""
    path = _path(studio, fitting)
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, f"{json.dumps(asdict(play))}\n".encode())


def _path(studio: Studio, fitting: str) -> Path:
    if not is_training(fitting):
        raise NotFoundError(
            f"{fitting!r} is no training fitting", place="fitting", mend="Open a case first."
        )
    return studio.folder / FOLDER / f"{fitting}.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Played:
    """A training fitting and what it plays."""

    fitting: str
    play: Play


def all_plays(studio: Studio) -> tuple[Played, ...]:
    """Return what was opened in the training studio and not forgotten, the newest first."""
    return tuple(
        Played(fitting=kept.value.id, play=read_play(studio, kept.value.id))
        for kept in studio.store.fittings()
        if is_training(kept.value.id) and _path(studio, kept.value.id).exists()
    )
