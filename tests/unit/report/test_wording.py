"""The sentence: its certainty, its length, its words."""

import re
from collections.abc import Callable
from dataclasses import replace
from math import nan

import pytest

from loftwright.constants import YARD
from loftwright.evidence.result import (
    Against,
    ClubResult,
    Decision,
    Estimate,
    Figures,
    Pair,
    Parts,
    Pattern,
    RankedOn,
    State,
)
from loftwright.report.screen_numbers import Show
from loftwright.report.wording import (
    asks_for_balls,
    hedge,
    objection,
    reference,
    sentence,
    which_figure,
)

Maker = Callable[..., Decision]

WORDS_OF_NO_FITTER = (
    "arm",
    "posterior",
    "prior",
    "shrunk",
    "credible",
    "regret",
    "dispersion",
    "unexplained",
    "distinguishable",
    "straighter than",
    "tighter",
)


def yards(mean: float, sd: float) -> Estimate:
    return Estimate(mean=mean * YARD, sd=sd * YARD, df=1e6)


def with_value(club: ClubResult, mean: float, sd: float) -> ClubResult:
    figure = yards(mean, sd)
    return replace(club, value=figure, as_you_swing_it=Figures(total=figure))


def two_clubs(decision: Decision, p: float, mean: float = 3.0, sd: float = 2.0) -> Decision:
    """Return a comparison of Birch with Own alone, Birch ahead."""
    birch = with_value(next(c for c in decision.clubs if c.club == "Birch"), mean, sd)
    own = next(c for c in decision.clubs if c.club == "Own")
    pair = Pair(a="Birch", b="Own", p_a_better=p, raw_total=5.0 * YARD, parts=None)
    return replace(decision, clubs=(birch, own), pairs=(pair,), odd_balls=())


@pytest.mark.parametrize(
    ("p", "words"),
    [
        (0.95, ""),
        (0.949, "very likely "),
        (0.80, "very likely "),
        (0.799, "probably "),
        (0.65, "probably "),
        (0.649, None),
    ],
)
def test_certainty_is_in_the_verb(p: float, words: str | None) -> None:
    assert hedge(p) == words


def test_a_sure_gain_names_its_range_its_figure_and_the_rival(make_decision: Maker) -> None:
    assert sentence(make_decision()) == (
        "As you swing it, Birch goes 1 to 10 yd further than Own; Elm may be as good."
    )


def test_a_range_that_reaches_nothing_says_up_to(make_decision: Maker) -> None:
    decision = two_clubs(make_decision(), 0.92, mean=3.0, sd=2.1)
    assert sentence(decision) == (
        "As you swing it, Birch very likely goes up to 6 yd further than Own."
    )


def test_several_rivals_are_counted_when_their_names_are_too_long(make_decision: Maker) -> None:
    names = {"Elm": "Demo Kestrel 58 long", "Cedar": "Demo Heron 62 longer"}
    decision = make_decision(names=names)
    decision = replace(
        decision,
        pairs=tuple(
            replace(pair, p_a_better=0.7) if pair.b != "Own" else pair for pair in decision.pairs
        ),
    )
    assert sentence(decision).endswith("; 3 more may match it.")


def test_a_gain_that_is_not_sure_keeps_the_own_club(make_decision: Maker) -> None:
    assert sentence(two_clubs(make_decision(), 0.85)) == (
        "Keep Own for now: as you swing it, Birch is very likely better, but not surely enough."
    )
    assert sentence(two_clubs(make_decision(), 0.70)) == (
        "Keep Own for now: as you swing it, Birch is probably better, but not surely enough."
    )


def test_a_sure_gain_of_less_than_a_yard_keeps_the_own_club(make_decision: Maker) -> None:
    decision = two_clubs(make_decision(), 0.99, mean=0.6, sd=0.2)
    assert sentence(decision) == "Keep Own: as you swing it, Birch should gain less than a yard."


def test_a_score_that_is_not_length_is_not_called_length(make_decision: Maker) -> None:
    decision = two_clubs(make_decision(), 0.96)
    birch, own = decision.clubs
    shorter = replace(birch, as_you_swing_it=Figures(total=yards(-2.0, 2.0)))
    assert sentence(replace(decision, clubs=(shorter, own))) == (
        "As you swing it, Birch scores better at home than Own."
    )


