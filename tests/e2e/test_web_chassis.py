"""The chassis in Chromium: live parts, lost links, acts, themes, and what a finger needs."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser import (
    LOST,
    LYING,
    NARROW,
    THEMES,
    UPRIGHT,
    Browse,
    Faults,
    axe_findings,
    small_targets,
    wider_than_window,
)
from loftwright.web.security import Access
from loftwright.web.server import access_for, outer_address
from serving import ServerProcess, free_port, served
from tally_pages import TOPIC, Tally, tally_app

BAY = "/fittings/7/bay"
REFUSED = r"Failed to load resource.*(40\d|422)"


@pytest.fixture
def tally() -> Tally:
    return Tally()


@pytest.fixture
def studio(tally: Tally) -> Iterator[str]:
    with served(tally_app(tally)) as address:
        yield address


@pytest.fixture
def process(tmp_path: Path) -> Iterator[ServerProcess]:
    program = str(Path(__file__).parents[1] / "tally_pages.py")
    made = ServerProcess([program, "PORT"], free_port(), tmp_path / "studio")
    made.start()
    yield made
    made.kill()


def open_bay(page: Page, studio: str, painted: int = 0) -> None:
    page.goto(f"{studio}{BAY}")
    expect(page.locator("body")).to_have_attribute("data-painted-revision", str(painted))


def add(page: Page) -> None:
    page.get_by_role("button", name=re.compile(r"^Add \d")).click()


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("size", [LYING, UPRIGHT, NARROW], ids=["1280", "820", "768"])
@pytest.mark.parametrize("path", [BAY, "/fittings/8/bay", "/pair", "/devices", "/nowhere"])
def test_every_page_can_be_read_and_touched(
    browse: Browse, faults: Faults, studio: str, path: str, size: tuple[int, int], theme: str
) -> None:
    if path == "/nowhere":
        faults.allow("404")
    page = browse(theme=theme, size=size)
    page.goto(f"{studio}{path}")
    assert axe_findings(page) == []
    assert small_targets(page) == []
    assert wider_than_window(page) == 0


def test_the_theme_changes_at_once_and_stays(page: Page, studio: str) -> None:
    open_bay(page, studio)
    paper = "getComputedStyle(document.body).backgroundColor"
    bright = page.evaluate(paper)
    with page.expect_response("**/theme"):
        page.get_by_role("button", name="Dark").click()
    dark = page.evaluate(paper)
    assert dark != bright
    page.reload()
    assert page.evaluate(paper) == dark
    assert page.evaluate("document.documentElement.dataset.theme") == "dark"
    assert axe_findings(page) == []
    with page.expect_response("**/theme"):
        page.get_by_role("button", name="As the system").click()
    assert page.evaluate(paper) == bright


def test_letters_are_set_in_our_own_typefaces(page: Page, studio: str) -> None:
    open_bay(page, studio)
    page.evaluate("document.fonts.ready")
    loaded = page.evaluate(
        "[...document.fonts].filter((one) => one.status === 'loaded').map((one) => one.family)"
    )
    assert {"Source Sans 3", "Source Serif 4"} <= {name.strip('"') for name in loaded}


def test_an_act_appears_on_every_screen_without_leaving_the_page(
    browse: Browse, studio: str
) -> None:
    here, there = browse(), browse(size=UPRIGHT)
    open_bay(here, studio)
    open_bay(there, studio)
    here.evaluate("window.same = true")
    add(here)
    for page in (here, there):
        expect(page.locator("body")).to_have_attribute("data-painted-revision", "1")
        expect(page.locator("#count")).to_have_text("1")
    assert here.evaluate("window.same")


def test_an_act_works_without_script(browse: Browse, studio: str) -> None:
    page = browse(java_script_enabled=False)
    page.goto(f"{studio}{BAY}")
    add(page)
    expect(page.locator("#count")).to_have_text("1")
    page.get_by_role("button", name="Dark").click()
    expect(page.locator("html")).to_have_attribute("data-theme", "dark")


def test_two_taps_in_one_moment_are_one_act(page: Page, studio: str, tally: Tally) -> None:
    open_bay(page, studio)
    page.evaluate(
        """() => { const button = document.querySelector('#part-last button');
        button.click(); button.click(); button.click(); }"""
    )
    expect(page.locator("#count")).to_have_text("1")
    assert len(tally.keys) == 1


def test_a_refusal_stands_where_it_was_caused_with_its_mend(
    page: Page, studio: str, faults: Faults
) -> None:
    faults.allow(REFUSED)
    open_bay(page, studio)
    page.get_by_role("button", name="Do what cannot be").click()
    alert = page.get_by_role("alert")
    expect(alert).to_contain_text("a face is not 400 mm wide. Tap the face again.")
    assert axe_findings(page) == []
    page.get_by_role("button", name="Do what is stale").click()
    expect(alert).to_have_count(2)
    page.get_by_role("button", name="Do what cannot be").click()
    expect(alert).to_have_count(2)
    alert.get_by_role("button", name="Close").first.click()
    expect(alert).to_have_count(1)


def test_what_is_half_typed_survives_a_change(page: Page, studio: str) -> None:
    open_bay(page, studio)
    note = page.get_by_label("Note")
    note.fill("thin one")
    note.evaluate("(one) => one.setSelectionRange(2, 4)")
    page.request.post(f"{studio}/fittings/7/acts/add", form={"key": "elsewhere"})
    expect(page.locator("#count")).to_have_text("1")
    expect(note).to_have_value("thin one")
    expect(note).to_be_focused()
    assert note.evaluate("(one) => [one.selectionStart, one.selectionEnd]") == [2, 4]


def test_the_focus_stays_on_a_button_that_is_drawn_anew(page: Page, studio: str) -> None:
    open_bay(page, studio)
    page.get_by_role("button", name="Add 1").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Add 2")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("#count")).to_have_text("2")


def test_a_tap_is_not_lost_to_a_change_that_comes_while_the_finger_is_down(
    page: Page, studio: str
) -> None:
    open_bay(page, studio)
    page.get_by_role("button", name="Add 1").hover()
    page.mouse.down()
    page.request.post(f"{studio}/fittings/7/acts/add", form={"key": "elsewhere"})
    expect(page.locator("#link")).to_have_text("Live")
    page.wait_for_timeout(200)
    expect(page.locator("#count")).to_have_text("0")
    page.mouse.up()
    expect(page.locator("#count")).to_have_text("2")


def test_a_finger_that_stays_holds_nothing_up_for_long(page: Page, studio: str) -> None:
    open_bay(page, studio)
    page.get_by_role("button", name="Dark").hover()
    page.mouse.down()
    page.request.post(f"{studio}/fittings/7/acts/add", form={"key": "elsewhere"})
    expect(page.locator("#count")).to_have_text("1")


def test_a_killed_studio_is_caught_up_with_by_itself(
    page: Page, process: ServerProcess, faults: Faults
) -> None:
    faults.allow(LOST)
    open_bay(page, process.address)
    add(page)
    expect(page.locator("#count")).to_have_text("1")
    process.kill()
    line = page.locator("#link")
    expect(line).to_have_text(
        re.compile(
            r"^Link to the studio lost \d+ s ago; trying again (in \d s|now)\. "
            r"What you see is from \d\d:\d\d:\d\d\.$"
        )
    )
    expect(page.locator("#count")).to_be_visible()
    assert axe_findings(page) == []
    assert wider_than_window(page) == 0
    page.evaluate("document.body.removeAttribute('data-painted-revision')")
    process.start()
    expect(line).to_have_text("Live")
    expect(page.locator("body")).to_have_attribute("data-painted-revision", "1")
    expect(page.locator("#link-spoken")).to_have_text("The link to the studio is back.")


def test_acts_wait_for_the_link_in_their_order_and_are_written_once(
    page: Page, process: ServerProcess, faults: Faults
) -> None:
    faults.allow(LOST)
    open_bay(page, process.address)
    process.kill()
    for name in ("first", "second"):
        page.evaluate(
            """async (name) => {
            const script = document.querySelector('script[src*="/act.js"]').src;
            (await import(script)).act('/fittings/7/acts/add', { name }); }""",
            name,
        )
    expect(page.locator("#link")).to_contain_text("2 acts wait for the link.")
    process.start()
    expect(page.locator("#count")).to_have_text("2")
    expect(page.locator("#link")).to_have_text("Live")


def test_a_page_that_nobody_looks_at_lets_go_and_catches_up_when_seen(browse: Browse) -> None:
    app = tally_app()
    hub = app.state.studio.hub
    with served(app) as address:
        page = browse()
        page.clock.install()
        open_bay(page, address)
        hide = """(hidden) => { Object.defineProperty(document, 'hidden',
            { value: hidden, configurable: true });
            document.dispatchEvent(new Event('visibilitychange')); }"""
        page.evaluate(hide, True)
        page.clock.run_for(16_000)
        page.wait_for_timeout(200)
        assert hub.watching(TOPIC) == 0
        page.request.post(f"{address}/fittings/7/acts/add", form={"key": "elsewhere"})
        expect(page.locator("#count")).to_have_text("0")
        page.evaluate(hide, False)
        expect(page.locator("#count")).to_have_text("1")
        expect(page.locator("#link")).to_have_text("Live")


def test_a_withdrawn_tablet_sees_nothing_more(browse: Browse, faults: Faults) -> None:
    faults.allow(r"Failed to load resource.*(401|403)|ERR_INCOMPLETE")
    app = tally_app(access=Access(paired=True))
    pairing = app.state.pairing
    with served(app) as address:
        let_in = pairing.let_in(pairing.new_code().figures, name="Tablet", role="fitter")
        page = browse(extra_http_headers={"X-Forwarded-For": "192.0.2.20"})
        page.context.add_cookies([{"name": "loftwright_key", "value": let_in.key, "url": address}])
        open_bay(page, address)
        assert app.state.studio.hub.watching(TOPIC) == 1
        pairing.withdraw(let_in.device.id)
        page.wait_for_url("**/pair")
        assert app.state.studio.hub.watching(TOPIC) == 0


def test_a_new_device_is_let_in_from_the_main_screen(browse: Browse, faults: Faults) -> None:
    faults.allow(REFUSED)
    with served(tally_app(access=Access(paired=True))) as address:
        screen = browse()
        device = browse(size=UPRIGHT, extra_http_headers={"X-Forwarded-For": "192.0.2.20"})
        screen.goto(f"{address}/devices")
        assert axe_findings(screen) == []
        screen.get_by_role("button", name="Let a device in").click()
        figures = screen.locator(".code output").inner_text()
        assert axe_findings(screen) == []
        device.goto(f"{address}{BAY}")
        device.wait_for_url("**/pair")
        device.get_by_label("Code").fill("no")
        device.get_by_label("Name of this device").fill("Rack tablet")
        device.get_by_role("radio", name=re.compile("Workshop")).check()
        with device.expect_response("**/pair") as answered:
            device.get_by_role("button", name="Let in").click()
        assert answered.value.status == 422
        assert axe_findings(device) == []
        device.get_by_label("Code").fill(figures)
        device.get_by_role("button", name="Let in").click()
        device.wait_for_url("**/rack")
        screen.reload()
        screen.locator("summary", has_text="Rack tablet").click()
        assert axe_findings(screen) == []
        screen.get_by_role("button", name="Yes, withdraw Rack tablet").click()
        expect(screen.get_by_text("No other device is let in yet.")).to_be_visible()


def test_a_tablet_on_the_shop_s_network_does_all_that_the_main_screen_does(
    browse: Browse, faults: Faults
) -> None:
    """An address that is not loopback is no secure origin, where browsers withhold much."""
    outer = outer_address("0.0.0.0")  # noqa: S104 - asks for the address, binds nothing
    faults.near.add(outer)
    faults.allow("404")
    app = tally_app(access=access_for(outer))
    with served(app, outer) as address:
        tablet = browse(size=UPRIGHT)
        tablet.goto(f"{address}/pair")
        assert tablet.evaluate("isSecureContext") is (outer == "127.0.0.1")
        tablet.get_by_label("Code").fill(app.state.pairing.new_code().figures)
        tablet.get_by_label("Name of this device").fill("Tablet")
        with tablet.expect_response("**/pair") as answered:
            tablet.get_by_role("button", name="Let in").click()
        assert answered.value.status == 303
        open_bay(tablet, address)
        add(tablet)
        expect(tablet.locator("#count")).to_have_text("1")
        plain = browse(java_script_enabled=False, storage_state=tablet.context.storage_state())
        plain.goto(f"{address}{BAY}")
        add(plain)
        expect(tablet.locator("#count")).to_have_text("2")


def test_a_request_off_the_machine_would_fail_a_test(
    page: Page, studio: str, faults: Faults
) -> None:
    """The net that every other test hangs in holds: the policy stops it and it is noticed."""
    open_bay(page, studio)
    with page.expect_console_message(lambda message: "Content Security" in message.text):
        page.evaluate("fetch('http://192.0.2.1/').catch(() => {})")
    page.evaluate("0")
    assert any("Content Security Policy" in fault for fault in faults.standing())
    faults.found.clear()
