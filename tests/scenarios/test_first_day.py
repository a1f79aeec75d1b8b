"""The first day: an empty shop without a bench comes to its first plan within ten minutes.

Own club, two heads, four shafts by weight, length and paper label only.
"""

from collections.abc import Callable

from playwright.sync_api import Page

from keystrokes import Person
from loftwright.bay.replay import replay
from loftwright.web.pages import golfer, plan, rack, rack_item, today
from serving import served
from studios import app_of, studio_in_memory

HEADS = (("Harrow 460", "10.5"), ("Lapwing LS", "9"))
SHAFTS = (
    ("Reedmace", "60", "firm", "45.25"),
    ("Sedge", "50", "soft", "45.5"),
    ("Teasel", "65", "firm", "45"),
    ("Bulrush", "70", "hard", "44.75"),
)
TEN_MINUTES = 600.0


def test_an_empty_shop_plans_its_first_fitting_in_ten_minutes(
    page: Page, say: Callable[[str], None]
) -> None:
    studio = studio_in_memory()
    app = app_of(studio, today.router, rack.router, rack_item.router, golfer.router, plan.router)
    with served(app) as address:
        page.goto(address)
        person = Person(page=page)
        person.presses("Fill the rack")
        for name, loft in HEADS:
            person.types("name", name, form='form[action="/rack/heads"]')
            person.types("loft", loft, form='form[action="/rack/heads"]')
            person.presses("Add the head")
        person.presses("A shaft, and the club it makes")
        before = ""
        for place, (name, weight, label, length) in enumerate(SHAFTS):
            form = 'form[action="/rack/shafts"]'
            person.types("name", name, form=form)
            person.types("paper_mass", weight, form=form)
            person.types("paper_label", label, form=form)
            head = f"{HEADS[place % 2][0]}, {float(HEADS[place % 2][1]):.1f}°"
            if head != before:
                person.chooses("head", head, form=form)
                before = head
            person.types("length", length, form=form)
            person.presses("Add the shaft")
        assert page.locator("td", has_text="not measured").count() == 8
        person.presses("Today")
        person.presses("Start a fitting")
        person.types("name", "Ottoline Brambleby")
        person.ticks("hand", "right")
        person.types("own_loft", "10.5")
        person.types("own_length", "45.5")
        person.presses("Open the fitting")
        person.presses("Make the plan")
        # An hour does not hold five clubs, and the page says what it gives up.
        assert "3 clubs, 27 balls" in page.inner_text("h1")
        assert "3 clubs, not 5" in page.inner_text("main")
    (fitting,) = studio.store.fittings()
    now = replay(studio.record(fitting.value.id))
    assert now.plan is not None
    assert {club.name for club in now.clubs} == {"Own", "Ash", "Birch", "Cedar", "Elm"}
    assert not any(club.card.measured for club in now.clubs)
    say(
        f"first plan from an empty shop: {person.fields} fields, {person.clicks} clicks, "
        f"{person.keys} keys, {person.seconds:.0f} s by the keystroke-level model (600 allowed)"
    )
    assert person.fields <= 28
    assert person.clicks <= 13
    assert person.seconds <= TEN_MINUTES
