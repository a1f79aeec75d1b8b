"""Build files as text: what is written is read again, and what is changed is changed alone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.constants import GRAM, INCH
from loftwright.errors import InputError, IntakeError
from loftwright.intake.build_text import (
    Value,
    read_build_text,
    read_measured_text,
    told_values,
    toml_text,
    with_changes,
)

VALUES: dict[str, Value] = {
    "target.length_inch": 45.5,
    "target.swingweight": "D2",
    "shaft.raw_length_inch": 46.0,
    "shaft.mass_g": 62.0,
    "shaft.balance_from_tip_inch": 23.5,
    "head.mass_g": 195.0,
    "head.cg_along_inch": 0.6,
    "head.cg_toe_mm": 36.0,
    "head.own_moi_kgcm2": 3.5,
    "head.to_60_plane_inch": 1.75,
    "grip.mass_g": 50.0,
    "grip.length_inch": 10.5,
    "grip.balance_inch": 4.2,
    "grip.cap_inch": 0.125,
}
PARTS: tuple[dict[str, Value], ...] = ({"name": "sleeve", "mass_g": 6.0, "from_tip_inch": -0.6},)
TEXT = toml_text(VALUES, PARTS)


def test_a_build_that_was_written_is_read_in_its_units() -> None:
    sheet = read_build_text(TEXT)
    assert sheet.target.length == pytest.approx(45.5 * INCH)
    assert sheet.parts.grip.rod.length == pytest.approx(10.5 * INCH)
    assert [part.mass for part in sheet.parts.small] == [pytest.approx(6.0 * GRAM)]


def test_a_change_changes_nothing_else() -> None:
    changed = with_changes(TEXT, {"head.mass_g": 192.0, "parts.sleeve.mass_g": 6.4})
    values, parts = told_values(changed)
    assert values == {**VALUES, "head.mass_g": 192.0}
    assert parts == ({**PARTS[0], "mass_g": 6.4},)


def test_a_change_of_a_part_that_is_not_there_names_those_that_are() -> None:
    with pytest.raises(InputError, match="no part 'ferrule'") as refused:
        with_changes(TEXT, {"parts.ferrule.mass_g": 1.0})
    assert "sleeve" in refused.value.mend


def test_a_wrong_value_is_refused_under_its_key() -> None:
    with pytest.raises(InputError) as refused:
        read_build_text(toml_text({**VALUES, "head.mass_g": "heavy"}, PARTS))
    assert "mass_g" in refused.value.place


def test_text_that_is_no_toml_is_refused() -> None:
    with pytest.raises(IntakeError, match="no TOML"):
        read_build_text("[head")


def test_measurements_are_read_from_text() -> None:
    found = read_measured_text(toml_text({"mass_g.value": 315.2, "mass_g.u95": 0.5}))
    assert [one.value for one in found.checked.values()] == [pytest.approx(315.2 * GRAM)]


TEXTS = st.text(st.characters(exclude_categories=["Cs"]))
FIGURES = st.floats(allow_nan=False, allow_infinity=False)


@given(
    values=st.dictionaries(
        st.sampled_from(["head.mass_g", "grip.cap_inch", "rules.edition"]),
        FIGURES | TEXTS | st.booleans() | st.lists(TEXTS, max_size=3),
    )
)
def test_whatever_was_written_comes_back(
    values: dict[str, Value],
) -> None:
    assert told_values(toml_text(values))[0] == values
