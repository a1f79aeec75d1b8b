"""Paper, terminal and reasons in the shop's own units: figures converted, no word of others."""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from io import BytesIO
from itertools import chain

import pikepdf
import pypdfium2
import pytest

from loftwright.constants import FOOT, MILE_PER_HOUR, YARD
from loftwright.domain.shot import ShotTable
from loftwright.evidence.result import Claim, Decision, OddBall
from loftwright.report.claim_words import told_claims
from loftwright.report.clubs_table import clubs_table
from loftwright.report.content import ReportContent
from loftwright.report.document import report_bytes
from loftwright.report.fitter_page import fitter_page, fitter_sentence, told_pair, why_chart
from loftwright.report.golfer_page import golfer_page
from loftwright.report.marks import marks_of_fitting
from loftwright.report.numbers import MINUS
from loftwright.report.records import decision_record
from loftwright.report.room import FITTER_ROOMS, GOLFER_ROOMS
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.report.terminal import decision_lines
from loftwright.report.wording import by_count

MakeDecision = Callable[..., Decision]
MakeContent = Callable[[Decision], ReportContent]

METRIC = Show(units="metric", decimal="comma")
TRADE_WORDS = re.compile(r"\b(yd|mph|ft|in|yards?|feet|inch(es)?)\b(?=[\s.,;:)]|$)|°F")
SCORED = Claim(
    say="what a club is worth in strokes a round", may=True, why="by the table", hole=390.0 * YARD
)
STRAIGHT = Claim(say="which club is straighter", may=False, why="that takes 160 balls a club")


def unit_free(decision: Decision) -> Decision:
    """Return a decision none of whose own words names a unit."""
    odd = (OddBall(row=9, weight=0.12, why="spin much more than likely"),)
    return replace(decision, claims=(SCORED, STRAIGHT), odd_balls=odd, warnings=())


@pytest.fixture(scope="module")
def decision(make_decision: MakeDecision) -> Decision:
    return unit_free(make_decision())


@pytest.fixture(scope="module")
def metric(decision: Decision, make_content: MakeContent) -> ReportContent:
    return replace(make_content(decision), show=METRIC, version="")


def trade_words(text: str) -> list[str]:
    """Return every trade unit and every decimal point with what stands before it."""
    places = chain(TRADE_WORDS.finditer(text), re.finditer(r"\d\.\d", text))
    # "in" is a unit only behind a figure.
    return [
        text[max(0, one.start() - 20) : one.end()]
        for one in places
        if one[0] != "in" or text[: one.start()].rstrip()[-1:].isdigit()
    ]


def printed(data: bytes) -> str:
    """Return all that a reader sees or is read aloud: words of the pages, and of the pictures."""
    pages = [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(data)]
    with pikepdf.open(BytesIO(data)) as opened:
        alts = [str(one.Alt) for one in _alts(opened.Root.StructTreeRoot.K)]
    assert alts
    return re.sub(r"\s+", " ", " ".join([*pages, *alts]).replace("\u200b", ""))


def _alts(node: pikepdf.Object) -> Iterator[pikepdf.Object]:
    if isinstance(node, pikepdf.Array):
        for child in node:
            yield from _alts(child)
    elif isinstance(node, pikepdf.Dictionary):
        if "/Alt" in node:
            yield node
        if "/K" in node:
            yield from _alts(node.K)


def test_a_metric_report_holds_no_word_of_trade_units(metric: ReportContent) -> None:
    text = printed(report_bytes(metric))
    assert trade_words(text) == []
    assert "Total as you swing it, m" in text
    assert "Metres of total" in text
    assert "°C" in text


def test_a_trade_report_holds_no_metres(decision: Decision, make_content: MakeContent) -> None:
    text = printed(report_bytes(replace(make_content(decision), version="")))
    assert not re.search(r"\bmetres?\b|\bm/s\b|\d\sm\b|°C|\d,\d", text)
    assert trade_words(text)


def test_a_metric_report_of_a_device_alone_holds_none_either(
    device_decision: Decision, make_content: MakeContent
) -> None:
    content = make_content(unit_free(device_decision))
    text = printed(report_bytes(replace(content, show=METRIC, version="")))
    assert trade_words(text) == []
    assert "Ball speed as this device shows it, m/s" in text


def test_a_terminal_speaks_in_metres_with_a_comma(
    decision: Decision, shot_table: Callable[[Decision], ShotTable]
) -> None:
    table = shot_table(decision)
    text = "\n".join(decision_lines(decision, table, METRIC)).partition("Columns:")[0]
    assert trade_words(text) == []
    assert max(map(len, text.splitlines())) <= 80


def test_sentences_of_a_record_follow_and_its_figures_do_not(
    decision: Decision, shot_table: Callable[[Decision], ShotTable]
) -> None:
    table = shot_table(decision)
    trade, metres = (decision_record(decision, table, show) for show in (TRADE, METRIC))
    differing = {key for key, value in trade.items() if metres[key] != value}
    assert differing == {"sentence", "objection", "claims"}
    assert trade_words(str([metres[key] for key in differing])) == []


def figure(text: str) -> float:
    """Return a printed figure; left is negative."""
    bare, _, side = text.partition(" ")
    value = float(bare.replace(MINUS, "-").replace(",", "."))
    return -value if side == "L" else value


