"""A build, a check, a sleeve and a swingweight as JSON records, in the keys of their files."""

from typing import Final

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
    MILLIMETRE,
    OUNCE_INCH,
)
from loftwright.domain.build_sheet import CheckedBuild, SolvedBuild, TurnedSleeve
from loftwright.domain.built import Checked, Contradicted, Contradiction, TargetLine
from loftwright.domain.limits import CUBIC_CENTIMETRE, LimitLine, Measured
from loftwright.domain.verdict import Reading
from loftwright.physics.build.club import Club
from loftwright.physics.build.forecast import Forecast
from loftwright.physics.build.solve import Obstacle, Reason
from loftwright.physics.build.swingweight import (
    FULCRUM,
    OFFICIAL_FULCRUM,
    SwingweightScale,
    letters,
)
from loftwright.physics.build.trades import Instead
from loftwright.physics.build.uncertainty import NINETY_FIVE
from loftwright.report.build_words import (
    check_warnings,
    contradiction_words,
    limit_words,
    not_measured_words,
    obstacle_words,
    solve_warnings,
    trade_words,
)
from loftwright.report.records import Record, number, rounded

INERTIA: Final = KILOGRAM_SQUARE_CENTIMETRE
CHECKED_UNITS: Final = {
    Checked.LENGTH: ("length_inch", INCH),
    Checked.SWINGWEIGHT: ("swingweight", 1.0),
    Checked.MASS: ("mass_g", GRAM),
    Checked.BALANCE: ("balance_inch", INCH),
    Checked.INERTIA: ("club_moi_kgcm2", INERTIA),
    Checked.LOFT: ("loft_deg", DEGREE),
    Checked.LIE: ("lie_deg", DEGREE),
    Checked.FACE: ("face_deg", DEGREE),
    Checked.FREQUENCY: ("frequency_cpm", CYCLE_PER_MINUTE),
    Checked.GRIP: ("grip_inch", INCH),
}
MEASURED_UNITS: Final = {
    Measured.LENGTH: ("length_inch", INCH),
    Measured.NECK: ("neck_inch", INCH),
    Measured.STRAIGHT_FROM: ("straight_from_inch", INCH),
    Measured.GRIP_LENGTH: ("grip_length_inch", INCH),
    Measured.GRIP_ACROSS: ("grip_across_inch", INCH),
    Measured.GRIP_RIB: ("grip_rib_inch", INCH),
    Measured.HEEL_TO_TOE: ("heel_to_toe_inch", INCH),
    Measured.SOLE_TO_CROWN: ("sole_to_crown_inch", INCH),
    Measured.VOLUME: ("volume_cm3", CUBIC_CENTIMETRE),
}


def solve_record(solved: SolvedBuild) -> Record:
    """Return a solved build with the keys of `loftwright build solve`."""
    answer, scale = solved.answer, solved.sheet.target.scale
    cuts = answer.cuts
    return {
        "raw_length_inch": number(solved.sheet.parts.shaft.rod.length, INCH),
        "tip_trim_inch": number(solved.sheet.parts.shaft.tip_trim, INCH),
        "cut_length_inch": None if cuts is None else rounded(cuts.kept, INCH),
        "butt_cut_inch": None if cuts is None else rounded(cuts.butt_cut, INCH),
        "tip_piece_g": None if cuts is None else rounded(cuts.tip_piece.mass, GRAM),
        "butt_piece_g": None if cuts is None else rounded(cuts.butt_piece.mass, GRAM),
        "head_add_g": rounded(answer.head_added, GRAM),
        "counterweight_g": rounded(answer.butt_added, GRAM),
        **_club(answer.club, scale),
        "u95": _doubts(solved),
        "swingweight_u95_by_part": [
            {"part": name, "points": rounded(NINETY_FIVE * points)}
            for name, points in (solved.errors.by_part if solved.errors is not None else ())
            if points > 0.0
        ],
        "frequency": _frequency(solved.frequency, solved.clamp, solved.tip_mass),
        "grip": _grip(solved),
        "feasible": answer.feasible,
        "reasons": [_reason(reason) for reason in answer.reasons],
        "trades": [_trade(one, scale) for one in solved.trades],
        "warnings": solve_warnings(solved),
    }


def check_record(checked: CheckedBuild) -> Record:
    """Return a checked club with the keys of `loftwright build check`."""
    return {
        "edition": checked.rules.edition,
        "length_method": checked.measured.method.value,
        "lines": [
            *(_target_line(line) for line in checked.targets),
            *(_limit_line(line, checked) for line in checked.limits),
        ],
        "contradictions": [_contradiction(one) for one in checked.contradicted],
        "not_measured_here": not_measured_words(checked),
        "warnings": check_warnings(checked),
    }


def sleeve_record(sleeve: TurnedSleeve, hand: str) -> Record:
    """Return a turned sleeve with the keys of `loftwright build sleeve`."""
    return {
        "hand": hand,
        "shaft_kept": {
            "loft_deg": number(sleeve.kept.loft, DEGREE),
            "face_deg": number(sleeve.kept.face, DEGREE),
        },
        "soled": {
            "lie_deg": number(sleeve.soled.lie, DEGREE),
            "face_deg": number(sleeve.soled.face, DEGREE),
        },
        "squared": {"loft_deg": number(sleeve.squared.loft, DEGREE)},
        "design_lie_deg": number(sleeve.design_lie, DEGREE),
    }


