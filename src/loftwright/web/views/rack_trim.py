"""What a cut, build-up or another butt would do to a shaft, before, after and apart."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM
from loftwright.domain.bench_figures import USUAL, BenchFigures, SetUp
from loftwright.domain.sections import Section
from loftwright.domain.shaft_preview import Preview, Trims
from loftwright.domain.shaft_shape import TWIST, WEIGHT, WEIGHT_ALONG
from loftwright.physics.bench.piece import Estimate
from loftwright.report.likeness_words import NOT_MEASURED, NOT_SEEN
from loftwright.report.numbers import NONE, count, listed
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.report.trim_picture import trim_picture

_NINE_IN_TEN: Final = 1.645
NOTHING: Final = Trims()


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimRow:
    """One figure of a shaft, before, after and their difference, each with its range.

    Attributes
    ----------
    under : str
        The set-up that the figure means nothing without.
    """

    name: str
    under: str
    before: tuple[str, str]
    after: tuple[str, str]
    change: tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimView:
    """The page of a preview.

    Attributes
    ----------
    measured : bool
        Whether the shaft has a profile that stands; without one there is nothing else.
    asked : bool
        Whether anything would be done to it; else there is no after.
    """

    sentence: str
    lead: str
    name: str
    measured: bool
    asked: bool = False
    picture: str = ""
    rows: tuple[TrimRow, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Quantity:
    """How a figure of the bench is written."""

    scale: float
    unit: str
    digits: int
    apart: int


def not_measured_view(name: str) -> TrimView:
    """Return the page of a shaft that nobody measured."""
    return TrimView(
        sentence=f"{name} is not measured: what a cut does to it cannot be said.",
        lead="It takes a profile: a dozen readings along it on the bench, or one typed in.",
        name=name,
        measured=False,
    )


def trim_view(name: str, trims: Trims, found: Preview, show: Show) -> TrimView:
    """Return the page of a preview.

    Parameters
    ----------
    name : str
        Of the shaft.
    trims : Trims
    found : Preview
    show : Show
    """
    asked = trims != NOTHING
    under = {one: _section_change(found, one, show)[0] for one in Section} if asked else {}
    drawn = trim_picture(found.before.length, trims, found.set_up.clamp, under, name=name)
    return TrimView(
        sentence=_sentence(name, trims, found, show),
        lead=_lead(trims, found),
        name=name,
        measured=True,
        asked=asked,
        picture=for_screen(drawn),
        rows=(*_sections(found, show), *_whole(found, show)),
    )


def _sentence(name: str, trims: Trims, found: Preview, show: Show) -> str:
    set_up = set_up_words(found.set_up, show)
    swings = found.before.frequency
    if trims == NOTHING:
        if swings is None:
            return f"{name} as it is: not weighed, so its frequency is not known."
        return f"{name} as it is swings at {_cpm(swings.value, show)} cpm ({set_up})."
    done = _done_words(trims, show)
    if trims.tip == trims.butt == 0.0 and trims.butt_diameter is None:
        adds = "adds" if trims.wraps == 1 else "add"
        return f"{done} {adds} {_diameter(found.added, show)} in the hand and no stiffness."
    change, after = found.change.frequency, found.after.frequency
    if change is None or swings is None or after is None:
        return f"{done}: it was not weighed, so what the frequency does is not told."
    apart = show.signed(change.value / CYCLE_PER_MINUTE)
    before, then = _cpm(swings.value, show), _cpm(after.value, show)
    return f"{done}: {apart} cpm, {before} to {then} ({set_up})."


def _done_words(trims: Trims, show: Show) -> str:
    done = []
    if trims.tip > 0.0:
        done.append(f"{show.length(trims.tip)} off the tip")
    if trims.butt > 0.0:
        done.append(f"{show.length(trims.butt)} off the butt")
    if trims.butt_diameter is not None:
        done.append(f"a butt of {_diameter(trims.butt_diameter, show)}")
    if trims.wraps > 0:
        done.append(f"{count(trims.wraps, 'wrap')} of {show.mark(trims.tape, 2)} tape")
    text = "all of it together" if len(done) > 2 else listed(done)
    return f"{text[:1].upper()}{text[1:]}"


def _lead(trims: Trims, found: Preview) -> str:
    """Return the one thing that a careful fitter would object."""
    if trims.tip > 0.0 and Section.TIP not in found.before.bending:
        return "Its tip is not seen: what the cut does there is not said, and the rest is unsure."
    if trims.butt_diameter is not None:
        return (
            "Taken as the same wall, material and lay-up, larger to 300 mm and fading to 400 mm: "
            "a judgement, not a measurement."
        )
    if trims.wraps > 0:
        return (
            "Build-up copies the size in the hand, not the stiffness; its weight is not counted."
        )
    if found.assumed:
        return f"Not measured, so not told: {listed(_lacking(found.assumed))}."
    return "Nothing is cut by looking; a shaft that was cut is measured again."


def _lacking(assumed: tuple[str, ...]) -> list[str]:
    lacks = {
        TWIST: "torque",
        WEIGHT: "frequency, weight and balance point",
        WEIGHT_ALONG: "balance point",
    }
    return [lacks[one] for one in assumed if one in lacks]


def set_up_words(set_up: SetUp, show: Show) -> str:
    """Return the set-up of a frequency: ``5.00 in clamp, 205 g``."""
    return f"{show.length(set_up.clamp)} clamp, {show.mass(set_up.weight)}"


def usual_values(show: Show) -> Mapping[str, str]:
    """Return what the fields of the set-up hold before anything is typed."""
    return {
        "clamp": show.typed("length", USUAL.clamp),
        "weight": show.typed("mass", USUAL.weight),
    }


def _sections(found: Preview, show: Show) -> tuple[TrimRow, ...]:
    stiffness = _Quantity(scale=1.0, unit="N m²", digits=1, apart=1)
    return tuple(
        TrimRow(
            name=f"EI, {one.value}",
            under="",
            before=_level(found.before.bending.get(one), stiffness, show, NOT_SEEN),
            after=_level(found.after.bending.get(one), stiffness, show, NOT_SEEN),
            change=_section_change(found, one, show),
        )
        for one in Section
    )


def _section_change(found: Preview, section: Section, show: Show) -> tuple[str, str]:
    """Return how much stiffer a section would be in per cent, with its range."""
    change, before = found.change.bending.get(section), found.before.bending.get(section)
    if change is None or before is None:
        return NOT_SEEN, ""
    share = 100.0 / before.value
    best, half = change.value * share, _NINE_IN_TEN * change.spread * share
    text = f"{show.signed(best)} %"
    if half < 0.05:
        return text, ""
    return text, f"{show.signed(best - half)} to {show.signed(best + half)}"


def _whole(found: Preview, show: Show) -> tuple[TrimRow, ...]:
    set_up, length = found.set_up, show.unit("length")
    inches = length.digits > 0
    apart = 2 if inches else 1
    quantities: tuple[tuple[str, str, str, _Quantity], ...] = (
        (
            "Frequency",
            f"{set_up_words(set_up, show)} on the tip",
            "frequency",
            _Quantity(scale=CYCLE_PER_MINUTE, unit="cpm", digits=0, apart=1),
        ),
        (
            "Torque",
            f"1 lbf ft, from the clamp to {show.length(set_up.reach)} before the tip",
            "torque",
            _Quantity(scale=DEGREE, unit="°", digits=2, apart=2),
        ),
        ("Weight", "", "mass", _Quantity(scale=GRAM, unit="g", digits=1, apart=1)),
        (
            "Balance point",
            "from the butt that is left",
            "balance",
            _Quantity(scale=length.scale, unit=length.name, digits=length.digits, apart=apart),
        ),
    )
    rows = [
        _row(name, under, getter, quantity, found, show)
        for name, under, getter, quantity in quantities
    ]
    return (*rows, _length_row(found, show), _hand_row(found, show))


def _row(
    name: str, under: str, getter: str, quantity: _Quantity, found: Preview, show: Show
) -> TrimRow:
    def of(figures: BenchFigures) -> Estimate | None:
        estimate: Estimate | None = getattr(figures, getter)
        return estimate

    return TrimRow(
        name=name,
        under=under,
        before=_level(of(found.before), quantity, show, NOT_MEASURED),
        after=_level(of(found.after), quantity, show, NOT_MEASURED),
        change=_apart(of(found.change), quantity, show),
    )


def _level(
    told: Estimate | None, quantity: _Quantity, show: Show, without: str
) -> tuple[str, str]:
    if told is None:
        return without, ""
    best, half = told.value / quantity.scale, _NINE_IN_TEN * told.spread / quantity.scale
    text = _with_unit(show.number(best, quantity.digits), quantity.unit)
    if half < 0.5 * 10.0**-quantity.digits:
        return text, ""
    low, high = (show.number(best + side * half, quantity.digits) for side in (-1.0, 1.0))
    return text, f"{low} to {high}"


def _apart(told: Estimate | None, quantity: _Quantity, show: Show) -> tuple[str, str]:
    if told is None:
        return NONE, ""
    best, half = told.value / quantity.scale, _NINE_IN_TEN * told.spread / quantity.scale
    text = _with_unit(show.signed(best, quantity.apart), quantity.unit)
    if half < 0.5 * 10.0**-quantity.apart:
        return text, ""
    low, high = (show.signed(best + side * half, quantity.apart) for side in (-1.0, 1.0))
    return text, f"{low} to {high}"


def _length_row(found: Preview, show: Show) -> TrimRow:
    return TrimRow(
        name="Length",
        under="",
        before=(show.length(found.before.length), ""),
        after=(show.length(found.after.length), ""),
        change=(show.length_apart(found.change.length), ""),
    )


def _hand_row(found: Preview, show: Show) -> TrimRow:
    was, becomes = found.hand, found.hand_after
    unit = show.unit("length")
    change = NONE
    if was is not None and becomes is not None:
        change = f"{show.signed((becomes - was) / unit.scale, _fine(show))} {unit.name}"
    elif found.added > 0.0:
        change = f"{show.signed(found.added / unit.scale, _fine(show))} {unit.name} of tape"
    return TrimRow(
        name="Diameter in the hand",
        under="at the butt end, over the tape, without the grip",
        before=(NOT_MEASURED if was is None else _diameter(was, show), ""),
        after=(NOT_MEASURED if becomes is None else _diameter(becomes, show), ""),
        change=(change, ""),
    )


def _cpm(value: float, show: Show) -> str:
    return show.number(value / CYCLE_PER_MINUTE)


def _fine(show: Show) -> int:
    """Return how many decimals a diameter has: thousandths of an inch, hundredths of a mm."""
    return 3 if show.unit("length").digits else 2


def _diameter(value: float, show: Show) -> str:
    unit = show.unit("length")
    return f"{show.number(value / unit.scale, _fine(show))} {unit.name}"


def _with_unit(figure: str, unit: str) -> str:
    return f"{figure}{unit}" if unit == "°" else f"{figure} {unit}"
