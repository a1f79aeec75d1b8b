"""Cases: what a ball draws, what goes wrong, and what other seeds leave alone."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import MILE_PER_HOUR, MILLIMETRE
from loftwright.domain.golfer import Hand
from loftwright.errors import InputError
from loftwright.training.case import Case, CasePlayer, Spell, WarmUp
from loftwright.training.case_files import case_named, known_cases
from loftwright.training.golfer import HEAD_SPEED

ALWAYS_WARM = 10_000


def steady(name: str = "larkspur", **changes: object) -> Case:
    """Return a case in which nothing goes wrong and the golfer is warm at once."""
    return replace(case_named(name), spells=(), dropped=(), warm_up=WarmUp(), **changes)  # type: ignore[arg-type]


def test_the_ball_a_club_gets_depends_on_its_own_count_alone() -> None:
    player = CasePlayer(steady())
    early = player.hit("Ash", 3, ALWAYS_WARM, 5)
    late = player.hit("Ash", 3, ALWAYS_WARM + 20, 25)
    assert early == late
    assert player.hit("Ash", 4, ALWAYS_WARM, 5) != early
    assert player.hit("Birch", 3, ALWAYS_WARM, 5) != early


def test_what_is_left_of_the_warm_up_is_all_that_a_place_in_the_visit_changes() -> None:
    case = steady("tansy")
    speeds = []
    for swing in (0, ALWAYS_WARM):
        shot = CasePlayer(case).hit("Own", 1, swing, 1).shot
        assert shot.head_speed is not None
        speeds.append(shot.head_speed)
    assert speeds[0] - speeds[1] == pytest.approx(-1.5 * MILE_PER_HOUR, abs=0.06)


def test_a_golfer_of_a_long_warm_up_starts_as_slow_as_the_case_says() -> None:
    player = CasePlayer(case_named("tansy"))
    warm = player.hit("Own", 1, ALWAYS_WARM, 1).shot.head_speed
    for swing, still in ((0, -7.0), (16, -7.0 / np.e)):
        cold = player.hit("Own", 1, swing, 1).shot.head_speed
        assert cold is not None
        assert warm is not None
        assert cold - warm == pytest.approx(still * MILE_PER_HOUR, abs=0.06)


def test_a_spell_moves_the_strike_of_one_club_and_of_no_other_ball() -> None:
    shaft = CasePlayer(steady()).clubs["Ash"].shaft
    spell = Spell(shaft=shaft, first=2, last=3, high=-8.0 * MILLIMETRE)
    plain, spelt = CasePlayer(steady()), CasePlayer(replace(steady(), spells=(spell,)))
    for club in ("Own", "Ash", "Birch"):
        for ball in range(1, 5):
            before = plain.hit(club, ball, ALWAYS_WARM, 9)
            after = spelt.hit(club, ball, ALWAYS_WARM, 9)
            low = club == "Ash" and ball in {2, 3}
            assert (before != after) == low
            if low and before.strike is not None and after.strike is not None:
                moved = after.strike[1] - before.strike[1]
                assert moved == pytest.approx(-8.0 * MILLIMETRE, abs=2e-4)


def test_a_dropped_ball_always_leaves_its_mark() -> None:
    player = CasePlayer(replace(steady(), dropped=tuple(range(1, 21))))
    hits = [player.hit("Own", ball, ALWAYS_WARM, ball) for ball in range(1, 21)]
    assert not any(hit.read for hit in hits)
    assert all(hit.strike is not None for hit in hits)
    assert CasePlayer(steady()).hit("Own", 1, ALWAYS_WARM, 1).read


def test_another_seed_deals_other_names_and_balls_and_leaves_the_clubs() -> None:
    case = case_named("yarrow")
    players = [CasePlayer(case, seed) for seed in range(8)]
    orders = {tuple(club.shaft for club in player.clubs.values()) for player in players}
    assert len(orders) > 1
    for player in players:
        assert list(player.clubs) == ["Own", "Ash", "Birch", "Cedar"]
        assert player.clubs["Own"] is case.clubs[0]
        assert {one.shaft for one in player.clubs.values()} == {one.shaft for one in case.clubs}


def test_a_left_hander_is_a_right_hander_in_a_mirror() -> None:
    left = CasePlayer(steady("mallow")).hit("Ash", 1, ALWAYS_WARM, 1).shot
    right = CasePlayer(steady("mallow", hand=Hand.RIGHT)).hit("Ash", 1, ALWAYS_WARM, 1).shot
    assert left.direction is not None
    assert right.direction is not None
    assert left.direction == -right.direction
    assert left.face == right.face
    assert left.ball_speed == right.ball_speed


def test_a_club_does_what_its_file_says() -> None:
    fast = next(club for club in case_named("teasel").clubs if club.shaft == "Swift")
    assert fast.does[HEAD_SPEED] == pytest.approx(2.6 * MILE_PER_HOUR)
    assert not fast.does[1:].any()


@pytest.mark.parametrize(
    ("changes", "place"),
    [
        ({"balls": 11}, "balls"),
        ({"balls": 121}, "balls"),
        ({"order": "rows"}, "order"),
        ({"ability": "pro"}, "ability"),
        ({"device": "laser"}, "device"),
        ({"dropped": (37,)}, "dropped"),
        ({"spells": (Spell(shaft="Nobody", first=1, last=2),)}, "spells"),
        ({"spells": (Spell(shaft="Wren", first=3, last=2),)}, "spells"),
        ({"clubs": ()}, "clubs"),
        ({"seed": -1}, "seed"),
    ],
)
def test_a_case_that_cannot_be_played_names_the_place(
    changes: dict[str, object], place: str
) -> None:
    with pytest.raises(InputError) as caught:
        replace(case_named("larkspur"), **changes)  # type: ignore[arg-type]
    assert caught.value.place == place
    assert caught.value.mend


def test_an_unknown_club_is_named_with_those_that_are_there() -> None:
    with pytest.raises(InputError, match="Own, Ash, Birch"):
        CasePlayer(case_named("larkspur")).hit("Oak", 1, 4, 1)


def test_no_name_and_no_brief_tells_the_lesson() -> None:
    """A brief may raise a suspicion; it never says which club, nor that something goes wrong."""
    for case in known_cases():
        told = f"{case.name} {case.golfer} {case.brief} {case.goal}".lower()
        assert not any(club.shaft.lower() in told for club in case.clubs)
        for word in ("low on", "not read", "dropped", "near-cop", "nothing to find"):
            assert word not in told, (case.name, word)
