"""Readings as the cells of a bench sheet hold them."""

from loftwright.physics.bench.readings import (
    Cantilever,
    Diameter,
    Frequency,
    Reading,
    ThreePoint,
    Torque,
)
from loftwright.services.bench_sheet import Sheet, figure_text


def cells_of(sheet: Sheet, reading: Reading | Diameter) -> dict[str, str]:
    """Return the cells of a reading in the units of a sheet."""
    figures: dict[str, float]
    match reading:
        case ThreePoint():
            figures = {"station": reading.station, "span": reading.span, "load": reading.force}
            figures["deflection"] = reading.value
        case Cantilever():
            figures = {"station": reading.read_at, "clamp": reading.mount.clamp}
            figures |= {"load": reading.force, "deflection": reading.value}
        case Frequency():
            figures = {"clamp": reading.mount.clamp, "tip_mass": reading.weight.mass}
            figures["frequency"] = reading.value
        case Torque():
            figures = {"station": reading.load_at, "clamp": reading.clamp}
            figures |= {"moment": reading.moment, "twist": reading.value}
        case Diameter():
            figures = {"station": reading.station, "diameter": reading.value}
        case _:
            figures = {type(reading).__name__.casefold(): reading.value}
    return {cell: figure_text(sheet, cell, value) for cell, value in figures.items()}
