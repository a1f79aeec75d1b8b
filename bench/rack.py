"""Time of a part's page after a start: the balls it hit, over the fittings of years."""

import tempfile
import time
from datetime import UTC, date, datetime
from pathlib import Path

from bench.studio import card
from loftwright.domain.acts import (
    Act,
    ClubJoined,
    HandedOver,
    ShotArrived,
    VisitOpened,
    WarmUpDone,
)
from loftwright.domain.fitting import DeviceCard, Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.services.studio import Studio
from loftwright.services.wear import balls_by_piece, balls_of
from loftwright.store.sqlite import open_store

FITTINGS = 300
BALLS = 40
EVERY = 15
"""Of so many fittings one had the part."""

PIECE = "shaft-Rare"
NUMBERS = ShotNumbers(ball_speed=66.1, launch=0.21, direction=0.01, spin=262.0, axis=0.03)


def fill(folder: Path) -> None:
    """Write the fittings down."""
    store = open_store(folder, draft=True)
    store.add_golfer(Golfer(id="bench"), Identity(name="Balthazar Plum (invented)"))
    at = datetime.now(UTC)
    for number in range(FITTINGS):
        fitting = Fitting(id=f"f{number}", golfer="bench", opened=date(2026, 5, 14))
        store.open_fitting(fitting)
        club = "Rare" if number % EVERY == 0 else "Usual"
        acts: list[Act] = [
            VisitOpened(day=fitting.opened, bay="Bay 1", device=DeviceCard(name="meter")),
            ClubJoined(club=club, card=card(club)),
            WarmUpDone(),
            HandedOver(club=club),
            *(ShotArrived(numbers=NUMBERS) for _ in range(BALLS)),
        ]
        store.append(fitting.id, acts, at=at, by="bench")
    store.close()


def its_own(studio: Studio) -> int:
    return balls_of(studio, PIECE)


def every(studio: Studio) -> int:
    return balls_by_piece(studio)[PIECE]


def main() -> None:
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        fill(folder)
        print(f"A part that was in {FITTINGS // EVERY} of {FITTINGS} fittings, after a start:")
        for name, call in (("its own balls", its_own), ("every part's balls", every)):
            studio = Studio(store=open_store(folder), folder=folder)
            times = []
            for _ in range(2):
                start = time.perf_counter()
                balls = call(studio)
                times.append(1e3 * (time.perf_counter() - start))
            studio.store.close()
            print(f"  {name:20s} {times[0]:7.1f} ms   again {times[1]:6.1f} ms   {balls} balls")


if __name__ == "__main__":
    main()
