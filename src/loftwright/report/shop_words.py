"""What a shop's record knows, in words: by how much, how sure, and from how many fittings."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from statistics import NormalDist
from typing import Final

from loftwright.constants import DEGREE, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.report.numbers import LIKELY_RANGE, count, percent
from loftwright.report.screen_numbers import Show

NAMES: Final[Mapping[str, str]] = {
    "ball_speed": "ball speed",
    "launch": "launch",
    "spin": "spin",
    "axis": "curve",
    "direction": "start direction",
    "head_speed": "head speed",
    "attack": "attack",
    "face_to_path": "face to path",
    "face": "face",
    "toe": "strike to the toe",
    "high": "strike high",
}
"""Of every number that a club is believed to change."""

_NINE_IN_TEN: Final = NormalDist().inv_cdf(0.5 + LIKELY_RANGE / 2.0)
_HALF: Final = NormalDist().inv_cdf(0.75)
_SPEEDS: Final = frozenset({"ball_speed", "head_speed"})
_STRIKES: Final = frozenset({"toe", "high"})
_TOLD: Final = ("spin", "launch", "ball_speed")
"""In this order in a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Believed:
    """One figure of what something does.

    Attributes
    ----------
    mean, sd : float
        SI and radians; in the golfer's signs.
    """

    mean: float
    sd: float

    @property
    def likely(self) -> tuple[float, float]:
        """The range of nine chances in ten."""
        reach = _NINE_IN_TEN * self.sd
        return self.mean - reach, self.mean + reach

    @property
    def half(self) -> tuple[float, float]:
        """The range of half the chance."""
        return self.mean - _HALF * self.sd, self.mean + _HALF * self.sd

    @property
    def sure(self) -> bool:
        """Whether nought lies outside the range of nine chances in ten."""
        low, high = self.likely
        return low > 0.0 or high < 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What the record knows of a thing that clubs belong to.

    Attributes
    ----------
    level : str
        Of what the figures rest on; empty where the record holds nothing of it.
    name : str
        Of the thing, as people call it.
    fittings : int
        In how many it, or the nearest thing, was hit.
    figures : mapping of str to Believed
        By the names of `NAMES`: as golfers swing it, with what it does to the swing; all that is
        known of what it belongs to, added up.
    same : mapping of str to Believed
        The same of launch from the same swing.
    source : str
        Of what those fittings are: `of its family`, or what it is carried over from; empty where
        they are its own.
    likeness : float, optional
        To what it is carried over from.
    id : str
        In the rack; empty for what is none of it.
    """

    level: str
    name: str
    fittings: int
    figures: Mapping[str, Believed]
    same: Mapping[str, Believed] = field(default_factory=dict)
    source: str = ""
    likeness: float | None = None
    id: str = ""


def scale_of(figure: str, show: Show) -> tuple[float, str, int]:
    """Return the size of a figure's unit [SI], its name behind a numeral, and its digits."""
    if figure in _SPEEDS:
        unit = show.unit("speed")
        return unit.scale, f" {unit.name}", 1
    if figure == "spin":
        return REVOLUTION_PER_MINUTE, " rpm", 0
    if figure in _STRIKES:
        return MILLIMETRE, " mm", 1
    return DEGREE, "\N{DEGREE SIGN}", 1


def apart(figure: str, value: float, show: Show) -> str:
    """Return a difference of a figure [SI], with its sign and without its unit."""
    scale, _, digits = scale_of(figure, show)
    shown = value / scale
    return show.signed(round(shown / 10.0) * 10.0 if figure == "spin" else shown, digits)


def with_unit(figure: str, value: float, show: Show) -> str:
    """Return a difference of a figure [SI] with its sign and unit."""
    return f"{apart(figure, value, show)}{scale_of(figure, show)[1]}"


def range_words(figure: str, believed: Believed, show: Show) -> str:
    """Return the range of nine chances in ten, without its unit."""
    low, high = believed.likely
    return f"{apart(figure, low, show)} to {apart(figure, high, show)}"


