"""What could be built beside the clubs that were hit, and what the choice tells of it."""

from dataclasses import replace

import numpy as np
import pytest

from bays import SLEEVE, Bay, a_bay, club_card
from loftwright.constants import DEGREE, INCH
from loftwright.domain.acts import ClubJoined, Felt, SettingSeen, Vetoed
from loftwright.domain.golfer import Hand
from loftwright.domain.rack import HeadModel, Piece, Rack, ShaftModel
from loftwright.evidence.budget import Budget
from loftwright.evidence.neighbours import CONFIRMING_BALLS
from loftwright.physics.sleeve import Convention
from loftwright.services.changes import what_would_change
from loftwright.services.choice import Choice, ChoiceRow, Way, choose
from loftwright.services.could_be_built import Maker
from loftwright.services.evidence import Compared, compare_clubs, weigh
from loftwright.services.not_hit import BOTH_WAYS, better_ways
from loftwright.services.unhit import Beside, Made, Unhit, beside_those_hit

PLENTY = Budget(balls=100, seconds=10_000.0)


def a_rack(price: int | None = 19000) -> Rack:
    return Rack(
        assemblies={},
        heads={"head": HeadModel(id="head", maker="", name="Harrow", loft=0.18)},
        shafts={"shaft": ShaftModel(id="shaft", maker="", name="Reedmace", price=price)},
        sleeves={},
        pieces={
            "head-own": Piece(id="head-own", model="head"),
            **{
                f"shaft-{club}": Piece(id=f"shaft-{club}", model="shaft")
                for club in ("Ash", "Birch", "Cedar")
            },
        },
    )


def with_own_head(hand: Hand = Hand.RIGHT, *, sleeve: bool = True) -> Bay:
    """Return a bay in which the own club has a head of its own, with a sleeve."""
    bay = a_bay(hand=hand)
    own = replace(club_card("Own"), head_piece="head-own", head="Old Harrow")
    if sleeve:
        own = replace(own, setting="middle", settings=SLEEVE)
    bay.do(ClubJoined(club="Own", card=own))
    return bay


def hit(bay: Bay, *clubs: str, balls: int = 4) -> Bay:
    for club in clubs:
        bay.hand(club)
        bay.balls(balls)
    return bay


def compared(bay: Bay, convention: Convention = Convention.C) -> Compared:
    return compare_clubs(bay.now, bay.golfer, convention)


def beside(bay: Bay, convention: Convention = Convention.C, rack: Rack | None = None) -> Beside:
    found = beside_those_hit(
        compared(bay, convention), rack or a_rack(), bay.golfer.hand, convention
    )
    assert found is not None
    return found


def chosen(bay: Bay, convention: Convention = Convention.C) -> Choice:
    found = compared(bay, convention)
    decision = weigh(found, bay.golfer, PLENTY).decision
    return choose(bay.now, decision, a_rack(), convention, beside(bay, convention))


def one(found: Beside, label: str) -> Unhit:
    return next(unhit for unhit in found.unhit if unhit.label == label)


def rows_of(choice: Choice) -> list[ChoiceRow]:
    return [row for group in choice.groups for row in group.rows]


def row_of(choice: Choice, label: str) -> ChoiceRow:
    rows = [row for group in choice.groups for row in group.rows if row.label == label]
    (row,) = rows
    return row


@pytest.fixture(scope="module")
def bay() -> Bay:
    return hit(with_own_head(), "Own", "Ash", "Birch")


def built(bay: Bay, convention: Convention = Convention.C) -> dict[str, Unhit]:
    """Return everything that can be built, both ways of every change, by label."""
    found = compared(bay, convention)
    assert found.comparison is not None
    maker = Maker(found.now, found.comparison, a_rack(), bay.golfer.hand, convention)
    return {one.label: one for one in maker.everything()}


