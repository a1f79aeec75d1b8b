"""What is said of parts that came: what differs, what it does, what could be done about it."""

from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, REVOLUTION_PER_MINUTE
from loftwright.domain.golfer import Hand
from loftwright.domain.parts_acts import Matter, Part, PartSettled, Settled
from loftwright.domain.verdict import Fit
from loftwright.physics.sleeve import Convention, HeadAngles
from loftwright.report.numbers import listed
from loftwright.report.screen_numbers import Show
from loftwright.workshop.held import ANGLES, Figure, Held, Known, Silent, Source
from loftwright.workshop.left_over import Effect
from loftwright.workshop.mends import HeadWeight, Turn

FIGURE_WORDS: Final = {
    Figure.MASS: "weight",
    Figure.LENGTH: "length",
    Figure.BALANCE: "balance point",
    Figure.LOFT: "loft",
    Figure.LIE: "lie",
    Figure.FACE: "face angle",
    Figure.FREQUENCY: "frequency",
}
FIT_WORDS: Final = {Fit.IN: "in", Fit.OUT: "out", Fit.CANNOT_TELL: "cannot tell"}
LEFT_WORDS: Final = {
    Fit.IN: "Within what is allowed.",
    Fit.OUT: "More than is allowed.",
    Fit.CANNOT_TELL: "Too close to what is allowed to tell.",
}
SOURCE_WORDS: Final = {
    Source.CARD: "its measured card",
    Source.CLUB_CARD: "the club’s measured card",
    Source.RACK: "weighed for the rack",
    Source.JOINED: "as it joined the fitting",
    Source.BENCH: "measured on the bench",
    Source.PRINTED: "printed, uncut",
}
SILENT_WORDS: Final = {
    Silent.NOT_READ: "not measured yet",
    Silent.NOT_HELD: "for the build; held to nothing",
    Silent.NOTHING_KNOWN: "nobody measured the tested one",
    Silent.PRINTED: "a printed weight is no measurement",
    Silent.OTHER_LENGTH: "the tested one was not weighed at this length",
    Silent.OTHER_SET_UP: "read in another clamp or with another weight",
}
HELD_WORDS: Final = {
    Convention.A: "the shaft held as it was",
    Convention.B: "the head soled flat",
    Convention.C: "the face squared",
}
_MORE_LESS: Final = {
    Figure.MASS: ("heavy", "light"),
    Figure.BALANCE: ("further from the end", "nearer to the end"),
    Figure.LOFT: ("weak", "strong"),
    Figure.LIE: ("upright", "flat"),
    Figure.FACE: ("open", "closed"),
    Figure.FREQUENCY: ("stiffer", "softer"),
}
COMPUTED: Final = "computed, not hit"
NO_DELIVERY: Final = (
    "What this does to the ball cannot be computed: nothing was told of the tested club’s balls."
)


def figure_words(figure: Figure, value: float, show: Show) -> str:
    """Return a figure of a part with its unit.

    Parameters
    ----------
    figure : Figure
    value : float
        SI; a face open positive.
    show : Show
    """
    if figure is Figure.FACE:
        return face_words(value, show)
    if figure in ANGLES:
        return show.angle(value)
    if figure is Figure.MASS:
        return show.mass(value, 1)
    if figure is Figure.FREQUENCY:
        return f"{show.number(value / CYCLE_PER_MINUTE)} cpm"
    return show.length(value)


def face_words(value: float, show: Show) -> str:
    """Return a face angle [rad], open positive, as `0.5° open`; square within half a tenth."""
    if abs(value) < 0.05 * DEGREE:
        return "square"
    return f"{show.angle(abs(value))} {'open' if value > 0.0 else 'closed'}"


def size_words(figure: Figure, size: float, show: Show) -> str:
    """Return a tolerance or a doubt with its unit, fine enough to be told from nothing.

    Parameters
    ----------
    figure : Figure
    size : float
        SI, positive.
    show : Show
    """
    if figure in ANGLES:
        return f"{show.number(size / DEGREE, 2)}\N{DEGREE SIGN}"
    if figure is Figure.MASS:
        return show.mass(size, 1)
    if figure is Figure.FREQUENCY:
        return f"{show.number(size / CYCLE_PER_MINUTE, 1)} cpm"
    return show.length(size)


def apart_words(figure: Figure, apart: float, show: Show) -> str:
    """Return a difference from the tested piece in the workshop's words: `3.0 g light`.

    Parameters
    ----------
    figure : Figure
    apart : float
        More than the tested one's positive; SI.
    show : Show
    """
    more, less = _MORE_LESS[figure]
    word = more if apart > 0.0 else less
    if figure is Figure.MASS:
        size = show.mass(abs(apart), 1)
    elif figure in ANGLES:
        size = show.angle(abs(apart))
    elif figure is Figure.FREQUENCY:
        size = f"{show.number(abs(apart) / CYCLE_PER_MINUTE, 1)} cpm"
    else:
        size = show.length(abs(apart))
    return "as the tested one" if _nothing(size) else f"{size} {word}"


def known_words(known: Known, figure: Figure, show: Show) -> tuple[str, str]:
    """Return the tested piece's figure and where it comes from."""
    return figure_words(figure, known.value, show), SOURCE_WORDS[known.source]


