"""The air a ball flies through: its density and its viscosity.

References
----------
Picard, Davis, Glaeser and Fujii 2008, revised formula for the density of moist air (CIPM-2007),
    Metrologia 45:149-155.
ICAO 1993, Manual of the standard atmosphere, Doc 7488 (ISO 2533:1975).
Sutherland 1893, the viscosity of gases and molecular force; constants of the U.S. Standard
    Atmosphere 1976, eq. (51), from memory.
"""

import math
from dataclasses import dataclass
from typing import Final

from loftwright.errors import InputError

FREEZING_POINT: Final = 273.15
COLDEST: Final = -10.0
HOTTEST: Final = 45.0
LOWEST_ALTITUDE: Final = -500.0
HIGHEST_ALTITUDE: Final = 4000.0
LOWEST_PRESSURE: Final = 55_000.0
HIGHEST_PRESSURE: Final = 110_000.0
WIND_HEIGHT: Final = 10.0

_SEA_LEVEL_PRESSURE: Final = 101_325.0
_SEA_LEVEL_TEMPERATURE: Final = 288.15
_LAPSE_RATE: Final = 0.0065
_PRESSURE_EXPONENT: Final = 5.255876


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """Still air at one place.

    Attributes
    ----------
    density : float
        [kg m^-3]
    viscosity : float
        Dynamic viscosity [Pa s].
    pressure_altitude : float
        Height in the standard atmosphere that has this air's pressure [m].
    """

    density: float
    viscosity: float
    pressure_altitude: float = 0.0

    def __post_init__(self) -> None:
        _demand("air density", self.density, 0.5, 1.6, "kg/m3")
        _demand("air viscosity", self.viscosity, 1e-5, 3e-5, "Pa s")


def air(
    temperature: float, altitude: float, humidity: float, pressure: float | None = None
) -> Air:
    """Return the air at a place.

    Parameters
    ----------
    temperature : float
        263.15 to 318.15 [K].
    altitude : float
        Above sea level, -500 to 4000 [m]; unused when the pressure is given.
    humidity : float
        Relative, 0 to 1.
    pressure : float, optional
        As a barometer at the place reads it, not reduced to sea level [Pa].

    Returns
    -------
    Air

    Raises
    ------
    InputError
        If a value is missing or outside the range stated.
    """
    _demand("temperature", temperature - FREEZING_POINT, COLDEST, HOTTEST, "degrees Celsius")
    _demand("altitude", altitude, LOWEST_ALTITUDE, HIGHEST_ALTITUDE, "m")
    _demand("humidity", humidity, 0.0, 1.0, "as a fraction")
    if pressure is None:
        pressure = standard_pressure(altitude)
    _demand("pressure", pressure, LOWEST_PRESSURE, HIGHEST_PRESSURE, "Pa")
    return Air(
        density=moist_air_density(temperature, pressure, humidity),
        viscosity=air_viscosity(temperature),
        pressure_altitude=pressure_altitude(pressure),
    )


def standard_pressure(altitude: float) -> float:
    """Return the pressure of the standard atmosphere [Pa] at an altitude [m].

    References
    ----------
    ICAO 1993, Doc 7488, pressure in the layer of linear temperature.
    """
    warmth = 1.0 - _LAPSE_RATE * altitude / _SEA_LEVEL_TEMPERATURE
    return _SEA_LEVEL_PRESSURE * math.pow(warmth, _PRESSURE_EXPONENT)


def pressure_altitude(pressure: float) -> float:
    """Return the altitude [m] at which the standard atmosphere has a pressure [Pa]."""
    warmth = math.pow(pressure / _SEA_LEVEL_PRESSURE, 1.0 / _PRESSURE_EXPONENT)
    return (1.0 - warmth) * _SEA_LEVEL_TEMPERATURE / _LAPSE_RATE


def moist_air_density(temperature: float, pressure: float, humidity: float) -> float:
    """Return the density of moist air [kg m^-3].

    Parameters
    ----------
    temperature : float
        [K]
    pressure : float
        [Pa]
    humidity : float
        Relative, 0 to 1.

    Returns
    -------
    float

    Notes
    -----
    The formula is meant for 15 to 27 degrees Celsius and 600 to 1100 hPa; beyond, its error
    stays far below what a ball can tell.

    References
    ----------
    Picard et al. 2008, eq. (1) and appendix A1.
    """
    t = temperature - FREEZING_POINT
    saturation_pressure = math.exp(
        1.2378847e-5 * temperature**2
        - 1.9121316e-2 * temperature
        + 33.93711047
        - 6343.1645 / temperature
    )
    enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * t**2
    x = humidity * enhancement * saturation_pressure / pressure
    ratio = pressure / temperature
    compressibility = (
        1.0
        - ratio
        * (
            1.58123e-6
            - 2.9331e-8 * t
            + 1.1043e-10 * t**2
            + (5.707e-6 - 2.051e-8 * t) * x
            + (1.9898e-4 - 2.376e-6 * t) * x**2
        )
        + ratio**2 * (1.83e-11 - 0.765e-8 * x**2)
    )
    return 3.483740e-3 * ratio / compressibility * (1.0 - 0.3780 * x)


def air_viscosity(temperature: float) -> float:
    """Return the dynamic viscosity of air [Pa s] at a temperature [K].

    References
    ----------
    Sutherland 1893; U.S. Standard Atmosphere 1976, eq. (51), constants from memory.
    """
    return 1.458e-6 * math.pow(temperature, 1.5) / (temperature + 110.4)


def _demand(name: str, value: float, low: float, high: float, unit: str) -> None:
    if not (math.isfinite(value) and low - 1e-9 <= value <= high + 1e-9):
        raise InputError(
            f"{value:g} {unit} lies outside the flight model",
            place=name,
            mend=f"Give {low:g} to {high:g} {unit}.",
        )
