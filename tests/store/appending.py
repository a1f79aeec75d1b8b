"""A program that appends balls and says each one that is on the disk; made to be killed.

It waits for lines that name a folder and the number of the first ball, and has a child do each
of them: to load the program again for every kill would take the test minutes.
"""

import os
import sys
from contextlib import suppress
from datetime import UTC, date, datetime
from pathlib import Path

from loftwright.domain.acts import NotRead, ShotArrived
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import ConflictError
from loftwright.store.sqlite import open_store


def append_for_ever(folder: Path, start: int) -> None:
    """Append balls, each with an act, and say the number of each that was answered for."""
    store = open_store(folder)
    say("open")
    with suppress(ConflictError):
        store.add_golfer(Golfer(id="g1"), Identity(name="Nobody"))
    with suppress(ConflictError):
        store.open_fitting(Fitting(id="f1", golfer="g1", opened=date(2026, 5, 14)))
    number = start
    while True:
        shot = ShotArrived(numbers=ShotNumbers(ball_speed=float(number)), line=f"line {number}")
        key = str(number)
        store.append("f1", [shot, NotRead()], at=datetime.now(UTC), by="feed", key=key)
        say(key)
        number += 1


def say(word: str) -> None:
    """Write a word on a line of its own."""
    sys.stdout.write(f"{word}\n")
    sys.stdout.flush()


def main() -> None:
    """Have a child append for each line that comes, and say when it is gone."""
    for line in sys.stdin:
        folder, start = line.rstrip("\n").split("\t")
        child = os.fork()
        if child == 0:
            append_for_ever(Path(folder), int(start))
        say(f"child {child}")
        os.waitpid(child, 0)
        say("gone")


if __name__ == "__main__":
    main()
