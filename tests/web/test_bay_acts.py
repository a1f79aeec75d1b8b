"""Every act of the bay by its address, as a form sends it."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bays import Bay, a_bay
from loftwright.bay.now import FittingNow, Swing
from loftwright.constants import MILE_PER_HOUR, MILLIMETRE
from loftwright.domain.acts import ClubJoined, Marked
from loftwright.domain.fitting import Mark
from loftwright.domain.golfer import Hand
from loftwright.domain.piece_code import code_of
from loftwright.services.acting import act
from loftwright.services.rack import card_of
from loftwright.services.shots import hitting
from loftwright.web.act_forms import FORMS
from loftwright.web.app import create_app
from loftwright.web.pages import acts, mends
from loftwright.web.pages import bay as bay_page
from racks import a_measured_rack
from studios import a_club, a_head
from web_client import WebClient, asking


class Fitter:
    """Sends the forms of one fitting."""

    def __init__(self, client: WebClient, bay: Bay) -> None:
        self.client, self.bay = client, bay
        self.used: set[str] = set()

    def does(self, name: str, **fields: object) -> None:
        """Send an act that must be done."""
        assert self.send(name, **fields) == 303

    def send(self, name: str, **fields: object) -> int:
        """Send an act and return the answer's status."""
        self.used.add(name)
        told = {key: str(value) for key, value in fields.items()}
        path = f"/fittings/{self.bay.fitting}/acts/{name}"
        return self.client.post(path, data=told).status_code

    def refusal(self, name: str, **fields: object) -> dict[str, str]:
        """Send an act that must be refused and return why."""
        path = f"/fittings/{self.bay.fitting}/acts/{name}"
        told = {key: str(value) for key, value in fields.items()}
        answer = self.client.post(path, data=told, headers={"Accept": "application/json"})
        assert answer.status_code in {404, 409, 422}
        found: dict[str, str] = answer.json()["error"]
        assert found["mend"]
        return found

    @property
    def last(self) -> Swing:
        """The newest ball."""
        return self.bay.now.swings[-1]


@pytest.fixture
def fitter() -> Iterator[Fitter]:
    bay = a_bay()
    app = create_app(bay.studio, routers=(acts.router, bay_page.router, mends.router))
    with asking(app) as client:
        yield Fitter(client, bay)


def test_a_club_is_handed_over_in_two_taps(fitter: Fitter) -> None:
    fitter.does("hand-over", club="Birch")
    assert (fitter.bay.now.in_hand, fitter.bay.now.seen) == ("Birch", None)
    fitter.does("setting-seen", setting="middle")
    assert fitter.bay.now.seen == "middle"


def test_a_tap_marks_the_newest_ball(fitter: Fitter) -> None:
    fitter.bay.ball()
    fitter.does("mark", toe_mm="13.2", high_mm="-4")
    mark = fitter.last.mark
    assert mark is not None
    assert mark.toe == pytest.approx(13.2 * MILLIMETRE)
    assert mark.high == pytest.approx(-4.0 * MILLIMETRE)


def test_a_mark_in_words_has_a_larger_error(fitter: Fitter) -> None:
    fitter.bay.ball()
    fitter.does("coarse-mark", words="toe, high")
    mark = fitter.last.mark
    assert mark is not None
    assert (mark.words, mark.error > 4.0 * MILLIMETRE) == ("toe, high", True)
    fitter.does("no-mark", ball_of=fitter.last.sequence)
    assert fitter.last.mark is None


def test_marks_of_a_set_in_unknown_order_join_its_balls(fitter: Fitter) -> None:
    balls = fitter.bay.balls(3)
    sequences = ",".join(str(one.sequence) for one in balls)
    fitter.does("set", balls=sequences, marks="1,2;-3,4;5,6")
    assert len({one.mark_set for one in fitter.bay.now.swings}) == 1
    assert fitter.last.mark_set is not None


def test_waiting_marks_join_or_go(fitter: Fitter) -> None:
    first, second = fitter.bay.balls(2)
    for toe in (1, 2, 3):
        fitter.does("mark", toe_mm=toe, high_mm=0)
    waiting = [one.sequence for one in fitter.bay.now.waiting]
    assert len(waiting) == 2
    fitter.does("join", marks=waiting[0], balls=first.sequence)
    fitter.does("drop-mark", mark=waiting[1])
    assert fitter.bay.now.waiting == ()
    assert second.sequence == fitter.last.sequence


def test_a_ball_not_read_counts_and_takes_the_waiting_mark(fitter: Fitter) -> None:
    fitter.bay.ball()
    fitter.does("mark", toe_mm=1, high_mm=1)
    fitter.does("mark", toe_mm=2, high_mm=2)
    fitter.does("not-read")
    assert (len(fitter.bay.now.balls), fitter.bay.now.waiting) == (2, ())
    fitter.does("not-read", after=fitter.bay.now.swings[0].sequence)
    assert [one.number for one in fitter.bay.now.balls] == [1, 2, 3]


