"""The sheet of an order, read back: one page, tags, words, no colour, the same bytes."""

from dataclasses import replace
from datetime import date
from io import BytesIO

import numpy as np
import pikepdf
import pypdfium2
import pytest

from loftwright.domain.order import PriceKind, PriceLine
from loftwright.report.order_paper import OrderPaper, order_pdf
from loftwright.report.screen_numbers import Show
from orders import LINES, a_quote, a_spec

QUOTED = OrderPaper(
    shop="The Lantern Bay",
    golfer="Ottoline Brambleby",
    quote=a_quote(),
    day=date(2026, 11, 25),
    show=Show(),
)
AGREED = replace(
    QUOTED,
    agreed=date(2026, 11, 26),
    signed="Ottoline Brambleby",
    promised=date(2026, 12, 10),
)
WORKSHOP = replace(
    AGREED, golfer="O.B.", signed="", workshop=True, flags=("tip trim: it is sent trimmed.",)
)
LONG = PriceLine(what="word " * 31, kind=PriceKind.LABOUR, price=99_999_999, count=100)


def words(paper: OrderPaper) -> str:
    """Return the words of the only page."""
    (page,) = pypdfium2.PdfDocument(BytesIO(order_pdf(paper)))
    return str(page.get_textpage().get_text_bounded()).replace("\r\n", "\n")


def test_what_was_agreed_stands_on_the_golfer_s_copy() -> None:
    told = words(AGREED)
    for line in (
        "What was agreed",
        "Ottoline Brambleby",
        "645.60 crowns",
        "193.68 crowns",
        "24.50 crowns",
        "Reedmace firm",
        "8 balls hit with just this club.",
        "carry 238 yd + run 17 yd",
        "Signature: this club, at this price",
    ):
        assert line in told.replace("\N{NO-BREAK SPACE}", " ")
    assert "Agreed by Ottoline Brambleby, on the screen, 26 November 2026." in told.replace(
        "\N{NO-BREAK SPACE}", " "
    )


def test_a_quote_to_sign_says_until_when_it_is_good() -> None:
    told = words(QUOTED).replace("\N{NO-BREAK SPACE}", " ")
    assert told.startswith("Quote")
    for line in ("Good until", "25 December 2026", "14 days after the order"):
        assert line in told
    assert "Agreed by" not in told


def test_a_signed_sheet_is_named_as_such() -> None:
    assert "on paper" in words(replace(AGREED, on_paper=True))


def test_the_workshop_s_copy_has_neither_price_nor_promise_nor_signature() -> None:
    told = words(WORKSHOP).replace("\N{NO-BREAK SPACE}", " ")
    assert told.startswith("Order for the workshop")
    for absent in ("crowns", "Ottoline", "Signature", "carry", "Tax", "8 balls"):
        assert absent not in told
    for line in ("O.B.", "10 December 2026", "tip trim: it is sent trimmed.", "Build and grip"):
        assert line in told


def test_a_line_without_a_price_is_named_where_the_sum_would_stand() -> None:
    bare = replace(QUOTED, quote=a_quote(lines=(*LINES, replace(LINES[0], price=None))))
    assert "not told: no price for “Club: Harrow 460, Reedmace firm”" in words(bare).replace(
        "\n", " "
    )


def test_figures_follow_the_shop_s_units_and_comma() -> None:
    told = words(replace(AGREED, show=Show(units="metric", decimal="comma")))
    for line in ("645,60", "1149", "10,5°"):
        assert line in told
    assert " yd" not in told


@pytest.mark.parametrize("workshop", [False, True])
def test_the_longest_order_is_still_one_sheet(workshop: bool) -> None:
    spec = a_spec(
        head="head " * 16, shaft="shaft " * 14, grip="grip " * 15, why=("because " * 11,) * 5
    )
    quote = a_quote(
        spec=spec,
        lines=(LONG,) * 12,
        note="note " * 80,
        builder="builder " * 10,
        currency="crowns",
    )
    paper = replace(
        AGREED,
        shop="shop " * 16,
        golfer="name " * 16,
        signed="name " * 16,
        quote=quote,
        workshop=workshop,
        flags=("flag " * 40,) * 3 if workshop else (),
    )
    assert len(pypdfium2.PdfDocument(BytesIO(order_pdf(paper)))) == 1


@pytest.mark.parametrize("paper", [QUOTED, AGREED, WORKSHOP])
def test_the_sheet_is_black_on_white(paper: OrderPaper) -> None:
    (page,) = pypdfium2.PdfDocument(BytesIO(order_pdf(paper)))
    pixels = np.asarray(page.render(scale=1.0).to_numpy())[..., :3].astype(int)
    spread = pixels.max(axis=2) - pixels.min(axis=2)
    assert spread.max() <= 40, "only the ink's own tint"


def test_the_same_order_is_the_same_file() -> None:
    assert order_pdf(AGREED) == order_pdf(AGREED)


def test_the_sheet_is_tagged_and_titled() -> None:
    with pikepdf.open(BytesIO(order_pdf(AGREED))) as opened:
        assert opened.Root.MarkInfo.Marked
        assert "What was agreed" in str(opened.docinfo["/Title"])
        assert str(opened.Root.Lang) == "en-GB"
