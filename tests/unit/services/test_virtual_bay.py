"""The virtual golfer in the bay: balls by the usual door, never in a real golfer's record."""

from dataclasses import replace

import pytest

from loftwright.bay.replay import replay
from loftwright.domain.acts import Closed, HandedOver, ShotArrived
from loftwright.errors import ConflictError, InputError
from loftwright.services.acting import act
from loftwright.services.demo_studio import DemoStudio, fill_demo
from loftwright.services.studio import Studio
from loftwright.services.virtual_bay import virtual_ball
from studios import Clock, studio_in_memory


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory(Clock())


@pytest.fixture
def demo(studio: Studio) -> DemoStudio:
    made = fill_demo(studio)
    assert made is not None
    return made


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
    studio.store.open_fitting(replace(opened, id="fresh", closed=False))
    with pytest.raises(InputError, match="no club is in hand"):
        virtual_ball(studio, "fresh")
