"""The spin settings of balls and faces as a page."""

from dataclasses import replace

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import Marked
from loftwright.domain.fitting import Mark
from loftwright.domain.golfer import Consents
from loftwright.services.spin_setting import read_spin
from loftwright.web.pages import delivery, settings, spin
from struck import struck, swings
from studios import app_of, studio_in_memory
from web_client import asking


@pytest.fixture
def taught() -> Bay:
    bay = a_bay()
    kept = bay.studio.store.golfer(bay.golfer.id)
    agreed = replace(kept.value, consents=Consents(shop_record=True))
    bay.studio.store.change_golfer(agreed, version=kept.version)
    for swing in swings(7):
        bay.ball(struck(swing))
        bay.do(Marked(mark=Mark(toe=float(swing[5]), high=float(swing[6]))))
    bay.ball(struck(swings(1)[0]))
    return bay


def test_a_shop_that_never_asked_sees_what_is_assumed() -> None:
    with asking(app_of(studio_in_memory(), spin.router)) as client:
        text = client.get("/spin").text
    assert "No spin setting was learned yet: 0.74 to 1.00 is assumed" in text
    assert "Five marked shots of a visit teach it" in text
    assert "Learn from the marked shots" in text


def test_it_is_learned_on_request_and_shown_with_what_stays_tangled(taught: Bay) -> None:
    with asking(app_of(taught.studio, spin.router, delivery.router)) as client:
        assert read_spin(taught.studio).settings == ()
        answer = client.post("/spin", data={"version": "0"}, follow_redirects=False)
        assert (answer.status_code, answer.headers["location"]) == (303, "/spin?learned=true")
        text = client.get("/spin?learned=true").text
        swing = client.get(f"/fittings/{taught.fitting}/delivery").text
    assert "Premium, new, face spray has a spin setting of 0." in text
    for words in (
        "Learned from every marked shot up to now, and kept.",
        '<td class="n">7</td><td class="n">1</td>',
        "If the device reads every attack 1° too high",
        "height of the heads’ centre of gravity",
        "1 ball without a mark that a fitter made",
    ):
        assert words in text
    assert "from 7 marked shots on 1 visit, learned " in swing


def test_an_old_page_keeps_nothing(taught: Bay) -> None:
    with asking(app_of(taught.studio, spin.router)) as client:
        client.post("/spin", data={"version": "0"})
        for version in ("0", "x", ""):
            answer = client.post("/spin", data={"version": version})
            assert answer.status_code == 409
            assert "Not kept: somebody else learned meanwhile" in answer.text
    assert read_spin(taught.studio).version == 1


def test_it_is_reached_from_the_settings() -> None:
    studio = studio_in_memory()
    with asking(app_of(studio, settings.router, spin.router)) as client:
        assert 'href="/spin"' in client.get("/settings").text
    with asking(app_of(studio, settings.router)) as client:
        assert 'href="/spin"' not in client.get("/settings").text
