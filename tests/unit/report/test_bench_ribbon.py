"""The shaft on the bench as a picture: its band, what is not read, and a row that looks wrong."""

import re

import numpy as np
import pytest

from bench_readings import LENGTH, PLAIN, lever, noisy, three_points
from loftwright.domain.sections import Section
from loftwright.physics.bench.measure import Measured, measure
from loftwright.physics.bench.readings import Reading
from loftwright.report.bench_ribbon import ReadAt, bench_ribbon, section_level
from loftwright.report.bench_sheet_words import said_of, stretches
from loftwright.report.theme_svg import for_screen


def measured(count: int, *more: Reading) -> Measured:
    step = 0.8 / count
    readings = noisy(three_points(PLAIN, count, step), np.random.default_rng(1))
    return measure(LENGTH, [*readings, *more])


def texts(svg: str) -> list[str]:
    return re.findall(r">([^<>]*)</text>", svg)


def test_nothing_read_is_hatched_from_end_to_end() -> None:
    svg = for_screen(bench_ribbon(LENGTH, None, []))
    assert texts(svg).count("not read") == 5
    assert "var(--edge)" in svg


def test_a_section_is_given_a_figure_only_where_it_was_read() -> None:
    piece = measured(22).piece
    level = section_level(piece, Section.UPPER_MIDDLE)
    assert level is not None
    truth = np.interp(np.linspace(0.4, 0.7, 13), PLAIN.stations, PLAIN.bending)
    assert level[0] == pytest.approx(float(np.exp(np.log(truth).mean())), rel=0.02)
    assert 0.0 < level[1] < 0.02
    assert section_level(piece, Section.TIP) is None
    told = texts(bench_ribbon(LENGTH, piece, []))
    assert sum(text.endswith("N m²") and text[0].isdigit() for text in told) == 3


def test_more_readings_narrow_the_error_of_a_section() -> None:
    few, many = (section_level(measured(count).piece, Section.BUTT) for count in (8, 22))
    assert few is not None
    assert many is not None
    assert many[1] < few[1]


def test_a_doubted_row_is_a_cross_with_its_name_and_the_others_are_ticks() -> None:
    piece = measured(12).piece
    marks = [ReadAt(station=0.2, name="A1"), ReadAt(station=0.4, name="A2", doubted=True)]
    svg = bench_ribbon(LENGTH, piece, marks, whole=measured(8).piece)
    assert "A2" in texts(svg)
    assert "A1" not in texts(svg)
    assert svg.count('stroke-dasharray="8 5"') == 2
    assert bench_ribbon(LENGTH, piece, marks).count('stroke-dasharray="8 5"') == 0


def test_no_point_of_the_picture_lies_outside_of_it() -> None:
    piece = measured(22).piece
    svg = bench_ribbon(LENGTH, piece, [ReadAt(station=2.0, name="A9", doubted=True)], whole=piece)
    assert "A9" not in texts(svg)
    for x, y in re.findall(r"[ML](\d+\.\d) (\d+\.\d)", svg):
        assert 0.0 <= float(x) <= 880.0
        assert 0.0 <= float(y) <= 432.0


def test_the_sentence_says_what_is_read_in_the_units_of_the_sheet() -> None:
    found = measured(22)
    rows = [f"A{row + 1}" for row in range(22)]
    sentence, lead = said_of("Reedmace", found, rows, "mm")
    assert sentence.startswith("EI is read from ")
    assert sentence.endswith("of 1143 mm.")
    assert "load or swing the shaft with its tip in the clamp" in lead
    assert stretches(found.piece, "in")[0].count(".") == 2
    whole = measured(22, lever(PLAIN, 0.15), lever(PLAIN, 0.25))
    assert "tip in the clamp" not in said_of("Reedmace", whole, [*rows, "B1", "B2"], "mm")[1]
    assert said_of("Reedmace", None, [], "mm")[0] == "Nothing of Reedmace is read yet."
