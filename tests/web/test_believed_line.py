"""The page of what was seen says what was believed before the first ball."""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import timedelta

import pytest

from bays import Bay, a_bay, drive
from learned_samples import learned
from loftwright.domain.acts import WarmUpDone
from loftwright.errors import StoreError
from loftwright.services import shop_beliefs
from loftwright.services.fittings import open_visit
from loftwright.services.studio import Studio
from loftwright.shop.learned import ShopLearned
from loftwright.web.pages import evidence
from studios import app_of
from web_client import asking

BY_SHOP = (
    "Believed before the first ball: what 60 fittings of this shop have taught (version 3, 25 % "
    "physics)"
)


def line_of(bay: Bay) -> tuple[str, str]:
    """Return the class and the words of the line, which must be there once."""
    with asking(app_of(bay.studio, evidence.router)) as client:
        text = client.get(f"/fittings/{bay.fitting}/evidence").text
    found = re.findall(r'<p class="(\w+)" id="believed">(.*?)</p>', text)
    assert len(found) == 1
    return found[0][0], found[0][1]


def play(bay: Bay) -> Bay:
    for club in ("Own", "Ash", "Own", "Ash"):
        bay.hand(club)
        for _ in range(3):
            bay.ball(drive(bay.rng, club))
    return bay


def another_visit(bay: Bay) -> Bay:
    bay.clock.at += timedelta(days=7)
    open_visit(bay.studio, bay.fitting, device=bay.now.visits[0].device)
    bay.do(WarmUpDone())
    return bay


@contextmanager
def taught(patch: pytest.MonkeyPatch, read: Callable[[Studio, int], ShopLearned]) -> Iterator[Bay]:
    with patch.context() as mended:
        mended.setattr(shop_beliefs, "learned_versions", lambda _: (3,))
        mended.setattr(shop_beliefs, "read_learned", read)
        yield another_visit(a_bay())


def known(_: Studio, version: int) -> ShopLearned:
    return replace(learned(1), version=version)


def gone(_: Studio, version: int) -> ShopLearned:
    raise StoreError("gone", place=f"{version:04d}.json", mend="Learn anew.")


def test_without_a_record_physics_alone_is_believed() -> None:
    words = ("plain", "Believed before the first ball: physics alone.")
    bay = a_bay()
    assert line_of(bay) == words
    assert line_of(play(bay)) == words


def test_what_the_shop_taught_is_said_before_and_after_the_first_ball(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with taught(monkeypatch, known) as bay:
        assert line_of(bay) == ("plain", f"{BY_SHOP}.")
        kind, words = line_of(play(bay))
        assert (kind, words) == ("plain", f"{BY_SHOP}; slopes borrowed from other heads.")


def test_what_can_no_longer_be_read_is_said_as_a_doubt(monkeypatch: pytest.MonkeyPatch) -> None:
    lost = ("doubt", "Compared by physics alone: what the shop had learned (3) cannot be read.")
    with taught(monkeypatch, gone) as bay:
        assert line_of(bay) == lost
        assert line_of(play(bay)) == lost
