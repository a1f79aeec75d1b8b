"""The ways in, in Chromium: sound in every theme and size, and usable by keyboard alone."""

import pytest

from bays import a_bay
from browser import LYING, THEMES, UPRIGHT, Browse, Faults, axe_findings, small_targets
from browser import wider_than_window as excess
from loftwright.web.app import create_app
from serving import served

TABLE = "Club;Ball speed (mph);Launch (deg);Spin (rpm)\nOwn;148;12;2500\nAsh;147;11;2600\n"


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("size", [LYING, UPRIGHT])
def test_the_ways_in_are_sound_also_with_a_question_open(
    browse: Browse, faults: Faults, theme: str, size: tuple[int, int]
) -> None:
    faults.allow("422")
    bay = a_bay()
    page = browse(theme=theme, size=size)
    with served(create_app(bay.studio)) as address:
        page.goto(f"{address}/fittings/{bay.fitting}/ways-in")
        assert (axe_findings(page), small_targets(page), excess(page)) == ([], [], 0)
        page.get_by_label("Headings and rows").fill(TABLE.replace("Ball speed (mph)", "Speed"))
        page.get_by_role("button", name="Take the balls").click()
        page.get_by_role("group", name="could be ball speed or head speed").wait_for()
        assert (axe_findings(page), small_targets(page), excess(page)) == ([], [], 0)


def test_a_table_comes_in_by_keyboard_alone(browse: Browse) -> None:
    bay = a_bay()
    page = browse()
    with served(create_app(bay.studio)) as address:
        page.goto(f"{address}/fittings/{bay.fitting}/ways-in")
        page.get_by_label("Headings and rows").focus()
        page.keyboard.insert_text(TABLE)
        page.keyboard.press("Tab")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        page.get_by_text("2 balls came in.").wait_for()
    assert [one.club for one in bay.now.swings] == ["Own", "Ash"]
