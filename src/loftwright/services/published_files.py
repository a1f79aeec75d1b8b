"""A comparison as the files that leave the shop: picture, table and figures for programs."""

import csv
import io
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any, Final

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.table_cell import harmless
from loftwright.errors import NotFoundError
from loftwright.report.models_picture import (
    Difference,
    ModelName,
    QuantityBlock,
    models_picture,
)
from loftwright.report.models_words import ModelTold
from loftwright.report.numbers import count
from loftwright.report.publish import published_png, published_svg
from loftwright.report.screen_numbers import Show
from loftwright.services.published_content import Content, ModelLine
from loftwright.shop.published_figures import QUANTITIES, WAYS, Figure

KINDS: Final = ("png", "svg", "csv", "json")
WAY_WORDS: Final[Mapping[str, str]] = {
    "same_swing": "From the same swing",
    "as_swung": "As golfers swung it",
}
FORM: Final = "loftwright comparison 1"


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """How a quantity is written.

    Attributes
    ----------
    name : str
    less, more : str
        What negative and positive differences are.
    scale : float
        Of the unit that files carry.
    unit : str
        Of files.
    digits : int
    screen : str
        Quantity of the shop's own units; empty where these are the same everywhere.
    """

    name: str
    less: str
    more: str
    scale: float
    unit: str
    digits: int
    screen: str = ""


WRITTEN: Final[Mapping[str, Written]] = {
    "ball_speed": Written(
        name="Ball speed",
        less="slower",
        more="faster",
        scale=MILE_PER_HOUR,
        unit="mph",
        digits=1,
        screen="speed",
    ),
    "launch": Written(
        name="Launch", less="lower", more="higher", scale=DEGREE, unit="deg", digits=1
    ),
    "spin": Written(
        name="Spin", less="less", more="more", scale=REVOLUTION_PER_MINUTE, unit="rpm", digits=0
    ),
    "axis": Written(
        name="Spin axis", less="curves back", more="away", scale=DEGREE, unit="deg", digits=1
    ),
    "direction": Written(
        name="Start direction", less="starts back", more="away", scale=DEGREE, unit="deg", digits=1
    ),
    "total": Written(
        name="Total, flown",
        less="shorter",
        more="longer",
        scale=YARD,
        unit="yd",
        digits=1,
        screen="distance",
    ),
}
"""By quantity; back and away are as the golfer sees it, whichever hand."""


def picture_of(content: Content, *, prefix: str = "models") -> str:
    """Return a comparison's picture."""
    names = [
        ModelName(name=line.name, note=behind_words(line), reference=line.reference)
        for line in content.models
    ]
    blocks = [_block(content, quantity) for quantity in QUANTITIES]
    return models_picture(
        names,
        blocks,
        ways=(WAY_WORDS["same_swing"], WAY_WORDS["as_swung"]),
        title=content.title,
        show=content.show,
        note=content.note,
        prefix=prefix,
    )


def file_of(content: Content, kind: str) -> bytes:
    """Return a comparison as a file that may leave the shop.

    Parameters
    ----------
    content : Content
    kind : {"png", "svg", "csv", "json"}

    Raises
    ------
    NotFoundError
        If there is no such kind.
    """
    if kind == "svg":
        return published_svg(picture_of(content), content.block).encode()
    if kind == "png":
        return published_png(picture_of(content), content.block)
    if kind == "csv":
        return _csv(content).encode()
    if kind == "json":
        return (json.dumps(record_of(content), ensure_ascii=False, indent=1) + "\n").encode()
    raise NotFoundError(
        f"there is no comparison.{kind}", place="kind", mend=f"Ask for {', '.join(KINDS)}."
    )


def behind_words(line: ModelLine) -> str:
    """Return what stands behind a model, in words."""
    return f"{count(line.golfers, 'golfer')}, {count(line.samples, 'sample')}"


