"""The page on the form of the shop record names every column, with its type, unit and sign."""

import pyarrow as pa

from loftwright.shop.engine import LOT
from loftwright.shop.form import ARROW, FORM, form_lines, readme
from loftwright.shop.record import COLUMNS, VERSION, table_of
from pages import ROOT
from shop_samples import a_fitting, shaft_effects

PAGE = (ROOT / "docs" / "reference" / "shop-record-format.md").read_text(encoding="utf-8")
HOWTO = (ROOT / "docs" / "howto" / "shop-record.md").read_text(encoding="utf-8")
SIDED = ("axis", "direction", "path", "face", "strike_toe", "shift_path", "shift_face")


def test_every_column_is_told_in_order_and_no_other() -> None:
    assert tuple(one.name for one in FORM) == COLUMNS
    rows = [line for line in PAGE.splitlines() if line.startswith("| `")]
    assert rows == [line for line in form_lines() if line.startswith("| `")]


def test_types_are_those_that_are_written() -> None:
    table = table_of(a_fitting(1, shaft_effects(3)))
    told = {one.name: ARROW[one.kind] for one in FORM}
    assert {field.name: str(field.type) for field in table.schema} == told
    assert table.schema.field("spin").type == pa.float64()
    assert (table.schema.metadata or {})[b"form"].decode() == f"loftwright balls {VERSION}"
    assert "`form` in the\nmetadata" in PAGE
    assert f"loftwright balls {VERSION}" in PAGE


def test_what_is_mirrored_for_a_left_hander_says_which_side_is_positive() -> None:
    right = table_of(a_fitting(1, shaft_effects(3)))
    signs = {one.name: one.sign for one in FORM}
    assert all(signs[name] for name in SIDED)
    assert all(one.unit for one in FORM if one.kind == "figure" and one.name != "weight")
    assert right.num_rows == 40


def test_the_page_beside_an_export_says_the_same() -> None:
    text = readme()
    for line in form_lines():
        assert line in text
    assert "not agreed to be published" in text


def test_the_size_of_a_lot_is_that_of_the_program() -> None:
    assert f"lots of some {LOT:,} balls" in " ".join(HOWTO.split())
