"""Figures for a screen or sheet in the shop's own units and with its own decimal mark.

Levels carry no sign, differences always do; left and right are letters, never signs.
"""

import re
from dataclasses import dataclass
from math import isfinite
from types import MappingProxyType
from typing import Final

from loftwright.constants import (
    DEGREE,
    FOOT,
    GRAM,
    INCH,
    MILE_PER_HOUR,
    MILLIMETRE,
    REVOLUTION_PER_MINUTE,
    YARD,
)
from loftwright.report import numbers

_FAHRENHEIT: Final = 5.0 / 9.0
_FAHRENHEIT_ZERO: Final = 459.67 * _FAHRENHEIT
_CELSIUS_ZERO: Final = 273.15
_POINT: Final = re.compile(r"(?<=\d)\.(?=\d)")


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreenUnit:
    """How one quantity is written: SI = figure * scale + offset.

    Attributes
    ----------
    name : str
        As it stands behind the figure.
    typed : str
        As a form's field understands it.
    space : bool
        Whether a space parts it from the figure.
    """

    name: str
    scale: float
    digits: int
    typed: str
    offset: float = 0.0
    space: bool = True


def _unit(
    name: str, scale: float, digits: int, *, typed: str = "", offset: float = 0.0
) -> ScreenUnit:
    return ScreenUnit(
        name=name,
        scale=scale,
        digits=digits,
        typed=typed or name,
        offset=offset,
        space=name != "\N{DEGREE SIGN}",
    )


_METRE, _YARD = _unit("m", 1.0, 0), _unit("yd", YARD, 0)
_FOOT = _unit("ft", FOOT, 0)
_DEGREE = _unit("\N{DEGREE SIGN}", DEGREE, 1, typed="deg")
_GRAM = _unit("g", GRAM, 0)
_MILLIMETRE = _unit("mm", MILLIMETRE, 0)
_PERCENT = _unit("%", 0.01, 0)
_FAHRENHEIT_UNIT = _unit("°F", _FAHRENHEIT, 0, typed="degF", offset=_FAHRENHEIT_ZERO)
_CELSIUS_UNIT = _unit("°C", 1.0, 0, typed="degC", offset=_CELSIUS_ZERO)

