"""Every row of a choice as a whole club to order, or why it is none."""

from dataclasses import replace

import pytest

from bays import SLEEVE, Bay, a_bay
from demos import a_demo
from loftwright.constants import INCH
from loftwright.domain.acts import ClubDropped, ClubJoined, Felt, SettingSeen, Vetoed
from loftwright.domain.names import OWN
from loftwright.domain.order import ClubSpec, Kept, PriceKind
from loftwright.domain.rack import HeadModel, Piece, Rack, ShaftModel, Sleeve
from loftwright.evidence.neighbours import CONFIRMING_BALLS
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.choice import choose
from loftwright.services.choosing import Chosen, chosen_now
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.evidence import Desk
from loftwright.services.not_hit import LENGTHS, WEIGHTS
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.services.wanted import (
    NOTHING_TO_ORDER,
    Wanted,
    balls_with,
    may_be_ordered,
    wanted_clubs,
)
from loftwright.services.ways_on import Way
from studios import studio_in_memory


@pytest.fixture(scope="module")
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture(scope="module")
def demo(studio: Studio) -> DemoStudio:
    return a_demo(studio)


@pytest.fixture(scope="module")
def desk() -> Desk:
    return Desk()


@pytest.fixture(scope="module")
def finished(studio: Studio, demo: DemoStudio, desk: Desk) -> dict[str, Wanted]:
    return of(studio, desk, demo.finished)


def of(studio: Studio, desk: Desk, fitting: str, rack: Rack | None = None) -> dict[str, Wanted]:
    bay = bay_now(studio, desk, fitting)
    chosen = chosen_now(studio, desk, bay)
    return by_label(bay, chosen, rack or studio.store.rack())


def by_label(bay: BayNow, chosen: Chosen, rack: Rack) -> dict[str, Wanted]:
    found = wanted_clubs(bay, chosen, rack)
    assert len({one.label for one in found}) == len(found)
    return {one.label: one for one in found}


def spec_of(found: dict[str, Wanted], label: str) -> ClubSpec:
    spec = found[label].spec
    assert spec is not None, found[label].why_not
    return spec


def own_with_sleeve(*, hit: tuple[str, ...] = ()) -> Bay:
    """Return a bay whose golfer brought a club with a sleeve, and hit it in some settings."""
    bay = a_bay()
    own = bay.now.club(OWN)
    assert own is not None
    card = replace(own.card, setting="middle", settings=SLEEVE)
    bay.do(ClubDropped(club=OWN), ClubJoined(club=OWN, card=card))
    bay.hand(OWN)
    bay.balls(2)
    for setting in hit:
        bay.do(SettingSeen(setting=setting))
        bay.balls(2)
    return bay


def of_bay(bay: Bay, rack: Rack | None = None) -> dict[str, Wanted]:
    return of(bay.studio, Desk(), bay.fitting, rack)


def test_every_row_is_a_club_or_says_why_it_is_none(finished: dict[str, Wanted]) -> None:
    """A label that nobody knows any more would end up as a club that left the fitting."""
    none = {label: one.why_not for label, one in finished.items() if one.spec is None}
    assert none == {
        OWN: NOTHING_TO_ORDER,
        "Only turn the sleeve": "the own head has no sleeve",
    }
    assert len(finished) >= 18
    for label, one in finished.items():
        assert one.spec is None or (one.spec.label == label and one.lines)


def test_the_link_of_a_row_leads_to_a_club_that_may_be_ordered(
    finished: dict[str, Wanted],
) -> None:
    for one in finished.values():
        assert may_be_ordered(one.row) == (one.spec is not None)


def test_a_club_that_was_hit_is_wanted_as_it_was_hit(
    finished: dict[str, Wanted], studio: Studio, demo: DemoStudio
) -> None:
    ash = finished["Ash"]
    club = studio.standing(demo.finished).club("Ash")
    assert club is not None
    spec = spec_of(finished, "Ash")
    assert (spec.kept, spec.hit, spec.club) == (Kept.NOTHING, True, "Ash")
    for name in ("assembly", "head", "shaft", "head_piece", "shaft_piece", "loft", "lie"):
        assert getattr(spec, name) == getattr(club.card, name)
    assert (spec.length, spec.setting, spec.settings) == (
        club.card.length,
        club.card.setting,
        club.card.settings,
    )
    assert (ash.balls, ash.to_hit) == (8, 0)
    assert [line.price for line in ash.lines] == [club.card.price]


