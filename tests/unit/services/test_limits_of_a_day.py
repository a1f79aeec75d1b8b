"""What the body allows is kept for the visit alone; the shop's day is its zone's."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from loftwright.domain.acts import Closed, Rested
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.acting import act
from loftwright.services.fittings import open_fitting
from loftwright.services.settings import (
    Settings,
    change_settings,
    machine_zone,
    read_settings,
)
from loftwright.services.studio import Studio
from studios import Clock, studio_in_memory


def with_limits() -> tuple[Studio, str]:
    studio = studio_in_memory()
    studio.store.add_golfer(Golfer(id="g"), Identity(name="Caspar Thistlewick"))
    studio.store.set_limits("g", studio.today(), "half swings")
    return studio, open_fitting(studio, "g", bay="Bay 1").id


def test_closing_a_fitting_forgets_what_the_body_allows_today() -> None:
    studio, fitting = with_limits()
    act(studio, fitting, [Rested()])
    assert studio.store.limits("g", studio.today()) == "half swings"
    act(studio, fitting, [Closed()])
    assert studio.store.limits("g", studio.today()) == ""


def test_the_day_is_that_of_the_shops_zone_from_the_moment_it_is_settled() -> None:
    late = Clock(at=datetime(2026, 11, 25, 22, 30, tzinfo=UTC))
    studio = studio_in_memory(late)
    read = read_settings(studio)
    change_settings(studio, Settings(zone="Europe/Vienna"), version=read.version)
    assert studio.today() == date(2026, 11, 25)
    late.forward(45.0)
    assert studio.today() == date(2026, 11, 26)


def test_an_unsettled_zone_is_the_machines_own() -> None:
    assert read_settings(studio_in_memory()).settings.zone == machine_zone()
    assert ZoneInfo(machine_zone()).key == machine_zone()
