"""The build page: the sheet typed, tried and issued, steps with holds, departures, mend, bond."""

import re
from collections.abc import Iterator
from html import unescape

import httpx
import pytest

from built_jobs import DRAFT, BuiltJob, a_job
from loftwright.domain.order import Kept
from loftwright.domain.order_acts import Agreed, Quoted, Withdrawn
from loftwright.domain.sheet_acts import Bonded, Step
from loftwright.domain.terms import Adhesive, Terms
from loftwright.report.screen_numbers import Show
from loftwright.services.bonding import Mixed, bond
from loftwright.services.build_sheets import build_now
from loftwright.services.job import job_act
from loftwright.services.sheet_issue import depart
from loftwright.services.terms import change_terms
from loftwright.web.sheet_forms import typed_draft
from studios import app_of
from web_client import WebClient, asking


@pytest.fixture
def job() -> BuiltJob:
    return a_job()


@pytest.fixture
def client(job: BuiltJob) -> Iterator[WebClient]:
    with asking(app_of(job.studio)) as made:
        yield made


def at(job: BuiltJob) -> str:
    return f"/fittings/{job.fitting}/build"


def seen(job: BuiltJob) -> str:
    return str(build_now(job.studio, job.fitting).seen)


def form(job: BuiltJob, **changes: str) -> dict[str, str]:
    """Return a whole form as it is typed, with changes; a field may be emptied."""
    typed = typed_draft(DRAFT, Show())
    told = {name.replace("__", "."): text for name, text in changes.items()}
    return {**typed, "do": "issue", "seen": seen(job), **told}


def text_of(answer: httpx.Response) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", answer.text)))


def step(job: BuiltJob, client: WebClient, name: str, **more: str) -> httpx.Response:
    told = {"step": name, "initials": "K.L.", "seen": seen(job)}
    return client.post(
        f"{at(job)}/step", data=told | {k.replace("__", "."): v for k, v in more.items()}
    )


WEIGHED = {
    "head.mass_g": "195",
    "shaft.mass_g": "62",
    "grip.mass_g": "50",
    "parts.sleeve.mass_g": "6",
    "parts.screw.mass_g": "2",
    "parts.ferrule.mass_g": "1",
    "parts.glue.mass_g": "1.5",
}


def test_nothing_is_built_before_the_golfer_agreed() -> None:
    job = a_job(agreed=False)
    with asking(app_of(job.studio)) as client:
        answer = client.get(at(job))
    assert "the golfer has not agreed to a quote" in answer.text
    assert f"/fittings/{job.fitting}/order" in answer.text


def test_an_order_that_is_off_says_so(job: BuiltJob, client: WebClient) -> None:
    job_act(job.studio, job.fitting, [Withdrawn(reason="Changed her mind")])
    page = text_of(client.get(at(job)))
    assert "The order is off: nothing is built." in page
    assert "Changed her mind" in page


def test_the_first_sheet_s_form_is_filled_with_what_is_known(
    job: BuiltJob, client: WebClient
) -> None:
    page = client.get(at(job)).text
    assert "No sheet yet" in page
    assert 'name="target.swingweight" type="text" value="D3.0"' in page
    assert 'name="head.mass_g" type="text" value="195"' in page
    assert "Of the tested sample, not of the one that is built: weigh that." in page
    assert 'value="Equipment Rules, in force from 1 January 2019"' in page


def test_every_missing_mass_is_asked_for_by_its_part_and_nothing_typed_is_lost(
    job: BuiltJob, client: WebClient
) -> None:
    sent = form(job, head__mass_g="", parts__screw__mass_g="", ports="Two of 4 g at the heel")
    answer = client.post(f"{at(job)}/form", data=sent)
    assert answer.status_code == 422
    assert "The sheet waits: 2 fields to fill in." in answer.text
    assert "The mass of the head is missing. Weigh it" in answer.text
    assert "The mass of the screw is missing. Weigh it" in answer.text
    assert 'value="Two of 4 g at the heel"' in answer.text
    assert 'href="#s-head.mass_g">Head: Head, weighed</a>' in answer.text
    assert build_now(job.studio, job.fitting).sheet is None


def test_a_figure_that_cannot_be_stands_at_its_field(job: BuiltJob, client: WebClient) -> None:
    answer = client.post(f"{at(job)}/form", data=form(job, shaft__balance_from_tip_inch="60"))
    assert answer.status_code == 422
    assert "The sheet waits: 1 field that cannot be." in answer.text
    assert 'value="60"' in answer.text


def test_a_sheet_is_tried_before_it_is_issued(job: BuiltJob, client: WebClient) -> None:
    answer = client.post(f"{at(job)}/form", data=form(job, do="try"))
    page = text_of(answer)
    assert answer.status_code == 200
    assert (
        "Cut to 43.125 in, 6.9 g into the head, 3.2 g into the butt: 45.00 in, D3.0, 325.0 g."
        in (page)
    )
    assert "tighter than the bench can tell" in page
    assert build_now(job.studio, job.fitting).sheet is None


