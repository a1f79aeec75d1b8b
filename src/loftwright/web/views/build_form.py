"""The form of a build sheet: its blocks and fields, and a draft that was tried."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.domain.build_sheet import SolvedBuild
from loftwright.domain.built import Checked
from loftwright.domain.order import Kept
from loftwright.domain.sheet_fields import FIELDS
from loftwright.domain.sheet_kinds import FIGURES, Block, Holds
from loftwright.report.numbers import count, listed
from loftwright.report.screen_numbers import Show
from loftwright.report.sheet_targets import (
    TargetShown,
    TradeShown,
    cut_rows,
    target_rows,
    trade_rows,
)
from loftwright.report.sheet_words import (
    BLOCK_WORDS,
    minds_of,
    obstacle_text,
    solved_sentence,
)
from loftwright.services.build_sheets import BuildNow, angles_as_set
from loftwright.web.forms import Filled
from loftwright.web.sheet_forms import unit_of
from loftwright.web.views.rack_rows import Choice

_FOLDED: Final = frozenset({Block.DRY_FIT, Block.TOLERANCES, Block.DOUBTS, Block.SCALE})
"""Blocks that are rarely touched; one with a fault stands open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldView:
    """A field of the form.

    Attributes
    ----------
    shape : {"line", "figure", "tick", "pick"}
    """

    name: str
    words: str
    shape: str
    unit: str
    hint: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FormBlock:
    """A block of the form; a folded one opens at a touch."""

    key: str
    title: str
    note: str
    fields: tuple[FieldView, ...]
    folded: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedView:
    """A draft as it was solved."""

    targets: tuple[TargetShown, ...]
    cuts: tuple[tuple[str, str], ...]
    reasons: tuple[str, ...]
    trades: list[TradeShown]
    minds: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetFormView:
    """The page on which a sheet is filled in.

    Attributes
    ----------
    wrong : tuple of (str, str)
        Fields with a fault: name, and what it is called with its block.
    """

    sentence: str
    lead: str
    revision: int
    wrong: tuple[tuple[str, str], ...]
    blocks: tuple[FormBlock, ...]
    tried: TriedView | None


def form_view(
    now: BuildNow,
    filled: Filled,
    sources: Mapping[str, str],
    show: Show,
    *,
    tried: SolvedBuild | None = None,
    draft: Mapping[str, str] | None = None,
) -> SheetFormView:
    """Return the page on which a sheet is filled in.

    Parameters
    ----------
    now : BuildNow
    filled : Filled
        As it was typed.
    sources : mapping of str to str
        Where a prefilled figure comes from, by field.
    show : Show
    tried : SolvedBuild, optional
        What the draft comes to.
    draft : mapping of str to str, optional
        That was tried.
    """
    return SheetFormView(
        sentence=_sentence(now, filled, tried, show),
        lead=_lead(now, filled, tried),
        revision=len(now.progress.issues) + 1,
        wrong=tuple(
            (name, f"{BLOCK_WORDS[one.block][0]}: {one.words}")
            for name, one in FIELDS.items()
            if name in filled.faults
        ),
        blocks=tuple(_block(one, filled, sources, show) for one in Block),
        tried=None
        if tried is None
        else _tried(tried, angles_as_set(now, dict(draft or {})), show),
    )


def _sentence(now: BuildNow, filled: Filled, tried: SolvedBuild | None, show: Show) -> str:
    if filled.faults:
        missing = sum(filled.typed.get(one, "?").strip() == "" for one in filled.faults)
        bad = len(filled.faults) - missing
        said = [f"{count(missing, 'field')} to fill in"] if missing else []
        said += [f"{count(bad, 'field')} that cannot be"] if bad else []
        return f"The sheet waits: {listed(said)}."
    if tried is not None:
        return solved_sentence(tried, show)
    if now.sheet is None and now.spec is not None and now.spec.kept is Kept.CLUB:
        turn = f": turn the sleeve to {now.spec.setting}" if now.spec.setting else ""
        return f"The own club stays{turn}; a sheet is needed only if a part of it changes."
    if now.sheet is None:
        return "No sheet yet: weigh the parts, fill in what is missing, and issue it."
    return f"Revision {now.sheet.revision} stands; this becomes revision {now.sheet.revision + 1}."


def _lead(now: BuildNow, filled: Filled, tried: SolvedBuild | None) -> str:
    if filled.faults:
        return "Nothing was lost; every field keeps what was typed."
    if tried is None and now.progress.requoted:
        return "A new quote came since; what it changes is filled in below."
    if tried is None:
        return "Targets are those of the tested club. A mass of a tested sample says so: weigh it."
    if not tried.answer.feasible:
        return "It is not issued: change a part or a target, or take a club that can be built."
    return "Not issued yet: look at the doubts beside each target first."


def _block(block: Block, filled: Filled, sources: Mapping[str, str], show: Show) -> FormBlock:
    title, note = BLOCK_WORDS[block]
    fields = tuple(
        FieldView(
            name=one.name,
            words=one.words,
            shape=_shape(one.kind),
            unit=unit_of(one.kind, show),
            hint=sources.get(one.name, one.hint),
            choices=tuple(Choice(value=value, text=text) for value, text in one.choices),
        )
        for one in FIELDS.values()
        if one.block is block
    )
    wrong = any(one.name in filled.faults for one in fields)
    return FormBlock(
        key=block.value,
        title=title,
        note=note,
        fields=fields,
        folded=block in _FOLDED and not wrong,
    )


def _shape(holds: Holds) -> str:
    if holds in FIGURES:
        return "figure"
    return {Holds.TICK: "tick", Holds.PICK: "pick"}.get(holds, "line")


def _tried(solved: SolvedBuild, angles: Mapping[Checked, float], show: Show) -> TriedView:
    answer = solved.answer
    good = answer.feasible
    return TriedView(
        targets=target_rows(solved, angles, show) if good else (),
        cuts=cut_rows(answer, solved.sheet, show) if good else (),
        reasons=tuple(obstacle_text(one, show) for one in answer.reasons),
        trades=trade_rows(solved.trades, solved, show),
        minds=tuple(minds_of(solved, show)),
    )
