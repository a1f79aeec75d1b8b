"""Writes and knows our own shot table: the one that export and training bay share."""

import csv
import io
import math
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Final

from loftwright.domain.shot import Shot
from loftwright.domain.table_cell import harmless
from loftwright.errors import IntakeError
from loftwright.intake.files import write_whole
from loftwright.units import to_unit

# heading: (field of Shot, unit, digits after the point)
_NUMBERS: Final = {
    "ball_speed_mph": ("ball_speed", "mph", 1),
    "launch_deg": ("launch", "deg", 1),
    "direction_deg": ("direction", "deg", 1),
    "spin_rpm": ("spin", "rpm", 0),
    "axis_deg": ("axis", "deg", 1),
    "head_speed_mph": ("head_speed", "mph", 1),
    "attack_deg": ("attack", "deg", 1),
    "path_deg": ("path", "deg", 1),
    "face_deg": ("face", "deg", 1),
    "strike_toe_mm": ("strike_toe", "mm", 1),
    "strike_high_mm": ("strike_high", "mm", 1),
    "carry_yd": ("carry", "yd", 1),
}
HEADER: Final = (
    "ball",
    "time",
    "club",
    "ball_speed_mph",
    "launch_deg",
    "direction_deg",
    "spin_rpm",
    "axis_deg",
    "head_speed_mph",
    "attack_deg",
    "path_deg",
    "face_deg",
    "strike_toe_mm",
    "strike_high_mm",
    "mark_set",
    "read",
    "carry_yd",
)


def _number(value: float | None, unit: str, digits: int, *, place: str) -> str:
    if value is None:
        return ""
    if not math.isfinite(value):
        raise IntakeError("a value is not a finite number", place=place)
    text = f"{to_unit(value, unit):.{digits}f}"
    return text.removeprefix("-") if float(text) == 0.0 else text


def _cell(shot: Shot, heading: str) -> str:
    place = f"ball {shot.order + 1}, {heading}"
    if heading in _NUMBERS:
        field, unit, digits = _NUMBERS[heading]
        return _number(getattr(shot, field), unit, digits, place=place)
    words: dict[str, Callable[[], str]] = {
        "ball": lambda: shot.ball or "",
        "time": lambda: shot.time or "",
        "club": lambda: shot.club,
        "mark_set": lambda: shot.mark_set or "",
        "read": lambda: "yes" if shot.read else "no",
    }
    return harmless(words[heading]())


def shot_table_text(shots: Sequence[Shot]) -> str:
    """Return our own shot table as text, one row a shot in the order given.

    Raises
    ------
    IntakeError
        When a value is not finite.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADER)
    writer.writerows([_cell(shot, heading) for heading in HEADER] for shot in shots)
    return out.getvalue()


def write_shots(path: Path, shots: Sequence[Shot]) -> None:
    """Write our own shot table; the same shots give the same bytes.

    Parameters
    ----------
    path : Path
        The file to write; an older one of the same name is replaced.
    shots : sequence of Shot
        Balls in the order of their rows.

    Raises
    ------
    IntakeError
        When a value is not finite or the file cannot be written.

    Notes
    -----
    UTF-8, comma, point, LF. Speeds to 0.1 mph, angles to 0.1 deg, spin to 1 rpm, marks to
    0.1 mm, carry to 0.1 yd; blank where nothing was measured.
    """
    write_whole(path, shot_table_text(shots).encode("utf-8"))