def test_an_infeasible_sheet_says_why_and_what_can_be_built_and_keeps_the_form(
    job: BuiltJob, client: WebClient
) -> None:
    sent = form(job, target__swingweight="D8", target__mass_g="318", note="x")
    answer = client.post(f"{at(job)}/form", data=sent)
    page = text_of(answer)
    assert answer.status_code == 422
    assert "These parts cannot make it: the butt end would have to be 7.4 g lighter" in page
    assert "nearest to all targets" in page
    assert 'value="D8"' in answer.text
    assert build_now(job.studio, job.fitting).sheet is None


def test_a_sheet_is_issued_as_revision_one(job: BuiltJob, client: WebClient) -> None:
    answer = client.post(f"{at(job)}/form", data=form(job))
    assert answer.status_code == 303
    page = text_of(client.get(at(job)))
    assert "revision 1, player S.B." in page
    assert "Step 1: Weigh every part" in page
    assert "Ash goes further than Own as she swings it." in page
    assert "whole depth" in page.lower()
    assert "Torque tool at the head maker's value" in page


def test_a_stale_form_keeps_everything_and_says_so(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    answer = client.post(f"{at(job)}/form", data=form(job, seen="1", ports="left port 6 g"))
    assert answer.status_code == 409
    assert "wrote something in the meantime" in answer.text
    assert 'value="left port 6 g"' in answer.text


def test_a_step_needs_initials_and_goes_in_order(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    told = {"step": "weighed", "initials": "", "seen": seen(job)}
    answer = client.post(f"{at(job)}/step", data=told | {"note": "all nine"})
    assert answer.status_code == 422
    assert 'value="all nine"' in answer.text
    assert step(job, client, "bonded").status_code == 409
    assert step(job, client, "weighed").status_code == 303


def test_a_light_head_stops_is_logged_and_mended(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    job.work(Step.WEIGHED)
    told = {"step": "compared", "initials": "K.L.", "seen": seen(job)}
    answer = client.post(f"{at(job)}/step", data=told | WEIGHED | {"head.mass_g": "192"})
    assert answer.status_code == 422
    assert "3.0 g light of the sheet" in text_of(answer)
    assert "Log it and compute again" in answer.text
    told |= {"do": "depart", "note": "Lighter than the tested one"}
    answer = client.post(f"{at(job)}/step", data=told | WEIGHED | {"head.mass_g": "192"})
    assert answer.status_code == 303
    page = text_of(client.get(at(job)))
    assert "As built it misses swingweight and mass; the target stays." in page
    assert "−1.8 points" in page
    assert "Lighter than the tested one" in page
    assert "Added to the head: 9.9 g, not 6.9 g" in page
    answer = client.post(f"{at(job)}/mend", data={"seen": seen(job)})
    assert answer.status_code == 303
    assert "Built otherwise, and still on its targets." in text_of(client.get(at(job)))


def test_a_departure_needs_a_reason_and_keeps_its_figure(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    told = {"what": "grip.mass_g", "built": "51,5", "why": "", "seen": seen(job)}
    answer = client.post(f"{at(job)}/departure", data=told)
    assert answer.status_code == 422
    assert 'value="51,5"' in answer.text
    answer = client.post(f"{at(job)}/departure", data=told | {"why": "Another batch"})
    assert answer.status_code == 303
    sheet = build_now(job.studio, job.fitting).sheet
    assert sheet is not None
    assert [(one.sheet, one.built) for one in sheet.departures] == [("50", "51.5")]


def test_a_bond_takes_its_hours_from_the_shop_s_list_and_locks_the_club(
    job: BuiltJob, client: WebClient
) -> None:
    glue = Adhesive(name="Slow glue (invented)", hours=24.0)
    change_terms(job.studio, Terms(adhesives=(glue,)), version=0)
    job.issue()
    job.work(Step.DRY_CHECKED)
    page = client.get(at(job)).text
    assert 'name="hours" type="text" value="24"' in page
    told = {"adhesive": glue.name, "batch": "", "hours": "", "mixed": "2026-11-25T12:00"}
    answer = client.post(f"{at(job)}/bond", data=told | {"seen": seen(job)})
    assert answer.status_code == 422
    assert "It is on the tin." in answer.text
    told |= {"batch": "B7", "temperature": "70", "initials": "M.N.", "seen": seen(job)}
    assert client.post(f"{at(job)}/bond", data=told).status_code == 303
    page = text_of(client.get(at(job)))
    assert "Nobody hits this club before 12:00 on 26 November 2026." in page
    assert "This step opens at 12:00 on 26 November 2026." in page
    assert "7. Bond done, M.N." in page
    assert "Undo bond" in page
    made = build_now(job.studio, job.fitting).progress.bond
    assert isinstance(made, Bonded)
    assert made.temperature == pytest.approx(294.26, abs=0.01)


def test_a_glue_nobody_listed_asks_for_its_hours(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    job.work(Step.DRY_CHECKED)
    told = {"adhesive": "Other (invented)", "batch": "1", "mixed": "2026-11-25T12:00"}
    answer = client.post(f"{at(job)}/bond", data=told | {"seen": seen(job)})
    assert answer.status_code == 422
    assert "Give the hours of its own data sheet." in answer.text


def test_a_built_club_s_page_says_that_a_second_person_checks_it(
    job: BuiltJob, client: WebClient
) -> None:
    job.issue()
    job.work(Step.DRY_CHECKED)
    glue = Mixed(adhesive="G", batch="1", hours=24.0, mixed=job.clock.at)
    bond(job.studio, job.fitting, glue)
    job.clock.forward(24 * 60 + 1)
    job.work(Step.CHECKED)
    page = text_of(client.get(at(job)))
    assert "The club is built; a second person checks it now." in page
    assert "Every step of the sheet is done." in page
    assert "Do not hit before" not in page


def test_a_club_that_is_not_glued_joins_the_rack_unlocked() -> None:
    job = a_job(kept=Kept.CLUB)
    job.issue(bond="none")
    job.work(Step.DRY_CHECKED)
    with asking(app_of(job.studio)) as client:
        assert "No bond is made" in client.get(at(job)).text
        answer = client.post(f"{at(job)}/bond", data={"initials": "M.N.", "seen": seen(job)})
    assert answer.status_code == 303
    made = build_now(job.studio, job.fitting).progress.bond
    assert made is not None
    assert job.studio.store.rack().pieces[made.head_piece].locked_until is None


def test_an_older_revision_can_be_read_with_what_changed(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    job.issue(target__swingweight="D2.0", ports="6 g at the heel")
    page = text_of(client.get(f"{at(job)}/sheet/2"))
    assert "Targets: Swingweight D3.0 D2.0" in page
    assert "Weight ports: which weight where – 6 g at the heel" in page
    first = text_of(client.get(f"{at(job)}/sheet/1"))
    assert "Revision 1 is past: revision 2 stands." in first
    assert client.get(f"{at(job)}/sheet/3").status_code == 404


def test_a_quote_that_came_after_the_sheet_is_told(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    job_act(job.studio, job.fitting, [Quoted(quote=job.quote)])
    assert "Another quote was made" in text_of(client.get(at(job)))
    assert step(job, client, "weighed").status_code == 409
    job_act(job.studio, job.fitting, [Agreed(name="S. Bright")])
    page = text_of(client.get(at(job)))
    assert "A new quote was agreed to after this sheet: issue another revision." in page
    assert step(job, client, "weighed").status_code == 409
    job.issue()
    assert step(job, client, "weighed").status_code == 303


def test_a_sheet_can_be_taken_back(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    told = {"act": seen(job), "seen": seen(job)}
    assert client.post(f"{at(job)}/undo", data=told).status_code == 303
    assert "No sheet yet" in client.get(at(job)).text


def test_a_training_case_has_no_build(client: WebClient) -> None:
    assert client.get("/fittings/training-1/build").status_code == 404


@pytest.mark.parametrize("name", ["step", "departure", "mend", "bond"])
def test_a_stale_act_is_told_and_nothing_is_written(
    job: BuiltJob, client: WebClient, name: str
) -> None:
    job.issue()
    told = {"step": "weighed", "initials": "K.L.", "what": "grip.mass_g", "built": "51"}
    job.work(Step.DRY_CHECKED if name == "bond" else Step.WEIGHED)
    if name == "mend":
        depart(job.studio, job.fitting, {"head.mass_g": "192"}, "Light")
    told |= {"step": "compared", "why": "Other batch", "adhesive": "G", "batch": "1"}
    told |= WEIGHED | {"hours": "24", "mixed": "2026-11-25T12:00", "seen": "2"}
    before = seen(job)
    answer = client.post(f"{at(job)}/{name}", data=told)
    assert answer.status_code == 409
    assert re.search("in the meantime|not what the page showed", text_of(answer))
    assert seen(job) == before


def test_a_swingweight_out_at_the_dry_check_sends_to_find_out_why(
    job: BuiltJob, client: WebClient
) -> None:
    job.issue(target__frequency_cpm="252", target__clamp_mm="127", target__tip_mass_g="205")
    job.work(Step.BUTT_TRIMMED)
    told = {
        "check.length_inch": "45.02",
        "check.swingweight": "D1.9",
        "check.frequency_cpm": "256",
    }
    answer = client.post(
        f"{at(job)}/step",
        data={"step": "dry_checked", "initials": "K", "seen": seen(job)} | told,
    )
    page = text_of(answer)
    assert answer.status_code == 422
    assert "1.1 points off the target" in page
    assert "4.0 cpm off the target" in page
    assert "find why, log what differs" in page
    assert "Log it and compute again" not in page


def test_a_target_cannot_be_departed_from_on_the_page(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    told = {"what": "target.mass_g", "built": "320", "why": "Easier", "seen": seen(job)}
    answer = client.post(f"{at(job)}/departure", data=told)
    assert answer.status_code == 422
    assert "A target stays; issue another revision to change it." in text_of(answer)


def test_an_own_club_that_stays_needs_no_sheet_to_turn_its_sleeve() -> None:
    job = a_job(kept=Kept.CLUB)
    with asking(app_of(job.studio)) as client:
        page = text_of(client.get(at(job)))
    assert "The own club stays: turn the sleeve to one up" in page
