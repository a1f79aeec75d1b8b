from collections.abc import Callable
from datetime import date
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from loftwright.domain.shot import ShotTable
from loftwright.evidence.result import Decision
from loftwright.report.content import ReportContent
from loftwright.report.document import report_bytes, write_report

MakeDecision = Callable[..., Decision]
MakeTable = Callable[[Decision], ShotTable]


@pytest.fixture
def content(make_decision: MakeDecision, shot_table: MakeTable) -> ReportContent:
    decision = make_decision()
    return ReportContent(
        decision=decision,
        table=shot_table(decision),
        golfer="Ottoline Brambleby",
        fitter="Wren Tallowby",
        studio="The Tern and Tee",
        visit_date=date(2026, 11, 25),
        version="0.1.0",
    )


def test_a_report_has_two_pages(content: ReportContent) -> None:
    with pikepdf.open(BytesIO(report_bytes(content))) as pdf:
        assert len(pdf.pages) == 2


def test_the_sentence_opens_the_page(content: ReportContent) -> None:
    document = pypdfium2.PdfDocument(report_bytes(content))
    words = " ".join(document[0].get_textpage().get_text_bounded().split())
    assert "As you swing it, Birch goes 1 to 10 yd further than Own" in words


def test_a_written_report_is_the_same_as_its_bytes(content: ReportContent, tmp_path: Path) -> None:
    path = tmp_path / "report.pdf"
    write_report(content, path)
    assert path.read_bytes() == report_bytes(content)
    assert [found.name for found in tmp_path.iterdir()] == ["report.pdf"]
