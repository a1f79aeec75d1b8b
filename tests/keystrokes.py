"""A person at the page: every field, key and click counted, and the time they take.

References
----------
Card, Moran and Newell 1980, The keystroke-level model for user performance time with interactive
systems: K 0.28 s for an average typist, P 1.1 s to point, H 0.4 s to move the hand between mouse
and keys, M 1.35 s to think (values from memory).
"""

from dataclasses import dataclass
from re import Pattern

from playwright.sync_api import Page

KEY, POINT, HOME, THINK = 0.28, 1.1, 0.4, 1.35


@dataclass(slots=True)
class Person:
    """Works a page and counts what it takes.

    Attributes
    ----------
    fields, clicks, keys : int
    seconds : float
        By the keystroke-level model, the page's own time left out.
    """

    page: Page
    fields: int = 0
    clicks: int = 0
    keys: int = 0
    seconds: float = 0.0

    def types(self, name: str, text: str, *, form: str = "") -> None:
        """Point at a field, think of what to write, and write it."""
        self.page.locator(f'{form} [name="{name}"]').fill(text)
        self.fields += 1
        self.keys += len(text)
        self.seconds += POINT + HOME + THINK + KEY * len(text) + HOME

    def chooses(self, name: str, words: str, *, form: str = "") -> None:
        """Open a list and point at one of its entries."""
        self.page.locator(f'{form} select[name="{name}"]').select_option(label=words)
        self.fields += 1
        self.seconds += 2 * POINT + THINK + 2 * KEY

    def ticks(self, name: str, value: str) -> None:
        """Point at one of a few and press."""
        self.page.locator(f'input[name="{name}"][value="{value}"]').check()
        self.clicks += 1
        self.seconds += POINT + THINK + KEY

    def presses(self, words: str) -> None:
        """Point at a button, link or heading that opens, and press; the page that follows."""
        self.page.locator(
            "button:visible, a.btn:visible, summary:visible, nav a:visible", has_text=words
        ).first.click()
        self.page.wait_for_load_state()
        self.clicks += 1
        self.seconds += POINT + THINK + KEY

    def follows(self, words: Pattern[str]) -> None:
        """Point at the link whose name fits and press; the page that follows."""
        self.page.get_by_role("link", name=words).click()
        self.page.wait_for_load_state()
        self.clicks += 1
        self.seconds += POINT + THINK + KEY
