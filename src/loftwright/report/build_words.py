"""What is said of a build and of a finished club, sentence by sentence.

No sentence says what a club is under the Rules: readings lie below a limit, above it, or too close
to call.
"""

from typing import Final

from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.build_sheet import CheckedBuild, LengthMethod, Mind, SolvedBuild
from loftwright.domain.built import Checked, Contradicted, Contradiction
from loftwright.domain.limits import CUBIC_CENTIMETRE, LimitLine, Measured, NotMeasured
from loftwright.domain.verdict import Side
from loftwright.physics.build.grip import BuildUp
from loftwright.physics.build.solve import Obstacle, Quantity, Reason
from loftwright.physics.build.swingweight import letters
from loftwright.physics.build.trades import Instead, Trade
from loftwright.report.numbers import fixed, listed

CHECKED_WORDS: Final = {
    Checked.LENGTH: "length",
    Checked.SWINGWEIGHT: "swingweight",
    Checked.MASS: "mass",
    Checked.BALANCE: "balance point",
    Checked.INERTIA: "inertia about the butt",
    Checked.LOFT: "loft",
    Checked.LIE: "lie",
    Checked.FACE: "face angle",
    Checked.FREQUENCY: "frequency",
    Checked.GRIP: "grip size",
}
QUANTITY_WORDS: Final = {
    Quantity.SWINGWEIGHT: "swingweight",
    Quantity.MASS: "mass",
    Quantity.INERTIA: "inertia",
}
MEASURED_WORDS: Final = {
    Measured.LENGTH: "length",
    Measured.NECK: "top of the neck to the sole",
    Measured.STRAIGHT_FROM: "where the shaft stops being straight, above the sole",
    Measured.GRIP_LENGTH: "grip length",
    Measured.GRIP_ACROSS: "widest across the grip",
    Measured.GRIP_RIB: "rib of the grip, thickest less thinnest",
    Measured.HEEL_TO_TOE: "head, heel to toe",
    Measured.SOLE_TO_CROWN: "head, sole to crown",
    Measured.VOLUME: "volume of the head",
}
SIDE_WORDS: Final = {
    Side.BELOW: "below the limit as measured",
    Side.ABOVE: "above the limit as measured",
    Side.TOO_CLOSE: "too close to call, ask the governing body",
}
METHOD_WORDS: Final = {
    LengthMethod.PLANE: "by the 60-degree plane",
    LengthMethod.RULER: "by a ruler at the playing lie",
}
_LISTS: Final = "see the governing bodies' published lists"
NOT_MEASURED_WORDS: Final = {
    NotMeasured.SPRING: f"how the face springs (CT, COR): {_LISTS}",
    NotMeasured.HEAD_INERTIA: f"the head's own moment of inertia: {_LISTS}",
    NotMeasured.BENDING_SYMMETRY: "whether the shaft bends and twists alike all round",
    NotMeasured.FACE: f"grooves, markings and hardness of the face: {_LISTS}",
    NotMeasured.VOLUME: f"volume of the head: {_LISTS}",
    NotMeasured.LISTED: "whether head and loft are on the current driver list: a person looks",
}
FOOTER: Final = (
    "These are readings beside published limits, and no ruling: only The R&A and the USGA decide. "
    "Look at their current lists and at the competition's own rules."
)
EVERY_SETTING: Final = (
    "After a turn of the sleeve or a change of weights every setting has to keep to the Rules, "
    "and nothing is changed during a round."
)
_UNCALIBRATED: Final = (
    "the swingweight scale is the usual one, D0 at 213.5 oz in from memory; a calibration club "
    "that was read on your own scale makes it yours"
)


def obstacle_words(reason: Reason) -> str:
    """Return why a club cannot be built."""
    grams = f"{fixed(reason.amount / GRAM, 1)} g"
    if reason.obstacle is Obstacle.SHAFT_SHORT:
        return f"the shaft is too short by {fixed(reason.amount / INCH, 2)} in"
    if reason.obstacle is Obstacle.HEAD_HEAVY:
        return f"the head would have to be {grams} lighter"
    if reason.obstacle is Obstacle.HEAD_FULL:
        return f"the head would have to hold {grams} more than it can"
    if reason.obstacle is Obstacle.BUTT_FULL:
        return f"the butt would have to hold {grams} more than it can"
    grip = "" if reason.grip is None else f", or the grip by {fixed(reason.grip / GRAM, 1)} g"
    return f"the butt end would have to be {grams} lighter where the counterweight sits{grip}"


def trade_words(one: Instead) -> str:
    """Return what a trade gives up."""
    if one.trade is Trade.LENGTH:
        return f"all targets, at {fixed(one.club.length / INCH, 3)} in"
    if one.held is not None:
        return f"{QUANTITY_WORDS[one.held]} as asked"
    return "nearest to all targets"