def test_marks_move_by_one_ball_and_a_dropped_ball_is_put_in(fitter: Fitter) -> None:
    first, second = fitter.bay.balls(2)
    fitter.does("mark", toe_mm=7, high_mm=0, ball_of=first.sequence)
    fitter.does("shift-marks", first=first.sequence, by=1)
    assert fitter.bay.now.swings[0].mark is None
    fitter.does("dropped-before", first=second.sequence)
    told = [one.mark for one in fitter.bay.now.swings]
    assert [mark is not None for mark in told] == [False, True, False]


def test_marks_that_were_read_mirrored_turn_over_in_one_tap_and_back_in_another(
    fitter: Fitter,
) -> None:
    first, second = fitter.bay.balls(2)
    fitter.does("mark", toe_mm=7, high_mm=3, ball_of=first.sequence)
    fitter.does("mark", toe_mm=-4, high_mm=2, ball_of=second.sequence)
    before = [one.mark for one in fitter.bay.now.swings]
    fitter.does("mirror-marks", first=first.sequence)
    turned = [one.mark for one in fitter.bay.now.swings]
    assert [(one.toe, one.high) for one in turned if one] == [
        (-one.toe, one.high) for one in before if one
    ]
    fitter.does("mirror-marks", first=first.sequence, last=second.sequence)
    assert [one.mark for one in fitter.bay.now.swings] == before
    refused = fitter.refusal("mirror-marks", first=999)
    assert refused["place"] == "first"


def test_ghosts_and_odd_balls_stay_in_the_record(fitter: Fitter) -> None:
    ghost, odd = fitter.bay.balls(2)
    fitter.does("not-ours", ball_of=ghost.sequence)
    fitter.does("odd", ball_of=odd.sequence)
    now = fitter.bay.now
    assert [one.not_ours for one in now.swings] == [True, False]
    assert [one.odd for one in now.balls] == [True]


def test_a_run_moves_to_another_club_or_setting_by_ball_numbers(fitter: Fitter) -> None:
    fitter.does("hand-over", club="Ash")
    fitter.bay.balls(4)
    fitter.does("move-run", first_ball=2, last_ball=3, club="Birch")
    assert [one.club for one in fitter.bay.now.balls] == ["Ash", "Birch", "Birch", "Ash"]
    sequence = fitter.last.sequence
    fitter.does("set-run", first=sequence, last=sequence, setting="one up")
    assert fitter.last.setting == "one up"


def test_a_ball_after_a_pause_goes_to_the_club_it_was_hit_with(fitter: Fitter) -> None:
    fitter.bay.ball()
    fitter.bay.ball(wait=90.0)
    fitter.does("it-was", club="Cedar")
    assert [one.club for one in fitter.bay.now.balls] == ["Own", "Cedar"]
    assert fitter.bay.now.in_hand == "Cedar"
    undo = fitter.bay.now.undoable
    assert undo is not None
    fitter.does("undo", act=undo.sequence)
    assert [one.club for one in fitter.bay.now.balls] == ["Own", "Own"]


def test_feel_is_a_place_and_a_word_of_the_club_in_hand(fitter: Fitter) -> None:
    fitter.does("felt", place="0.8")
    fitter.does("felt", word="solid")
    own = fitter.bay.now.club("Own")
    assert own is not None
    assert (own.feel, own.word) == (0.8, "solid")
    assert fitter.refusal("felt", club="Ash", word="dull")["place"] == "place"


def test_a_veto_ends_a_club_and_a_dropped_one_leaves(fitter: Fitter) -> None:
    fitter.does("veto", club="Ash")
    fitter.does("drop-club", club="Birch")
    assert [club.name for club in fitter.bay.now.clubs if club.out] == ["Ash", "Birch"]


def test_a_club_that_can_be_put_together_joins_in_one_tap(fitter: Fitter) -> None:
    studio = fitter.bay.studio
    right, left = a_head(studio), a_head(studio, "Lapwing", hand=Hand.LEFT)
    can = a_club(studio, right, "Reedmace", 60.0, 45.25)
    cannot = a_club(studio, left, "Rush", 55.0, 45.0)
    path = f"/fittings/{fitter.bay.fitting}/mends"
    page = fitter.client.get(path).text
    assert "Reedmace" in page
    assert "Rush" not in page
    before = len(fitter.bay.now.clubs)
    fitter.does("add-club", assembly=can.id, key="once")
    fitter.does("add-club", assembly=can.id, key="once")
    assert len(fitter.bay.now.clubs) == before + 1
    joined = fitter.bay.now.clubs[-1]
    assert "Reedmace" in joined.card.shaft
    assert "Add a club" not in fitter.client.get(path).text
    for other in (can.id, cannot.id, "nothing"):
        assert fitter.refusal("add-club", assembly=other)["place"] == "assembly"
    fitter.does("close")
    assert fitter.refusal("add-club", assembly=can.id)["kind"] == "conflict"


