"""Where fittings say otherwise than a shaft's label, the bench or its sisters, in a sentence."""

from typing import Final

from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.report.shop_words import NAMES, apart, with_unit

_MORE: Final = {"launch": "a higher launch", "spin": "more spin"}


def contradiction_words(
    kind: str,
    response: str,
    ends: tuple[float, float, float],
    fittings: int,
    show: Show,
    *,
    claim: str = "",
    against: str = "",
) -> str:
    """Return one contradiction as a sentence about a shaft that was named before.

    Parameters
    ----------
    kind : {"label", "stiffness", "physics", "sample"}
        What it contradicts.
    response : {"launch", "spin"}
    ends : (float, float, float)
        Best estimate, low and high end of its range, SI.
    fittings : int
        In which it was hit.
    show : Show
    claim : str
        What is printed.
    against : str
        The softer model of the family, in words.
    """
    mean, low, high = ends
    size = f"{with_unit(response, mean, show)} "
    size += f"({apart(response, low, show)} to {apart(response, high, show)})"
    hit = count(fittings, "fitting")
    name, say = NAMES[response], "says" if fittings == 1 else "say"
    if kind == "label":
        return f"Its label says {claim}; {hit} {say} {name} {size} against the other shafts."
    if kind == "stiffness":
        more = _MORE[response]
        return (
            f"Its label, {claim}, is the stiffer one, yet it gives {more}, {size}, than "
            f"{against}; {hit}."
        )
    if kind == "sample":
        return (
            f"This sample differs from the others of its model: {name} {size}; {hit}. Look at it "
            "on the bench."
        )
    return (
        f"Bench and physics expect otherwise: {name} {size} beyond them, against the other "
        f"shafts; {hit}."
    )
