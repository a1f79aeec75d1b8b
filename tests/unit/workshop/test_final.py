"""Where a job stands at its final check, and which receipts it has."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.job_acts import JobAct, JobEntry, JobUndone
from loftwright.domain.order_acts import Withdrawn
from loftwright.domain.sheet_acts import Bonded, Deviated, SheetIssued, Step, StepDone
from loftwright.workshop.final import FinalNow, FinalState, final_now, same_person

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
SHEET = SheetIssued(build="", fields={})
DEPARTED = Deviated(key="head.mass_g", sheet="195", built="192", why="as it came")


def bond(hours: float) -> Bonded:
    return Bonded(
        adhesive="Slow epoxy",
        batch="7",
        mixed=NOW,
        not_before=NOW + timedelta(hours=hours),
        assembly="",
        head_piece="",
        shaft_piece="",
    )


def receipt(outcome: Outcome) -> Received:
    return Received(measured="", looked={}, outcome=outcome, second="Petronella Vane")


def standing_at(*acts: JobAct) -> FinalNow:
    record = [
        JobEntry(sequence=number, at=NOW, by="", act=act, group=number)
        for number, act in enumerate(acts, 1)
    ]
    return final_now(record, NOW)


def test_nothing_is_checked_before_there_is_a_sheet() -> None:
    assert standing_at().state is FinalState.NO_SHEET
    assert standing_at(bond(-1.0)).state is FinalState.NO_SHEET


def test_a_withdrawn_order_ends_the_check() -> None:
    assert standing_at(SHEET, bond(-1.0), Withdrawn(reason="")).state is FinalState.OFF


def test_a_bond_has_its_time_to_the_instant() -> None:
    assert standing_at(SHEET, bond(0.001)).state is FinalState.CURING
    assert standing_at(SHEET, bond(0.0)).state is FinalState.READY
    assert standing_at(SHEET).state is FinalState.READY


@pytest.mark.parametrize(
    ("outcome", "state"),
    [
        (Outcome.ACCEPT, FinalState.ACCEPTED),
        (Outcome.REWORK, FinalState.REWORK),
        (Outcome.REJECT, FinalState.REJECTED),
    ],
)
def test_the_newest_receipt_says_how_it_stands(outcome: Outcome, state: FinalState) -> None:
    other = Outcome.REWORK if outcome is Outcome.ACCEPT else Outcome.ACCEPT
    assert standing_at(SHEET, receipt(other), receipt(outcome)).state is state


@pytest.mark.parametrize("later", [SHEET, bond(-1.0), DEPARTED])
def test_what_changes_after_an_acceptance_asks_for_another_check(later: JobAct) -> None:
    now = standing_at(SHEET, receipt(Outcome.ACCEPT), later)
    assert (now.state, now.changed) == (FinalState.READY, True)
    step = StepDone(step=Step.CHECKED, initials="Q.R.")
    assert standing_at(SHEET, receipt(Outcome.ACCEPT), step).state is FinalState.ACCEPTED


def test_a_receipt_that_was_taken_back_is_no_round() -> None:
    now = standing_at(SHEET, receipt(Outcome.ACCEPT), JobUndone(act=2))
    assert (now.state, now.rounds) == (FinalState.READY, ())


def test_a_round_tells_what_came_since_the_one_before() -> None:
    now = standing_at(
        SHEET,
        DEPARTED,
        bond(-1.0),
        receipt(Outcome.REWORK),
        SHEET,
        receipt(Outcome.REWORK),
        receipt(Outcome.ACCEPT),
    )
    assert [one.number for one in now.rounds] == [1, 2, 3]
    assert [one.revision for one in now.rounds] == [1, 2, 2]
    assert [one.departures for one in now.rounds] == [(DEPARTED,), (), ()]
    assert [(one.issued, one.bonded) for one in now.rounds] == [
        (True, True),
        (True, False),
        (False, False),
    ]


def test_those_who_built_it_are_known_by_their_initials() -> None:
    now = standing_at(
        SHEET,
        StepDone(step=Step.WEIGHED, initials="Q.R."),
        StepDone(step=Step.COMPARED, initials="Q.R."),
        StepDone(step=Step.BONDED, initials="AB"),
    )
    assert now.builders == ("Q.R.", "AB")


@pytest.mark.parametrize(
    "name", ["QR", "q. r.", "Q.R.", "Quentin Rook", " quentin  ROOK ", "Quentin-Rook"]
)
def test_a_builder_is_known_however_the_name_is_written(name: str) -> None:
    assert same_person(name, ["Q.R."])
    assert same_person("Q.R.", [name])


@pytest.mark.parametrize("name", ["Petronella Vane", "Q", "R.Q.", "", "Quentin"])
def test_others_are_not_taken_for_the_builder(name: str) -> None:
    assert not same_person(name, ["Q.R."])
    assert not same_person(name, [])


@given(st.lists(st.text(st.characters(categories=["Lu", "Ll"]), min_size=1), min_size=1))
def test_everybody_is_the_same_person_as_themselves(words: list[str]) -> None:
    assert same_person(" ".join(words), [" ".join(words)])
