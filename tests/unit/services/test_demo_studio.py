"""The invented studio: filled once, the same each time, through the doors of a real one."""

from pathlib import Path

import pytest

from demos import a_demo
from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.golfer import Hand
from loftwright.services.demo_studio import DemoStudio, fill_demo
from loftwright.services.opening import open_studio
from loftwright.services.rack import candidates
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from studios import studio_in_memory


@pytest.fixture(scope="module")
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture(scope="module")
def demo(studio: Studio) -> DemoStudio:
    return a_demo(studio)


def figures_of(now: FittingNow) -> list[object]:
    return [(one.club, one.setting, one.numbers, one.mark, one.at) for one in now.swings]


def test_the_finished_fitting_is_closed_with_forty_balls(studio: Studio, demo: DemoStudio) -> None:
    now = replay(studio.record(demo.finished))
    assert now.closed
    assert len(now.balls) == 40
    assert now.swings_today == 49
    marked = [one for one in now.balls if one.mark is not None]
    # A virtual golfer's face leaves now and then no mark that can be read.
    assert 30 <= len(marked) < 40


def test_the_other_stands_in_its_middle(studio: Studio, demo: DemoStudio) -> None:
    now = replay(studio.record(demo.in_progress))
    assert not now.closed
    assert len(now.balls) == 23
    assert len(now.waiting) == 2
    (ghost,) = [one for one in now.swings if one.not_ours]
    assert ghost.numbers is not None
    assert ghost.numbers.ball_speed == pytest.approx(31.0 * MILE_PER_HOUR)
    assert {club.name for club in now.clubs if club.feel is not None}
    assert now.plan is not None
    assert now.plan.plan.balls == 40


def test_everybody_and_everything_in_it_says_that_it_is_invented(
    studio: Studio, demo: DemoStudio
) -> None:
    for fitting in (demo.finished, demo.in_progress):
        opened = studio.store.fitting(fitting).value
        assert opened.invented
        assert "(invented)" in opened.fitter
        assert "(invented)" in studio.store.identity(opened.golfer).name
        assert "(invented)" in studio.store.golfer(opened.golfer).value.home.name
    rack = studio.store.rack()
    assert all("(invented)" in one.maker for one in rack.shafts.values() if one.maker)
    assert all("(invented)" in one.maker for one in rack.heads.values() if one.maker)
    settings = read_settings(studio).settings
    assert "(invented)" in settings.shop
    assert all("(invented)" in device.name for device in settings.devices)


def test_a_second_start_adds_nothing(studio: Studio, demo: DemoStudio) -> None:
    before = len(studio.store.fittings()), len(studio.store.rack().assemblies)
    assert fill_demo(studio) is None
    assert (len(studio.store.fittings()), len(studio.store.rack().assemblies)) == before
    assert demo.finished != demo.in_progress


def test_every_figure_is_the_same_in_a_studio_on_disk(
    studio: Studio, demo: DemoStudio, tmp_path: Path
) -> None:
    other = open_studio(tmp_path)
    other.clock = studio.clock
    again = fill_demo(other)
    assert again is not None
    for one, two in (
        (demo.finished, again.finished),
        (demo.in_progress, again.in_progress),
    ):
        first, second = replay(studio.record(one)), replay(other.record(two))
        assert figures_of(first) == figures_of(second)
    other.store.close()


def test_the_rack_serves_a_left_hander_too(studio: Studio, demo: DemoStudio) -> None:
    rack = studio.store.rack()
    left = [one for one in rack.heads.values() if one.hand is Hand.LEFT]
    assert left
    golfer = studio.store.golfer(studio.store.fitting(demo.finished).value.golfer).value
    convention = read_settings(studio).settings.convention
    offered = candidates(studio, golfer, "Bay 1", convention)
    assert sum(not one.why_not for one in offered) == 5
