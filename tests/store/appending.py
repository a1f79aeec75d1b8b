"""A program that appends balls and says each one that is on the disk; made to be killed."""

import sys
from datetime import UTC, date, datetime
from pathlib import Path

from loftwright.domain.acts import ShotArrived
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import ConflictError
from loftwright.store.sqlite import open_store


def main(folder: Path, start: int) -> None:
    """Append balls for ever, from a number on."""
    store = open_store(folder)
    try:
        store.add_golfer(Golfer(id="g1"), Identity(name="Nobody"))
        store.open_fitting(Fitting(id="f1", golfer="g1", opened=date(2026, 5, 14)))
    except ConflictError:
        pass
    number = start
    while True:
        shot = ShotArrived(numbers=ShotNumbers(ball_speed=float(number)), line=f"line {number}")
        store.append("f1", [shot], at=datetime.now(UTC), by="feed", key=str(number))
        sys.stdout.write(f"{number}\n")
        sys.stdout.flush()
        number += 1


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
