"""The quantities of a receipt: key in a file of measurements, unit, and the usual doubt."""

from dataclasses import dataclass
from typing import Final

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
)
from loftwright.domain.limits import CUBIC_CENTIMETRE
from loftwright.report.screen_numbers import Show
from loftwright.workshop.final import HandCheck

BELOW_CAP: Final = 2.0 * INCH
"""Where a grip is callipered."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One quantity of the form.

    Attributes
    ----------
    name : str
        Of its field; that of its doubt ends in ``_u95``.
    key : str
        In a file of measurements.
    kind : str
        A quantity of `Show`, or `points`, `inertia`, `frequency`, `volume`, `time`.
    size : float
        Of the file's unit.
    doubt : float
        What is usual 95 times in 100, SI (common practice, no source).
    """

    name: str
    key: str
    words: str
    kind: str
    size: float
    doubt: float
    hint: str = ""


CLUB: Final = (
    Asked(
        name="length",
        key="length_inch",
        words="Length",
        kind="length",
        size=INCH,
        doubt=0.03 * INCH,
    ),
    Asked(name="mass", key="mass_g", words="Mass", kind="mass", size=GRAM, doubt=0.5 * GRAM),
    Asked(
        name="balance",
        key="balance_inch",
        words="Balance point",
        kind="length",
        size=INCH,
        doubt=0.06 * INCH,
        hint="From the top of the grip.",
    ),
    Asked(
        name="swingweight",
        key="swingweight",
        words="Swingweight",
        kind="points",
        size=1.0,
        doubt=0.3,
        hint="D2, or points above A0. Empty: from mass and balance point.",
    ),
    Asked(
        name="inertia",
        key="club_moi_kgcm2",
        words="Club MOI",
        kind="inertia",
        size=KILOGRAM_SQUARE_CENTIMETRE,
        doubt=10.0 * KILOGRAM_SQUARE_CENTIMETRE,
        hint="About the top of the grip; or by pendulum, below.",
    ),
    Asked(
        name="frequency",
        key="frequency_cpm",
        words="Frequency",
        kind="frequency",
        size=CYCLE_PER_MINUTE,
        doubt=1.0 * CYCLE_PER_MINUTE,
        hint="With its clamp and the weight on the tip.",
    ),
    Asked(
        name="loft",
        key="loft_deg",
        words="Loft",
        kind="angle",
        size=DEGREE,
        doubt=0.25 * DEGREE,
        hint="With the sleeve as the sheet has it.",
    ),
    Asked(name="lie", key="lie_deg", words="Lie", kind="angle", size=DEGREE, doubt=0.25 * DEGREE),
    Asked(
        name="face",
        key="face_deg",
        words="Face",
        kind="angle",
        size=DEGREE,
        doubt=0.25 * DEGREE,
        hint="Open plus, closed minus.",
    ),
    Asked(
        name="grip",
        key="grip_inch",
        words="Grip, upper hand",
        kind="length",
        size=INCH,
        doubt=0.003 * INCH,
    ),
    Asked(
        name="grip_low",
        key="grip_low_inch",
        words="Grip, lower hand",
        kind="length",
        size=INCH,
        doubt=0.003 * INCH,
        hint="Written down; it has no target.",
    ),
)
LIMITED: Final = tuple(
    Asked(name=name, key=f"{name}_{unit}", words=words, kind=kind, size=size, doubt=doubt)
    for name, unit, words, kind, size, doubt in (
        ("neck", "inch", "Top of the neck to the sole", "length", INCH, 0.03 * INCH),
        ("straight_from", "inch", "Straight down to, above the sole", "length", INCH, 0.1 * INCH),
        ("grip_length", "inch", "Grip length", "length", INCH, 0.06 * INCH),
        ("grip_across", "inch", "Widest across the grip", "length", INCH, 0.005 * INCH),
        ("grip_rib", "inch", "Rib: thickest less thinnest", "length", INCH, 0.003 * INCH),
        ("heel_to_toe", "inch", "Head, heel to toe", "length", INCH, 0.06 * INCH),
        ("sole_to_crown", "inch", "Head, sole to crown", "length", INCH, 0.06 * INCH),
        ("volume", "cm3", "Volume of the head", "volume", CUBIC_CENTIMETRE, 5 * CUBIC_CENTIMETRE),
    )
)
FIGURES: Final = {one.name: one for one in (*CLUB, *LIMITED)}
UNITS: Final = {"inertia": "kg cm²", "points": "", "volume": "cm³", "time": "s"}
_PLACES: Final = {f"final check, {one.key}": one.name for one in FIGURES.values()}
PLACES: Final = {
    **_PLACES,
    **{f"{place}, u95": f"{name}_u95" for place, name in _PLACES.items()},
    **{f"{place}, value": name for place, name in _PLACES.items()},
    "final check, frequency_cpm, clamp_mm": "clamp",
    "final check, frequency_cpm, tip_mass_g": "tip_mass",
    "final check, built, head_added_g": "head_added",
    "final check, built, cut_length_inch": "cut_length",
    "length": "cut_length",
    "final check, built, butt_added_g": "butt_added",
    "pendulum": "period",
    "final check, pendulum": "period",
    "seen": "final",
    **{one.value: f"look_{one.value}" for one in HandCheck},
}
"""Fields by the places that errors of the floors below name."""


def unit_of(kind: str, show: Show) -> str:
    """Return the unit at a field's head."""
    if kind == "frequency":
        return "cpm"
    return UNITS[kind] if kind in UNITS else show.unit(kind).name


def typed_doubt(asked: Asked, show: Show) -> str:
    """Return what a doubt's field holds before anybody changes it."""
    known = asked.kind in UNITS or asked.kind == "frequency"
    size = asked.size if known else show.unit(asked.kind).scale
    return show.words(f"{asked.doubt / size:.2g}")


def hint_of(asked: Asked, show: Show) -> str:
    """Return what stands under a quantity's field."""
    if asked.name == "grip":
        return f"Callipered {show.length(BELOW_CAP)} below the cap."
    return asked.hint
