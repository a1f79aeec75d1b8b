"""From an empty studio to the printed page, with the server killed in the middle of it."""

import re
from collections.abc import Iterator
from pathlib import Path

import httpx
import pypdfium2
import pytest
from playwright.sync_api import Page, expect

from browser import Browse, Faults
from keystrokes import Person
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.shot import Shot
from loftwright.training.one_ball import VirtualPlayer
from serving import ServerProcess, free_port

SERVE = ("-c", "from loftwright.cli.app import main; main()", "serve", "--port", "PORT")
SHAFTS = (("Reedmace", "60", "45.25"), ("Sedge", "52", "45.5"))
PLAYER = VirtualPlayer(seed=11, ability="low", strength=3.0)
KEYS = {
    "ball_speed_mph": ("ball_speed", MILE_PER_HOUR),
    "launch_deg": ("launch", DEGREE),
    "direction_deg": ("direction", DEGREE),
    "spin_rpm": ("spin", REVOLUTION_PER_MINUTE),
    "axis_deg": ("axis", DEGREE),
    "head_speed_mph": ("head_speed", MILE_PER_HOUR),
    "attack_deg": ("attack", DEGREE),
    "path_deg": ("path", DEGREE),
    "face_deg": ("face", DEGREE),
}


@pytest.fixture
def server(tmp_path: Path) -> Iterator[ServerProcess]:
    """Serve an empty studio from a process of its own."""
    process = ServerProcess(SERVE, free_port(), tmp_path)
    process.start()
    yield process
    process.kill()


def record_of(shot: Shot, key: str) -> dict[str, object]:
    """Return a ball as a device posts it."""
    told = {name: getattr(shot, field) / unit for name, (field, unit) in KEYS.items()}
    return {"key": key, **{name: round(value, 2) for name, value in told.items()}}


def test_an_empty_studio_comes_to_a_printed_page_through_a_killed_server(
    server: ServerProcess, browse: Browse, faults: Faults
) -> None:
    faults.allow("ERR_CONNECTION_REFUSED|ERR_INCOMPLETE_CHUNKED|ERR_EMPTY_RESPONSE|Failed to load")
    page = browse()
    person = Person(page=page)
    page.goto(server.address)
    person.presses("Fill the rack")
    person.types("name", "Harrow 460", form='form[action="/rack/heads"]')
    person.types("loft", "10.5", form='form[action="/rack/heads"]')
    person.presses("Add the head")
    person.presses("A shaft, and the club it makes")
    for name, weight, length in SHAFTS:
        form = 'form[action="/rack/shafts"]'
        person.types("name", name, form=form)
        person.types("paper_mass", weight, form=form)
        person.chooses("head", "Harrow 460, 10.5°", form=form)
        person.types("length", length, form=form)
        person.presses("Add the shaft")
    person.presses("Today")
    person.presses("Start a fitting")
    person.types("name", "Ottoline Brambleby")
    person.ticks("hand", "right")
    person.types("own_loft", "10.5")
    person.types("own_length", "45.5")
    person.presses("Open the fitting")
    person.presses("Make the plan")
    person.ticks("pain", "no")
    person.presses("Start the warm-up")
    fitting = re.search(r"/fittings/([0-9a-f-]+)/", page.url).group(1)  # type: ignore[union-attr]
    posts = f"{server.address}/api/fittings/{fitting}/shots"

    page.goto(f"{server.address}/fittings/{fitting}/bay")
    page.get_by_role("button", name=re.compile("Own in hand")).first.click()
    page.wait_for_selector("text=In hand")
    with httpx.Client() as device:
        answer = device.post(posts, json=record_of(PLAYER.hit(0, 0), "warm"))
        assert answer.json()["ball"] == 0
        warm = page.get_by_role("button", name=re.compile("Warm-up done"))
        warm.first.click()
        expect(warm).to_have_count(0)
        for order, club in enumerate(("Own", "Ash", "Birch", "Own", "Ash", "Birch", "Own")):
            if order == 3:
                server.kill()
                server.start()
                expect(page.locator("#link")).to_have_text("Live", timeout=20_000)
            hand_over(page, club)
            for ball in range(3):
                place = 3 * order + ball
                shot = PLAYER.hit(("Own", "Ash", "Birch").index(club), place + 1)
                device.post(posts, json=record_of(shot, f"k{place}")).raise_for_status()
        assert len([one for one in device.get(posts).json() if one["ball"]]) == 21

    page.goto(f"{server.address}/fittings/{fitting}/evidence")
    assert "Own" in page.inner_text("h1")
    page.goto(f"{server.address}/fittings/{fitting}/choice")
    assert page.inner_text("h1")
    answer = httpx.get(f"{server.address}/fittings/{fitting}/report.pdf", timeout=30.0)
    assert answer.headers["content-type"] == "application/pdf"
    document = pypdfium2.PdfDocument(answer.content)
    assert len(document) == 2
    assert "Ottoline Brambleby" in document[0].get_textpage().get_text_range()
    document.close()


def hand_over(page: Page, club: str) -> None:
    """Hand a club over on the bay page, if it is not in hand already."""
    in_hand = page.locator("#part-hand .far span").first
    if in_hand.inner_text() == club:
        return
    proposed = page.get_by_role("button", name=f"{club} in hand", exact=True)
    if not proposed.first.is_visible():
        page.get_by_role("button", name="Other club", exact=True).first.click()
    proposed.first.click()
    expect(in_hand).to_have_text(club)
