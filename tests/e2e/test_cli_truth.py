"""`loftwright truth` reads the studio's own proof and makes nothing."""

from datetime import UTC, date, datetime
from pathlib import Path

from bays import club_card
from commands import Cli
from loftwright.domain.acts import ClubJoined, HandedOver, ShotArrived, VisitOpened, WarmUpDone
from loftwright.domain.fitting import DeviceCard, Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.home import Home
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.prediction import Forecast, Prediction, Rests
from loftwright.store.sqlite import open_store

AT = datetime(2026, 5, 14, 9, 0, tzinfo=UTC)
SPEED = Forecast(quantity="ball_speed", mean=66.0, ranges=((65.0, 67.0), (64.0, 68.0), (62, 70)))


def fill(folder: Path, *, outside: int) -> None:
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


def test_it_says_how_many_balls_fell_in_their_range(cli: Cli, tmp_path: Path) -> None:
    fill(tmp_path / "data", outside=6)
    said = cli("truth")
    assert said.code == 0, said.err
    lines = said.out.splitlines()
    assert lines[0] == "Of 60 balls 80 % fell in the 80 % range of ball speed."
    assert lines[1].startswith("Standard error 0.0 %, over 2 fittings")
    assert any(line.startswith("Harrow 460, Reedmace Ash, middle") for line in lines)


def test_the_same_as_one_object(cli: Cli, tmp_path: Path) -> None:
    fill(tmp_path / "other", outside=3)
    record = cli("truth", "--data", tmp_path / "other", "--json").record
    assert (record["balls"], record["fittings"], record["not_predicted"]) == (60, 2, 0)
    (speed,) = record["quantities"]
    assert (speed["in_50"], speed["in_80"], speed["in_95"]) == (0.9, 0.9, 1.0)
    assert {group["by"] for group in record["groups"]} == {"bay", "device", "club", "rests"}


def test_invented_golfers_are_counted_apart(cli: Cli, tmp_path: Path) -> None:
    fill(tmp_path / "data", outside=6)
    assert cli("truth", "--invented").out.startswith("No ball of invented golfers was predicted")


def test_a_folder_without_a_studio_is_named_and_stays_as_it_is(cli: Cli, tmp_path: Path) -> None:
    said = cli("truth", "--data", tmp_path / "nothing", "--json")
    assert said.code == 6
    assert said.error["kind"] == "not_found"
    assert not (tmp_path / "nothing").exists()
