"""Every way to go on: groups by value, ties by feel then price, what was not hit or is out."""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from bays import CLUBS, SLEEVE, Bay, a_bay
from loftwright.bay.now import FittingNow
from loftwright.domain.acts import ClubDropped, ClubJoined, Felt, SettingSeen, Vetoed
from loftwright.domain.home import Home
from loftwright.domain.rack import HeadModel, Piece, Rack, ShaftModel, Sleeve
from loftwright.evidence.advice import PROBABLY
from loftwright.evidence.result import (
    Against,
    ClubResult,
    Decision,
    Estimate,
    Pair,
    RankedOn,
    State,
)
from loftwright.physics.sleeve import Convention
from loftwright.services.choice import Choice, ChoiceRow, Way, choose

SURE = 0.95
NOTHING = Rack(heads={}, shafts={}, pieces={}, sleeves={}, assemblies={})
CLOSE = PROBABLY - 0.05


@pytest.fixture
def bay() -> Bay:
    return a_bay()


def result(club: str, value: float | None, **more: float | Estimate | None) -> ClubResult:
    told = None if value is None else Estimate(mean=value, sd=1.0, df=20.0)
    return ClubResult(**{"club": club, "balls": 8, "value": told, **more})  # type: ignore[arg-type]


def decision(
    order: Sequence[str | ClubResult],
    close: tuple[tuple[str, str], ...] = (),
    ranked_on: RankedOn = RankedOn.AS_YOU_SWING_IT,
) -> Decision:
    """Return a decision in which every club surely beats those behind it, but for some pairs."""
    clubs = [
        one if isinstance(one, ClubResult) else result(one, 10.0 - place)
        for place, one in enumerate(order)
    ]
    names = [one.club for one in clubs]
    pairs = [
        Pair(
            a=first,
            b=second,
            p_a_better=CLOSE if (first, second) in close else SURE,
            raw_total=None,
            parts=None,
        )
        for place, first in enumerate(names)
        for second in names[place + 1 :]
    ]
    return Decision(
        state=State.GOOD_ENOUGH,
        ranked_on=ranked_on,
        against=Against.OWN,
        own="Own",
        clubs=tuple(clubs),
        pairs=tuple(pairs),
        odd_balls=(),
        next_club=None,
        regret=None,
        p_leader_near_best=None,
        home=Home(),
        pattern=None,
        claims=(),
    )


def chosen(now: FittingNow, found: Decision | None, rack: Rack | None = None) -> Choice:
    return choose(now, found, rack or NOTHING, Convention.A)


def ranked(choice: Choice) -> list[list[str]]:
    return [[row.label for row in group.rows] for group in choice.groups if group.ranked]


def unranked(choice: Choice) -> list[ChoiceRow]:
    return [row for group in choice.groups if not group.ranked for row in group.rows]


def of_way(choice: Choice, way: Way) -> list[ChoiceRow]:
    return [row for group in choice.groups for row in group.rows if row.way is way]


def hit_all(bay: Bay) -> FittingNow:
    for club in CLUBS:
        bay.hand(club)
        bay.ball()
    return bay.now


def with_prices(bay: Bay, **prices: int | None) -> None:
    for club, price in prices.items():
        known = bay.now.club(club)
        assert known is not None
        bay.do(ClubJoined(club=club, card=replace(known.card, price=price)))


def test_clubs_that_surely_differ_stand_alone_in_the_order_of_their_value(bay: Bay) -> None:
    choice = chosen(hit_all(bay), decision(("Cedar", "Own", "Ash", "Birch")))
    assert ranked(choice) == [["Cedar"], ["Own"], ["Ash"], ["Birch"]]
    assert not any(group.close for group in choice.groups)


def test_clubs_too_close_to_the_leader_of_their_group_stand_in_it(bay: Bay) -> None:
    close = (("Cedar", "Ash"), ("Cedar", "Birch"))
    choice = chosen(hit_all(bay), decision(("Cedar", "Ash", "Birch", "Own"), close))
    assert ranked(choice) == [["Cedar", "Ash", "Birch"], ["Own"]]
    assert [group.close for group in choice.groups if group.ranked] == [True, False]


