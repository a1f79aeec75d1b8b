"""The paper sheet, read back: tags, words, order, hands, no colour, the same bytes."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from io import BytesIO

import numpy as np
import pikepdf
import pypdfium2
import pytest

from loftwright.domain.golfer import Hand
from loftwright.errors import InputError
from loftwright.report.shot_sheet import (
    ROWS_A_PAGE,
    ShotSheet,
    planned_balls,
    shot_sheet_bytes,
)

SETS = (("Own", 3), ("Ash", 3), ("Birch", 3), ("Cedar", 3), ("Elm", 3), ("Own", 3))
SHEET = ShotSheet(
    golfer="A. B.",
    balls=planned_balls(SETS),
    clubs=("Own", "Ash", "Birch", "Cedar", "Elm"),
    own="Own",
    day=date(2026, 5, 14),
    sheet="7",
    bay="Bay 1",
    studio="Invented Studio",
)


def words(data: bytes) -> list[str]:
    """Return the words of each page."""
    document = pypdfium2.PdfDocument(data)
    return [page.get_textpage().get_text_range() for page in document]


def elements(node: pikepdf.Object) -> Iterator[pikepdf.Object]:
    """Yield the elements of a structure tree in reading order."""
    if isinstance(node, pikepdf.Array):
        for child in node:
            yield from elements(child)
    elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
        yield node
        if "/K" in node:
            yield from elements(node.K)


def tags(data: bytes) -> list[tuple[str, str]]:
    """Return kind and alternative text of every element."""
    with pikepdf.open(BytesIO(data)) as opened:
        found = elements(opened.Root.StructTreeRoot.K)
        return [(str(one.S), str(one.Alt) if "/Alt" in one else "") for one in found]


def test_a_plan_is_printed_ball_by_ball() -> None:
    (page,) = words(shot_sheet_bytes(SHEET))
    assert "Shot sheet of A. B." in page
    for word in ("2026-05-14", "Bay 1", "Sheet 7", "Invented Studio", "mph", "Read?"):
        assert word in page
    counts = {club: page.count(club) for club in ("Own", "Ash", "Birch", "Cedar", "Elm")}
    assert counts == {"Own": 6, "Ash": 3, "Birch": 3, "Cedar": 3, "Elm": 3}


def test_every_ball_has_its_own_face_with_its_rims_named() -> None:
    (page,) = words(shot_sheet_bytes(SHEET))
    for word in ("TOE", "HEEL", "CROWN", "SOLE"):
        assert page.count(word) == ROWS_A_PAGE


@pytest.mark.parametrize(("balls", "pages"), [(0, 1), (1, 1), (20, 1), (21, 2), (40, 2), (60, 3)])
def test_forty_balls_stand_on_both_sides_of_a_sheet(balls: int, pages: int) -> None:
    data = shot_sheet_bytes(replace(SHEET, balls=("Ash",) * balls))
    assert len(words(data)) == pages


def test_the_numbers_go_on_from_the_first_ball() -> None:
    (page,) = words(shot_sheet_bytes(replace(SHEET, first=101)))
    assert "101" in page
    assert "120" in page


def test_the_table_is_tagged_with_its_headings_and_pictures_are_told() -> None:
    kinds = [kind for kind, _ in tags(shot_sheet_bytes(SHEET))]
    assert kinds.count("/Table") == 1
    assert kinds.count("/TH") == 10
    assert kinds.count("/TR") == 1 + ROWS_A_PAGE
    assert kinds.count("/H1") == 1


@pytest.mark.parametrize(
    ("hand", "turned", "side"),
    [
        (Hand.RIGHT, False, "left"),
        (Hand.LEFT, False, "right"),
        (Hand.RIGHT, True, "right"),
        (Hand.LEFT, True, "left"),
    ],
)
def test_the_toe_is_on_the_side_where_it_is_seen(hand: Hand, turned: bool, side: str) -> None:
    data = shot_sheet_bytes(replace(SHEET, hand=hand, turned=turned))
    told = {alt for _, alt in tags(data)}
    assert f"Face for ball 1, toe on the {side}" in told
    left = middle_of(data, "TOE") < middle_of(data, "HEEL")
    assert left is (side == "left")
    crown_above = height_of(data, "CROWN") > height_of(data, "SOLE")
    assert crown_above is not turned


def boxes(data: bytes, word: str) -> tuple[float, float, float, float]:
    page = pypdfium2.PdfDocument(data)[0].get_textpage()
    found = page.search(word, match_case=True).get_next()
    assert found is not None
    box: tuple[float, float, float, float] = page.get_charbox(found[0])
    return box


def middle_of(data: bytes, word: str) -> float:
    return boxes(data, word)[0]


def height_of(data: bytes, word: str) -> float:
    return boxes(data, word)[1]


def test_the_sheet_is_black_and_white() -> None:
    page = pypdfium2.PdfDocument(shot_sheet_bytes(SHEET))[0]
    pixels = np.asarray(page.render(scale=1.0).to_numpy(), dtype=float)[:, :, :3]
    assert float(np.max(pixels.max(axis=2) - pixels.min(axis=2))) < 20.0


def test_nothing_leaves_the_page() -> None:
    data = shot_sheet_bytes(replace(SHEET, balls=("Willow " * 12,) * 20, studio="S" * 200))
    assert len(words(data)) == 1


def test_the_same_sheet_is_the_same_bytes() -> None:
    assert shot_sheet_bytes(SHEET) == shot_sheet_bytes(SHEET)


def test_metric_units_stand_above_the_columns() -> None:
    (page,) = words(shot_sheet_bytes(replace(SHEET, metric=True)))
    assert "m/s" in page
    assert "mph" not in page


def test_what_is_not_known_is_left_to_be_written() -> None:
    (page,) = words(shot_sheet_bytes(ShotSheet(golfer="A. B.")))
    assert "Day: __" in page
    assert "Sheet: __" in page


def test_letters_that_the_typefaces_lack_do_not_stop_the_printing() -> None:
    assert words(shot_sheet_bytes(replace(SHEET, golfer="Я. 山.", balls=("\u0000\U0001f3cc",))))


@pytest.mark.parametrize("change", [{"balls": ("Ash",) * 201}, {"first": 0}])
def test_a_sheet_beyond_all_size_is_refused(change: dict[str, object]) -> None:
    with pytest.raises(InputError, match="cannot be printed"):
        replace(SHEET, **change)  # type: ignore[arg-type]
