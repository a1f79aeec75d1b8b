"""A complaint in words that golfer and fitter read together."""

from typing import Final

from loftwright.domain.after_acts import Ending, Found, Look
from loftwright.domain.built import Checked
from loftwright.domain.check_acts import Against
from loftwright.domain.verdict import Fit
from loftwright.report.build_words import CHECKED_WORDS
from loftwright.report.numbers import listed
from loftwright.report.screen_numbers import Show
from loftwright.workshop.complaint import Suggested, Why

LOOK_NAMES: Final = {
    Look.MEASURED: "The club, measured again",
    Look.BALL: "The ball",
    Look.PLACE: "The place and the weather",
    Look.WARM_UP: "The warm-up",
    Look.SETTINGS: "The settings",
    Look.HIT_AGAIN: "Hit again, in turn with the tested club",
}
LOOK_ASKS: Final = {
    Look.MEASURED: "Is it still the club that was handed over?",
    Look.BALL: "Is it the ball that was hit here?",
    Look.PLACE: "How far would the same drive go there, on that day?",
    Look.WARM_UP: "How many swings before the first drive?",
    Look.SETTINGS: "Was the sleeve, a weight or the grip changed since?",
    Look.HIT_AGAIN: "With the same ball, minutes apart: do the two clubs play alike?",
}
NEXT_WORDS: Final = {
    Look.MEASURED: "measure the club",
    Look.BALL: "compare the ball",
    Look.PLACE: "compare the place",
    Look.WARM_UP: "ask about the warm-up",
    Look.SETTINGS: "look at the settings",
    Look.HIT_AGAIN: "hit both clubs in turn",
}
FOUND_WORDS: Final = {
    Look.MEASURED: {
        Found.SAME: "Measures as when it was handed over",
        Found.DIFFERENT: "Measures otherwise",
        Found.NOT_KNOWN: "Could not be told",
    },
    Look.BALL: {
        Found.SAME: "The same kind of ball, in like state",
        Found.DIFFERENT: "Another ball",
        Found.NOT_KNOWN: "Nobody knows",
    },
    Look.PLACE: {
        Found.SAME: "Much like what was said for",
        Found.DIFFERENT: "Another place or weather",
        Found.NOT_KNOWN: "Nobody knows",
    },
    Look.WARM_UP: {
        Found.SAME: "Warm, as here",
        Found.DIFFERENT: "Cold, tired or in a hurry",
        Found.NOT_KNOWN: "Nobody knows",
    },
    Look.SETTINGS: {
        Found.SAME: "As handed over",
        Found.DIFFERENT: "Turned or changed since",
        Found.NOT_KNOWN: "Nobody knows",
    },
    Look.HIT_AGAIN: {
        Found.SAME: "Plays as the tested club",
        Found.DIFFERENT: "Plays otherwise",
        Found.NOT_KNOWN: "Cannot be told",
    },
}
FIGURE_NAMES: Final = {
    **{one: words[:1].upper() + words[1:] for one, words in CHECKED_WORDS.items()},
    Checked.SWINGWEIGHT: "Head-heaviness (swingweight)",
    Checked.MASS: "Weight",
    Checked.LIE: "Lie, the shaft’s slope",
}
"""Figures of a club as a golfer may know them."""