def test_a_group_ends_where_its_leader_is_probably_better(bay: Bay) -> None:
    """Ash is close to Birch, but Cedar, which leads, is not close to Birch."""
    close = (("Cedar", "Ash"), ("Ash", "Birch"), ("Birch", "Own"))
    choice = chosen(hit_all(bay), decision(("Cedar", "Ash", "Birch", "Own"), close))
    assert ranked(choice) == [["Cedar", "Ash"], ["Birch", "Own"]]


def test_in_a_tie_feel_comes_first_then_price_and_own_last(bay: Bay) -> None:
    hit_all(bay)
    every = ("Own", "Ash", "Birch", "Cedar")
    close = tuple((first, second) for first in every for second in every)
    tied = decision(every, close)
    with_prices(bay, Ash=30000, Birch=20000, Cedar=10000)
    assert ranked(chosen(bay.now, tied)) == [["Cedar", "Birch", "Ash", "Own"]]
    bay.do(Felt(club="Ash", place=0.6), Felt(club="Birch", place=0.6, word="crisp"))
    assert ranked(chosen(bay.now, tied)) == [["Birch", "Ash", "Cedar", "Own"]]
    bay.do(Felt(club="Ash", place=0.7), Felt(club="Own", place=1.0))
    choice = chosen(bay.now, tied)
    assert ranked(choice) == [["Ash", "Birch", "Cedar", "Own"]]
    assert [row.word for row in choice.groups[0].rows] == ["", "crisp", "", ""]


def test_a_bad_feel_still_stands_before_none_and_no_price_after_any(bay: Bay) -> None:
    hit_all(bay)
    with_prices(bay, Ash=None, Birch=90000, Cedar=None)
    tied = decision(("Ash", "Birch", "Cedar"), (("Ash", "Birch"), ("Ash", "Cedar")))
    assert ranked(chosen(bay.now, tied)) == [["Birch", "Ash", "Cedar"]]
    bay.do(Felt(club="Cedar", place=0.0))
    assert ranked(chosen(bay.now, tied)) == [["Cedar", "Birch", "Ash"]]


def test_feel_and_price_never_overrule_value(bay: Bay) -> None:
    hit_all(bay)
    bay.do(Felt(club="Birch", place=1.0), Felt(club="Cedar", place=0.0))
    with_prices(bay, Birch=1, Cedar=99999)
    assert ranked(chosen(bay.now, decision(("Cedar", "Birch")))) == [["Cedar"], ["Birch"]]


def test_clubs_that_nothing_joins_are_not_called_close(bay: Bay) -> None:
    found = decision(("Cedar", "Ash"))
    apart = replace(found, pairs=(replace(found.pairs[0], p_a_better=None),))
    assert ranked(chosen(hit_all(bay), apart)) == [["Cedar"], ["Ash"]]


def test_a_club_without_a_value_is_listed_with_why_and_never_ranked(bay: Bay) -> None:
    few = decision([result("Ash", 3.0), result("Birch", None, balls=1), result("Cedar", None)])
    choice = chosen(hit_all(bay), few)
    assert ranked(choice) == [["Ash"]]
    told = {row.label: row.reason for row in of_way(choice, Way.TOO_FEW)}
    assert told == {
        "Birch": "too few balls to be compared",
        "Cedar": "not hit on a day with the others: hit one club of each day again",
    }


def test_on_a_devices_own_carry_that_carry_ranks(bay: Bay) -> None:
    carry = Estimate(mean=2.0, sd=1.0, df=20.0)
    told = [result("Ash", None, device_carry=carry), result("Birch", 3.0)]
    choice = chosen(hit_all(bay), decision(told, ranked_on=RankedOn.DEVICE_CARRY))
    assert ranked(choice) == [["Ash"]]
    assert [row.label for row in of_way(choice, Way.TOO_FEW)] == ["Birch"]


def test_what_was_vetoed_or_dropped_stands_last_with_why(bay: Bay) -> None:
    hit_all(bay)
    bay.do(Vetoed(club="Ash"), Felt(club="Ash", place=0.0, word="dead"))
    bay.do(ClubDropped(club="Birch"))
    choice = chosen(bay.now, decision(("Cedar", "Own")))
    last = choice.groups[-1]
    assert not last.ranked
    assert [(row.label, row.way, row.reason, row.word) for row in last.rows] == [
        ("Ash", Way.OUT, "would not play it", "dead"),
        ("Birch", Way.OUT, "dropped", ""),
    ]
    assert ranked(choice) == [["Cedar"], ["Own"]]


