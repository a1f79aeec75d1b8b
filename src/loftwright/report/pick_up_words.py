"""What is said of a built club hit against the tested one, and what its golfer is told."""

from typing import Final

from loftwright.constants import DEGREE
from loftwright.domain.check_acts import Against
from loftwright.evidence.same_club import MOST_MORE, RANGE, NumberApart, SameClub
from loftwright.report.numbers import count, listed
from loftwright.report.screen_numbers import Show

NAMES: Final = {
    "ball_speed": "ball speed",
    "launch": "launch",
    "direction": "start line",
    "spin": "spin",
    "axis": "spin axis",
    "total": "total at home",
}
"""What each number is called, in the order in which it is shown."""

_MORE: Final = {
    "ball_speed": ("faster", "slower"),
    "launch": ("higher", "lower"),
    "direction": ("further right", "further left"),
    "spin": ("more", "less"),
    "axis": ("tilted right", "tilted left"),
    "total": ("longer", "shorter"),
}
_SIDED: Final = frozenset({"direction", "axis"})

SCREW: Final = (
    "Look at the sleeve’s screw after the first session; tighten it to the maker’s value."
)
TURN_NOTHING: Final = "Turn nothing on the club during a round."
STOP: Final = "Stop and bring the club back when it creaks, clicks or the head turns."
COME_BACK: Final = (
    "If it does less than here, come back early with the ball you play: it is hit against the "
    "tested club again."
)

CONSISTENT: Final = (
    "Plays as the tested one did: every difference lies within its margin, nine chances in ten."
)


def told_at_pick_up(*, sleeve: bool) -> tuple[str, ...]:
    """Return what a golfer is told with the club.

    Parameters
    ----------
    sleeve : bool
        Whether the head has one.
    """
    return (*((SCREW, TURN_NOTHING) if sleeve else ()), STOP, COME_BACK)


def said_sentence(said: SameClub, show: Show) -> str:
    """Return the sentence that answers whether the built club plays as the tested one.

    Parameters
    ----------
    said : SameClub
    show : Show
    """
    if said.against is None:
        if said.had < said.needed:
            return f"Too few balls yet: {said.had} of {said.needed}."
        return "Nothing can be said: no club was hit on both days."
    if said.against is Against.NOT:
        told = [f"{NAMES[one.name]} {amount(one, show)}" for one in _ordered(said.differing)]
        return f"Not the same: {listed(told)}, beyond doubt."
    if said.against is Against.CANNOT_TELL and said.more is not None:
        return (
            f"Cannot tell yet: {count(said.more, 'more ball')} with each club would tell if the "
            "averages stay."
        )
    if said.against is Against.CANNOT_TELL:
        return f"Cannot tell today: {MOST_MORE} more balls with each club would not tell."
    return CONSISTENT


def said_objection(said: SameClub, show: Show) -> str:
    """Return the one thing a careful fitter would object to the sentence.

    Parameters
    ----------
    said : SameClub
    show : Show
    """
    if said.against is None:
        if said.had < said.needed:
            return "The first set with each club, before anything is said."
        return "Hit the tested club, or the golfer’s own, on the same day as the built one."
    if said.against is Against.NOT:
        return (
            "Before it is built again: the same setting, the same ball, and the gauges once more."
        )
    if said.against is Against.CONSISTENT:
        loft = _named(said.numbers, "launch")
        return (
            "So few balls do not show half a degree of loft: that is the gauge’s to say. "
            + (f"A launch {show.angle(loft.margin)} off would have shown." if loft else "")
        ).strip()
    return f"No number differs beyond doubt. {_would_have_shown(said, show)}"


def amount(one: NumberApart, show: Show) -> str:
    """Return a difference in words: how much, and which way.

    Parameters
    ----------
    one : NumberApart
    show : Show
    """
    size = _figure(one.name, abs(one.apart.mean), show)
    return f"{size} {_MORE[one.name][0 if one.apart.mean > 0.0 else 1]}"


def level_words(name: str, value: float, show: Show) -> str:
    """Return a mean of one club.

    Parameters
    ----------
    name : str
        One of `NAMES`.
    value : float
        SI.
    show : Show
    """
    if name in _SIDED:
        return _sided(value, show)
    return show.yards(value) if name == "total" else _figure(name, value, show)


def apart_words(name: str, value: float, show: Show) -> str:
    """Return a difference with its sign, or with R and L for what goes to a side.

    Parameters
    ----------
    name : str
        One of `NAMES`.
    value : float
        SI.
    show : Show
    """
    if name in _SIDED:
        return _sided(value, show)
    if name == "launch":
        return show.angle_apart(value)
    if name == "spin":
        text = show.turn_rate(value)
        return f"{text if value < 0.0 or text == '0' else f'+{text}'} rpm"
    quantity = "speed" if name == "ball_speed" else "distance"
    return f"{show.apart(quantity, value)} {show.unit(quantity).name}"


def range_words(one: NumberApart, show: Show) -> str:
    """Return the range that holds a difference nine times in ten."""
    low, high = one.apart.interval(RANGE)
    return f"{apart_words(one.name, low, show)} to {apart_words(one.name, high, show)}"


def limit_words(name: str, value: float, show: Show) -> str:
    """Return a limit to either side.

    Parameters
    ----------
    name : str
        One of `NAMES`.
    value : float
        SI.
    show : Show
    """
    return f"±{_figure(name, value, show)}"


def stands_words(one: NumberApart) -> str:
    """Return how a number stands."""
    if one.differs:
        return "differs"
    return "within" if one.within else "open"


def ordered_numbers(said: SameClub) -> tuple[NumberApart, ...]:
    """Return the numbers in the order in which they are shown."""
    return _ordered(said.numbers)


def _ordered(numbers: tuple[NumberApart, ...]) -> tuple[NumberApart, ...]:
    places = list(NAMES)
    return tuple(sorted(numbers, key=lambda one: places.index(one.name)))


def _named(numbers: tuple[NumberApart, ...], name: str) -> NumberApart | None:
    return next((one for one in numbers if one.name == name), None)


def _would_have_shown(said: SameClub, show: Show) -> str:
    """Return which differences the ranges leave out."""
    told = []
    for name in ("launch", "total"):
        one = _named(said.numbers, name)
        if one is not None:
            farthest = max(abs(end) for end in one.apart.interval(RANGE))
            told.append(f"more than {_figure(name, farthest, show)} in {NAMES[name]}")
    return f"Ruled out: {listed(told)}." if told else ""


def _figure(name: str, value: float, show: Show) -> str:
    if name == "spin":
        return f"{show.turn_rate(value)} rpm"
    if name == "ball_speed":
        return show.speed(value)
    if name == "total":
        unit = show.unit("distance")
        return f"{show.number(value / unit.scale, 1)} {unit.name}"
    return show.angle(value)


def _sided(value: float, show: Show) -> str:
    text = show.number(abs(value) / DEGREE, 1)
    if float(text.replace(",", ".")) == 0.0:
        return f"{text}°"
    return f"{text}° {'R' if value > 0.0 else 'L'}"
