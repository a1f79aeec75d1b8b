"""Labels say what is printed on them and no more."""

import pytest

from loftwright.shop.label_words import said_by, stiffness_by


@pytest.mark.parametrize(
    ("label", "said"),
    [
        ("low launch", {("launch", -1)}),
        ("60 S, high launch / low spin", {("launch", 1), ("spin", -1)}),
        ("Low-Spin", {("spin", -1)}),
        ("lower launch", {("launch", -1)}),
        ("mid launch", set()),
        ("mid-high launch", set()),
        ("low mid launch", set()),
        ("light", set()),
        ("", set()),
    ],
)
def test_a_label_claims_less_or_more(label: str, said: set[tuple[str, int]]) -> None:
    assert {(one.response, one.sign) for one in said_by(label)} == said


@pytest.mark.parametrize(
    ("label", "step"),
    [
        ("L", 0),
        ("Senior", 1),
        ("65 R", 2),
        ("stiff", 3),
        ("60-S", 3),
        ("Extra stiff", 4),
        ("extra-stiff", 4),
        ("60 X", 4),
        ("R/S", None),
        ("light", None),
        ("", None),
    ],
)
def test_a_label_says_how_stiff_it_is_or_nothing(label: str, step: int | None) -> None:
    assert stiffness_by(label) == step
