"""The virtual golfer in the bay: balls by the usual door, never in a real golfer's record."""

from dataclasses import replace

import pytest

from demos import a_demo
from loftwright.bay.replay import replay
from loftwright.domain.acts import Closed, HandedOver, ShotArrived
from loftwright.errors import ConflictError, InputError
from loftwright.services.acting import act
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.studio import Studio
from loftwright.services.virtual_bay import virtual_ball, virtual_mark
from studios import Clock, studio_in_memory


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory(Clock())


@pytest.fixture
def demo(studio: Studio) -> DemoStudio:
    return a_demo(studio)


def test_a_ball_comes_with_the_club_in_hand_and_its_mark(studio: Studio, demo: DemoStudio) -> None:
    act(studio, demo.in_progress, [HandedOver(club="Birch")])
    taken = virtual_ball(studio, demo.in_progress)
    now = replay(studio.record(demo.in_progress))
    swing = now.swing(taken.sequence)
    assert swing is not None
    assert swing.club == "Birch"
    assert swing.source == "virtual"
    assert swing.mark is not None
    entry = studio.record(demo.in_progress)[taken.sequence - 1]
    assert isinstance(entry.act, ShotArrived)
    assert entry.act.device == "virtual golfer"


def test_a_mark_can_be_left_to_the_fitter(studio: Studio, demo: DemoStudio) -> None:
    taken = virtual_ball(studio, demo.in_progress, marked=False)
    swing = replay(studio.record(demo.in_progress)).swing(taken.sequence)
    assert swing is not None
    assert swing.mark is None


def test_never_in_a_real_golfers_fitting(studio: Studio, demo: DemoStudio) -> None:
    kept = studio.store.fitting(demo.in_progress)
    studio.store.change_fitting(replace(kept.value, invented=False), version=kept.version)
    before = studio.record(demo.in_progress)
    with pytest.raises(ConflictError, match="a real golfer's fitting"):
        virtual_ball(studio, demo.in_progress)
    assert studio.record(demo.in_progress) == before


def test_a_closed_fitting_takes_none(studio: Studio, demo: DemoStudio) -> None:
    act(studio, demo.in_progress, [Closed()])
    with pytest.raises(ConflictError, match="closed"):
        virtual_ball(studio, demo.in_progress)


def test_a_closed_one_says_how_to_go_on(studio: Studio, demo: DemoStudio) -> None:
    with pytest.raises(ConflictError) as refused:
        virtual_ball(studio, demo.finished)
    assert refused.value.mend


def test_without_a_club_in_hand_nobody_hits(studio: Studio, demo: DemoStudio) -> None:
    opened = studio.store.fitting(demo.finished).value
    studio.store.open_fitting(replace(opened, id="fresh"))
    with pytest.raises(InputError, match="no club is in hand"):
        virtual_ball(studio, "fresh")


def test_a_mark_read_later_is_the_one_of_its_ball(studio: Studio, demo: DemoStudio) -> None:
    twin = studio_in_memory(Clock())
    other = a_demo(twin)
    for _ in range(3):
        taken = virtual_ball(studio, demo.in_progress, marked=False)
        virtual_mark(studio, demo.in_progress, taken.sequence)
        virtual_ball(twin, other.in_progress)
    late = replay(studio.record(demo.in_progress)).balls[-3:]
    at_once = replay(twin.record(other.in_progress)).balls[-3:]
    assert [one.numbers for one in late] == [one.numbers for one in at_once]
    assert [one.mark for one in late] == [one.mark for one in at_once]
    assert any(one.mark is not None for one in late)


def test_a_mark_is_read_once(studio: Studio, demo: DemoStudio) -> None:
    taken = virtual_ball(studio, demo.in_progress)
    before = studio.record(demo.in_progress)
    assert not virtual_mark(studio, demo.in_progress, taken.sequence)
    assert studio.record(demo.in_progress) == before


def test_only_the_virtual_golfers_own_balls_have_such_marks(
    studio: Studio, demo: DemoStudio
) -> None:
    for ball in (0, 1, 10**6):
        with pytest.raises(InputError, match="no ball of the virtual golfer"):
            virtual_mark(studio, demo.in_progress, ball)
