"""A shortlist in words and keys: the big levers first, then shafts as the weak guess they are."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final, NamedTuple

from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.domain.golfer import Wish
from loftwright.evidence.build_changes import HALF_INCH
from loftwright.evidence.shaft_guess import Guess
from loftwright.evidence.shaft_prior import Belief, Effect
from loftwright.evidence.shortlist import (
    Lacks,
    LeftOut,
    LeftOutFor,
    Listed,
    LoftStep,
    Shortlist,
    Without,
    figure,
)
from loftwright.report.layout import notes, paragraph, table
from loftwright.report.likeness_words import at, differs_most, percent, softer
from loftwright.report.numbers import count, listed
from loftwright.report.records import Record, rounded
from loftwright.report.screen_numbers import TRADE, Show

_LACKS: Final[Mapping[Lacks, str]] = MappingProxyType(
    {
        Lacks.OWN_CLUB: "write the own club down",
        Lacks.HEAD_SPEED: "give the head speed as stated",
        Lacks.DRIVER: "write a driver down as the own club, since what a shaft changes was "
        "looked at for drivers only",
    }
)
_ROUND_SPEED: Final = 0.5 * MILE_PER_HOUR


class LeverLine(NamedTuple):
    """A lever and what speaks for pulling it."""

    lever: str
    why: str


def shortlist_sentence(listed_one: Listed) -> str:
    """Return in one sentence what to try first, or what is lacking."""
    found = listed_one.shortlist
    if found is None:
        lacks = listed([_LACKS[one] for one in listed_one.lacks])
        return f"Nothing can be shortlisted yet: {lacks}."
    if found.without is Without.OWN_NOT_MEASURED:
        return "Big levers first; no shaft can be told from one that was not measured."
    if found.without is Without.NONE_MEASURED:
        return "Big levers first; the rack has no other measured shaft."
    if not found.shafts:
        return "Big levers first; no measured shaft can be tried here."
    names = listed([one.shaft.name for one in found.shafts])
    if found.too_close:
        return f"Big levers first; the shafts are too close to call before a ball: {names}."
    return f"Big levers first; of the shafts, {found.shafts[0].shaft.name} is worth balls first."


def levers(found: Shortlist, show: Show = TRADE) -> tuple[LeverLine, ...]:
    """Return the big levers in the order in which they are tried, each with its reason.

    Parameters
    ----------
    found : Shortlist
    show : Show

    References
    ----------
    MacKenzie, Ryan and Rice 2015, Int. J. Golf Sci. 4:136-146 (abstract): head mass.
    Burger and Senner (abstract): shaft weight and flex, no difference of head speed.
    The order, and what is said of length and grip: common practice, no source.
    """
    wish = found.sought.wish
    return (
        LeverLine("length", _length(found, show)),
        LeverLine("loft", _loft(found.loft, found.sought.head_speed, wish, show)),
        LeverLine("head", _HEAD),
        LeverLine("weight", _WEIGHT[wish]),
        LeverLine("grip", _GRIP),
    )


_HEAD: Final = (
    "Where its weight lies moves launch, spin and curve from the same swing, as far as impact is "
    "computed; try the other heads at the own length and loft."
)
_GRIP: Final = (
    "Its size and weight change feel and swingweight; no distance is known to follow from it "
    "(common practice, no source)."
)
_WHOLE: Final = (
    "Of 20 golfers with four drivers of unlike shaft weight and flex none gained head speed on "
    "average (Burger and Senner); what strikes steadily decides."
)
_HEAVIER: Final = (
    "A heavier head came slower, with more loft and more spin, at the same ball speed (18 "
    "golfers; MacKenzie, Ryan and Rice 2015)"
)
_WEIGHT: Final[Mapping[Wish, str]] = MappingProxyType(
    {
        Wish.DISTANCE: _WHOLE,
        Wish.STRAIGHTER: _WHOLE,
        Wish.HIGHER: f"{_HEAVIER}: some grams more.",
        Wish.LOWER: f"{_HEAVIER}: some grams less.",
    }
)


def shaft_why(guess: Guess, wish: Wish, own: str, show: Show = TRADE) -> str:
    """Return why a shaft may be tried, in a sentence that claims no more than is known.

    Parameters
    ----------
    guess : Guess
    wish : Wish
    own : str
        What the own shaft is called.
    show : Show
    """
    where = show.words(_apart(guess, own))
    if wish is Wish.STRAIGHTER:
        return f"{where}; nothing is known beforehand of where a shaft starts a ball."
    if figure(guess, wish).distinguishable:
        return f"{where}; {_change(guess, wish, show)} is more than the doubt, and still a guess."
    return f"{where}; {_change(guess, wish, show)} is less than the doubt: balls decide."


def launch_words(belief: Belief, show: Show = TRADE) -> str:
    """Return a belief of launch with one standard deviation, or that it cannot be told."""
    words = f"{show.angle_apart(belief.mean)} ± {show.angle(belief.sd)}"
    return words if belief.distinguishable else f"{words}, not distinguishable"


def speed_words(belief: Belief, show: Show = TRADE) -> str:
    """Return a belief of head speed to half a mile an hour, with one standard deviation."""
    mean = round(belief.mean / _ROUND_SPEED) * _ROUND_SPEED
    doubt = max(round(belief.sd / _ROUND_SPEED), 1) * _ROUND_SPEED
    words = f"{show.apart('speed', mean)} ± {show.speed(doubt)}"
    return words if belief.distinguishable else f"{words}, not distinguishable"


def left_out_words(one: LeftOut, show: Show = TRADE) -> str:
    """Return why a shaft is not on the list."""
    return _LEFT_OUT[one.why](one, show)


def left_out_groups(
    left_out: tuple[LeftOut, ...], show: Show = TRADE
) -> tuple[tuple[str, str], ...]:
    """Return the shafts that are not on the list, named together where the reason is one."""
    names: dict[str, list[str]] = {}
    for one in left_out:
        names.setdefault(left_out_words(one, show), []).append(one.shaft.name)
    return tuple((listed(found), why) for why, found in names.items())


def shortlist_lines(listed_one: Listed, show: Show = TRADE) -> list[str]:
    """Return a shortlist as lines for a terminal."""
    found = listed_one.shortlist
    lines = [*paragraph(shortlist_sentence(listed_one))]
    if found is None:
        return lines
    lines += notes(_lever_notes(found, show), "Levers, in this order:")
    if found.shafts:
        rows = [
            (
                one.shaft.name,
                launch_words(one.beliefs[Effect.LAUNCH], show),
                speed_words(one.beliefs[Effect.HEAD_SPEED], show),
            )
            for one in found.shafts
        ]
        lines += ["", *table(("Shaft", "Launch", "Head speed"), rows, left=(0, 1, 2))]
        whys = [
            f"{one.shaft.name}: {shaft_why(one, found.sought.wish, listed_one.own, show)}"
            for one in found.shafts
        ]
        lines += notes(whys, "Why:")
    rest = [f"{names}: {why}" for names, why in left_out_groups(found.left_out, show)]
    lines += notes(rest, "Not on the list:")
    return [*lines, "", *paragraph(" ".join(shortlist_warnings(listed_one)))]


def shortlist_warnings(listed_one: Listed) -> tuple[str, ...]:
    """Return what must be known beside a shortlist."""
    found = listed_one.shortlist
    if found is None:
        return ()
    said = [
        "Before a ball is hit this is a weak guess from a model of the swing: ± is one standard "
        "deviation, and ten balls with each shaft tell more."
    ]
    if len(found.sought.loadings) > 1:
        said.append("How the shaft is loaded is open: both ways are in the ranges.")
    if listed_one.own_reason:
        said.append(f"No shafts are named: {listed_one.own_reason}.")
    return tuple(said)


def shortlist_record(listed_one: Listed) -> Record:
    """Return a shortlist under its keys."""
    found = listed_one.shortlist
    if found is None:
        return {
            "levers": [],
            "shafts": [],
            "too_close": None,
            "left_out": [],
            "warnings": [shortlist_sentence(listed_one)],
        }
    wish = found.sought.wish
    return {
        "levers": [{"lever": one.lever, "why": one.why} for one in levers(found)],
        "shafts": [
            {
                "shaft": one.shaft.name,
                "launch_deg": _belief(one.beliefs[Effect.LAUNCH], DEGREE),
                "head_speed_mph": _belief(one.beliefs[Effect.HEAD_SPEED], MILE_PER_HOUR),
                "lie_deg": _belief(one.beliefs[Effect.LIE], DEGREE),
                "stiffness_percent": rounded(100.0 * one.stiffness_change),
                "why": shaft_why(one, wish, listed_one.own),
            }
            for one in found.shafts
        ],
        "too_close": found.too_close,
        "left_out": [
            {"shaft": one.shaft.name, "why": left_out_words(one)} for one in found.left_out
        ],
        "warnings": list(shortlist_warnings(listed_one)),
    }


def _length(found: Shortlist, show: Show) -> str:
    length = show.length(found.sought.length)
    if found.sought.wish is Wish.STRAIGHTER:
        return f"From {length}, try shorter first (common practice, no source)."
    return (
        f"From {length}, {show.length(HALF_INCH)} either way; what head speed gains, strike "
        "may lose, and only balls tell which (common practice, no source)."
    )


def _loft(step: LoftStep, head_speed: float, wish: Wish, show: Show) -> str:
    words = (
        f"One degree more at impact launches {show.angle_apart(step.launch)}, spins "
        f"{show.turn_rate(step.spin)} rpm more and changes total by "
        f"{show.yards_apart(step.total)} at {show.speed(head_speed)} and the home course "
        "(computed for a centre strike)"
    )
    return f"{words}." if wish is not Wish.STRAIGHTER else f"{words}; it names no side."


def _change(guess: Guess, wish: Wish, show: Show) -> str:
    belief = figure(guess, wish)
    if wish is Wish.DISTANCE:
        return f"a head speed of {speed_words(belief, show).removesuffix(', not distinguishable')}"
    return f"a launch of {launch_words(belief, show).removesuffix(', not distinguishable')}"


def _apart(guess: Guess, own: str) -> str:
    widest = differs_most(guess.apart)
    if guess.apart.noise is None:
        return f"Against {own} no section was seen alike"
    if widest is None:
        return f"Against {own} no section differs by over 2 % and beyond twice the bench’s noise"
    section, told = widest
    return (
        f"Against {own} it differs most {at(section)}, {softer(told)}, bench noise "
        f"{percent(told.noise)}"
    )


def _lever_notes(found: Shortlist, show: Show) -> list[str]:
    return [f"{one.lever.capitalize()}: {one.why}" for one in levers(found, show)]


def _belief(belief: Belief, unit: float) -> Record:
    return {"mean": rounded(belief.mean, unit), "sd": rounded(belief.sd, unit)}


_LEFT_OUT: Final[Mapping[LeftOutFor, Callable[[LeftOut, Show], str]]] = MappingProxyType(
    {
        LeftOutFor.ELSEWHERE: lambda one, _: f"{one.words}.",
        LeftOutFor.TOO_SHORT: lambda one, show: (
            f"{show.length(one.by)} too short for the own club’s length."
        ),
        LeftOutFor.LIKE_OWN: lambda one, _: f"plays like {one.other}, the own shaft.",
        LeftOutFor.LIKE_ANOTHER: lambda one, _: f"plays like {one.other}.",
        LeftOutFor.OTHER_WAY: lambda _, __: "is believed to do the opposite of what is wished.",
        LeftOutFor.ENOUGH: lambda _, __: (
            f"{count(3, 'shaft')} are enough; nothing is known against it."
        ),
        LeftOutFor.NO_SWING: lambda one, _: f"cannot be swung in the model: {one.words}",
    }
)