UNITS: Final = MappingProxyType(
    {
        "trade": MappingProxyType(
            {
                "distance": _YARD,
                "speed": _unit("mph", MILE_PER_HOUR, 1),
                "wind": _unit("mph", MILE_PER_HOUR, 0),
                "height": _FOOT,
                "altitude": _FOOT,
                "temperature": _FAHRENHEIT_UNIT,
                "length": _unit("in", INCH, 2),
                "mass": _GRAM,
                "angle": _DEGREE,
                "mark": _MILLIMETRE,
                "share": _PERCENT,
            }
        ),
        "metric": MappingProxyType(
            {
                "distance": _METRE,
                "speed": _unit("m/s", 1.0, 1),
                "wind": _unit("m/s", 1.0, 1),
                "height": _METRE,
                "altitude": _METRE,
                "temperature": _CELSIUS_UNIT,
                "length": _MILLIMETRE,
                "mass": _GRAM,
                "angle": _DEGREE,
                "mark": _MILLIMETRE,
                "share": _PERCENT,
            }
        ),
    }
)
"""Every quantity of a screen in both systems; loads and angles are the same in both."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Show:
    """Writes figures in one system of units and with one decimal mark.

    Attributes
    ----------
    units : {"trade", "metric"}
    decimal : {"point", "comma"}
    """

    units: str = "trade"
    decimal: str = "point"

    def unit(self, quantity: str) -> ScreenUnit:
        """Return how a quantity is written here."""
        return UNITS[self.units][quantity]

    def number(self, value: float, digits: int = 0) -> str:
        """Return a bare figure with a true minus sign and this shop's decimal mark."""
        return self._marked(numbers.fixed(value, digits))

    def signed(self, value: float, digits: int = 1) -> str:
        """Return a bare difference: always a sign, none on zero."""
        return self._marked(numbers.signed(value, digits))

    def typed(self, quantity: str, value: float | None) -> str:
        """Return what a form's field holds for a value in SI; empty for none.

        A field keeps what was typed: enough digits to read it back, trailing zeros left out.
        """
        if value is None or not isfinite(value):
            return ""
        unit = self.unit(quantity)
        text = f"{(value - unit.offset) / unit.scale:.4f}"
        text = text.rstrip("0").rstrip(".") if "." in text else text
        return self._marked("0" if text == "-0" else text)

    def figure(self, quantity: str, value: float) -> str:
        """Return a bare figure of a quantity [SI] in this shop's unit and digits."""
        unit = self.unit(quantity)
        return self.number((value - unit.offset) / unit.scale, unit.digits)

    def apart(self, quantity: str, value: float) -> str:
        """Return a bare difference of a quantity [SI] to one decimal, with its sign."""
        return self.signed(value / self.unit(quantity).scale)

    def words(self, text: str) -> str:
        """Return a sentence of the comparison with this shop's decimal mark in its figures."""
        return _POINT.sub(",", text) if self.decimal == "comma" else text

    @property
    def lengths(self) -> str:
        """What distances are counted in, as a word: `yards` or `metres`."""
        return "metres" if self.units == "metric" else "yards"

    @property
    def one_length(self) -> str:
        """One of what distances are counted in: `a yard` or `a metre`."""
        return "a metre" if self.units == "metric" else "a yard"

    def yards(self, length: float) -> str:
        """Return a distance [m] whole, in yards or metres."""
        return self._with_unit("distance", length)

    def yards_apart(self, length: float) -> str:
        """Return a difference of distances [m] to one decimal, with its sign."""
        return f"{self.apart('distance', length)} {self.unit('distance').name}"

    def yards_range(self, low: float, high: float) -> str:
        """Return a range of a difference of distances [m] as `+0.9 to +9.9`, without a unit."""
        return f"{self.apart('distance', low)} to {self.apart('distance', high)}"

    def side(self, offset: float) -> str:
        """Return how far to the side [m], right positive, whole with L or R, without a unit."""
        whole = numbers.fixed(abs(offset) / self.unit("distance").scale)
        if whole in {"0", numbers.NONE}:
            return whole
        return f"{whole} {'R' if offset > 0.0 else 'L'}"

    def sideways(self, offset: float) -> str:
        """Return how far to the side [m], right positive, whole with unit and side in words."""
        whole = numbers.fixed(abs(offset) / self.unit("distance").scale)
        if whole == numbers.NONE:
            return whole
        side = "" if whole == "0" else " right" if offset > 0.0 else " left"
        return f"{whole} {self.unit('distance').name}{side}"

    def carry_and_run(self, carry: float, total: float) -> tuple[str, str]:
        """Return carry and run [m], whole, that add up to the total as shown, without a unit."""
        scale = self.unit("distance").scale
        carried = numbers.fixed(carry / scale)
        if not (isfinite(carry) and isfinite(total)):
            return carried, numbers.NONE
        return carried, numbers.fixed(round(total / scale) - round(carry / scale))

    def speed(self, value: float) -> str:
        """Return a speed of ball or club [m s^-1] to one decimal."""
        return self._with_unit("speed", value)

    def wind(self, value: float) -> str:
        """Return a wind speed [m s^-1]."""
        return self._with_unit("wind", value)

    def spin(self, rate: float) -> str:
        """Return a spin rate [rad s^-1] to ten revolutions a minute."""
        return self._marked(numbers.spin(rate))

    def angle(self, value: float) -> str:
        """Return an angle [rad] in degrees to one decimal."""
        return self._with_unit("angle", value)

    def angle_apart(self, value: float) -> str:
        """Return a difference of angles [rad] in degrees to one decimal, with its sign."""
        return f"{self.signed(value / DEGREE)}\N{DEGREE SIGN}"

    def height(self, value: float) -> str:
        """Return how high a ball flies [m], whole."""
        return self._with_unit("height", value)

    def altitude(self, value: float) -> str:
        """Return an altitude above the sea [m], whole."""
        return self._with_unit("altitude", value)

    def temperature(self, value: float) -> str:
        """Return a temperature [K] in whole degrees of this shop's scale."""
        return self._with_unit("temperature", value)

    def length(self, value: float) -> str:
        """Return a club's length [m]: inches to two decimals, or whole millimetres."""
        return self._with_unit("length", value)

    def length_apart(self, value: float) -> str:
        """Return a difference of lengths of clubs [m] with its sign."""
        unit = self.unit("length")
        return f"{self.signed(value / unit.scale, unit.digits)} {unit.name}"

    def mass(self, value: float, digits: int = 0) -> str:
        """Return a mass [kg] in grams."""
        return f"{self.number(value / GRAM, digits)} g"

    def mass_apart(self, value: float, digits: int = 0) -> str:
        """Return a difference of masses [kg] in grams with its sign."""
        return f"{self.signed(value / GRAM, digits)} g"

    def mark(self, value: float, digits: int = 0) -> str:
        """Return a distance on the face [m] in millimetres."""
        return f"{self.number(value / MILLIMETRE, digits)} mm"

    def turn_rate(self, rate: float) -> str:
        """Return a spin rate [rad s^-1] to ten, without its unit."""
        return self.number(round(rate / REVOLUTION_PER_MINUTE / 10.0) * 10.0)

    def money(self, amount: int, currency: str) -> str:
        """Return an amount in the smallest unit of money as units of a hundred, with its name.

        Whole amounts are written without decimals.
        """
        text = self.number(amount / 100.0, 0 if amount % 100 == 0 else 2)
        return f"{text} {currency}".strip()

    def _with_unit(self, quantity: str, value: float) -> str:
        unit, figure = self.unit(quantity), self.figure(quantity, value)
        return f"{figure} {unit.name}" if unit.space else f"{figure}{unit.name}"

    def _marked(self, text: str) -> str:
        return text.replace(".", ",") if self.decimal == "comma" else text


TRADE: Final = Show()
"""Yards, feet and inches with a decimal point, where nothing else was settled."""
