"""From the last ball to a sentence the golfer can be told, and to its reveal: taps counted."""

import re
from typing import Final

from playwright.sync_api import Page, expect

from browser import LYING, Browse
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.studio import Studio
from loftwright.services.virtual_bay import virtual_ball
from loftwright.web.app import create_app
from serving import served

DEARER: Final = "Why not the dearer one?"
LINES: Final = """cell => {
  const range = document.createRange();
  range.selectNodeContents(cell);
  const text = Array.from(range.getClientRects()).filter(one => one.width > 0);
  const height = parseFloat(getComputedStyle(cell).lineHeight);
  const top = Math.min(...text.map(one => one.top));
  const bottom = Math.max(...text.map(one => one.bottom));
  return Math.round((bottom - top) / height);
}"""
"""How many lines of text an element takes."""


def live(page: Page, address: str, path: str, upto: int) -> None:
    page.goto(f"{address}{path}")
    expect(page.locator("body")).to_have_attribute("data-painted-revision", str(upto))


def test_the_sentence_is_one_tap_from_the_last_ball_and_its_reveal_another(
    browse: Browse, studio: Studio, demo: DemoStudio
) -> None:
    fitting = demo.in_progress
    fitter, golfer = browse(size=LYING), browse()
    with served(create_app(studio)) as address:
        before = studio.record(fitting)[-1].sequence
        live(fitter, address, f"/fittings/{fitting}/bay", before)
        live(golfer, address, f"/screen/{fitting}", before)
        virtual_ball(studio, fitting)
        expect(fitter.locator("#part-fly h2")).to_contain_text("Ball 24")

        fitter.get_by_role("link", name="Choice").click()
        # The page paints itself anew once it is live; what was measured before is gone then.
        expect(fitter).to_have_url(re.compile("/choice$"))
        upto = str(studio.record(fitting)[-1].sequence)
        expect(fitter.locator("body")).to_have_attribute("data-painted-revision", upto)
        said = fitter.locator("h1").inner_text()
        expect(golfer.locator("h1")).to_have_text("Your last ball.")
        why = fitter.locator("p.claim", has_text=DEARER)
        assert why.inner_text().startswith(f"{DEARER} Cedar costs 519 crowns more, and Own")
        assert why.evaluate(LINES) == 1

        fitter.get_by_role("button", name="Reveal on the golfer’s screen").click()
        expect(golfer.locator("h1")).to_have_text(said)
        assert said.startswith("Keep Own: Birch is too close to call")


def test_what_the_choice_says_is_what_the_golfer_takes_home(
    browse: Browse, studio: Studio, demo: DemoStudio
) -> None:
    page = browse(size=LYING)
    with served(create_app(studio)) as address:
        for fitting in (demo.in_progress, demo.finished):
            page.goto(f"{address}/fittings/{fitting}/choice")
            said = page.locator("h1").inner_text()
            page.get_by_role("link", name="Report").click()
            expect(page.locator("section.sheet p").first).to_have_text(said)
