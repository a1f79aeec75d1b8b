"""What was believed before the first ball, in words."""

import json

import pytest

from loftwright.evidence.result import PHYSICS_ALONE, Believed
from loftwright.report.belief_words import before_words, believed_record, rests_on

TAUGHT = Believed(version=3, fittings=143, physics_share=0.12)
LOST = Believed(version=3, lost=True)


def test_what_a_figure_rests_on_is_said_in_words() -> None:
    assert [rests_on(share, PHYSICS_ALONE) for share in (0.1, 0.5, 0.9)] == [
        "mostly balls",
        "half physics",
        "mostly physics",
    ]
    assert [rests_on(share, TAUGHT) for share in (0.1, 0.5, 0.9)] == [
        "mostly balls",
        "half the shop's record",
        "mostly the shop's record",
    ]


def test_a_figure_that_leans_on_belief_leans_on_physics_where_the_record_is_lost() -> None:
    assert rests_on(0.9, LOST) == "mostly physics"


@pytest.mark.parametrize(
    ("believed", "words"),
    [
        (PHYSICS_ALONE, "Believed before the first ball: physics alone."),
        (
            TAUGHT,
            "Believed before the first ball: what 143 fittings of this shop have taught "
            "(version 3, 12 % physics).",
        ),
        (
            Believed(version=1, fittings=1, physics_share=20.0 / 21.0, borrowed=True),
            "Believed before the first ball: what 1 fitting of this shop has taught "
            "(version 1, 95 % physics); slopes borrowed from other heads.",
        ),
        (
            LOST,
            "Compared by physics alone: what the shop had learned (3) cannot be read.",
        ),
    ],
)
def test_one_line_says_what_was_believed(believed: Believed, words: str) -> None:
    assert before_words(believed) == words
    assert believed_record(believed)["say"] == words


def test_a_record_holds_version_and_fittings() -> None:
    told = json.loads(json.dumps(believed_record(TAUGHT)))
    assert (told["version"], told["fittings"], told["physics_share"]) == (3, 143, 0.12)
    assert told["slopes_borrowed"] is told["lost"] is False
