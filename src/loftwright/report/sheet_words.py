"""What is said of a build sheet on a screen and on the workshop's wall."""

from typing import Final

from loftwright.constants import GRAM, INCH, MILLIMETRE
from loftwright.domain.build_sheet import Mind, SolvedBuild
from loftwright.domain.built import Checked
from loftwright.domain.sheet_acts import Step
from loftwright.domain.sheet_kinds import Block
from loftwright.physics.build.club import Club
from loftwright.physics.build.solve import Obstacle, Reason
from loftwright.physics.build.swingweight import FULCRUM, SwingweightScale, letters
from loftwright.physics.build.trades import Instead, Trade
from loftwright.report.build_words import CHECKED_WORDS, QUANTITY_WORDS
from loftwright.report.numbers import listed
from loftwright.report.screen_numbers import Show
from loftwright.workshop.as_built import Made, made_of

BLOCK_WORDS: Final = {
    Block.WHO: ("Sheet", "Initials only; no golfer’s name."),
    Block.METHODS: ("How it is measured", "A figure means nothing without its method."),
    Block.TARGETS: ("Targets", "Of the tested club, as its card has them."),
    Block.HEAD: ("Head", "Nothing is guessed for a part that was not weighed."),
    Block.DRY_FIT: ("Dry fit, if one was weighed", "It finds how deep the head sits."),
    Block.SLEEVE: ("Sleeve", "Every setting has to keep to the Rules."),
    Block.SHAFT: ("Shaft", "As it came, uncut."),
    Block.BOND: ("Ferrule and bond", "The adhesive’s own data sheet rules."),
    Block.GRIP: ("Grip", "Calliper the finished size."),
    Block.WEIGHTS: ("Weights", "They must not work loose."),
    Block.TOLERANCES: ("Tolerances", "To either side; the shop’s own, from Settings."),
    Block.DOUBTS: ("Doubts of what is measured", "95 readings in 100 lie within."),
    Block.SCALE: ("Your swingweight scale", "A club that your own scale has read."),
}
STEP_WORDS: Final = {
    Step.WEIGHED: ("Weigh every part", "To a tenth of a gram."),
    Step.COMPARED: (
        "Compare with the sheet",
        "Stop if a part is off by more than its tolerance: log it, compute again.",
    ),
    Step.TIP_TRIMMED: ("Tip trim", "Measure twice; the maker’s limit comes first."),
    Step.DRY_FITTED: (
        "Dry fit",
        "Seat the head dry. Measure to the 60-degree plane; length, swingweight, frequency.",
    ),
    Step.BUTT_TRIMMED: ("Butt trim", "Mark, measure again, then cut."),
    Step.DRY_CHECKED: (
        "Dry check",
        "Length and swingweight once more, the grip beside it. Stop if one is out.",
    ),
    Step.BONDED: ("Bond", "Whole depth; turn the tip slowly into the hosel."),
    Step.CURED: ("Cure", "The tag hangs on the club until its time has passed."),
    Step.GRIPPED: ("Grip", "Orientation and size as on the sheet."),
    Step.CHECKED: ("Hand over to the final check", "A second person measures the club."),
}
MADE_WORDS: Final = {
    "made.cut_length_inch": "Shaft, cut to",
    "made.head_added_g": "Added to the head",
    "made.butt_added_g": "Counterweight in the butt",
}
NOTHING: Final = "nothing"


def cut_length(value: float, show: Show) -> str:
    """Return a length to cut by [m]: thousandths of an inch, or tenths of a millimetre.

    What is thinner than an inch has hundredths of a millimetre: bores, caps, tape.
    """
    if show.units == "metric":
        return f"{show.number(value / MILLIMETRE, 1 if abs(value) >= INCH else 2)} mm"
    return f"{show.number(value / INCH, 3)} in"


def swingweight_text(points: float, show: Show) -> str:
    """Return points above A0 as letter and number, with the shop's decimal mark."""
    return show.words(letters(points))


def club_points(club: Club, scale: SwingweightScale) -> float:
    """Return a club's points above A0."""
    return scale.index(club.moment_about(FULCRUM))


def solved_sentence(solved: SolvedBuild, show: Show) -> str:
    """Return what to cut and add, and what it comes to."""
    answer = solved.answer
    if not answer.feasible or answer.club is None or answer.cuts is None:
        why = listed([obstacle_text(one, show) for one in answer.reasons])
        return f"These parts cannot make it: {why}."
    return work_sentence(made_of(answer), answer.club, solved.sheet.target.scale, show)


def work_sentence(made: Made, club: Club, scale: SwingweightScale, show: Show) -> str:
    """Return what is cut and added, and what the club comes to with it."""
    adds = [f"{show.mass(made.head_added, 1)} into the head"]
    if made.butt_added >= 0.05 * GRAM:
        adds.append(f"{show.mass(made.butt_added, 1)} into the butt")
    points = swingweight_text(club_points(club, scale), show)
    return (
        f"Cut to {cut_length(made.kept, show)}, {', '.join(adds)}: "
        f"{show.length(club.length)}, {points}, {show.mass(club.mass, 1)}."
    )


def obstacle_text(reason: Reason, show: Show) -> str:
    """Return why a club cannot be built, in the shop's units."""
    grams = show.mass(reason.amount, 1)
    if reason.obstacle is Obstacle.SHAFT_SHORT:
        return f"the shaft is too short by {cut_length(reason.amount, show)}"
    if reason.obstacle is Obstacle.HEAD_HEAVY:
        return f"the head would have to be {grams} lighter"
    if reason.obstacle is Obstacle.HEAD_FULL:
        return f"the head would have to hold {grams} more than it can"
    if reason.obstacle is Obstacle.BUTT_FULL:
        return f"the butt would have to hold {grams} more than it can"
    grip = "" if reason.grip is None else f", or the grip by {show.mass(reason.grip, 1)}"
    return f"the butt end would have to be {grams} lighter where the counterweight sits{grip}"


def trade_text(one: Instead, show: Show) -> str:
    """Return what a trade gives up, in the shop's units."""
    if one.trade is Trade.LENGTH:
        return f"all targets, at {cut_length(one.club.length, show)}"
    if one.held is not None:
        return f"{QUANTITY_WORDS[one.held]} as asked"
    return "nearest to all targets"


def minds_of(solved: SolvedBuild, show: Show) -> list[str]:
    """Return what to mind of a solved sheet, as sentences."""
    said = []
    if Mind.UNCALIBRATED in solved.minds:
        moment = show.words("213.5")
        said.append(
            f"The swingweight scale is the usual one, D0 at {moment} oz in from memory; a "
            "calibration club that was read on your own scale makes it yours."
        )
    if solved.tight:
        said.append(
            f"The parts cannot promise the tolerance of {_named(solved.tight)}: weigh and balance "
            "a dry fit before the butt is cut for good."
        )
    if Mind.OTHER_SHAFT in solved.minds:
        said.append(
            "The frequency is told of the tested sample, which weighs otherwise than this shaft."
        )
    elif solved.frequency is not None:
        said.append("The frequency is told of the tested sample’s profile, cut alike.")
    return said


def off_sentence(off: tuple[Checked, ...]) -> str:
    """Return what the club as built misses."""
    return f"As built it misses {_named(off)}; the target stays." if off else ""


def _named(checked: tuple[Checked, ...]) -> str:
    return listed([CHECKED_WORDS[one] for one in checked])
