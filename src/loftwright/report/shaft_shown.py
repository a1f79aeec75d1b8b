"""A measured shaft, its frequency and its trims, in words and in keys."""

from collections.abc import Sequence
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, MILLIMETRE
from loftwright.domain.bench_figures import BenchFigures, SetUp
from loftwright.domain.profile import SEEN, MeasuredProfile
from loftwright.domain.sections import Section
from loftwright.domain.shaft_preview import Preview
from loftwright.physics.bench.piece import Estimate
from loftwright.report.layout import facts, notes, paragraph, table
from loftwright.report.numbers import NONE, fixed, listed, signed
from loftwright.report.records import Record, rounded
from loftwright.report.shaft_records import figures_record, sections_record, with_sd
from loftwright.report.shaft_words import (
    NOT_MEASURED,
    SAYS_NO_PART,
    figure_rows,
    millimetres,
    missing,
    ranged,
    swung,
    twisted,
    unseen,
)

TAPE_COPIES: Final = (
    "Build-up copies the size in the hand, not the stiffness; the weight of the tape is not "
    "counted."
)
LARGER_BUTT: Final = (
    "Another butt is that of another shaft: the same tube at equal wall, larger to 300 mm from "
    "the butt and fading out at 400 mm."
)


def show_record(
    name: str, measured: MeasuredProfile, figures: BenchFigures, set_up: SetUp, said: Sequence[str]
) -> Record:
    """Return a measured shaft with the keys of `loftwright shaft show`.

    Parameters
    ----------
    name : str
    measured : MeasuredProfile
    figures : BenchFigures
    set_up : SetUp
    said : sequence of str
        What else to mind.
    """
    return {
        "shaft": name,
        "bench": measured.bench,
        "day": measured.day.isoformat(),
        "conditions": measured.conditions,
        "length_mm": rounded(measured.length, MILLIMETRE),
        "stations": [
            {
                "mm": rounded(float(measured.station[at]), MILLIMETRE),
                "ei_nm2": rounded(float(measured.bending[at])),
                "sd": rounded(_sd(measured, at)),
                **({} if _read(measured, at) else {"read": False}),
            }
            for at in range(measured.station.size)
        ],
        **figures_record(figures, set_up),
        "warnings": [*said, *shown_warnings(figures)],
    }


def show_lines(
    name: str, measured: MeasuredProfile, figures: BenchFigures, set_up: SetUp, said: Sequence[str]
) -> list[str]:
    """Return a measured shaft in words: what it is by section, then its figures.

    Parameters
    ----------
    name : str
    measured : MeasuredProfile
    figures : BenchFigures
    set_up : SetUp
    said : sequence of str
        What else to mind.
    """
    cells = [[one.value, _section(figures.bending.get(one))] for one in Section]
    seen = [one for one in Section if one in figures.bending]
    told = f"EI is read in {listed([f'the {one.value}' for one in seen])}" if seen else ""
    answer = f"{name}, {millimetres(measured.length)}: {told or 'no section of it was read'}."
    where = [("Bench", f"{measured.bench}, {measured.day.isoformat()}")]
    return [
        *paragraph(answer),
        "",
        *table(["Section", "mean EI, N m² (nine in ten)"], cells, left=(0, 1)),
        "",
        *facts([*figure_rows(figures, set_up), *where]),
        *notes([*said, *shown_warnings(figures)]),
    ]


def frequency_record(
    name: str, figures: BenchFigures, set_up: SetUp, said: Sequence[str]
) -> Record:
    """Return a frequency with the keys of `loftwright shaft frequency`.

    Parameters
    ----------
    name : str
    figures : BenchFigures
    set_up : SetUp
    said : sequence of str
        What else to mind.
    """
    whole = figures_record(figures, set_up)
    keys = ("frequency_cpm", "frequency_cpm_sd", "frequency_set_up")
    return {
        "shaft": name,
        **{key: whole[key] for key in keys},
        "warnings": [*said, *frequency_warnings(figures)],
    }


def frequency_lines(
    name: str, figures: BenchFigures, set_up: SetUp, said: Sequence[str]
) -> list[str]:
    """Return a frequency in words, never without its set-up.

    Parameters
    ----------
    name : str
    figures : BenchFigures
    set_up : SetUp
    said : sequence of str
        What else to mind.
    """
    set_so = swung(set_up, figures.length)
    told = ranged(figures.frequency, CYCLE_PER_MINUTE, "cpm")
    answer = (
        f"{name}: no frequency can be told."
        if figures.frequency is None
        else f"{name} swings at {told}: {set_so}."
    )
    return [*paragraph(answer), *notes([*said, *frequency_warnings(figures)])]


def trim_record(name: str, found: Preview, said: Sequence[str]) -> Record:
    """Return a preview with the keys of `loftwright shaft trim`.

    Parameters
    ----------
    name : str
    found : Preview
    said : sequence of str
        What else to mind.
    """
    return {
        "shaft": name,
        "before": _side(found.before, found.set_up, found.hand),
        "after": _side(found.after, found.set_up, found.hand_after),
        "change": {
            "length_mm": rounded(found.change.length, MILLIMETRE),
            "sections": sections_record(found.change),
            **with_sd("frequency_cpm", found.change.frequency, CYCLE_PER_MINUTE),
            **with_sd("torque_deg", found.change.torque, DEGREE),
            **with_sd("mass_g", found.change.mass, GRAM),
            **with_sd("balance_mm", found.change.balance, MILLIMETRE),
            "hand_mm": rounded(_hand_change(found), MILLIMETRE),
        },
        "warnings": [*said, *trim_warnings(found)],
    }


