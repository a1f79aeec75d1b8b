"""From the choice to the end of a complaint in Chromium: one golfer, one club, one record."""

import re
from collections.abc import Iterator
from datetime import date

import pytest
from playwright.sync_api import Page, expect

from browser import Browse, Faults
from built_jobs import DRAFT
from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.acts import WarmUpDone
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.sheet_acts import Bonded
from loftwright.physics.build.swingweight import index_of
from loftwright.services.acting import act
from loftwright.services.demo_studio import DemoStudio, fill_demo
from loftwright.services.studio import Studio
from loftwright.services.warm_up import warm_up
from loftwright.workshop.final import HandCheck
from loftwright.workshop.standing import newest, standing
from pick_ups import TESTED, Built
from serving import served
from studios import Clock, app_of, studio_in_memory

LENGTH = 45.25


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def demo(studio: Studio) -> DemoStudio:
    made = fill_demo(studio)
    assert made is not None
    return made


@pytest.fixture
def address(studio: Studio, demo: DemoStudio) -> Iterator[str]:
    measure_the_tested_club(studio, demo)
    warm_up()
    with served(app_of(studio)) as found:
        yield found


def measure_the_tested_club(studio: Studio, demo: DemoStudio) -> None:
    """Keep what was measured of the club that won, and of its head."""
    club = studio.standing(demo.finished).club(TESTED)
    assert club is not None
    head = PartFigures(
        mass=198.0 * GRAM, loft=club.card.loft, lie=club.card.lie, face=club.card.face
    )
    whole = PartFigures(
        mass=325.0 * GRAM,
        length=LENGTH * INCH,
        swingweight=index_of("D3"),
        inertia=2890.0 * KILOGRAM_SQUARE_CENTIMETRE,
    )
    for item, figures in ((club.card.head_piece, head), (club.card.assembly, whole)):
        card = MeasuredCard(item=item, day=date(2026, 11, 20), by="K.L.", figures=figures)
        studio.store.keep_card(card)


def fill(page: Page, name: str, text: str) -> None:
    page.locator(f'[name="{name}"]').first.fill(text)


def quote_and_agree(page: Page) -> None:
    page.get_by_role("link", name=re.compile(rf"Quote this\s+for {TESTED}$")).click()
    page.get_by_role("button", name="Quote it", exact=True).click()
    page.get_by_label("Name, as signed").fill("Rosalind Quickly")
    page.get_by_role("button", name="Agreed here").click()
    expect(page.locator("h1")).to_contain_text("is agreed at")


def check_the_head_in(page: Page) -> None:
    """Check in a head that is three grams light and one degree strong, and settle it."""
    head = page.locator("#head")
    head.get_by_label("It is what was ordered").check()
    head.get_by_label("Right").check()
    for name, figure in (("Weight", "195"), ("Loft", "9.5"), ("Lie", "58"), ("Face", "0")):
        head.get_by_label(name, exact=False).first.fill(figure)
    head.get_by_role("button", name="Check it in").click()
    expect(page.locator("h1")).to_contain_text("The head is 3.0 g light and 1.0° strong")
    head.get_by_label("Add 3.0 g to the head").check()
    head.get_by_label("Turn the sleeve to one up").check()
    head.get_by_role("button", name="Settle it").click()
    expect(page.locator("#head")).to_contain_text("Settled:")


def issue_the_sheet(page: Page) -> None:
    expect(page.locator('[name="head.mass_g"]').first).to_have_value("195")
    expect(page.locator('[name="target.swingweight"]').first).to_have_value(re.compile("^D3"))
    kept = {"head.mass_g", "setting", "head", "shaft"}
    for name, text in DRAFT.items():
        field = page.locator(f'[name="{name}"]').first
        if name in kept or name.startswith("target.") or not field.is_visible():
            continue
        if name not in {"bond", "material", "condition", "grip_by"}:
            field.fill(text)
    fill(page, "shaft.raw_length_inch", "46.5")
    page.get_by_role("button", name="Issue revision 1").click()
    expect(page.locator("#next h2")).to_have_text("Step 1: Weigh every part")
    loft = page.locator("#targets tr", has_text="Loft").locator("td").all_inner_texts()
    assert loft[:2] == ["10.5°", "10.7°"], "the strong head sits one up"


def tick_off(page: Page) -> None:
    """Read what the sheet says at the hold point and tick the step."""
    before = page.locator("#next h2").inner_text()
    for hint in page.locator("#next .field:has(.hint)").all():
        said = hint.locator(".hint").inner_text()
        if said.startswith("The sheet says"):
            figure = said.removeprefix("The sheet says ").split(";")[0].rstrip(".")
            hint.locator("input").fill(re.sub(r" (g|in)$", "", figure))
    fill(page, "initials", "K.L.")
    page.locator("#next button").first.click()
    expect(page.locator("#next h2")).not_to_have_text(before)


