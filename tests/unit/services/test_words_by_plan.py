"""A page that only says what to do compares nothing where the plan alone tells it."""

import pytest

from loftwright.bay.next_set import Step
from loftwright.domain.acts import Entry
from loftwright.report.bay_words import BayFacts, bay_sentence
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.day import fittings_today
from loftwright.services.demo_studio import DemoStudio, fill_demo
from loftwright.services.evidence import Desk
from loftwright.services.settings import show_of
from loftwright.services.studio import Studio
from studios import Clock, studio_in_memory


@pytest.fixture(scope="module")
def clock() -> Clock:
    return Clock()


@pytest.fixture(scope="module")
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture(scope="module")
def demo(studio: Studio) -> DemoStudio:
    made = fill_demo(studio)
    assert made is not None
    return made


class Earlier(Studio):
    """A studio at an earlier moment of a fitting's record."""

    def __init__(self, studio: Studio, entries: tuple[Entry, ...]) -> None:
        super().__init__(store=studio.store, folder=studio.folder, clock=lambda: entries[-1].at)
        self._entries = entries

    def record(self, fitting: str) -> tuple[Entry, ...]:  # noqa: ARG002 - there is only one
        return self._entries


def said(bay: BayNow) -> str:
    facts = BayFacts(
        now=bay.now,
        next=bay.next,
        pace=bay.pace,
        proposed=bay.proposed,
        decision=bay.evidence.decision,
        ask_club=bay.ask_club,
        show=show_of(bay.settings),
    )
    return bay_sentence(facts).say


def test_the_words_of_an_hour_are_the_same_without_a_comparison(
    studio: Studio, demo: DemoStudio
) -> None:
    record = studio.record(demo.in_progress)
    uncompared = 0
    for end in range(len(record) // 3, len(record) + 1, 9):
        then = Earlier(studio, record[:end])
        whole = bay_now(then, Desk(), demo.in_progress)
        words = bay_now(then, Desk(), demo.in_progress, words_only=True)
        assert said(words) == said(whole)
        assert words.next == whole.next
        uncompared += words.evidence.decision is None and whole.evidence.decision is not None
    assert uncompared >= 3


def test_where_the_evidence_chooses_it_is_asked(studio: Studio, demo: DemoStudio) -> None:
    words = bay_now(studio, Desk(), demo.finished, words_only=True)
    assert words.next.step is Step.DONE
    assert words.evidence.decision is not None


def test_the_day_compares_nothing_for_the_fitting_in_progress(
    studio: Studio, demo: DemoStudio
) -> None:
    desk = Desk()
    (one,) = (x for x in fittings_today(studio, desk) if x.fitting.id == demo.in_progress)
    assert one.bay is not None
    assert one.bay.evidence.decision is None
    assert len(desk._kept) == 0
