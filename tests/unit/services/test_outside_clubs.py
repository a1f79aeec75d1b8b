"""What a fitting with a fairway wood in it tells, and what it holds back."""

from dataclasses import replace

import pypdfium2
import pytest

from bays import MEASURED, Bay
from fairway_woods import with_wood
from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR
from loftwright.domain.acts import ClubJoined
from loftwright.domain.fitting import DeviceCard
from loftwright.domain.golfer import Golfer, Hand, Wish
from loftwright.domain.home import Home
from loftwright.errors import EvidenceError, InputError
from loftwright.evidence.budget import Budget
from loftwright.evidence.shortlist import Lacks
from loftwright.intake.golfer_file import GolferFile
from loftwright.physics.shaft_swing.players import Loading
from loftwright.physics.sleeve import Convention
from loftwright.report.shortlist_words import shortlist_sentence
from loftwright.services.ball_delivery import Refusal, delivery_of
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.choice import choose
from loftwright.services.evidence import Desk, compare_clubs, weigh
from loftwright.services.fitting_report import report_pdf
from loftwright.services.fitting_table import fitting_table
from loftwright.services.last_ball import earlier_finishes
from loftwright.services.promise import promised_claims, promised_now
from loftwright.services.rack_adding import OwnClub, add_own_club
from loftwright.services.shaft_shifts import NO_SHIFTS, shaft_shifts
from loftwright.services.shortlist import list_for_file, list_for_golfer
from loftwright.services.ways_on import Way
from studios import studio_in_memory

DEVICE = DeviceCard(name="meter", origins=MEASURED)


def stands(bay: Bay) -> BayNow:
    return bay_now(bay.studio, Desk(), bay.fitting)


def paper(pdf: bytes) -> str:
    return " ".join(
        "".join(
            page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf)
        ).split()
    )


def test_a_woods_balls_enter_no_comparison_and_move_no_drivers_figure() -> None:
    plain, mixed = with_wood("Own", "Ash"), with_wood("Own", "Ash", "Cedar")
    one, other = (
        weigh(compare_clubs(bay.now, bay.golfer, Convention.C), bay.golfer, Budget(balls=0))
        for bay in (plain, mixed)
    )
    assert one.decision is not None
    assert other.decision is not None
    assert [club.club for club in other.decision.clubs] == [
        club.club for club in one.decision.clubs
    ]
    assert [club.value for club in other.decision.clubs] == [
        club.value for club in one.decision.clubs
    ]


def test_every_one_of_its_balls_is_named_with_the_reason() -> None:
    bay = with_wood("Own", "Ash", "Cedar")
    table = fitting_table(bay.now, bay.golfer.hand, Convention.C).table
    assert {one.why for one in table.refused} == {"a fairway wood is not compared with drivers"}
    assert len(table.refused) == 4
    assert table.read == len(table.shots) + len(table.refused)


def test_the_choice_lists_it_apart_with_why_and_builds_nothing_from_it() -> None:
    bay = with_wood("Own", "Ash", "Cedar")
    found = stands(bay)
    choice = choose(bay.now, found.evidence.decision, bay.studio.store.rack(), Convention.C)
    (group,) = [one for one in choice.groups if one.rows[0].way is Way.OUTSIDE]
    (row,) = group.rows
    assert not group.ranked
    assert (row.label, row.result) == ("Cedar", None)
    assert row.reason.startswith(
        "Not for a fairway wood. Strokes are counted from where a drive ends"
    )
    every = [row.label for group in choice.groups for row in group.rows]
    assert not any("Cedar's shaft" in label for label in every)


def test_an_own_fairway_wood_is_offered_no_turned_sleeve() -> None:
    bay = with_wood("Own", "Ash", every=True)
    choice = choose(bay.now, None, bay.studio.store.rack(), Convention.C)
    ways = {row.way for group in choice.groups for row in group.rows}
    assert ways == {Way.OUTSIDE}


def test_its_balls_are_not_drawn_among_earlier_finishes() -> None:
    home = Home()
    plain = earlier_finishes(with_wood("Own", "Ash").now, home)
    mixed = earlier_finishes(with_wood("Own", "Ash", "Cedar").now, home)
    assert len(mixed) == len(plain) + 1
    assert len(plain) == 7


def test_nothing_is_said_of_the_swing_by_its_ball() -> None:
    bay = with_wood("Cedar")
    found = delivery_of(bay.studio, bay.fitting)
    assert found.refusals == (Refusal.OUTSIDE,)
    assert found.told == ()


def test_the_report_says_that_it_stands_in_no_figure() -> None:
    bay = with_wood("Own", "Ash", "Cedar")
    told = paper(report_pdf(Desk(), stands(bay)))
    assert "Cedar, a fairway wood, stands in no figure here: they hold for drivers." in told


def test_two_of_them_are_named_together() -> None:
    bay = with_wood("Own", "Ash", "Cedar")
    card = bay.now.clubs[-1].card
    bay.do(ClubJoined(club="Birch", card=replace(card, loft=31.0 * DEGREE, length=37.5 * INCH)))
    bay.hand("Birch")
    bay.balls(2)
    told = paper(report_pdf(Desk(), stands(bay)))
    assert "Birch, an iron, and Cedar, a fairway wood, stand in no figure here" in told


def test_without_a_driver_there_is_no_report_and_the_mend_says_where_to_look() -> None:
    bay = with_wood("Own", "Cedar", every=True)
    with pytest.raises(EvidenceError, match="no ball was hit with a driver") as caught:
        report_pdf(Desk(), stands(bay))
    assert "Evidence" in caught.value.mend


def test_the_claims_before_ball_one_count_drivers_alone() -> None:
    bay, woods = with_wood(), with_wood(every=True)
    plan = bay.now.plan
    assert plan is not None
    whole = promised_claims(plan.plan, DEVICE, Home(), marked=True)
    mixed = promised_now(bay.now, DEVICE, Home(), marked=True)
    assert [one.may for one in mixed] == [one.may for one in whole]
    assert mixed != whole
    none = promised_now(woods.now, DEVICE, Home(), marked=True)
    assert [(one.may, one.say) for one in none] == [
        (True, "what the device shows of every club"),
        (False, "which club goes further or scores better"),
    ]


def test_no_shaft_is_shortlisted_or_believed_of_for_an_own_fairway_wood() -> None:
    studio = studio_in_memory()
    wood = OwnClub(loft=15.0 * DEGREE, length=42.5 * INCH)
    golfer = add_own_club(studio, Golfer(id="g", head_speed=42.0), wood)
    listed = list_for_golfer(studio, golfer, head_speed=42.0)
    assert listed.lacks == (Lacks.DRIVER,)
    assert listed.shortlist is None
    assert shortlist_sentence(listed).startswith("Nothing can be shortlisted yet: write a driver")
    assert shaft_shifts(studio, golfer, with_wood().now) is NO_SHIFTS


def test_a_file_with_an_irons_loft_is_refused_with_the_reason() -> None:
    golfer = GolferFile(
        place="golfer.toml",
        hand=Hand.RIGHT,
        head_speed=90.0 * MILE_PER_HOUR,
        loadings=tuple(Loading),
        wish=Wish.DISTANCE,
        home=Home(),
        shaft="",
        length=42.0 * INCH,
        loft=15.0 * DEGREE,
        head_mass=0.2,
        tip_trim=0.0,
    )
    with pytest.raises(InputError, match="a shortlist is made for a driver") as caught:
        list_for_file(studio_in_memory(), golfer)
    assert caught.value.mend.startswith("Not for a fairway wood.")
