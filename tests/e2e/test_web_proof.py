"""The shop's proof in Chromium: empty, with too few balls, and with enough."""

from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from bays import a_bay
from browser import LYING, THEMES, UPRIGHT, Browse, axe_findings, small_targets, wider_than_window
from loftwright.services.evidence import Desk
from loftwright.services.predicting import predict_next
from loftwright.web.pages import proof, today
from serving import served
from studios import app_of, studio_in_memory


@dataclass(frozen=True, slots=True, kw_only=True)
class Shops:
    """Addresses of a shop without balls and of one with its proof."""

    empty: str
    proved: str


@pytest.fixture(scope="module")
def shops() -> Iterator[Shops]:
    bay, desk = a_bay(), Desk()
    for ball in range(54):
        if ball % 18 == 0:
            bay.hand(("Own", "Ash", "Birch")[ball // 18])
        predict_next(bay.studio, desk, bay.fitting)
        bay.ball()
    pages = (proof.router, today.router)
    with (
        served(app_of(studio_in_memory(), *pages)) as empty,
        served(app_of(bay.studio, *pages)) as proved,
    ):
        yield Shops(empty=empty, proved=proved)


@pytest.mark.parametrize("size", [LYING, UPRIGHT], ids=["lying", "upright"])
@pytest.mark.parametrize("theme", THEMES)
def test_the_proof_is_sound_in_every_state(
    browse: Browse, shops: Shops, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    for address in (shops.empty, shops.proved):
        page.goto(f"{address}/proof")
        assert axe_findings(page) == []
        assert small_targets(page) == []
        assert wider_than_window(page) == 0


def test_a_fitter_finds_it_from_today(browse: Browse, shops: Shops) -> None:
    page = browse()
    page.goto(shops.proved)
    page.get_by_role("link", name="The shop’s proof").click()
    assert "fell in the 80 % range of total" in page.locator("h1").inner_text()
