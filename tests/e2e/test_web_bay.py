"""The bay in Chromium: taps are counted, repaired equals clean, everything goes by keyboard."""

from collections.abc import Callable, Iterator
from itertools import product

import numpy as np
import pytest
from playwright.sync_api import expect

from bays import Bay, a_bay, drive
from browser import (
    LOW,
    LYING,
    THEMES,
    UPRIGHT,
    Browse,
    axe_findings,
    cut_or_covered,
    small_targets,
    wider_than_window,
)
from fingers import Fingers, marks_of
from loftwright.constants import DEGREE, MILLIMETRE, REVOLUTION_PER_MINUTE
from loftwright.domain.acts import Felt, Marked, NotRead, RunSet, StripChanged, Vetoed
from loftwright.domain.fitting import Mark, Strip
from loftwright.domain.golfer import Hand
from loftwright.domain.numbers import ShotNumbers
from loftwright.report.records import decision_record
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.web.app import create_app
from loftwright.web.pages import acts, mends, screen
from loftwright.web.pages import bay as bay_page
from serving import served

PAGES = (acts.router, bay_page.router, mends.router, screen.router)
Opened = Callable[..., Fingers]
READABLE = 184
"""Height in pixels at which the letters of a flight are eleven pixels and more."""


@pytest.fixture
def opened(browse: Browse) -> Iterator[Opened]:
    """Open a bay's page in a window of its own: `opened(bay, size=UPRIGHT)`."""
    serving = []

    def window(bay: Bay, **how: object) -> Fingers:
        context = served(create_app(bay.studio, routers=PAGES))
        address = context.__enter__()
        serving.append(context)
        return Fingers(browse(**how), bay).open(address)

    yield window
    for context in serving:
        context.__exit__(None, None, None)


def came_out(bay: Bay) -> object:
    """Return the comparison with every digit."""
    evidence = bay_now(bay.studio, Desk(), bay.fitting).evidence
    assert evidence.decision is not None
    return decision_record(evidence.decision, evidence.table.table)


def mark(toe_mm: float, high_mm: float) -> Marked:
    return Marked(mark=Mark(toe=toe_mm * MILLIMETRE, high=high_mm * MILLIMETRE))


def hits(count: int, club: str = "Own", seed: int = 3) -> list[ShotNumbers]:
    rng = np.random.default_rng(seed)
    return [drive(rng, club) for _ in range(count)]


def test_a_normal_ball_takes_one_tap_and_a_change_of_clubs_two(opened: Opened) -> None:
    bay = a_bay()
    fitter = opened(bay)
    for toe in (4, -6, 11):
        bay.ball()
        fitter.painted()
        fitter.tap_face(toe, 3)
    assert fitter.taps == 3
    assert marks_of(bay) == [(4, 3), (-6, 3), (11, 3)]
    fitter.tap("Ash in hand")
    fitter.tap("Sleeve middle: seen")
    assert fitter.taps == 5
    assert (bay.now.in_hand, bay.now.seen) == ("Ash", "middle")


@pytest.mark.parametrize("size", [LYING, UPRIGHT])
@pytest.mark.parametrize("hand", list(Hand))
def test_a_tap_lands_where_the_finger_is_in_every_view(
    opened: Opened, size: tuple[int, int], hand: Hand
) -> None:
    bay = a_bay(hand=hand)
    fitter = opened(bay, size=size)
    bay.balls(2)
    fitter.painted()
    fitter.tap_face(17, -8)
    toe_x, toe_y = fitter.place(30, 0)
    heel_x, _ = fitter.place(-30, 0)
    assert (toe_x < heel_x) == (hand is Hand.RIGHT)
    fitter.page.get_by_role("button", name="As I hold it").click()
    fitter.page.wait_for_selector("body[data-painted-revision]")
    turned_x, turned_y = fitter.place(30, 0)
    assert (turned_x < fitter.place(-30, 0)[0]) == (hand is Hand.LEFT)
    assert abs(turned_y - toe_y) < 1.0
    fitter.tap_face(-12, 9)
    assert marks_of(bay)[-1] == (17, -8)
    waiting = bay.now.waiting[-1].mark
    assert (round(waiting.toe / MILLIMETRE), round(waiting.high / MILLIMETRE)) == (-12, 9)


