import hashlib
import json
import pickle
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
import typst

from loftwright.constants import YARD
from loftwright.domain.home import Hole, Home, Trouble
from loftwright.domain.shot import Refusal
from loftwright.evidence.result import Against, Decision, OddBall, Pattern
from loftwright.report.content import ReportContent
from loftwright.report.document import report_bytes, write_report

MakeDecision = Callable[..., Decision]
MakeContent = Callable[[Decision], ReportContent]

POINT = 72.0 / 25.4
LONG_NAMES = {
    "Birch": "Demo Badger 66 extra stiff, counterbalanced, 45.25 in, sleeve one up",
    "Elm": "Supercalifragilisticexpialidocious-Prototype-2026-revision-B",
    "Ash": "Heron 62 trimmed by 12 mm at the tip, in a borrowed head of 9.5 degrees",
    "Own": "Own driver with the old grip and the sticker on it",
}


@pytest.fixture(scope="module")
def content(make_decision: MakeDecision, make_content: MakeContent) -> ReportContent:
    return make_content(make_decision())


@pytest.fixture(scope="module")
def data(content: ReportContent) -> bytes:
    return report_bytes(content)


@pytest.fixture(scope="module")
def pdf(data: bytes) -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(BytesIO(data)) as opened:
        yield opened


def elements(node: pikepdf.Object) -> Iterator[pikepdf.Object]:
    """Yield the elements of a structure tree in reading order."""
    if isinstance(node, pikepdf.Array):
        for child in node:
            yield from elements(child)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        yield node
        if "/K" in node:
            yield from elements(node.K)


def tags(pdf: pikepdf.Pdf) -> list[str]:
    return [str(element.S) for element in elements(pdf.Root.StructTreeRoot.K)]


def words(data: bytes, page: int) -> str:
    text = pypdfium2.PdfDocument(data)[page].get_textpage().get_text_bounded()
    return " ".join(text.replace("\u200b", "").split())


def pages(data: bytes) -> int:
    return len(pypdfium2.PdfDocument(data))


def boxes(page: pypdfium2.PdfPage) -> list[tuple[float, float, float, float]]:
    """Return left, bottom, right and top of every piece of text on a page."""
    text = page.get_textpage()
    found = [text.get_rect(index) for index in range(text.count_rects())]
    return [box for box in found if text.get_text_bounded(*box).strip()]


def overlaps(page: pypdfium2.PdfPage) -> list[tuple[int, int]]:
    """Return pieces of text that stand on each other by more than 0.8 pt both ways."""
    found = boxes(page)
    return [
        (one, other)
        for one, a in enumerate(found)
        for other, b in enumerate(found[:one])
        if min(a[2], b[2]) - max(a[0], b[0]) > 0.8 and min(a[3], b[3]) - max(a[1], b[1]) > 0.8
    ]


def assert_well_set(data: bytes) -> None:
    """No text overlaps, leaves the margins or the sheet."""
    for page in pypdfium2.PdfDocument(data):
        width, height = page.get_size()
        assert overlaps(page) == []
        for left, bottom, right, top in boxes(page):
            assert left > 18.0 * POINT - 2.0
            assert right < width - 18.0 * POINT + 2.0
            assert bottom > 10.0 * POINT - 3.0
            assert top < height - 5.0 * POINT


def test_a_report_has_two_pages(pdf: pikepdf.Pdf) -> None:
    assert len(pdf.pages) == 2
    box = [float(side) for side in pdf.pages[0].mediabox]
    assert box == pytest.approx([0.0, 0.0, 210.0 * POINT, 297.0 * POINT], abs=0.1)


def test_the_sentence_and_its_objection_open_the_golfers_page(data: bytes) -> None:
    page = words(data, 0)
    assert "As you swing it, Birch goes 1 to 10 yd further than Own; Elm may be as good." in page
    assert "The plain averages put Ash first, by 1 yd over Birch" in page
    assert page.index("As you swing it") < page.index("Where your drives finish at Farrow Links")


