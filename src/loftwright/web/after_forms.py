"""Forms after a club was taken: an answer, a round, a complaint, a look at it and its ending."""

from datetime import date
from typing import Final

from loftwright.constants import DEGREE, GRAM, INCH
from loftwright.domain.after_acts import (
    Complained,
    ComplaintEnded,
    Ending,
    FollowedUp,
    Found,
    Look,
    LookedAt,
    Round,
    StillPlayed,
    Where,
)
from loftwright.domain.home import Turf
from loftwright.intake.build_text import Value, toml_text
from loftwright.web.forms import LONGEST_TEXT, Typed

AS_FOUND: Final = "as_found"
"""The finding follows from the figures."""

SURFACES: Final = ("mat", "turf")
PLACES: Final = ("indoors", "outdoors")
WINDS: Final = {"behind": 1.0, "against": -1.0}
WIND_WORDS: Final = {"behind": "From behind", "against": "Against"}

FIGURES: Final = (
    ("length", "length_inch", "length", INCH),
    ("swingweight", "swingweight", "", 1.0),
    ("mass", "mass_g", "mass", GRAM),
    ("loft", "loft_deg", "angle", DEGREE),
    ("lie", "lie_deg", "angle", DEGREE),
    ("face", "face_deg", "angle", DEGREE),
)
"""Figures read again: field, key of a file of measurements, quantity, size of the key's unit."""


def read_asked(typed: Typed, today: date) -> FollowedUp | None:
    """Return an answer; None if a field cannot be."""
    answer = _chosen(typed, "answer", tuple(StillPlayed), "Choose what was answered.")
    day, again = typed.day("day") or today, typed.day("again")
    words = typed.text("words", most=LONGEST_TEXT)
    if not typed.good:
        return None
    return FollowedUp(day=day, answer=StillPlayed(answer), words=words, again=again)


def read_round(typed: Typed) -> Round | None:
    """Return a round; None if a field cannot be."""
    day = typed.day("day")
    if not typed.given("day"):
        typed.fail("day", "it is empty", "Give the day of the round.")
    drives = typed.whole("drives", least=1, most=60, need="Count those on holes with a fairway.")
    fairways = typed.whole("fairways", least=0, most=60, need="Give 0 if none stayed in it.")
    total = typed.quantity("total", "distance")
    measured = typed.whole("measured", least=0, most=60)
    course = typed.text("course")
    if not typed.good or day is None or drives is None or fairways is None:
        return None
    return typed.tried(
        "drives",
        lambda: Round(
            day=day,
            course=course,
            drives=drives,
            fairways=fairways,
            total=total,
            measured=measured or 0,
        ),
    )


def read_complaint(typed: Typed, today: date) -> Complained | None:
    """Return a complaint; None if a field cannot be."""
    words = typed.text("words", most=LONGEST_TEXT, need="Write it down in the golfer’s own words.")
    day = typed.day("day") or today
    short = typed.quantity("short", "distance")
    if not typed.good:
        return None
    return typed.tried("short", lambda: Complained(day=day, words=words, short=short))


def read_look(typed: Typed, look: Look) -> tuple[LookedAt, bool] | None:
    """Return a look at a complaint, and whether its finding follows from the figures.

    None if a field cannot be.
    """
    choices: tuple[str, ...] = tuple(Found)
    if look in {Look.MEASURED, Look.PLACE}:
        choices = (*choices, AS_FOUND)
    found = _chosen(typed, "found", choices, "Choose what was found.")
    words = typed.text("words", most=LONGEST_TEXT)
    measured = _measured(typed) if look is Look.MEASURED else ""
    where = _where(typed) if look is Look.PLACE else None
    follows = found == AS_FOUND
    if follows and typed.good and not measured and where is None:
        typed.fail("found", "there is no figure it could follow from", "Give one, or choose.")
    if not typed.good:
        return None
    looked = LookedAt(
        look=look,
        found=Found.NOT_KNOWN if follows else Found(found),
        words=words,
        measured=measured,
        where=where,
    )
    return looked, follows


def read_ending(typed: Typed) -> ComplaintEnded | None:
    """Return how a complaint ended; None if a field cannot be."""
    ending = _chosen(typed, "ending", tuple(Ending), "Choose how it ended; you decide.")
    words = typed.text("words", most=LONGEST_TEXT)
    return ComplaintEnded(ending=Ending(ending), words=words) if typed.good else None


def _chosen(typed: Typed, name: str, known: tuple[str, ...], need: str) -> str:
    text = typed.fields.setdefault(name, "")
    if not text:
        typed.fail(name, "nothing is chosen", need)
    elif text not in known:
        typed.fail(name, f"{text!r} is unknown", need)
    return text


def _measured(typed: Typed) -> str:
    values: dict[str, Value] = {}
    for name, key, quantity, size in FIGURES:
        doubt_name = f"{name}_u95"
        if not typed.given(name):
            continue
        if quantity:
            value, doubt = typed.quantity(name, quantity), typed.quantity(doubt_name, quantity)
            values[f"{key}.value"] = (value or 0.0) / size
        else:
            values[f"{key}.value"] = typed.text(name).replace(",", ".")
            doubt = _plain(typed, doubt_name)
        if typed.good and doubt is None:
            typed.fail(doubt_name, "a reading needs its doubt", "Give how far it may be off.")
        values[f"{key}.u95"] = (doubt or 0.0) / size
    return toml_text(values) if values and typed.good else ""


def _plain(typed: Typed, name: str) -> float | None:
    text = typed.text(name).replace(",", ".")
    if not text:
        return None
    try:
        return float(text)
    except ValueError:
        typed.fail(name, f"{text!r} is no figure", "Write for example 0.3.")
        return None


def _where(typed: Typed) -> Where | None:
    temperature = typed.quantity("temperature", "temperature")
    altitude = typed.quantity("altitude", "altitude")
    wind = typed.quantity("wind_along", "wind")
    turf = typed.one_of("turf", ("", *Turf), "")
    side = typed.one_of("wind_from", ("", *WINDS), "")
    surface = typed.one_of("surface", ("", *SURFACES), "")
    place = typed.one_of("place", ("", *PLACES), "")
    if wind is not None and wind != 0.0 and not side:
        typed.fail("wind_from", "a wind comes from somewhere", "Choose from behind or against.")
    if not typed.good:
        return None
    along = None if wind is None else abs(wind) * WINDS.get(side, 1.0)
    where = typed.tried(
        "temperature",
        lambda: Where(
            temperature=temperature,
            altitude=altitude,
            turf=Turf(turf) if turf else None,
            wind_along=along,
            surface=surface,
            place=place,
        ),
    )
    return where if where != Where() else None
