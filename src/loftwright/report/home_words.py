"""The home that figures were worked out for, in words."""

from loftwright.constants import FOOT, MILE_PER_HOUR, YARD
from loftwright.domain.home import Hole, Home, Trouble
from loftwright.report.numbers import count, fixed


def home_lines(home: Home) -> list[str]:
    """Return air, wind, turf and holes as lines for the conditions of a report."""
    celsius = home.temperature - 273.15
    air = (
        f"{home.name}: {fixed(celsius * 1.8 + 32.0)} °F, {fixed(home.altitude / FOOT)} ft, "
        f"{fixed(100.0 * home.humidity)} % humidity, {home.turf} turf, {wind_words(home)}."
    )
    return [air, _holes(home)]


def wind_words(home: Home) -> str:
    """Return the wind in words, as the golfer feels it on the tee."""
    parts = []
    along, across = home.wind_along / MILE_PER_HOUR, home.wind_across / MILE_PER_HOUR
    if abs(along) >= 0.5:
        parts.append(f"{fixed(abs(along))} mph {'from behind' if along > 0.0 else 'against'}")
    if abs(across) >= 0.5:
        side = "from the left" if across > 0.0 else "from the right"
        parts.append(f"{fixed(abs(across))} mph {side}")
    return f"wind {' and '.join(parts)}" if parts else "calm"


def _holes(home: Home) -> str:
    holes = home.holes or (Hole(),)
    aim = "each club aimed to score best" if home.re_aim else "no club re-aimed"
    if len(holes) == 1:
        return f"One hole of {_hole(holes[0])}; {aim}."
    lengths = _span([hole.length for hole in holes])
    widths = _span([hole.fairway for hole in holes])
    troubled = sum(hole.trouble is not Trouble.NONE for hole in holes)
    return (
        f"{count(len(holes), 'hole')} of {lengths} yd, fairways {widths} yd, trouble on "
        f"{troubled or 'none'} of them; {aim}."
    )


def _hole(hole: Hole) -> str:
    trouble = ""
    if hole.trouble is not Trouble.NONE:
        side = "both sides" if hole.trouble is Trouble.BOTH else f"the {hole.trouble}"
        trouble = f", trouble on {side} from {fixed(hole.trouble_from / YARD)} yd"
    return f"{fixed(hole.length / YARD)} yd, fairway {fixed(hole.fairway / YARD)} yd{trouble}"


def _span(lengths: list[float]) -> str:
    low, high = fixed(min(lengths) / YARD), fixed(max(lengths) / YARD)
    return low if low == high else f"{low} to {high}"