def test_the_file_names_its_title_language_and_standard(data: bytes) -> None:
    pdf = pikepdf.open(BytesIO(data))
    assert str(pdf.Root.Lang) == "en-GB"
    title = "Driver fitting for Ottoline Brambleby, 25 November 2026"
    assert str(pdf.docinfo.Title) == title
    assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
    assert bool(pdf.Root.MarkInfo.Marked)
    with pdf.open_metadata() as metadata:
        assert metadata["pdfuaid:part"] == "1"
        assert metadata["dc:title"] == title


def test_every_picture_says_in_words_what_it_shows(pdf: pikepdf.Pdf) -> None:
    found = [
        str(element.Alt)
        for element in elements(pdf.Root.StructTreeRoot.K)
        if str(element.S) == "/Figure"
    ]
    assert found == [
        "The hole from above, with the average drive of 2 clubs and one outline for two of three "
        "balls: Birch finishes at 233 yd, 1 yd right of the target; Own finishes at 228 yd, 9 yd "
        "right of the target.",
        "Total as you swing it, yd, against Own, nine chances in ten: Birch +0.8 to +10.0; "
        "Elm 0.0 to +9.8; Cedar −2.9 to +6.9; Ash −6.4 to +5.2.",
        "The average flights from the side, to scale: Birch 88 ft high, lands at 37°; Own 86 ft "
        "high, lands at 38°.",
        "Average total of Birch minus Ash, part by part: odd balls +0.7 yd, strike −4.8 yd, "
        "swing −1.6 yd, warm-up −0.7 yd, club +5.1 yd, left over +0.1 yd; together −1.2 yd.",
    ]


def test_headings_rank_without_a_gap_and_the_table_has_its_heads(pdf: pikepdf.Pdf) -> None:
    found = tags(pdf)
    headings = [tag for tag in found if tag.startswith("/H") and tag[2:].isdigit()]
    assert headings[0] == "/H1"
    assert set(headings) == {"/H1", "/H2"}
    assert headings.count("/H1") == 2
    assert found.count("/Table") == 1
    assert found.count("/TH") == 11
    assert found.count("/TD") == 5 * 11
    assert found.index("/THead") < found.index("/TBody")


def test_what_to_do_is_a_list_and_text_is_in_paragraphs(pdf: pikepdf.Pdf) -> None:
    found = tags(pdf)
    assert found.count("/L") == 1
    assert found.count("/LI") == 4
    assert found.count("/P") > 20


def test_only_the_two_families_are_used_and_carried(pdf: pikepdf.Pdf) -> None:
    fonts = {}
    for page in pdf.pages:
        fonts.update({str(font.BaseFont): font for font in dict(page.resources.Font).values()})
    assert all("SourceSans3" in name or "SourceSerif4" in name for name in fonts)
    for font in fonts.values():
        descriptor = font.DescendantFonts[0].FontDescriptor
        assert {"/FontFile2", "/FontFile3"} & set(descriptor.keys())


def test_nothing_in_the_file_points_elsewhere(pdf: pikepdf.Pdf) -> None:
    assert "/OpenAction" not in pdf.Root
    assert "/AcroForm" not in pdf.Root
    assert all("/Annots" not in page for page in pdf.pages)


def test_the_day_is_the_visits_never_the_clocks(pdf: pikepdf.Pdf, content: ReportContent) -> None:
    assert str(pdf.docinfo.CreationDate) == "D:20261125000000Z"
    undated = report_bytes(replace(content, visit_date=None))
    with pikepdf.open(BytesIO(undated)) as opened:
        assert "/CreationDate" not in opened.docinfo
    assert str(date.today().year).encode() not in undated  # noqa: DTZ011 - the clock is the point
    assert "November" not in words(undated, 0)


