"""Big levers first: what a club tries against the own one."""

import pytest

from loftwright.bay.levers import Build, Lever, tried
from loftwright.constants import DEGREE, GRAM, INCH

OWN = Build(length=45.5 * INCH, loft=9.5 * DEGREE, head="h1", shaft="s1", shaft_mass=65 * GRAM)


@pytest.mark.parametrize(
    ("build", "lever"),
    [
        (
            Build(
                length=45.0 * INCH, loft=10.5 * DEGREE, head="h1", shaft="s2", shaft_mass=55 * GRAM
            ),
            Lever.LENGTH,
        ),
        (
            Build(
                length=45.5 * INCH, loft=10.5 * DEGREE, head="h2", shaft="s1", shaft_mass=65 * GRAM
            ),
            Lever.LOFT,
        ),
        (
            Build(
                length=45.5 * INCH, loft=9.5 * DEGREE, head="h2", shaft="s2", shaft_mass=55 * GRAM
            ),
            Lever.HEAD,
        ),
        (
            Build(
                length=45.5 * INCH, loft=9.5 * DEGREE, head="h1", shaft="s2", shaft_mass=55 * GRAM
            ),
            Lever.WEIGHT,
        ),
        (
            Build(
                length=45.5 * INCH, loft=9.5 * DEGREE, head="h1", shaft="s2", shaft_mass=66 * GRAM
            ),
            Lever.SHAFT,
        ),
        (OWN, Lever.NOTHING),
    ],
)
def test_the_first_lever_that_differs_names_what_is_tried(build: Build, lever: Lever) -> None:
    assert tried(build, OWN).lever is lever


def test_a_weight_nobody_knows_is_no_lever() -> None:
    unknown = Build(length=45.5 * INCH, loft=9.5 * DEGREE, head="h1", shaft="s2", shaft_mass=None)
    assert tried(unknown, OWN).levers == (Lever.SHAFT,)
    assert tried(unknown, OWN).weight == 0.0


def test_without_an_own_club_nothing_can_be_said_to_be_tried() -> None:
    assert tried(OWN, None).lever is Lever.NOTHING
