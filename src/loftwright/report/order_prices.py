"""The prices of a quote in words and figures."""

from loftwright.domain.order import Quote
from loftwright.report.numbers import NONE, listed
from loftwright.report.screen_numbers import Show
from loftwright.workshop.quote import lacking, sums_of


def amount(money: int | None, currency: str, show: Show) -> str:
    """Return an amount of money, or a dash where nobody set one."""
    return NONE if money is None else show.money(money, currency)


def share_words(share: float, show: Show) -> str:
    """Return a share in per cent, with as many decimals as it has: `20 %`, `7.7 %`."""
    return f"{show.typed('share', share) or '0'} %"


def untold(quote: Quote) -> str:
    """Return why no sum is told; empty where it is."""
    if sums_of(quote) is not None:
        return ""
    missing = listed([f"“{one}”" for one in lacking(quote.lines)])
    return f"no price for {missing}" if missing else "nothing stands in it"


def sum_rows(quote: Quote, show: Show) -> tuple[tuple[str, str, bool], ...]:
    """Return what a quote comes to: name, amount, and whether it is what is paid.

    Parameters
    ----------
    quote : Quote
    show : Show

    Returns
    -------
    tuple of (str, str, bool)
        A single row that says why, while no sum is told.
    """
    told, currency = sums_of(quote), quote.currency
    if told is None:
        return (("Sum", f"not told: {untold(quote)}", True),)
    rows = [("Sum", told.gross, True)]
    if quote.tax:
        rows = [
            ("Sum without tax", told.net, False),
            (f"Tax, {share_words(quote.tax, show)}", told.tax, False),
            ("Sum with tax", told.gross, True),
        ]
    if quote.deposit:
        rows.append((f"Deposit, {share_words(quote.deposit, show)}", told.deposit, False))
        rows.append(("When it is fetched", told.rest, False))
    return tuple((name, show.money(money, currency), paid) for name, money, paid in rows)
