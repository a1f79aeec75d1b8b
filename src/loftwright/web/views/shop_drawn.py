"""The picture of what models do by the shop record, and what else it could be of."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.report.shop_picture import ModelRow, models_picture
from loftwright.report.shop_words import NAMES, Believed, Known, figure_words, scale_of
from loftwright.report.theme_svg import for_screen
from loftwright.web.views.evidence_pictures import Picture
from loftwright.web.views.shop_rows import heading

SAME: Final = "same"
"""Asks for figures from the same swing; else they are as golfers swing it."""
SWUNG: Final = "swung"
WAYS: Final = ((SWUNG, "As golfers swing it"), (SAME, "From the same swing"))

_OF_LAUNCH: Final = ("launch", "spin", "ball_speed", "axis", "direction")
_OF: Final = {SWUNG: (*_OF_LAUNCH, "head_speed", "toe", "high"), SAME: _OF_LAUNCH}
_MOST_DRAWN: Final = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """Something else that could be shown."""

    path: str
    words: str
    chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """The picture and what else it could be of.

    Attributes
    ----------
    under : str
        What it is of, for its margin.
    figures, ways : tuple of Option
        Of what, and how swung.
    left_out : str
        Models that found no room.
    """

    picture: Picture
    under: str
    figures: tuple[Option, ...]
    ways: tuple[Option, ...]
    left_out: str


def models_drawn(known: Sequence[Known], show: Show, figure: str, way: str) -> Drawn | None:
    """Return the picture of what models do; None of none.

    Parameters
    ----------
    known : sequence of Known
        By their names.
    show : Show
    figure : str
        Of which number; of launch if it has no picture.
    way : {"swung", "same"}
    """
    if not known:
        return None
    of = _OF[way]
    chosen = figure if figure in of else of[0]
    often = sorted(known, key=lambda one: -one.fittings)[:_MOST_DRAWN]
    told = [(one, _figure(one, chosen, way)) for one in known if one in often]
    scale, unit, _ = scale_of(chosen, show)
    drawn = models_picture(
        [_row(one, believed, scale) for one, believed in told],
        title=f"{NAMES[chosen].capitalize()} of models of shafts, with ranges",
        zero="the shop’s usual shaft",
        unit=unit,
        show=show,
    )
    words = " ".join(f"{one.name}: {figure_words(chosen, each, show)}." for one, each in told)
    left = len(known) - len(told)
    return Drawn(
        picture=Picture(heading="", svg=for_screen(drawn), words=words),
        under=f"{heading(chosen, show)}, {dict(WAYS)[way][:1].lower()}{dict(WAYS)[way][1:]}.",
        figures=tuple(
            Option(path=_path(one, way), words=NAMES[one].capitalize(), chosen=one == chosen)
            for one in of
        ),
        ways=tuple(
            Option(path=_path(chosen, one), words=words, chosen=one == way) for one, words in WAYS
        ),
        left_out=f"{count(left, 'model')} hit less often: in the table alone." if left else "",
    )


def _path(figure: str, way: str) -> str:
    return f"/shop?of={figure}&how={way}#models"


def _figure(known: Known, figure: str, way: str) -> Believed:
    return (known.same if way == SAME else known.figures)[figure]


def _row(known: Known, believed: Believed, scale: float) -> ModelRow:
    half, most = believed.half, believed.likely
    return ModelRow(
        name=known.name,
        mean=believed.mean / scale,
        half=(half[0] / scale, half[1] / scale),
        most=(most[0] / scale, most[1] / scale),
        sure=believed.sure,
        hit=known.likeness is None,
    )
