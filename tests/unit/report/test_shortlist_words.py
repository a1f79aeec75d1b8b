"""A shortlist in words: never a promise, always its doubt, and never a bend of the shaft alone."""

import re
from dataclasses import replace
from datetime import date

import pytest

from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR
from loftwright.domain.golfer import Wish
from loftwright.domain.shortlist import ShaftOnHand, Sought
from loftwright.evidence.shaft_prior import Belief
from loftwright.evidence.shortlist import Lacks, Listed, shortlist
from loftwright.physics.shaft_swing.players import Loading
from loftwright.report.screen_numbers import Show
from loftwright.report.shortlist_words import (
    launch_words,
    left_out_groups,
    levers,
    shaft_why,
    shortlist_lines,
    shortlist_record,
    shortlist_sentence,
    speed_words,
)
from loftwright.services.demo_bench import demo_profile
from loftwright.services.demo_shafts import DEMO_SHAFTS

SHAFTS = {
    shaft.name: ShaftOnHand(
        name=shaft.name,
        measured=demo_profile(shaft, piece=shaft.name, day=date(2026, 3, 1), seed=seed),
        elsewhere="it is in Bay 4" if shaft.name in {"Ibex", "Badger"} else "",
    )
    for seed, shaft in enumerate(DEMO_SHAFTS)
}
SOUGHT = Sought(
    head_speed=93.0 * MILE_PER_HOUR,
    length=45.25 * INCH,
    own=SHAFTS["Linnet"],
    wish=Wish.HIGHER,
    loadings=(Loading.QUICK_LATE,),
)
OTHERS = [one for name, one in SHAFTS.items() if name != "Linnet"]


@pytest.fixture(scope="module")
def found() -> Listed:
    return Listed(shortlist=shortlist(SOUGHT, OTHERS), own="Linnet")


def test_what_is_less_than_its_doubt_is_not_distinguishable() -> None:
    weak = Belief(mean=0.2 * DEGREE, sd=0.6 * DEGREE)
    strong = Belief(mean=-0.7 * DEGREE, sd=0.6 * DEGREE)
    assert launch_words(weak) == "+0.2° ± 0.6°, not distinguishable"
    assert launch_words(strong) == "−0.7° ± 0.6°"


def test_head_speed_is_told_to_half_a_mile_an_hour() -> None:
    one = Belief(mean=0.9 * MILE_PER_HOUR, sd=0.63 * MILE_PER_HOUR)
    assert speed_words(one) == "+1.0 ± 0.5 mph"
    assert speed_words(one, Show(units="metric", decimal="comma")) == "+0,4 ± 0,2 m/s"


def test_the_levers_come_in_their_order_and_only_loft_is_reckoned(found: Listed) -> None:
    assert found.shortlist is not None
    lines = levers(found.shortlist)
    assert [one.lever for one in lines] == ["length", "loft", "head", "weight", "grip"]
    computed = [one.lever for one in lines if "computed for a centre strike" in one.why]
    assert computed == ["loft"]
    assert all("yd" not in one.why for one in lines if one.lever != "loft")


def test_a_shaft_is_told_by_where_it_differs_and_its_doubt(found: Listed) -> None:
    assert found.shortlist is not None
    for guess in found.shortlist.shafts:
        why = shaft_why(guess, Wish.HIGHER, "Linnet")
        assert why.startswith("Against Linnet it differs most")
        assert "bench noise" in why
        assert "doubt" in why
    straight = shaft_why(found.shortlist.shafts[0], Wish.STRAIGHTER, "Linnet")
    assert "nothing is known beforehand" in straight


def test_shafts_of_one_reason_are_named_together(found: Listed) -> None:
    assert found.shortlist is not None
    groups = dict(left_out_groups(found.shortlist.left_out))
    assert groups["Badger and Ibex"] == "it is in Bay 4."


def test_lines_fit_a_terminal_and_say_what_is_open(found: Listed) -> None:
    lines = shortlist_lines(found)
    assert all(len(line) <= 80 for line in lines)
    assert "weak guess" in " ".join(lines)
    both = Listed(
        shortlist=shortlist(replace(SOUGHT, loadings=tuple(Loading)), OTHERS), own="Linnet"
    )
    assert "both ways" in " ".join(shortlist_lines(both))


def test_no_bend_of_a_shaft_alone_is_told(found: Listed) -> None:
    text = " ".join(shortlist_lines(found)) + str(shortlist_record(found))
    assert not re.search(r"bend.loft|lead|kick|droop", text)


def test_what_is_lacking_is_asked_for_in_a_sentence() -> None:
    nothing = Listed(shortlist=None, lacks=(Lacks.OWN_CLUB, Lacks.HEAD_SPEED))
    assert shortlist_sentence(nothing) == (
        "Nothing can be shortlisted yet: write the own club down and give the head speed as "
        "stated."
    )
    assert shortlist_record(nothing)["too_close"] is None
    unmeasured = Listed(
        shortlist=shortlist(replace(SOUGHT, own=None), OTHERS), own_reason="Old was not measured"
    )
    assert "not measured" in shortlist_sentence(unmeasured)
    assert "Old was not measured" in " ".join(shortlist_lines(unmeasured))
