"""Parts on their page: checked in, held against the tested club, mended, sent back, undone."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape

import pytest

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.golfer import Hand
from loftwright.domain.measured_card import PartFigures
from loftwright.domain.order import Kept
from loftwright.domain.order_acts import Agreed, Quoted, Withdrawn
from loftwright.domain.parts_acts import Matter, Part, PartCame, PartSettled, Settled
from loftwright.domain.rack import SleeveSetting
from loftwright.domain.tolerances import Tolerances
from loftwright.physics.sleeve import Convention
from loftwright.services.job import job_act
from loftwright.services.measured_cards import keep_measured
from loftwright.services.parts import check_in, parts_standing, settle
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.services.terms import change_terms, read_terms
from loftwright.workshop.parts import State
from loftwright.workshop.stages import agreed_quote
from ordered import HEAD, a_head_came, an_order
from studios import app_of, studio_in_memory
from web_client import WebClient, asking

BOTH = a_head_came(mass=197.0 * GRAM, loft=9.5 * DEGREE)
TYPED = {
    "ordered": "yes",
    "hand": "right",
    "mass": "197",
    "loft": "9.5",
    "lie": "58",
    "face": "0",
    "serial": "H-17",
}


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio)) as made:
        yield made


def at(fitting: str, more: str = "") -> str:
    return f"/fittings/{fitting}/build/parts{more}"


def words(client: WebClient, fitting: str) -> str:
    answer = client.get(at(fitting))
    assert answer.status_code == 200
    return read(answer.text)


def read(page: str) -> str:
    bare = re.sub(r"<(script|style|svg).*?</\1>", "", page, flags=re.DOTALL)
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", bare)))


def told(studio: Studio, **changes: object) -> None:
    known = read_settings(studio)
    change_settings(studio, replace(known.settings, **changes), version=known.version)  # type: ignore[arg-type]


def test_without_an_order_the_page_says_what_is_missing(client: WebClient, studio: Studio) -> None:
    text = words(client, an_order(studio, agreed=False).fitting)
    assert "No order is agreed" in text
    assert "Check it in" not in text


def test_an_order_that_is_off_says_why(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    job_act(studio, made.fitting, [Withdrawn(reason="moved away")])
    text = words(client, made.fitting)
    assert "The order is off" in text
    assert "moved away" in text


def test_a_training_case_has_no_such_page(client: WebClient) -> None:
    assert client.get(at("training-1")).status_code == 404


def test_a_kept_club_awaits_nothing(client: WebClient, studio: Studio) -> None:
    made = an_order(studio, kept=Kept.CLUB)
    assert "Nothing has to come" in words(client, made.fitting)


def test_every_awaited_part_is_named(client: WebClient, studio: Studio) -> None:
    text = words(client, an_order(studio).fitting)
    assert "Nothing has come yet: head, shaft, grip and sleeve are awaited." in text
    assert "measured card of 25 November 2026" in text


def test_a_light_strong_head_is_said_first_and_its_mends_after(
    client: WebClient, studio: Studio
) -> None:
    made = an_order(studio)
    answer = client.post(at(made.fitting, "/head"), data=TYPED)
    assert answer.status_code == 303
    text = words(client, made.fitting)
    assert "The head is 3.0 g light and 1.0° strong: settle it before anything is glued." in text
    assert "Add 3.0 g to the head" in text
    assert "the swingweight comes out about 1.8 points lower" in text
    assert (
        "Turn the sleeve to one up (grip end 0.85° to the target): loft 10.5°, lie 58.0°, the"
        in text
    )
    assert "soled flat, its face sits 1.6° more closed" in text
    assert "about −0.8° launch and −190 rpm of spin, computed, not hit" in text


def test_settling_both_writes_both_and_cautions_of_every_setting(
    client: WebClient, studio: Studio
) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    chosen = {"mass": "head_weight", "angles": "turn_sleeve:one up", "why": "agreed by phone"}
    assert client.post(at(made.fitting, "/head/settle"), data=chosen).status_code == 303
    now = parts_standing(studio, made.fitting)
    settled = now.parts[Part.HEAD].settled
    assert settled[Matter.MASS].mass == pytest.approx(3.0 * GRAM)
    assert settled[Matter.ANGLES].setting == "one up"
    text = words(client, made.fitting)
    assert "every setting has to keep to the Rules" in text
    assert "3.0 g go into the head: agreed by phone" in text
    assert "to be set to one up; ordered middle" in text
    assert "What came is settled; shaft, grip and sleeve are still to come." in text


@pytest.mark.parametrize(
    ("typed", "status", "said"),
    [("2.5", 303, "2.5 g go into the head"), ("30", 422, "30.0 g does not bring this head")],
)
def test_what_is_put_into_a_head_may_be_another_weight(
    client: WebClient, studio: Studio, typed: str, status: int, said: str
) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    page = client.get(at(made.fitting)).text
    assert re.search(r'name="added"[^>]* value="3"', page)
    chosen = {"mass": "head_weight", "added": typed}
    answer = client.post(at(made.fitting, "/head/settle"), data=chosen)
    assert answer.status_code == status
    assert said in (words(client, made.fitting) if status == 303 else read(answer.text))


def test_what_a_setting_leaves_over_has_a_verdict(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    text = words(client, made.fitting)
    assert "more closed Within what is allowed." in text
    assert "More than is allowed. To the ball: about −0.8° launch" in text


def test_the_shop_s_own_tolerance_decides(client: WebClient, studio: Studio) -> None:
    terms = read_terms(studio)
    wide = replace(terms.terms, tolerances=Tolerances(part_mass=4.0 * GRAM))
    change_terms(studio, wide, version=terms.version)
    made = an_order(studio)
    check_in(studio, made.fitting, a_head_came(mass=197.0 * GRAM))
    assert parts_standing(studio, made.fitting).parts[Part.HEAD].state is State.FITS
    assert "± 4.0 g" in words(client, made.fitting)


def test_an_outside_builder_is_named(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    quoted = agreed_quote(studio.store.job_record(made.fitting))
    assert quoted is not None
    quote = replace(quoted.quote, builder="Bodkin and Sons")
    job_act(studio, made.fitting, [Quoted(quote=quote), Agreed(name="I. T.")])
    assert "Bodkin and Sons builds it: check in what comes here" in words(client, made.fitting)


def test_a_card_of_the_whole_club_is_named_as_such(client: WebClient, studio: Studio) -> None:
    made = an_order(studio, card=None)
    keep_measured(studio, made.club.id, PartFigures(loft=10.5 * DEGREE))
    assert "held to the measured card of the whole tested club" in words(client, made.fitting)


def test_one_undo_takes_both_decisions_back(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    chosen = {"mass": "head_weight", "angles": "turn_sleeve:one up"}
    client.post(at(made.fitting, "/head/settle"), data=chosen)
    record = studio.store.job_record(made.fitting)
    data = {"act": str(record[-1].sequence), "back": at(made.fitting)}
    answer = client.post(f"/fittings/{made.fitting}/job/undo", data=data)
    assert answer.headers["location"] == at(made.fitting)
    assert parts_standing(studio, made.fitting).parts[Part.HEAD].state is State.OUT


def test_sending_back_awaits_another(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    data = {"mass": "head_weight", "back": "yes", "why": "twice out"}
    assert client.post(at(made.fitting, "/head/settle"), data=data).status_code == 303
    text = words(client, made.fitting)
    assert "The head goes back; another is awaited." in text
    assert "Measured anew" not in text
    assert "it goes back: twice out" in text
    assert "Settle it" not in text


def test_a_second_head_takes_the_place_of_one_that_went_back(
    client: WebClient, studio: Studio
) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    client.post(at(made.fitting, "/head/settle"), data={"back": "yes"})
    page = client.get(at(made.fitting)).text
    assert 'value="197"' not in page
    assert "H-17" not in page
    good = TYPED | {"mass": "200.2", "loft": "10.4", "serial": "H-18"}
    assert client.post(at(made.fitting, "/head"), data=good).status_code == 303
    assert parts_standing(studio, made.fitting).parts[Part.HEAD].state is State.FITS


def test_where_the_grip_end_leans_is_said_in_words_or_degrees(
    client: WebClient, studio: Studio
) -> None:
    leaning = {315.0: "at 315° from the target", 270.0: "away from the player"}
    for azimuth, said in leaning.items():
        settings = (
            SleeveSetting(name="middle"),
            SleeveSetting(name="B", bore=0.85 * DEGREE, azimuth=azimuth * DEGREE),
        )
        made = an_order(studio, settings=settings)
        check_in(studio, made.fitting, a_head_came(loft=9.8 * DEGREE, lie=57.2 * DEGREE))
        assert f"Turn the sleeve to B (grip end 0.85° {said})" in words(client, made.fitting)


def test_choosing_nothing_keeps_the_page(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    answer = client.post(at(made.fitting, "/head/settle"), data={"why": "later"})
    assert answer.status_code == 422
    assert "Nothing was chosen. Choose what is done." in read(answer.text)
    assert 'value="later"' in answer.text


def test_a_slip_of_units_is_named_and_everything_typed_is_kept(
    client: WebClient, studio: Studio
) -> None:
    made = an_order(studio)
    answer = client.post(at(made.fitting, "/head"), data=TYPED | {"mass": "195 oz"})
    assert answer.status_code == 422
    assert "cannot be. Give 120 to 260 g; look at the unit." in read(answer.text)
    assert 'value="195 oz"' in answer.text
    assert 'value="9.5"' in answer.text
    assert len(studio.store.job_record(made.fitting)) == 2


def test_seven_ounces_are_a_head(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    assert client.post(at(made.fitting, "/head"), data=TYPED | {"mass": "7 oz"}).status_code == 303
    mass = parts_standing(studio, made.fitting).parts[Part.HEAD].held[0].reading
    assert mass == pytest.approx(198.4 * GRAM, abs=0.1 * GRAM)


def test_what_is_written_on_it_and_its_hand_have_to_be_looked_at(
    client: WebClient, studio: Studio
) -> None:
    made = an_order(studio)
    bare = {name: value for name, value in TYPED.items() if name not in {"ordered", "hand"}}
    answer = client.post(at(made.fitting, "/head"), data=bare)
    assert answer.status_code == 422
    text = read(answer.text)
    assert "Nobody looked at what is written on it." in text
    assert "Nobody looked for which hand it is." in text


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"hand": "left"}, "It is for the other hand."),
        ({"ordered": "no", "named": "Lapwing 9"}, "It is Lapwing 9."),
    ],
)
def test_another_model_or_hand_is_not_what_was_ordered(
    client: WebClient, studio: Studio, changes: dict[str, str], said: str
) -> None:
    made = an_order(studio)
    assert client.post(at(made.fitting, "/head"), data=TYPED | changes).status_code == 303
    text = words(client, made.fitting)
    assert "The head is not what was ordered." in text
    assert said in text
    assert "Send it back" in text
    assert "Turn the sleeve" not in text


def test_something_else_needs_its_name(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    answer = client.post(at(made.fitting, "/head"), data=TYPED | {"ordered": "no"})
    assert answer.status_code == 422
    assert "Write what is on it." in read(answer.text)


def test_missing_figures_are_asked_for_by_name(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    client.post(at(made.fitting, "/head"), data=TYPED | {"loft": "", "mass": "200"})
    text = words(client, made.fitting)
    assert "The head is not measured to the end." in text
    assert "Measure its loft: nothing is guessed." in text


def test_a_tested_head_without_a_card_says_what_it_is_held_to(
    client: WebClient, studio: Studio
) -> None:
    made = an_order(studio, card=None)
    check_in(studio, made.fitting, a_head_came())
    text = words(client, made.fitting)
    assert "has no measured card: its angles are those it joined the fitting with" in text
    assert "Nobody weighed the tested head" in text
    assert "as it joined the fitting" in text


def test_a_shaft_cannot_balance_beyond_its_end(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    data = {"ordered": "yes", "mass": "60", "length": "36", "balance": "37"}
    answer = client.post(at(made.fitting, "/shaft"), data=data)
    assert answer.status_code == 422
    assert "It balances at 37.00 in and is 36.00 in long." in read(answer.text)


def test_a_frequency_wants_its_clamp_and_weight(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    data = {"ordered": "yes", "mass": "60", "length": "46", "balance": "23.5", "frequency": "254"}
    answer = client.post(at(made.fitting, "/shaft"), data=data)
    assert answer.status_code == 422
    assert read(answer.text).count("Frequency, clamp and weight belong together.") == 2


def test_a_stale_page_changes_nothing(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    answer = client.post(at(made.fitting, "/head"), data=TYPED | {"seen": "2"})
    assert answer.status_code == 409
    assert "wrote something in the meantime" in read(answer.text)
    assert 'value="197"' in answer.text
    assert len(studio.store.job_record(made.fitting)) == 3


def test_a_form_that_is_sent_twice_writes_once(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    for _ in range(2):
        answer = client.post(at(made.fitting, "/head"), data=TYPED | {"key": "k1", "seen": "2"})
        assert answer.status_code == 303
    assert len(studio.store.job_record(made.fitting)) == 3


def test_no_such_part_is_not_found(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    assert client.post(at(made.fitting, "/ferrule"), data=TYPED).status_code == 404


def test_a_left_hander_s_open_face_starts_left(client: WebClient, studio: Studio) -> None:
    told(studio, convention=Convention.B)
    starts = {Hand.RIGHT: "further right", Hand.LEFT: "further left"}
    for hand, side in starts.items():
        made = an_order(studio, hand=hand)
        check_in(studio, made.fitting, a_head_came(face=1.0 * DEGREE))
        text = words(client, made.fitting)
        assert "The head is 1.0° open" in text
        assert f"a start 0.8° {side}, computed, not hit" in text
        assert f"{hand.value}-handed" in text


def test_metric_and_comma_hold_for_every_figure(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    told(studio, units="metric", decimal="comma")
    data = TYPED | {"mass": "197,0", "loft": "9,5"}
    assert client.post(at(made.fitting, "/head"), data=data).status_code == 303
    shaft = {"ordered": "yes", "mass": "61,2", "length": "1168", "balance": "600"}
    assert client.post(at(made.fitting, "/shaft"), data=shaft).status_code == 303
    text = words(client, made.fitting)
    assert "The head is 3,0 g light and 1,0° strong" in text
    assert "1168 mm" in text
    assert not re.search(r"\d\.\d", text.replace("10.5, right-handed", ""))


def test_a_heavy_head_says_which_part_would_have_to_give(
    client: WebClient, studio: Studio
) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, a_head_came(mass=203.0 * GRAM))
    text = words(client, made.fitting)
    assert "The head is 3.0 g heavy" in text
    assert "about 1.8 points higher; to bring it back a grip about 9 g heavier, a shaft" in text
    assert "Add " not in text


def test_a_sleeve_that_nobody_measured_says_so(client: WebClient, studio: Studio) -> None:
    settings = (SleeveSetting(name="middle"), SleeveSetting(name="one up"))
    made = an_order(studio, settings=settings)
    check_in(studio, made.fitting, BOTH)
    text = words(client, made.fitting)
    assert "Nobody measured what the settings of this sleeve turn" in text
    assert "Turn the sleeve" not in text


def test_soled_flat_no_setting_brings_the_loft_back_and_the_page_says_it(
    client: WebClient, studio: Studio
) -> None:
    told(studio, convention=Convention.B)
    made = an_order(studio)
    check_in(studio, made.fitting, BOTH)
    assert "No setting of this sleeve comes nearer than middle." in words(client, made.fitting)


def test_a_glued_hosel_offers_no_turn(client: WebClient, studio: Studio) -> None:
    made = an_order(studio, settings=(), setting="")
    check_in(studio, made.fitting, BOTH)
    assert "The hosel is glued: no setting makes it good." in words(client, made.fitting)


def test_without_a_promise_the_page_says_why_no_ball_is_told(
    client: WebClient, studio: Studio
) -> None:
    made = an_order(studio, promise=None)
    check_in(studio, made.fitting, BOTH)
    assert "What this does to the ball cannot be computed" in words(client, made.fitting)


def test_a_shaft_that_differs_says_what_keeping_it_does(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    figures = PartFigures(mass=60.0 * GRAM, length=46.0 * INCH, balance=23.5 * INCH)
    keep_measured(studio, made.spec.shaft_piece, figures)
    came = PartCame(part=Part.SHAFT, figures=replace(figures, mass=64.0 * GRAM))
    check_in(studio, made.fitting, came)
    text = words(client, made.fitting)
    assert "The shaft is 4.0 g heavy" in text
    assert "Keep it: as it is, the swingweight comes out about 0.6 points higher" in text
    assert (
        client.post(at(made.fitting, "/shaft/settle"), data={"whole": "keep"}).status_code == 303
    )
    assert parts_standing(studio, made.fitting).parts[Part.SHAFT].state is State.SETTLED


def test_the_page_is_drawn_with_what_is_allowed(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    assert "<figure" not in client.get(at(made.fitting)).text
    check_in(studio, made.fitting, BOTH)
    page = client.get(at(made.fitting)).text
    assert 'aria-label="Head, weight: 3.0 g light. Head, loft: 1.0° strong.' in unescape(page)


def test_a_settled_part_may_be_decided_anew(client: WebClient, studio: Studio) -> None:
    made = an_order(studio)
    check_in(studio, made.fitting, replace(BOTH, figures=replace(HEAD, loft=9.5 * DEGREE)))
    keep = PartSettled(part=Part.HEAD, settled=Settled.KEEP, matter=Matter.ANGLES)
    settle(studio, made.fitting, [keep])
    assert "its angles stay as they are" in words(client, made.fitting)
    data = {"angles": "turn_sleeve:one up"}
    assert client.post(at(made.fitting, "/head/settle"), data=data).status_code == 303
    assert "the sleeve goes to one up" in words(client, made.fitting)


def test_the_workshop_checks_parts_in_without_the_golfer_s_name(
    client: WebClient, studio: Studio
) -> None:
    ordered = an_order(studio)
    path = f"/build/{ordered.fitting}/parts"
    page = client.get(path)
    assert page.status_code == 200
    assert "Thrupp" not in page.text
    came = client.post(f"{path}/head", data=TYPED)
    assert came.status_code == 303
    assert came.headers["location"] == f"{path}#head"
    text = client.get(path).text
    assert "Thrupp" not in text
    assert "3.0 g light and 1.0° strong" in read(text)
    act = re.search(r'name="act" value="(\d+)"', text)
    assert act is not None
    undone = client.post(
        f"/build/{ordered.fitting}/undo", data={"act": act.group(1), "back": path}
    )
    assert undone.headers["location"] == path
    assert "Nothing has come yet" in read(client.get(path).text)
