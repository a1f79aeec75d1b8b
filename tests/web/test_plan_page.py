"""The plan: what can be hit, the claims before ball 1, the start, and planning again when late."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

import pytest

from loftwright.bay.replay import replay
from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR
from loftwright.domain.acts import ClubJoined, HandedOver, Planned, VisitOpened, WarmUpDone
from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.rack import State
from loftwright.services.acting import act
from loftwright.services.demo_bench import demo_profile
from loftwright.services.demo_shafts import DEMO_SHAFTS
from loftwright.services.fittings import Wish, plan_visit
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.measuring import keep_profile
from loftwright.services.rack_adding import OwnClub
from loftwright.services.rack_changing import set_state
from loftwright.services.settings import Settings, change_settings
from loftwright.services.studio import Studio
from loftwright.web.pages import plan
from loftwright.web.plan_forms import LEFT_CHECKS
from shafts import a_profile
from studios import Clock, a_club, a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    made = studio_in_memory(clock)
    head, flat = a_head(made), a_head(made, loft=9.0)
    for place, (name, grams, length) in enumerate(
        [("Reedmace", 60.0, 45.25), ("Sedge", 50.0, 45.5), ("Teasel", 65.0, 45.5)]
    ):
        a_club(made, flat if place == 1 else head, name, grams, length)
    a_club(made, a_head(made, "Lapwing", hand=Hand.LEFT), "Rush", 55.0, 45.0)
    return made


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, plan.router)) as made:
        yield made


def a_fitting(studio: Studio, hand: Hand = Hand.RIGHT, *, own: bool = True) -> str:
    brought = OwnClub(loft=10.5 * DEGREE, length=45.5 * INCH, shaft_mass=0.060) if own else None
    visitor = Visitor(
        golfer=Golfer(id="", hand=hand), identity=Identity(name="Ottoline"), own=brought
    )
    return open_for_new(studio, visitor, bay="Bay 1").id


def offered(studio: Studio) -> str:
    """Return the right-handed clubs of the shop as the form sends them."""
    rack = studio.store.rack()
    return ",".join(
        club.id
        for club in rack.assemblies.values()
        if club.owner is None and rack.head_of(club).hand is Hand.RIGHT
    )


def test_the_shortlist_asks_for_what_it_lacks(client: WebClient, studio: Studio) -> None:
    page = client.get(f"/fittings/{a_fitting(studio)}/plan").text
    assert "Nothing can be shortlisted yet: give the head speed as stated." in page
    assert "Write it down on the golfer’s page" in page


def test_levers_stand_before_shafts_and_an_unmeasured_own_shaft_is_said(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_fitting(studio)
    stated(studio, fitting)
    page = client.get(f"/fittings/{fitting}/plan").text
    assert "no shaft can be told from one that was not measured" in page
    assert page.index("Length.") < page.index("Loft.") < page.index("Grip.")
    assert "Measure the shaft in the own club" in page


def test_measured_shafts_are_shortlisted_with_their_doubt(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_fitting(studio)
    golfer = stated(studio, fitting)
    rack = studio.store.rack()
    own = rack.assemblies[golfer.own or ""].shaft
    pieces = {club.shaft for club in rack.assemblies.values() if club.owner is None}
    for seed, (piece, shaft) in enumerate(zip([own, *sorted(pieces)], DEMO_SHAFTS, strict=False)):
        keep_profile(studio, demo_profile(shaft, piece=piece, day=studio.today(), seed=seed))
    page = client.get(f"/fittings/{fitting}/plan").text
    block = page[page.index('id="shortlist"') : page.index('id="plan-form"')]
    assert "too close to call before a ball" in block
    assert block.count("not distinguishable") >= 2
    assert "Not on the list" in block
    assert "weak guess" in block


def stated(studio: Studio, fitting: str) -> Golfer:
    """State the golfer's head speed."""
    kept = studio.store.golfer(studio.store.fitting(fitting).value.golfer)
    golfer = replace(kept.value, head_speed=93.0 * MILE_PER_HOUR)
    studio.store.change_golfer(golfer, version=kept.version)
    return golfer


def planned(client: WebClient, studio: Studio, fitting: str, **more: str) -> None:
    data = {"club": offered(studio), "balls": "40", "minutes": "", **more}
    answer = client.post(f"/fittings/{fitting}/plan", data=data)
    assert answer.status_code == 303, answer.text


def test_only_what_can_be_put_together_for_this_hand_is_offered(
    client: WebClient, studio: Studio
) -> None:
    text = client.get(f"/fittings/{a_fitting(studio, Hand.LEFT)}/plan").text
    assert "1 club can be put together here for a left-hander" in text
    assert text.count('name="club"') == 1
    assert text.count("right-handed head") == 3


def test_big_levers_come_first_with_their_size(client: WebClient, studio: Studio) -> None:
    text = client.get(f"/fittings/{a_fitting(studio)}/plan").text
    rows = re.findall(r"<td>([^<]*(?:another head|loft)[^<]*)</td>", text)
    assert rows[0].startswith("0.25 in shorter")
    assert "1.5° less loft" in rows[1]
    assert text.count(" checked") == 3


