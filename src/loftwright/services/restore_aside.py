"""What stood before a restore: put aside for a week, in which a slip can be mended, then removed.

It holds an older store, in which rows of golfers stand who are erased since, sealed without a key.
"""

import re
import shutil
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from loftwright.services.key_copies import KEPT as KEY_KEPT
from loftwright.services.named_instants import instant_in, name_of_instant
from loftwright.services.restore_swap import FORMER, PLAN
from loftwright.store.keys import overwrite

KEPT: Final = KEY_KEPT
"""As long as the copy of a key that is not there any more."""
_NAME: Final = re.compile(re.escape(FORMER) + r"(?P<at>\d{8}-\d{6})(-\d+)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class PutAside:
    """What stood before a restore.

    Attributes
    ----------
    path : Path
    at : datetime
        When it was put aside, in UTC, by the clock of then.
    """

    path: Path
    at: datetime

    @property
    def goes(self) -> datetime:
        """When the next backup removes it."""
        return self.at + KEPT


def aside_name(data: Path, now: datetime) -> str:
    """Return a name that is free in a data folder for what is put aside now."""
    name = f"{FORMER}{name_of_instant(now)}"
    count, free = 1, name
    while (data / free).exists():
        count += 1
        free = f"{name}-{count}"
    return free


def put_aside_in(data: Path) -> tuple[PutAside, ...]:
    """Return what restores put aside in a data folder, the oldest first; other names are none."""
    found = []
    for path in sorted(data.glob(f"{FORMER}*")):
        name = _NAME.fullmatch(path.name)
        at = instant_in(name["at"]) if name else None
        if at is not None and path.is_dir() and not path.is_symlink():
            found.append(PutAside(path=path, at=at))
    return tuple(found)


def remove_put_aside(data: Path, now: datetime) -> int:
    """Remove what was put aside a week ago or longer, and return how many that was.

    What cannot be removed stays, and the doctor says so: no backup fails of it.
    """
    if (data / PLAN).exists():
        return 0
    gone = 0
    for one in put_aside_in(data):
        if one.goes <= now:
            for key in one.path.rglob("*.key"):
                with suppress(OSError):
                    overwrite(key)
            shutil.rmtree(one.path, ignore_errors=True)
            gone += not one.path.exists()
    return gone
