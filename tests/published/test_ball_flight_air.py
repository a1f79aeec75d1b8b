"""The standard atmosphere and its air.

Sources: ICAO Doc 7488 (ISO 2533:1975), pressures and the density at sea level; U.S. Standard
Atmosphere 1976, viscosity at sea level. Status: from memory. The density formula is CIPM-2007
(Picard, Davis, Glaeser and Fujii 2008), whose constants were read in several stored programs.
"""

import pytest

from loftwright.physics.air import air_viscosity, moist_air_density, standard_pressure


@pytest.mark.parametrize(
    ("altitude", "pressure"),
    [(0.0, 101_325.0), (1000.0, 89_874.6), (2000.0, 79_495.2), (3000.0, 70_108.5)],
)
def test_pressure_of_the_standard_atmosphere(altitude: float, pressure: float) -> None:
    assert standard_pressure(altitude) == pytest.approx(pressure, abs=1.0)


def test_density_of_dry_standard_air() -> None:
    """The standard atmosphere is an ideal gas; the measured gas is heavier by 0.04 %."""
    assert moist_air_density(288.15, 101_325.0, 0.0) == pytest.approx(1.2250, rel=6e-4)


def test_viscosity_of_standard_air() -> None:
    assert air_viscosity(288.15) == pytest.approx(1.7894e-5, abs=5.1e-10)
