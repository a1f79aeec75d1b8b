"""The table of a build sheet's fields against the keys that a build file knows."""

from loftwright.domain.sheet_fields import FIELDS, MADE
from loftwright.domain.sheet_kinds import SMALL_PARTS, Block, Holds
from loftwright.intake.build_keys import ERROR_KEYS, KEYS, TOLERANCE_KEYS

UNITS = {
    "_g": Holds.MASS,
    "_inch": Holds.LENGTH,
    "_mm": Holds.SMALL,
    "_kgcm2": Holds.INERTIA,
    "_deg": Holds.ANGLE,
    "_cpm": Holds.CYCLES,
}


def known_keys() -> set[str]:
    tables = {table: keys for table, keys in KEYS.items() if table not in {"", "parts"}}
    tables |= {"tolerance": tuple(TOLERANCE_KEYS), "u95": tuple(ERROR_KEYS)}
    found = {f"{table}.{key}" for table, keys in tables.items() for key in keys}
    return found | {
        f"parts.{part}.{key}" for part in SMALL_PARTS for key in KEYS["parts"] if key != "name"
    }


def test_every_key_of_a_build_file_has_a_field_and_no_other() -> None:
    assert {name for name, one in FIELDS.items() if one.is_key} == known_keys()


def test_a_field_s_unit_is_that_of_its_name() -> None:
    for name, one in FIELDS.items():
        for suffix, holds in UNITS.items():
            if name.endswith(suffix) and not name.endswith("uses_46_inch"):
                assert one.kind is holds, name


def test_every_block_has_fields_and_every_pick_its_choices() -> None:
    assert {one.block for one in FIELDS.values()} == set(Block)
    for one in FIELDS.values():
        assert bool(one.choices) is (one.kind is Holds.PICK), one.name


def test_what_is_made_is_no_key_of_a_build_file() -> None:
    assert not set(MADE) & known_keys()
    assert set(MADE.values()) <= set(FIELDS)