def test_a_dropped_ball_noticed_late_is_mended_in_one_tap(opened: Opened) -> None:
    """Ball 8 is not read, its mark is tapped and waits; noticed at ball 20."""
    clean, faulty = a_bay(), a_bay()
    numbers = hits(10)
    for bay in (clean, faulty):
        for club in ("Own", "Ash"):
            if club == "Ash":
                bay.hand(club)
            for place, one in enumerate(numbers):
                lost = club == "Own" and place == 7
                if lost and bay is clean:
                    bay.do(NotRead(), wait=30.0)
                elif not lost:
                    bay.ball(one)
                bay.do(mark(place, -place), wait=20.0)
    assert len(faulty.now.waiting) == 1
    fitter = opened(faulty)
    expect(fitter.page.locator("#part-wait")).to_contain_text("1 mark waits for a ball")
    fitter.tap("Hit, not read")
    assert fitter.taps <= 3
    assert marks_of(faulty) == marks_of(clean)
    assert came_out(faulty) == came_out(clean)


def test_shifted_marks_are_mended_on_the_page_of_mends(opened: Opened) -> None:
    """The device is slow, so every mark after the dropped ball went to the ball before."""
    clean, faulty = a_bay(), a_bay()
    numbers = hits(9)
    lost = 4
    for place, one in enumerate(numbers):
        clean.do(NotRead(), wait=30.0) if place == lost else clean.ball(one)
        clean.do(mark(place, 1), wait=20.0)
    read = [one for place, one in enumerate(numbers) if place != lost]
    for one in read:
        faulty.ball(one)
    for place, swing in enumerate(faulty.now.swings):
        faulty.do(Marked(mark=mark(place, 1).mark, ball=swing.sequence))
    faulty.do(mark(8, 1), wait=20.0)
    fitter = opened(faulty)
    row = faulty.now.swings[lost].number
    fitter.page.keyboard.press("l")
    fitter.taps += 1
    before = faulty.now.upto
    table = fitter.page.get_by_role("row", name=f"{row} Own")
    table.locator("summary").click()
    table.get_by_role("button", name="One before was not read").click()
    fitter.taps += 2
    expect(fitter.page.locator("h1")).to_contain_text("9 balls")
    assert faulty.now.upto > before
    assert fitter.taps <= 3
    assert marks_of(faulty) == marks_of(clean)
    assert came_out(faulty) == came_out(clean)


