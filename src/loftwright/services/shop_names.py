"""What people call the things that clubs belong to, as the shop record knows them by their ids."""

from collections.abc import Iterator, Mapping
from typing import Final

from loftwright.constants import GRAM
from loftwright.domain.rack import Piece, Rack, ShaftModel
from loftwright.shop.levels import KINDS, model_and_kind

LEVEL_WORDS: Final[Mapping[str, str]] = {
    "head": "head",
    "family": "family",
    "generation": "generation",
    "model": "model",
    "piece": "sample",
}
"""Of everything that a club belongs to."""


def model_name(model: ShaftModel) -> str:
    """Return a model's name with what tells it from its like, without its maker."""
    generation = f"({model.generation})" if model.generation else ""
    return " ".join(part for part in (model.name, *_printed(model), generation) if part)


def _printed(model: ShaftModel) -> Iterator[str]:
    if model.paper_mass is not None:
        yield f"{model.paper_mass / GRAM:.0f}"
    yield model.paper_label


def member(rack: Rack, level: str, name: str) -> str:
    """Return what people call something that clubs belong to."""
    if level in KINDS:
        model, kind = model_and_kind(name)
        return f"{member(rack, 'model', model)}, {kind} golfers"
    if level == "model" and name in rack.shafts:
        return model_name(rack.shafts[name])
    if level == "head" and name in rack.heads:
        return rack.heads[name].name
    piece = rack.pieces.get(name)
    if level == "piece" and piece is not None:
        return _sample(rack, piece)
    return name


def _sample(rack: Rack, piece: Piece) -> str:
    model = member(rack, "model", piece.model)
    return f"{model}, {piece.label}" if piece.label else model
