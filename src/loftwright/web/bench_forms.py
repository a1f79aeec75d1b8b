"""The form of a quick check: six entries, and what is on the shaft."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from loftwright.physics.bench.handling import QuickReading
from loftwright.physics.bench.readings import Balance, Frequency, Mass
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import Dressing, Mount
from loftwright.services.bench_sheet import Sheet
from loftwright.units import parse_quantity
from loftwright.web.forms import Typed

_ON_IT: Final = ("grip_mass", "grip_length", "sleeve_mass", "sleeve_length", "sleeve_balance")
_PLACES: Final = {
    "mass of the shaft": "mass",
    "balance point": "balance",
    "weight on the end": "tip_mass",
    "grip length": "grip_length",
    "sleeve length": "sleeve_length",
    "sleeve balance": "sleeve_balance",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Quick:
    """Today's figures of a shaft."""

    readings: tuple[QuickReading, ...]
    length: float | None


def read_quick(typed: Typed, lengths: str) -> Quick | None:
    """Return a quick check as it was typed; none, and why at its field, if it cannot be.

    Parameters
    ----------
    typed : Typed
    lengths : {"mm", "in"}
        The unit of plain lengths.
    """
    sheet = Sheet(lengths=lengths)

    def figure(name: str) -> float | None:
        text = typed.text(name)
        if not text:
            return None
        return typed.tried(name, lambda: parse_quantity(text, sheet.unit(name), place=name))

    length, mass, balance = (figure(name) for name in ("length", "mass", "balance"))
    clamp, tip_mass, swung = (figure(name) for name in ("clamp", "tip_mass", "frequency"))
    on_it = {name: value for name in _ON_IT if (value := figure(name)) is not None}
    if typed.given("frequency"):
        for name in ("clamp", "tip_mass"):
            typed.text(name, need="A frequency says nothing without it.")
    if not any(typed.given(name) for name in ("mass", "balance", "frequency")):
        typed.fail("mass", "nothing was read", "Weigh it, balance it, swing it: one at least.")
    if not typed.good:
        return None
    dressing = typed.tried("grip_length", lambda: Dressing(**on_it), _PLACES)
    if dressing is None:
        return None
    made: list[Callable[[], QuickReading]] = []
    if mass is not None:
        made.append(lambda: Mass(value=mass, dressing=dressing))
    if balance is not None:
        made.append(lambda: Balance(value=balance, dressing=dressing))
    if swung is not None and clamp is not None and tip_mass is not None:
        made.append(lambda: _swung(swung, clamp, tip_mass, dressing))
    readings = typed.tried("mass", lambda: tuple(one() for one in made), _PLACES)
    return None if readings is None else Quick(readings=readings, length=length)


def _swung(value: float, clamp: float, tip_mass: float, dressing: Dressing) -> Frequency:
    mount = Mount(clamp=clamp, dressing=dressing)
    return Frequency(mount=mount, weight=TipBody(mass=tip_mass), value=value)
