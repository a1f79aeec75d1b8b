"""What must hold of every quote: whole money, nothing lost, and the rounding it says."""

from dataclasses import replace
from datetime import date
from fractions import Fraction
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from loftwright.domain.order import PriceKind, PriceLine
from loftwright.report.order_words import FEW_BALLS_KNOWN
from loftwright.report.screen_numbers import Show
from loftwright.web.forms import Typed
from loftwright.web.order_forms import MOST_LINES, fields_of_start, read_quote, start_of_quote
from loftwright.workshop.quote import Sums, sums_of
from orders import a_quote

LINES = st.lists(
    st.builds(
        PriceLine,
        what=st.just("line"),
        kind=st.sampled_from(PriceKind),
        price=st.integers(0, 2**53 - 1),
        count=st.integers(1, 100),
    ),
    min_size=1,
    max_size=12,
).map(tuple)
MILLIONTHS = st.integers(0, 1_000_000)


def told(lines: tuple[PriceLine, ...], tax: int, deposit: int) -> Sums:
    quote = a_quote(lines=lines, tax=tax / 1_000_000, deposit=deposit / 1_000_000)
    found = sums_of(quote)
    assert found is not None
    return found


@given(lines=LINES, tax=MILLIONTHS, deposit=MILLIONTHS)
def test_no_unit_of_money_is_lost(lines: tuple[PriceLine, ...], tax: int, deposit: int) -> None:
    sums = told(lines, tax, deposit)
    assert sums.net == sum(one.count * (one.price or 0) for one in lines)
    assert sums.net + sums.tax == sums.gross
    assert sums.deposit + sums.rest == sums.gross
    assert min(sums.tax, sums.deposit, sums.rest) >= 0


@given(lines=LINES, tax=MILLIONTHS, deposit=MILLIONTHS)
def test_a_share_is_never_more_than_half_a_unit_off_and_half_goes_up(
    lines: tuple[PriceLine, ...], tax: int, deposit: int
) -> None:
    sums = told(lines, tax, deposit)
    for found, whole, share in (
        (sums.tax, sums.net, tax),
        (sums.deposit, sums.gross, deposit),
    ):
        off = found - Fraction(whole * share, 1_000_000)
        assert Fraction(-1, 2) < off <= Fraction(1, 2)


@given(lines=LINES, tax=MILLIONTHS, more=MILLIONTHS)
def test_a_higher_tax_never_costs_less(lines: tuple[PriceLine, ...], tax: int, more: int) -> None:
    low, high = sorted((tax, more))
    assert told(lines, low, 0).gross <= told(lines, high, 0).gross


@given(lines=LINES, tax=MILLIONTHS, seed=st.randoms())
def test_the_order_of_the_lines_changes_nothing(
    lines: tuple[PriceLine, ...], tax: int, seed: Random
) -> None:
    mixed = list(lines)
    seed.shuffle(mixed)
    assert told(tuple(mixed), tax, 0) == told(lines, tax, 0)


@given(lines=LINES, place=st.integers(0, 11))
def test_one_line_without_a_price_leaves_every_sum_untold(
    lines: tuple[PriceLine, ...], place: int
) -> None:
    bare = PriceLine(what="bare", kind=PriceKind.PART, price=None)
    assert sums_of(a_quote(lines=(*lines[:place], bare, *lines[place:]))) is None


TEXTS = st.text(st.characters(categories=["L", "N", "P", "Zs"]), max_size=60).map(str.strip)
WRITTEN = st.builds(
    PriceLine,
    what=TEXTS.filter(bool),
    kind=st.sampled_from(PriceKind),
    price=st.none() | st.integers(0, 999_999_999),
    count=st.integers(1, 100),
)
SHOWS = st.builds(
    Show, units=st.sampled_from(("trade", "metric")), decimal=st.sampled_from(("point", "comma"))
)


@given(
    lines=st.lists(WRITTEN, max_size=MOST_LINES).map(tuple),
    tax=MILLIONTHS,
    deposit=MILLIONTHS,
    days=st.integers(0, 730),
    last=st.dates(date(2026, 11, 25), date(2030, 1, 1)),
    note=TEXTS,
    known=st.booleans(),
    show=SHOWS,
)
def test_a_quote_is_read_back_from_its_own_form(
    lines: tuple[PriceLine, ...],
    tax: int,
    deposit: int,
    days: int,
    last: date,
    note: str,
    known: bool,
    show: Show,
) -> None:
    quote = a_quote(
        lines=lines,
        tax=tax / 1_000_000,
        deposit=deposit / 1_000_000,
        lead_days=days,
        valid_until=last,
        builder="The Old Forge",
        note=f"{note} {FEW_BALLS_KNOWN}".strip() if known else note,
        few_balls_known=known,
    )
    typed = Typed(fields=fields_of_start(start_of_quote(quote, last), show), show=show)
    again = read_quote(typed, quote.spec, quote.currency)
    assert again is not None, typed.faults
    assert replace(again, tax=quote.tax, deposit=quote.deposit) == quote
    assert sums_of(again) == sums_of(quote)