def test_a_promise_is_what_was_told_of_the_club(
    finished: dict[str, Wanted], studio: Studio, demo: DemoStudio, desk: Desk
) -> None:
    decision = bay_now(studio, desk, demo.finished).evidence.decision
    assert decision is not None
    result = next(one for one in decision.clubs if one.club == "Ash")
    told = spec_of(finished, "Ash").promise
    assert told is not None
    assert result.level is not None
    assert result.value is not None
    assert (told.carry, told.total, told.launch) == (
        result.level.carry,
        result.level.total,
        result.level.launch,
    )
    assert told.value is not None
    assert told.value.mean == result.value.mean
    assert (told.value.low, told.value.high) == result.value.interval(0.9)
    assert told.home == decision.home.name != ""


def test_neighbours_differ_from_their_club_by_what_they_are_called(
    finished: dict[str, Wanted],
) -> None:
    ash = spec_of(finished, "Ash")
    there = [
        (word, by, spec_of(finished, label))
        for word, by in LENGTHS.items()
        if (label := f"Ash, half an inch {word}") in finished
    ]
    assert len(there) == 1, "of two ways the better one is told"
    for _, by, one in there:
        assert one.length - ash.length == pytest.approx(by)
        assert abs(by) == pytest.approx(0.5 * INCH)
    weights = [
        (word, part, spec_of(finished, label))
        for part in ("shaft", "head")
        for word in WEIGHTS
        if (label := f"Ash, {part} 4 g {word}") in finished
    ]
    assert [part for _, part, _ in weights] == ["shaft", "head"]
    for word, part, one in weights:
        assert getattr(one, part) == f"{getattr(ash, part)}, 4 g {word} than the tested one"
    turned = spec_of(finished, "Ash, one down")
    assert (turned.setting, turned.length) == ("one down", ash.length)
    changed = [one for _, _, one in (*there, *weights)]
    for one in (*changed, turned):
        assert (one.hit, one.kept, one.club) == (False, Kept.NOTHING, "Ash")
        assert one.promise is not None


def test_the_leaders_head_goes_on_the_own_shaft(finished: dict[str, Wanted]) -> None:
    one = finished["Ash's head on the own shaft"]
    assert one.spec is not None
    assert one.spec.kept is Kept.SHAFT
    assert one.spec.head == spec_of(finished, "Ash").head
    assert one.lines[0].what.startswith("Head: ")


def test_what_was_not_hit_waits_for_its_balls(finished: dict[str, Wanted]) -> None:
    for label, one in finished.items():
        if one.spec is not None and not one.spec.hit:
            assert one.to_hit == CONFIRMING_BALLS == 5, label
            assert any("No ball was hit with just this club: 5" in why for why in one.spec.why)


def test_a_club_hit_three_times_waits_for_two_more(
    studio: Studio, demo: DemoStudio, desk: Desk
) -> None:
    ash = of(studio, desk, demo.in_progress)["Ash"]
    assert (ash.balls, ash.to_hit) == (3, 2)
    assert ash.spec is not None
    assert ash.spec.hit
    assert "3 balls hit with just this club; 5 before an order." in ash.spec.why


def test_a_new_shaft_keeps_the_own_head_and_costs_the_shaft(
    finished: dict[str, Wanted], studio: Studio, demo: DemoStudio
) -> None:
    now = studio.standing(demo.finished)
    own, ash = now.club(OWN), now.club("Ash")
    assert own is not None
    assert ash is not None
    one = finished["Ash's shaft in the own head"]
    spec = spec_of(finished, one.label)
    assert (spec.kept, spec.head_piece) == (Kept.HEAD, own.card.head_piece)
    assert (spec.shaft, spec.shaft_piece) == (ash.card.shaft, ash.card.shaft_piece)
    assert (spec.length, spec.setting) == (own.card.length, own.card.setting)
    assert [line.price for line in one.lines] == [one.row.price]


