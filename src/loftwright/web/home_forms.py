"""The golfer's home course in a form: its air, turf, wind and holes."""

from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from loftwright.domain.home import Hole, Home, Lie, Trouble, Turf
from loftwright.errors import IntakeError, LoftwrightError
from loftwright.intake.toml_files import read_home
from loftwright.report.screen_numbers import Show
from loftwright.web.forms import Typed

MOST_HOLES: Final = 36
HOME_FIELDS: Final = (
    *("home_name", "altitude", "temperature", "humidity", "turf"),
    *("wind_along", "wind_across", "re_aim", "holes"),
)
HOLE_FIELDS: Final = ("length", "fairway", "trouble", "from", "lie")


def read_home_form(typed: Typed) -> Home | None:
    """Return the home course; None if a field cannot be. What is left empty is as usual."""
    usual = Home()
    name = typed.text("home_name") or usual.name
    altitude = typed.quantity("altitude", "altitude")
    temperature = typed.quantity("temperature", "temperature")
    humidity = typed.quantity("humidity", "share")
    along, across = typed.quantity("wind_along", "wind"), typed.quantity("wind_across", "wind")
    turf = typed.word("turf", Turf, Turf.NORMAL)
    re_aim = typed.one_of("re_aim", ("yes", "no"), "yes") == "yes"
    holes = tuple(_hole(typed, number) for number in range(1, holes_in(typed) + 1))
    if not typed.good:
        return None
    places = {"wind": "wind_along"}
    return typed.tried(
        "home_name",
        lambda: replace(
            usual,
            name=name,
            altitude=usual.altitude if altitude is None else altitude,
            temperature=usual.temperature if temperature is None else temperature,
            humidity=usual.humidity if humidity is None else humidity,
            turf=turf,
            wind_along=along or 0.0,
            wind_across=across or 0.0,
            re_aim=re_aim,
            holes=tuple(hole for hole in holes if hole is not None),
        ),
        places,
    )


def holes_in(typed: Typed) -> int:
    """Return how many holes the form has rows for."""
    text = typed.fields.get("holes", "0")
    return min(int(text), MOST_HOLES) if text.isascii() and text.isdecimal() else 0


def home_values(home: Home, show: Show) -> dict[str, str]:
    """Return what a form holds for a home course: what is as usual stays empty."""
    usual = Home()
    quantities = {
        "altitude": "altitude",
        "temperature": "temperature",
        "wind_along": "wind",
        "wind_across": "wind",
    }
    values = {
        name: show.typed(quantity, getattr(home, name))
        for name, quantity in quantities.items()
        if getattr(home, name) != getattr(usual, name)
    }
    if home.humidity != usual.humidity:
        values["humidity"] = show.number(100.0 * home.humidity, 1)
    if home.name != usual.name:
        values["home_name"] = home.name
    values |= {
        "turf": home.turf.value,
        "re_aim": "yes" if home.re_aim else "no",
        "holes": str(len(home.holes)),
    }
    for number, hole in enumerate(home.holes, 1):
        values |= hole_values(hole, number, show)
    return values


def usual_words(show: Show) -> dict[str, str]:
    """Return what stands for each field of the home course that is left empty."""
    usual = Home()
    return {
        "home_name": f"{usual.name} if empty.",
        "altitude": f"{show.altitude(usual.altitude)} if empty.",
        "temperature": f"{show.temperature(usual.temperature)} if empty.",
        "humidity": f"{100.0 * usual.humidity:.0f} % if empty.",
        "wind": "Calm if empty.",
    }


def hole_values(hole: Hole, number: int, show: Show) -> dict[str, str]:
    """Return what a form holds for one hole."""
    return {
        f"hole_{number}_length": show.typed("distance", hole.length),
        f"hole_{number}_fairway": show.typed("distance", hole.fairway),
        f"hole_{number}_trouble": hole.trouble.value,
        f"hole_{number}_from": show.typed("distance", hole.trouble_from),
        f"hole_{number}_lie": hole.trouble_lie.value,
    }


def with_one_more_hole(fields: dict[str, str], show: Show) -> dict[str, str]:
    """Return a form's fields with one more hole, like the last one."""
    number = holes_in(Typed(fields=fields)) + 1
    if number > MOST_HOLES:
        return fields
    before = {name: fields.get(f"hole_{number - 1}_{name}", "") for name in HOLE_FIELDS}
    fresh = hole_values(Hole(), number, show)
    like = {f"hole_{number}_{name}": text for name, text in before.items() if text}
    return {**fields, **fresh, **like, "holes": str(number)}


def without_hole(fields: dict[str, str], gone: int) -> dict[str, str]:
    """Return a form's fields without one hole; those behind it move up."""
    number = holes_in(Typed(fields=fields))
    kept = {name: text for name, text in fields.items() if not name.startswith("hole_")}
    left = [hole for hole in range(1, number + 1) if hole != gone]
    for place, hole in enumerate(left, 1):
        for name in HOLE_FIELDS:
            kept[f"hole_{place}_{name}"] = fields.get(f"hole_{hole}_{name}", "")
    return {**kept, "holes": str(len(left))}


def home_of_file(name: str, content: bytes) -> Home:
    """Return the home course of an uploaded settings file.

    Raises
    ------
    IntakeError
        If it is empty or cannot be read; the place names the file as it was called.
    InputError
        If a key is not known or a value cannot be.
    """
    if not content:
        raise IntakeError(
            "no file was chosen", place="home_file", mend="Choose a file, then read it."
        )
    with TemporaryDirectory() as folder:
        path = Path(folder) / (Path(name).name or "home.toml")
        path.write_bytes(content)
        try:
            return read_home(path)
        except LoftwrightError as error:
            place = error.place.replace(f"{folder}/", "")
            raise type(error)(error.message, place=place, mend=error.mend) from error


def _hole(typed: Typed, number: int) -> Hole | None:
    at = f"hole_{number}_"
    length = typed.quantity(f"{at}length", "distance", need="Give its length, or take it out.")
    fairway = typed.quantity(f"{at}fairway", "distance", need="Give the width of its fairway.")
    trouble = typed.word(f"{at}trouble", Trouble, Trouble.NONE)
    begins = typed.quantity(f"{at}from", "distance")
    lie = typed.word(f"{at}lie", Lie, Lie.RECOVERY)
    if length is None or fairway is None:
        return None
    places = {
        "length_yd": f"{at}length",
        "fairway_yd": f"{at}fairway",
        "trouble_from_yd": f"{at}from",
    }
    return typed.tried(
        f"{at}length",
        lambda: Hole(
            length=length,
            fairway=fairway,
            trouble=trouble,
            trouble_from=Hole().trouble_from if begins is None else begins,
            trouble_lie=lie,
        ),
        places,
    )
