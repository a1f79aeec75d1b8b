"""The home that figures were worked out for, in words."""

from typing import Final

from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.home import Hole, Home, Trouble
from loftwright.report.numbers import count, fixed
from loftwright.report.screen_numbers import TRADE, Show

_FELT: Final = 0.5 * MILE_PER_HOUR
"""Wind below this is called calm: it would round to nothing."""


def home_lines(home: Home, show: Show = TRADE) -> list[str]:
    """Return air, wind, turf and holes as lines for the conditions of a report.

    Parameters
    ----------
    home : Home
    show : Show
    """
    air = (
        f"{home.name}: {show.temperature(home.temperature)}, {show.altitude(home.altitude)}, "
        f"{fixed(100.0 * home.humidity)} % humidity, {home.turf} turf, {wind_words(home, show)}."
    )
    return [air, _holes(home, show)]


def wind_words(home: Home, show: Show = TRADE) -> str:
    """Return the wind in words, as the golfer feels it on the tee.

    Parameters
    ----------
    home : Home
    show : Show
    """
    parts = []
    along, across = home.wind_along, home.wind_across
    if abs(along) >= _FELT:
        parts.append(f"{show.wind(abs(along))} {'from behind' if along > 0.0 else 'against'}")
    if abs(across) >= _FELT:
        side = "from the left" if across > 0.0 else "from the right"
        parts.append(f"{show.wind(abs(across))} {side}")
    return f"wind {' and '.join(parts)}" if parts else "calm"


def _holes(home: Home, show: Show) -> str:
    holes = home.holes or (Hole(),)
    aim = "each club aimed to score best" if home.re_aim else "no club re-aimed"
    if len(holes) == 1:
        return f"One hole of {_hole(holes[0], show)}; {aim}."
    lengths = _span([hole.length for hole in holes], show)
    widths = _span([hole.fairway for hole in holes], show)
    troubled = sum(hole.trouble is not Trouble.NONE for hole in holes)
    return (
        f"{count(len(holes), 'hole')} of {lengths}, fairways {widths}, trouble on "
        f"{troubled or 'none'} of them; {aim}."
    )


def _hole(hole: Hole, show: Show) -> str:
    trouble = ""
    if hole.trouble is not Trouble.NONE:
        side = "both sides" if hole.trouble is Trouble.BOTH else f"the {hole.trouble}"
        trouble = f", trouble on {side} from {show.yards(hole.trouble_from)}"
    return f"{show.yards(hole.length)}, fairway {show.yards(hole.fairway)}{trouble}"


def _span(lengths: list[float], show: Show) -> str:
    low, high = show.figure("distance", min(lengths)), show.yards(max(lengths))
    return high if high.startswith(f"{low} ") else f"{low} to {high}"
