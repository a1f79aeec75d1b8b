"""How a comparison came about, in words that tell of no one."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from typing import Final

from loftwright import __version__
from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.report.numbers import count, listed
from loftwright.report.publish import Publication
from loftwright.report.screen_numbers import Show
from loftwright.services.belongings import SPEEDS
from loftwright.services.measuring import measured
from loftwright.services.publishable import measured_by_all, surroundings
from loftwright.services.published_content import Content, ModelLine
from loftwright.services.publishing import NOT_KNOWN, device_class
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.shop.published_figures import STANDARD_SWINGS, Figure
from loftwright.shop.publishing import Cell, Chosen, Question


class Obtained(StrEnum):
    """How the shop came by the samples."""

    BOUGHT = "bought by the shop"
    LENT = "lent by the maker"
    GIVEN = "given by the maker"
    MIXED = "some bought, some lent or given by the maker"


class Paid(StrEnum):
    """Who paid for the comparison."""

    NOBODY = "nobody paid for it"
    MAKER = "a maker of what is compared paid for it"
    OTHER = "somebody else paid for it"


class Order(StrEnum):
    """In which order models stand; never by what was found."""

    NAME = "by name"
    REFERENCE = "the reference first, then by name"


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """What a person says of a comparison.

    Attributes
    ----------
    obtained : Obtained
    paid : Paid
    order : Order
    note : str
        One line under the picture; may be empty.
    """

    obtained: Obtained = Obtained.BOUGHT
    paid: Paid = Paid.NOBODY
    order: Order = Order.NAME
    note: str = ""


_THINGS: Final = {"shaft": "shafts", "head": "heads"}
_RANGES: Final = (
    "dot: best estimate; band: 80 in 100; line: 95 in 100, over golfers and samples; hollow: "
    "cannot be told apart from the reference; each for itself: of twenty that do not differ, "
    "one may look as if it did"
)


def made_content(
    studio: Studio,
    question: Question,
    chosen: Chosen,
    figures: Sequence[Figure],
    making: Making,
    names: Mapping[str, str],
) -> Content:
    """Return all that leaves the shop.

    Parameters
    ----------
    studio : Studio
    question : Question
    chosen : Chosen
        Without refusals.
    figures : sequence of Figure
        By models' ids.
    making : Making
        With a checked note.
    names : mapping of str to str
        Models in words, by id.
    """
    settings = read_settings(studio).settings
    show = show_of(settings)
    cells = sorted(chosen.cells, key=lambda cell: names[cell.model].casefold())
    if making.order is Order.REFERENCE:
        cells.sort(key=lambda cell: cell.model != question.reference)
    lines = [_line(cell, names[cell.model], question.reference) for cell in cells]
    told: dict[str, list[Figure]] = {cell.model: [] for cell in cells}
    for figure in figures:
        told[figure.model].append(replace(figure, model=names[figure.model]))
    who = golfers_words(question.golfers, show)
    return Content(
        title=f"{_THINGS[question.kind].capitalize()} against {names[question.reference]}, {who}",
        kind=question.kind,
        models=tuple(lines),
        figures=tuple(figure for cell in cells for figure in told[cell.model]),
        block=_block(studio, question, chosen, lines, making),
        note=making.note,
        units=settings.units,
        decimal=settings.decimal,
    )


def golfers_words(speed: str, show: Show) -> str:
    """Return which golfers are meant: all of them, or those of one speed."""
    (slow, _), (fast, _) = SPEEDS
    if not speed:
        return "golfers of any speed"
    if speed == "slow":
        return f"golfers under {show.speed(slow)} of head speed"
    if speed == "fast":
        return f"golfers of {show.speed(fast)} of head speed and more"
    if speed == "middle":
        return f"golfers from {show.speed(slow)} to {show.speed(fast)} of head speed"
    raise InputError(
        f"no golfers are called {speed!r}", place="golfers", mend="Choose slow, middle or fast."
    )


def quarters(days: Sequence[date]) -> str:
    """Return when days were, no finer than a quarter of a year."""
    if not days:
        return NOT_KNOWN
    told = dict.fromkeys(f"quarter {(day.month + 2) // 3} of {day.year}" for day in sorted(days))
    first, last = next(iter(told)), next(reversed(told))
    return first if first == last else f"{first} to {last}"


def _line(cell: Cell, name: str, reference: str) -> ModelLine:
    return ModelLine(
        name=name,
        golfers=cell.golfers,
        fittings=cell.fittings,
        balls=max(10, 10 * round(cell.balls / 10)),
        samples=cell.samples,
        reference=cell.model == reference,
    )


def _block(
    studio: Studio,
    question: Question,
    chosen: Chosen,
    lines: Sequence[ModelLine],
    making: Making,
) -> Publication:
    around = surroundings(studio, chosen)
    show = show_of(read_settings(studio).settings)
    single = [line.name for line in lines if line.samples == 1]
    samples = (
        f"{count(sum(line.samples for line in lines), 'sample')} of "
        f"{count(len(lines), 'model')}, {making.obtained}; about "
        f"{sum(line.balls for line in lines)} balls"
    )
    if single:
        samples += f"; one sample only of {listed(tuple(single))}: it may be that sample's"
    beside = "head" if question.kind == "shaft" else "shaft"
    speed = show.speed(float(STANDARD_SWINGS[question.golfers][0]))
    obtained = (
        f"in fittings, sets of clubs shuffled, strikes marked on the face; in each fitting the "
        f"same {beside} and sleeve setting and one device, lengths as built; every golfer counts "
        f"once; {_bench(studio, question, chosen)}; totals flown from a drive at {speed} of head "
        f"speed at the {Home().name.lower()}, sea level, no wind"
    )
    return Publication(
        samples=samples,
        obtained=obtained,
        ball=listed(around.balls) or f"{NOT_KNOWN}, or of many kinds",
        device=device_class(measured_by_all(around.devices), max(2, len(around.devices))),
        golfers=f"{len(chosen.golfers)}, who agreed to this and are not named; "
        f"{golfers_words(question.golfers, show)}",
        dates=quarters(around.days),
        program=f"Loftwright {__version__}",
        ranges=_RANGES,
        funding=str(making.paid),
    )


def _bench(studio: Studio, question: Question, chosen: Chosen) -> str:
    if question.kind == "head":
        return "heads not measured on a bench"
    known = measured(studio)
    pieces = {hit.piece for hit in chosen.hits if hit.piece}
    on_bench = sum(piece in known for piece in pieces)
    if not on_bench:
        return "no shaft measured on a bench"
    return f"{on_bench} of {count(len(pieces), 'shaft')} measured on the shop’s bench"
