"""Strokes of a pencil drawing as SVG: letters, markers, lines, hatched trees, rules."""

from collections.abc import Iterable
from html import escape
from math import ceil, cos, floor, sin, sqrt

from loftwright.report.fonts import REGULAR, SANS
from loftwright.report.look import EDGE, INK, INK_2
from loftwright.report.marks import RING_RADIUS, Mark

LETTER = 7.7
"""Mean width of a letter at the size of pictures, for keeping labels apart."""

_APART = 40.0
"""Least distance between two numerals of a rule in the picture's units."""

_OCTAGON = tuple(
    (dx / sqrt(dx * dx + dy * dy), dy / sqrt(dx * dx + dy * dy))
    for dx, dy in ((1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1))
)


def scattered(index: int) -> float:
    """Return the same numbers between 0 and 1 every time, without visible order."""
    return (index * 0.6180339887498949 + 0.37) % 1.0


def letters(
    x: float,
    y: float,
    text: str,
    *,
    ground: str = "",
    bold: bool = False,
    soft: bool = False,
    anchor: str = "start",
) -> str:
    """Return a line of text; `soft` is the colour of notes and numerals.

    Parameters
    ----------
    x, y : float
        Where the line begins, halves or ends, by its `anchor`; y is the foot of the letters
        [points].
    text : str
    ground : str
        A colour on which the line clears the strokes that it stands on.
    bold, soft : bool
    anchor : {"start", "middle", "end"}
    """
    weight = 'font-weight="600"' if bold else REGULAR
    width = 0.92 * LETTER * len(text) + 4.0
    left = {"start": x - 2.0, "middle": x - width / 2.0, "end": x - width + 2.0}[anchor]
    cleared = (
        f'<rect x="{left:.1f}" y="{y - 13.0:.1f}" width="{width:.1f}" height="17" '
        f'fill="{ground}"/>'
        if ground
        else ""
    )
    return (
        f'{cleared}<text {weight} x="{x:.1f}" y="{y:.1f}" font-family="\'{SANS}\'" font-size="15" '
        f'text-anchor="{anchor}" fill="{INK_2 if soft else INK}">{escape(text)}</text>'
    )


def marker(mark: Mark, x: float, y: float, radius: float) -> str:
    """Return a club's marker; the ring is open to no line that runs under it."""
    if mark.is_ring:
        return (
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{RING_RADIUS * radius:.1f}" fill="#ffffff" '
            f'stroke="{INK}" stroke-width="3"/>'
        )
    return (
        f'<path d="{mark.path(x, y, radius)}" fill="{mark.colour}" stroke="{INK}" '
        'stroke-width="1.4" stroke-linejoin="round"/>'
    )


def pencil(path: str, colour: str = EDGE) -> str:
    """Return a pencil line: one stroke and a paler one beside it."""
    style = f'fill="none" stroke="{colour}" stroke-width="1.3" stroke-linejoin="round"'
    return (
        f'<path d="{path}" {style}/>'
        f'<path d="{path}" {style} stroke-opacity="0.45" transform="translate(0.9 -0.7)"/>'
    )


def tree(x: float, y: float, radius: float, seed: int) -> str:
    """Return one hatched crown."""
    hatch = ""
    for index in range(-1, 3):
        shift = radius * (0.5 * index - 0.25)
        half = sqrt(max(0.0, (0.8 * radius) ** 2 - shift**2)) / sqrt(2.0)
        mx, my = x + shift / sqrt(2.0), y + shift / sqrt(2.0)
        hatch += f"M{mx - half:.1f} {my + half:.1f}L{mx + half:.1f} {my - half:.1f}"
    return (
        f'<path d="{_crown(x, y, (radius, radius), seed)}" fill="none" stroke="{EDGE}" '
        f'stroke-width="1.2"/><path d="{hatch}" fill="none" stroke="{EDGE}" stroke-width="0.8"/>'
    )


def bunker(x: float, y: float, radius: float, seed: int) -> str:
    """Return one bunker, its sand stippled."""
    wide = 2.1 * radius
    dots = ""
    for index in range(14):
        turn, reach = 2.4 * index, 0.72 * sqrt((index + 0.5) / 14.0)
        dots += f"M{x + wide * reach * cos(turn):.1f} {y + radius * reach * sin(turn):.1f}h0.01"
    return (
        f'<path d="{_crown(x, y, (wide, radius), seed)}" fill="none" stroke="{EDGE}" '
        f'stroke-width="1.2"/><path d="{dots}" fill="none" stroke="{EDGE}" stroke-width="1.4" '
        'stroke-linecap="round"/>'
    )


def _crown(x: float, y: float, radii: tuple[float, float], seed: int) -> str:
    """Return an uneven round outline."""
    corners = []
    for index, (dx, dy) in enumerate(_OCTAGON):
        reach = 0.84 + 0.3 * scattered(seed * 8 + index)
        corners.append((x + reach * radii[0] * dx, y + reach * radii[1] * dy))
    (lx, ly), (fx, fy) = corners[-1], corners[0]
    path = f"M{(lx + fx) / 2.0:.1f} {(ly + fy) / 2.0:.1f}"
    for (cx, cy), (nx, ny) in zip(corners, [*corners[1:], corners[0]], strict=True):
        path += f"Q{cx:.1f} {cy:.1f} {(cx + nx) / 2.0:.1f} {(cy + ny) / 2.0:.1f}"
    return path


def tuft(x: float, y: float, seed: int) -> str:
    """Return a tuft of rough grass."""
    lean = 2.0 * scattered(seed) - 1.0
    path = f"M{x - 3.0:.1f} {y:.1f}l{lean - 1.5:.1f} -5M{x:.1f} {y:.1f}l{lean:.1f} -7"
    path += f"M{x + 3.0:.1f} {y:.1f}l{lean + 1.5:.1f} -5"
    return f'<path d="{path}" fill="none" stroke="{EDGE}" stroke-width="0.9"/>'


def steel_rule(low: float, per_unit: float, right: float, base: float) -> str:
    """Return a graduated rule from the left edge: numerals, middle and short ticks.

    Parameters
    ----------
    low : float
        What stands at the left edge.
    per_unit : float
        Width of one unit in the picture.
    right, base : float
        Where the rule ends, and the height of its line.
    """
    numeral = next((step for step in (10, 20, 50) if step * per_unit >= _APART), 100)
    short = numeral // 5
    ticks, numerals = "", ""
    for tenth in range(floor(2.0 * low), ceil(2.0 * (low + right / per_unit)) + 1):
        unit = tenth / 2.0
        x = (unit - low) * per_unit
        lengths = {numeral: 12, numeral / 2.0: 8, short: 4}
        length = next((size for step, size in lengths.items() if unit % step == 0.0), 0)
        if length == 0 or not -0.01 <= x <= right + 0.01:
            continue
        ticks += f"M{x:.1f} {base:.1f}v{length}"
        if length == 12 and 14.0 < x < right - 14.0:
            numerals += letters(x, base + 28.0, f"{unit:.0f}", soft=True, anchor="middle")
    return (
        f'<path d="{ticks}" stroke="{EDGE}" stroke-width="1.2" fill="none"/>'
        f'<path d="M0 {base:.1f}H{right:.1f}" stroke="{INK}" stroke-width="1.2"/>{numerals}'
    )


def drawing(width: float, height: float, parts: Iterable[str]) -> str:
    """Return strokes as one SVG document."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.0f}" height="{height:.0f}" '
        f'viewBox="0 0 {width:.0f} {height:.0f}">{"".join(parts)}</svg>'
    )
