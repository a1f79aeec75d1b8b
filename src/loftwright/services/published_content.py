"""What of a comparison leaves the shop: names of models, counts, rounded figures, how it came."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from loftwright.report.publish import Publication
from loftwright.report.screen_numbers import Show
from loftwright.shop.published_figures import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelLine:
    """One model and what stands behind it.

    Attributes
    ----------
    name : str
        In words; figures name it so too.
    balls : int
        To the nearest ten.
    samples : int
    """

    name: str
    golfers: int
    fittings: int
    balls: int
    samples: int
    reference: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """All that leaves the shop; there is no id, name of a person or day in it.

    Attributes
    ----------
    title : str
        Made by the program.
    kind : {"shaft", "head"}
    models : tuple of ModelLine
        In the order in which they are shown.
    figures : tuple of Figure
        Differences from the reference.
    block : Publication
    note : str
    units, decimal : str
        In which the picture is drawn.
    """

    title: str
    kind: str
    models: tuple[ModelLine, ...]
    figures: tuple[Figure, ...]
    block: Publication
    note: str = ""
    units: str = "trade"
    decimal: str = "point"

    @property
    def reference(self) -> str:
        """Name of the reference."""
        return next(model.name for model in self.models if model.reference)

    @property
    def show(self) -> Show:
        """How its figures are written."""
        return Show(units=self.units, decimal=self.decimal)

    def of(self, model: str, way: str) -> tuple[Figure, ...]:
        """Return a model's figures one way, in the order of quantities."""
        return tuple(one for one in self.figures if (one.model, one.way) == (model, way))


def content_record(content: Content) -> dict[str, Any]:
    """Return a content as JSON holds it; figures in SI."""
    return asdict(content)


def content_of(record: Mapping[str, Any]) -> Content:
    """Return a content from what JSON held."""
    return Content(
        **{
            **record,
            "models": tuple(ModelLine(**one) for one in record["models"]),
            "figures": tuple(
                Figure(**{**one, "likely": tuple(one["likely"]), "wide": tuple(one["wide"])})
                for one in record["figures"]
            ),
            "block": Publication(**record["block"]),
        }
    )
