"""What was seen says what the shop record had said of each club before its first ball."""

from datetime import timedelta

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import ClubJoined, WarmUpDone
from loftwright.services import shop_beliefs
from loftwright.services.fittings import open_visit
from loftwright.services.rack import card_of
from loftwright.web.pages import evidence
from racks import a_measured_rack
from studios import app_of
from told_samples import a_learned
from web_client import asking


def played(bay: Bay) -> str:
    """Join a club of the rack, hit it beside the own one on another day, and return the page."""
    a_measured_rack(bay.studio)
    bay.clock.at += timedelta(days=7)
    open_visit(bay.studio, bay.fitting, device=bay.now.visits[0].device)
    rack = bay.studio.store.rack()
    bay.do(WarmUpDone(), ClubJoined(club="Elm", card=card_of(rack, rack.assemblies["club-1"])))
    for club in ("Own", "Elm"):
        bay.hand(club)
        bay.balls(3)
    with asking(app_of(bay.studio, evidence.router)) as client:
        text = client.get(f"/fittings/{bay.fitting}/evidence").text
    return text.partition('id="part-evidence-record"')[2]


def test_by_physics_alone_nothing_is_said_of_a_record() -> None:
    assert "What the shop record said" not in played(a_bay())


def test_every_club_whose_shaft_stands_in_the_rack_has_its_line(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(shop_beliefs, "learned_versions", lambda _: (3,))
    monkeypatch.setattr(shop_beliefs, "read_learned", lambda *_: a_learned())
    block = played(a_bay())
    assert "What the shop record said of them" in block
    row = block.partition("</svg>Elm")[2].partition("</tr>")[0]
    assert "Over all golfers: spin −180 rpm (−270 to −90), launch +0.3°" in row
    assert "10 fittings." in row
    assert "</svg>Ash" not in block
