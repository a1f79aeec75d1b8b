"""A value that is not a number is refused where it is made, with the place and the mend."""

from dataclasses import replace
from math import nan

import pytest

from loftwright.constants import MILLIMETRE
from loftwright.domain.fitting import Mark
from loftwright.domain.home import Hole, Home, Trouble
from loftwright.errors import InputError


@pytest.mark.parametrize(
    "mark",
    [
        {"toe": nan, "high": 0.0},
        {"toe": 0.0, "high": nan},
        {"toe": 0.0, "high": 0.0, "error": nan},
        {"toe": 81.0 * MILLIMETRE, "high": 0.0},
        {"toe": 0.0, "high": -81.0 * MILLIMETRE},
    ],
)
def test_a_mark_beside_the_head_is_none(mark: dict[str, float]) -> None:
    with pytest.raises(InputError) as refused:
        Mark(**mark)  # type: ignore[arg-type]
    assert refused.value.place in {"mark", "error"}
    assert refused.value.mend


@pytest.mark.parametrize(
    "name", ["wind_along", "wind_across", "temperature", "altitude", "humidity"]
)
def test_air_that_is_no_number_is_refused(name: str) -> None:
    with pytest.raises(InputError) as refused:
        replace(Home(), **{name: nan})  # type: ignore[arg-type]
    assert refused.value.mend


def test_trouble_at_no_number_is_refused() -> None:
    with pytest.raises(InputError, match="trouble"):
        Hole(trouble=Trouble.RIGHT, trouble_from=nan)