def figure_words(figure: str, believed: Believed, show: Show) -> str:
    """Return one figure with its range: `spin −180 rpm (−260 to −100)`."""
    told = with_unit(figure, believed.mean, show)
    return f"{NAMES[figure]} {told} ({range_words(figure, believed, show)})"


def known_words(known: Known, show: Show, whom: str = "over all golfers") -> str:
    """Return what the record knows of a shaft in a sentence.

    Parameters
    ----------
    known : Known
    show : Show
    whom : str
        For whom it holds: `for golfers like this one (fast, late release)`.
    """
    if not known.level:
        return "Nothing in the shop record."
    told = ", ".join(
        figure_words(one, known.figures[one], show) for one in _TOLD if one in known.figures
    )
    return f"{whom[:1].upper()}{whom[1:]}: {told}; {source_words(known, show)}."


def source_words(known: Known, show: Show) -> str:
    """Return from how many fittings of what something is known."""
    hit = count(known.fittings, "fitting")
    if known.likeness is not None:
        likeness = show.number(known.likeness, 1)
        return f"carried over from {known.source} (likeness {likeness}, {hit})"
    return f"{hit} {known.source}".strip()


def golfers_like(*kind: str) -> str:
    """Return for whom something holds; over all golfers where the record tells none apart."""
    told = [one for one in kind if one]
    return f"for golfers like this one ({', '.join(told)})" if told else "over all golfers"


def shop_sentence(*, fittings: int, golfers: int, balls: int, physics: float) -> str:
    """Return what has taught a shop, and how much of what is believed is physics.

    Parameters
    ----------
    fittings, golfers, balls : int
    physics : float
        Share that is still physics.
    """
    have = "has" if fittings == 1 else "have"
    return (
        f"{count(fittings, 'fitting')} of {count(golfers, 'golfer')} ({count(balls, 'ball')}) "
        f"{have} taught this shop; {percent(physics)} of what is believed is still physics."
    )


def nothing_learned(fittings: int, wanted: int) -> str:
    """Return that nothing has been learned, and what is there.

    Parameters
    ----------
    fittings : int
        In the record.
    wanted : int
        From which on a record teaches as much as physics does.
    """
    if not fittings:
        return "Nothing has been learned yet: the shop record is empty, so physics leads."
    if fittings < wanted:
        there = "is" if fittings == 1 else "are"
        return (
            f"Nothing has been learned yet: {fittings} of about {wanted} fittings {there} there, "
            "so physics leads."
        )
    return (
        f"Nothing has been learned yet: {fittings} fittings are in the record and wait to be "
        "learned from."
    )


def offset_words(kind: str, name: str, figure: str, believed: Believed, show: Show) -> str:
    """Return by how much a device or bay reads differently: `Bay 2 reads 180 rpm more spin`.

    Parameters
    ----------
    kind : {"device", "bay"}
    name, figure : str
    believed : Believed
    show : Show
    """
    low, high = sorted(abs(end) for end in believed.likely)
    size, least, most = (
        apart(figure, value, show)[1:] for value in (abs(believed.mean), low, high)
    )
    unit = scale_of(figure, show)[1]
    more = "more" if believed.mean > 0.0 else "less"
    within = "a bay" if kind == "bay" else "one device"
    return (
        f"{name} reads {size}{unit} {more} {NAMES[figure]} than the others ({least} to {most}): "
        f"compare clubs within {within}."
    )


def leverage_words(kind: str, name: str, of: str, figure: str, share: float, show: Show) -> str:
    """Return how far one golfer, device or bay moves what is believed of something.

    Parameters
    ----------
    kind : {"golfer", "device", "bay"}
    name : str
        Of the device or bay; a golfer is not named.
    of : str
        What is moved most.
    figure : str
    share : float
        By how many standard errors.
    show : Show
    """
    who = "One golfer" if kind == "golfer" else name
    return (
        f"{who} alone moves the {NAMES.get(figure, figure)} of {of} by "
        f"{show.number(abs(share), 1)} standard errors: look for slips in those balls "
        "before you lean on it."
    )
