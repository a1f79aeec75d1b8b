"""The build's pages and papers in metres and millimetres with a decimal comma."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape
from io import BytesIO

import pypdfium2
import pytest

from built_jobs import DRAFT, BuiltJob, a_job
from loftwright.domain.sheet_acts import Step
from loftwright.report.screen_numbers import Show
from loftwright.services.build_sheets import build_now
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.sheet_issue import depart
from loftwright.web.sheet_forms import typed_draft
from studios import app_of
from web_client import WebClient, asking

OTHERS = re.compile(
    r"\b(yd|mph|ft|yards?|feet|inch(es)?)\b|\d in(?= ?[.,;:|)])|°F|(?<![\d.])\w?\d+\.\d+(?![\d.])"
)
"""Words of trade units, and figures with a decimal point."""


@pytest.fixture
def job() -> BuiltJob:
    made = a_job()
    known = read_settings(made.studio)
    metric = replace(known.settings, units="metric", decimal="comma")
    change_settings(made.studio, metric, version=known.version)
    return made


@pytest.fixture
def client(job: BuiltJob) -> Iterator[WebClient]:
    with asking(app_of(job.studio)) as made:
        yield made


def said(page: str) -> str:
    bare = re.sub(r"<(script|style).*?</\1>", "", page, flags=re.DOTALL)
    held = re.findall(r'<input[^>]* value="([^"]*)"', bare)
    words = re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", bare)))
    return f"{words} {' | '.join(held)}"


def others(text: str) -> list[str]:
    # What a person typed, and the maker's own words, keep their decimal mark.
    known = ("4.5 N m (invented)", "10.5, 58, 0 deg", "Torque 4.5")
    for one in known:
        text = text.replace(one, "")
    return [text[max(0, one.start() - 30) : one.end() + 10] for one in OTHERS.finditer(text)]


def test_the_form_speaks_in_the_shop_s_units_before_and_after_it_was_tried(
    job: BuiltJob, client: WebClient
) -> None:
    at = f"/fittings/{job.fitting}/build"
    first = said(client.get(at).text)
    assert "1143" in first
    assert others(first) == []
    typed = typed_draft(DRAFT, Show(units="metric", decimal="comma"))
    sent = typed | {"do": "try", "seen": str(build_now(job.studio, job.fitting).seen)}
    tried = client.post(f"{at}/form", data=sent)
    assert "Cut to 1095,4 mm, 6,9 g into the head" in tried.text
    assert others(said(tried.text)) == []
    sent |= {"target.swingweight": "D8,0", "target.mass_g": "318"}
    assert others(said(client.post(f"{at}/form", data=sent).text)) == []


def test_metric_figures_are_issued_as_the_same_build(job: BuiltJob, client: WebClient) -> None:
    typed = typed_draft(DRAFT, Show(units="metric", decimal="comma"))
    sent = typed | {"do": "issue", "seen": str(build_now(job.studio, job.fitting).seen)}
    assert client.post(f"/fittings/{job.fitting}/build/form", data=sent).status_code == 303
    draft = build_now(job.studio, job.fitting).draft
    assert {name: draft[name] for name in DRAFT} == DRAFT


def test_the_work_and_the_paper_speak_in_them_too(job: BuiltJob, client: WebClient) -> None:
    job.issue()
    job.work(Step.WEIGHED)
    depart(job.studio, job.fitting, {"head.mass_g": "192"}, "Light")
    at = f"/fittings/{job.fitting}/build"
    assert others(said(client.get(at).text)) == []
    assert others(said(client.get(f"{at}/sheet/1").text)) == []
    told = {"step": "compared", "initials": "K", "head.mass_g": "189,5"}
    sent = told | {"seen": str(build_now(job.studio, job.fitting).seen)}
    stopped = client.post(f"{at}/step", data=sent)
    assert "2,5 g light of the sheet" in stopped.text
    assert others(said(stopped.text)) == []
    with pypdfium2.PdfDocument(BytesIO(client.get(f"{at}/sheet.pdf").content)) as found:
        texts = []
        for page in found:
            text = page.get_textpage()
            texts.append(text.get_text_bounded())
            text.close()
            page.close()
    assert others(" ".join(texts)) == []
