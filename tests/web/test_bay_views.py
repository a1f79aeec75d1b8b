"""What the bay shows, part by part, and what it does not show without its numbers."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from inspect import getsource

import pytest

from bays import Bay, a_bay, drive
from loftwright.constants import MILLIMETRE, YARD
from loftwright.domain.acts import (
    Closed,
    Felt,
    HandedOver,
    Marked,
    PainSaid,
    Rested,
    Revealed,
    StripChanged,
    Vetoed,
)
from loftwright.domain.device import Origin
from loftwright.domain.fitting import Mark, Strip
from loftwright.domain.golfer import Hand
from loftwright.domain.numbers import ShotNumbers
from loftwright.evidence.alarm import Alarm
from loftwright.evidence.mark_alarms import shifted_marks
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.evidence import Desk
from loftwright.services.evidence_runner import EvidenceRunner
from loftwright.web.app import create_app
from loftwright.web.pages import acts, mends, screen
from loftwright.web.pages import bay as bay_page
from loftwright.web.views.bay import Drawing, bay_parts
from loftwright.web.views.bay_keys import KEYS
from loftwright.web.views.bay_marks import face_marks, set_balls
from loftwright.web.views.bay_rest import LATE, after, alarm_doubt, doubts
from loftwright.web.views.bay_taps import bar_view
from loftwright.web.views.screen import screen_parts
from web_client import WebClient, asking


def stands(bay: Bay) -> BayNow:
    return bay_now(bay.studio, Desk(), bay.fitting)


def parts(bay: Bay, **how: bool) -> Mapping[str, str]:
    return bay_parts(stands(bay), Drawing(**how))


def right(bay: Bay) -> list[tuple[str, str]]:
    return [(tap.words, tap.kind) for tap in bar_view(stands(bay), None).right]


def tap(toe_mm: float, high_mm: float) -> Marked:
    return Marked(mark=Mark(toe=toe_mm * MILLIMETRE, high=high_mm * MILLIMETRE))


def test_the_main_action_follows_the_visit() -> None:
    bay = a_bay(warm=False)
    assert right(bay)[0] == ("Own in hand", "go")
    bay.do(HandedOver(club="Own"))
    assert right(bay) == [("Warm-up done", "go")]
    bay = a_bay()
    assert right(bay) == [("Hit, not read", "")]
    bay.balls(3)
    assert right(bay) == [("Ash in hand", "go"), ("Sleeve middle: seen", "then")]
    bay.do(HandedOver(club="Ash"))
    assert right(bay) == [("Hit, not read", ""), ("Sleeve middle: seen", "go")]


def test_the_second_tap_of_a_hand_over_waits_for_the_first() -> None:
    bay = a_bay()
    bay.balls(3)
    first, second = bar_view(stands(bay), None).right
    assert (first.ready, second.ready) == (True, False)
    assert 'class="then " disabled' in parts(bay)["bar"]


def test_after_a_pause_the_club_is_asked_for() -> None:
    bay = a_bay()
    bay.ball()
    bay.ball(wait=90.0)
    assert right(bay)[0] == ("Still Own", "go")
    assert "Still" in parts(bay)["say"]
    bay.do(HandedOver(club="Own"))
    assert right(bay)[0] == ("Hit, not read", "")


def test_pain_stops_the_test() -> None:
    bay = a_bay()
    bay.do(PainSaid())
    drawn = parts(bay)
    assert "Nobody swings again today" in drawn["say"]
    assert right(bay) == [("Close the fitting", "go")]


def test_a_closed_fitting_can_be_opened_again() -> None:
    bay = a_bay()
    bay.do(Closed())
    (tap_,) = bar_view(stands(bay), 9).right
    assert (tap_.words, tap_.act, tap_.fields) == ("Open again", "undo", {"act": "9"})


def test_undo_and_do_again_name_the_act() -> None:
    bay = a_bay()
    bay.do(Vetoed(club="Ash"))
    assert bar_view(stands(bay), None).left[0].words == "Undo veto of Ash"


def test_names_stand_in_large_letters_with_sleeve_minutes_and_balls() -> None:
    bay = a_bay()
    bay.balls(3)
    drawn = parts(bay)["hand"]
    assert drawn.count('class="far"') == 2
    assert "Planned: middle. <b>Not seen yet</b>" in drawn
    assert "<b>27</b> <span>balls left</span>" in drawn
    assert "<b>39</b> <span>minutes left</span>" in drawn


def test_waiting_marks_stand_in_a_tray_with_their_mends() -> None:
    bay = a_bay()
    bay.balls(2)
    bay.do(tap(1, 1))
    bay.do(tap(13, 9))
    drawn = parts(bay)["wait"]
    assert "1 mark waits for a ball" in drawn
    assert "13 toe, 9 high" in drawn
    assert "Join to 1" in drawn
    # The bar has the button for it already.
    assert "Hit, not read" not in drawn
    assert parts(bay)["bar"].count("Hit, not read") == 1


def test_no_strike_is_drawn_that_nobody_marked_or_measured() -> None:
    bay = a_bay()
    bay.ball(drive(bay.rng, "Own", strike_toe=0.004, strike_high=0.002))
    assert face_marks(bay.now) == []
    known = a_bay(origins=dict.fromkeys(("strike toe", "strike high"), Origin.MEASURED))
    known.ball(drive(known.rng, "Own", strike_toe=0.004, strike_high=0.002))
    (mark,) = face_marks(known.now)
    assert (mark.toe, mark.high) == (0.004, 0.002)
    calculated = a_bay(origins=dict.fromkeys(("strike toe", "strike high"), Origin.CALCULATED))
    calculated.ball(drive(calculated.rng, "Own", strike_toe=0.004, strike_high=0.002))
    assert face_marks(calculated.now) == []


def test_ball_speed_and_carry_alone_draw_no_flight_and_say_what_is_not_said() -> None:
    bay = a_bay(origins={})
    for club in ("Own", "Ash"):
        if club != "Own":
            bay.hand(club)
        for place in range(4):
            bay.ball(ShotNumbers(ball_speed=66.0 + place, carry=(225.0 + place) * YARD))
    drawn = parts(bay)
    assert "as this device shows it" in drawn["fly"]
    assert "No flight is drawn" in drawn["fly"]
    assert "<svg" not in drawn["fly"].split("</h2>")[1]
    assert "Nothing is said of launch, loft, spin or sides." in drawn["doubts"]


def test_without_direction_nothing_is_said_of_left_and_right() -> None:
    bay = a_bay()
    bay.ball(drive(bay.rng, "Own", direction=None))
    figures = parts(bay)["fly"].split("</h2>")[0]
    assert "started" not in figures
    assert "carry" in figures


def test_a_changed_condition_is_a_stated_doubt() -> None:
    bay = a_bay()
    bay.balls(3)
    bay.hand("Ash")
    bay.do(StripChanged(strip=Strip(ball="range ball")))
    bay.balls(3)
    said = [doubt.say for doubt in doubts(stands(bay))]
    assert any("the ball differs" in one and "may be that and not the club" in one for one in said)
    assert "Range balls: differences yes, yards no." in said


def test_a_condition_changes_in_one_tap_to_the_next_value() -> None:
    assert after("mat", ("mat", "turf")) == "turf"
    assert after("turf", ("mat", "turf")) == "mat"
    assert after("", ("mat", "turf")) == "mat"
    bay = a_bay()
    assert 'name="surface" value="turf"' in parts(bay)["strip"]


def test_the_virtual_golfer_hits_in_invented_fittings_only() -> None:
    bay = a_bay()
    assert "Virtual golfer hits" not in parts(bay)["strip"]
    opened = bay.studio.store.fitting(bay.fitting)
    bay.studio.store.change_fitting(replace(opened.value, invented=True), version=opened.version)
    assert "Virtual golfer hits" in parts(bay)["strip"]
    bay.do(PainSaid())
    assert "Virtual golfer hits" not in parts(bay)["strip"]


def test_every_letter_is_listed_and_every_listed_letter_does_something(
    bay: Bay, client: WebClient
) -> None:
    bay.balls(2)
    bay.do(Vetoed(club="Ash"))
    text = client.get(bay.path).text
    used = set(re.findall(r'data-(?:key|focus)="(.)"', text))
    listed = {key for key, _ in KEYS}
    assert used <= listed
    elsewhere = {"s", "j", "t", "w", "h", "e", "r", "c"}
    assert listed - used <= elsewhere


def test_alarms_propose_their_mends() -> None:
    bay = a_bay()
    first = bay.balls(3)[0]
    now = stands(bay)
    late = alarm_doubt(now, Alarm(kind="shifted_marks", say=f"… {LATE} …", rows=(1, 2, 3)))
    assert [(one.act, one.fields) for one in late.taps] == [
        ("dropped-before", {"first": str(first.sequence)})
    ]
    early = alarm_doubt(now, Alarm(kind="shifted_marks", say="… early …", rows=(1, 2)))
    assert early.taps[0].fields == {"first": str(first.sequence), "by": "1"}
    run = alarm_doubt(now, Alarm(kind="strange_run", say="…", rows=(2, 3)))
    assert run.taps[0].to.endswith("/mends?first=2&last=3")
    club = alarm_doubt(now, Alarm(kind="still_this_club", say="Still Own?", rows=(3,)))
    assert club.taps[0].words == "Still Own"
    mirrored = alarm_doubt(now, Alarm(kind="mirrored_marks", say="…", rows=(1,)))
    assert mirrored.taps == ()  # nobody tapped: a device saw the strikes


def test_the_doubt_about_mirrored_marks_turns_them_in_one_tap() -> None:
    bay = a_bay()
    for _ in range(3):
        bay.balls(1)
        bay.do(tap(7, 1))
    found = alarm_doubt(stands(bay), Alarm(kind="mirrored_marks", say="…", rows=(1, 2, 3)))
    (one,) = found.taps
    assert (one.act, one.words) == ("mirror-marks", "Turn marks 1 to 3: toe for heel")
    balls = bay.now.balls
    assert one.fields == {"first": str(balls[0].sequence), "last": str(balls[2].sequence)}


def test_the_words_of_the_alarm_about_late_marks_are_those_looked_for() -> None:
    assert LATE in getsource(shifted_marks)


def test_a_set_is_the_newest_bare_balls_of_the_club_in_hand() -> None:
    bay = a_bay()
    bay.balls(2)
    bay.do(tap(1, 1))
    bay.hand("Ash")
    assert set_balls(bay.now) == ()
    balls = bay.balls(4)
    assert [one.sequence for one in set_balls(bay.now)] == [one.sequence for one in balls[1:]]


def test_a_left_hander_sees_the_toe_on_the_right() -> None:
    left, right_handed = a_bay(hand=Hand.LEFT), a_bay()
    assert 'data-toe-sign="1"' in parts(left)["face"]
    assert 'data-toe-sign="-1"' in parts(right_handed)["face"]
    assert 'data-toe-sign="1" data-high-sign="1"' in parts(right_handed, turned=True)["face"]


def test_feel_and_veto_are_of_the_club_in_hand() -> None:
    bay = a_bay()
    bay.do(Felt(club="Own", place=0.8, word="solid"))
    drawn = parts(bay)["feel"]
    assert 'aria-valuenow="80"' in drawn
    assert "near want it, “solid”" in drawn
    assert "Would not play it" in drawn


def test_one_act_carries_only_the_parts_that_it_changes() -> None:
    bay = a_bay()
    bay.balls(2)
    before = parts(bay)
    bay.do(Felt(club="Own", place=0.8), wait=0.0)
    later = parts(bay)
    assert {name for name in later if later[name] != before[name]} == {"feel", "bar"}


def test_parts_of_a_page_without_scripts_carry_key_and_revision() -> None:
    bay = a_bay()
    bay.ball()
    plain, live = parts(bay, plain=True), parts(bay)
    assert f'name="seen" value="{bay.now.upto}"' in plain["bar"]
    assert 'name="key"' in plain["bar"]
    assert 'name="seen"' not in live["bar"]


def test_a_rest_shows_and_is_over_after_it() -> None:
    bay = a_bay()
    bay.balls(12)
    assert "Rest now" in parts(bay)["care"]
    bay.do(Rested())
    assert "Rest now" not in parts(bay)["care"]


def test_the_golfers_screen_names_nothing_before_the_reveal() -> None:
    bay = a_bay()
    for club in ("Own", "Ash", "Birch"):
        if club != "Own":
            bay.hand(club)
        bay.balls(3)
        bay.do(tap(4, -3))
    hidden = "".join(screen_parts(stands(bay)).values())
    for club in ("Own", "Ash", "Birch", "Cedar", "--club-"):
        assert club not in hidden
    assert "4 mm toe, 3 mm low" in hidden
    assert "Ball 9" in hidden
    bay.do(Revealed())
    shown = "".join(screen_parts(stands(bay)).values())
    assert "Birch" in shown


@pytest.fixture
def bay() -> Bay:
    return a_bay()


@pytest.fixture
def client(bay: Bay) -> Iterator[WebClient]:
    pages = (acts.router, bay_page.router, mends.router, screen.router)
    with asking(create_app(bay.studio, routers=pages)) as made:
        yield made


def test_the_pages_of_the_bay_answer(bay: Bay, client: WebClient) -> None:
    bay.balls(3)
    for path in (bay.path, f"/fittings/{bay.fitting}/mends", f"/screen/{bay.fitting}"):
        answer = client.get(path)
        assert answer.status_code == 200
        assert "style=" not in answer.text
    assert client.get("/fittings/nobody/bay").status_code == 404


def test_the_view_of_the_face_is_remembered_on_the_device(bay: Bay, client: WebClient) -> None:
    assert 'data-high-sign="-1"' in client.get(bay.path).text
    answer = client.post(f"/fittings/{bay.fitting}/turn-face")
    assert (answer.status_code, answer.headers["location"]) == (303, bay.path)
    assert 'data-high-sign="1"' in client.get(bay.path).text
    client.post(f"/fittings/{bay.fitting}/turn-face")
    assert 'data-high-sign="-1"' in client.get(bay.path).text


def test_the_mends_name_convention_and_angles_and_preset_the_newest_run(
    bay: Bay, client: WebClient
) -> None:
    bay.balls(3)
    bay.hand("Ash")
    bay.balls(2)
    text = client.get(f"/fittings/{bay.fitting}/mends").text
    assert "Convention C: the face is squared" in text
    assert "12.3°" in text  # 10.5 deg and a bore of 1.5 deg towards the target give +1.77
    assert 'name="first_ball" min="1" max="5" value="4"' in text
    chosen = client.get(f"/fittings/{bay.fitting}/mends?first=2&last=3").text
    assert 'name="first_ball" min="1" max="5" value="2"' in chosen


def test_what_was_set_aside_by_hand_comes_back_by_one_tap(bay: Bay, client: WebClient) -> None:
    ghost = bay.ball()
    at = f"/fittings/{bay.fitting}"
    client.post(f"{at}/acts/not-ours", data={"ball_of": ghost.sequence})
    bay.ball()
    text = client.get(f"{at}/mends").text
    assert "1 reading not ours" in text
    sequence = bay.now.undoable
    assert sequence is not None
    client.post(f"{at}/acts/undo", data={"act": sequence.sequence, "back": f"{at}/mends"})
    assert len(bay.now.balls) == 2


def test_three_balls_at_once_are_computed_once_and_the_newest_wins(bay: Bay) -> None:
    runner = EvidenceRunner(bay.studio, Desk())
    first = runner.newest(bay.fitting)
    assert runner.newest(bay.fitting) is first
    bay.balls(3)
    newest = runner.newest(bay.fitting)
    assert newest.now.upto == bay.now.upto
    bay.clock.forward(1.0)
    assert runner.newest(bay.fitting) is not newest


def test_two_golfers_know_whose_turn_it_is() -> None:
    first = a_bay(name="Wilbert Ames")
    second = a_bay(
        name="Ottilie Ames", partner=first.fitting, studio=first.studio, clock=first.clock
    )
    assert "Ottilie hits" in parts(first)["strip"]
    waiting = stands(second)
    waiting = replace(waiting, turn=first.fitting)
    assert bar_view(waiting, None).right[0].words == "Ottilie hits"
    assert "Wilbert Ames hits now." in bay_parts(waiting, Drawing())["say"]
