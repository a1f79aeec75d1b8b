"""Records of fittings for tests: one line an act, one second apart unless told."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.domain.acts import (
    Act,
    ClubJoined,
    Entry,
    HandedOver,
    Marked,
    ShotArrived,
    VisitOpened,
)
from loftwright.domain.fitting import ClubCard, DeviceCard, Mark
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.rack import SleeveSetting

START = datetime(2026, 5, 14, 9, 0, tzinfo=UTC)
DAY = date(2026, 5, 14)
SETTINGS = (
    SleeveSetting(name="middle"),
    SleeveSetting(name="one weak", bore=1.5 * DEGREE, azimuth=0.0),
)


def card(name: str = "Ash") -> ClubCard:
    """Return an invented club's card."""
    return ClubCard(
        assembly=f"assembly-{name}",
        head="Quillon Wayfarer",
        shaft=f"Thistledown {name}",
        head_piece="head-1",
        shaft_piece=f"shaft-{name}",
        loft=10.5 * DEGREE,
        lie=58.0 * DEGREE,
        face=0.0,
        length=45.25 * INCH,
        setting="middle",
        settings=SETTINGS,
    )


def numbers(speed_mph: float = 150.0, **changes: float | None) -> ShotNumbers:
    """Return a ball's numbers around a plain drive."""
    told: dict[str, float | None] = {
        "ball_speed": speed_mph * MILE_PER_HOUR,
        "launch": 12.0 * DEGREE,
        "direction": 0.5 * DEGREE,
        "spin": 2600.0 * REVOLUTION_PER_MINUTE,
        "axis": 2.0 * DEGREE,
    }
    return ShotNumbers(**{**told, **changes})


def mark(toe_mm: float, high_mm: float) -> Mark:
    """Return a mark on the face."""
    return Mark(toe=toe_mm * MILLIMETRE, high=high_mm * MILLIMETRE)


@dataclass
class Record:
    """A record that grows act by act."""

    entries: list[Entry] = field(default_factory=list)
    clock: datetime = START

    def add(self, *acts: Act, wait: float = 1.0, by: str = "fitter") -> int:
        """Append acts written together, some seconds later, and return the first's sequence."""
        self.clock += timedelta(seconds=wait)
        first = len(self.entries) + 1
        for place, act in enumerate(acts):
            self.entries.append(
                Entry(sequence=first + place, at=self.clock, by=by, act=act, group=first)
            )
        return first

    def open(self, *clubs: str, warm_up: bool = False) -> "Record":
        """Open a visit with clubs; the first is in hand."""
        self.add(
            VisitOpened(day=DAY, bay="Bay 1", device=DeviceCard(name="meter"), warm_up=warm_up),
            *(ClubJoined(club=club, card=card(club)) for club in clubs),
        )
        self.add(HandedOver(club=clubs[0]))
        return self

    def ball(
        self, speed_mph: float = 150.0, *, wait: float = 30.0, after: int | None = None
    ) -> int:
        """Let a ball arrive and return its sequence."""
        return self.add(ShotArrived(numbers=numbers(speed_mph), after=after), wait=wait)

    def balls(self, count: int, *, wait: float = 30.0) -> list[int]:
        """Let balls arrive and return their sequences."""
        return [self.ball(150.0 + place, wait=wait) for place in range(count)]

    def tap(self, toe_mm: float, high_mm: float, *, wait: float = 5.0) -> int:
        """Tap a mark and return its sequence."""
        return self.add(Marked(mark=mark(toe_mm, high_mm)), wait=wait)

    @property
    def now(self) -> FittingNow:
        """What stands."""
        return replay(self.entries)


def toes(now: FittingNow) -> list[float | None]:
    """Return the toe millimetres of every ball's mark, in the order of play."""
    return [
        None if one.mark is None else round(one.mark.toe / MILLIMETRE, 6) for one in now.swings
    ]


def played(now: FittingNow) -> Sequence[tuple[object, ...]]:
    """Return what the comparison sees of every ball: all but when and as what it was written."""
    return [
        (one.number, one.visit, one.order, one.club, one.setting, one.numbers, one.mark, one.odd)
        for one in now.balls
    ]
