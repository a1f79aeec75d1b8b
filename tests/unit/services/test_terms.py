"""The shop's terms come back as they were kept."""

import pytest

from loftwright.constants import GRAM, INCH
from loftwright.domain.order import PriceKind
from loftwright.domain.terms import Adhesive, CalibrationClub, ListedPrice, Terms
from loftwright.domain.tolerances import Tolerances
from loftwright.errors import ConflictError, InputError
from loftwright.services.terms import change_terms, read_terms
from studios import studio_in_memory

TERMS = Terms(
    prices=(ListedPrice(what="Grip, cord", kind=PriceKind.PART, price=1450, usual=True),),
    tax=0.2,
    deposit=0.5,
    builder="Quill and Daughter",
    cannot=("tip trim",),
    adhesives=(Adhesive(name="Slow two-part", hours=24.0),),
    tolerances=Tolerances(mass=1.5 * GRAM),
    calibration=CalibrationClub(mass=0.3156, balance=33.5 * INCH, reads=32.0),
)


def test_terms_come_back_as_they_were_kept() -> None:
    studio = studio_in_memory()
    assert read_terms(studio).terms == Terms()
    version = change_terms(studio, TERMS, version=0)
    found = read_terms(studio)
    assert found.terms == TERMS
    assert found.version == version


def test_terms_from_an_old_page_are_refused() -> None:
    studio = studio_in_memory()
    change_terms(studio, TERMS, version=0)
    with pytest.raises(ConflictError):
        change_terms(studio, Terms(), version=0)


@pytest.mark.parametrize(
    ("field", "value"), [("tax", 1.01), ("deposit", -0.1), ("lead_days", 731), ("valid_days", -1)]
)
def test_terms_that_cannot_be_are_refused_by_name(field: str, value: float) -> None:
    with pytest.raises(InputError) as refused:
        Terms(**{field: value})  # type: ignore[arg-type]
    assert refused.value.place == field


@pytest.mark.parametrize("hours", [0.0, 241.0])
def test_a_glue_cures_within_ten_days(hours: float) -> None:
    with pytest.raises(InputError, match="hours of cure"):
        Adhesive(name="Slow", hours=hours)
