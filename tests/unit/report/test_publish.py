import re
from collections.abc import Callable
from dataclasses import fields, replace
from struct import unpack

import pytest

from loftwright.errors import InputError
from loftwright.report.feel_line import FeelMark, feel_line
from loftwright.report.marks import deal_marks
from loftwright.report.publish import MARGIN, Publication, published_png, published_svg
from loftwright.report.theme_svg import for_screen

SHAPES = deal_marks(["Own", "Hazel"], "Own")
BLOCK = Publication(
    samples="23 balls with five clubs, one sample of each",
    obtained="shuffled order in one visit; totals flown again from the launch numbers",
    ball="one model, new, dry",
    device="indoor device that measures ball and club",
    golfers="one golfer, right-handed",
    dates="25 November 2026",
    program="Loftwright, a test build",
    ranges="marker: best estimate; line: nine chances in ten",
    funding="the shop itself",
)


def drawn(word: str = "solid") -> str:
    return feel_line([FeelMark(club="Hazel", shape=SHAPES["Hazel"], place=0.7, word=word)])


def test_the_block_stands_whole_under_the_picture() -> None:
    svg = published_svg(drawn(), BLOCK, carry_font=False)
    words = " ".join(re.findall(r"<text [^>]*>([^<]*)</text>", svg))
    for field in fields(BLOCK):
        assert getattr(BLOCK, field.name) in words
    assert "No personal data in this picture." in words
    told = re.findall(r'y="([\d.]+)"[^>]*>(?:Samples|want it)</text>', svg)
    assert float(told[1]) > 92.0 + MARGIN


def test_a_long_entry_is_broken_to_the_width(misplaced: Callable[[str], list[str]]) -> None:
    long = replace(BLOCK, obtained="in a shuffled order and " * 30)
    svg = published_svg(drawn(), long, carry_font=False)
    without_picture = re.sub(r"<svg x=.*?</svg>", "", svg)
    assert misplaced(without_picture) == []
    assert without_picture.count("</text>") > 18


def test_every_entry_must_be_said() -> None:
    for field in fields(BLOCK):
        with pytest.raises(InputError, match="publication block"):
            replace(BLOCK, **{field.name: "  "})


def test_who_paid_is_left_out_only_where_nobody_asked() -> None:
    svg = published_svg(drawn(), replace(BLOCK, funding=None), carry_font=False)
    assert "Funding" not in svg
    assert "Funding" in published_svg(drawn(), BLOCK, carry_font=False)


@pytest.mark.parametrize("name", ["Ottoline Brambleby", "ottoline", "O'Fen"])
def test_a_picture_that_names_a_person_is_refused(name: str) -> None:
    with pytest.raises(InputError, match="names a person"):
        published_svg(drawn(f"for {name} fine"), BLOCK, private=[name])
    with pytest.raises(InputError, match="names a person"):
        published_png(drawn(), replace(BLOCK, golfers=f"{name}, one visit"), private=[name])


def test_part_of_a_name_is_refused_too() -> None:
    with pytest.raises(InputError, match="names a person"):
        published_svg(drawn("says Brambleby"), BLOCK, private=["Ottoline Brambleby"])


def test_a_golfer_who_shares_a_name_with_a_club_can_publish() -> None:
    assert "solid" in published_svg(drawn(), BLOCK, private=["Hazel Fenwick"], carry_font=False)
    with pytest.raises(InputError):
        published_svg(drawn("Hazel Fenwick"), BLOCK, private=["Hazel Fenwick"])


def test_words_of_the_markup_are_no_names() -> None:
    assert published_svg(drawn(), BLOCK, private=["Stroke Middle"], carry_font=False)


def test_a_picture_for_the_screen_is_refused() -> None:
    with pytest.raises(ValueError, match="for the screen"):
        published_svg(for_screen(drawn()), BLOCK)
    with pytest.raises(ValueError, match="without width and height"):
        published_svg('<svg viewBox="0 0 1 1"/>', BLOCK)


def test_an_svg_carries_its_typeface() -> None:
    svg = published_svg(drawn(), BLOCK)
    assert "@font-face{font-family:'Source Sans 3'" in svg
    assert "url(data:font/ttf;base64,AAEAAAA" in svg
    assert "var(" not in svg
    assert re.findall(r'https?://[^"]*', svg) == ["http://www.w3.org/2000/svg"] * 2


def test_a_png_has_the_size_of_the_picture_at_its_scale() -> None:
    svg = published_svg(drawn(), BLOCK, carry_font=False)
    size = re.search(r'width="(\d+)" height="(\d+)"', svg)
    assert size is not None
    for scale in (1.0, 2.0):
        png = published_png(drawn(), BLOCK, scale=scale)
        assert png.startswith(b"\x89PNG\r\n\x1a\n")
        told = unpack(">II", png[16:24])
        assert told == tuple(round(scale * float(part)) for part in size.groups())


def test_the_same_picture_is_the_same_to_the_byte() -> None:
    assert published_png(drawn(), BLOCK) == published_png(drawn(), BLOCK)
    assert published_svg(drawn(), BLOCK) == published_svg(drawn(), BLOCK)


def test_strong_words_are_drawn_stronger() -> None:
    strong = drawn()
    weak = strong.replace('font-weight="600"', "style=\"font-variation-settings:'wght' 400\"")
    assert weak != strong
    assert published_png(weak, BLOCK) != published_png(strong, BLOCK)
