"""Plays like, in words: named is what is large and sure enough, with the bench's noise."""

from math import log

import pytest

from loftwright.domain.likeness import Apart, Likeness
from loftwright.domain.sections import Difference, Section
from loftwright.report.likeness_words import (
    apart_words,
    at,
    differs_most,
    percent,
    plays_like,
    section_words,
    softer,
)


def told(share: float, noise: float) -> Difference:
    return Difference(log=log(1.0 + share), noise=noise)


def alike(**sections: Difference) -> Likeness:
    bending = {Section(name.replace("_", " ")): one for name, one in sections.items()}
    return Likeness(bending=bending, twisting={}, density={}, mass=None, balance=None)


def test_the_section_that_differs_most_is_named_with_its_noise() -> None:
    found = alike(butt=told(0.03, 0.01), tip=told(-0.09, 0.02))
    assert plays_like("Rush", "Reed", found) == (
        "Against Reed, Rush differs most at the tip: 9 % softer; bench noise 2.0 %."
    )


def test_the_widest_gives_way_where_it_was_seen_badly() -> None:
    found = alike(lower_middle=told(0.05, 0.01), tip=told(-0.09, 0.06))
    named = differs_most(found)
    assert named is not None
    assert named[0] is Section.LOWER_MIDDLE


@pytest.mark.parametrize(
    ("share", "noise", "is_named"),
    [
        (0.019, 0.001, False),
        (-0.019, 0.0001, False),
        (0.0201, 0.001, True),
        (-0.0201, 0.001, True),
        (0.05, 0.03, False),
        (0.05, 0.024, True),
        (0.0, 0.0, False),
    ],
)
def test_only_what_is_large_and_sure_is_named(share: float, noise: float, is_named: bool) -> None:
    assert (differs_most(alike(tip=told(share, noise))) is not None) == is_named


def test_what_is_too_small_to_be_named_plays_alike_and_says_the_noise() -> None:
    sentence = plays_like("Rush", "Reed", alike(butt=told(0.015, 0.004), tip=told(0.01, 0.02)))
    assert sentence.startswith("Rush plays like Reed: no section differs by over 2 % and beyond")
    assert sentence.endswith("twice the bench’s noise, 1.4 %.")
    assert "probably" not in sentence


def test_what_nobody_saw_is_not_called_alike() -> None:
    assert "nothing is said" in plays_like("Rush", "Reed", alike())
    assert section_words(None) == "mostly not seen"
    assert apart_words(None, "mass") == "–"


def test_a_section_has_nine_chances_in_ten_around_it() -> None:
    assert section_words(told(0.10, 0.02)) == "+10.0 % (+6 to +14)"
    assert section_words(told(-0.10, 0.0)) == "−10.0 % (−10 to −10)"


def test_weights_and_places_carry_their_units_and_noise() -> None:
    assert apart_words(Apart(value=-0.0012, noise=0.0003), "mass") == "−1.2 g, noise 0.3 g"
    assert apart_words(Apart(value=0.0042, noise=0.0011), "length") == "+4 mm, noise 1.1 mm"


def test_words_for_places_and_shares() -> None:
    assert [at(one) for one in Section] == [
        "at the butt",
        "in the upper middle",
        "in the lower middle",
        "at the tip",
    ]
    assert (softer(told(0.2, 0.1)), softer(told(-0.2, 0.1))) == ("20 % stiffer", "20 % softer")
    assert (percent(0.03), percent(0.0299)) == ("3 %", "3.0 %")
