"""A job's record grows by acts, and the newest is taken back first."""

import pytest

from loftwright.domain.job_acts import JobUndone
from loftwright.domain.order_acts import Agreed, Withdrawn
from loftwright.errors import ConflictError, InputError
from loftwright.services.job import job_act, undo_job
from loftwright.workshop.standing import standing
from store_samples import with_fitting
from studios import studio_in_memory

AGREED = Agreed(name="Ottoline")
OFF = Withdrawn(reason="moved away")


def test_acts_that_rest_on_an_old_page_are_refused() -> None:
    studio = studio_in_memory()
    fitting = with_fitting(studio.store)
    job_act(studio, fitting, [AGREED], by="desk", seen=0)
    with pytest.raises(ConflictError, match="desk wrote something"):
        job_act(studio, fitting, [OFF], seen=0)
    assert [one.act for one in studio.store.job_record(fitting)] == [AGREED]


def test_a_key_writes_once_even_from_an_old_page() -> None:
    studio = studio_in_memory()
    fitting = with_fitting(studio.store)
    job_act(studio, fitting, [AGREED], key="k", seen=0)
    record = job_act(studio, fitting, [AGREED], key="k", seen=0)
    assert [one.act for one in record] == [AGREED]


def test_only_what_was_done_last_is_taken_back_and_done_again() -> None:
    studio = studio_in_memory()
    fitting = with_fitting(studio.store)
    job_act(studio, fitting, [AGREED])
    job_act(studio, fitting, [OFF])
    with pytest.raises(InputError, match="not what was done last"):
        undo_job(studio, fitting, 1)
    assert [one.act for one in standing(undo_job(studio, fitting, 2))] == [AGREED]
    assert [one.act for one in standing(undo_job(studio, fitting, 3))] == [AGREED, OFF]
    assert studio.store.job_record(fitting)[-1].act == JobUndone(act=3)


def test_those_who_watch_a_job_are_told() -> None:
    studio = studio_in_memory()
    fitting = with_fitting(studio.store)
    heard: list[tuple[str, int]] = []
    studio.hub.publish = lambda topic, revision: heard.append((topic, revision))  # type: ignore[method-assign]
    job_act(studio, fitting, [AGREED, OFF])
    assert heard == [(f"job:{fitting}", 2)]
