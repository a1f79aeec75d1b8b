"""The final check's page: verdicts in a round trip, receipts, rounds, the workshop's view."""

import re
from collections.abc import Iterator
from html import unescape
from typing import Any

import pytest

from final_checks import BUILD, TYPED, a_bond, a_built_job, a_golfers_fitting, a_receipt, readings
from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.order_acts import Withdrawn
from loftwright.domain.sheet_acts import SheetIssued
from loftwright.services.final_check import keep_check
from loftwright.services.job import job_act
from loftwright.services.settings import Settings, change_settings
from loftwright.services.studio import Studio
from loftwright.web.pages import final_check, job
from loftwright.workshop.final import HandCheck
from loftwright.workshop.stages import stages_done
from loftwright.workshop.standing import newest, standing
from studios import Clock, app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, final_check.router, job.router)) as made:
        yield made


def at(fitting: str) -> str:
    return f"/fittings/{fitting}/final-check"


def text_of(page: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", page)))


def asked(client: WebClient, fitting: str, status: int = 200, **changed: Any) -> str:  # noqa: ANN401
    answer = client.post(at(fitting), data={**TYPED, "act": "check", **changed})
    assert answer.status_code == status, answer.text
    return answer.text


def kept(client: WebClient, fitting: str, status: int = 303, **changed: Any) -> str:  # noqa: ANN401
    answer = client.post(at(fitting), data={**TYPED, "act": "keep", **changed})
    assert answer.status_code == status, answer.text
    return answer.text


def received(studio: Studio, fitting: str) -> Received | None:
    return newest(standing(studio.store.job_record(fitting)), Received)


def heading(page: str) -> str:
    return text_of(page.partition("<h1>")[2].partition("</h1>")[0]).strip()


def test_without_a_sheet_the_page_says_what_is_missing(client: WebClient, studio: Studio) -> None:
    fitting = a_golfers_fitting(studio)
    page = client.get(at(fitting)).text
    assert heading(page) == "There is no build sheet yet to check a club against."
    assert 'id="receipt"' not in page
    assert "Issue the build sheet first." in asked(client, fitting, 422)


def test_an_order_that_is_off_takes_no_receipt(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio, Withdrawn(reason="moved away"))
    page = client.get(at(fitting)).text
    assert heading(page) == "The order is off: no club is checked."
    assert "moved away" in page
    assert "The order is off." in text_of(kept(client, fitting, 409))
    assert received(studio, fitting) is None


def test_a_curing_club_is_left_alone_until_its_time(
    client: WebClient, studio: Studio, clock: Clock
) -> None:
    fitting = a_built_job(studio, hours=5.0)
    page = client.get(at(fitting)).text
    assert "before 17:00 on 25 November" in heading(page)
    assert 'id="receipt"' not in page
    assert "The bond cures until 17:00 on 25 November" in text_of(kept(client, fitting, 409))
    clock.forward(300.0)
    kept(client, fitting)


def test_the_form_begins_with_usual_doubts_and_the_sheets_own_set_up(
    client: WebClient, studio: Studio
) -> None:
    page = client.get(at(a_built_job(studio))).text
    for name, value in (
        ("length", ""),
        ("length_u95", "0.03"),
        ("loft_u95", "0.25"),
        ("clamp", "127"),
        ("tip_mass", "205"),
        ("cut_length", "43.125"),
        ("head_added", "6.9"),
        ("butt_added", "3.2"),
        ("edition", "Equipment Rules, in force from 1 January 2019"),
        ("day", "2026-11-25"),
    ):
        assert re.search(rf'name="{name}" type="\w+" value="{re.escape(value)}"', page), name
    assert heading(page).startswith("Measure the finished club: 6 targets")
    told = "With a target: length, swingweight, mass, loft, frequency and grip size."
    assert told in text_of(page)


def test_a_check_shows_its_verdicts_and_keeps_nothing(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    before = studio.store.job_record(fitting)
    page = asked(client, fitting)
    assert heading(page) == "All 7 readings with a target are in."
    text = text_of(page)
    assert "Not kept yet." in text
    assert "Length, in 45.02 0.03 45.00 0.06 +0.02 45.00 in" in text
    assert "Swingweight, points D3.0 0.3 D3.0 0.5 0.0 D3.0 in" in text
    assert 'value="45.02"' in page
    assert studio.store.job_record(fitting) == before


def test_a_check_needs_no_looks_and_no_name(client: WebClient, studio: Studio) -> None:
    fields = {k: v for k, v in TYPED.items() if not k.startswith("look_")} | {"act": "check"}
    fields |= {"second": "", "outcome": ""}
    answer = client.post(at(a_built_job(studio)), data=fields)
    assert answer.status_code == 200


def test_a_reading_that_is_out_brings_its_mend_along(client: WebClient, studio: Studio) -> None:
    page = asked(client, a_built_job(studio), swingweight="D1", mass="322", balance="32.96")
    assert (
        heading(page)
        == "Readings contradict each other: measure them again before anything is changed."
    )
    light = asked(
        client,
        a_built_job(studio, build=BUILD),
        swingweight="D1.2",
        mass="322",
        balance="32.97",
        head_added="3.9",
    )
    assert heading(light) == "Out: swingweight by −1.8 points and mass by −3.0 g."
    note = unescape(light.partition('name="rework"')[2].partition("</textarea>")[0])
    assert re.search(r"Swingweight −1.8 points: put 3.\d g into the head", note)


def test_what_is_typed_as_rework_stays(client: WebClient, studio: Studio) -> None:
    page = asked(client, a_built_job(studio), grip="0.90", rework="my own words")
    assert "my own words</textarea>" in page


def test_of_contradicting_readings_nothing_is_told(client: WebClient, studio: Studio) -> None:
    page = asked(client, a_built_job(studio), swingweight="D6")
    text = text_of(page)
    assert re.search(r"The scale reads D6.0, weight and balance point give D[23].\d", text)
    assert "Not to be told: swingweight, mass and balance point." in text
    assert text.count("cannot tell") >= 3
    kept(client, a_built_job(studio), 422, swingweight="D6")


def test_a_range_across_the_tolerance_cannot_be_told(client: WebClient, studio: Studio) -> None:
    page = asked(client, a_built_job(studio), loft="11.1")
    assert heading(page) == "Nothing is out; loft cannot be told."


def test_a_tolerance_tighter_than_the_reading_is_said(client: WebClient, studio: Studio) -> None:
    page = asked(client, a_built_job(studio), loft_u95="0.6")
    assert "tolerance tighter than the reading can tell" in page
    assert "The tolerance of loft is tighter than the reading can tell" in text_of(page)


def test_an_uncalibrated_scale_is_said_and_a_calibrated_one_is_not(
    client: WebClient, studio: Studio
) -> None:
    said = "The swingweight scale is the usual one, D0 at 213.5 oz in from memory"
    assert said in text_of(asked(client, a_built_job(studio)))
    own = BUILD + '\n[calibration]\nmass_g = 310\nbalance_inch = 33.25\nreads = "C8.3"\n'
    assert said not in text_of(asked(client, a_built_job(studio, build=own)))


def test_a_sheet_without_a_mass_names_the_part(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio, build=BUILD.replace("mass_g = 195\n", ""))
    page = client.get(at(fitting)).text
    assert heading(page) == "The build sheet cannot be read: the mass of the head is missing."
    assert "Weigh it, to a tenth of a gram" in page
    assert 'id="receipt"' not in page


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"length": "long"}, "'long' is not a number"),
        ({"length_u95": ""}, "Its doubt is missing."),
        ({"length_u95": "0"}, "A reading without a doubt cannot be."),
        ({"swingweight": "H2"}, "'H2' is no swingweight"),
        ({"clamp": ""}, "A frequency says nothing without its clamp and weight."),
        ({"inertia": "2869", "inertia_u95": "ten"}, "'ten' is no number"),
        ({"pivot": "2", "period": ""}, "A pendulum needs pivot, period and its doubt."),
        ({"head_added": "150"}, "150 g cannot have been put in."),
        ({"edition": " "}, "Write which edition was looked at."),
        ({"mass": "325 mm"}, "not of mass"),
        (
            {
                "inertia": "2869",
                "inertia_u95": "9",
                "pivot": "2",
                "period": "2",
                "period_u95": "1",
            },
            "A pendulum gives the inertia only with weight and balance point, and once.",
        ),
    ],
)
def test_what_cannot_be_is_told_and_all_that_was_typed_stays(
    client: WebClient, studio: Studio, changed: dict[str, str], told: str
) -> None:
    page = asked(client, a_built_job(studio), 422, **changed)
    assert told in text_of(page)
    assert heading(page).startswith("Nothing was kept: ")
    for name, value in (TYPED | changed).items():
        if name in {"length", "mass", "second", "grip", *changed}:
            assert f'name="{name}"' in page
            assert f'value="{value}"' in unescape(page), name


