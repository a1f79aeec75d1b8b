"""A studio on disk whose balls were predicted."""

from datetime import UTC, date, datetime
from pathlib import Path

from bays import club_card
from loftwright.domain.acts import ClubJoined, HandedOver, ShotArrived, VisitOpened, WarmUpDone
from loftwright.domain.fitting import DeviceCard, Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.home import Home
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.prediction import Forecast, Prediction, Rests
from loftwright.store.sqlite import open_store

AT = datetime(2026, 5, 14, 9, 0, tzinfo=UTC)
SPEED = Forecast(quantity="ball_speed", mean=66.0, ranges=((65.0, 67.0), (64.0, 68.0), (62, 70)))


def predicted_balls(folder: Path, *, outside: int) -> None:
    """Keep two fittings of thirty predicted balls, some of them outside their 80 % range."""
    store = open_store(folder)
    store.add_golfer(Golfer(id="g1"), Identity(name="Nobody"))
    for name in ("f1", "f2"):
        store.open_fitting(Fitting(id=name, golfer="g1", opened=date(2026, 5, 14), bay="Bay 1"))
        store.append(
            name,
            [
                VisitOpened(day=AT.date(), bay="Bay 1", device=DeviceCard(name="meter")),
                ClubJoined(club="Ash", card=club_card("Ash")),
                HandedOver(club="Ash"),
                WarmUpDone(),
            ],
            at=AT,
            by="",
        )
        for ball in range(30):
            prediction = Prediction(
                after=4 + ball,
                set_up="Ash",
                bay="Bay 1",
                device="meter",
                at=AT,
                rests=Rests.BALLS,
                home=Home(),
                forecasts=(SPEED,),
                program="0",
            )
            assert store.predict(name, prediction)
            speed = 69.0 if ball < outside else 66.0
            shot = ShotArrived(numbers=ShotNumbers(ball_speed=speed), source="feed")
            store.append(name, [shot], at=AT, by="feed")
    store.close()
