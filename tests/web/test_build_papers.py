"""What leaves the build page: the wall sheet, the tag, the build file; and the workshop's list."""

import re
from collections.abc import Iterator
from datetime import date
from html import unescape
from io import BytesIO
from pathlib import Path

import pypdfium2
import pytest

from built_jobs import BuiltJob, a_job
from loftwright.constants import GRAM
from loftwright.domain.order_acts import OrderSent
from loftwright.domain.piece_code import code_of
from loftwright.domain.sheet_acts import Step
from loftwright.domain.sheet_fields import FIELDS
from loftwright.services.bonding import Mixed, bond
from loftwright.services.build import solve_file
from loftwright.services.build_sheets import build_now
from loftwright.services.job import job_act
from loftwright.services.sheet_issue import depart
from loftwright.web.roles import may_see
from studios import app_of
from web_client import WebClient, asking


@pytest.fixture
def job() -> BuiltJob:
    made = a_job()
    made.issue(ports="heel 2 g (invented)", logo="Print down")
    return made


@pytest.fixture
def client(job: BuiltJob) -> Iterator[WebClient]:
    with asking(app_of(job.studio)) as made:
        yield made


def paper(client: WebClient, path: str) -> tuple[str, int]:
    answer = client.get(path)
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/pdf"
    with pypdfium2.PdfDocument(BytesIO(answer.content)) as found:
        texts = []
        for page in found:
            text = page.get_textpage()
            texts.append(text.get_text_bounded())
            text.close()
            page.close()
        return re.sub(r"\s+", " ", " ".join(texts)), len(texts)


def words(page: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", page)))


def bonded(job: BuiltJob) -> None:
    job.work(Step.DRY_CHECKED)
    glue = Mixed(adhesive="Slow glue (invented)", batch="B7", hours=24.0, mixed=job.clock.at)
    bond(job.studio, job.fitting, glue)


def test_the_wall_sheet_has_every_block_step_and_caution_and_no_name(
    job: BuiltJob, client: WebClient
) -> None:
    text, pages = paper(client, f"/fittings/{job.fitting}/build/sheet.pdf")
    assert code_of(job.fitting) in text
    assert "Cut to 43.125 in, 6.9 g into the head, 3.2 g into the butt" in text
    assert "DO NOT HIT before" in text
    for words_on in ("Weigh every part", "Dry fit", "Hand over to the final check", "Initials"):
        assert words_on in text
    for field in FIELDS.values():
        if field.name.startswith(("dry_fit.", "calibration.")):
            continue
        assert re.sub(r"\W", "", field.words) in re.sub(r"\W", "", text), field.name
    assert "HEPA" in text
    assert "heel 2 g (invented)" in text
    assert "player S.B." in text
    assert "Sabine" not in text
    assert "Bright" not in text
    assert f"page 1 of {pages}" in text


def test_a_sheet_that_would_miss_its_target_says_stop(job: BuiltJob, client: WebClient) -> None:
    depart(job.studio, job.fitting, {"head.mass_g": "192"}, "Light")
    text, _ = paper(client, f"/build/{job.fitting}/sheet.pdf")
    assert "Stop. As built it misses swingweight and mass" in text
    assert "195.0 g" in text


def test_a_bonded_club_s_sheet_and_tag_tell_until_when_it_cures(
    job: BuiltJob, client: WebClient
) -> None:
    assert client.get(f"/build/{job.fitting}/tag.pdf").status_code == 404
    bonded(job)
    until = "12:00 on 26 November 2026"
    assert f"DO NOT HIT before {until}" in paper(client, f"/build/{job.fitting}/sheet.pdf")[0]
    tag, pages = paper(client, f"/build/{job.fitting}/tag.pdf")
    assert f"before {until}" in tag
    assert "batch B7" in tag
    assert pages == 1


def test_the_same_sheet_is_the_same_paper(job: BuiltJob, client: WebClient) -> None:
    path = f"/build/{job.fitting}/sheet.pdf"
    assert client.get(path).content == client.get(path).content


def test_the_build_file_solves_to_the_same_figures(
    job: BuiltJob, client: WebClient, tmp_path: Path
) -> None:
    answer = client.get(f"/fittings/{job.fitting}/build/BUILD.toml")
    assert answer.status_code == 200
    path = tmp_path / "BUILD.toml"
    path.write_bytes(answer.content)
    solved, shown = solve_file(path), build_now(job.studio, job.fitting).solved
    assert shown is not None
    assert solved.answer == shown.answer
    assert solved.errors == shown.errors
    assert solved.answer.head_added == pytest.approx(6.8655 * GRAM, abs=1e-6)


def test_nothing_is_printed_before_a_sheet_was_issued() -> None:
    job = a_job()
    with asking(app_of(job.studio)) as client:
        for name in ("sheet.pdf", "BUILD.toml"):
            assert client.get(f"/build/{job.fitting}/{name}").status_code == 404


def test_the_workshop_sees_codes_and_initials_and_no_name(
    job: BuiltJob, client: WebClient
) -> None:
    promised = date(2026, 12, 4)
    job_act(job.studio, job.fitting, [OrderSent(to="Workshop", promised=promised)])
    page = words(client.get("/build").text)
    code = code_of(job.fitting)
    assert f"One club to build: {code}, promised for 4 December." in page
    assert "S.B." in page
    assert "Next: weigh every part" in page
    for path in ("/build", f"/build/{job.fitting}", f"/build/{job.fitting}/form"):
        told = client.get(path).text
        assert "Sabine" not in told
        assert may_see("workshop", path)


def test_the_code_of_a_sheet_opens_it(job: BuiltJob, client: WebClient) -> None:
    found = client.get("/build", params={"code": code_of(job.fitting).lower()})
    assert found.headers["location"] == f"/build/{job.fitting}"
    other = client.get("/build", params={"code": code_of("another")})
    assert other.status_code == 422
    assert "No job here has the sheet" in other.text
    assert "was misread" in client.get("/build", params={"code": "22222222Z"}).text


def test_the_workshop_works_through_the_sheet_on_its_own_page(
    job: BuiltJob, client: WebClient
) -> None:
    told = {
        "step": "weighed",
        "initials": "K.L.",
        "seen": str(build_now(job.studio, job.fitting).seen),
    }
    answer = client.post(f"/build/{job.fitting}/step", data=told)
    assert answer.headers["location"] == f"/build/{job.fitting}#next"
    page = client.get(f"/build/{job.fitting}").text
    assert "Step 2: Compare with the sheet" in page
    assert f"/build/{job.fitting}/undo" in page


def test_an_empty_list_says_when_a_club_stands_on_it() -> None:
    job = a_job(agreed=False)
    with asking(app_of(job.studio)) as client:
        assert "Nothing waits to be built." in client.get("/build").text