def test_own_and_leader_are_clicked_cut_and_weighed_and_every_shaft_fits_the_own_head(
    bay: Bay,
) -> None:
    assert set(built(bay)) >= {
        "Own, one up",
        "Own, one down",
        "Own, head 4 g heavier",
        "Own, head 4 g lighter",
        "Own, half an inch longer",
        "Own, half an inch shorter",
        "Own, shaft 4 g heavier",
        "Own, shaft 4 g lighter",
        "Ash's shaft in the own head",
        "Birch's shaft in the own head",
        "Cedar's shaft in the own head",
    }


def test_of_every_change_the_better_way_alone_is_told(bay: Bay) -> None:
    found = beside(bay)
    every = built(bay)
    shown = [(unhit.club, unhit.made) for unhit in found.unhit if unhit.made in BOTH_WAYS]
    assert len(shown) == len(set(shown))
    assert set(shown) == {
        (unhit.club, unhit.made) for unhit in every.values() if unhit.made in BOTH_WAYS
    }
    worth = {label: value.mean for label, value in found.on_leader.items()}
    for unhit in found.unhit:
        if unhit.made in BOTH_WAYS:
            others = [
                other.label
                for other in every.values()
                if (other.club, other.made) == (unhit.club, unhit.made)
            ]
            assert worth[unhit.label] == max(worth[label] for label in others)
            assert unhit.reason.endswith("; the other way is worth less")


def test_one_that_asks_for_balls_stands_before_its_other_way() -> None:
    ways = [
        Unhit(label=label, club="Own", made=Made.LENGTH, price=None, neighbour=None, reason="why")
        for label in ("longer", "shorter")
    ]
    (plain,) = better_ways(ways, {"longer": 2.0, "shorter": 1.0}, None)
    (asked,) = better_ways(ways, {"longer": 2.0, "shorter": 1.0}, "shorter")
    (untold,) = better_ways(ways, {}, None)
    assert (plain.label, plain.reason) == ("longer", "why; the other way is worth less")
    assert (asked.label, asked.reason) == ("shorter", "why")
    assert (untold.label, untold.reason) == ("longer", "why")


def test_the_leaders_head_on_the_own_shaft_is_told_from_both_and_bears_the_heads_price() -> None:
    other = hit(with_own_head(), "Own", "Ash", "Birch")
    found = compared(other)
    comparison = found.comparison
    assert comparison is not None
    assert comparison.standing is not None
    names = comparison.visit.setup.balls.clubs
    ahead = replace(comparison.standing, leader=names.index("Ash"))
    led = replace(found, comparison=replace(comparison, standing=ahead))
    rack = a_rack()
    head = HeadModel(id="other", maker="", name="Ridge", loft=0.18, price=42000)
    rack.heads["other"] = head
    rack.pieces[club_card("Ash").head_piece] = Piece(id=club_card("Ash").head_piece, model="other")
    told = beside_those_hit(led, rack, Hand.RIGHT, Convention.C)
    assert told is not None
    row = one(told, "Ash's head on the own shaft")
    assert (row.made, row.club, row.price) == (Made.NEW_HEAD, "Ash", 42000)
    assert row.reason == "told from Ash's head and the own club's balls"
    assert row.neighbour is not None
    assert row.neighbour.traits.head == club_card("Ash").head_piece
    assert row.neighbour.traits.shaft == club_card("Own").shaft_piece
    value = told.results[row.label].value
    assert value is not None
    assert value.sd > 0.0


def test_without_the_own_club_the_leaders_head_on_the_own_shaft_rests_on_the_head_alone() -> None:
    found = beside(hit(with_own_head(), "Ash", "Birch"))
    (row,) = [unhit for unhit in found.unhit if unhit.made is Made.NEW_HEAD]
    assert row.neighbour is not None
    assert row.reason.endswith("alone: the own shaft was not hit")


def test_each_is_told_with_a_range_wider_than_nothing_and_its_run(bay: Bay) -> None:
    found = beside(bay)
    for unhit in found.unhit:
        assert unhit.neighbour is not None, unhit.label
        value = found.results[unhit.label].value
        assert value is not None
        assert value.sd > 0.0
        assert 0.0 < found.above_leader[unhit.label] < 1.0
        band = found.runs[unhit.label]
        assert band.least <= band.here <= band.most


