"""The day reads what is closed once, and looks again where a record went on."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import Closed, Undone
from loftwright.services.closed_visits import closed_visit
from loftwright.services.day import FittingToday, Need, fittings_in_progress, fittings_today
from loftwright.services.evidence import Desk
from record_reads import records_read


@pytest.fixture
def bay() -> Bay:
    """Return a bay whose fitting was closed half an hour after its visit began."""
    made = a_bay()
    made.clock.forward(30.0)
    made.do(Closed())
    return made


def today(bay: Bay) -> FittingToday:
    (one,) = fittings_today(bay.studio, Desk())
    return one


def test_a_closed_fitting_of_today_is_told_with_the_hours_of_its_visit(bay: Bay) -> None:
    one, now = today(bay), bay.studio.standing(bay.fitting)
    assert now.visit is not None
    assert (one.need, one.now, one.bay) == (Need.DONE, None, None)
    assert one.begins == now.visit.opened
    assert one.ends == bay.studio.record(bay.fitting)[-1].at
    assert one.ends > one.begins


def test_a_closed_fitting_is_read_once_however_often_the_day_is_looked_at(
    bay: Bay, monkeypatch: pytest.MonkeyPatch
) -> None:
    today(bay)
    read = records_read(monkeypatch)
    today(bay)
    assert fittings_in_progress(bay.studio) == ()
    assert read == []


def test_a_fitting_whose_closing_was_taken_back_is_open_again(bay: Bay) -> None:
    today(bay)
    bay.do(Undone(act=bay.studio.record(bay.fitting)[-1].sequence))
    assert today(bay).need is Need.BAY
    assert [one.id for one in fittings_in_progress(bay.studio)] == [bay.fitting]


def test_a_closed_fitting_is_of_its_visits_day_alone(bay: Bay) -> None:
    bay.clock.at += timedelta(days=1)
    assert fittings_today(bay.studio, Desk()) == ()


def test_what_is_known_of_a_record_holds_for_its_end_alone(bay: Bay) -> None:
    (outline,) = bay.studio.store.outlines()
    known = closed_visit(bay.studio, outline)
    bay.do(Undone(act=bay.studio.record(bay.fitting)[-1].sequence))
    assert closed_visit(bay.studio, outline) == known
    assert closed_visit(bay.studio, replace(outline, end=outline.end + 1)) is None
