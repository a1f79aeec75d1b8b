"""Reads what was measured of a finished club: every quantity with its doubt."""

from collections.abc import Mapping
from pathlib import Path
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, GRAVITY, INCH, MILLIMETRE
from loftwright.domain.build_sheet import LengthMethod, MeasuredClub, PendulumReading
from loftwright.domain.built import Checked
from loftwright.domain.limits import CUBIC_CENTIMETRE, Measured
from loftwright.domain.verdict import Reading
from loftwright.errors import InputError
from loftwright.intake.build_files import section_of
from loftwright.intake.build_keys import INERTIA, KEYS
from loftwright.intake.toml_files import TableReader, load_toml, placed
from loftwright.physics.build.swingweight import index_of

CHECKED_KEYS: Final = {
    "length_inch": (Checked.LENGTH, INCH),
    "swingweight": (Checked.SWINGWEIGHT, 1.0),
    "mass_g": (Checked.MASS, GRAM),
    "balance_inch": (Checked.BALANCE, INCH),
    "club_moi_kgcm2": (Checked.INERTIA, INERTIA),
    "loft_deg": (Checked.LOFT, DEGREE),
    "lie_deg": (Checked.LIE, DEGREE),
    "face_deg": (Checked.FACE, DEGREE),
    "frequency_cpm": (Checked.FREQUENCY, CYCLE_PER_MINUTE),
    "grip_inch": (Checked.GRIP, INCH),
}
"""Key of a quantity that has a target, and the size of its unit."""

LIMIT_KEYS: Final = {
    "length_inch": (Measured.LENGTH, INCH),
    "neck_inch": (Measured.NECK, INCH),
    "straight_from_inch": (Measured.STRAIGHT_FROM, INCH),
    "grip_length_inch": (Measured.GRIP_LENGTH, INCH),
    "grip_across_inch": (Measured.GRIP_ACROSS, INCH),
    "grip_rib_inch": (Measured.GRIP_RIB, INCH),
    "heel_to_toe_inch": (Measured.HEEL_TO_TOE, INCH),
    "sole_to_crown_inch": (Measured.SOLE_TO_CROWN, INCH),
    "volume_cm3": (Measured.VOLUME, CUBIC_CENTIMETRE),
}
"""Key of a quantity for which a limit is published, and the size of its unit."""

_PENDULUM: Final = ("pivot_inch", "period_s", "period_u95_s", "swing_deg", "gravity_ms2")
_LOCAL: Final = "competition_uses_46_inch"
_PUT_IN: Final = ("head_added_g", "butt_added_g")
_CUT: Final = "cut_length_inch"
LOW_HAND: Final = "grip_low_inch"
"""Key of the grip's size under the lower hand, which has neither target nor limit."""

MOST_PUT_IN: Final = 100.0
_QUANTITY: Final = ("value", "u95")
_MORE: Final = {"length_inch": ("method",), "frequency_cpm": ("clamp_mm", "tip_mass_g")}


def read_measured(path: Path) -> MeasuredClub:
    """Return what a file says was measured of a club.

    Parameters
    ----------
    path : Path
        One table a quantity with ``value`` and ``u95``, and ``pendulum``, ``built``, ``rules``.

    Raises
    ------
    IntakeError
        When the file cannot be read.
    InputError
        When a key is not known, a doubt is missing or a value cannot be.
    """
    return measured_of(load_toml(path), str(path))


def measured_of(told: Mapping[str, object], place: str) -> MeasuredClub:
    """Return what was measured of a club, as the tables of a file tell it.

    Parameters
    ----------
    told : mapping
        As `read_measured` reads them from a file.
    place : str
        What messages call it.

    Raises
    ------
    InputError
        When a key is not known, a doubt is missing or a value cannot be.
    """
    names = tuple(dict.fromkeys((*CHECKED_KEYS, *LIMIT_KEYS, LOW_HAND)))
    whole = TableReader(told, (*names, "pendulum", "built", "rules"), place)
    there = {
        name: section_of(whole, name, (*_QUANTITY, *_MORE.get(name, ())))
        for name in names
        if name in whole.table
    }
    method = LengthMethod.PLANE
    if "length_inch" in there:
        method = there["length_inch"].word("method", LengthMethod, method)
    readings = {name: _reading(reader, name) for name, reader in there.items()}
    set_up = there.get("frequency_cpm")
    rules = section_of(whole, "rules", KEYS["rules"])
    built = section_of(whole, "built", (*_PUT_IN, _CUT))
    return MeasuredClub(
        checked={
            checked: _sized(readings[key], unit)
            for key, (checked, unit) in CHECKED_KEYS.items()
            if key in readings
        },
        limited={
            measured: _sized(readings[key], unit)
            for key, (measured, unit) in LIMIT_KEYS.items()
            if key in readings
            and not (measured is Measured.LENGTH and method is not LengthMethod.PLANE)
        },
        method=method,
        clamp=None if set_up is None else _set_up(set_up, "clamp_mm") * MILLIMETRE,
        tip_mass=None if set_up is None else _set_up(set_up, "tip_mass_g") * GRAM,
        pendulum=_pendulum(section_of(whole, "pendulum", _PENDULUM)),
        edition=rules.text("edition") if "edition" in rules.table else None,
        local_length=rules.truth(_LOCAL, default=False) if _LOCAL in rules.table else None,
        head_added=_put_in(built, "head_added_g"),
        butt_added=_put_in(built, "butt_added_g"),
        kept=built.number(_CUT) * INCH if _CUT in built.table else None,
        grip_low=_sized(readings[LOW_HAND], INCH) if LOW_HAND in readings else None,
    )


def _reading(reader: TableReader, name: str) -> Reading:
    if name == "swingweight" and isinstance(reader.table.get("value"), str):
        value = placed(lambda: index_of(reader.text("value")), reader.place)
    else:
        value = reader.number("value")
    if "u95" not in reader.table:
        raise InputError(
            "the doubt of this reading is missing",
            place=f"{reader.place}, u95",
            mend="Give half the width of the range that holds it 95 times in 100.",
        )
    return placed(lambda: Reading(value=value, half_width=reader.number("u95")), reader.place)


def _sized(reading: Reading, unit: float) -> Reading:
    return Reading(value=reading.value * unit, half_width=reading.half_width * unit)


def _set_up(reader: TableReader, key: str) -> float:
    if key not in reader.table:
        raise InputError(
            "a frequency without its clamp and weight means nothing",
            place=f"{reader.place}, {key}",
            mend="Give clamp_mm and tip_mass_g.",
        )
    return reader.number(key)


def _put_in(reader: TableReader, key: str) -> float | None:
    """Return a mass that was put in; with one of the two the other is nothing."""
    if not any(one in reader.table for one in _PUT_IN):
        return None
    grams = reader.number(key, 0.0)
    if not 0.0 <= grams <= MOST_PUT_IN:
        raise InputError(
            f"{grams:g} g cannot have been put in",
            place=f"{reader.place}, {key}",
            mend=f"Give 0 to {MOST_PUT_IN:g} g.",
        )
    return grams * GRAM


def _pendulum(reader: TableReader) -> PendulumReading | None:
    if not reader.table:
        return None
    return PendulumReading(
        pivot=reader.number("pivot_inch") * INCH,
        period=placed(
            lambda: Reading(
                value=reader.number("period_s"), half_width=reader.number("period_u95_s")
            ),
            reader.place,
        ),
        swing=reader.number("swing_deg", 0.0) * DEGREE,
        gravity=reader.number("gravity_ms2", GRAVITY),
    )
