"""What leaves an order: initials alone to whoever builds, and the golfer's own copy."""

from datetime import date
from io import BytesIO

import pypdfium2
import pytest

from bays import Bay, a_bay
from loftwright.domain.order import PriceKind, PriceLine
from loftwright.domain.order_acts import Agreed, OrderSent
from loftwright.domain.terms import Terms
from loftwright.errors import InputError
from loftwright.services.order import (
    Writing,
    agree,
    give_quote,
    order_of,
    send_order,
    withdraw,
)
from loftwright.services.order_paper import cannot_of, paper_of_order, text_of_order
from loftwright.services.terms import change_terms
from orders import LINES, a_quote, a_spec

NAMED = a_quote(
    spec=a_spec(grip="as on Brambleby's old one"),
    lines=(*LINES, PriceLine(what="Engrave Brambleby", kind=PriceKind.LABOUR, price=100)),
    builder="The Old Forge",
    note="Ottoline likes the logo below; ottoline brambleby rings on Friday.",
    few_balls_known=True,
)


@pytest.fixture
def bay() -> Bay:
    made = a_bay()
    terms = Terms(builder="The Old Forge", cannot=("tip trim",))
    change_terms(made.studio, terms, version=0)
    return made


def agreed(bay: Bay) -> None:
    record = give_quote(bay.studio, bay.fitting, NAMED, Writing())
    signed = Agreed(name="Ottoline Brambleby")
    agree(bay.studio, bay.fitting, signed, record[-1].sequence, Writing())


def text(bay: Bay) -> str:
    return text_of_order(bay.studio, bay.fitting, order_of(bay.studio, bay.fitting))


def paper(bay: Bay, *, workshop: bool) -> str:
    now = order_of(bay.studio, bay.fitting)
    made = paper_of_order(bay.studio, bay.fitting, now, workshop=workshop)
    pages = pypdfium2.PdfDocument(BytesIO(made))
    assert len(pages) == 1
    return str(pages[0].get_textpage().get_text_bounded())


def test_the_workshop_reads_initials_and_no_price(bay: Bay) -> None:
    agreed(bay)
    for told in (text(bay), paper(bay, workshop=True)):
        assert "O.B." in told
        assert "Ottoline" not in told
        assert "Brambleby" not in told
        assert "brambleby" not in told
        assert "crowns" not in told
        assert "tip trim: this shaft is wanted as it was tested" in told.replace("\r\n", " ")


def test_the_golfer_s_copy_has_name_prices_and_signature(bay: Bay) -> None:
    agreed(bay)
    told = paper(bay, workshop=False)
    assert told.startswith("What was agreed")
    for words in ("Ottoline Brambleby", "crowns", "Signature", "Agreed by", "Farrow Links"):
        assert words in told
    assert "tip trim" not in told


def test_before_the_agreement_there_is_a_quote_to_sign_and_no_order(bay: Bay) -> None:
    with pytest.raises(InputError, match="nothing is quoted"):
        paper(bay, workshop=False)
    give_quote(bay.studio, bay.fitting, NAMED, Writing())
    assert paper(bay, workshop=False).startswith("Quote")
    with pytest.raises(InputError, match="nobody agreed"):
        paper(bay, workshop=True)
    with pytest.raises(InputError, match="nobody agreed"):
        text(bay)


def test_an_order_that_is_off_is_not_printed(bay: Bay) -> None:
    agreed(bay)
    withdraw(bay.studio, bay.fitting, "too dear", Writing())
    for workshop in (True, False):
        with pytest.raises(InputError):
            paper(bay, workshop=workshop)


def test_the_day_is_that_of_the_order_until_another_is_promised(bay: Bay) -> None:
    agreed(bay)
    assert "Ready by: 9 December 2026" in text(bay)
    assert "To: The Old Forge" in text(bay)
    sent = OrderSent(to="Elsewhere", promised=date(2026, 12, 20))
    send_order(bay.studio, bay.fitting, sent, Writing())
    assert "Ready by: 20 December 2026" in text(bay)
    assert "To: Elsewhere" in text(bay)


def test_what_one_builder_cannot_do_says_nothing_of_another() -> None:
    terms = Terms(builder="The Old Forge", cannot=("tip trim",))
    assert cannot_of(NAMED, terms) == ("tip trim",)
    assert cannot_of(a_quote(builder="Elsewhere"), terms) == ()
    assert cannot_of(a_quote(builder=""), Terms(cannot=("tip trim",))) == ()
