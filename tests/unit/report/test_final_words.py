"""What is said of a finished club: figures in both systems, verdicts, mends, never a ruling."""

import inspect
import re

import pytest

from final_checks import BUILD, readings, without
from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.built import Checked
from loftwright.domain.check_acts import Outcome
from loftwright.domain.sheet_acts import Deviated
from loftwright.domain.verdict import Fit, Reading
from loftwright.intake.build_text import read_build_text, read_measured_text
from loftwright.report import final_paper, final_picture, final_rounds, final_words
from loftwright.report.build_words import limit_words
from loftwright.report.final_rounds import HAND_WORDS, changed_line, departure_line, mend_line
from loftwright.report.final_words import (
    FIT_WORDS,
    OUTCOME_WORDS,
    contradiction_lines,
    limit_line,
    minded,
    verdict_rows,
    verdict_sentence,
    with_unit,
    written,
)
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.services.build_check import check_sheet
from loftwright.web.views import final_check, final_says
from loftwright.workshop import final
from loftwright.workshop.final import HandCheck
from loftwright.workshop.final_mends import Mend

METRIC = Show(units="metric", decimal="comma")
RULING = re.compile(
    r"\b(?:conform|complian|legal(?!\s+advice)|approved|permitted|allowed to)", re.IGNORECASE
)


def checked_of(measured: str, build: str = BUILD) -> CheckedBuild:
    return check_sheet(read_build_text(build), read_measured_text(measured))


def test_no_word_rules_on_a_club() -> None:
    for module in (
        final_words,
        final_rounds,
        final_paper,
        final_picture,
        final_check,
        final_says,
        final,
    ):
        assert RULING.findall(inspect.getsource(module)) == [], module.__name__


def test_everything_has_its_word() -> None:
    assert set(HAND_WORDS) == set(HandCheck)
    assert set(FIT_WORDS) == set(Fit)
    assert set(OUTCOME_WORDS) == set(Outcome)
    for one in Checked:
        assert written(one, TRADE).size > 0.0


@pytest.mark.parametrize(
    ("checked", "value", "trade", "metric"),
    [
        (Checked.LENGTH, 45.02 * INCH, "45.02 in", "1143,5 mm"),
        (Checked.GRIP, 0.921 * INCH, "0.921 in", "23,39 mm"),
        (Checked.SWINGWEIGHT, 32.2, "D2.2", "D2,2"),
        (Checked.MASS, 325.2 * GRAM, "325.2 g", "325,2 g"),
        (Checked.LOFT, 10.5 * DEGREE, "10.50°", "10,50°"),
    ],
)
def test_a_figure_stands_in_the_shops_units(
    checked: Checked, value: float, trade: str, metric: str
) -> None:
    assert with_unit(checked, value, TRADE) == trade
    assert with_unit(checked, value, METRIC) == metric


@pytest.mark.parametrize(
    ("measured", "said"),
    [
        (readings(), "All 7 readings with a target are in."),
        (readings(loft_deg__value=11.1), "Nothing is out; loft cannot be told."),
        (readings(loft_deg__value=11.5), "Out: loft by +1.00°."),
        (
            readings(loft_deg__value=11.5, length_inch__value=45.2, grip_inch__value=0.9),
            "3 readings are out: length, loft and grip size.",
        ),
        (
            readings(swingweight__value="D6"),
            "Readings contradict each other: measure them again before anything is changed.",
        ),
        ("[grip_length_inch]\nvalue = 10\nu95 = 0.1\n", "Nothing that has a target was measured."),
        ("[length_inch]\nvalue = 45\nu95 = 0.01\n", "The one reading with a target is in."),
    ],
)
def test_a_check_is_answered_in_one_sentence(measured: str, said: str) -> None:
    assert verdict_sentence(checked_of(measured), TRADE) == said
    assert len(said) <= 90


def test_a_target_that_nobody_asked_for_stands_in_brackets() -> None:
    rows = {row.what: row for row in verdict_rows(checked_of(readings()), TRADE)}
    balance = rows["Balance point, in"]
    assert balance.target == "(33.09)"
    assert balance.comes_to == "33.09"
    assert rows["Loft, °"].comes_to == "–"
    assert rows["Swingweight, points"].measured == "D3.0"


def test_limits_read_alike_on_every_page_in_trade_units() -> None:
    many = "".join(
        f"[{name}]\nvalue = {value}\nu95 = {u95}\n"
        for name, value, u95 in (
            ("length_inch", 45.5, 0.05),
            ("grip_rib_inch", 0.041, 0.002),
            ("volume_cm3", 460, 5),
            ("neck_inch", 5.2, 0.03),
        )
    )
    checked = checked_of(many)
    assert len(checked.limits) == 5
    for line in checked.limits:
        assert limit_line(line, checked, TRADE) == limit_words(line, checked.measured.method)
    said = limit_line(checked.limits[0], checked, METRIC)
    assert said == (
        "Length (by the 60-degree plane): 1155,7 ± 1,3 mm. Published limit 1219,2 mm: below the "
        "limit as measured."
    )


