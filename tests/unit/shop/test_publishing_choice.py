"""Only balls that may leave the shop stand behind what leaves it."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.errors import InputError
from loftwright.shop.publishing import (
    LEAST_GOLFERS,
    MOST_SHARE,
    Question,
    changed_since,
    choose,
    permitted,
    tells_of_few,
)
from published_samples import a_hit

TWO = Question(kind="shaft", models=("A", "B"), reference="A")


def pairs(golfers: int, **more: Any) -> list[Any]:  # noqa: ANN401 - hits
    return [a_hit(one, model, **more) for one in range(golfers) for model in ("A", "B")]


def test_five_golfers_who_hit_both_are_enough_and_four_are_not() -> None:
    assert choose(pairs(5), TWO).refusals == ()
    refused = choose(pairs(4), TWO).refusals
    assert [(one.model, one.missing) for one in refused] == [("A", 1), ("B", 1)]
    assert "4 of 5" in refused[0].why
    assert refused[0].mend


def test_a_golfer_who_did_not_agree_is_not_counted() -> None:
    kept = permitted(pairs(5), {"g0", "g1", "g2", "g3"})
    assert {hit.golfer for hit in kept} == {"g0", "g1", "g2", "g3"}
    assert choose(kept, TWO).refusals


def test_a_recalled_sample_is_in_no_figure() -> None:
    kept = permitted(pairs(6), {f"g{one}" for one in range(6)}, held={"B-1"})
    assert {hit.model for hit in kept} == {"A"}
    assert choose(kept, TWO).hits == ()


def test_a_club_that_was_hit_alone_is_compared_with_nothing() -> None:
    alone = [a_hit(9, "A"), *pairs(5)]
    assert "g9" not in choose(alone, TWO).golfers


def test_shafts_in_different_heads_are_not_compared() -> None:
    apart = [a_hit(one, "B", head=f"H{one}") for one in range(3)]
    hits = [*[hit for hit in pairs(7) if hit.golfer not in {"g0", "g1", "g2"}], *apart]
    hits += [a_hit(one, "A") for one in range(3)]
    found = choose(hits, TWO)
    assert [cell.golfers for cell in found.cells] == [4, 4]
    assert "3 more hit it" in found.refusals[0].why


def test_clubs_hit_on_different_devices_are_not_compared() -> None:
    hits = [
        a_hit(one, model, devices={f"device {model}": 10})
        for one in range(5)
        for model in ("A", "B")
    ]
    found = choose(hits, TWO)
    assert found.hits == ()
    assert "another device" in found.refusals[0].why


def test_one_golfer_behind_more_than_two_fifths_is_refused() -> None:
    hits = [*pairs(5), a_hit(5, "A"), a_hit(5, "B", balls=40)]
    refused = choose(hits, TWO).refusals
    assert [(one.model, one.missing) for one in refused] == [("B", 0)]
    assert "44 %" in refused[0].why


def test_no_figure_hangs_by_the_few_who_hit_what_lies_between() -> None:
    """Five hit C beside B and five B beside the reference, but one alone joins C to it."""
    three = Question(kind="shaft", models=("A", "B", "C"), reference="A")
    others = [a_hit(10 + one, model) for one in range(5) for model in ("B", "C")]
    joined = [a_hit(20, model) for model in ("A", "C")]
    found = choose([*pairs(5), *others, *joined], three)
    assert [(one.model, one.missing) for one in found.refusals] == [("C", 4)]
    assert "5 more hit it without the reference beside it" in found.refusals[0].why


def test_golfers_of_one_speed_are_counted_alone() -> None:
    fast = Question(kind="shaft", models=("A", "B"), reference="A", golfers="fast")
    hits = [*pairs(4, speed="fast"), *[a_hit(one, "A", speed="slow") for one in range(5, 9)]]
    assert choose(hits, fast).cells[0].golfers == 4


def test_heads_are_compared_with_the_same_shaft() -> None:
    heads = Question(kind="head", models=("H", "K"), reference="H")
    hits = [
        a_hit(one, "A", head=head, club=head, head_piece=f"{head}-1")
        for one in range(5)
        for head in ("H", "K")
    ]
    found = choose(hits, heads)
    assert found.refusals == ()
    assert [cell.samples for cell in found.cells] == [1, 1]


@pytest.mark.parametrize(
    ("told", "place"),
    [
        ({"kind": "grip"}, "kind"),
        ({"models": ("A",)}, "models"),
        ({"models": ("A", "A")}, "models"),
        ({"models": tuple("ABCDEFG")}, "models"),
        ({"reference": "C"}, "reference"),
    ],
)
def test_a_question_that_cannot_be_is_refused(told: dict[str, Any], place: str) -> None:
    usual: dict[str, Any] = {"kind": "shaft", "models": ("A", "B"), "reference": "A"}
    with pytest.raises(InputError) as caught:
        Question(**{**usual, **told})
    assert caught.value.place == place
    assert caught.value.mend


def test_two_publications_over_nearly_the_same_golfers_tell_of_the_few() -> None:
    before = {f"g{one}": "x" for one in range(8)}
    assert tells_of_few(before, before) == 0
    assert tells_of_few({**before, "g8": "x"}, before) == 1
    assert tells_of_few({**before, "g0": "y", "g1": "y"}, before) == 2
    assert tells_of_few({**before, **{f"n{one}": "x" for one in range(5)}}, before) == 0


HITS = st.lists(
    st.builds(
        a_hit,
        st.integers(0, 9),
        st.sampled_from("ABC"),
        balls=st.integers(1, 60),
        speed=st.sampled_from(["slow", "fast"]),
        head=st.sampled_from(["H", "K"]),
        devices=st.sampled_from([{"Slate": 9}, {"Flint": 9}, {"Slate": 5, "Flint": 4}]),
    ),
    max_size=60,
    unique_by=lambda hit: (hit.fitting, hit.club),
)


@given(hits=HITS, agreed=st.sets(st.sampled_from([f"g{one}" for one in range(10)])))
def test_what_is_not_refused_stands_on_enough_who_agreed(
    hits: list[Any], agreed: set[str]
) -> None:
    question = Question(kind="shaft", models=("A", "B", "C"), reference="B")
    found = choose(permitted(hits, agreed), question)
    assert set(found.golfers) <= agreed
    for fitting in {hit.fitting for hit in found.hits}:
        group = [hit for hit in found.hits if hit.fitting == fitting]
        assert len({hit.model for hit in group}) >= 2
        assert "B" in {hit.model for hit in group}
        assert len({hit.head for hit in group}) == 1
    if not found.refusals:
        for cell in found.cells:
            assert cell.golfers >= LEAST_GOLFERS
            assert cell.share <= MOST_SHARE
    assert choose(list(reversed(permitted(hits, agreed))), question) == found


@given(
    st.dictionaries(st.integers(0, 12).map(str), st.sampled_from("xy")),
    st.dictionaries(st.integers(0, 12).map(str), st.sampled_from("xy")),
)
def test_a_difference_is_told_of_none_or_of_enough(
    now: dict[str, str], before: dict[str, str]
) -> None:
    few = tells_of_few(now, before)
    assert 0 <= few < LEAST_GOLFERS
    assert (few == 0) == (changed_since(now, before) in {0, *range(LEAST_GOLFERS, 30)})
