"""A build sheet as one table of texts by field, made from a sheet and made into one."""

from collections.abc import Mapping
from typing import Final, TypeAlias

from loftwright.domain.sheet_acts import SheetIssued
from loftwright.domain.sheet_fields import FIELDS
from loftwright.domain.sheet_kinds import FIGURES, SMALL_PARTS, Holds, SheetField
from loftwright.intake.build_text import Value, told_values, toml_text

Draft: TypeAlias = dict[str, str]
"""What stands on a sheet, by the name of its field, as `FIELDS` keeps it; nothing for empty."""

YES: Final = "yes"
WEIGH: Final = "Weigh it, to a tenth of a gram; nothing is guessed for a part."
MEASURE: Final = "Measure it; nothing is guessed for a part."


def figure_text(value: float) -> str:
    """Return a figure as a sheet keeps it: six decimals at most, no zeros behind."""
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def draft_of(build: str, fields: Mapping[str, str]) -> Draft:
    """Return a sheet as one table.

    Parameters
    ----------
    build : str
        Text of its build file.
    fields : mapping of str to str
        What stands beside it.
    """
    values, parts = told_values(build)
    draft = {name: _text(value) for name, value in values.items()}
    for part in parts:
        name = str(part.get("name", ""))
        draft |= {
            f"parts.{name}.{key}": _text(value) for key, value in part.items() if key != "name"
        }
    draft |= fields
    return {name: text for name, text in draft.items() if text}


def issued_of(draft: Mapping[str, str], why: tuple[str, ...] = ()) -> SheetIssued:
    """Return a sheet of a draft in which nothing lacks.

    Parameters
    ----------
    draft : mapping of str to str
    why : tuple of str
        One line a choice from the fitting.
    """
    values = {
        name: value_of(one, draft[name])
        for name, one in FIELDS.items()
        if one.is_key and not name.startswith("parts.") and draft.get(name)
    }
    parts = tuple(
        {
            "name": name,
            "mass_g": float(draft[f"parts.{name}.mass_g"]),
            "from_tip_inch": float(draft[f"parts.{name}.from_tip_inch"]),
        }
        for name in SMALL_PARTS
        if draft.get(f"parts.{name}.mass_g")
    )
    fields = {
        name: draft[name] for name, one in FIELDS.items() if not one.is_key and draft.get(name)
    }
    return SheetIssued(build=toml_text(values, parts), fields=fields, why=why)


def value_of(field: SheetField, text: str) -> Value:
    """Return what a build file holds for a field's text."""
    if field.kind in FIGURES:
        return float(text)
    if field.kind is Holds.TICK:
        return text == YES
    if field.kind is Holds.LIST:
        return [one.strip() for one in text.split(",") if one.strip()]
    return text


def lacking(draft: Mapping[str, str]) -> dict[str, tuple[str, str]]:
    """Return what is missing of a sheet: what to say and the mend, by field."""
    found = {
        name: (one.needed, WEIGH if one.kind is Holds.MASS else MEASURE)
        for name, one in FIELDS.items()
        if one.needed and not draft.get(name)
    }
    if "target.length_inch" in found:
        found["target.length_inch"] = (found["target.length_inch"][0], "Say how long it shall be.")
    for name in SMALL_PARTS:
        mass, place = f"parts.{name}.mass_g", f"parts.{name}.from_tip_inch"
        sleeved = name in {"sleeve", "screw"} and bool(draft.get("setting"))
        if sleeved and not draft.get(mass):
            found[mass] = (f"the mass of the {name} is missing", WEIGH)
        if draft.get(mass) and not draft.get(place):
            found[place] = (f"the place of the {name} is missing", MEASURE)
    if not draft.get("head.cg_along_inch") and not draft.get("dry_fit.mass_g"):
        found["head.cg_along_inch"] = (
            "the head's balance point along the shaft is missing",
            "Weigh and balance a dry fit and fill in its block, or give it.",
        )
    goals = ("target.swingweight", "target.mass_g", "target.club_moi_kgcm2")
    if not any(draft.get(one) for one in goals):
        found["target.swingweight"] = (
            "a target is missing",
            "Give swingweight, weight or club MOI, or two of them; those of the tested club.",
        )
    if draft.get("torque") and not draft.get("torque_source"):
        found["torque_source"] = (
            "a torque without its source means nothing",
            "Write where the head’s maker printed it.",
        )
    return found


def _text(value: object) -> str:
    if isinstance(value, bool):
        return YES if value else ""
    if isinstance(value, int | float):
        return figure_text(float(value))
    if isinstance(value, list):
        return ", ".join(str(one) for one in value)
    return str(value)