def test_every_shaft_says_that_it_is_not_measured_but_the_one_that_is(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_fitting(studio)
    page = f"/fittings/{fitting}/plan"
    number = client.get(page).text.count('<span class="sub">not measured</span>')
    assert number == 3
    piece = next(one for one in studio.store.rack().pieces.values() if one.label == "Sedge")
    keep_profile(studio, a_profile(piece=piece.id))
    text = client.get(page).text
    assert text.count('<span class="sub">not measured</span>') == number - 1
    assert text.count('<span class="sub">measured</span>') == 1


def test_a_locked_part_is_named_with_its_reason(client: WebClient, studio: Studio) -> None:
    piece = next(one for one in studio.store.rack().pieces.values() if one.label == "Sedge")
    set_state(studio, piece.id, State.LOCKED, reason="cracked at the tip")
    text = client.get(f"/fittings/{a_fitting(studio)}/plan").text
    assert "Sedge is locked: cracked at the tip" in text


def test_a_plan_answers_what_it_can_show(client: WebClient, studio: Studio) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    text = client.get(f"/fittings/{fitting}/plan").text
    assert re.search(r"4 clubs, 40 balls, \d+ minutes: differences of \d+ yd in total", text)
    assert "sets, 40 balls" in text
    assert "Which club is straighter it will not show" in text
    acts = [type(entry.act) for entry in studio.record(fitting)]
    assert acts == [ClubJoined] * 4 + [Planned]


def test_minutes_that_do_not_suffice_give_up_clubs_in_words(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting, minutes="50")
    text = client.get(f"/fittings/{fitting}/plan").text
    assert "Given up for time" in text
    assert "not 4" in text


def test_too_few_minutes_are_told_at_their_field(client: WebClient, studio: Studio) -> None:
    fitting = a_fitting(studio)
    data = {"club": offered(studio), "balls": "40", "minutes": "20"}
    answer = client.post(f"/fittings/{fitting}/plan", data=data)
    assert answer.status_code == 422
    assert "20 minutes do not suffice for a comparison of two clubs" in answer.text
    assert "the warm-up is not shortened" in answer.text
    assert answer.text.count(" checked") == 3


def test_no_club_ticked_is_told_in_place(client: WebClient, studio: Studio) -> None:
    answer = client.post(
        f"/fittings/{a_fitting(studio)}/plan", data={"balls": "40", "minutes": "60"}
    )
    assert answer.status_code == 422
    assert "1 clubs cannot be planned" in answer.text


def test_the_ladder_says_before_ball_one_what_will_not_be_said(
    client: WebClient, studio: Studio
) -> None:
    little = DeviceCard(
        name="Old box", origins={"ball speed": Origin.MEASURED, "carry": Origin.CALCULATED}
    )
    full = DeviceCard(
        name="Full",
        origins=dict.fromkeys(
            ("ball speed", "launch", "direction", "spin", "axis", "head speed", "path", "face"),
            Origin.MEASURED,
        ),
    )
    change_settings(studio, Settings(devices=(little, full)), version=0)
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    page = client.get(f"/fittings/{fitting}/plan?device=Full&marked=yes").text
    may, may_not = page.split("Will not be said")
    assert "which club goes further as you swing it" in may
    assert "delivery and strike marks are measured" in may
    page = client.get(f"/fittings/{fitting}/plan?device=Old+box&marked=no").text
    may, may_not = page.split("Will not be said")
    assert "which club goes further as you swing it" in may_not
    assert "where the ball met the face" in may_not
    assert "<li>" not in may[may.index("May be said") :]


def test_a_visit_starts_by_its_plan(client: WebClient, studio: Studio) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    data = {"pain": "no", "ball": "premium, new", "treatment": "spray", "surface": "mat"}
    answer = client.post(f"/fittings/{fitting}/plan/start", data=data)
    assert answer.status_code == 303
    assert answer.headers["location"] == f"/fittings/{fitting}/bay"
    now = replay(studio.record(fitting))
    assert now.strip.treatment == "spray"
    assert now.plan is not None
    assert now.plan.plan.balls == 40
    again = client.post(f"/fittings/{fitting}/plan/start", data=data)
    assert again.status_code == 409
    assert "A visit is open today already" in again.text


def test_pain_stops_before_the_first_swing_and_is_written_nowhere(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    before = studio.record(fitting)
    answer = client.post(f"/fittings/{fitting}/plan/start", data={"pain": "yes"})
    assert "Do not start: nobody swings with pain." in answer.text
    assert "a doctor or a physiotherapist" in answer.text
    assert studio.record(fitting) == before


def test_pain_is_asked_before_the_start(client: WebClient, studio: Studio) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    answer = client.post(f"/fittings/{fitting}/plan/start", data={"ball": "premium"})
    assert answer.status_code == 422
    assert "Ask before the first swing, then choose." in answer.text
    assert 'value="premium"' in answer.text


def test_a_left_hander_s_bay_is_looked_at_again(client: WebClient, studio: Studio) -> None:
    fitting = a_fitting(studio, Hand.LEFT)
    rack = studio.store.rack()
    left = next(
        club.id
        for club in rack.assemblies.values()
        if club.owner is None and rack.head_of(club).hand is Hand.LEFT
    )
    planned(client, studio, fitting, club=left)
    answer = client.post(f"/fittings/{fitting}/plan/start", data={"pain": "no"})
    assert answer.status_code == 422
    assert "Not looked at yet: fitter and bags stand clear" in answer.text
    ticks = {name: "yes" for name, _ in LEFT_CHECKS}
    done = client.post(f"/fittings/{fitting}/plan/start", data={"pain": "no", **ticks})
    assert done.status_code == 303


def test_one_tap_plans_again_when_late(client: WebClient, studio: Studio, clock: Clock) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting, minutes="75")
    client.post(f"/fittings/{fitting}/plan/start", data={"pain": "no"})
    act(studio, fitting, [WarmUpDone()])
    clock.forward(20.0)
    answer = client.post(f"/fittings/{fitting}/plan/late", data={"late": "20"})
    assert answer.status_code == 303
    now = replay(studio.record(fitting))
    assert now.plan is not None
    assert now.plan.plan.seconds == pytest.approx(35.0 * 60.0)
    assert now.plan.plan.given_up
    text = client.get(f"/fittings/{fitting}/plan").text
    assert "35 minutes are left" in text


def test_the_plan_marks_the_set_in_hand_once_a_visit_is_open(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    assert "<td>in hand</td>" not in client.get(f"/fittings/{fitting}/plan").text
    client.post(f"/fittings/{fitting}/plan/start", data={"pain": "no"})
    card = replay(studio.record(fitting)).plan
    assert card is not None
    act(studio, fitting, [WarmUpDone(), HandedOver(club=card.plan.sets[0][0])])
    text = client.get(f"/fittings/{fitting}/plan").text
    assert text.count("<td>in hand</td>") == 1
    assert f"{card.plan.sets[0][0]}, {card.plan.sets[0][1]} balls, in hand" in text


def test_so_many_minutes_are_planned_again(client: WebClient, studio: Studio) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    assert client.post(f"/fittings/{fitting}/plan/late", data={"minutes": "45"}).status_code == 303
    too_few = client.post(f"/fittings/{fitting}/plan/late", data={"minutes": "5"})
    assert too_few.status_code == 422
    assert "do not suffice" in too_few.text


def test_another_day_is_another_visit_by_the_same_clubs(
    client: WebClient, studio: Studio, clock: Clock
) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    client.post(f"/fittings/{fitting}/plan/start", data={"pain": "no"})
    clock.at += timedelta(days=3)
    assert "Another day: a new visit" in client.get(f"/fittings/{fitting}/plan").text
    client.post(f"/fittings/{fitting}/plan/start", data={"pain": "no"})
    visits = [entry for entry in studio.record(fitting) if isinstance(entry.act, VisitOpened)]
    assert len(visits) == 2
    now = replay(studio.record(fitting))
    assert [club.name for club in now.clubs] == ["Own", "Ash", "Birch", "Cedar"]


def test_clubs_keep_their_names_when_planned_anew(client: WebClient, studio: Studio) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    head = next(one for one in studio.store.rack().pieces.values() if "Harrow" in one.label)
    _, more = a_shaft(studio, "Bulrush", 70.0, head=head)
    assert more is not None
    planned(client, studio, fitting, club=f"{offered(studio)}")
    now = replay(studio.record(fitting))
    assert [club.name for club in now.clubs] == ["Own", "Ash", "Birch", "Cedar", "Elm"]


def test_limits_of_today_stand_on_the_page(client: WebClient, studio: Studio) -> None:
    visitor = Visitor(
        golfer=Golfer(id=""), identity=Identity(name="Ida"), limits="half swings first"
    )
    fitting = open_for_new(studio, visitor, bay="Bay 1").id
    assert "half swings first" in client.get(f"/fittings/{fitting}/plan").text


def test_a_plan_made_on_a_stale_page_is_refused_and_kept(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_fitting(studio)
    planned(client, studio, fitting)
    seen = re.search(r'name="seen" value="(\d+)"', client.get(f"/fittings/{fitting}/plan").text)
    assert seen is not None
    plan_visit(
        studio, fitting, Wish(assemblies=tuple(offered(studio).split(",")), balls=24), by="Ida"
    )
    data = {"club": offered(studio), "balls": "32", "minutes": "", "seen": seen[1]}
    answer = client.post(f"/fittings/{fitting}/plan", data=data)
    assert answer.status_code == 409
    assert "Ida changed the plan in the meantime" in answer.text
    assert 'value="32"' in answer.text
    assert "24 balls" in answer.text
    late = client.post(f"/fittings/{fitting}/plan/late", data={"minutes": "60", "seen": seen[1]})
    assert "Ida changed the plan in the meantime" in late.text
