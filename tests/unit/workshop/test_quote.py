"""What a quote comes to, to the smallest unit of money."""

import pytest

from loftwright.domain.order import PriceKind, PriceLine
from loftwright.errors import InputError
from loftwright.workshop.quote import Sums, lacking, line_total, share_of, sums_of
from orders import a_quote


def priced(price: int | None, count: int = 1) -> PriceLine:
    return PriceLine(what=f"line at {price}", kind=PriceKind.PART, price=price, count=count)


def test_a_quote_is_summed_as_on_paper() -> None:
    told = sums_of(a_quote())
    assert told == Sums(net=53800, tax=10760, gross=64560, deposit=19368, rest=45192)


@pytest.mark.parametrize(
    ("amount", "share", "told"),
    [
        (5, 0.1, 1),
        (4, 0.1, 0),
        (15, 0.1, 2),
        (1000, 0.077, 77),
        (6500, 0.077, 501),
        (333, 0.19, 63),
        (350, 0.19, 67),
        (50, 0.07, 4),
        (150, 0.07, 11),
        (0, 1.0, 0),
        (7, 1.0, 7),
        (7, 0.0, 0),
    ],
)
def test_half_a_unit_is_rounded_up(amount: int, share: float, told: int) -> None:
    assert share_of(amount, share) == told


@pytest.mark.parametrize("tenths", range(1001))
def test_a_share_typed_in_per_cent_is_taken_as_written(tenths: int) -> None:
    typed = tenths / 10.0 * 0.01
    assert share_of(10_000, typed) == tenths * 10
    assert share_of(500, typed) == (tenths * 5 + 5) // 10


def test_a_share_of_less_than_nothing_is_refused() -> None:
    with pytest.raises(InputError, match="cannot be shared"):
        share_of(-1, 0.2)


def test_tax_is_taken_once_from_the_sum() -> None:
    lines = tuple(priced(3) for _ in range(3))
    told = sums_of(a_quote(lines=lines, tax=0.15, deposit=0.0))
    assert told is not None
    assert (told.net, told.tax) == (9, 1)


def test_a_line_without_a_price_leaves_the_sum_untold_and_is_named() -> None:
    quote = a_quote(lines=(priced(100), priced(None)))
    assert sums_of(quote) is None
    assert lacking(quote.lines) == ("line at None",)
    assert line_total(priced(None)) is None


def test_a_line_for_nothing_counts_as_a_price() -> None:
    told = sums_of(a_quote(lines=(priced(0),)))
    assert told is not None
    assert told.gross == 0


def test_a_quote_without_a_line_has_no_sum() -> None:
    assert sums_of(a_quote(lines=())) is None


def test_a_count_multiplies_its_line() -> None:
    assert line_total(priced(2450, 3)) == 7350