def test_the_own_club_made_longer_is_labour_without_a_price(finished: dict[str, Wanted]) -> None:
    one = finished["Own, half an inch longer"]
    assert spec_of(finished, one.label).kept is Kept.CLUB
    (line,) = one.lines
    assert (line.kind, line.price) == (PriceKind.LABOUR, None)
    assert one.built
    lighter = finished["Own, shaft 4 g lighter"]
    assert spec_of(finished, lighter.label).kept is Kept.HEAD


def test_what_it_rests_on_is_said_in_the_words_of_the_fitting(finished: dict[str, Wanted]) -> None:
    why = spec_of(finished, "Ash").why
    assert any("further than Own" in line for line in why)
    assert "8 balls hit with just this club." in why
    assert any(line.startswith("Feel: above fine, “solid”") for line in why)
    shaft = spec_of(finished, "Ash's shaft in the own head").why
    assert any("told from the own head and Ash's balls" in line for line in shaft)


def test_every_setting_of_the_own_sleeve_costs_nothing_and_builds_nothing() -> None:
    found = of_bay(own_with_sleeve())
    for setting in ("one up", "one down"):
        one = found[f"Own, {setting}"]
        spec = spec_of(found, one.label)
        assert (spec.kept, spec.setting, spec.hit) == (Kept.CLUB, setting, False)
        assert [(line.kind, line.price) for line in one.lines] == [(PriceKind.LABOUR, 0)]
        assert not one.built
        assert one.row.way is Way.TURN_SLEEVE
    assert "Own" in found


def test_a_setting_that_was_hit_is_wanted_as_hit() -> None:
    bay = own_with_sleeve(hit=("one up",))
    found = of_bay(bay)
    spec = spec_of(found, "Own, one up")
    assert (spec.hit, found["Own, one up"].balls) == (True, 2)
    assert balls_with(bay.now, "Own, one up") == 2
    assert not spec_of(found, "Own, one down").hit


def test_a_club_that_is_out_is_no_order() -> None:
    bay = a_bay()
    bay.do(Vetoed(club="Cedar"))
    cedar = of_bay(bay)["Cedar"]
    assert cedar.spec is None
    assert "take that back in the bay" in cedar.why_not


def test_feel_without_a_word_has_none() -> None:
    bay = a_bay()
    for club in ("Own", "Ash"):
        bay.hand(club)
        bay.balls(3)
    bay.do(Felt(club="Ash", place=0.9))
    why = spec_of(of_bay(bay), "Ash").why
    assert "Feel: near want it." in why


@pytest.mark.parametrize(("system", "lines"), [("Quarter", 1), ("Third", 2), ("", 1)])
def test_a_sleeve_for_the_own_head_is_a_line_where_the_shaft_s_does_not_fit(
    system: str, lines: int
) -> None:
    head = HeadModel(id="m1", maker="", name="Harrow", loft=0.18, system=system)
    rack = Rack(
        heads={"m1": head},
        shafts={"s1": ShaftModel(id="s1", maker="", name="Reedmace", price=21000)},
        pieces={
            "head-1": Piece(id="head-1", model="m1"),
            "shaft-Ash": Piece(id="shaft-Ash", model="s1", sleeve="q"),
        },
        sleeves={"q": Sleeve(id="q", name="Quarter", system="Quarter", settings=SLEEVE)},
        assemblies={},
    )
    bay = a_bay()
    kept = bay_now(bay.studio, Desk(), bay.fitting)
    choice = choose(bay.now, None, rack, kept.settings.convention)
    found = by_label(kept, Chosen(choice=choice, answers=()), rack)
    one = found["Ash's shaft in the own head"]
    assert [line.price for line in one.lines] == [21000, None][:lines]
    assert spec_of(found, one.label).promise is None


def test_words_of_a_line_are_in_the_shop_s_units() -> None:
    bay = a_bay()
    bay.hand("Own")
    bay.balls(3)
    bay.hand("Ash")
    bay.balls(3)
    known = read_settings(bay.studio)
    metric = replace(known.settings, units="metric", decimal="comma")
    change_settings(bay.studio, metric, version=known.version)
    found = of_bay(bay)
    assert found["Own, half an inch longer"].lines[0].what == "Make the own club 13 mm longer"