def swingweight_record(
    mass: float, balance: float, scale: SwingweightScale, points: Reading
) -> Record:
    """Return a swingweight with the keys of `loftwright build swingweight`.

    Parameters
    ----------
    mass, balance : float
        Of the club, its balance point from the top of the grip [kg, m].
    scale : SwingweightScale
    points : Reading
        Above A0, with their doubt.
    """
    return {
        "swingweight": letters(points.value),
        "index": number(points.value),
        "index_u95": rounded(points.half_width),
        "moment_oz_inch": number(mass * (balance - FULCRUM), OUNCE_INCH),
        "moment_12_oz_inch": number(mass * (balance - OFFICIAL_FULCRUM), OUNCE_INCH),
        "calibrated": scale.calibrated,
    }


def _club(club: Club | None, scale: SwingweightScale) -> Record:
    if club is None:
        keys = ("length_inch", "mass_g", "balance_inch", "swingweight", "swingweight_index")
        return dict.fromkeys((*keys, "moment_oz_inch", "moment_12_oz_inch", "club_moi_kgcm2"))
    index = scale.index(club.moment_about(FULCRUM))
    return {
        "length_inch": rounded(club.length, INCH),
        "mass_g": rounded(club.mass, GRAM),
        "balance_inch": rounded(club.balance, INCH),
        "swingweight": letters(index),
        "swingweight_index": rounded(index),
        "moment_oz_inch": rounded(club.moment_about(FULCRUM), OUNCE_INCH),
        "moment_12_oz_inch": rounded(club.moment_about(OFFICIAL_FULCRUM), OUNCE_INCH),
        "club_moi_kgcm2": rounded(club.inertia, INERTIA),
    }


def _doubts(solved: SolvedBuild) -> Record | None:
    errors = solved.errors
    if errors is None:
        return None
    return {
        "length_inch": rounded(NINETY_FIVE * errors.length, INCH),
        "mass_g": rounded(NINETY_FIVE * errors.mass, GRAM),
        "balance_inch": rounded(NINETY_FIVE * errors.balance, INCH),
        "swingweight": rounded(NINETY_FIVE * errors.swingweight),
        "club_moi_kgcm2": rounded(NINETY_FIVE * errors.inertia, INERTIA),
    }


def _frequency(
    found: Forecast | None, clamp: float | None, tip_mass: float | None
) -> Record | None:
    if found is None:
        return None
    return {
        "clamp_mm": rounded(clamp, MILLIMETRE),
        "tip_mass_g": rounded(tip_mass, GRAM),
        "raw_cpm": rounded(found.raw, CYCLE_PER_MINUTE),
        "tip_trimmed_cpm": rounded(found.tip_trimmed, CYCLE_PER_MINUTE),
        "cut_cpm": rounded(found.cut, CYCLE_PER_MINUTE),
        "cut_cpm_u95": rounded(NINETY_FIVE * found.error, CYCLE_PER_MINUTE),
        "change_cpm_u95": rounded(NINETY_FIVE * found.change_error, CYCLE_PER_MINUTE),
    }


def _grip(solved: SolvedBuild) -> Record | None:
    made, wanted = solved.sheet.build_up, solved.sheet.also.get(Checked.GRIP)
    if made is None:
        return None
    turns = (None, None) if wanted is None else made.wraps_to(wanted)
    return {
        "under_inch": rounded(made.under, INCH),
        "low_inch": rounded(made.size.low, INCH),
        "high_inch": rounded(made.size.high, INCH),
        "wraps": made.wraps,
        "wraps_low": rounded(turns[0]),
        "wraps_high": rounded(turns[1]),
    }


def _reason(reason: Reason) -> Record:
    short = reason.obstacle is Obstacle.SHAFT_SHORT
    return {
        "obstacle": reason.obstacle.value,
        "by_inch": rounded(reason.amount, INCH) if short else None,
        "by_g": None if short else rounded(reason.amount, GRAM),
        "grip_lighter_g": rounded(reason.grip, GRAM),
        "says": obstacle_words(reason),
    }


def _trade(one: Instead, scale: SwingweightScale) -> Record:
    return {
        "trade": one.trade.value,
        "held": None if one.held is None else one.held.value,
        "head_add_g": rounded(one.head_added, GRAM),
        "counterweight_g": rounded(one.butt_added, GRAM),
        **_club(one.club, scale),
        "says": trade_words(one),
    }


def _target_line(line: TargetLine) -> Record:
    key, unit = CHECKED_UNITS[line.checked]
    return {
        "what": key,
        "value": rounded(line.reading.value, unit),
        "u95": rounded(line.reading.half_width, unit),
        "target": rounded(line.target, unit),
        "asked": line.asked,
        "tolerance": rounded(line.tolerance, unit),
        "verdict": line.fit.value,
        "tolerance_too_tight": line.tight,
    }


def _limit_line(line: LimitLine, checked: CheckedBuild) -> Record:
    key, unit = MEASURED_UNITS[line.limit.measured]
    return {
        "what": key,
        "value": rounded(line.reading.value, unit),
        "u95": rounded(line.reading.half_width, unit),
        "limit": rounded(line.limit.value, unit),
        "at_least": line.limit.least,
        "local_rule": line.limit.local,
        "verdict": line.side.value,
        "says": limit_words(line, checked.measured.method),
    }


def _contradiction(one: Contradicted) -> Record:
    unit = {Contradiction.SCALE: 1.0, Contradiction.PARTS: GRAM, Contradiction.POINT_MASS: INERTIA}
    return {
        "what": one.what.value,
        "read": rounded(one.read, unit[one.what]),
        "expected": rounded(one.expected, unit[one.what]),
        "allowed": rounded(one.allowed, unit[one.what]),
        "says": contradiction_words(one),
    }
