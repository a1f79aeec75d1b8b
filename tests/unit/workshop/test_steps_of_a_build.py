"""How far a sheet was worked through, read from a job's record."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from built_jobs import a_job
from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.job_acts import JobAct, JobEntry, JobUndone
from loftwright.domain.order_acts import Agreed, Quoted, Withdrawn
from loftwright.domain.sheet_acts import Bonded, Deviated, SheetIssued, Step, StepDone
from loftwright.workshop.stages import agreed_quote
from loftwright.workshop.steps import ORDER, progress

AT = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
SHEET = SheetIssued(build="", fields={})
QUOTED = Quoted(quote=a_job().quote)
BONDED = Bonded(
    adhesive="G",
    batch="",
    mixed=AT,
    not_before=AT + timedelta(hours=24),
    assembly="a",
    head_piece="h",
    shaft_piece="s",
)
AGREED = Agreed(name="S.")
LIGHT = Deviated(key="head.mass_g", sheet="195", built="192", why="light")


def record(*acts: JobAct) -> tuple[JobEntry, ...]:
    return tuple(
        JobEntry(sequence=at, at=AT, by="", act=act, group=at) for at, act in enumerate(acts, 1)
    )


def did(step: Step) -> StepDone:
    return StepDone(step=step, initials="K.L.")


def test_nothing_is_next_before_a_sheet() -> None:
    assert progress(record(QUOTED, AGREED)).next is None


def test_the_first_step_is_next_on_a_new_sheet() -> None:
    assert progress(record(QUOTED, AGREED, SHEET)).next is Step.WEIGHED


def test_another_revision_begins_its_steps_anew_and_keeps_what_was_departed_from() -> None:
    found = progress(record(QUOTED, AGREED, SHEET, did(Step.WEIGHED), LIGHT, SHEET))
    assert found.next is Step.WEIGHED
    assert [one.departures for one in found.issues] == [(LIGHT,), ()]


def test_a_step_that_was_taken_back_is_next_again() -> None:
    found = progress(record(QUOTED, AGREED, SHEET, did(Step.WEIGHED), JobUndone(act=4)))
    assert found.next is Step.WEIGHED


def test_a_bond_is_its_step_and_ends_the_revisions() -> None:
    found = progress(record(QUOTED, AGREED, SHEET, BONDED))
    assert Step.BONDED in found.done
    assert found.cut
    assert not found.may_issue


def test_a_club_sent_back_may_get_another_sheet() -> None:
    back = Received(measured="", looked={}, outcome=Outcome.REWORK, second="M.")
    assert progress(record(QUOTED, AGREED, SHEET, BONDED, back)).may_issue
    accepted = replace(back, outcome=Outcome.ACCEPT)
    assert not progress(record(QUOTED, AGREED, SHEET, BONDED, accepted)).may_issue


def test_a_quote_after_the_sheet_waits_for_agreement_and_is_told() -> None:
    waits = progress(record(QUOTED, AGREED, SHEET, QUOTED))
    assert waits.requoted
    assert not waits.agreed
    again = progress(record(QUOTED, AGREED, SHEET, QUOTED, AGREED))
    assert again.requoted
    assert again.agreed
    assert not progress(record(QUOTED, AGREED, SHEET, QUOTED, AGREED, SHEET)).requoted


def test_an_order_that_is_off_says_why() -> None:
    found = progress(record(QUOTED, AGREED, SHEET, Withdrawn(reason="Too dear")))
    assert found.off == Withdrawn(reason="Too dear")
    assert not found.may_issue


@given(
    st.lists(
        st.sampled_from([QUOTED, AGREED, SHEET, LIGHT, BONDED, Withdrawn(reason="")])
        | st.sampled_from(ORDER).map(did),
        max_size=14,
    )
)
def test_a_quote_counts_as_agreed_just_where_the_order_s_own_rule_says_so(
    acts: list[JobAct],
) -> None:
    whole = record(*acts)
    found = progress(whole)
    if agreed_quote(whole) is not None:
        assert found.agreed
        assert found.off is None
    assert found.next is None or found.next not in found.done
    assert len(found.issues) == sum(isinstance(one, SheetIssued) for one in acts)