def test_an_own_club_that_was_not_hit_says_that_nothing_beats_it(bay: Bay) -> None:
    bay.hand("Ash")
    bay.ball()
    (own,) = of_way(chosen(bay.now, decision(("Ash",))), Way.OWN_NOT_HIT)
    assert own.reason == "not hit: nothing is said to beat it"
    assert own.price == 0
    bay.hand("Own")
    bay.ball()
    assert of_way(chosen(bay.now, decision(("Ash", "Own"))), Way.OWN_NOT_HIT) == []


def test_only_turning_the_sleeve_is_always_a_row(bay: Bay) -> None:
    now = hit_all(bay)
    (none,) = of_way(chosen(now, decision(CLUBS)), Way.NO_SLEEVE)
    assert (none.reason, none.price) == ("the own head has no sleeve", None)
    own, ash = now.club("Own"), now.club("Ash")
    assert own is not None
    assert ash is not None
    sleeved = replace(own.card, setting="middle", settings=ash.card.settings)
    bay.do(ClubJoined(club="Own", card=sleeved))
    (turned,) = of_way(chosen(bay.now, decision(CLUBS)), Way.TURN_SLEEVE)
    assert turned.price == 0
    assert turned.reason == "own club, no new part; sleeve one up or one down"
    bay.hand("Own")
    for setting in ("one up", "one down"):
        bay.do(SettingSeen(setting=setting))
        bay.ball()
    (every,) = of_way(chosen(bay.now, decision(CLUBS)), Way.NO_SLEEVE)
    assert every.reason == "every setting was hit"


def a_rack(head_system: str, sleeve_system: str) -> Rack:
    sleeve = Sleeve(id="sleeve", name="angled", system=sleeve_system or "Quarter", settings=SLEEVE)
    return Rack(
        assemblies={},
        heads={
            "head": HeadModel(id="head", maker="", name="Harrow", loft=0.18, system=head_system)
        },
        shafts={"shaft": ShaftModel(id="shaft", maker="", name="Reedmace")},
        sleeves={"sleeve": sleeve},
        pieces={
            "head-1": Piece(id="head-1", model="head"),
            "shaft-Ash": Piece(
                id="shaft-Ash", model="shaft", sleeve="sleeve" if sleeve_system else None
            ),
        },
    )


@pytest.mark.parametrize(
    ("head", "sleeve", "fits"),
    [("", "", True), ("Quarter", "Quarter", True), ("Quarter", "Third", False), ("Q", "", False)],
)
def test_a_shaft_of_the_fitting_in_the_own_head_is_a_way_that_was_not_hit(
    bay: Bay, head: str, sleeve: str, *, fits: bool
) -> None:
    choice = chosen(hit_all(bay), decision(CLUBS), a_rack(head, sleeve))
    (row,) = of_way(choice, Way.NEW_SHAFT)
    assert row.label == "Ash's shaft in the own head"
    assert row.result is None
    assert row.reason.startswith("Reedmace Ash")
    assert ("needs a sleeve for this head" not in row.reason) is fits
    bay.do(Vetoed(club="Ash"))
    assert of_way(chosen(bay.now, decision(CLUBS), a_rack(head, sleeve)), Way.NEW_SHAFT) == []


def test_without_a_decision_only_what_was_not_hit_is_left(bay: Bay) -> None:
    choice = chosen(bay.now, None)
    assert ranked(choice) == []
    assert {row.way for row in unranked(choice)} == {Way.OWN_NOT_HIT, Way.NO_SLEEVE}


def test_a_setting_that_was_hit_is_a_row_of_its_own_club(bay: Bay) -> None:
    bay.hand("Ash")
    bay.do(SettingSeen(setting="one up"))
    bay.ball()
    choice = chosen(bay.now, decision(("Ash, one up",)))
    (row,) = choice.groups[0].rows
    assert (row.label, row.club) == ("Ash, one up", "Ash")
    assert row.set_up is not None
    assert row.set_up.setting == "one up"
