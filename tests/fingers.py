"""A fitter's fingers on a bay page in Chromium: every tap is counted."""

import time
from dataclasses import dataclass

from playwright.sync_api import Page

from bays import Bay
from loftwright.constants import MILLIMETRE

LONGEST = 10.0


@dataclass(slots=True)
class Fingers:
    """Taps on one page.

    Attributes
    ----------
    taps : int
        So far.
    """

    page: Page
    bay: Bay
    taps: int = 0

    def open(self, address: str) -> "Fingers":
        """Open the bay page and wait until it is live."""
        self.page.goto(f"{address}{self.bay.path}")
        self.page.wait_for_selector("body[data-painted-revision]")
        return self

    def painted(self) -> None:
        """Wait until the page shows everything that was written."""
        wanted = self.bay.now.upto
        began = time.monotonic()
        while time.monotonic() - began < LONGEST:
            shown = self.page.evaluate("Number(document.body.dataset.paintedRevision)")
            if shown >= wanted:
                return
            time.sleep(0.01)
        raise AssertionError(f"the page does not show entry {wanted}")

    def tap(self, words: str) -> None:
        """Tap a button by its words and wait until what it did is shown."""
        before = self.bay.now.upto
        self.page.get_by_role("button", name=words, exact=True).first.click()
        self.taps += 1
        self._written(before)

    def open_panel(self, words: str) -> None:
        """Tap a button that opens a panel of the page."""
        self.page.get_by_role("button", name=words, exact=True).first.click()
        self.taps += 1

    def tap_face(self, toe_mm: float, high_mm: float, *, waits: bool = True) -> None:
        """Tap the face at a place in millimetres."""
        before = self.bay.now.upto
        x, y = self.place(toe_mm, high_mm)
        self.page.mouse.click(x, y)
        self.taps += 1
        if waits:
            self._written(before)

    def place(self, toe_mm: float, high_mm: float) -> tuple[float, float]:
        """Return where a place on the face stands on the screen."""
        x, y = self.page.evaluate(
            """([toe, high]) => {
              const drawing = document.querySelector('#pad svg[data-mm-per-unit]');
              const { mmPerUnit, centreX, centreY, toeSign, highSign } = drawing.dataset;
              const at = new DOMPoint(+centreX + (toeSign * toe) / mmPerUnit,
                                      +centreY + (highSign * high) / mmPerUnit)
                .matrixTransform(drawing.getScreenCTM());
              return [at.x, at.y];
            }""",
            [toe_mm, high_mm],
        )
        return float(x), float(y)

    def press(self, *keys: str) -> None:
        """Press keys one after the other, each shown before the next."""
        for key in keys:
            self.page.keyboard.press(key)

    def pressed(self, *keys: str) -> None:
        """Press keys, the last of which does an act."""
        before = self.bay.now.upto
        self.press(*keys)
        self._written(before)

    def _written(self, before: int) -> None:
        began = time.monotonic()
        while self.bay.now.upto == before:
            assert time.monotonic() - began < LONGEST, "nothing was written"
            time.sleep(0.005)
        self.painted()


def marks_of(bay: Bay) -> list[tuple[int, int] | None]:
    """Return every ball's mark in whole millimetres, in the order of play."""
    return [
        None
        if one.mark is None
        else (round(one.mark.toe / MILLIMETRE), round(one.mark.high / MILLIMETRE))
        for one in bay.now.swings
    ]
