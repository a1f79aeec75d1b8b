"""The choice over whole clubs against its truth, for golfers as they are believed; seeds 1 to n.

Ranges of clubs that were hit hold the truth within 5 points of 80 and 95, those of clubs that were
not at least 75 and 90 times in 100, and keeping the own club is right at least as often as it was
said. These bounds were given beforehand; each is widened by two standard errors of so few.
Those of a change that does nothing, and of what is put forward, were set after a first look: they
hold what was found, and ask for no more.
"""

from functools import cache
from typing import Any

import pytest

from loftwright.training.choice_study import CHOICES, choice_outcomes, to_record
from loftwright.training.choice_tables import (
    HIT,
    held,
    keeping,
    kinds_of,
    of_better_ways,
    put_forward,
    two_way_kinds,
)
from study_tables import Say

FITTINGS = 150
FEWER = 60
KINDS = (
    "new shaft",
    "new head",
    "click",
    "half an inch",
    "four grams of shaft",
    "four grams of head",
)

pytestmark = [pytest.mark.study, pytest.mark.xdist_group("choices")]


@cache
def fittings(golfers: str, count: int = FITTINGS) -> list[dict[str, Any]]:
    return [
        {"number": number, "told": to_record(choice_outcomes(CHOICES[golfers], number))}
        for number in range(1, count + 1)
    ]


def test_ranges_of_clubs_that_were_hit_mean_what_they_say(say: Say) -> None:
    found = fittings("as believed")
    for probability in (80, 95):
        share = held(found, HIT, probability=probability)
        say(f"choices, clubs that were hit, {probability} % range: {share}")
        assert abs(share.mean - probability) <= 5.0 + 2.0 * share.error


@pytest.mark.parametrize("kind", KINDS)
def test_ranges_of_clubs_that_were_not_hit_are_no_narrower_than_they_say(
    kind: str, say: Say
) -> None:
    found = fittings("as believed")
    assert kinds_of(found) == (HIT, *KINDS)
    for probability, least in ((80, 75.0), (95, 90.0)):
        share = held(found, kind, probability=probability)
        say(f"choices, {kind}, not hit, {probability} % range: {share}")
        assert share.mean >= least - 2.0 * share.error


@pytest.mark.parametrize("kind", KINDS[2:])
def test_ranges_of_the_better_way_alone_are_no_narrower_than_they_say(kind: str, say: Say) -> None:
    """The choice shows no other; the bounds are those of both ways."""
    found = fittings("as believed")
    assert set(two_way_kinds(found)) == set(KINDS[2:])
    *ranges, more = of_better_ways(found, kind)
    for share, least in zip(ranges, (75.0, 90.0), strict=True):
        say(f"choices, {kind}, the better way: {share}, {more.mean:+.2f} yd more said than is")
        assert share.mean >= least - 2.0 * share.error


def test_keeping_your_own_is_right_as_often_as_it_was_said(say: Say) -> None:
    for one in keeping(fittings("as believed")):
        say(f"choices, keep your own: said {one.said:.2f}, right {one.right:.2f} of {one.count}")
        if one.count >= 30:
            assert one.right >= one.said - 2.0 * one.error


def test_a_change_of_build_that_does_nothing_is_still_in_its_range(say: Say) -> None:
    found = fittings("a change of build does nothing that physics says", FEWER)
    for kind in KINDS:
        share = held(found, kind, probability=95)
        say(f"choices, {kind} does nothing that physics says, 95 % range: {share}")
        assert share.mean >= 85.0 - 2.0 * share.error


def test_what_is_put_forward_without_a_ball_mostly_deserves_its_five(say: Say) -> None:
    found = put_forward(fittings("as believed"))
    say(
        f"choices: {found.made} of {found.choices} put forward, said {found.chance.said:.2f}, "
        f"right {found.chance.right:.2f}, {found.gain:+.2f} yd"
    )
    assert found.made >= 50
    assert found.chance.right >= 0.6
    assert found.gain > 0.0
