"""A studio is left alone while somebody is being fitted in any of its bays."""

from datetime import timedelta
from pathlib import Path

import pytest

from bays import a_bay
from loftwright.domain.acts import Closed, OddBall
from loftwright.errors import ConflictError
from loftwright.services.quiet import refuse_while_running, running, running_words
from loftwright.services.store_copy import copy_studio
from loftwright.services.studio import Studio, utc_now
from loftwright.store.sqlite import open_store
from studios import Clock, studio_in_memory


def test_an_empty_studio_and_one_that_waits_are_quiet() -> None:
    clock = Clock()
    studio = studio_in_memory(clock)
    assert running(studio) == ()
    bay = a_bay(studio=studio, clock=clock)
    bay.ball()
    assert [one.bay for one in running(studio)] == ["Bay 1"]
    clock.forward(31.0)
    assert running(studio) == ()
    refuse_while_running(studio.store, studio.now(), "the studio is not copied")


def test_the_refusal_says_in_which_bay_by_whom_and_how_to_do_it_all_the_same() -> None:
    clock = Clock()
    bay = a_bay(clock=clock)
    kept = bay.studio.store.fitting(bay.fitting)
    bay.ball()
    clock.forward(4.0)
    with pytest.raises(ConflictError) as refused:
        refuse_while_running(bay.studio.store, clock.at, "the studio is not copied")
    assert kept.value.fitter == ""
    assert refused.value.message == (
        "the studio is not copied while a fitting runs in Bay 1 (meter, 4 minutes ago)"
    )
    assert "--even-while-running" in refused.value.mend
    refuse_while_running(bay.studio.store, clock.at, "the studio is not copied", anyway=True)


def test_every_bay_counts_and_the_last_ball_comes_first() -> None:
    clock = Clock()
    first = a_bay(clock=clock)
    second = a_bay(studio=first.studio, clock=clock)
    first.ball()
    clock.forward(1.0)
    second.ball()
    found = running(first.studio)
    assert [one.fitting for one in found] == [second.fitting, first.fitting]
    assert running_words(found, clock.at).startswith("fittings run in Bay 1")


def test_a_closed_fitting_is_quiet_even_while_it_is_corrected() -> None:
    clock = Clock()
    bay = a_bay(clock=clock)
    bay.ball()
    bay.do(Closed())
    assert running(bay.studio) == ()
    bay.do(OddBall(ball=bay.now.balls[-1].sequence))
    assert running(bay.studio) == ()


def test_a_studio_is_copied_when_it_is_quiet_and_never_under_a_golfer(tmp_path: Path) -> None:
    clock = Clock(at=utc_now() - timedelta(minutes=10))
    here = tmp_path / "here"
    studio = Studio(store=open_store(here), folder=here, clock=clock)
    a_bay(studio=studio, clock=clock).ball()
    studio.store.close()
    with pytest.raises(ConflictError, match="a fitting runs in Bay 1"):
        copy_studio(str(here), str(tmp_path / "there"), here)
    copied = copy_studio(str(here), str(tmp_path / "anyway"), here, anyway=True)
    assert any(one.table == "shots" and one.rows == 1 for one in copied)