def test_figures_of_the_table_are_the_trade_ones_converted(decision: Decision) -> None:
    tables = [clubs_table(decision, show)["rows"] for show in (TRADE, METRIC)]
    # Column, size of the trade unit in metres, and digits shown.
    columns = ((1, YARD, 1), (2, YARD, 1), (3, YARD, 0), (4, YARD, 0), (5, FOOT, 0))
    for trade, metres in zip(*tables, strict=True):
        assert trade["club"] == metres["club"]
        for place, unit, digits in columns:
            told, turned = (figure(row["cells"][place]["text"]) for row in (trade, metres))
            rounding = 0.5 * 10.0**-digits
            assert turned == pytest.approx(told * unit, abs=rounding * (1.0 + unit) + 1e-9)
        for place in (0, 6, 8, 9):
            same = metres["cells"][place]["text"].replace(",", ".")
            assert same == trade["cells"][place]["text"]


def test_figures_of_a_device_are_converted_from_their_own_units(device_decision: Decision) -> None:
    club = next(one for one in device_decision.clubs if one.device_ball_speed)
    assert club.device_ball_speed is not None
    place = device_decision.clubs.index(club)
    cells = [
        clubs_table(device_decision, show)["rows"][place]["cells"] for show in (TRADE, METRIC)
    ]
    told, turned = (figure(row[2]["text"]) for row in cells)
    mean = club.device_ball_speed.mean
    assert (told, turned) == (round(mean / MILE_PER_HOUR, 1), round(mean, 1))


def test_carry_and_run_add_up_to_the_total_in_metres(decision: Decision) -> None:
    rows = clubs_table(decision, METRIC)["rows"]
    for row, club in zip(rows, decision.clubs, strict=True):
        assert club.level is not None
        carry, run = row["cells"][7]["text"].split(" + ")
        assert int(carry) + int(run) == round(club.level.total)


def test_the_parts_add_up_as_printed_in_metres(decision: Decision) -> None:
    pair = told_pair(decision)
    assert pair is not None
    chart = why_chart(pair, METRIC)
    assert chart is not None
    parts, _, total = chart["alt"].partition("part by part: ")[2].partition("; together ")
    shown = [figure(part.removesuffix(" m").rpartition(" ")[2]) for part in parts.split(", ")]
    assert pair.parts is not None
    together = figure(total.removesuffix(" m."))
    assert sum(shown) == pytest.approx(together, abs=1e-9)
    assert together == pytest.approx(pair.parts.sum(), abs=0.051)
    assert f"{pair.b}; the club" in fitter_sentence(decision, pair, METRIC)


def test_the_gable_is_round_in_the_units_it_is_told_in(
    metric: ReportContent, decision: Decision
) -> None:
    marks = marks_of_fitting(decision, metric.table)
    for show, words in ((TRADE, ">30 ft<"), (METRIC, ">9 m<")):
        page = golfer_page(replace(metric, show=show), marks, GOLFER_ROOMS[0])
        assert words in page["flight"]["svg"]


def test_the_hole_is_drawn_alike_in_either_units(
    metric: ReportContent, decision: Decision
) -> None:
    marks = marks_of_fitting(decision, metric.table)
    ellipses = [
        re.findall(
            r"<ellipse[^>]*>",
            golfer_page(replace(metric, show=show), marks, GOLFER_ROOMS[0])["finish"]["svg"],
        )
        for show in (TRADE, METRIC)
    ]
    figures = [[float(one) for one in re.findall(r'"(\d+\.\d)"', "".join(e))] for e in ellipses]
    assert figures[0] == pytest.approx(figures[1], abs=0.11)


@pytest.mark.parametrize(
    ("show", "words"),
    [
        (TRADE, "on one standard hole of 390 yd, the own total plus 170 yd, by the table"),
        (METRIC, "on one standard hole of 357 m, the own total plus 155 m, by the table"),
    ],
)
def test_a_reason_names_the_standard_hole(show: Show, words: str) -> None:
    scored, straight = told_claims((SCORED, STRAIGHT), show)
    assert scored.why == words
    assert straight == STRAIGHT


def test_a_full_standard_hole_is_no_sum() -> None:
    (told,) = told_claims((replace(SCORED, hole=430.0 * YARD),), METRIC)
    assert told.why == "on one standard hole of 393 m, by the table"


def test_a_fitting_counts_balls_and_says_where_the_rest_is_listed(
    decision: Decision, make_content: MakeContent
) -> None:
    odd = tuple(OddBall(row=n, weight=0.2, why="odd") for n in range(1, 20))
    warned = replace(decision, odd_balls=odd, warnings=("rows 3 and 4 are twins; row 9 too",))
    content = replace(make_content(warned), counts="ball", listed="on the page Evidence")
    marks = marks_of_fitting(warned, content.table)
    page = fitter_page(content, marks, FITTER_ROOMS[0], None)
    assert page["odd"][0].startswith("Ball 1, counted at 20 %")
    assert page["odd"][-1].endswith("more odd balls, listed on the page Evidence.")
    assert page["warnings"] == ["Balls 3 and 4 are twins; ball 9 too."]
    assert re.fullmatch(r"\d+ balls: \d+ used, 19 odd, \d+ not compared\.", page["rows"])
    assert all("ow " not in line for line in page["refused"])


def test_a_file_s_rows_stay_rows() -> None:
    assert by_count("row 3 and rows 4", "row") == "row 3 and rows 4"
    assert by_count("Row 3; narrow rows", "ball") == "Ball 3; narrow balls"