def test_a_shaft_that_was_not_hit_rests_on_the_head_alone(bay: Bay) -> None:
    found = beside(bay)
    known, unknown = (one(found, f"{club}'s shaft in the own head") for club in ("Ash", "Cedar"))
    assert known.reason == "told from the own head and Ash's balls"
    assert unknown.reason == "told from the own head alone: its shaft was not hit"


def test_a_club_that_joined_is_told_from_its_head_or_not_at_all(bay: Bay) -> None:
    found = beside(bay)
    assert one(found, "Cedar").made is Made.JOINED
    assert one(found, "Cedar").neighbour is not None
    other = hit(with_own_head(), "Own", "Ash")
    other.do(ClubJoined(club="Cedar", card=replace(club_card("Cedar"), head_piece="head-9")))
    row = one(beside(other), "Cedar")
    assert row.neighbour is None
    assert row.reason == "its head was not hit: nothing is known of what another head does"


def test_without_the_own_club_nothing_is_told_of_its_head() -> None:
    other = hit(with_own_head(), "Ash", "Birch")
    row = one(beside(other), "Ash's shaft in the own head")
    assert row.neighbour is None
    assert row.reason.startswith("the own head was not hit")
    assert not any(unhit.label.startswith("Own,") for unhit in beside(other).unhit)


def test_a_fairway_wood_is_told_nothing_of() -> None:
    other = hit(with_own_head(), "Own", "Ash")
    wood = replace(club_card("Cedar"), length=42.5 * INCH, loft=15.0 * DEGREE)
    other.do(ClubJoined(club="Cedar", card=wood))
    assert "Cedar" not in built(other)
    (row,) = [row for row in rows_of(chosen(other)) if row.label == "Cedar"]
    assert (row.way, row.result) == (Way.OUTSIDE, None)
    assert row.reason.startswith("Not for a fairway wood.")


def test_what_was_ended_is_not_built() -> None:
    other = hit(with_own_head(), "Own", "Ash", "Birch")
    other.do(Vetoed(club="Cedar"))
    assert not any("Cedar" in unhit.label for unhit in beside(other).unhit)


def test_a_setting_that_was_hit_is_no_neighbour() -> None:
    other = hit(with_own_head(), "Own", "Ash")
    other.hand("Own")
    other.do(SettingSeen(setting="one up"))
    other.balls(3)
    labels = set(built(other))
    assert "Own, one up" not in labels
    assert "Own, one down" in labels


@pytest.mark.parametrize("convention", [Convention.A, Convention.C])
def test_one_click_up_adds_loft_and_one_down_takes_it(bay: Bay, convention: Convention) -> None:
    found = beside(bay, convention)
    up, down = (found.results[f"Own, {way}"].level for way in ("one up", "one down"))
    assert up is not None
    assert down is not None
    assert up.launch > down.launch
    assert up.spin > down.spin


def test_soled_flat_a_click_turns_the_face_to_the_golfers_own_left() -> None:
    for hand, side in ((Hand.RIGHT, 1.0), (Hand.LEFT, -1.0)):
        found = built(hit(with_own_head(hand), "Own", "Ash", "Birch"), Convention.B)
        up, down = (found[f"Own, {way}"].neighbour for way in ("one up", "one down"))
        assert up is not None
        assert down is not None
        assert side * (up.traits.shift[3] - down.traits.shift[3]) < 0.0
        assert up.traits.shift[4] == pytest.approx(down.traits.shift[4])


def test_turning_the_sleeve_costs_nothing_and_a_new_shaft_what_the_shaft_costs(bay: Bay) -> None:
    choice = chosen(bay)
    (turned,) = [
        row for group in choice.groups for row in group.rows if row.way is Way.TURN_SLEEVE
    ]
    assert turned.label in {"Own, one up", "Own, one down"}
    assert turned.price == 0
    assert row_of(choice, "Ash's shaft in the own head").price == 19000


