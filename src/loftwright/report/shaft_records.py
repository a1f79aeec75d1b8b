"""Measured shafts as JSON: one place for the keys of `loftwright shaft`.

An `sd` is one standard deviation, of EI and GJ in N m^2, the bench's common scale error in it.
A figure that nobody measured is null; its reason stands among the warnings.
"""

from collections.abc import Sequence

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, MILLIMETRE
from loftwright.domain.bench_figures import USUAL, BenchFigures, SetUp
from loftwright.domain.read_figures import read_figures
from loftwright.domain.sections import Section
from loftwright.physics.bench.measure import Measured
from loftwright.physics.bench.piece import Estimate, Field, Piece
from loftwright.physics.bench.readings import Mass, Torque
from loftwright.report.bench_many import many_record
from loftwright.report.bench_words import UNITS, doubt_records, shaft_warnings
from loftwright.report.records import Record, rounded


def shaft_record(measured: Measured, lines: Sequence[int], *, whole: bool = True) -> Record:
    """Return a measured shaft with the keys of `loftwright shaft bench`.

    Parameters
    ----------
    measured : Measured
    lines : sequence of int
        The row of the file each reading stands on.
    whole : bool
        Whether its length is known.
    """
    piece = measured.piece
    return {
        "length_mm": rounded(piece.length, MILLIMETRE) if whole else None,
        "told_to_mm": rounded(piece.length, MILLIMETRE),
        "stations": station_records(measured, piece),
        **figures_record(read_figures(measured, USUAL, whole=whole), USUAL),
        "readings": [
            {
                "row": line,
                "unit": UNITS[type(one.reading)].name,
                "read": rounded(one.reading.value, UNITS[type(one.reading)].size),
                "predicted": rounded(one.predicted, UNITS[type(one.reading)].size),
                "residual_sigmas": rounded(one.residual),
                "surprise": rounded(one.surprise),
            }
            for line, one in zip(lines, measured.agreements, strict=True)
        ],
        "doubts": [
            {**told, "without_it": _without(measured)} for told in doubt_records(measured, lines)
        ],
        "doubts_of_many_rows": [
            {**told, "without_it": _without(measured) if told["undone"] else None}
            for told in many_record(measured, lines)
        ],
        "warnings": shaft_warnings(measured, whole=whole),
    }


def station_records(measured: Measured, piece: Piece) -> list[Record]:
    """Return EI, GJ and line density of a piece along it; what was not read says so.

    Parameters
    ----------
    measured : Measured
        Says what was twisted and weighed at all.
    piece : Piece
    """
    kinds = {type(one.reading) for one in measured.agreements}
    return [
        {
            "mm": rounded(float(station), MILLIMETRE),
            "ei_nm2": rounded(float(piece.bending.values[at])),
            "sd": rounded(_sd(piece.bending, at)),
            **({} if piece.bending.seen[at] else {"read": False}),
            **_twist(piece.torsion, at, twisted=Torque in kinds),
            "line_density_g_per_m": (
                rounded(float(piece.line_density[at]), GRAM) if Mass in kinds else None
            ),
        }
        for at, station in enumerate(piece.stations)
    ]


def figures_record(figures: BenchFigures, set_up: SetUp) -> Record:
    """Return figures of a whole shaft, those that need a set-up with it.

    Parameters
    ----------
    figures : BenchFigures
    set_up : SetUp
    """
    length = figures.length
    return {
        "sections": sections_record(figures),
        **with_sd("frequency_cpm", figures.frequency, CYCLE_PER_MINUTE),
        "frequency_set_up": {
            "clamp_mm": rounded(set_up.clamp, MILLIMETRE),
            "tip_mass_g": rounded(set_up.weight, GRAM),
            "free_length_mm": rounded(set_up.free_length(length), MILLIMETRE),
        },
        **with_sd("torque_deg", figures.torque, DEGREE),
        "torque_set_up": {
            "moment_nm": rounded(set_up.moment),
            "clamp_mm": rounded(set_up.clamp, MILLIMETRE),
            "gauge_length_mm": rounded(set_up.gauge_length(length), MILLIMETRE),
        },
        **with_sd("mass_g", figures.mass, GRAM),
        **with_sd("balance_mm", figures.balance, MILLIMETRE),
    }


def sections_record(figures: BenchFigures) -> Record:
    """Return the mean of EI of each section; null where most of it was not seen."""
    return {
        key_of(section): None
        if told is None
        else {"ei_nm2": rounded(told.value), "sd": rounded(told.spread)}
        for section, told in ((one, figures.bending.get(one)) for one in Section)
    }


def with_sd(key: str, told: Estimate | None, unit: float) -> Record:
    """Return a figure and one standard deviation of it, both null where there is none."""
    return {
        key: None if told is None else rounded(told.value, unit),
        f"{key}_sd": None if told is None else rounded(told.spread, unit),
    }


def key_of(section: Section) -> str:
    """Return the key of a section: `upper_middle`."""
    return section.value.replace(" ", "_")


def _without(measured: Measured) -> Record | None:
    """Return the shaft from the readings that are not doubted."""
    piece = measured.without
    if piece is None:
        return None
    return {"stations": station_records(measured, piece)}


def _twist(field: Field, at: int, *, twisted: bool) -> Record:
    if not twisted:
        return {"gj_nm2": None, "gj_sd": None}
    told: Record = {
        "gj_nm2": rounded(float(field.values[at])),
        "gj_sd": rounded(_sd(field, at)),
    }
    return told if field.seen[at] else told | {"gj_read": False}


def _sd(field: Field, at: int) -> float:
    return float(field.values[at] * field.spread[at])
