"""The debrief: costs against the truth, what averages said, and which sets moved it."""

import pytest

from loftwright.constants import YARD
from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.evidence.result import State
from loftwright.training.case import CasePlayer
from loftwright.training.case_files import case_named, known_cases
from loftwright.training.debrief import (
    TOO_CLOSE,
    Snapshot,
    TrueClub,
    debrief,
    moments_of,
    strokes_a_round,
    true_clubs,
)


def club(name: str, value: float) -> TrueClub:
    return TrueClub(
        club=name,
        shaft=name,
        value=value * YARD,
        carry=0.0,
        total=value * YARD,
        offline=0.0,
        does=(0.0,) * 7,
    )


def after(
    first: int, last: int, chances: dict[str, float], plain: dict[str, float] | None = None
) -> Snapshot:
    pick = max(chances, key=chances.__getitem__) if chances else None
    return Snapshot(
        first=first,
        last=last,
        club="Ash",
        state=State.TOO_CLOSE,
        pick=pick,
        chances=chances,
        plain=plain or {},
    )


CLUBS = (club("Birch", 4.0), club("Ash", 3.5), club("Own", 0.0), club("Cedar", -2.0))
END = after(1, 24, {"Ash": 0.6, "Birch": 0.3, "Own": 0.1}, {"Ash": 200.0, "Cedar": 201.0})


@pytest.mark.parametrize(
    ("call", "cost"),
    [("Birch", 0.0), ("Ash", 0.5), ("Own", 4.0), (TOO_CLOSE, 4.0), ("Cedar", 6.0)],
)
def test_a_call_costs_what_lies_between_it_and_the_best(call: str, cost: float) -> None:
    found = debrief(CLUBS, call, [END])
    assert found.best == "Birch"
    assert found.cost / YARD == pytest.approx(cost)
    assert found.kept == ("Own" if call == TOO_CLOSE else call)


def test_averages_and_comparison_are_held_against_the_same_truth() -> None:
    found = debrief(CLUBS, "Own", [END])
    assert found.end is END
    assert END.plain_pick == "Cedar"
    assert found.plain_cost == pytest.approx(6.0 * YARD)
    assert found.tool_cost == pytest.approx(0.5 * YARD)
    assert found.balls == 24


def test_clubs_within_a_yard_of_the_best_are_alike() -> None:
    assert debrief(CLUBS, "Own", [END]).alike == ("Birch", "Ash")


def test_without_a_comparison_only_the_call_is_judged() -> None:
    for snapshots in ([], [after(1, 2, {})]):
        found = debrief(CLUBS, "Own", snapshots)
        assert found.plain_cost is None
        assert found.tool_cost is None
        assert found.moments == ()
        assert found.cost == pytest.approx(4.0 * YARD)


def test_a_club_that_is_not_there_cannot_be_called() -> None:
    with pytest.raises(InputError, match="too close"):
        debrief(CLUBS, "Oak", [END])


def test_strokes_are_fourteen_drives_by_the_fairway_slope() -> None:
    """0.0045 strokes a yard: evidence/strokes.py, after Broadie 2012; 10 yd are 0.63 strokes."""
    assert strokes_a_round(10.0 * YARD) == pytest.approx(0.63)


def test_moments_are_the_sets_that_moved_most_in_order_of_play() -> None:
    row = [
        after(1, 3, {"Own": 0.5, "Ash": 0.5}),
        after(4, 6, {"Own": 0.2, "Ash": 0.8}),
        after(7, 9, {"Own": 0.22, "Ash": 0.78}),
        after(10, 12, {"Own": 0.4, "Ash": 0.6}),
        after(13, 15, {"Own": 0.9, "Ash": 0.1}),
        after(16, 18, {"Own": 0.8, "Ash": 0.2}),
    ]
    found = moments_of(row)
    assert [one.snapshot.first for one in found] == [4, 10, 13]
    assert [one.moved for one in found] == pytest.approx([0.3, 0.18, 0.5])
    assert found[-1].before.pick == "Ash"
    assert found[-1].snapshot.pick == "Own"


def test_a_set_that_brings_a_club_in_is_no_moment() -> None:
    row = [
        after(1, 3, {"Own": 0.5, "Ash": 0.5}),
        after(4, 6, {"Own": 0.1, "Ash": 0.1, "Elm": 0.8}),
    ]
    assert moments_of(row) == ()


@pytest.mark.parametrize("name", [case.name for case in known_cases()])
def test_names_and_balls_do_not_move_the_truth(name: str) -> None:
    wanted = case_named(name)
    first, second = (
        {one.shaft: one.value for one in true_clubs(CasePlayer(wanted, seed), Home())}
        for seed in (1, 2)
    )
    assert first == second
    assert first[wanted.clubs[0].shaft] == 0.0