def test_ghosts_go_with_one_tap_each(opened: Opened) -> None:
    clean, faulty = a_bay(), a_bay()
    numbers, ghosts = hits(6), hits(3, seed=9)
    fitter = opened(faulty)
    for place, one in enumerate(numbers):
        clean.ball(one)
        faulty.ball(one)
        if place % 2 == 0:
            faulty.ball(ghosts[place // 2])
            fitter.painted()
            number = faulty.now.swings[-1].number
            fitter.tap(f"{number} not ours")
    assert fitter.taps == 3
    assert len(faulty.now.swings) == 9
    for bay in (clean, faulty):
        bay.hand("Ash")
        for one in hits(4, "Ash", seed=5):
            bay.ball(one)
    assert came_out(faulty) == came_out(clean)


def test_undo_names_every_act_and_takes_it_back(opened: Opened) -> None:
    bay = a_bay()
    bay.balls(3)
    fitter = opened(bay)
    before = came_with(bay)
    for words, undo in (
        ("Would not play it", "Undo veto of Own"),
        ("3 not ours", "Undo not ours"),
        ("Ash in hand", "Undo hand-over of Ash"),
        ("Tee: middle. Change to low", "Undo conditions"),
    ):
        fitter.tap(words)
        assert came_with(bay) != before
        fitter.tap(undo)
        assert came_with(bay) == before
        again = fitter.page.get_by_role("button", name=undo.replace("Undo", "Do") + " again")
        expect(again).to_be_visible()


def came_with(bay: Bay) -> object:
    """Return what an act may change."""
    now = bay.now
    return now.clubs, now.swings, now.in_hand, now.strip, now.waiting


def test_a_run_moves_to_the_club_it_was_hit_with(opened: Opened) -> None:
    clean, faulty = a_bay(), a_bay()
    for bay in (clean, faulty):
        for one in hits(4):
            bay.ball(one)
        bay.hand("Ash")
        for one in hits(4, "Ash", seed=5):
            bay.ball(one)
        if bay is clean:
            bay.hand("Birch")
        for one in hits(4, "Birch", seed=6):
            bay.ball(one)
    fitter = opened(faulty)
    fitter.page.goto(f"{fitter.page.url.removesuffix('/bay')}/mends")
    slider = fitter.page.get_by_label("From ball")
    slider.focus()
    for _ in range(4):
        slider.press("ArrowRight")
    expect(fitter.page.locator("#first-said")).to_have_text("9")
    before = faulty.now.upto
    fitter.page.get_by_role("button", name="It was Birch").click()
    expect(fitter.page.locator("tbody").last).to_contain_text("Birch")
    assert faulty.now.upto > before
    assert came_out(faulty) == came_out(clean)


def test_a_wrong_setting_is_corrected_as_a_run(opened: Opened) -> None:
    """Six balls with the sleeve one step weak: +1.45 deg of launch, +380 rpm."""
    clean, faulty = a_bay(), a_bay()
    for bay in (clean, faulty):
        for one in hits(6):
            bay.ball(one)
        bay.hand("Ash")
        for one in hits(6, "Ash", seed=5):
            launch, spin = one.launch or 0.0, one.spin or 0.0
            weak = {"launch": launch + 1.45 * DEGREE, "spin": spin + 380.0 * REVOLUTION_PER_MINUTE}
            bay.ball(drive(bay.rng, "Ash", **{**_told(one), **weak}))
    sequences = [one.sequence for one in clean.now.swings]
    clean.do(RunSet(first=sequences[6], last=sequences[-1], setting="one up"))
    fitter = opened(faulty)
    fitter.open_panel("More")
    fitter.page.get_by_role("link", name="All balls").click()
    expect(fitter.page.get_by_text("12.3°").first).to_be_visible()
    fitter.page.get_by_role("button", name="Sleeve was one up").click()
    fitter.taps += 2
    expect(fitter.page.locator("tbody").last).to_contain_text("one up")
    assert fitter.taps == 3
    assert {one.setting for one in faulty.now.balls if one.club == "Ash"} == {"one up"}
    assert came_out(faulty) == came_out(clean)


def _told(one: ShotNumbers) -> dict[str, float | None]:
    return {
        name: getattr(one, name) for name in ("ball_speed", "launch", "spin", "direction", "axis")
    }


def test_marks_in_unknown_order_take_four_taps_a_set(opened: Opened) -> None:
    bay = a_bay()
    bay.balls(3)
    fitter = opened(bay)
    fitter.open_panel("Order unknown")
    for place, toe in enumerate((3, -9, 14)):
        fitter.tap_face(toe, 2, waits=place == 2)
    assert fitter.taps == 4
    swings = bay.now.swings
    assert len({one.mark_set for one in swings}) == 1
    assert swings[0].mark_set is not None
    assert sorted(str(one) for one in marks_of(bay)) == ["(-9, 2)", "(14, 2)", "(3, 2)"]


def test_a_veto_is_one_tap_and_feel_another(opened: Opened) -> None:
    bay = a_bay()
    bay.ball()
    fitter = opened(bay)
    line = fitter.page.locator("#feel-line svg").bounding_box()
    assert line is not None
    before = bay.now.upto
    fitter.page.mouse.click(line["x"] + 0.75 * line["width"], line["y"] + 0.5 * line["height"])
    fitter.taps += 1
    while bay.now.upto == before:
        fitter.page.wait_for_timeout(10)
    own = bay.now.club("Own")
    assert own is not None
    assert own.feel == pytest.approx(0.758, abs=0.02)
    fitter.painted()
    fitter.tap("Would not play it")
    assert fitter.taps == 2
    own = bay.now.club("Own")
    assert own is not None
    assert own.out == "would not play it"


def test_a_fitting_goes_by_keyboard_alone(opened: Opened) -> None:
    bay = a_bay(warm=False)
    fitter = opened(bay)
    fitter.pressed("c")
    assert bay.now.in_hand == "Own"
    fitter.pressed("w")
    assert bay.now.visit is not None
    assert bay.now.visit.warm
    for _ in range(2):
        fitter.press("b")
        fitter.page.keyboard.type("148.2 12.1 2510 -2 8")
        fitter.pressed("Enter")
        fitter.press("Escape")
    assert len(bay.now.balls) == 2
    fitter.press("m", "ArrowLeft", "ArrowLeft", "Shift+ArrowUp")
    fitter.pressed("Enter")
    assert marks_of(bay)[-1] == (2, 5)
    fitter.pressed("n")
    assert bay.now.swings[-1].numbers is None
    fitter.press("f", "ArrowRight", "ArrowRight")
    fitter.pressed("Enter")
    own = bay.now.club("Own")
    assert own is not None
    assert own.feel == pytest.approx(0.6)
    fitter.pressed("c")
    fitter.pressed("s")
    assert (bay.now.in_hand, bay.now.seen) == ("Ash", "middle")
    fitter.pressed("v")
    fitter.pressed("u")
    fitter.pressed("r")
    ash = bay.now.club("Ash")
    assert ash is not None
    assert ash.out == "would not play it"
    fitter.press("?")
    expect(fitter.page.locator("#keys")).to_be_visible()
    expect(fitter.page.locator("#keys")).to_contain_text("hit, not read")
    before = bay.now.upto
    fitter.page.locator("#keys-on").click()
    fitter.press("Escape", "p")
    fitter.page.wait_for_timeout(150)
    assert bay.now.upto == before


def test_letters_do_nothing_while_a_word_is_typed(opened: Opened) -> None:
    bay = a_bay()
    bay.ball()
    bay.do(Felt(club="Own", place=0.7))
    fitter = opened(bay)
    fitter.page.get_by_label("The golfer's own word for Own").fill("")
    fitter.page.keyboard.type("pure")
    bay.ball()
    fitter.painted()
    fitter.pressed("Enter")
    own = bay.now.club("Own")
    assert own is not None
    assert (own.word, bay.now.pain) == ("pure", False)


def test_a_condition_changes_in_one_tap(opened: Opened) -> None:
    bay = a_bay()
    bay.ball()
    fitter = opened(bay)
    fitter.tap("From: mat. Change to turf")
    assert (fitter.taps, bay.now.strip.surface) == (1, "turf")


def test_two_screens_agree_and_the_golfers_follows(opened: Opened, browse: Browse) -> None:
    bay = a_bay()
    fitter = opened(bay)
    address = fitter.page.url.split("/fittings/")[0]
    other = Fingers(browse(size=UPRIGHT), bay).open(address)
    golfer = browse()
    golfer.goto(f"{address}/screen/{bay.fitting}")
    golfer.wait_for_selector("body[data-painted-revision]")
    bay.ball()
    fitter.painted()
    fitter.tap_face(13, 9)
    other.painted()
    for page in (fitter.page, other.page):
        expect(page.locator("#part-wait")).to_contain_text("Ball 1: 13 mm toe, 9 mm high")
        expect(page.locator("#part-fly h2")).to_contain_text("Ball 1 with")
    assert fitter.page.locator("#part-hand").inner_html() == (
        other.page.locator("#part-hand").inner_html()
    )
    expect(golfer.locator("#part-strike")).to_contain_text("13 mm toe, 9 mm high")
    expect(golfer.locator("#part-told")).to_contain_text("Your last ball.")


def test_two_golfers_switch_with_one_tap_and_no_ball_is_lost(opened: Opened) -> None:
    first = a_bay(name="Wilbert Ames")
    second = a_bay(
        name="Ottilie Ames", partner=first.fitting, studio=first.studio, clock=first.clock
    )
    fitter = opened(first)
    for place in range(4):
        here = (first, second)[place % 2]
        here.ball()
        other = (second, first)[place % 2]
        name = "Ottilie" if place % 2 == 0 else "Wilbert"
        fitter.page.get_by_role("button", name=f"{name} hits").first.click()
        fitter.taps += 1
        fitter.page.wait_for_url(f"**{other.path}")
        fitter.page.wait_for_selector("body[data-painted-revision]")
    assert fitter.taps == 4
    assert (len(first.now.balls), len(second.now.balls)) == (2, 2)


def full() -> Bay:
    """Return a bay with all at once: a partner, doubts, two marks that wait, a long word."""
    other = a_bay(name="Wilbert Featherstonehaugh")
    bay = a_bay(partner=other.fitting, studio=other.studio, clock=other.clock)
    for club in ("Own", "Ash", "Birch", "Cedar", "Own", "Ash", "Birch"):
        if bay.now.in_hand != club:
            bay.hand(club)
        for _ in range(3):
            bay.ball()
            bay.do(mark(float(bay.rng.normal(0, 8)), float(bay.rng.normal(0, 6))))
    bay.do(StripChanged(strip=Strip(ball="range ball, worn and wet", tee="high")))
    bay.ball()
    bay.do(Felt(club="Birch", place=0.9, word="wonderfully solid and quiet"))
    for toe in (13, -4, 2):
        bay.do(mark(toe, 9))
    bay.do(Vetoed(club="Cedar"))
    return bay


def scene(name: str) -> Bay:
    """Return a bay in one of its states."""
    if name == "empty":
        return a_bay(warm=False)
    if name == "full":
        return full()
    bay = a_bay(hand=Hand.LEFT if name == "left-handed" else Hand.RIGHT)
    if name == "device carry":
        for place in range(3):
            bay.ball(ShotNumbers(ball_speed=66.0 + place, carry=205.0 + place))
        return bay
    for club in ("Own", "Ash", "Birch", "Cedar"):
        if club != "Own":
            bay.hand(club)
        for _ in range(3):
            bay.ball()
            bay.do(mark(float(bay.rng.normal(0, 8)), float(bay.rng.normal(0, 6))))
        bay.do(Felt(club=club, place=float(bay.rng.uniform()), word="solid"))
    bay.do(mark(13, 9))
    bay.ball(wait=90.0)
    return bay


@pytest.mark.parametrize("name", ["empty", "device carry", "busy", "left-handed", "full"])
def test_every_state_fits_without_scrolling_and_axe_finds_nothing(
    opened: Opened, name: str
) -> None:
    fitter = opened(scene(name))
    page = fitter.page
    for size, theme in product((LYING, UPRIGHT), THEMES):
        page.set_viewport_size({"width": size[0], "height": size[1]})
        page.emulate_media(color_scheme="dark" if theme == "dark" else "light")
        height = page.evaluate("document.documentElement.scrollHeight")
        assert (height, wider_than_window(page)) == (size[1], 0), (size, theme)
        assert small_targets(page) == []
        assert small_or_cut_in_the_bar(fitter) == []
        assert axe_findings(page) == []
        sizes = page.evaluate(
            "[...document.querySelectorAll('.far')].map((one) => getComputedStyle(one).fontSize)"
        )
        assert set(sizes) == {"132px"}


@pytest.mark.parametrize("name", ["empty", "device carry", "busy", "left-handed", "full"])
def test_a_low_window_scrolls_and_neither_cuts_nor_crushes(opened: Opened, name: str) -> None:
    fitter = opened(scene(name))
    page = fitter.page
    for width, height in LOW:
        page.set_viewport_size({"width": width, "height": height})
        assert wider_than_window(page) == 0
        assert cut_or_covered(page, ".bay-page", apart=".bar") == [], (width, height)
        assert small_or_cut_in_the_bar(fitter) == [], (width, height)
        flights = page.evaluate(
            "[...document.querySelectorAll('.fly > svg')]"
            ".map((one) => Math.round(one.getBoundingClientRect().height))"
        )
        assert len(flights) == (name != "device carry")
        assert all(one >= READABLE for one in flights), (width, height, flights)
        bar = page.locator("#part-bar").bounding_box()
        assert bar is not None
        assert bar["y"] + bar["height"] <= height + 1.0


def small_or_cut_in_the_bar(fitter: Fingers) -> list[str]:
    found: list[str] = fitter.page.evaluate(
        """[...document.querySelectorAll('.bar button, .bar .btn')]
        .filter((one) => one.getClientRects().length)
        .map((one) => [one, one.getBoundingClientRect()])
        .filter(([one, box]) => box.height < 55.5 || box.right > innerWidth
          || one.scrollWidth > one.clientWidth + 1)
        .map(([one]) => one.outerHTML)"""
    )
    return found


@pytest.mark.parametrize("theme", THEMES)
def test_panels_mends_and_the_golfers_screen_pass_axe(opened: Opened, theme: str) -> None:
    fitter = opened(scene("busy"), theme=theme)
    page = fitter.page
    for words in ("Other club", "More"):
        page.get_by_role("button", name=words, exact=True).first.click()
        assert axe_findings(page) == []
        page.keyboard.press("Escape")
    page.keyboard.press("?")
    assert axe_findings(page) == []
    address = page.url.split("/fittings/")[0]
    for path in (
        f"/fittings/{fitter.bay.fitting}/mends",
        f"/screen/{fitter.bay.fitting}",
    ):
        page.goto(f"{address}{path}")
        assert axe_findings(page) == []
        assert small_targets(page) == []
        assert wider_than_window(page) == 0
