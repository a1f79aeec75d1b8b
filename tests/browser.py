"""Pages in Chromium: a test fails when a page asks for anything off the machine or complains.

A folder of tests takes the fixtures by importing them into its conftest.
"""

import re
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlsplit

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, ConsoleMessage, Page, Request, expect, sync_playwright

LYING = (1280, 900)
UPRIGHT = (820, 1180)
NARROW = (768, 1024)
LOW = ((768, 900), NARROW, (1024, 700), (1280, 800))
"""Windows of tablets and laptops from which the browser's own bars took some height."""
THEMES = ("bright", "dark")
LOST = r"Failed to load resource|net::ERR_|Failed to fetch"
"""What a browser says where a link is lost."""
# The studio of a test may end before its pages do: that they then find nobody is no fault.
_GONE = re.compile(r"net::ERR_")
# What comes at once on a quiet machine may take long beside other tests; nothing waits for it.
PATIENCE = 30_000
expect.set_options(timeout=PATIENCE)
_ARGUMENTS = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
)


@dataclass
class Faults:
    """What pages did that they should not; `allow` names what a test provokes on purpose.

    `near` holds the names of this machine.
    """

    found: list[str] = field(default_factory=list)
    allowed: list[re.Pattern[str]] = field(default_factory=lambda: [_GONE])
    near: set[str] = field(default_factory=lambda: {"127.0.0.1", "localhost"})

    def allow(self, pattern: str) -> None:
        """Let a complaint of the console pass; never a request off the machine."""
        self.allowed.append(re.compile(pattern))

    def console(self, message: ConsoleMessage) -> None:
        """Take in a line of the console."""
        if message.type in {"error", "warning"}:
            self.complaint(f"{message.type}: {message.text}")

    def complaint(self, text: str) -> None:
        """Take in a complaint."""
        self.found.append(text)

    def request(self, request: Request) -> None:
        """Take in a request."""
        parts = urlsplit(request.url)
        if parts.scheme in {"http", "https", "ws", "wss"} and parts.hostname not in self.near:
            self.found.append(f"request off the machine: {request.url}")

    def standing(self) -> list[str]:
        """Return the faults that no test allowed."""
        return [
            fault
            for fault in self.found
            if fault.startswith("request off")
            or not any(pattern.search(fault) for pattern in self.allowed)
        ]


Browse = Callable[..., Page]


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """Start the Chromium of the system once a module.

    While it runs, its event loop is the thread's running one, so it must not outlive the tests
    that need it: `asyncio.run` would refuse in all that follow.
    """
    path = shutil.which("chromium")
    if path is None:
        pytest.fail("Chromium is missing. On Debian: apt-get install chromium", pytrace=False)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=list(_ARGUMENTS))
        yield browser
        browser.close()


@pytest.fixture
def faults() -> Iterator[Faults]:
    """Fail a test at its end if a page did what it should not."""
    watched = Faults()
    yield watched
    standing = watched.standing()
    if standing:
        pytest.fail("\n".join(("pages did what they should not:", *standing)), pytrace=False)


@pytest.fixture
def browse(chromium: Browser, faults: Faults) -> Iterator[Browse]:
    """Return a function that opens a window: `browse(theme="dark", size=UPRIGHT)`."""
    contexts = []

    def window(
        theme: str = "bright",
        size: tuple[int, int] = LYING,
        **more: Any,  # noqa: ANN401 - further options of a browser context
    ) -> Page:
        context = chromium.new_context(
            viewport={"width": size[0], "height": size[1]},
            color_scheme="dark" if theme == "dark" else "light",
            reduced_motion="reduce",
            **more,
        )
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(PATIENCE)
        page.on("request", faults.request)
        page.on("console", faults.console)
        page.on("pageerror", lambda error: faults.complaint(f"script: {error}"))
        return page

    yield window
    for context in contexts:
        context.close()


@pytest.fixture
def page(browse: Browse) -> Page:
    """Return a bright window of 1280 × 900."""
    return browse()


def axe_findings(page: Page) -> list[str]:
    """Return what axe finds wrong on a page, each with the element; it should be nothing."""
    response = Axe().run(page).response
    return [
        f"{finding['id']}: {finding['help']}: {node['html']} {node.get('failureSummary', '')}"
        for finding in response["violations"]
        for node in finding["nodes"]
    ]


def small_targets(page: Page, least: int = 48) -> list[str]:
    """Return what can be touched on a page but is smaller than a finger wants it.

    Links in running text are left out, as WCAG 2.2, success criterion 2.5.8 does.
    """
    found: list[str] = page.evaluate(
        """(least) => [...document.querySelectorAll('a, button, input, select, textarea, summary')]
        .filter((one) => one.checkVisibility() && one.type !== 'hidden')
        .filter((one) => !one.closest('p') && !one.classList.contains('skip'))
        .map((one) => [one, (/radio|checkbox/.test(one.type) && one.closest('label')) || one])
        .map(([one, area]) => [one, area.getBoundingClientRect()])
        .filter(([, box]) => box.width > 0 && Math.min(box.width, box.height) < least - 0.5)
        .map(([one, box]) => `${one.outerHTML.slice(0, 80)}: ${box.width} x ${box.height}`)""",
        least,
    )
    return found


def cut_or_covered(page: Page, within: str, *, apart: str = "") -> list[str]:
    """Return what is cut off inside a part of a page, and what lies over something else there.

    Parameters
    ----------
    within : str
        Selector of the part.
    apart : str
        Selector of what may lie over the rest, such as a bar that stays in view.
    """
    found: list[str] = page.evaluate(
        """([within, apart]) => {
          const all = ':is(h1, h2, p, li, button, .btn, input, svg[role="img"])';
          const seen = [...document.querySelectorAll(`${within} ${all}`)]
            .filter((one) => one.checkVisibility() && !one.closest('.vh'))
            .filter((one) => !apart || !one.closest(apart))
            .map((one) => [one, one.getBoundingClientRect()])
            .filter(([, box]) => box.width > 0);
          const name = (one) => `${one.tagName} ${one.textContent.trim().slice(0, 40)}`;
          const over = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1
            && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1;
          const cut = [...document.querySelectorAll(`${within} *`)]
            .filter((one) => one.checkVisibility() && !one.closest('.vh, svg'))
            .filter((one) => getComputedStyle(one).display !== 'inline')
            .filter((one) => one.scrollWidth > one.clientWidth + 1)
            .map((one) => `cut: ${name(one)}`);
          const covered = seen.flatMap(([one, box], place) => seen.slice(place + 1)
            .filter(([other]) => !one.contains(other) && !other.contains(one))
            .filter(([, its]) => over(box, its))
            .map(([other]) => `${name(one)} lies over ${name(other)}`));
          return [...cut, ...covered];
        }""",
        [within, apart],
    )
    return found


def wider_than_window(page: Page) -> int:
    """Return by how many pixels a page is wider than its window."""
    excess: int = page.locator("html").evaluate("root => root.scrollWidth - root.clientWidth")
    return excess