def test_a_leader_that_is_shorter_is_said_to_lead_by_its_line(make_decision: Maker) -> None:
    decision = make_decision()
    birch, *rest = decision.clubs
    shorter = replace(birch, as_you_swing_it=Figures(total=yards(-2.9, 2.0)))
    assert objection(replace(decision, clubs=(shorter, *rest))) == (
        "Birch is 3 yd shorter than Own: it leads by where it finishes, not by how far."
    )
    hardly = replace(birch, as_you_swing_it=Figures(total=yards(-0.9, 2.0)))
    assert "shorter" not in objection(replace(decision, clubs=(hardly, *rest)))


@pytest.mark.parametrize(("scatter", "verb"), [(2.0, "would tell"), (30.0, "would not tell")])
def test_too_close_says_whether_more_balls_would_tell(
    make_decision: Maker, scatter: float, verb: str
) -> None:
    decision = two_clubs(make_decision(), 0.6, mean=0.8, sd=3.0)
    decision = replace(decision, pattern=Pattern(total=scatter * YARD, offline=15.0 * YARD))
    assert sentence(decision) == (
        f"Own and Birch are too close to call today; 20 more balls with these two {verb}."
    )
    assert asks_for_balls(decision) is (verb == "would tell")


def test_too_close_without_a_pattern_promises_nothing(make_decision: Maker) -> None:
    decision = replace(two_clubs(make_decision(), 0.6), pattern=None)
    assert sentence(decision) == "Own and Birch are too close to call today, as you swing them."


@pytest.mark.parametrize(
    ("p", "words"),
    [
        (0.97, "Keep Own: as you swing it, no other club here scores better."),
        (0.85, "Keep Own: as you swing it, it is very likely the best of these clubs."),
        (0.70, "Keep Own: as you swing it, it is probably the best of these clubs."),
        (0.55, "Keep Own: Birch is too close to call, and a tie stays with your own."),
    ],
)
def test_a_leading_own_club_is_kept(make_decision: Maker, p: float, words: str) -> None:
    decision = two_clubs(make_decision(), 0.5)
    birch, own = decision.clubs
    pair = Pair(a="Own", b="Birch", p_a_better=p, raw_total=None, parts=None)
    kept = replace(decision, clubs=(own, with_value(birch, -2.0, 2.0)), pairs=(pair,))
    assert sentence(kept) == words


def test_without_an_own_club_a_superlative_must_pass_against_every_rival(
    make_decision: Maker,
) -> None:
    decision = make_decision()
    clubs = tuple(club for club in decision.clubs if club.club != "Own")
    decision = replace(decision, clubs=clubs, own=None, against=Against.MEAN)
    assert sentence(decision).startswith("Birch and Elm are too close to call today")
    sure = tuple(replace(pair, p_a_better=0.9) for pair in decision.pairs)
    assert (
        sentence(replace(decision, pairs=sure))
        == "As you swing it, Birch is very likely the best of 4 clubs."
    )


def test_a_carry_of_the_device_is_never_called_a_total(make_decision: Maker) -> None:
    decision = make_decision()
    clubs = tuple(
        ClubResult(club=club.club, balls=club.balls, device_carry=club.value)
        for club in decision.clubs
    )
    decision = replace(decision, ranked_on=RankedOn.DEVICE_CARRY, clubs=clubs, pattern=None)
    assert sentence(decision) == (
        "Carry as this device shows it: Birch goes 1 to 10 yd further than Own."
    )
    assert "Launch and spin are not both given" in objection(decision)
    likely = tuple(replace(pair, p_a_better=0.85) for pair in decision.pairs)
    assert sentence(replace(decision, pairs=likely)) == (
        "Carry as this device shows it: Birch very likely leads Own, "
        "not surely enough to leave it."
    )
    close = tuple(replace(pair, p_a_better=0.55) for pair in decision.pairs)
    assert sentence(replace(decision, pairs=close)) == (
        "Carry as this device shows it: Birch and Own are too close to call."
    )
    assert which_figure(decision) == "carry as this device shows it"


