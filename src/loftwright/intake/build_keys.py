"""The keys of a build file, table by table, and the fields and units they stand for."""

from typing import Final

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
    MILLIMETRE,
)

INERTIA: Final = KILOGRAM_SQUARE_CENTIMETRE
MOST_PARTS: Final = 20

KEYS: Final[dict[str, tuple[str, ...]]] = {
    "": (
        *("target", "shaft", "head", "grip", "tape", "parts", "counterweight"),
        *("build_up", "dry_fit", "calibration", "tolerance", "u95", "rules"),
    ),
    "target": (
        *("length_inch", "swingweight", "mass_g", "club_moi_kgcm2"),
        *("loft_deg", "lie_deg", "face_deg", "grip_inch"),
        *("frequency_cpm", "clamp_mm", "tip_mass_g"),
    ),
    "shaft": ("raw_length_inch", "mass_g", "balance_from_tip_inch", "tip_trim_inch"),
    "head": (
        *("mass_g", "cg_along_inch", "cg_toe_mm", "own_moi_kgcm2", "to_60_plane_inch"),
        *("kind", "max_added_g"),
    ),
    "grip": ("mass_g", "length_inch", "balance_inch", "cap_inch"),
    "tape": ("mass_g", "length_inch"),
    "parts": ("name", "mass_g", "from_tip_inch"),
    "counterweight": ("below_cap_inch", "max_g"),
    "calibration": ("mass_g", "balance_inch", "reads"),
    "build_up": ("butt_inch", "core_inch", "nominal_inch", "tape_inch", "wraps"),
    "dry_fit": ("mass_g", "balance_inch", "cut_length_inch", "without"),
    "rules": ("edition", "competition_uses_46_inch"),
}
TOLERANCE_KEYS: Final = {
    "length_inch": ("length", INCH),
    "swingweight": ("swingweight", 1.0),
    "mass_g": ("mass", GRAM),
    "part_mass_g": ("part_mass", GRAM),
    "balance_inch": ("balance", INCH),
    "club_moi_kgcm2": ("inertia", INERTIA),
    "loft_deg": ("loft", DEGREE),
    "lie_deg": ("lie", DEGREE),
    "face_deg": ("face", DEGREE),
    "frequency_cpm": ("frequency", CYCLE_PER_MINUTE),
    "grip_inch": ("grip", INCH),
}
"""Key of `[tolerance]`, the field it sets and the size of its unit."""

ERROR_KEYS: Final = {
    "mass_g": ("mass", GRAM),
    "shaft_balance_inch": ("shaft_balance", INCH),
    "grip_balance_inch": ("grip_balance", INCH),
    "balance_inch": ("balance", INCH),
    "cut_length_inch": ("kept", INCH),
    "to_60_plane_inch": ("to_plane", INCH),
    "cap_inch": ("cap", INCH),
    "cg_along_inch": ("reach", INCH),
    "cg_toe_mm": ("toe", MILLIMETRE),
    "from_tip_inch": ("small_reach", INCH),
    "own_moi_kgcm2": ("inertia", INERTIA),
}
"""Key of `[u95]`, the standard error it sets, half of it, and the size of its unit."""