def bond_it(page: Page) -> None:
    while "Bond" not in page.locator("#next h2").inner_text():
        tick_off(page)
    fill(page, "batch", "B7")
    fill(page, "hours", "24")
    fill(page, "initials", "K.L.")
    page.get_by_role("button", name="Bonded: lock the club until its time").click()
    expect(page.locator("h1")).to_contain_text("Nobody hits this club before")


def receive(page: Page, *, length: str) -> None:
    """Take the receipt with one reading of the club's length."""
    readings = {"length": length, "mass": "325.0", "swingweight": "D3.0"}
    for name, text in readings.items():
        page.locator(f"[name={name}]").fill(text)
    for one in HandCheck:
        page.locator(f"input[name=look_{one.value}][value=yes]").check()
    page.get_by_label("Who looked").fill("Petronella Vane")


def test_one_club_goes_from_the_choice_to_the_end_of_a_complaint(
    browse: Browse, faults: Faults, studio: Studio, clock: Clock, demo: DemoStudio, address: str
) -> None:
    faults.allow("status of 4(09|22)")
    page = browse()
    at = f"{address}/fittings/{demo.finished}"
    page.goto(f"{at}/choice")
    quote_and_agree(page)

    page.goto(f"{at}/build/parts")
    check_the_head_in(page)
    page.goto(f"{at}/build")
    issue_the_sheet(page)
    bond_it(page)

    page.goto(f"{at}/final-check")
    expect(page.locator("h1")).to_contain_text("Nobody hits, waggles or twists this club before")
    clock.forward(25.0 * 60.0)
    page.goto(f"{at}/final-check")
    receive(page, length="45.40")
    page.get_by_role("button", name="Check, without keeping").click()
    expect(page.locator("h1")).to_contain_text("Out: length")
    page.get_by_label("Rework", exact=True).check()
    page.get_by_role("button", name="Keep the receipt").click()
    expect(page.locator("h1")).to_contain_text("Rework round 1")
    receive(page, length=f"{LENGTH}")
    page.get_by_label("Accept", exact=True).check()
    page.get_by_label(re.compile("^Why")).fill("looked at by hand as well")
    page.get_by_role("button", name="Keep the receipt").click()
    expect(page.locator("h1")).to_contain_text("Accepted on")

    hit_the_pick_up_balls(page, studio, clock, demo, at)
    for box in page.locator('input[name^="told_"]').all():
        box.check()
    page.get_by_role("button", name="The golfer has the club").click()
    expect(page.locator("h1")).to_contain_text("The golfer has the club")

    clock.forward(46.0 * 24.0 * 60.0)
    page.goto(address)
    page.get_by_role("link", name="1 golfer is due to be asked").click()
    page.get_by_role("link", name=re.compile("^Write it down for")).click()
    page.get_by_label("Plays it", exact=True).check()
    page.get_by_role("button", name="Write it down").click()
    expect(page.locator("h1")).to_contain_text("plays it")

    complain_and_settle(page)
    done = page.locator("nav.job li.done").all_inner_texts()
    for step in ("Choice", "Order", "Build", "Final check"):
        assert any(step in one for one in done), done


def hit_the_pick_up_balls(
    page: Page, studio: Studio, clock: Clock, demo: DemoStudio, at: str
) -> None:
    bond = newest(standing(studio.store.job_record(demo.finished)), Bonded)
    assert bond is not None
    built = Built(studio=studio, clock=clock, fitting=demo.finished, assembly=bond.assembly)
    page.goto(f"{at}/final-check/pick-up")
    page.get_by_label("No", exact=True).check()
    page.get_by_role("button", name="Start the warm-up").click()
    expect(page).to_have_url(re.compile(r"/bay(#begin)?$"))
    act(studio, demo.finished, [WarmUpDone(unseen=8)])
    name = built.now.clubs[-1].name
    built.rotate(name)
    page.goto(f"{at}/final-check/pick-up")
    expect(page.locator("h1")).to_have_text(re.compile("^(Plays as the tested|Cannot tell|Not )"))


def complain_and_settle(page: Page) -> None:
    page.get_by_role("link", name="Open the complaint page").click()
    page.get_by_label("In the golfer’s words").fill("It was longer in your bay.")
    page.get_by_label("Drives are shorter by").fill("12")
    page.get_by_role("button", name="Begin to look").click()
    page.get_by_label("Length now").fill(f"{LENGTH}")
    page.get_by_label("As the figures say").check()
    page.get_by_role("button", name="Write it down").click()
    expect(page.locator("#looks")).to_be_visible()
    page.get_by_label("Place, ball or wind").check()
    page.get_by_label("What was agreed").fill("A premium ball, and we look again in May.")
    page.get_by_role("button", name="End the complaint").click()
    expect(page.locator("#earlier")).to_contain_text("look again in May")
