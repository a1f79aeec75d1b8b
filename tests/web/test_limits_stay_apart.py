"""What the body allows today is on three pages of that day and nowhere else."""

import logging
from collections.abc import Iterator
from datetime import timedelta

import pytest

from demos import a_demo
from loftwright.services.day_limits import DayLimits
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.golfers import set_limits_today
from loftwright.services.studio import Studio
from studios import Clock, app_of, studio_in_memory
from web_client import WebClient, asking

WORD = "leftwristquimble"
SHOWN = {"golfer", "plan", "bay"}


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def demo(studio: Studio) -> DemoStudio:
    made = a_demo(studio)
    for one in (made.finished, made.in_progress):
        set_limits_today(studio, studio.store.fitting(one).value.golfer, WORD)
    return made


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio)) as made:
        yield made


def test_no_page_paper_or_table_shows_the_limits_but_those_of_today_s_fitter(
    client: WebClient, demo: DemoStudio, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG)
    for fitting in (demo.in_progress, demo.finished):
        pages = (
            *("golfer", "plan", "bay", "evidence", "choice", "report", "order", "build", "screen"),
            *("final-check", "report.pdf", "shots.csv", "readings.csv"),
        )
        seen = {
            one
            for one in pages
            if WORD.encode() in client.get(f"/fittings/{fitting}/{one}").content
        }
        assert "golfer" in seen
        assert seen <= SHOWN
    for path in ("/", "/people", "/rack", "/shop", "/follow-ups", "/settings"):
        assert WORD not in client.get(path).text
    assert WORD not in caplog.text


def test_the_day_ends_without_anybody_opening_a_page(studio: Studio, demo: DemoStudio) -> None:
    golfer = studio.store.fitting(demo.in_progress).value.golfer
    clock, day = studio.clock, studio.today()
    assert isinstance(clock, Clock)
    limits = DayLimits(studio)
    assert limits.look() == 0
    assert studio.store.limits(golfer, day) == WORD
    clock.at += timedelta(days=1)
    assert limits.look() >= 1
    assert studio.store.limits(golfer, day) == ""
    assert limits.look() == 0
