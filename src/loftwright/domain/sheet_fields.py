"""What stands on a build sheet: every field by its block, in one table.

A name with a dot is a key of a build file with its table; the others are kept beside it. Figures
are kept as a build file writes them, in the unit of what they hold.
"""

from types import MappingProxyType
from typing import Final

from loftwright.domain.sheet_kinds import Block, Holds, pick, rows, small_part

_T, _M, _L, _S, _A = Holds.TEXT, Holds.MASS, Holds.LENGTH, Holds.SMALL, Holds.ANGLE
_WHO: Final = (
    *rows(
        Block.WHO,
        ("fitter", "Fitter", _T, "Initials.", ""),
        ("builder", "Builder", _T, "Initials, or the outside builder.", ""),
    ),
    pick(
        "head.kind",
        "Kind of club",
        Block.WHO,
        ("wood", "Wood"),
        ("iron", "Iron"),
        ("putter", "Putter"),
    ),
    *rows(
        Block.WHO,
        ("rules.edition", "Edition of the Equipment Rules looked at", _T, "", ""),
        (
            "rules.competition_uses_46_inch",
            "The competition uses the local rule on length",
            Holds.TICK,
            "46 in (1168 mm), for all clubs but the putter.",
            "",
        ),
        ("head_list", "Driver head list looked up by, and when", _T, "Head and loft.", ""),
    ),
)
_METHODS: Final = rows(
    Block.METHODS,
    ("length_method", "Length measured by", _T, "The 60-degree plane, or a ruler.", ""),
    ("angle_gauge", "Loft, lie, face: gauge, and how held", _T, "", ""),
    (
        "swingweight_method",
        "Swingweight by",
        _T,
        "Scale and day of its calibration, or weight and balance point.",
        "",
    ),
    ("torque_tool", "Torque tool", _T, "Its mark, and the day of its calibration.", ""),
)
_TARGETS: Final = rows(
    Block.TARGETS,
    (
        "target.length_inch",
        "Length",
        _L,
        "By the 60-degree plane.",
        "the length of the club is missing",
    ),
    ("target.swingweight", "Swingweight", Holds.POINTS, "Such as D2.", ""),
    ("target.mass_g", "Whole club", _M, "", ""),
    (
        "target.club_moi_kgcm2",
        "Club MOI about the butt",
        Holds.INERTIA,
        "One of swingweight, weight and club MOI sets the head alone, two the counterweight too.",
        "",
    ),
    ("target.loft_deg", "Loft", _A, "With the sleeve as it is set.", ""),
    ("target.lie_deg", "Lie", _A, "", ""),
    ("target.face_deg", "Face, open +", _A, "", ""),
    ("target.frequency_cpm", "Frequency", Holds.CYCLES, "Never without clamp and weight.", ""),
    ("target.clamp_mm", "Clamp", _S, "", ""),
    ("target.tip_mass_g", "Weight on the tip", _M, "", ""),
    ("target.grip_inch", "Grip size, 2 in (51 mm) below the cap", _L, "", ""),
)
_HEAD: Final = rows(
    Block.HEAD,
    ("head", "Head", _T, "", ""),
    ("head_serial", "Serial", _T, "", ""),
    ("head_stated", "Loft, lie, face as stated", _T, "", ""),
    ("head_loft_deg", "Loft measured", _A, "The sleeve in its middle.", ""),
    ("head_lie_deg", "Lie measured", _A, "", ""),
    ("head_face_deg", "Face measured, open +", _A, "", ""),
    (
        "head.mass_g",
        "Head, weighed",
        _M,
        "To a tenth of a gram, without sleeve, screw and glue.",
        "the mass of the head is missing",
    ),
    (
        "head.to_60_plane_inch",
        "Seated tip to the 60-degree plane",
        _L,
        "By a dry fit, sleeve and all.",
        "the seated tip's distance to the 60-degree plane is missing",
    ),
    (
        "head.cg_along_inch",
        "Balance point beyond the seated tip",
        _L,
        "Or the dry fit below finds it.",
        "",
    ),
    ("head.cg_toe_mm", "Balance point to the toe", _S, "From the shaft’s line.", ""),
    ("head.own_moi_kgcm2", "Head MOI of its own", Holds.INERTIA, "", ""),
    ("head.max_added_g", "Most that can be added", _M, "", ""),
    ("bore_inch", "Bore, across", _L, "", ""),
    ("bore_depth_inch", "Bore, deep", _L, "", ""),
    ("ports", "Weight ports: which weight where", _T, "", ""),
)
_DRY_FIT: Final = rows(
    Block.DRY_FIT,
    ("dry_fit.mass_g", "Dry fit, weighed", _M, "Empty where none was weighed.", ""),
    ("dry_fit.balance_inch", "Its balance point", _L, "From the top of the grip, or shaft.", ""),
    ("dry_fit.cut_length_inch", "Length of its shaft", _L, "", ""),
    ("dry_fit.without", "What was not on it", Holds.LIST, "Such as: grip, tape, glue.", ""),
)
_SLEEVE: Final = (
    *rows(
        Block.SLEEVE,
        ("sleeve", "Sleeve", _T, "", ""),
        ("sleeve_bore_deg", "Bore angle", _A, "", ""),
        ("setting", "Setting: index mark to set", _T, "", ""),
        ("logo", "Print and spine at that setting", _T, "Which way they face at address.", ""),
    ),
    *small_part("sleeve"),
    *small_part("screw"),
    *rows(
        Block.SLEEVE,
        ("torque", "Screw torque", _T, "With its unit.", ""),
        ("torque_source", "Who says so", _T, "Where the head’s maker printed it.", ""),
    ),
)
_SHAFT: Final = (
    *rows(
        Block.SHAFT,
        ("shaft", "Shaft", _T, "", ""),
        ("shaft_serial", "Serial", _T, "", ""),
        (
            "shaft.raw_length_inch",
            "Raw length",
            _L,
            "",
            "the length of the raw shaft is missing",
        ),
        ("shaft.mass_g", "Raw shaft, weighed", _M, "", "the mass of the shaft is missing"),
        (
            "shaft.balance_from_tip_inch",
            "Balance point from the tip",
            _L,
            "",
            "the balance point of the shaft is missing",
        ),
        ("tip_inch", "Tip, across", _L, "", ""),
        ("parallel_inch", "Parallel section", _L, "", ""),
        ("shaft.tip_trim_inch", "Tip trim", _L, "The maker’s limit comes first.", ""),
        ("insertion_inch", "Insertion mark from the tip", _L, "Never short for a weight.", ""),
        ("orientation", "Orientation rule", _T, "", ""),
    ),
    pick("material", "Made of", Block.SHAFT, ("carbon", "Carbon fibre"), ("steel", "Steel")),
    pick(
        "condition", "Comes", Block.SHAFT, ("new", "New"), ("pulled", "Pulled from another club")
    ),
    *rows(Block.SHAFT, ("inspection", "Looked at under a light: found", _T, "", "")),
)
_BOND: Final = (
    pick(
        "bond",
        "Head and shaft are",
        Block.BOND,
        ("glued", "Glued"),
        ("none", "Not touched: no bond is made"),
    ),
    *rows(
        Block.BOND,
        ("adhesive", "Adhesive", _T, "Its own data sheet rules.", ""),
        ("mix", "Mix ratio", _T, "", ""),
        ("tip_preparation", "Tip preparation", _T, "Whole depth, no fibre cut.", ""),
        ("ferrule", "Ferrule: length, inside, outside", _T, "", ""),
    ),
    *small_part("ferrule"),
    *small_part("glue"),
    pick("bore_work", "The bore is", Block.BOND, ("clean", "Left as it is"), ("ground", "Ground")),
)
_GRIP: Final = (
    *rows(
        Block.GRIP,
        ("grip", "Grip", _T, "", ""),
        ("grip.mass_g", "Grip, weighed", _M, "", "the mass of the grip is missing"),
        ("grip.length_inch", "Length", _L, "", "the length of the grip is missing"),
        (
            "grip.balance_inch",
            "Balance point from its top",
            _L,
            "",
            "the balance point of the grip is missing",
        ),
        (
            "grip.cap_inch",
            "Thickness of the cap",
            _L,
            "",
            "the thickness of the grip's cap is missing",
        ),
    ),
    pick("grip_shape", "Inside it has", Block.GRIP, ("round", "No rib"), ("ribbed", "A rib")),
    *rows(
        Block.GRIP,
        ("grip_orientation", "Orientation", _T, "", ""),
        ("tape.mass_g", "Tape, weighed", _M, "", ""),
        ("tape.length_inch", "Tape reaches down", _L, "", ""),
        ("build_up.butt_inch", "Butt, across", _L, "", ""),
        ("build_up.core_inch", "Core of the grip", _L, "", ""),
        ("build_up.nominal_inch", "Its size on its core", _L, "", ""),
        ("build_up.tape_inch", "Tape, thick", _L, "", ""),
        ("build_up.wraps", "Wraps, upper hand", Holds.NUMBER, "", ""),
        ("wraps_lower", "Wraps, lower hand", Holds.NUMBER, "", ""),
        ("grip_lower_inch", "Grip size at the lower hand", _L, "", ""),
    ),
    pick(
        "grip_by",
        "Goes on with",
        Block.GRIP,
        ("water", "Water"),
        ("air", "Air"),
        ("solvent", "Solvent"),
    ),
)
_WEIGHTS: Final = (
    *rows(
        Block.WEIGHTS,
        ("counterweight.below_cap_inch", "Counterweight below the cap", _L, "", ""),
        ("counterweight.max_g", "Heaviest that fits", _M, "", ""),
        ("counterweight_fix", "Counterweight: how fixed", _T, "It must not work loose.", ""),
        ("head_weight_fix", "Weight in the head: where, how fixed", _T, "", ""),
    ),
    *small_part("plug"),
)
_TOLERANCES: Final = rows(
    Block.TOLERANCES,
    ("tolerance.length_inch", "Length", _L, "", ""),
    ("tolerance.swingweight", "Swingweight, points", Holds.NUMBER, "", ""),
    ("tolerance.mass_g", "Whole club", _M, "", ""),
    ("tolerance.part_mass_g", "A part", _M, "", ""),
    ("tolerance.balance_inch", "Balance point", _L, "", ""),
    ("tolerance.club_moi_kgcm2", "Club MOI", Holds.INERTIA, "", ""),
    ("tolerance.loft_deg", "Loft", _A, "", ""),
    ("tolerance.lie_deg", "Lie", _A, "", ""),
    ("tolerance.face_deg", "Face", _A, "", ""),
    ("tolerance.frequency_cpm", "Frequency", Holds.CYCLES, "", ""),
    ("tolerance.grip_inch", "Grip size", _L, "", ""),
)
_DOUBTS: Final = rows(
    Block.DOUBTS,
    ("u95.mass_g", "A weight", _M, "", ""),
    ("u95.shaft_balance_inch", "Shaft’s balance point", _L, "", ""),
    ("u95.grip_balance_inch", "Grip’s balance point", _L, "", ""),
    ("u95.balance_inch", "Balance point of club or dry fit", _L, "", ""),
    ("u95.cut_length_inch", "Cut length", _L, "", ""),
    ("u95.to_60_plane_inch", "To the 60-degree plane", _L, "", ""),
    ("u95.cap_inch", "Cap", _L, "", ""),
    ("u95.cg_along_inch", "Head’s balance point, along", _L, "", ""),
    ("u95.cg_toe_mm", "Head’s balance point, to the toe", _S, "", ""),
    ("u95.from_tip_inch", "Place of a small part", _L, "", ""),
    ("u95.own_moi_kgcm2", "Head MOI", Holds.INERTIA, "", ""),
)
_SCALE: Final = rows(
    Block.SCALE,
    ("calibration.mass_g", "Calibration club", _M, "Empty for the usual scale.", ""),
    ("calibration.balance_inch", "Its balance point", _L, "", ""),
    ("calibration.reads", "Your scale reads", Holds.POINTS, "Such as D2.", ""),
)
FIELDS: Final = MappingProxyType(
    {
        one.name: one
        for one in (
            *(*_WHO, *_METHODS, *_TARGETS, *_HEAD, *_DRY_FIT, *_SLEEVE, *_SHAFT, *_BOND),
            *(*_GRIP, *_WEIGHTS, *_TOLERANCES, *_DOUBTS, *_SCALE),
        )
    }
)
"""Every field of a sheet by its name, in the order of the sheet."""

MADE: Final = MappingProxyType(
    {
        "made.cut_length_inch": "target.length_inch",
        "made.head_added_g": "head.mass_g",
        "made.butt_added_g": "head.mass_g",
    }
)
"""What is solved for and so no key of a build file, with a field of the same kind."""
