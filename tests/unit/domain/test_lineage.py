"""Replaces and replaced by: one line back in time, and never a circle."""

import pytest

from loftwright.domain.lineage import check_line, forebears, generation_of, replaced_by
from loftwright.domain.rack import ShaftModel
from loftwright.errors import InputError


def line(*replaces: str | None) -> dict[str, ShaftModel]:
    """Return models s0, s1, … that replace these ids."""
    return {
        f"s{place}": ShaftModel(id=f"s{place}", maker="", name=f"Reed {place}", replaces=before)
        for place, before in enumerate(replaces)
    }


def test_a_line_is_told_backwards_and_forwards() -> None:
    models = line(None, "s0", "s1", "s0")
    assert [one.id for one in forebears(models, "s2")] == ["s1", "s0"]
    assert [one.id for one in replaced_by(models, "s0")] == ["s1", "s3"]
    assert [generation_of(models, one) for one in models] == [0, 1, 2, 1]


def test_a_model_that_is_gone_ends_the_line() -> None:
    assert forebears(line("elsewhere"), "s0") == ()


def test_a_circle_is_named_before_it_is_closed() -> None:
    models = line(None, "s0", "s1")
    closing = ShaftModel(id="s0", maker="", name="Reed 0", replaces="s2")
    with pytest.raises(InputError, match="Reed 0 would replace itself by way of Reed 2, Reed 1"):
        check_line(models, closing)


def test_a_model_replaces_only_what_the_rack_has() -> None:
    with pytest.raises(InputError, match="replaces 'h1', which the rack does not have"):
        check_line(line(None), ShaftModel(id="s9", maker="", name="Rush", replaces="h1"))
    check_line(line(None), ShaftModel(id="s9", maker="", name="Rush", replaces="s0"))


def test_a_model_cannot_replace_itself() -> None:
    with pytest.raises(InputError, match="cannot replace itself"):
        ShaftModel(id="s9", maker="", name="Rush", replaces="s9")