def told_models(content: Content) -> tuple[ModelTold, ...]:
    """Return in what each model but the reference can be told from it."""
    return tuple(
        ModelTold(
            name=line.name,
            apart={
                words: [
                    WRITTEN[one.quantity].name for one in content.of(line.name, way) if one.apart
                ]
                for way, words in WAY_WORDS.items()
            },
        )
        for line in content.models
        if not line.reference
    )


def unit_of(quantity: str, show: Show) -> tuple[float, str]:
    """Return the scale and name of the unit in which a shop writes a quantity."""
    written = WRITTEN[quantity]
    if written.screen:
        unit = show.unit(written.screen)
        return unit.scale, unit.name
    return written.scale, "\N{DEGREE SIGN}" if written.unit == "deg" else written.unit


def difference_of(figure: Figure, show: Show) -> Difference:
    """Return a figure in the shop's own units."""
    scale, _ = unit_of(figure.quantity, show)
    return Difference(
        best=figure.best / scale,
        likely=(figure.likely[0] / scale, figure.likely[1] / scale),
        wide=(figure.wide[0] / scale, figure.wide[1] / scale),
    )


def _block(content: Content, quantity: str) -> QuantityBlock:
    written, show = WRITTEN[quantity], content.show
    found = {(one.model, one.way): one for one in content.figures if one.quantity == quantity}
    return QuantityBlock(
        name=written.name,
        unit=f"against the reference, {unit_of(quantity, show)[1]}",
        less=written.less,
        more=written.more,
        digits=written.digits,
        ways=tuple(
            tuple(
                None if line.reference else difference_of(found[line.name, way], show)
                for line in content.models
            )
            for way in WAYS
        ),
    )


_COLUMNS: Final = (
    *("model", "reference", "swing", "quantity", "unit", "difference"),
    *("low_80", "high_80", "low_95", "high_95", "told_apart"),
    *("golfers", "fittings", "balls_about", "samples", "how"),
)


def _rows(content: Content) -> list[dict[str, Any]]:
    lines = {line.name: line for line in content.models}
    return [
        {
            "model": one.model,
            "reference": content.reference,
            "swing": one.way,
            "quantity": one.quantity,
            "unit": WRITTEN[one.quantity].unit,
            "difference": _in_unit(one, one.best),
            "low_80": _in_unit(one, one.likely[0]),
            "high_80": _in_unit(one, one.likely[1]),
            "low_95": _in_unit(one, one.wide[0]),
            "high_95": _in_unit(one, one.wide[1]),
            "told_apart": "yes" if one.apart else "no",
            "golfers": lines[one.model].golfers,
            "fittings": lines[one.model].fittings,
            "balls_about": lines[one.model].balls,
            "samples": lines[one.model].samples,
        }
        for one in content.figures
    ]


def _in_unit(figure: Figure, value: float) -> float:
    written = WRITTEN[figure.quantity]
    return round(value / written.scale, written.digits) + 0.0


def _csv(content: Content) -> str:
    text = io.StringIO()
    writer = csv.DictWriter(text, _COLUMNS, lineterminator="\n")
    writer.writeheader()
    how = "; ".join(f"{name}: {told}" for name, told in _told(content))
    for row in _rows(content):
        writer.writerow({name: _as_text(value) for name, value in (row | {"how": how}).items()})
    return text.getvalue()


def _as_text(value: Any) -> Any:  # noqa: ANN401 - a cell is a word or a number
    """Return a cell that no table program takes for a formula."""
    return harmless(value) if isinstance(value, str) else value


def record_of(content: Content) -> dict[str, Any]:
    """Return a comparison as programs read it."""
    return {
        "form": FORM,
        "title": content.title,
        "kind": content.kind,
        "reference": content.reference,
        "figures": _rows(content),
        "how": dict(_told(content)),
    }


def _told(content: Content) -> Sequence[tuple[str, str]]:
    block = [
        (field.name, str(getattr(content.block, field.name)))
        for field in fields(content.block)
        if getattr(content.block, field.name) is not None
    ]
    return [*block, *([("note", content.note)] if content.note else [])]
