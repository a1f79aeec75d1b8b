"""What would stand in a row of bench readings without its slip."""

from collections.abc import Callable

from loftwright.constants import GRAM, MILLIMETRE
from loftwright.physics.bench.readings import Cantilever, Frequency, Reading, ThreePoint, Torque
from loftwright.physics.bench.slips import Mend, Slip
from loftwright.physics.shaft.mount import Mount
from loftwright.report.numbers import fixed


def meant(mend: Mend, written: Callable[[Reading, float], str]) -> str:
    """Return what would stand in a row without its slip; nothing for an unknown one.

    Parameters
    ----------
    mend : Mend
    written : callable
        Writes a figure of a reading's kind with its unit.
    """
    match mend.slip, mend.reading:
        case (Slip.SPAN, ThreePoint(span=length)) | (Slip.STATION, ThreePoint(station=length)):
            said = f"{fixed(length / MILLIMETRE, 1)} mm"
        case (
            (Slip.CLAMP, Cantilever(mount=Mount(clamp=length)))
            | (Slip.CLAMP, Frequency(mount=Mount(clamp=length)))
            | (Slip.CLAMP, Torque(clamp=length))
        ):
            said = f"{fixed(length / MILLIMETRE, 1)} mm"
        case Slip.WEIGHT, Frequency(weight=weight):
            said = f"{fixed(weight.mass / GRAM, 1)} g"
        case Slip.UNIT, (ThreePoint(force=force) | Cantilever(force=force)) as reading:
            said = f"{fixed(force, 1)} N, {written(reading, reading.value)}"
        case Slip.UNIT, Torque(moment=moment):
            said = f"{fixed(moment, 3)} N m"
        case _, None:
            said = ""
        case _, reading:
            said = written(reading, reading.value)
    return said
