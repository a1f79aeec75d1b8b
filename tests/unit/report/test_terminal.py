"""A decision on a terminal of 80 columns."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from loftwright.domain.shot import Duplicate, ShotTable
from loftwright.evidence.result import Against, ClubResult, Decision, RankedOn, State
from loftwright.report.layout import WIDTH, notes, table
from loftwright.report.terminal import decision_lines

Maker = Callable[..., Decision]
Tabler = Callable[[Decision], ShotTable]


def shown(decision: Decision, shot_table: Tabler) -> list[str]:
    """Return the lines as they stand on the terminal."""
    return "\n".join(decision_lines(decision, shot_table(decision))).split("\n")


def device_only(decision: Decision) -> Decision:
    """Return the same comparison from a device that gives speed and carry alone."""
    clubs = tuple(
        ClubResult(
            club=club.club, balls=club.balls, device_carry=club.value, device_ball_speed=club.value
        )
        for club in decision.clubs
    )
    return replace(decision, ranked_on=RankedOn.DEVICE_CARRY, clubs=clubs, regret=None)


def test_the_sentence_comes_first_and_the_objection_second(
    make_decision: Maker, shot_table: Tabler
) -> None:
    lines = shown(make_decision(), shot_table)
    assert lines[0].startswith("As you swing it, Birch goes 1 to 10 yd further than Own")
    assert lines[1].startswith("The plain averages put Ash first")


def test_no_line_is_wider_than_a_terminal(make_decision: Maker, shot_table: Tabler) -> None:
    whole = make_decision()
    bare = tuple(replace(club, from_the_same_swing=None) for club in whole.clubs)
    few = tuple(ClubResult(club=club.club, balls=1) for club in whole.clubs)
    for decision in (
        whole,
        make_decision(clubs=12),
        replace(whole, clubs=bare, next_club=None),
        replace(whole, against=Against.MEAN, own=None, state=State.GOOD_ENOUGH),
        replace(whole, clubs=few, pairs=(), state=State.TOO_FEW, regret=None),
        device_only(whole),
    ):
        assert max(len(line) for line in shown(decision, shot_table)) <= WIDTH


def test_every_block_of_the_answer_is_there(make_decision: Maker, shot_table: Tabler) -> None:
    text = "\n".join(shown(make_decision(), shot_table))
    for words in (
        "Total as you swing it against Own, yd; nine chances in ten",
        "Farrow Links: where they go, yd",
        "+4.2 (+1.5 to +6.9)",
        "Not on balls alone: Ash (half physics).",
        "Why the plain averages of Birch and Ash differ, yd",
        "Hand over Elm next: it can still beat the leader.",
        "What may be said:",
        "What may not:",
        "Row 9 counts as 0.12 of a ball",
        "Rows: 42 read, 36 used, 3 odd, 2 refused, 1 duplicate",
        "Columns:",
        "Mind:",
    ):
        assert words in text


def test_the_own_club_is_a_ring_and_the_club_to_beat(
    make_decision: Maker, shot_table: Tabler
) -> None:
    own = next(line for line in shown(make_decision(), shot_table) if line.startswith("  Own"))
    assert "the club to beat" in own
    assert own.endswith("○")


def test_ball_data_alone_show_no_reason(make_decision: Maker, shot_table: Tabler) -> None:
    decision = make_decision()
    clubs = tuple(replace(club, from_the_same_swing=None) for club in decision.clubs)
    pairs = tuple(replace(pair, parts=None, raw_total=None) for pair in decision.pairs)
    text = "\n".join(shown(replace(decision, clubs=clubs, pairs=pairs), shot_table))
    assert "from the same swing" not in text
    assert "Why the plain averages" not in text


def test_a_device_that_gives_carry_alone_shows_carry_and_speed(
    make_decision: Maker, shot_table: Tabler
) -> None:
    text = "\n".join(shown(device_only(make_decision()), shot_table))
    assert "Carry as this device shows it against Own" in text
    assert "Ball speed against Own" in text
    assert "0.0 to 0.0" not in text
    assert "where they go" not in text
    assert "Total" not in text


COSTS = (
    "eeping Own may give up the worth of 6.0 yd against the best of these clubs, "
    "taking Birch 0.6 yd."
)


@pytest.mark.parametrize(
    ("state", "words"),
    [
        (State.STRONG, f"Strong evidence: k{COSTS}"),
        (State.GOOD_ENOUGH, f"Good enough to stop: k{COSTS}"),
        (State.TOO_CLOSE, f"K{COSTS}"),
    ],
)
def test_what_keeping_and_taking_may_cost_is_said(
    make_decision: Maker, shot_table: Tabler, state: State, words: str
) -> None:
    text = " ".join(shown(replace(make_decision(), state=state), shot_table))
    assert words in " ".join(text.split())


@pytest.mark.parametrize("state", [State.STRONG, State.GOOD_ENOUGH])
def test_evidence_that_is_not_sure_enough_to_buy_on_is_not_called_strong(
    make_decision: Maker, shot_table: Tabler, state: State
) -> None:
    decision = make_decision()
    pairs = tuple(replace(pair, p_a_better=0.85) for pair in decision.pairs)
    lines = shown(replace(decision, pairs=pairs, state=state), shot_table)
    text = " ".join(" ".join(lines).split())
    assert lines[0].startswith("Keep Own for now")
    assert f"Enough to choose by, not to pay for: k{COSTS}" in text


def test_no_ball_is_asked_for_that_would_not_tell(
    make_decision: Maker, shot_table: Tabler
) -> None:
    decision = make_decision()
    close = tuple(replace(pair, p_a_better=0.55) for pair in decision.pairs)
    clubs = tuple(
        replace(club, value=replace(club.value, mean=0.0)) if club.value else club
        for club in decision.clubs
    )
    text = " ".join(shown(replace(decision, pairs=close, clubs=clubs), shot_table))
    assert "would not tell" in " ".join(text.split())
    assert "If more balls are hit, hand over Elm next" in " ".join(text.split())
    assert "Hand over Elm next" in " ".join(shown(decision, shot_table))


def test_what_was_not_measured_is_said_and_not_shown_as_nothing(
    make_decision: Maker, shot_table: Tabler
) -> None:
    decision = make_decision()
    pairs = tuple(
        replace(pair, parts=replace(pair.parts, strike=0.0, swing=0.0)) if pair.parts else pair
        for pair in decision.pairs
    )
    text = " ".join(" ".join(shown(replace(decision, pairs=pairs), shot_table)).split())
    assert "Strike and swing were not measured" in text
    assert "strike 0.0" not in text


@pytest.mark.parametrize(
    ("state", "words"),
    [
        (State.STRONG, "Strong evidence: with 80 % Birch is the best or within a yard of it."),
        (
            State.GOOD_ENOUGH,
            "Good enough to stop: taking Birch may give up the worth of 0.6 yd against",
        ),
        (State.TOO_CLOSE, "Taking Birch may give up the worth of 0.6 yd against the best."),
    ],
)
def test_without_an_own_club_only_taking_has_a_cost(
    make_decision: Maker, shot_table: Tabler, state: State, words: str
) -> None:
    decision = replace(make_decision(), state=state, own=None, against=Against.MEAN)
    assert words in " ".join(" ".join(shown(decision, shot_table)).split())


def test_too_few_balls_are_counted_by_club(make_decision: Maker, shot_table: Tabler) -> None:
    decision = make_decision()
    clubs = tuple(ClubResult(club=name, balls=balls) for name, balls in (("Own", 2), ("Ash", 1)))
    few = replace(decision, clubs=clubs, pairs=(), state=State.TOO_FEW, regret=None)
    lines = shown(few, shot_table)
    assert "  Own  2 balls" in lines
    assert "  Ash  1 ball" in lines


def test_one_club_alone_is_compared_with_nothing(make_decision: Maker, shot_table: Tabler) -> None:
    decision = make_decision()
    alone = replace(decision, clubs=decision.clubs[-1:], pairs=(), state=State.TOO_FEW)
    text = "\n".join(shown(alone, shot_table))
    assert "Total as you swing it against" not in text
    assert f"{alone.clubs[0].balls} balls" in text


def test_clubs_that_are_not_ranked_have_no_chance_to_be_best(
    make_decision: Maker, shot_table: Tabler
) -> None:
    decision = make_decision()
    clubs = tuple(
        replace(club, value=None, p_best=None, as_you_swing_it=None, from_the_same_swing=None)
        for club in decision.clubs
    )
    few = replace(decision, clubs=clubs, pairs=(), state=State.TOO_FEW, regret=None)
    text = "\n".join(shown(few, shot_table))
    assert "fairways in 14" in text
    assert "best" not in text.split("What may")[0]
    assert "chance to be best" in "\n".join(shown(decision, shot_table))


def test_a_row_that_hardly_counts_may_be_set_aside(
    make_decision: Maker, shot_table: Tabler
) -> None:
    decision = make_decision()
    assert "--not-ours" not in "\n".join(shown(decision, shot_table))
    stray = replace(decision.odd_balls[0], weight=0.02)
    told = shown(replace(decision, odd_balls=(stray, *decision.odd_balls)), shot_table)
    assert "  A row that is no ball of this golfer is set aside with --not-ours ROW." in told


def test_where_no_club_is_the_own_one_it_is_said_how_to_name_it(
    make_decision: Maker, shot_table: Tabler
) -> None:
    decision = make_decision()
    assert "--own" not in "\n".join(shown(decision, shot_table))
    nameless = replace(decision, own=None, against=Against.MEAN)
    assert "--own 'Birch'" in "\n".join(shown(nameless, shot_table))
    alone = replace(nameless, clubs=decision.clubs[:1], pairs=(), state=State.TOO_FEW)
    assert "--own" not in "\n".join(shown(alone, shot_table))


def test_a_club_without_a_figure_draws_no_point(make_decision: Maker, shot_table: Tabler) -> None:
    decision = make_decision()
    bare = ClubResult(club="Hazel", balls=1)
    not_hit = ClubResult(club="Fir", balls=0)
    lines = shown(replace(decision, clubs=(*decision.clubs, bare, not_hit)), shot_table)
    hazel = next(line for line in lines if line.startswith("  Hazel"))
    assert "too few balls" in hazel
    assert "●" not in hazel
    assert any(line.startswith("  Fir") and "not hit" in line for line in lines)


def test_many_refused_rows_are_counted_not_listed(
    make_decision: Maker, shot_table: Tabler
) -> None:
    decision = make_decision()
    many = tuple(Duplicate(row=100 + index, of=3) for index in range(20))
    table_of_shots = replace(shot_table(decision), duplicates=many)
    text = "\n".join(decision_lines(decision, table_of_shots))
    assert "and 14 more; --json lists them all" in text


def test_notes_are_sentences_and_vanish_when_there_are_none() -> None:
    assert notes([]) == []
    assert notes(["the wind is strong", "Is it?"]) == [
        "",
        "Mind:",
        "  The wind is strong.",
        "  Is it?",
    ]


def test_words_start_at_the_left_and_figures_end_at_the_right() -> None:
    assert table(("club", "yd"), [("Ash", "5"), ("Birch", "12")]) == [
        "  club   yd",
        "  Ash     5",
        "  Birch  12",
    ]