BALLS_SAID: Final = {
    Against.CONSISTENT: "The balls that were hit again say: it plays as the tested club.",
    Against.NOT: "The balls that were hit again say: it plays otherwise than the tested club.",
    Against.CANNOT_TELL: "The balls that were hit again cannot tell the two clubs apart.",
}
ENDINGS: Final = {
    Ending.CLUB: "The club changed",
    Ending.CONDITIONS: "Place, ball or wind",
    Ending.SWING: "The swing differs",
    Ending.CANNOT_TELL: "It cannot be told",
}
WHAT_THEN: Final = {
    Ending.CLUB: "Put it right at no charge, measure it again and hit it again.",
    Ending.CONDITIONS: "Keep the club; write the home course down as it is played.",
    Ending.SWING: "Keep the club; another fitting only when the swing is the new usual one.",
    Ending.CANNOT_TELL: "Write rounds down for a month, then look again.",
}
SINCE_WORDS: Final = {
    Fit.IN: "as it was",
    Fit.OUT: "changed",
    Fit.CANNOT_TELL: "cannot tell: read too roughly",
}
SHEET_WORDS: Final = {
    Fit.IN: "as on the sheet",
    Fit.OUT: "not as on the sheet",
    Fit.CANNOT_TELL: "cannot tell: read too roughly",
}
_WHY: Final = {
    Why.MEASURES_OTHERWISE: "The club does not measure as it was handed over.",
    Why.SET_OTHERWISE: "The club is not set as it was handed over.",
    Why.PLAYS_OTHERWISE: "Hit in turn, the club plays otherwise than the tested one.",
    Why.HIDDEN: "It measures as it did, yet plays otherwise than the tested club.",
    Why.CONTRADICTS: "It measures or is set otherwise, yet plays as the tested club.",
    Why.OTHER_BALL: "The club is what it was; it was hit with another ball.",
    Why.OTHER_PLACE: "The club is what it was; the place or the weather is another.",
    Why.OTHER_BALL_AND_PLACE: "The club is what it was; ball and place are others.",
    Why.COLD: "The club is what it was; it was hit without the warm-up it had here.",
    Why.ONLY_SWING_LEFT: "Club, ball and place are what they were: what is left is the swing.",
    Why.NOT_CLEARED: "Something else differs too, but nobody knows whether the club changed.",
    Why.NOTHING_FOUND: "Everything was looked at, and nothing explains it.",
}
_THEN: Final = {
    Why.HIDDEN: "Look at what a bench does not read: glue, grip, a crack, the face.",
    Why.CONTRADICTS: "Put it back as it was handed over and hit both again: then it can be told.",
    Why.COLD: "That is no fault of anybody: a first drive is shorter.",
    Why.ONLY_SWING_LEFT: "That is no fault of anybody: swings of a day differ.",
}


def suggested_words(
    told: Suggested, next_look: Look | None, taken: int, place: str = ""
) -> tuple[str, str]:
    """Return what the findings suggest, in a sentence, and the line under it.

    Parameters
    ----------
    told : Suggested
    next_look : Look or None
        The first that was not taken.
    taken : int
        How many looks were taken.
    place : str
        What the place explains, in a sentence.
    """
    if told.why is Why.LOOK_ON and next_look is not None:
        begin = "Nothing is settled" if taken else "Nothing was looked at"
        return f"{begin} yet: {NEXT_WORDS[next_look]} next.", place
    return _WHY[told.why], place or _THEN.get(told.why, "")


def ended_words(ending: Ending) -> str:
    """Return how a complaint ended, in a sentence."""
    return {
        Ending.CLUB: "The last complaint ended: the club had changed.",
        Ending.CONDITIONS: "The last complaint ended: it was place, ball or wind.",
        Ending.SWING: "The last complaint ended: the swing differed.",
        Ending.CANNOT_TELL: "The last complaint ended: it could not be told.",
    }[ending]


def place_words(together: float, short: float | None, show: Show) -> str:
    """Return what a place explains, as the golfer asked it.

    Parameters
    ----------
    together : float
        What it adds to a drive [m]; less is negative.
    short : float or None
        By how much drives are said to be shorter [m].
    show : Show
    """
    figure = show.figure("distance", abs(together))
    if figure == "0":
        return f"By place and weather the same drive would go as far, to {show.one_length}."
    far = show.yards(abs(together))
    if together > 0.0:
        return f"By place and weather the same drive would go about {far} further."
    if short is None:
        return f"By place and weather the same drive is about {far} shorter."
    if abs(together) >= short:
        return f"Place and weather explain all of the {show.yards(short)}: they take about {far}."
    return f"Place and weather explain about {far} of the {show.yards(short)}."


def part_words(parts: tuple[tuple[str, float], ...], show: Show) -> str:
    """Return what each part of a place does by itself.

    Parameters
    ----------
    parts : tuple of (str, float)
        Name and what it adds to a drive [m].
    show : Show
    """
    names = {
        "temperature": "the temperature",
        "altitude": "the altitude",
        "turf": "the ground",
        "wind_along": "the wind",
    }
    told = [f"{names[name]} {show.yards_apart(value)}" for name, value in parts]
    return f"Each by itself: {listed(told)}." if told else "Nothing about it differs."
