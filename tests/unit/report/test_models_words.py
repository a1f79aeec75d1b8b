"""Sentences on models say what can be told apart, and rank nothing."""

from itertools import product

import pytest

from loftwright.report.models_words import ModelTold, model_told, models_told

APART = {"From the same swing": ["Spin", "Launch"], "As golfers swung it": []}
NOT: dict[str, list[str]] = {"From the same swing": [], "As golfers swung it": []}


def models(*apart: bool) -> list[ModelTold]:
    return [
        ModelTold(name=name, apart=APART if one else NOT)
        for name, one in zip(("Reed", "Sedge", "Tule"), apart, strict=False)
    ]


@pytest.mark.parametrize(
    ("apart", "said"),
    [
        ((False,), "This shaft cannot be told apart from Rush."),
        ((False, False), "None of these 2 shafts can be told apart from Rush."),
        ((True,), "Reed can be told apart from Rush."),
        ((True, True, True), "Reed, Sedge and Tule can be told apart from Rush."),
        ((True, False, False), "Reed can be told apart from Rush; Sedge and Tule cannot."),
    ],
)
def test_the_sentence_over_all_models(apart: tuple[bool, ...], said: str) -> None:
    assert models_told(models(*apart), "Rush", "shaft") == said


def test_a_model_says_in_what_and_which_way() -> None:
    reed, sedge = models(True, False)
    assert model_told(reed, "Rush") == (
        "Reed can be told apart from the same swing in spin and launch. In all else it cannot."
    )
    assert model_told(sedge, "Rush") == "Sedge cannot be told apart from Rush."


def test_no_sentence_says_which_is_ahead() -> None:
    for apart in product((True, False), repeat=3):
        said = models_told(models(*apart), "Rush", "shaft").lower()
        assert not any(word in said for word in ("best", "better", "longest", "more", "most"))