def trim_lines(name: str, found: Preview, said: Sequence[str]) -> list[str]:
    """Return a preview in words: what changes most, then before, after and the difference.

    Parameters
    ----------
    name : str
    found : Preview
    said : sequence of str
        What else to mind.
    """
    rows = [
        _row("Frequency, cpm", found, "frequency", CYCLE_PER_MINUTE, 1),
        _row("Torque, deg", found, "torque", DEGREE, 2),
        _row("Weight, g", found, "mass", GRAM, 1),
        _row("Balance from the butt, mm", found, "balance", MILLIMETRE, 1),
    ]
    for one in Section:
        sides = [side.bending.get(one) for side in (found.before, found.after, found.change)]
        rows.append(_cells(f"EI {one.value}, N m²", sides, 1.0, 1))
    hand, thicker = (found.hand, found.hand_after), _hand_change(found)
    rows.append(
        [
            "Diameter in the hand, mm",
            *(NOT_MEASURED if one is None else fixed(one / MILLIMETRE, 2) for one in hand),
            NONE if thicker is None else signed(thicker / MILLIMETRE, 2),
            "",
        ]
    )
    after = found.after.length
    set_so = [
        ("Frequency before", swung(found.set_up, found.before.length)),
        ("Frequency after", swung(found.set_up, after)),
        ("Torque before", twisted(found.set_up, found.before.length)),
        ("Torque after", twisted(found.set_up, after)),
    ]
    return [
        *paragraph(_answer(name, found)),
        "",
        *table(["", "before", "after", "change", "noise"], rows),
        "",
        *facts(set_so),
        *notes([*said, *trim_warnings(found)]),
    ]


def shown_warnings(figures: BenchFigures) -> list[str]:
    """Return what was not measured and what was not seen."""
    lost = unseen([one for one in Section if one not in figures.bending])
    return [*missing(figures), *([lost] if lost else [])]


def frequency_warnings(figures: BenchFigures) -> list[str]:
    """Return why a frequency is not told, and what it cannot tell."""
    reasons = missing(figures) if figures.frequency is None else []
    lost = unseen([one for one in Section if one not in figures.bending])
    return [*reasons[:1], *([lost] if lost else []), SAYS_NO_PART]


def trim_warnings(found: Preview) -> list[str]:
    """Return what was not measured, and what a build does not do."""
    said = shown_warnings(found.before)
    gone = [
        one for one in Section if one in found.before.bending and one not in found.after.bending
    ]
    if gone:
        said.append(f"Nothing is left of {listed([f'the {one.value}' for one in gone])}.")
    if found.added > 0.0:
        said.append(TAPE_COPIES)
    if found.wider:
        said.append(LARGER_BUTT)
    return said


def _answer(name: str, found: Preview) -> str:
    change = found.change.frequency
    length = millimetres(found.after.length)
    if change is None:
        return f"{name} would be {length} long; its frequency is not told."
    if abs(change.value) < 0.05 * CYCLE_PER_MINUTE:
        return f"{name} would be {length} long and swing as before."
    cycles = fixed(abs(change.value) / CYCLE_PER_MINUTE, 1)
    how = "faster" if change.value > 0.0 else "slower"
    noise = fixed(change.spread / CYCLE_PER_MINUTE, 1)
    return f"{name} would be {length} long and swing {cycles} cpm {how}; noise {noise} cpm."


def _row(label: str, found: Preview, figure: str, unit: float, digits: int) -> list[str]:
    sides = [getattr(side, figure) for side in (found.before, found.after, found.change)]
    return _cells(label, sides, unit, digits)


def _cells(label: str, sides: list[Estimate | None], unit: float, digits: int) -> list[str]:
    """Return before, after, their difference and its noise as words of a table."""
    *both, change = sides
    words = [NOT_MEASURED if one is None else fixed(one.value / unit, digits) for one in both]
    if change is None:
        return [label, *words, NONE, ""]
    value, noise = change.value / unit, change.spread / unit
    return [label, *words, signed(value, digits), fixed(noise, digits)]


def _hand_change(found: Preview) -> float | None:
    """Return by how much the diameter in the hand changes; what tape adds is always known."""
    if found.hand is not None and found.hand_after is not None:
        return found.hand_after - found.hand
    return found.added if found.added > 0.0 else None


def _side(figures: BenchFigures, set_up: SetUp, hand: float | None) -> Record:
    return {
        "length_mm": rounded(figures.length, MILLIMETRE),
        **figures_record(figures, set_up),
        "hand_mm": rounded(hand, MILLIMETRE),
    }


def _section(told: Estimate | None) -> str:
    return "not seen" if told is None else ranged(told, 1.0, "", 1).replace("  ", " ")


def _sd(measured: MeasuredProfile, at: int) -> float:
    shared = measured.scale_error * float(measured.bending[at])
    return float((float(measured.bending_error[at]) ** 2 + shared**2) ** 0.5)


def _read(measured: MeasuredProfile, at: int) -> bool:
    return bool(measured.bending_error[at] <= SEEN * measured.bending[at])
