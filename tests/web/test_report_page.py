"""What leaves a fitting: paper, pictures with consent alone, tables, and safe names of files."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape

import pypdfium2
import pytest

from demos import a_demo
from loftwright.domain.golfer import Consents, Golfer, Identity
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.studio import Studio
from loftwright.web.pages import report
from studios import app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture(scope="module")
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture(scope="module")
def demo(studio: Studio) -> DemoStudio:
    return a_demo(studio)


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, report.router)) as made:
        yield made


@pytest.fixture(scope="module")
def fresh(studio: Studio) -> str:
    return open_for_new(
        studio, Visitor(golfer=Golfer(id=""), identity=Identity(name="Ida")), bay="Bay 2"
    ).id


def test_a_closed_fitting_is_ready_to_hand_over(client: WebClient, demo: DemoStudio) -> None:
    text = client.get(f"/fittings/{demo.finished}/report").text
    assert "Ready to hand over: two pages from 40 balls." in text
    assert "19 November 2026, the day of the visit" in text
    assert "For the golfer" in text
    assert "For the fitter" in text
    assert "report.pdf" in text
    assert "every ball is invented" in text


@pytest.mark.parametrize("which", ["finished", "in_progress"])
def test_the_page_says_in_short_what_the_paper_says(
    client: WebClient, demo: DemoStudio, which: str
) -> None:
    at = f"/fittings/{getattr(demo, which)}"
    text = client.get(f"{at}/report").text
    paper = pypdfium2.PdfDocument(client.get(f"{at}/report.pdf").content)
    said = _words("".join(page.get_textpage().get_text_bounded() for page in paper))
    sheets = re.findall(r'<section class="sheet">(.*?)</section>', text, re.DOTALL)
    assert len(sheets) == 2
    for sheet in sheets:
        lines = re.findall(r"<p>(.*?)</p>", sheet, re.DOTALL)
        assert len(lines) >= 5
        missing = [line for line in lines if _words(line) not in said]
        assert missing == []


def _words(text: str) -> str:
    """Return letters and figures alone: markers, breaks and typeface differ on paper."""
    return re.sub(r"[^a-z0-9]", "", re.sub(r"<[^>]+>", "", unescape(text)).lower())


def test_an_open_one_says_that_it_is_not_closed(client: WebClient, demo: DemoStudio) -> None:
    text = client.get(f"/fittings/{demo.in_progress}/report").text
    assert "Not closed yet: it prints what 23 balls say so far." in text
    assert "has not agreed that figures without a name are shown" in text
    assert "/pictures/" not in text


def test_nothing_to_report_says_what_is_enough(client: WebClient, fresh: str) -> None:
    text = client.get(f"/fittings/{fresh}/report").text
    assert "Nothing to report yet: two clubs with two balls each are enough." in text
    assert "No ball is in this fitting yet." in text
    assert "report.pdf" not in text
    answer = client.get(f"/fittings/{fresh}/report.pdf")
    assert 400 <= answer.status_code < 500
    assert "nothing to report yet" in answer.text


def test_the_paper_is_a_file_with_a_plain_name(client: WebClient, demo: DemoStudio) -> None:
    answer = client.get(f"/fittings/{demo.finished}/report.pdf")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"] == (
        'attachment; filename="fitting-2026-11-19-rosalind-quickly-invented.pdf"'
    )
    assert answer.content.startswith(b"%PDF")


@pytest.mark.parametrize("kind", ["svg", "png"])
def test_a_picture_leaves_with_its_block(client: WebClient, demo: DemoStudio, kind: str) -> None:
    answer = client.get(f"/fittings/{demo.finished}/pictures/ranges.{kind}")
    assert answer.status_code == 200
    name = f"ranges-2026-11-19.{kind}"
    assert answer.headers["content-disposition"] == f'attachment; filename="{name}"'


def test_a_picture_is_refused_without_consent_and_for_minors(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    answer = client.get(f"/fittings/{demo.in_progress}/pictures/choice.svg")
    assert answer.status_code == 409
    assert "has not agreed" in answer.text
    kept = studio.store.golfer(studio.store.fitting(demo.in_progress).value.golfer)
    young = replace(kept.value, minor=True, consents=Consents(keep=True))
    version = studio.store.change_golfer(young, version=kept.version)
    assert "is a minor" in client.get(f"/fittings/{demo.in_progress}/report").text
    refused = client.get(f"/fittings/{demo.in_progress}/pictures/choice.png")
    assert refused.status_code == 409
    assert "whoever agrees" in refused.text
    studio.store.change_golfer(kept.value, version=version)


def test_an_unknown_picture_is_not_found(client: WebClient, demo: DemoStudio) -> None:
    for name in ("bench.svg", "choice.gif"):
        assert client.get(f"/fittings/{demo.finished}/pictures/{name}").status_code == 404


def test_the_balls_leave_as_two_tables(client: WebClient, demo: DemoStudio) -> None:
    shots = client.get(f"/fittings/{demo.in_progress}/shots.csv")
    readings = client.get(f"/fittings/{demo.in_progress}/readings.csv")
    assert shots.headers["content-type"] == "text/csv; charset=utf-8"
    assert shots.headers["content-disposition"] == 'attachment; filename="shots-2026-11-25.csv"'
    assert len(shots.text.splitlines()) == 1 + 23
    assert len(readings.text.splitlines()) == 1 + 23 + 4 + 1
    assert "Ottoline" not in readings.text
