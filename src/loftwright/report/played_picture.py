"""What was said of a club and what rounds say, each a range over one rule."""

from collections.abc import Callable
from math import inf

from loftwright.report.numbers import count
from loftwright.report.range_rows import RangeOf, range_rows
from loftwright.report.screen_numbers import Show
from loftwright.workshop.played import DRIVES, Compared


def fairways_picture(one: Compared, show: Show) -> str:
    """Draw fairways in 14 drives: said above, seen below; empty while rounds give no range."""
    title = "Fairways in 14 drives, said and seen"
    return _picture(one, 1.0, show, _fairways(show), title, "fairways", most=DRIVES)


def total_picture(one: Compared, show: Show) -> str:
    """Draw the average total: said above, seen below; empty while rounds give no range."""
    unit = show.unit("distance")
    title = f"Length of a drive, said and seen, {unit.name}"
    return _picture(one, unit.scale, show, show.yards, title, "length")


def fairways_words(one: Compared, show: Show) -> str:
    """Return the picture of fairways in words."""
    return _words(one, _fairways(show))


def total_words(one: Compared, show: Show) -> str:
    """Return the picture of totals in words."""
    return _words(one, show.yards)


def _fairways(show: Show) -> Callable[[float], str]:
    return lambda value: show.number(value, 1)


def _words(one: Compared, told: Callable[[float], str]) -> str:
    seen = f"Seen {told(one.seen)}"
    if one.low is not None and one.high is not None:
        seen += f", {told(one.low)} to {told(one.high)} nine times in ten"
    return f"{seen}." if one.said is None else f"Said {told(one.said)}. {seen}."


def _picture(
    one: Compared,
    size: float,
    show: Show,
    told: Callable[[float], str],
    title: str,
    prefix: str,
    most: float = inf,
) -> str:
    if one.low is None or one.high is None:
        return ""
    rows = [
        RangeOf(
            name=f"Seen in {count(one.rounds, 'round')}",
            best=one.seen / size,
            low=one.low / size,
            high=one.high / size,
            above=told(one.seen),
        )
    ]
    if one.said is not None:
        said = RangeOf(
            name="Said, and how well",
            best=one.said / size,
            low=max(one.said - one.doubt, 0.0) / size,
            high=min(one.said + one.doubt, most) / size,
            sure=False,
            above=told(one.said),
        )
        rows.insert(0, said)
    return range_rows(rows, title=title, prefix=prefix, show=show)
