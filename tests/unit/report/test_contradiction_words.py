"""Where fittings say otherwise than is said of a shaft, in a sentence."""

import pytest

from loftwright.constants import DEGREE, REVOLUTION_PER_MINUTE
from loftwright.report.contradiction_words import contradiction_words
from loftwright.report.screen_numbers import TRADE, Show

LAUNCH = (0.6 * DEGREE, 0.35 * DEGREE, 0.85 * DEGREE)
SPIN = tuple(rpm * REVOLUTION_PER_MINUTE for rpm in (180.0, 100.0, 260.0))


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("label", "Its label says low spin; 12 fittings say spin +180 rpm (+100 to +260) against"),
        (
            "stiffness",
            "Its label, low spin, is the stiffer one, yet it gives more spin, +180 rpm (+100 to "
            "+260), than Heron 60 regular; 12 fittings.",
        ),
        ("sample", "This sample differs from the others of its model: spin +180 rpm"),
        ("physics", "Bench and physics expect otherwise: spin +180 rpm (+100 to +260) beyond"),
    ],
)
def test_a_contradiction_names_claim_size_and_fittings(kind: str, words: str) -> None:
    mean, low, high = SPIN
    told = contradiction_words(
        kind, "spin", (mean, low, high), 12, TRADE, claim="low spin", against="Heron 60 regular"
    )
    assert words in told
    assert "12 fittings" in told


def test_it_speaks_with_the_shop_s_decimal_mark() -> None:
    metric = Show(units="metric", decimal="comma")
    told = contradiction_words("label", "launch", LAUNCH, 1, metric, claim="low launch")
    assert told == (
        "Its label says low launch; 1 fitting says launch +0,6° (+0,3 to +0,8) against the other "
        "shafts."
    )