def limit_words(line: LimitLine, method: LengthMethod) -> str:
    """Return a reading beside a limit, in the words of a measurement."""
    measured = line.limit.measured
    size, unit = (CUBIC_CENTIMETRE, "cm³") if measured is Measured.VOLUME else (INCH, "in")
    digits = 0 if measured is Measured.VOLUME else 3 if measured is Measured.GRIP_RIB else 2
    how = f" ({METHOD_WORDS[method]})" if measured is Measured.LENGTH else ""
    rough = ", roughly" if line.limit.roughly else ""
    kind = "Published lower limit" if line.limit.least else "Published limit"
    if line.limit.local:
        kind = "Limit of the competition's local rule"
    name = MEASURED_WORDS[measured]
    limit = f"{line.limit.value / size:g} {unit}"
    return (
        f"{name[0].upper()}{name[1:]}{how}: {fixed(line.reading.value / size, digits)} ± "
        f"{fixed(line.reading.half_width / size, digits)} {unit}{rough}. {kind} {limit}: "
        f"{SIDE_WORDS[line.side]}."
    )


def contradiction_words(one: Contradicted) -> str:
    """Return which readings cannot all be right, and what to do."""
    if one.what is Contradiction.SCALE:
        return (
            f"the scale reads {letters(one.read)}, weight and balance point give "
            f"{letters(one.expected)}, and they may differ by {fixed(one.allowed, 1)}: measure "
            "both again before anything is changed"
        )
    if one.what is Contradiction.PARTS:
        return (
            f"the club weighs {fixed(one.read / GRAM, 1)} g, its parts come to "
            f"{fixed(one.expected / GRAM, 1)} g, and they may differ by "
            f"{fixed(one.allowed / GRAM, 1)} g: weigh the parts and the club again"
        )
    unit = KILOGRAM_SQUARE_CENTIMETRE
    return (
        f"an inertia of {fixed(one.read / unit)} kg cm² is less than that of the same weight in "
        f"its balance point, {fixed(one.expected / unit)}: measure all three again"
    )


def not_measured_words(checked: CheckedBuild) -> list[str]:
    """Return what is not measured here and who knows it."""
    said = [NOT_MEASURED_WORDS[one] for one in checked.not_measured]
    if Mind.RULER in checked.minds and Checked.LENGTH in checked.measured.checked:
        said.insert(0, "the length by the 60-degree plane, which the Rules use")
    return said


def grip_words(made: BuildUp) -> str:
    """Return the bracket of a grip's size."""
    size = made.size
    return f"{fixed(size.low / INCH, 3)} to {fixed(size.high / INCH, 3)} in"


def solve_warnings(solved: SolvedBuild) -> list[str]:
    """Return what to mind of a solved build."""
    said = []
    if Mind.UNCALIBRATED in solved.minds:
        said.append(_UNCALIBRATED)
    if solved.tight:
        names = listed([CHECKED_WORDS[one] for one in solved.tight])
        said.append(
            f"the parts cannot promise the tolerance of {names}: weigh and balance a dry fit "
            "before the butt is cut for good"
        )
    if Mind.OTHER_SHAFT in solved.minds:
        said.append("the readings are of a shaft that does not weigh what the build file says")
    return said


def check_warnings(checked: CheckedBuild) -> list[str]:
    """Return what to mind of a checked club."""
    minds = checked.minds
    said = []
    if Mind.UNCALIBRATED in minds:
        said.append(_UNCALIBRATED)
    if Mind.DERIVED in minds:
        said.append("the swingweight is worked out from weight and balance point")
    tight = [CHECKED_WORDS[line.checked] for line in checked.targets if line.tight]
    if tight:
        said.append(
            f"the tolerance of {listed(tight)} is tighter than the reading can tell: measure "
            "better, or hold a wider one"
        )
    if Mind.NOT_BUILDABLE in minds:
        said.append(
            "the build file cannot be built as it stands, so that only what it asks for is held "
            "against the club"
        )
    if Mind.SET_UP in minds:
        said.append(
            "the frequency was read in another clamp or with another weight than it was asked for"
        )
    made = checked.sheet.build_up
    if Mind.GRIP_OUTSIDE in minds and made is not None:
        said.append(
            f"the grip lies outside {grip_words(made)} that butt, core and tape come to: look at "
            "all three and at how far it was stretched; the callipered figure counts"
        )
    if Mind.RULER in minds:
        said.append(
            "a ruler at the playing lie and the 60-degree plane differ by up to 2 mm; a length by "
            "ruler is not held against a limit"
        )
    return said
