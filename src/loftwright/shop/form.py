"""What every column of the open form is, so that the record can be read without this program."""

from dataclasses import dataclass
from typing import Final

from loftwright.shop.record import VERSION


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of the open form.

    Attributes
    ----------
    kind : {"text", "whole", "figure"}
    unit : str
        Empty for what has none.
    sign : str
        What is positive, in the golfer's own signs; empty where there is no side.
    """

    name: str
    kind: str
    means: str
    unit: str = ""
    sign: str = ""


def _text(name: str, means: str) -> Column:
    return Column(name=name, kind="text", means=means)


def _figure(name: str, means: str, unit: str, sign: str = "") -> Column:
    return Column(name=name, kind="figure", means=means, unit=unit, sign=sign)


_CURVES: Final = "curving away from the golfer's body, as a right-hander's ball to the right"
_AWAY: Final = "starting away from the golfer's body"

FORM: Final = (
    _text("fitting", "the fitting's id"),
    _text("golfer", "a code that stands for the golfer and tells nobody who it is"),
    _text("bay", "where it was hit"),
    _text("device", "what read it"),
    _text("speed", "`slow`, `middle` or `fast`; empty where nobody knows"),
    _text("loading", "how the golfer changes direction at the top; empty where nobody said"),
    _text("ability", "as stated; empty where nobody said"),
    _text("club", "the club's name in its fitting, with its setting"),
    _text("head", "the head's model"),
    _text("family", "the shaft's family"),
    _text("generation", "the shaft's family and generation"),
    _text("model", "the shaft's model"),
    _text("piece", "the shaft's sample"),
    Column(name="visit", kind="whole", means="visit of the fitting, from 0"),
    Column(name="order", kind="whole", means="place among all swings of the visit, from 0"),
    _figure("ball_speed", "speed of the ball", "m/s"),
    _figure("launch", "launch angle", "rad", "up"),
    _figure("spin", "rate of spin", "rad/s"),
    _figure("axis", "tilt of the spin axis", "rad", _CURVES),
    _figure("direction", "start line", "rad", _AWAY),
    _figure("head_speed", "speed of the head", "m/s"),
    _figure("attack", "attack angle", "rad", "up"),
    _figure("path", "club path", "rad", "in to out"),
    _figure("face", "face angle", "rad", "open"),
    _figure("strike_toe", "mark from the middle of the face; null without one", "m", "to the toe"),
    _figure("strike_high", "mark from the middle of the face; null without one", "m", "high"),
    _figure("weight", "what the ball counts, of an ordinary ball: from 0 to 1", ""),
    _figure("shift_head_speed", "what physics and bench expect of the club: head speed", "m/s"),
    _figure("shift_attack", "the same of the attack angle", "rad", "up"),
    _figure("shift_path", "the same of the path", "rad", "in to out"),
    _figure("shift_face", "the same of the face", "rad", "open"),
    _figure("shift_loft", "the same of the dynamic loft", "rad", "up"),
)
"""Columns of the open form, in order."""

ARROW: Final = {"text": "string", "whole": "int64", "figure": "double"}
"""Types of columns, in the words of Arrow."""


def form_lines() -> tuple[str, ...]:
    """Return the table of columns as lines of Markdown."""
    rows = [
        f"| `{one.name}` | {ARROW[one.kind]} | {one.unit} | {one.means} | {one.sign} |"
        for one in FORM
    ]
    return ("| column | type | unit | what it is | positive |", "| --- " * 5 + "|", *rows)


def readme() -> str:
    """Return what lies beside an exported record and says how to read it."""
    return "\n".join(
        (
            "# A shop record",
            "",
            f"Open form `loftwright balls {VERSION}`. Every file of `balls` is Parquet with one",
            "row a ball; all of them have the same columns, and the golfer's balls lie in one",
            "file. Figures are in SI units and radians, and in the golfer's own signs: a",
            "left-hander's figures are those of the mirrored right-hander. A figure that was not",
            "read is null. Differences of shift columns between the clubs of a fitting mean",
            "something, their level does not.",
            "",
            *form_lines(),
            "",
            "Names of models and samples are the ids of the studio's rack. No golfer is named;",
            "who agreed to the shop's own record has not agreed to be published.",
            "",
        )
    )
