"""Labels read back: what is printed is what a scanner reads, and the code is never cut."""

import re
from datetime import date

import pypdfium2
import pytest
import segno

from loftwright.domain.piece_code import code_of
from loftwright.errors import InputError
from loftwright.report.piece_labels import MOST_LABELS, QUIET, PieceLabel, code_svg, labels_pdf

DAY = date(2026, 11, 25)
STUDIO = "The Lantern Bay (invented)"


def labels(number: int) -> list[PieceLabel]:
    return [
        PieceLabel(piece=f"p{place}", name="Heron", mark=f"H{place}") for place in range(number)
    ]


def words(data: bytes) -> list[str]:
    """Return the words of each page."""
    document = pypdfium2.PdfDocument(data)
    return [page.get_textpage().get_text_range() for page in document]


def test_every_label_says_what_it_is_and_its_code() -> None:
    one = PieceLabel(piece="p1", name="Heron firm", mark="Heron 1", facts="61.4 g")
    (page,) = words(labels_pdf([one], studio=STUDIO, day=DAY))
    for text in ("Heron firm", "Heron 1", "61.4 g", code_of("p1"), STUDIO):
        assert text in page


def test_twenty_four_labels_fit_on_a_sheet() -> None:
    assert len(words(labels_pdf(labels(24), studio=STUDIO, day=DAY))) == 1
    pages = words(labels_pdf(labels(25), studio=STUDIO, day=DAY))
    assert len(pages) == 2
    assert code_of("p24") in pages[1]


def test_a_very_long_name_never_costs_the_code() -> None:
    long = PieceLabel(piece="p1", name="Nullmoor " * 30, mark="x" * 200, facts="very firm " * 40)
    pages = words(labels_pdf([long, *labels(23)], studio=STUDIO, day=DAY))
    assert len(pages) == 1
    assert code_of("p1") in pages[0]


def test_the_printed_squares_are_the_code_s_own() -> None:
    """The page is drawn and sampled; the sampled squares are those that encode the code."""
    page = pypdfium2.PdfDocument(labels_pdf(labels(1), studio="", day=DAY))[0]
    scale = 300.0 / 72.0
    dark = page.render(scale=scale).to_numpy()[:, :, 0] < 128
    made = segno.make_qr(code_of("p0"), error="m", boost_error=False)
    size = len(made.matrix)
    rows, columns = (
        dark[:400, :420].any(axis=1).nonzero()[0],
        dark[:320, :420].any(axis=0).nonzero()[0],
    )
    left, top = columns[0], rows[0]
    pixels = 25.0 / 25.4 * 300.0 / (size + 2 * QUIET)
    sampled = [
        [
            int(dark[int(top + (y + 0.5) * pixels), int(left + (x + 0.5) * pixels)])
            for x in range(size)
        ]
        for y in range(size)
    ]
    assert sampled == [[int(bit) for bit in row] for row in made.matrix]


def test_the_drawing_keeps_four_blank_modules_around() -> None:
    svg = code_svg(code_of("p1"))
    side = int(re.search(r'viewBox="0 0 (\d+)', svg).group(1))  # type: ignore[union-attr]
    places = [(int(x), int(y)) for x, y in re.findall(r"M(\d+) (\d+)h", svg)]
    assert min(min(place) for place in places) == QUIET
    assert max(max(place) for place in places) == side - QUIET - 1


def test_the_same_labels_are_the_same_bytes() -> None:
    one, other = (labels_pdf(labels(3), studio=STUDIO, day=DAY) for _ in range(2))
    assert one == other


@pytest.mark.parametrize("number", [0, MOST_LABELS + 1])
def test_no_label_and_far_too_many_are_refused(number: int) -> None:
    with pytest.raises(InputError, match="cannot be printed at once"):
        labels_pdf(labels(number), studio=STUDIO, day=DAY)