def test_one_condition_changes_and_the_others_stay(fitter: Fitter) -> None:
    before = fitter.bay.now.strip
    fitter.does("strip", tee="45 mm")
    assert fitter.bay.now.strip.tee == "45 mm"
    assert fitter.bay.now.strip.ball == before.ball


def test_rest_pain_warm_up_reveal_and_closing(fitter: Fitter) -> None:
    fitter.bay.balls(2)
    fitter.does("rested")
    assert fitter.bay.now.rested == 8
    fitter.does("pain")
    assert fitter.bay.now.pain
    fitter.does("reveal")
    fitter.does("warm-up-done", unseen=4)
    assert fitter.bay.now.revealed
    fitter.does("close")
    assert fitter.bay.now.closed
    assert fitter.refusal("another-day")["kind"] == "conflict"
    closing = fitter.bay.now.undoable
    assert closing is not None
    fitter.does("undo", act=closing.sequence)
    fitter.does("another-day")
    now = fitter.bay.now
    assert (len(now.visits), now.closed, now.pain) == (2, False, False)
    assert now.strip.ball == "premium, new"


def test_undo_and_do_again(fitter: Fitter) -> None:
    fitter.does("veto", club="Ash")
    undo = fitter.bay.now.undoable
    assert undo is not None
    fitter.does("undo", act=undo.sequence)
    ash = fitter.bay.now.club("Ash")
    assert ash is not None
    assert ash.out == ""
    again = fitter.bay.now.repeatable
    assert again is not None
    fitter.does("undo", act=again.sequence)
    ash = fitter.bay.now.club("Ash")
    assert ash is not None
    assert ash.out == "would not play it"
    shot = fitter.bay.ball()
    assert fitter.refusal("undo", act=shot.sequence)["mend"].startswith("A ball stays")


def test_a_typed_ball_brings_its_mark_and_its_key_counts_once(fitter: Fitter) -> None:
    for _ in range(2):
        fitter.does("ball", line="148.2 12.1 2510 -2 8 mark 5t 3h", key="typed-1")
    (ball,) = fitter.bay.now.swings
    assert ball.numbers is not None
    assert ball.numbers.ball_speed == pytest.approx(148.2 * MILE_PER_HOUR)
    assert ball.mark is not None
    assert ball.source == "keyboard"
    assert "sppd" in fitter.refusal("ball", line="sppd 148")["message"]


def test_the_same_key_acts_once(fitter: Fitter) -> None:
    fitter.bay.ball()
    for _ in range(2):
        fitter.does("mark", toe_mm=1, high_mm=1, key="tap-1")
    assert fitter.bay.now.waiting == ()


def test_a_stale_page_is_told_what_stands_now(fitter: Fitter) -> None:
    ball = fitter.bay.ball()
    seen = fitter.bay.now.upto
    mark = Marked(mark=Mark(toe=0.001, high=0.0), ball=ball.sequence)
    act(fitter.bay.studio, fitter.bay.fitting, [mark], by="other tablet")
    refusal = fitter.refusal("no-mark", ball_of=ball.sequence, seen=seen)
    assert refusal["kind"] == "conflict"
    assert "other tablet changed mark of ball" in refusal["message"]


def stage(bay: Bay) -> list[int]:
    """Hit three marked balls, the last of two more without a mark; two marks wait."""
    balls = []
    for place in range(3):
        balls.append(bay.ball().sequence)
        bay.do(Marked(mark=Mark(toe=0.001 * place, high=0.0)))
    for place in (7, 8):
        bay.do(Marked(mark=Mark(toe=0.001 * place, high=0.0)))
    balls += [one.sequence for one in bay.balls(2)]
    return balls


UNDOABLE: tuple[tuple[str, dict[str, str]], ...] = (
    ("hand-over", {"club": "Ash"}),
    ("mark", {"toe_mm": "4", "high_mm": "2"}),
    ("coarse-mark", {"words": "toe"}),
    ("no-mark", {"ball_of": "{0}"}),
    ("set", {"balls": "{3},{4}", "marks": "1,1;2,2"}),
    ("join", {"marks": "{w0},{w1}", "balls": "{3},{4}"}),
    ("shift-marks", {"first": "{1}", "by": "1"}),
    ("mirror-marks", {"first": "{1}"}),
    ("drop-mark", {"mark": "{w0}"}),
    ("not-read", {}),
    ("not-read", {"after": "{0}"}),
    ("dropped-before", {"first": "{2}"}),
    ("not-ours", {"ball_of": "{2}"}),
    ("odd", {"ball_of": "{2}"}),
    ("move-run", {"first_ball": "2", "last_ball": "4", "club": "Birch"}),
    ("set-run", {"first_ball": "2", "last_ball": "4", "setting": "one up"}),
    ("it-was", {"club": "Cedar"}),
    ("felt", {"club": "Own", "place": "0.7", "word": "solid"}),
    ("veto", {"club": "Birch"}),
    ("drop-club", {"club": "Birch"}),
    ("strip", {"tee": "high"}),
    ("rested", {}),
    ("pain", {}),
    ("reveal", {}),
    ("close", {}),
)