def differs_words(part: Part, lines: list[Held], show: Show) -> str:
    """Return what of a part is out: `the head is 3.0 g light and 1.0° strong`."""
    told = [apart_words(one.figure, one.apart, show) for one in lines if one.apart is not None]
    return f"the {part} is {listed(told)}"


def weight_words(weight: HeadWeight, show: Show) -> str:
    """Return what a head's weight does to the club."""
    told = points_words(weight.points, show)
    if weight.apart <= 0.0:
        return told
    grip, shaft = show.mass(weight.grip_heavier), show.mass(weight.shaft_lighter)
    return (
        f"{told}; to bring it back a grip about {grip} heavier, a shaft about {shaft} lighter, or "
        f"a club about {show.length(weight.shorter)} shorter"
    )


def add_words(weight: HeadWeight, show: Show) -> str:
    """Return what weight in a light head brings back."""
    return (
        f"Add {show.mass(weight.add, 1)} to the head: weight and swingweight are then about as "
        "tested; weigh it again afterwards"
    )


def points_words(points: float, show: Show) -> str:
    """Return what a change of swingweight by so many points is called."""
    size = show.number(abs(points), 1)
    if _nothing(size):
        return "as it is, the swingweight stays"
    side = "higher" if points > 0.0 else "lower"
    return f"as it is, the swingweight comes out about {size} points {side}"


def turn_words(turn: Turn, convention: Convention, show: Show) -> str:
    """Return what a setting makes of a head, and what is left over beside the tested club.

    Parameters
    ----------
    turn : Turn
    convention : Convention
        Under which it was computed.
    show : Show
    """
    left = left_words(turn.apart, convention, show)
    soled = (
        ""
        if convention is Convention.B
        else f"; soled flat, its face sits {_sits(turn.soled, show)}"
    )
    return f"{_set_words(turn.angles, convention, show)}: {left}{soled}"


def left_fit(turn: Turn) -> Fit:
    """Return the verdict on what a setting leaves over: that of its worst angle."""
    for worst in (Fit.OUT, Fit.CANNOT_TELL):
        if worst in turn.fits.values():
            return worst
    return Fit.IN


def left_words(apart: HeadAngles, convention: Convention, show: Show) -> str:
    """Return what is left over of loft, lie and face beside the tested club."""
    loft = _left(apart.loft, show, "loft")
    lie = _left(apart.lie, show, "", ("more upright", "flatter"))
    told = [loft, lie]
    if convention is not Convention.C:
        told.append(_left(apart.face, show, "", ("more open", "more closed")))
    found = [one for one in told if one]
    return f"{listed(found)} than tested" if found else "as tested"


def effect_words(effect: Effect, hand: Hand, show: Show) -> str:
    """Return what is left over does to the ball.

    Parameters
    ----------
    effect : Effect
        In the golfer's own signs.
    hand : Hand
        For whom an open face starts the ball right, or left.
    show : Show
    """
    rate = round(effect.spin / REVOLUTION_PER_MINUTE / 10.0) * 10.0
    told = [
        f"about {show.angle_apart(effect.launch)} launch",
        f"{show.signed(rate, 0)} rpm of spin",
    ]
    if abs(effect.direction) >= 0.05 * DEGREE:
        right = (effect.direction > 0.0) is (hand is Hand.RIGHT)
        side = "right" if right else "left"
        told.append(f"a start {show.angle(abs(effect.direction))} further {side}")
    return f"{listed(told)}, {COMPUTED}"


def settled_words(act: PartSettled, show: Show) -> str:
    """Return what was decided about a part."""
    what = {Matter.MASS: "its weight", Matter.ANGLES: "its angles", Matter.WHOLE: "it"}
    told = {
        Settled.KEEP: f"{what[act.matter]} stays as it is"
        if act.matter is not Matter.ANGLES
        else "its angles stay as they are",
        Settled.TURN_SLEEVE: f"the sleeve goes to {act.setting}",
        Settled.HEAD_WEIGHT: f"{show.mass(act.mass, 1)} go into the head",
        Settled.SEND_BACK: "it goes back",
    }
    return f"{told[act.settled]}: {act.why}" if act.why else told[act.settled]


def _set_words(angles: HeadAngles, convention: Convention, show: Show) -> str:
    loft, lie = show.angle(angles.loft), show.angle(angles.lie)
    face = "" if convention is Convention.C else f", face {face_words(angles.face, show)}"
    return f"loft {loft}, lie {lie}{face}, {HELD_WORDS[convention]}"


def _left(value: float, show: Show, what: str, words: tuple[str, str] = ("more", "less")) -> str:
    size = show.angle(abs(value))
    if _nothing(size):
        return ""
    return f"{size} {words[0] if value > 0.0 else words[1]} {what}".rstrip()


def _sits(value: float, show: Show) -> str:
    size = show.angle(abs(value))
    if _nothing(size):
        return "as the tested club’s"
    return f"{size} more {'open' if value > 0.0 else 'closed'}"


def _nothing(size: str) -> bool:
    """Return whether a size rounds to nothing as written."""
    return not any(digit in "123456789" for digit in size)
