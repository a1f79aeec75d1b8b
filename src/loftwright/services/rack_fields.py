"""The open format of a rack: its kinds of rows, their keys, and how each value is written."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from loftwright.domain.golfer import Hand
from loftwright.domain.inspection import Finding, Inspection
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Assembly, HeadModel, Piece, ShaftModel, Sleeve, State

FORMAT: Final = "loftwright-rack"
VERSION: Final = 1


class Form(StrEnum):
    """How a value is written."""

    TEXT = "text"
    NUMBER = "number"
    ANGLE = "angle"
    WHOLE = "whole number"
    MONEY = "amount"
    WORD = "word"
    INSTANT = "instant"
    DAY = "day"
    NUMBERS = "numbers"
    SETTINGS = "settings"


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One key of a row.

    Attributes
    ----------
    key : str
        As the file has it, with its unit.
    name : str
        Of the value's attribute.
    shift : int
        The value in SI is the figure times ten to this power.
    words : type, optional
        The words that it may be.
    needed : bool
    """

    key: str
    name: str
    form: Form = Form.TEXT
    shift: int = 0
    words: type[StrEnum] | None = None
    needed: bool = False


def _text(*keys: str) -> tuple[Field, ...]:
    return tuple(Field(key=key, name=key) for key in keys)


def _need(key: str, name: str = "", form: Form = Form.TEXT, shift: int = 0) -> Field:
    return Field(key=key, name=name or key, form=form, shift=shift, needed=True)


def _milli(key: str, name: str) -> Field:
    return Field(key=key, name=name, form=Form.NUMBER, shift=-3)


def _along(key: str, name: str, shift: int = 0) -> Field:
    return Field(key=key, name=name, form=Form.NUMBERS, shift=shift)


def _angle(key: str, name: str, *, needed: bool = False) -> Field:
    return Field(key=key, name=name, form=Form.ANGLE, needed=needed)


_ID: Final = _need("id")
_LINE: Final = (
    *_text("family", "generation", "replaces"),
    Field(key="stock", name="stock", form=Form.WHOLE),
    Field(key="price", name="price", form=Form.MONEY),
)

FIELDS: Final[dict[str, tuple[Field, ...]]] = {
    "sleeve": (_ID, _need("name"), _need("system"), _need("settings", form=Form.SETTINGS)),
    "head": (
        *(_ID, *_text("maker"), _need("name")),
        Field(key="hand", name="hand", form=Form.WORD, words=Hand),
        _angle("loft_deg", "loft", needed=True),
        _angle("lie_deg", "lie"),
        _angle("face_deg", "face"),
        *(*_text("system"), *_LINE),
    ),
    "shaft": (
        *(_ID, *_text("maker"), _need("name")),
        _milli("paper_mass_g", "paper_mass"),
        *(*_text("paper_label"), *_LINE),
    ),
    "piece": (
        *(_ID, _need("model"), *_text("label")),
        _milli("mass_g", "mass"),
        *_text("place", "sleeve"),
        Field(key="state", name="state", form=Form.WORD, words=State),
        *_text("reason"),
        Field(key="locked_until", name="locked_until", form=Form.INSTANT),
        Field(key="check_after", name="check_after", form=Form.WHOLE),
    ),
    "club": (
        *(_ID, _need("head"), _need("shaft")),
        _need("length_mm", "length", Form.NUMBER, -3),
        *_text("setting", "grip"),
        Field(key="price", name="price", form=Form.MONEY),
    ),
    "look": (
        _need("piece"),
        _need("at", form=Form.INSTANT),
        _need("balls", form=Form.WHOLE),
        Field(key="finding", name="finding", form=Form.WORD, words=Finding, needed=True),
        *_text("words", "by"),
    ),
    "profile": (
        *(_ID, _need("piece"), _need("day", form=Form.DAY), _need("bench"), _need("conditions")),
        _need("station_mm", "station", Form.NUMBERS, -3),
        _need("bending_nm2", "bending", Form.NUMBERS),
        _need("bending_error_nm2", "bending_error", Form.NUMBERS),
        _along("twisting_nm2", "twisting"),
        _along("twisting_error_nm2", "twisting_error"),
        _along("density_g_m", "density", -3),
        _along("density_error_g_m", "density_error", -3),
        Field(key="scale_error_percent", name="scale_error", form=Form.NUMBER, shift=-2),
        _milli("mass_g", "mass"),
        _milli("mass_error_g", "mass_error"),
        _milli("balance_mm", "balance"),
        _milli("balance_error_mm", "balance_error"),
        _milli("butt_diameter_mm", "butt_diameter"),
        _milli("tip_diameter_mm", "tip_diameter"),
        *_text("set_aside"),
    ),
}
"""Every kind of row with its keys, in the order in which rows are read."""

TYPES: Final[dict[str, type]] = {
    "sleeve": Sleeve,
    "head": HeadModel,
    "shaft": ShaftModel,
    "piece": Piece,
    "club": Assembly,
    "look": Inspection,
    "profile": MeasuredProfile,
}
COLUMNS: Final = (
    "kind",
    *dict.fromkeys(field.key for fields in FIELDS.values() for field in fields),
)
"""Every column of the table form."""