@pytest.mark.parametrize(("name", "fields"), UNDOABLE, ids=[name for name, _ in UNDOABLE])
def test_every_act_is_taken_back_whole_and_done_again(
    fitter: Fitter, name: str, fields: dict[str, str]
) -> None:
    balls = stage(fitter.bay)
    waiting = {f"w{place}": one.sequence for place, one in enumerate(fitter.bay.now.waiting)}
    told = {key: value.format(*balls, **waiting) for key, value in fields.items()}
    before = standing(fitter.bay.now)
    fitter.does(name, **told)
    done = standing(fitter.bay.now)
    assert done != before
    undo = fitter.bay.now.undoable
    assert undo is not None
    fitter.does("undo", act=undo.sequence)
    assert standing(fitter.bay.now) == before
    again = fitter.bay.now.repeatable
    assert again is not None
    fitter.does("undo", act=again.sequence)
    assert standing(fitter.bay.now) == done


def standing(now: FittingNow) -> FittingNow:
    """Return what stands, without how it came about."""
    return replace(now, upto=0, undoable=None, repeatable=None)


def test_a_scanned_label_hands_over_and_says_what_was_planned(fitter: Fitter) -> None:
    a_measured_rack(fitter.bay.studio)
    rack = fitter.bay.studio.store.rack()
    card = card_of(rack, rack.assemblies["club-1"])
    fitter.bay.do(ClubJoined(club="Elm", card=card))
    code = code_of(card.shaft_piece)
    fitter.does("scan", code=code, planned="Elm")
    assert fitter.bay.now.in_hand == "Elm"
    answer = fitter.client.post(
        f"{fitter.bay.path.removesuffix('/bay')}/acts/scan",
        data={"code": code, "planned": "Ash"},
        headers={"Accept": "application/json"},
    )
    assert "so Elm is in hand. Planned was Ash." in answer.json()["note"]
    assert fitter.refusal("scan", code="7KQ")["place"] == "code"


@pytest.mark.parametrize(
    ("name", "fields", "place"),
    [
        ("mark", {"toe_mm": "wide", "high_mm": "1"}, "toe_mm"),
        ("mark", {"toe_mm": "1"}, "high_mm"),
        ("mark", {"toe_mm": "300", "high_mm": "1"}, "mark"),
        ("coarse-mark", {"words": "sideways"}, "mark"),
        ("set", {"balls": "1", "marks": "1"}, "marks"),
        ("hand-over", {"club": "Zinnia"}, "club"),
        ("move-run", {"first_ball": "9", "last_ball": "9", "club": "Ash"}, "first_ball"),
        ("shift-marks", {"first": "x", "by": "1"}, "first"),
        ("strip", {"tee": "x" * 100}, "tee"),
        ("dance", {}, "act"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place_and_a_mend(
    fitter: Fitter, name: str, fields: dict[str, str], place: str
) -> None:
    before = fitter.bay.now.upto
    assert fitter.refusal(name, **fields)["place"] == place
    assert fitter.bay.now.upto == before


def test_two_golfers_take_turns_and_each_ball_is_in_its_record() -> None:
    first = a_bay(name="Wilbert Ames")
    second = a_bay(
        name="Ottilie Ames", partner=first.fitting, studio=first.studio, clock=first.clock
    )
    with asking(create_app(first.studio, routers=(acts.router, bay_page.router))) as client:
        for place in range(6):
            wanted = (first, second)[place % 2]
            answer = client.post(
                f"/fittings/{first.fitting}/acts/turn", data={"to": wanted.fitting}
            )
            assert answer.headers["location"] == wanted.path
            assert hitting(first.studio, first.fitting) == wanted.fitting
            first.ball()
        refused = client.post(f"/fittings/{first.fitting}/acts/turn", data={"to": "somebody"})
        assert refused.status_code == 422
    assert (len(first.now.balls), len(second.now.balls)) == (3, 3)


def test_no_act_is_left_untried() -> None:
    """The tests above send every act that has an address."""
    text = Path(__file__).read_text(encoding="utf-8")
    assert [name for name in FORMS if f'"{name}"' not in text] == []
