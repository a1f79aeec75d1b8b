"""What a quote comes to, in whole smallest units of money."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from loftwright.domain.order import PriceLine, Quote
from loftwright.errors import InputError

_MILLION: Final = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Sums:
    """What a quote comes to, in the smallest unit of money.

    Attributes
    ----------
    net, tax, gross : int
        Lines without tax, the tax on their sum, and both together.
    deposit, rest : int
        Of the sum with tax: when it is ordered, and when it is fetched.
    """

    net: int
    tax: int
    gross: int
    deposit: int
    rest: int


def lacking(lines: Sequence[PriceLine]) -> tuple[str, ...]:
    """Return what has no price yet, so that no sum can be told."""
    return tuple(one.what for one in lines if one.price is None)


def line_total(line: PriceLine) -> int | None:
    """Return the price of a line times its count; None without a price."""
    return None if line.price is None else line.price * line.count


def sums_of(quote: Quote) -> Sums | None:
    """Return what a quote comes to; None while a line has no price or there is no line.

    Parameters
    ----------
    quote : Quote

    Notes
    -----
    Tax is taken once, from the sum of all lines, and rounded half up to the smallest unit; so is
    the deposit, from the sum with tax.
    """
    totals = [line_total(one) for one in quote.lines]
    if not totals or None in totals:
        return None
    net = sum(one for one in totals if one is not None)
    tax = share_of(net, quote.tax)
    gross = net + tax
    deposit = share_of(gross, quote.deposit)
    return Sums(net=net, tax=tax, gross=gross, deposit=deposit, rest=gross - deposit)


def share_of(amount: int, share: float) -> int:
    """Return a share of an amount in whole smallest units, rounded half up.

    Parameters
    ----------
    amount : int
        Nought or more, in the smallest unit of money.
    share : float
        0 to 1.

    Notes
    -----
    A share counts in whole millionths: 7.7 % is 77 parts of a thousand, not the binary number
    beside it, so that half a unit is rounded as on paper.
    """
    if amount < 0:
        raise InputError(
            f"a sum of {amount} cannot be shared", place="amount", mend="Give nought or more."
        )
    return int(amount * Fraction(round(share * _MILLION), _MILLION) + Fraction(1, 2))