def test_what_was_not_hit_never_stands_in_a_ranked_group(bay: Bay) -> None:
    choice = chosen(bay)
    for group in choice.groups:
        for row in group.rows:
            assert row.hit == group.ranked, row.label
            if not row.hit and row.result is not None:
                assert row.balls_first == CONFIRMING_BALLS
                assert row.reason.startswith("not hit: ") or "; not hit: " in row.reason


def test_rows_without_neighbours_are_those_of_before(bay: Bay) -> None:
    decision = weigh(compared(bay), bay.golfer, PLENTY).decision
    plain = choose(bay.now, decision, a_rack(), Convention.C)
    told = chosen(bay)
    ranked = [
        [replace(row, run=None) for row in group.rows] for group in told.groups if group.ranked
    ]
    assert ranked == [list(group.rows) for group in plain.groups if group.ranked]
    assert plain.to_confirm is None
    assert plain.p_keep is None


def test_what_is_put_forward_asks_for_five_balls_and_leads_nothing(bay: Bay) -> None:
    known = beside(bay)
    rows = weigh(compared(bay), bay.golfer, PLENTY).decision
    up = next(unhit.label for unhit in known.unhit if unhit.made is Made.SLEEVE)
    wanted = replace(known, put_forward=up)
    choice = choose(bay.now, rows, a_rack(), Convention.C, wanted)
    assert choice.to_confirm is not None
    assert choice.to_confirm.label == up
    assert choice.to_confirm.balls_first == CONFIRMING_BALLS
    assert choice.to_confirm.on_leader == known.on_leader[up]
    assert not any(choice.to_confirm in group.rows for group in choice.groups if group.ranked)
    nobody = choose(bay.now, rows, a_rack(), Convention.C, replace(known, put_forward=None))
    assert nobody.to_confirm is None


def test_keeping_your_own_is_told_with_its_chance_where_it_was_hit(bay: Bay) -> None:
    kept = chosen(bay).p_keep
    assert kept is not None
    assert 0.0 <= kept <= 1.0
    assert chosen(hit(with_own_head(), "Ash", "Birch")).p_keep is None


def test_nothing_is_told_from_a_club_of_a_day_that_nothing_joins_to_the_others() -> None:
    bay = hit(with_own_head(), "Own", "Ash", "Birch")
    bay.do(ClubJoined(club="Cedar", card=replace(club_card("Cedar"), head_piece="head-9")))
    bay.do(ClubJoined(club="Elder", card=replace(club_card("Elder"), head_piece="head-9")))
    hit(bay, "Cedar")
    found = compared(bay)
    assert found.comparison is not None
    joined = found.comparison.joined
    apart = replace(joined, group=np.where(np.arange(4) == 3, 9, joined.group))
    asunder = replace(found, comparison=replace(found.comparison, joined=apart))
    together, alone = (
        beside_those_hit(state, a_rack(), Hand.RIGHT, Convention.C) for state in (found, asunder)
    )
    assert together is not None
    assert alone is not None
    assert one(together, "Elder").neighbour is not None
    assert one(alone, "Elder").neighbour is None


def test_feel_and_price_stay_beside_the_figures() -> None:
    other = hit(with_own_head(), "Own", "Ash", "Birch")
    before = beside(other)
    other.do(Felt(club="Ash", place=1.0))
    assert beside(other).results == before.results


def test_before_two_clubs_can_be_compared_nothing_is_told() -> None:
    other = with_own_head()
    found = compared(other)
    assert beside_those_hit(found, a_rack(), Hand.RIGHT, Convention.C) is None
    assert what_would_change(found, Hand.RIGHT) == ()
    alone = compared(hit(other, "Own"))
    assert beside_those_hit(alone, a_rack(), Hand.RIGHT, Convention.C) is None


def test_what_would_change_the_answer_is_looked_at_for_this_home(bay: Bay) -> None:
    answers = what_would_change(compared(bay), Hand.RIGHT)
    assert len(answers) >= 10
    assert {answer.before for answer in answers} <= {"Own", "Ash", "Birch"}
