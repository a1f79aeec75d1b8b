"""A build sheet as rows: its fields, departures, changes and cautions, in the shop's units."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from loftwright.constants import (
    DEGREE,
    GRAM,
    INCH,
    MILLIMETRE,
)
from loftwright.domain.cautions import Caution, Work, cautions_for
from loftwright.domain.sheet_acts import Deviated
from loftwright.domain.sheet_fields import FIELDS, MADE
from loftwright.domain.sheet_kinds import FIGURES, Block, Holds
from loftwright.physics.build.solve import Answer
from loftwright.report.numbers import NONE
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_words import (
    BLOCK_WORDS,
    MADE_WORDS,
    cut_length,
    swingweight_text,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockShown:
    """A block of the sheet: name and text of each field."""

    title: str
    note: str
    rows: tuple[tuple[str, str], ...]


def field_text(name: str, text: str, show: Show) -> str:
    """Return what stands in a field in the shop's units; empty for nothing.

    Parameters
    ----------
    name : str
        Of `FIELDS` or of `MADE`.
    text : str
        As a sheet keeps it.
    show : Show
    """
    known = FIELDS[MADE.get(name, name)]
    if not text:
        return ""
    if known.kind in FIGURES:
        return figure_shown(known.kind, float(text), show)
    if known.kind is Holds.TICK:
        return "yes"
    if known.kind is Holds.PICK:
        return dict(known.choices).get(text, text)
    return show.words(text) if known.kind is Holds.POINTS else text


def figure_shown(holds: Holds, value: float, show: Show) -> str:
    """Return a figure in the unit of its kind as people of the shop read it."""
    shown: dict[Holds, Callable[[], str]] = {
        Holds.MASS: lambda: show.mass(value * GRAM, 1),
        Holds.LENGTH: lambda: cut_length(value * INCH, show),
        Holds.SMALL: lambda: show.mark(value * MILLIMETRE, 1),
        Holds.ANGLE: lambda: show.angle(value * DEGREE),
        Holds.INERTIA: lambda: f"{show.number(value, 1)} kg cm²",
        Holds.CYCLES: lambda: f"{show.number(value, 1)} cpm",
        Holds.POINTS: lambda: swingweight_text(value, show),
    }
    return shown[holds]() if holds in shown else show.number(value, 1)


def blocks(draft: Mapping[str, str], show: Show, *, blanks: str = "") -> tuple[BlockShown, ...]:
    """Return a sheet block by block.

    Parameters
    ----------
    draft : mapping of str to str
        By field, as a sheet keeps it.
    show : Show
    blanks : str
        What stands for an empty field; without it such a field is left out.
    """
    found = []
    for block in Block:
        rows = tuple(
            (name_of(one.name), field_text(one.name, draft.get(one.name, ""), show) or blanks)
            for one in FIELDS.values()
            if one.block is block and (draft.get(one.name) or blanks)
        )
        if rows:
            title, note = BLOCK_WORDS[block]
            found.append(BlockShown(title=title, note=note, rows=rows))
    return tuple(found)


def name_of(name: str) -> str:
    """Return what a field is called; a tick ends without its question."""
    return MADE_WORDS.get(name) or FIELDS[name].words


def departure_rows(
    departures: tuple[Deviated, ...], show: Show
) -> tuple[tuple[str, str, str, str], ...]:
    """Return what was built otherwise: what, on the sheet, as built, why."""
    return tuple(
        (
            name_of(one.key),
            field_text(one.key, one.sheet, show) or NONE,
            field_text(one.key, one.built, show) or NONE,
            one.why,
        )
        for one in departures
    )


def changed_rows(
    before: Mapping[str, str], after: Mapping[str, str], show: Show
) -> tuple[tuple[str, str, str], ...]:
    """Return which fields two revisions differ in: what, before, after."""
    return tuple(
        (
            f"{BLOCK_WORDS[one.block][0]}: {one.words}",
            field_text(name, before.get(name, ""), show) or NONE,
            field_text(name, after.get(name, ""), show) or NONE,
        )
        for name, one in FIELDS.items()
        if before.get(name, "") != after.get(name, "")
    )


def cautions_of(draft: Mapping[str, str], answer: Answer, show: Show) -> tuple[Caution, ...]:
    """Return the cautions that these parts and cuts ask for."""
    cuts = answer.cuts
    glued = draft.get("bond", "glued") == "glued"
    asked = cautions_for(
        Work(
            carbon=draft.get("material", "carbon") == "carbon",
            cut=cuts is not None and (cuts.butt_cut > 0.0 or cuts.tip_trim > 0.0),
            glued=glued,
            pulled=draft.get("condition") == "pulled",
            ground=draft.get("bore_work") == "ground",
            screwed=bool(draft.get("setting") or draft.get("parts.screw.mass_g")),
            by_solvent=draft.get("grip_by") == "solvent",
            on_bench=bool(draft.get("target.frequency_cpm")),
            weighted=bool(
                (answer.head_added or 0.0) > 0.0
                or (answer.butt_added or 0.0) > 0.0
                or draft.get("parts.plug.mass_g")
            ),
        )
    )
    return tuple(
        replace(one, says=show.words(one.says), basis=show.words(one.basis)) for one in asked
    )