@pytest.mark.parametrize(
    ("balls", "words"),
    [
        ((1, 2), "Too few balls to compare: only Own was hit twice."),
        ((1, 1), "Too few balls to compare: no club was hit twice."),
        ((5,), "Only Birch was hit: a second club is needed to compare."),
        ((3, 3), "Too few balls to say anything of these clubs."),
    ],
)
def test_too_few_says_what_is_missing(
    make_decision: Maker, balls: tuple[int, ...], words: str
) -> None:
    names = ("Birch", "Own")
    clubs = tuple(
        ClubResult(club=name, balls=number) for name, number in zip(names, balls, strict=False)
    )
    decision = replace(make_decision(), state=State.TOO_FEW, clubs=clubs, pairs=())
    assert sentence(decision) == words
    assert objection(decision).startswith("Two balls with each of two clubs")


def test_the_objection_names_the_plain_leader_and_what_put_it_there(
    make_decision: Maker,
) -> None:
    assert objection(make_decision()) == (
        "The plain averages put Ash first, by 1 yd over Birch: the strike makes most of it."
    )


def test_a_cause_is_named_only_when_it_makes_half_of_the_difference(
    make_decision: Maker,
) -> None:
    even = Parts(odd_balls=-1.0, strike=-1.0, swing=-1.0, warm_up=-1.0, club=-1.0, left_over=-1.0)
    decision = two_clubs(make_decision(), 0.99)
    pair = replace(decision.pairs[0], raw_total=-6.0, parts=even)
    assert objection(replace(decision, pairs=(pair,))) == (
        "The plain averages put Own first, by 7 yd over Birch."
    )


def test_objections_follow_their_weight(make_decision: Maker) -> None:
    decision = two_clubs(make_decision(), 0.99)
    birch, own = decision.clubs
    guessed = replace(decision, clubs=(replace(birch, physics_share=0.7, balls=3), own))
    assert objection(guessed) == (
        "The figure for Birch leans more on what clubs usually do than on its 3 balls."
    )
    odd = replace(decision, odd_balls=make_decision().odd_balls)
    assert objection(odd) == "3 of 19 balls are odd and count for less; none is left out."
    bare = tuple(replace(club, from_the_same_swing=None) for club in decision.clubs)
    assert objection(replace(decision, clubs=bare)).startswith("Ball data alone")
    assert objection(decision) == (
        "19 balls cannot show which is straighter, but show where each starts and curves."
    )


def test_an_own_club_not_hit_is_never_beaten(make_decision: Maker) -> None:
    decision = replace(make_decision(), against=Against.MEAN, own="Old driver")
    assert objection(decision) == (
        "Old driver has fewer than two balls: nothing is said to beat it."
    )
    assert objection(replace(decision, own=None)).startswith("No own club is named")
    assert reference(decision) == "the mean of the clubs"


def test_sentences_are_short_and_speak_the_trades_words(make_decision: Maker) -> None:
    probabilities = (0.5, 0.7, 0.85, 0.92, 0.97)
    decisions = [two_clubs(make_decision(), p) for p in probabilities]
    decisions += [make_decision(clubs=number) for number in (2, 3, 4, 5, 8)]
    for decision in decisions:
        for text in (sentence(decision), objection(decision)):
            assert len(text) <= 90, text
            assert text.endswith(".")
            for word in WORDS_OF_NO_FITTER:
                assert not re.search(rf"\b{word}\b", text), text


def test_a_file_without_direction_is_objected_to(make_decision: Maker) -> None:
    decision = replace(make_decision(), pairs=(), odd_balls=())
    clubs = tuple(
        replace(club, level=replace(club.level, start_offline=nan) if club.level else None)
        for club in decision.clubs
    )
    assert "nothing is said of left and right" in objection(replace(decision, clubs=clubs))


METRIC = Show(units="metric", decimal="comma")


def test_a_metric_shop_hears_of_metres(make_decision: Maker) -> None:
    decision = two_clubs(make_decision(), 0.99, mean=11.0, sd=2.0)
    trade, metric = sentence(decision), sentence(decision, METRIC)
    swung = decision.clubs[0].as_you_swing_it
    assert swung is not None
    assert swung.total is not None
    low, high = swung.total.interval(0.9)
    assert f"goes {round(low / YARD)} to {round(high / YARD)} yd further" in trade
    assert f"goes {round(low)} to {round(high)} m further" in metric
    assert "yd" not in objection(make_decision(), METRIC)
    assert " m over " in objection(make_decision(), METRIC)


def test_less_than_a_yard_is_less_than_a_metre_too(make_decision: Maker) -> None:
    decision = two_clubs(make_decision(), 0.99, mean=0.6, sd=0.2)
    assert sentence(decision, METRIC).endswith("should gain less than a metre.")