def test_another_process_writes_the_same_bytes(
    data: bytes, content: ReportContent, tmp_path: Path
) -> None:
    stored = tmp_path / "content.pickle"
    stored.write_bytes(pickle.dumps(content))
    script = (
        "import hashlib, pathlib, pickle, sys\n"
        "from loftwright.report.document import report_bytes\n"
        "content = pickle.loads(pathlib.Path(sys.argv[1]).read_bytes())\n"
        "print(hashlib.sha256(report_bytes(content)).hexdigest())\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, str(stored)],
        cwd=tmp_path,
        env={"PYTHONHASHSEED": "17", "TZ": "Asia/Tokyo", "HOME": str(tmp_path)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == hashlib.sha256(data).hexdigest()


def test_writing_replaces_a_file_whole_and_leaves_nothing_beside_it(
    data: bytes, content: ReportContent, tmp_path: Path
) -> None:
    path = tmp_path / "report.pdf"
    path.write_bytes(b"an older report")
    write_report(content, path)
    assert path.read_bytes() == data
    assert [found.name for found in tmp_path.iterdir()] == ["report.pdf"]


def test_a_report_that_cannot_be_put_in_its_place_leaves_nothing(
    content: ReportContent, tmp_path: Path
) -> None:
    folder = tmp_path / "report.pdf"
    folder.mkdir()
    with pytest.raises(OSError, match=r"report\.pdf"):
        write_report(content, folder)
    assert [found.name for found in tmp_path.iterdir()] == ["report.pdf"]


def test_the_fitters_page_holds_table_reasons_rows_claims_and_version(data: bytes) -> None:
    page = words(data, 1)
    assert "Plain averages put Birch 1.2 yd behind Ash; the club itself is worth 5.1 yd" in page
    assert "221 + 12" in page
    assert "42 rows: 36 used, 3 odd, 2 refused, 1 duplicate." in page
    assert "Row 9, counted at 12 %: spin 1300 rpm above this club's others." in page
    assert "Row 44 repeats row 12 and counts once." in page
    assert "Which club is straighter. That takes some 160 balls a club." in page
    assert "Calculated by the device: carry." in page
    assert "Farrow Links: 60 °F, 120 ft, 70 % humidity, normal turf" in page
    assert "One ball for all clubs, new." in page
    assert "loftwright 0.1.0" in page


def test_nothing_overlaps_or_leaves_the_sheet(data: bytes) -> None:
    assert_well_set(data)


def test_the_look_for_overlaps_sees_one() -> None:
    source = b"#set page(width: 90mm, height: 40mm)\n#place(dy: 5pt)[Under it]\nOne line"
    page = pypdfium2.PdfDocument(typst.compile(source, format="pdf"))[0]
    assert overlaps(page)


def test_very_long_names_stay_in_two_pages(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    made = make_content(make_decision(names=LONG_NAMES))
    golfer = "Maximiliana-Theodora Brambleby-Wollstonecraft of Farrow-under-Thistle"
    data = report_bytes(replace(made, golfer=golfer, hand="left"))
    assert pages(data) == 2
    assert_well_set(data)
    assert LONG_NAMES["Elm"] in words(data, 0).replace(" ", "") or "Supercali" in words(data, 0)
    assert "You are left-handed" in words(data, 0)


def test_eight_clubs_with_endless_lists_stay_in_two_pages(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    made = make_content(make_decision(clubs=8))
    warnings = tuple(
        f"row {row}: the carry of the device differs from ours by more than its columns explain"
        for row in range(30)
    )
    odd = tuple(
        OddBall(row=row, weight=0.1, why="ball speed much lower than this swing makes likely")
        for row in range(20)
    )
    refused = tuple(Refusal(row=row, why="no launch number in it at all") for row in range(40))
    data = report_bytes(
        replace(
            made,
            decision=replace(made.decision, warnings=warnings, odd_balls=odd),
            table=replace(made.table, refused=refused),
        )
    )
    assert pages(data) == 2
    assert_well_set(data)
    page = words(data, 1)
    assert "more odd balls, listed by read --json." in page
    assert "more warnings, listed by read --json." in page


def test_twenty_four_clubs_go_on_over_further_pages(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    made = make_content(make_decision(clubs=24))
    data = report_bytes(made)
    assert 3 <= pages(data) <= 4
    assert_well_set(data)
    assert "more clubs in the table overleaf." in words(data, 0)
    rest = " ".join(words(data, page) for page in range(1, pages(data)))
    assert all(club.club in rest for club in made.decision.clubs)
    assert "For the fitter, page 2" in words(data, 2)


def test_two_clubs_make_a_report(make_decision: MakeDecision, make_content: MakeContent) -> None:
    data = report_bytes(make_content(make_decision(clubs=2)))
    assert pages(data) == 2
    assert_well_set(data)


@pytest.mark.parametrize(
    ("total", "offline", "fairway"), [(70.0, 90.0, 32.0), (2.0, 2.0, 150.0), (20.0, 40.0, 6.0)]
)
def test_any_scatter_and_any_fairway_are_well_set(
    make_decision: MakeDecision,
    make_content: MakeContent,
    total: float,
    offline: float,
    fairway: float,
) -> None:
    decision = replace(
        make_decision(clubs=3),
        pattern=Pattern(total=total * YARD, offline=offline * YARD),
        home=Home(
            name="Z" * 90,
            holes=(Hole(fairway=fairway * YARD, trouble=Trouble.BOTH, trouble_from=90.0 * YARD),),
        ),
    )
    data = report_bytes(make_content(decision))
    assert pages(data) == 2
    assert_well_set(data)


def test_without_an_own_club_the_mean_is_zero(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    decision = replace(make_decision(), own=None, against=Against.MEAN)
    data = report_bytes(make_content(decision))
    assert "mean of all" in words(data, 0)
    assert "Differences are against the mean of the clubs" in words(data, 1)
    assert_well_set(data)


def test_too_few_balls_draw_nothing_and_say_what_is_enough(
    few_decision: Decision, make_content: MakeContent
) -> None:
    data = report_bytes(make_content(few_decision))
    page = words(data, 0)
    assert "Too few balls" in page
    assert "Hit at least two balls with each of two clubs" in page
    assert "Where your drives finish" not in page
    with pikepdf.open(BytesIO(data)) as opened:
        assert "/Figure" not in tags(opened)
    assert_well_set(data)


def test_speed_and_carry_alone_show_the_devices_figures_and_no_total(
    device_decision: Decision, make_content: MakeContent
) -> None:
    data = report_bytes(make_content(device_decision))
    page = words(data, 0)
    assert "Carry as this device shows it, yd" in page
    assert "Ball speed as this device shows it, mph" in page
    assert "Total" not in page
    assert "Where your drives finish" not in page
    assert "Strokes" not in words(data, 1)
    assert_well_set(data)


def test_text_of_the_user_is_never_markup(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    name = '#panic("x") [*b*] $a$ <c> & "q" \\ `d`'
    made = make_content(make_decision(names={"Birch": name}))
    data = report_bytes(replace(made, golfer="#eval(1) </text>"))
    assert name in words(data, 0)
    assert "For #eval(1) </text>" in words(data, 0)
    assert_well_set(data)


def test_letters_that_the_typefaces_lack_are_stood_in_for(
    make_decision: MakeDecision, make_content: MakeContent
) -> None:
    made = make_content(make_decision(names={"Birch": "竹 66\x07\ud800"}))
    data = report_bytes(made)
    page = words(data, 0)
    assert "☐ 66" in page
    assert "☐ stands for a letter that the typefaces of this page do not have." in page
    with pikepdf.open(BytesIO(data)) as opened:
        alts = [str(e.get("/Alt", "")) for e in elements(opened.Root.StructTreeRoot.K)]
    assert any("竹 66" in alt for alt in alts)


def test_the_template_is_packaged_and_asks_for_no_package() -> None:
    template = Path(str(sys.modules["loftwright.report.document"].__file__)).parent
    source = (template / "templates" / "report.typ").read_text(encoding="utf-8")
    assert "@preview" not in source
    assert "import" not in source
    assert json.dumps("sys.inputs.data").strip('"') in source
