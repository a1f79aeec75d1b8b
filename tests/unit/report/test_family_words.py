"""From old to new: what the samples bear with its noise, and why the rest is refused."""

from math import log

from loftwright.domain.family import Against
from loftwright.domain.sections import Section
from loftwright.report.family_words import cell_words, changed, refusal


def told(
    share: float, margin: float | None, *, samples: int = 2, others: int = 3, noise: float = 0.012
) -> Against:
    return Against(
        log=log(1.0 + share), samples=samples, other_samples=others, noise=noise, margin=margin
    )


def test_what_is_borne_is_said_widest_first_with_each_noise() -> None:
    found = {
        Section.UPPER_MIDDLE: told(0.06, 0.04),
        Section.LOWER_MIDDLE: told(0.01, 0.04),
        Section.TIP: told(-0.09, 0.05, noise=0.04),
    }
    assert changed("Heron I", "Heron II", found) == (
        "Heron II is 9 % softer at the tip and 6 % stiffer in the upper middle than Heron I; "
        "bench noise 4 % and 1.2 %."
    )


def test_one_sample_within_the_spread_of_samples_is_refused_with_the_reason() -> None:
    found = {Section.TIP: told(-0.04, 0.13, samples=1, others=2), Section.BUTT: told(0.01, 0.13)}
    assert changed("I", "II", found) == (
        "From I to II no change is claimed: the widest, 4 % at the tip, is within what 1 sample "
        "against 2 may differ by, 13 %."
    )


def test_without_a_known_spread_nothing_is_claimed_however_large() -> None:
    found = {section: told(0.3, None) for section in Section}
    assert "no model of the family has two measured samples" in changed("I", "II", found)
    part = {Section.BUTT: told(0.01, 0.02), Section.TIP: told(0.3, None)}
    assert refusal(part) == "the spread of samples is not known at the tip"


def test_a_model_that_was_not_measured_is_said_so() -> None:
    assert changed("I", "II", {}) == (
        "From I to II nothing is said: one of the two was not measured."
    )


def test_a_cell_says_what_it_rests_on() -> None:
    assert cell_words(told(-0.05, 0.04)) == ("−5.0 %", "within 4 %; 2 against 3, noise 1.2 %")
    assert cell_words(told(0.05, None)) == (
        "+5.0 %",
        "spread not known; 2 against 3, noise 1.2 %",
    )
    assert cell_words(None) == ("–", "mostly not seen")