def test_a_pendulum_gives_the_inertia(client: WebClient, studio: Studio) -> None:
    build = BUILD.replace('swingweight = "D3"\n', "club_moi_kgcm2 = 2869\n")
    page = asked(
        client,
        a_built_job(studio, build=build),
        pivot="2",
        period="2.034",
        period_u95="0.001",
        swingweight="",
    )
    assert "Inertia about the butt, kg cm²" in page


def test_a_good_club_is_accepted_and_the_golfer_told(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    kept(client, fitting)
    act = received(studio, fitting)
    assert act is not None
    assert (act.outcome, act.second) == (Outcome.ACCEPT, "Petronella Vane")
    assert act.looked == dict.fromkeys((one.value for one in HandCheck), True)
    assert "build" in stages_done(studio.store.job_record(fitting))
    page = client.get(at(fitting)).text
    assert heading(page) == ("Accepted on 25 November 2026. All 7 readings with a target are in.")
    text = text_of(page)
    assert "The screw is checked again after the first session." in text
    assert "first shots are half speed" in text
    assert "stay as they are during a round" in text
    assert '<summary class="btn">Check the club again</summary>' in page


def test_an_acceptance_with_a_line_out_needs_its_reason(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    page = kept(client, fitting, 422, loft="11.5")
    assert "It is accepted although not everything stands." in page
    kept(client, fitting, loft="11.5", reason="she wants it weaker")
    assert "she wants it weaker" in client.get(at(fitting)).text


def test_a_look_that_failed_needs_a_reason_or_rework(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    kept(client, fitting, 422, look_rattle="no")
    kept(client, fitting, look_rattle="no", outcome="rework", rework="glue bead out")
    page = client.get(at(fitting)).text
    assert heading(page) == "Rework round 1, then check the club again."
    assert "Nothing rattles" in page.partition("Did not stand:")[2]


def test_looks_that_fail_are_counted_in_the_line_under_the_sentence(
    client: WebClient, studio: Studio
) -> None:
    page = asked(client, a_built_job(studio), look_rattle="no", look_turns="no", look_creak="no")
    lead = "Not kept yet. Does not stand: head does not turn under a hand twist and 2 more."
    assert lead in text_of(page)


def test_what_changes_after_an_acceptance_asks_for_another_check(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_built_job(studio)
    kept(client, fitting)
    job_act(studio, fitting, [a_bond(studio)])
    page = client.get(at(fitting)).text
    assert heading(page) == (
        "Sheet, bond or parts changed after the last check: check the club again."
    )
    assert "The last one, round 1, stands below." in page
    assert '<summary class="btn">' not in page


def test_a_look_that_was_not_taken_is_asked_for(client: WebClient, studio: Studio) -> None:
    page = kept(client, a_built_job(studio), 422, look_turns="")
    assert "It was not looked at." in page
    kept(client, a_built_job(studio), 422, look_turns="absent")
    kept(client, a_built_job(studio), look_screw="absent")


def test_the_builder_is_asked_for_a_second_person(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    page = kept(client, fitting, 422, second="Quentin Rook")
    assert "Quentin Rook is among those who built it." in page
    assert 'name="alone"' in page
    kept(client, fitting, second="Quentin Rook", alone="yes")
    assert "Quentin Rook, who also built it" in client.get(at(fitting)).text


def test_out_is_reworked_until_it_is_in(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    kept(client, fitting, grip="0.90", outcome="rework", rework="two turns of tape")
    page = client.get(at(fitting)).text
    assert "two turns of tape" in page
    assert "Last round: 0.900 in." in page
    kept(client, fitting)
    text = text_of(client.get(at(fitting)).text)
    assert "Grip size 0.900 in before, 0.921 in now." in text
    assert "Accepted: Round 2" in text
    assert "Rework: Round 1" in text


def test_a_stale_page_keeps_what_was_typed_and_writes_nothing(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_built_job(studio)
    seen = studio.store.job_record(fitting)[-1].sequence
    job_act(studio, fitting, [a_receipt(studio, outcome=Outcome.REWORK, rework="x")], by="desk")
    page = kept(client, fitting, 409, seen=str(seen))
    assert "Desk wrote something in the meantime." in page
    assert 'value="45.02"' in page
    act = received(studio, fitting)
    assert act is not None
    assert act.outcome is Outcome.REWORK


def test_a_receipt_is_taken_back_by_the_bar_of_the_job(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    kept(client, fitting)
    page = client.get(at(fitting)).text
    assert "Undo final check" in page
    last = studio.store.job_record(fitting)[-1].sequence
    done = client.post(
        f"/fittings/{fitting}/job/undo", data={"act": str(last), "back": at(fitting)}
    )
    assert done.headers["location"] == at(fitting)
    again = client.get(at(fitting)).text
    assert heading(again).startswith("Measure the finished club")
    assert "Do again: final check" in again


def test_the_local_rule_on_length_stands_only_where_it_is_used(
    client: WebClient, studio: Studio
) -> None:
    long = BUILD.replace("length_inch = 45\n", "length_inch = 46\n", 1).replace(
        "raw_length_inch = 46", "raw_length_inch = 47"
    )
    fitting = a_built_job(studio, build=long)
    without = text_of(asked(client, fitting, length="46.10"))
    assert "Published limit 48 in: below the limit as measured." in without
    assert "local rule: " not in without
    assert "Limit of the competition's local rule" not in without
    used = text_of(asked(client, fitting, length="46.10", local_length="yes"))
    assert "Limit of the competition's local rule 46 in: above the limit as measured." in used
    assert "Edition looked at: Equipment Rules of the year" in used
    assert "no ruling" in used
    assert "Not measured here" in used
    assert "How the face springs" in used


def test_only_what_was_measured_is_held_against_a_limit(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    assert "Top of the neck to the sole:" not in text_of(asked(client, fitting))
    page = text_of(asked(client, fitting, neck="4.99", neck_u95="0.03"))
    assert (
        "Top of the neck to the sole: 4.99 ± 0.03 in. Published limit 5 in: too close to" in page
    )
    ruler = text_of(asked(client, fitting, method="ruler"))
    assert "Length (by" not in ruler
    assert "a length by ruler is not held against a limit" in ruler


def test_figures_come_and_go_in_the_shops_own_units(client: WebClient, studio: Studio) -> None:
    change_settings(studio, Settings(units="metric", decimal="comma"), version=0)
    fitting = a_built_job(studio)
    metric: dict[str, Any] = {
        "length": "1143,5",
        "length_u95": "0,8",
        "mass": "325,2",
        "balance": "840,2",
        "balance_u95": "1,5",
        "swingweight": "D3,0",
        "swingweight_u95": "0,3",
        "mass_u95": "0,5",
        "loft": "10,6",
        "loft_u95": "0,25",
        "frequency": "251,6",
        "grip": "23,4",
        "grip_u95": "0,08",
    }
    page = asked(client, fitting, **metric)
    assert heading(page) == "All 7 readings with a target are in."
    assert "Length, mm 1143,5 0,8 1143,0 1,6 +0,5 1143,0 in" in text_of(page)
    assert "Published limit 1219,2 mm" in text_of(page)
    kept(client, fitting, **metric)
    checked = received(studio, fitting)
    assert checked is not None
    assert "[length_inch]\nvalue = 45.0196" in checked.measured


def test_the_workshop_sees_initials_and_its_own_undo(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    bench = f"/build/{fitting}/final-check"
    page = client.get(bench).text
    assert "Ottoline" not in page
    assert "Club of O.B." in page
    answer = client.post(bench, data={**TYPED, "act": "keep"})
    assert (answer.status_code, answer.headers["location"]) == (303, bench)
    page = client.get(bench).text
    assert "Ottoline" not in page
    assert f'action="{bench}/undo"' in page
    last = studio.store.job_record(fitting)[-1].sequence
    assert client.post(f"{bench}/undo", data={"act": str(last)}).status_code == 303
    assert received(studio, fitting) is None
    first = client.post(f"{bench}/undo", data={"act": "1"})
    assert first.status_code == 422
    assert "/undo" not in client.get(bench).text


def test_the_sheets_own_words_stand_beside_what_is_looked_at(
    client: WebClient, studio: Studio
) -> None:
    fields = {
        "setting": "L1",
        "head_serial": "H-77",
        "torque": "40 in lb",
        "torque_source": "printed on the head",
        "grip_lower_inch": "0.88",
        "bond": "none",
    }
    fitting = a_golfers_fitting(studio)
    job_act(studio, fitting, [SheetIssued(build=BUILD, fields=fields)])
    page = client.get(at(fitting)).text
    text = text_of(page)
    assert "Sheet: L1." in text
    assert "Sheet: H-77." in text
    assert "Sheet: 40 in lb; printed on the head." in text
    assert "it has no target. Sheet: 0.880 in." in text
    assert "No bond is on record" not in text
    bare = a_golfers_fitting(studio)
    job_act(studio, bare, [SheetIssued(build=BUILD, fields={})])
    assert "No bond is on record" in client.get(at(bare)).text


def test_a_shaft_longer_than_it_ever_was_is_told_at_its_field(
    client: WebClient, studio: Studio
) -> None:
    page = asked(client, a_built_job(studio), 422, cut_length="50")
    field = page.partition('name="cut_length"')[2].partition("</div>")[0]
    assert "The shaft is too short by 101.6 mm." in field


def test_what_was_cut_otherwise_changes_what_the_parts_come_to(
    client: WebClient, studio: Studio
) -> None:
    page = text_of(asked(client, a_built_job(studio), cut_length="43.0", length="44.89"))
    assert "Length, in 44.89 0.03 45.00 0.06 −0.11 44.88 out" in page


def test_a_training_case_has_no_final_check(client: WebClient) -> None:
    for path in ("/fittings/training-1/final-check", "/build/training-1/final-check"):
        assert client.get(path).status_code == 404


def test_the_rounds_of_a_job_can_be_read_when_the_order_goes_off(
    client: WebClient, studio: Studio
) -> None:
    fitting = a_built_job(studio)
    keep_check(studio, fitting, a_receipt(studio, readings()))
    job_act(studio, fitting, [Withdrawn(reason="sold")])
    assert "Accepted: Round 1" in text_of(client.get(at(fitting)).text)
