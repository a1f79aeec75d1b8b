"""A sleeve's settings as a form holds them: a name, its bore and where the grip end leans."""

from typing import Final

from loftwright.constants import DEGREE
from loftwright.domain.rack import Sleeve
from loftwright.report.screen_numbers import Show

LEAN_DIRECTIONS: Final = {
    "to the target": 0.0,
    "to the player": 90.0,
    "away from the target": 180.0,
    "away from the player": 270.0,
}
"""Where the grip end leans, in words for the four quarters [deg]."""


def settings_text(sleeve: Sleeve, show: Show) -> str:
    """Return a sleeve's settings as its form holds them, one a line."""
    words = {angle: direction for direction, angle in LEAN_DIRECTIONS.items()}
    lines = []
    for one in sleeve.settings:
        if one.bore == 0.0:
            lines.append(one.name)
            continue
        azimuth = round(one.azimuth / DEGREE, 6) % 360.0
        direction = words.get(azimuth, show.words(f"{azimuth:g}"))
        lines.append(f"{one.name}; {show.typed('angle', one.bore)}; {direction}")
    return "\n".join(lines)
