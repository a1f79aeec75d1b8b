"""What may be said and what not, with lengths in the shop's own units."""

from collections.abc import Iterable
from dataclasses import replace

from loftwright.domain.home import Hole
from loftwright.evidence.result import Claim
from loftwright.evidence.value import SHORTER_BY
from loftwright.report.screen_numbers import TRADE, Show


def told_claims(claims: Iterable[Claim], show: Show = TRADE) -> tuple[Claim, ...]:
    """Return claims whose reasons name the standard hole that they were worked out on.

    Parameters
    ----------
    claims : iterable of Claim
    show : Show
        The units and the decimal mark of their figures.
    """
    return tuple(replace(claim, why=_reason(claim, show), hole=None) for claim in claims)


def _reason(claim: Claim, show: Show) -> str:
    if claim.hole is None:
        return claim.why
    length = f"on one standard hole of {show.yards(claim.hole)}"
    if claim.hole < Hole().length:
        length += f", the own total plus {show.yards(SHORTER_BY)}"
    return f"{length}, {claim.why}"
