"""From the pick-up to the end of a complaint in Chromium, and every page sound in every state."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

import pytest

from browser import (
    LYING,
    NARROW,
    UPRIGHT,
    Browse,
    Faults,
    axe_findings,
    small_targets,
    wider_than_window,
)
from loftwright.constants import YARD
from loftwright.domain.after_acts import (
    Complained,
    ComplaintEnded,
    Ending,
    FollowedUp,
    Found,
    Look,
    LookedAt,
    Played,
    Round,
    StillPlayed,
    Where,
)
from loftwright.domain.home import Turf
from serving import served
from studios import app_of
from taken_clubs import FINAL_CHECK, Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """A studio in which clubs were taken, and its fittings."""

    address: str
    shop: Shop
    taken: str
    told: str
    empty: str


@pytest.fixture(scope="module")
def filled() -> Iterator[Filled]:
    shop = Shop()
    taken, told = shop.fitting("Peregrine Hobb"), shop.fitting("Ottoline Brambleby")
    silent = shop.fitting("Silas Wren", contact=False)
    for one in (taken, told, silent):
        shop.taken(one)
    shop.later(50)
    tell(shop, told)
    empty = shop.fitting("Tabitha Finch")
    with served(app_of(shop.studio)) as address:
        yield Filled(address=address, shop=shop, taken=taken, told=told, empty=empty)


def tell(shop: Shop, fitting: str) -> None:
    """Write rounds, an answer, an ended complaint and an open one."""
    day = shop.studio.today() - timedelta(days=20)
    rounds = tuple(
        Round(
            day=day + timedelta(days=place),
            course="Mossy Bottom",
            drives=13,
            fairways=one,
            total=(236.0 + one) * YARD,
            measured=6,
        )
        for place, one in enumerate((3, 5, 4, 6, 3, 5))
    )
    where = Where(temperature=283.0, altitude=20.0, turf=Turf.SOFT, surface="turf")
    for act in (
        Played(rounds=rounds),
        FollowedUp(day=day, answer=StillPlayed.CHANGED, words="A new grip"),
        Complained(day=day, words="It goes left."),
        ComplaintEnded(ending=Ending.SWING, words="After the lesson it did not."),
        Complained(day=day, words="It was longer in your bay.", short=14.0 * YARD),
        LookedAt(look=Look.MEASURED, found=Found.SAME, measured=FINAL_CHECK),
        LookedAt(look=Look.PLACE, found=Found.DIFFERENT, where=where),
    ):
        shop.do(fitting, act)


@pytest.mark.parametrize(
    ("theme", "size"), [("bright", LYING), ("dark", UPRIGHT), ("dark", LYING), ("bright", NARROW)]
)
def test_the_pages_after_the_pick_up_are_sound_in_every_state(
    browse: Browse, filled: Filled, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    told, taken = f"/fittings/{filled.told}", f"/fittings/{filled.taken}"
    for path in (
        "/follow-ups",
        f"/fittings/{filled.empty}/follow-up",
        f"{taken}/follow-up",
        f"{taken}/complaint",
        f"{told}/follow-up",
        *(f"{told}/complaint?look={look.value}" for look in Look),
    ):
        page.goto(f"{filled.address}{path}")
        for summary in page.locator("summary").all():
            summary.click()
        assert axe_findings(page) == [], path
        assert small_targets(page) == [], path
        assert wider_than_window(page) == 0, path


def test_a_taken_club_is_asked_after_played_complained_of_and_settled(
    browse: Browse, faults: Faults
) -> None:
    faults.allow("status of 422")
    shop = Shop()
    fitting = shop.fitting()
    shop.taken(fitting)
    shop.later(46)
    with served(app_of(shop.studio)) as address:
        page = browse()
        page.goto(address)
        page.get_by_role("link", name="1 golfer is due to be asked").click()
        assert page.locator("h1").inner_text() == "1 golfer is due to be asked how the club does."
        page.get_by_role("link", name="Write it down for Ottoline Brambleby").click()

        page.get_by_label("Plays it", exact=True).check()
        page.locator("#ask").get_by_label("In the golfer’s words").fill("Straighter, I think.")
        page.get_by_role("button", name="Write it down").click()
        assert page.locator("h1").inner_text() == "Ottoline plays it."

        page.get_by_text("Add many from a table").click()
        lines = [f"2026-12-{day},Mossy Bottom,13,{day % 3 + 3},,\n" for day in range(10, 18)]
        head = "day,course,drives,fairways,total_yd,measured\n"
        page.get_by_label("Lines of a table").fill(head + "".join(lines) + "soon,,13,5,,\n")
        page.get_by_role("button", name="Add the table").click()
        assert page.get_by_role("cell", name="'soon' is no day", exact=False).is_visible()
        page.get_by_label("Lines of a table").fill(head + "".join(lines))
        page.get_by_role("button", name="Add the table").click()
        assert page.locator("h1").inner_text() == "Fairways: less than said."

        page.get_by_role("link", name="Open the complaint page").click()
        page.get_by_label("In the golfer’s words").fill("It was longer in your bay.")
        page.get_by_label("Drives are shorter by").fill("12")
        page.get_by_role("button", name="Begin to look").click()
        page.get_by_label("Length now").fill("45.0")
        page.get_by_label("Loft now").fill("9.4")
        page.get_by_label("As the figures say").check()
        page.get_by_role("button", name="Write it down").click()
        assert page.locator("h1").inner_text() == (
            "The club does not measure as it was handed over."
        )
        page.get_by_label("The club changed").check()
        page.get_by_label("What was agreed").fill("Bent back to 10.5 on Friday.")
        page.get_by_role("button", name="End the complaint").click()
        assert "the club had changed" in page.locator("h1").inner_text()

        page.get_by_role("button", name="Undo end of the complaint").click()
        page.wait_for_selector("#look")
        assert "The findings speak for: the club changed." in page.locator("#end").inner_text()
        page.get_by_role("button", name="Do again: end of the complaint").click()
        page.wait_for_selector("#earlier")
        assert "Bent back to 10.5 on Friday." in page.locator("#earlier").inner_text()
        page.goto(f"{address}/follow-ups")
        assert page.locator("h1").inner_text() == "Nobody is due to be asked."


def test_a_look_is_taken_by_keyboard_alone(browse: Browse) -> None:
    shop = Shop()
    fitting = shop.fitting()
    shop.taken(fitting)
    shop.do(fitting, Complained(day=shop.studio.today(), words="short"))
    with served(app_of(shop.studio)) as address:
        page = browse()
        page.goto(f"{address}/fittings/{fitting}/complaint?look=ball")
        page.locator("#look input[type=radio]").first.focus()
        page.keyboard.press("ArrowDown")
        page.keyboard.press("Tab")
        page.keyboard.type("Range balls")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        page.wait_for_selector("text=Another ball")
        assert "Range balls" in page.locator("#looks").inner_text()
