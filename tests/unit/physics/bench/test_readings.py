"""Readings that no bench reads are refused where they stand."""

from collections.abc import Callable
from dataclasses import fields

import pytest

from bench_shafts import WEIGHT
from loftwright.errors import InputError
from loftwright.physics.bench.readings import (
    Balance,
    Cantilever,
    Diameter,
    Frequency,
    Mass,
    ThreePoint,
    Torque,
    reads,
)
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import Mount

CLAMPED = Mount(clamp=0.127)


def three(**changed: float) -> ThreePoint:
    figures = {"station": 0.5, "span": 0.3, "force": 50.0, "value": 6e-4} | changed
    return ThreePoint(**figures)  # type: ignore[arg-type]


def bent(**changed: float) -> Cantilever:
    figures = {"force": 10.0, "force_at": 0.9, "read_at": 0.9, "value": 0.03} | changed
    return Cantilever(mount=CLAMPED, **figures)  # type: ignore[arg-type]


def turned(**changed: float) -> Torque:
    figures = {"clamp": 0.127, "load_at": 1.1, "moment": 1.356, "value": 0.07} | changed
    return Torque(**figures)  # type: ignore[arg-type]


REFUSED: dict[str, tuple[Callable[[], object], str]] = {
    "deflection in m": (lambda: three(value=0.6), "inches or m instead of mm"),
    "deflection too small": (lambda: three(value=4e-5), "three-point deflection"),
    "no span": (lambda: three(span=0.0), "a span of 0 mm"),
    "load in g": (lambda: three(force=5000.0), "g, kg or lb instead of N"),
    "no error": (lambda: three(sigma=0.0), "more than nothing"),
    "negative error": (lambda: bent(sigma=-0.01), "more than nothing"),
    "bend in mm": (lambda: bent(value=30.0), "inches or m instead of mm"),
    "no load": (lambda: bent(force=0.0), "outside 0.1 to 500 N"),
    "frequency in cpm": (
        lambda: Frequency(mount=CLAMPED, weight=WEIGHT, value=258.0),
        "Hz instead of cycles a minute",
    ),
    "weight in g": (
        lambda: Frequency(mount=CLAMPED, weight=TipBody(mass=205.0), value=4.3),
        "g instead of kg",
    ),
    "twist in degrees": (lambda: turned(value=4.2), "rad instead of degrees"),
    "moment in N mm": (lambda: turned(moment=1356.0), "in lb or N mm"),
    "mass in g": (lambda: Mass(value=62.0), "oz instead of g"),
    "balance in mm": (lambda: Balance(value=577.0), "inches instead of mm"),
    "diameter in inches": (lambda: Diameter(station=0.0, value=0.6), "inches instead of mm"),
    "station below the butt": (lambda: Diameter(station=-0.1, value=0.015), "nothing or more"),
}


@pytest.mark.parametrize("what", REFUSED)
def test_a_reading_that_cannot_be_is_refused(what: str) -> None:
    make, said = REFUSED[what]
    with pytest.raises(InputError, match=said):
        make()


@pytest.mark.parametrize("kind", [ThreePoint, Cantilever, Frequency, Torque])
def test_no_set_up_is_assumed(kind: type) -> None:
    """Whatever a reading depends on has no default."""
    optional = {"sigma", "typed"}
    assert {one.name for one in fields(kind) if one.default is one.default_factory} == {
        one.name for one in fields(kind)
    } - optional


def test_a_reading_can_be_read_again() -> None:
    again = reads(three(), 7e-4)
    assert (again.value, again.typed) == (7e-4, "")
