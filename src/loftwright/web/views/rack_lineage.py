"""Models in words: whom they replace, what is on the shelf, and where their family is."""

from collections.abc import Mapping
from urllib.parse import quote

from loftwright.domain.lineage import Model, replaced_by
from loftwright.domain.rack import HeadModel, Piece, Rack, ShaftModel
from loftwright.report.numbers import listed
from loftwright.report.screen_numbers import Show
from loftwright.web.views.rack_rows import Choice, own_parts


def model_words(model: HeadModel | ShaftModel) -> str:
    """Return a model's name with what tells it from its like."""
    printed = model.paper_label if isinstance(model, ShaftModel) else ""
    generation = f"({model.generation})" if model.generation else ""
    return " ".join(part for part in (model.maker, model.name, printed, generation) if part)


def sample_words(rack: Rack, piece: Piece) -> str:
    """Return a shaft's sample with what tells it from its like, short, without its maker."""
    model = rack.shafts[piece.model]
    words = " ".join(part for part in (model.name, model.paper_label) if part)
    generation = f" ({model.generation})" if model.generation else ""
    mark = f", {piece.label}" if piece.label and piece.label != model.name else ""
    return f"{words}{generation}{mark}"


def model_choices(
    rack: Rack, models: Mapping[str, HeadModel] | Mapping[str, ShaftModel], besides: str = ""
) -> tuple[Choice, ...]:
    """Return the shop's models to choose from, without one."""
    mine = {rack.pieces[piece].model for piece in own_parts(rack)}
    return tuple(
        Choice(value=one.id, text=model_words(one))
        for one in models.values()
        if one.id not in mine and one.id != besides
    )


def line_words(models: Mapping[str, Model], model: Model) -> str:
    """Return whom a model replaces and by whom it was replaced; empty for neither."""
    before = models.get(model.replaces or "")
    after = [model_words(one) for one in replaced_by(models, model.id)]
    told = [f"replaces {model_words(before)}"] if before is not None else []
    told += [f"replaced by {listed(after)}"] if after else []
    text = ", ".join(told)
    return f"{text[:1].upper()}{text[1:]}." if text else ""


def model_values(model: HeadModel | ShaftModel, show: Show) -> dict[str, str]:
    """Return what the form's fields of a model hold, besides what is printed on it."""
    return {
        "family": model.family,
        "replaces": model.replaces or "",
        "stock": "" if model.stock is None else str(model.stock),
        "new_price": "" if model.price is None else show.money(model.price, ""),
    }


def stock_words(model: HeadModel | ShaftModel, show: Show, currency: str) -> str:
    """Return how many new ones there are and what one costs; empty where nobody said."""
    told = [] if model.stock is None else [f"{model.stock} new in stock"]
    told += [] if model.price is None else [show.money(model.price, currency)]
    return ", ".join(told)


def family_path(model: HeadModel | ShaftModel) -> str:
    """Return the address of a shaft's family; empty without one."""
    return f"/rack/families/{quote(model.family, safe='')}" if _has_page(model) else ""


def _has_page(model: HeadModel | ShaftModel) -> bool:
    return isinstance(model, ShaftModel) and bool(model.family)
