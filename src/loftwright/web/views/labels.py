"""Labels of pieces: what each says, and the table to choose from."""

from collections.abc import Sequence
from dataclasses import dataclass

from loftwright.domain.piece_code import code_of
from loftwright.domain.rack import Piece, Rack, State
from loftwright.report.numbers import count
from loftwright.report.piece_labels import PieceLabel
from loftwright.report.screen_numbers import Show
from loftwright.web.views.rack_rows import head_words, own_parts, shaft_words, state_words


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelRow:
    """One part in the table."""

    id: str
    words: str
    code: str
    place: str
    state: str
    ticked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelsView:
    """The page of labels."""

    sentence: str
    lead: str
    rows: tuple[LabelRow, ...]


def labels_view(rack: Rack, chosen: frozenset[str], show: Show) -> LabelsView:
    """Return the page of labels.

    Parameters
    ----------
    rack : Rack
    chosen : frozenset of str
        Parts that are ticked; every part that may be hit without any.
    show : Show
    """
    pieces = _pieces(rack)
    ticked = chosen or {one.id for one in pieces if one.state is State.READY}
    rows = tuple(
        LabelRow(
            id=one.id,
            words=_words(rack, one, show),
            code=code_of(one.id),
            place=one.place,
            state=state_words(one),
            ticked=one.id in ticked,
        )
        for one in pieces
    )
    number = sum(row.ticked for row in rows)
    if not rows:
        return LabelsView(
            sentence="There is nothing to label: the rack is empty.",
            lead="Add a head or a shaft first.",
            rows=(),
        )
    sheets = -(-number // 24)
    return LabelsView(
        sentence=f"{count(number, 'label')} fit on {count(sheets, 'sheet')} of A4.",
        lead="Cut along the dots. The rack’s page opens a part by its code, scanned or typed.",
        rows=rows,
    )


def labels_of(rack: Rack, asked: Sequence[str], show: Show) -> list[PieceLabel]:
    """Return the labels of these parts, or of every part that may be hit without any."""
    pieces = [rack.pieces[one] for one in asked] or [
        one for one in _pieces(rack) if one.state is State.READY
    ]
    return [_label(rack, one, show) for one in pieces]


def _label(rack: Rack, piece: Piece, show: Show) -> PieceLabel:
    head, shaft = rack.heads.get(piece.model), rack.shafts.get(piece.model)
    facts = [show.mass(piece.mass, 1)] if piece.mass is not None else []
    name = ""
    if head is not None:
        name = f"{head.name} {show.angle(head.loft)}"
        facts += [f"{head.hand.value}-handed", head.system, head.maker]
    if shaft is not None:
        name = f"{shaft.name} {shaft.paper_label}".strip()
        facts += [rack.sleeves[piece.sleeve].name if piece.sleeve else "", shaft.maker]
    return PieceLabel(
        piece=piece.id,
        name=name,
        mark=piece.label,
        facts=", ".join(part for part in facts if part),
    )


def _pieces(rack: Rack) -> list[Piece]:
    own = own_parts(rack)
    return [one for one in rack.pieces.values() if one.id not in own]


def _words(rack: Rack, piece: Piece, show: Show) -> str:
    return head_words(rack, piece, show) if piece.model in rack.heads else shaft_words(rack, piece)