def test_a_contradiction_names_both_readings_with_the_shops_mark() -> None:
    (said,) = contradiction_lines(checked_of(readings(swingweight__value="D6")), METRIC)
    assert said.startswith("The scale reads D6,0, weight and balance point give D")


def test_a_grip_outside_its_bracket_is_said_in_the_shops_units() -> None:
    made = (
        "\n[build_up]\nbutt_inch = 0.6\ncore_inch = 0.6\nnominal_inch = 0.9\ntape_inch = 0.005\n"
    )
    checked = checked_of(readings(grip_inch__value=0.93), BUILD + made)
    assert any("outside the 0.900 to 0.900 in that butt" in one for one in minded(checked, TRADE))
    assert any("22,86 to 22,86 mm" in one for one in minded(checked, METRIC))


@pytest.mark.parametrize(
    ("mend", "said"),
    [
        (
            Mend(
                checked=Checked.SWINGWEIGHT,
                off=-1.8,
                asked=True,
                head=0.003,
                butt=-0.0005,
                there=(0.0, 0.003),
            ),
            "Swingweight −1.8 points: put 3.0 g into the head and take 0.5 g out of the butt.",
        ),
        (
            Mend(
                checked=Checked.MASS,
                off=0.004,
                asked=True,
                head=-0.004,
                butt=0.0,
                there=(0.001, 0.0),
            ),
            "Mass +4.0 g: the head would have to lose 4.0 g and only 1.0 g are in it: another "
            "part, or the golfer agrees to it.",
        ),
        (
            Mend(checked=Checked.LENGTH, off=0.2 * INCH, asked=True),
            "Length +0.20 in: take the grip off, cut 0.20 in at the butt, grip it anew and "
            "measure all again.",
        ),
        (
            Mend(checked=Checked.LENGTH, off=-0.2 * INCH, asked=True),
            "Length −0.20 in: nothing puts 0.20 in back: another shaft, or the golfer agrees to "
            "it.",
        ),
        (
            Mend(checked=Checked.GRIP, off=-0.02 * INCH, asked=True, turns=(2.0, 3.0)),
            "Grip size −0.020 in: 2.0 to 3.0 turns of tape more, or another core.",
        ),
        (
            Mend(checked=Checked.GRIP, off=0.02 * INCH, asked=True),
            "Grip size +0.020 in: less tape under it, or another core.",
        ),
        (
            Mend(checked=Checked.LOFT, off=DEGREE, asked=True),
            "Loft +1.00°: look at the sleeve's mark first; bend or change the head only if that "
            "is right.",
        ),
        (
            Mend(checked=Checked.SWINGWEIGHT, off=-1.0, asked=True),
            "Swingweight −1.0 points: the sheet cannot be solved for these parts: mend it first.",
        ),
        (
            Mend(checked=Checked.MASS, off=0.003, asked=True, head=0.00005, butt=0.0),
            "Mass +3.0 g: weigh and measure it again.",
        ),
        (
            Mend(checked=Checked.BALANCE, off=0.3 * INCH, asked=False),
            "Balance point +0.30 in: it is off what the parts come to: measure both again.",
        ),
    ],
)
def test_a_mend_says_what_to_do(mend: Mend, said: str) -> None:
    assert mend_line(mend, TRADE) == said


def test_a_round_says_what_was_read_otherwise() -> None:
    before, after = (Reading(value=one * INCH, half_width=0.01) for one in (45.2, 45.0))
    assert changed_line(Checked.LENGTH, before, after, METRIC) == (
        "Length 1148,1 mm before, 1143,0 mm now."
    )
    assert changed_line(Checked.LENGTH, before, None, TRADE) == "Length was not read again."
    assert changed_line(Checked.LENGTH, None, after, TRADE) == (
        "Length was read for the first time: 45.00 in."
    )


@pytest.mark.parametrize(
    ("key", "built", "trade", "metric"),
    [
        ("head.mass_g", "192.5", "Head, mass: 192.5 g instead of 1 g.", "192,5 g"),
        ("shaft.tip_trim_inch", "0.5", "Shaft, tip trim: 0.5 in instead of 1 in.", "12,7 mm"),
        ("made.head_added_g", "9.86546", "Put into the head: 9.9 g instead of 1 g.", "9,9 g"),
        ("made.cut_length_inch", "43.125", "Shaft, cut: 43.125 in instead of 1 in.", "1095,4 mm"),
        ("head.kind", "iron", "Head, kind: iron instead of 1.", "iron"),
        (
            "parts.ferrule.mass_g",
            "2",
            "Parts, ferrule, mass: 2 g instead of 1 g.",
            "2 g",
        ),
    ],
)
def test_a_departure_is_said_with_its_unit(key: str, built: str, trade: str, metric: str) -> None:
    one = Deviated(key=key, sheet="1", built=built, why="")
    assert departure_line(one, TRADE) == trade
    assert metric in departure_line(one, METRIC)


def test_targets_that_were_not_read_have_no_row() -> None:
    rows = verdict_rows(checked_of(without("loft_deg")), TRADE)
    assert not any(row.what.startswith("Loft") for row in rows)
