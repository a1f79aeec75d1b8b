"""The page of pick-up balls: every state, both forms, stale pages, and the shop's own units."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape

import pytest

from loftwright.constants import DEGREE
from loftwright.domain.check_acts import Against, PickedUp, PickUpBegun
from loftwright.domain.golfer import Hand
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.order_acts import Withdrawn
from loftwright.report.pick_up_words import COME_BACK, SCREW, STOP, TURN_NOTHING
from loftwright.services.demo_studio import DemoStudio, fill_demo
from loftwright.services.evidence import Desk
from loftwright.services.job import job_act
from loftwright.services.pick_up import end_pick_up
from loftwright.services.pick_up_bars import begun_now, picked_now
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio, new_id
from loftwright.services.terms import change_terms, read_terms
from loftwright.web.pages import job, pick_up
from loftwright.web.plan_forms import LEFT_CHECKS
from pick_ups import TESTED, Built, ready
from studios import Clock, app_of, studio_in_memory
from web_client import WebClient, asking

TOLD = {f"told_{place}": "yes" for place in range(4)}
TRADE = re.compile(r"\b(yd|mph|ft|yards?|inch(es)?)\b|(?<![\d.])\d+\.\d+(?![\d.])")


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def demo(studio: Studio) -> DemoStudio:
    made = fill_demo(studio)
    assert made is not None
    return made


@pytest.fixture
def built(studio: Studio, clock: Clock, demo: DemoStudio) -> Built:
    return ready(studio, clock, demo)


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, pick_up.router, job.router)) as made:
        yield made


def at(fitting: str) -> str:
    return f"/fittings/{fitting}/final-check/pick-up"


def page(client: WebClient, fitting: str) -> str:
    answer = client.get(at(fitting))
    assert answer.status_code == 200
    return answer.text


def plain(text: str) -> str:
    bare = re.sub(r"<(script|style).*?</\1>", "", text, flags=re.DOTALL)
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", bare)))


def heading(text: str) -> str:
    found = re.search(r"<h1>(.*?)</h1>", text, re.DOTALL)
    assert found is not None
    return plain(found.group(1)).strip()


def start(client: WebClient, built: Built, **more: str) -> dict[str, str]:
    """Return the form as the page offers it, with more."""
    text = page(client, built.fitting)
    form = text[text.index(f'action="{at(built.fitting)}/begin') :]
    form = form[: form.index("</form>")]
    told: dict[str, str] = {}
    for tag in re.findall(r"<input[^>]*>", form):
        if 'type="radio"' not in tag and 'type="checkbox"' not in tag:
            name, value = (re.search(rf' {one}="([^"]*)"', tag) for one in ("name", "value"))
            assert name is not None
            told[name.group(1)] = unescape(value.group(1)) if value else ""
    for name, options in re.findall(
        r'<select[^>]*name="(\w+)".*?>(.*?)</select>', form, re.DOTALL
    ):
        chosen = re.search(r'value="([^"]*)" selected', options)
        told[name] = unescape(chosen.group(1)) if chosen else ""
    return told | more


def test_a_fitting_without_an_order_says_where_to_go(client: WebClient, demo: DemoStudio) -> None:
    text = page(client, demo.finished)
    assert heading(text) == "No pick-up balls: no club is ordered yet."
    assert f'href="/fittings/{demo.finished}/order"' in text
    assert "<form" not in text[text.index("<main") : text.index("</main>")]


def test_an_order_that_is_off_says_so(client: WebClient, built: Built) -> None:
    job_act(built.studio, built.fitting, [Withdrawn(reason="moved away")])
    assert heading(page(client, built.fitting)) == (
        "No pick-up balls: the order is off: moved away."
    )


def test_the_form_holds_device_and_ball_of_the_tested_day(client: WebClient, built: Built) -> None:
    told = start(client, built)
    assert told["device"] == "Bay meter (invented)"
    assert (told["ball"], told["tee"], told["surface"]) == ("premium, new", "40 mm", "mat")
    assert (told["place"], told["treatment"]) == ("indoors", "spray")
    text = plain(page(client, built.fitting))
    assert "The built club can be hit against" in text
    assert "This fitting is closed. Beginning opens it again" in text


def test_the_beginning_goes_to_the_bay(client: WebClient, built: Built) -> None:
    answer = client.post(f"{at(built.fitting)}/begin", data=start(client, built, pain="no"))
    assert answer.status_code == 303
    assert answer.headers["location"] == f"/fittings/{built.fitting}/bay"
    begun = begun_now(built.studio.store.job_record(built.fitting))
    assert begun == PickUpBegun(built="Fir", tested=TESTED, visit=1)
    text = page(client, built.fitting)
    assert heading(text) == "No ball yet with the built club or the tested one."
    assert 'class="btn go" href="/fittings/' in text


def test_an_unasked_pain_keeps_what_was_typed(client: WebClient, built: Built) -> None:
    told = start(client, built, ball="worn, found in the pond", tee="tall")
    answer = client.post(f"{at(built.fitting)}/begin", data=told)
    assert answer.status_code == 422
    assert "It was not asked." in plain(answer.text)
    assert 'value="worn, found in the pond"' in answer.text
    assert 'value="tall"' in answer.text
    assert built.now.closed


def test_pain_stops_and_writes_nothing(client: WebClient, built: Built) -> None:
    before = built.now.upto
    answer = client.post(f"{at(built.fitting)}/begin", data=start(client, built, pain="yes"))
    assert answer.status_code == 200
    assert "doctor" in answer.text
    assert built.now.upto == before


def test_a_left_hander_s_bay_is_looked_at(client: WebClient, built: Built) -> None:
    golfer = built.studio.store.fitting(built.fitting).value.golfer
    known = built.studio.store.golfer(golfer)
    left = replace(known.value, hand=Hand.LEFT)
    built.studio.store.change_golfer(left, version=known.version)
    answer = client.post(f"{at(built.fitting)}/begin", data=start(client, built, pain="no"))
    assert answer.status_code == 422
    assert "Not looked at yet" in plain(answer.text)
    looked = {name: "yes" for name, _ in LEFT_CHECKS}
    told = start(client, built, pain="no") | looked
    assert client.post(f"{at(built.fitting)}/begin", data=told).status_code == 303


def test_a_stale_page_begins_nothing(client: WebClient, built: Built) -> None:
    told = start(client, built, pain="no", ball="mine")
    job_act(built.studio, built.fitting, [Withdrawn(reason="moved away")])
    answer = client.post(f"{at(built.fitting)}/begin", data=told)
    assert answer.status_code == 409
    assert heading(answer.text).startswith("No pick-up balls: the order is off")
    assert built.now.closed


def test_few_balls_are_counted(client: WebClient, built: Built) -> None:
    name = built.begin()
    built.hit(TESTED, 3)
    built.hit(name, 1, as_club=TESTED)
    assert heading(page(client, built.fitting)) == "Too few balls yet: 4 of 7."


def test_a_device_that_gives_too_little_is_told_so(client: WebClient, built: Built) -> None:
    built.begin()
    built.hand_over(TESTED)
    ball = Incoming(
        numbers=ShotNumbers(ball_speed=66.0, carry=210.0), key=new_id(), device="Slate"
    )
    take(built.studio, built.fitting, ball, source="feed")
    assert heading(page(client, built.fitting)) == (
        "Nothing can be said: this device gives no launch and spin."
    )


def test_an_answer_has_its_picture_and_both_clubs_means(client: WebClient, built: Built) -> None:
    name = built.begin()
    built.rotate(name)
    text = page(client, built.fitting)
    rows = re.findall(r'<tr><th scope="row">([^<]+)</th>(.*?)</tr>', text, re.DOTALL)
    assert [row for row, _ in rows] == [
        "Ball speed",
        "Launch",
        "Start line",
        "Spin",
        "Spin axis",
        "Total at home",
    ]
    assert all(cells.count("<td") == 7 for _, cells in rows)
    assert f"{name} less {TESTED}, each number with its range against its margin" in text
    assert f"8 balls with {name}" in plain(text).replace("  ", " ")


def test_a_club_that_differs_is_told_and_left_here(client: WebClient, built: Built) -> None:
    built.rotate(built.begin(), stronger=6.0 * DEGREE)
    text = page(client, built.fitting)
    assert re.match(r"Not the same: .*launch \d\.\d° lower.*, beyond doubt\.", heading(text))
    assert "differs" in text
    key = {"taken": "no", "note": "loft to be looked at", "seen": seen(text)}
    assert client.post(f"{at(built.fitting)}/end", data=key).status_code == 303
    picked = picked_now(built.studio.store.job_record(built.fitting))
    assert picked == PickedUp(against=Against.NOT, taken=False, note="loft to be looked at")
    assert heading(page(client, built.fitting)) == (
        "The golfer left the club here; the balls were not those of the tested club."
    )


def seen(text: str) -> str:
    found = re.search(r'name="seen" value="(\d+)"', text)
    assert found is not None
    return found.group(1)


def test_a_club_is_handed_over_with_every_line_told(client: WebClient, built: Built) -> None:
    built.rotate(built.begin())
    told = {"taken": "yes", "seen": seen(page(client, built.fitting)), "note": "likes the sound"}
    few = client.post(f"{at(built.fitting)}/end", data=told | {"told_0": "yes"})
    assert few.status_code == 422
    assert "Not everything was told." in plain(few.text)
    assert re.search(r'name="told_0" value="yes" checked', few.text)
    assert "likes the sound</textarea>" in few.text
    assert client.post(f"{at(built.fitting)}/end", data=told | TOLD).status_code == 303
    picked = picked_now(built.studio.store.job_record(built.fitting))
    assert picked is not None
    assert picked.taken
    assert picked.told == (SCREW, TURN_NOTHING, STOP, COME_BACK)
    assert picked.against in {Against.CONSISTENT, Against.CANNOT_TELL}
    assert heading(page(client, built.fitting)).startswith("The golfer has the club; the balls")


def test_a_club_that_stays_needs_a_reason(client: WebClient, built: Built) -> None:
    built.begin()
    told = {"taken": "no", "seen": seen(page(client, built.fitting))}
    answer = client.post(f"{at(built.fitting)}/end", data=told)
    assert answer.status_code == 422
    assert "nobody says why" in plain(answer.text)


def test_a_stale_hand_over_is_not_written(client: WebClient, built: Built) -> None:
    built.begin()
    old = seen(page(client, built.fitting))
    end_pick_up(built.studio, Desk(), built.fitting, taken=False, told=(), note="grip", by="Bench")
    told = {"taken": "yes", "seen": old, "note": "mine"} | TOLD
    answer = client.post(f"{at(built.fitting)}/end", data=told)
    assert answer.status_code == 409
    assert "mine</textarea>" in answer.text
    picked = picked_now(built.studio.store.job_record(built.fitting))
    assert picked is not None
    assert not picked.taken


def test_a_taken_club_can_be_hit_again_after_a_complaint(client: WebClient, built: Built) -> None:
    end_pick_up(built.studio, Desk(), built.fitting, taken=True, told=())
    text = page(client, built.fitting)
    assert "Hit it again, after a complaint" in text
    answer = client.post(f"{at(built.fitting)}/begin", data=start(client, built, pain="no"))
    assert answer.status_code == 303
    begun = begun_now(built.studio.store.job_record(built.fitting))
    assert begun is not None
    assert begun.complaint


def test_what_was_done_last_can_be_undone(client: WebClient, built: Built) -> None:
    end_pick_up(built.studio, Desk(), built.fitting, taken=True, told=())
    text = page(client, built.fitting)
    assert "Undo pick-up" in text
    form = text[text.index("/job/undo") :]
    act = re.search(r'name="act" value="(\d+)"', form)
    assert act is not None
    back = {"act": act.group(1), "seen": seen(form), "back": at(built.fitting)}
    assert client.post(f"/fittings/{built.fitting}/job/undo", data=back).status_code == 303
    assert heading(page(client, built.fitting)).startswith("The built club can be hit")


def test_another_ball_is_named_on_the_page(client: WebClient, built: Built) -> None:
    client.post(f"{at(built.fitting)}/begin", data=start(client, built, pain="no", ball="range"))
    told = plain(page(client, built.fitting))
    assert "The ball: premium, new then, range now." in told
    assert "Today it falls on both clubs alike" in told


def test_a_tested_club_that_is_gone_is_told_before_it_begins(
    client: WebClient, built: Built
) -> None:
    rack = built.studio.store.rack()
    club = built.now.club(TESTED)
    assert club is not None
    made = rack.assemblies[club.card.assembly]
    kept = replace(made, shaft=built.now.clubs[2].card.shaft_piece)
    built.studio.store.put(kept, version=built.studio.store.item(made.id).version)
    told = plain(page(client, built.fitting))
    assert f"{TESTED} has other parts now: only its balls of the earlier day stand" in (
        told.replace(f" {TESTED} ", f"{TESTED} ")
    )
    assert "3 balls with Own" in told.replace("  ", " ")


def test_the_shop_s_tolerances_move_what_the_build_explains(
    client: WebClient, built: Built
) -> None:
    built.rotate(built.begin())

    def explained() -> float:
        row = re.search(r'<th scope="row">Launch</th>(.*?)</tr>', page(client, built.fitting))
        assert row is not None
        return float(re.findall(r"±([\d.]+)°", row.group(1))[0])

    before = explained()
    known = read_terms(built.studio)
    wide = replace(known.terms.tolerances, loft=2.0 * DEGREE)
    change_terms(built.studio, replace(known.terms, tolerances=wide), version=known.version)
    assert explained() > before + 1.0


def test_the_page_speaks_in_the_shop_s_units(client: WebClient, built: Built) -> None:
    built.rotate(built.begin())
    known = read_settings(built.studio)
    metric = replace(known.settings, units="metric", decimal="comma")
    change_settings(built.studio, metric, version=known.version)
    text = plain(page(client, built.fitting))
    assert TRADE.findall(text) == []
    assert re.search(r"\d,\d m/s", text)
    assert re.search(r"\d,\d m\b", text)


def test_a_training_case_has_no_such_page(client: WebClient) -> None:
    path = at("training-00000000-0000-0000-0000-000000000000")
    assert client.get(path).status_code == 404
