"""Who opened a golfer's record stands on the golfer's page, a line a device and ten minutes."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

import pytest
from fastapi import FastAPI

from bays import Bay, a_bay
from loftwright.domain.acts import Closed
from loftwright.errors import NotFoundError, StoreError
from loftwright.intake.feed_keys import EXAMPLE
from loftwright.services.erasing import erase_everywhere
from loftwright.services.openings import KEPT, Openings, opened_by, page_words
from loftwright.store.door_interface import PairedDevice
from loftwright.web.app import create_app
from loftwright.web.security import Access
from studios import NOON
from web_client import MAIN_SCREEN, TABLET, WebClient, asking

DEVICE = PairedDevice(id="d1", name="Quill’s tablet", role="fitter", key_hash="a", paired_at=NOON)


@pytest.fixture
def bay() -> Bay:
    return a_bay()


@pytest.fixture
def app(bay: Bay) -> FastAPI:
    return create_app(bay.studio, access=Access(addresses=True, paired=True))


@pytest.fixture
def main(app: FastAPI) -> Iterator[WebClient]:
    with asking(app, client=MAIN_SCREEN) as made:
        yield made


def opened(app: FastAPI, bay: Bay) -> list[tuple[str, str]]:
    app.state.openings.settle()
    return [(one.device, one.page) for one in opened_by(bay.studio, bay.golfer.id)]


def test_a_page_of_a_fitting_is_written_once_a_device_in_ten_minutes(
    app: FastAPI, bay: Bay, main: WebClient
) -> None:
    for _ in range(3):
        assert main.get(bay.path).status_code == 200
    main.get(f"/fittings/{bay.fitting}/golfer")
    assert opened(app, bay) == [("this machine", bay.path)]
    bay.clock.forward(10.0)
    main.get(f"/golfers/{bay.golfer.id}/bag")
    assert opened(app, bay)[0] == ("this machine", f"/golfers/{bay.golfer.id}/bag")
    assert len(opened(app, bay)) == 2


def test_a_device_is_named_and_the_table_says_who_when_and_where(
    app: FastAPI, bay: Bay, main: WebClient
) -> None:
    with asking(app, client=TABLET, host="192.0.2.7:8432") as tablet:
        code = app.state.pairing.new_code().figures
        tablet.post("/pair", data={"code": code, "name": "Tablet <3>", "role": "fitter"})
        tablet.get(bay.path)
    assert opened(app, bay) == [("Tablet <3>", bay.path)]
    page = main.get(f"/fittings/{bay.fitting}/golfer").text.partition('id="opened"')[2]
    assert "Tablet &lt;3&gt;" in page
    assert "<td>Bay</td>" in page
    assert "25 November 2026, 12:0" in page
    assert "Kept 2 years" in page


def test_what_was_not_shown_and_what_names_nobody_is_not_written(
    app: FastAPI, bay: Bay, main: WebClient
) -> None:
    with asking(app, client=TABLET, host="192.0.2.7:8432") as stranger:
        assert stranger.get(bay.path).status_code == 303
    main.get("/fittings/nobody/bay")
    main.get(f"/screen/{bay.fitting}")
    main.get("/")
    main.get("/rack")
    main.post(f"/api/fittings/{bay.fitting}/shots", json=dict(EXAMPLE))
    assert opened(app, bay) == []


def test_the_fitter_whose_name_a_device_bears_is_named(bay: Bay) -> None:
    store = bay.studio.store
    store.pair(DEVICE)
    kept = store.fitting(bay.fitting)
    store.change_fitting(replace(kept.value, fitter="Quill"), version=kept.version)
    openings = Openings(bay.studio)
    openings.note(bay.path, fitting=bay.fitting, device=DEVICE)
    openings.close()
    (found,) = opened_by(bay.studio, bay.golfer.id)
    assert (found.by, found.device) == ("Quill", "Quill’s tablet")


def test_a_page_does_not_wait_for_a_store_that_does_not_answer_and_nothing_is_lost(
    bay: Bay, monkeypatch: pytest.MonkeyPatch
) -> None:
    openings = Openings(bay.studio)
    keep = bay.studio.store.keep_opening
    refused = []

    def full(*_: object, **__: object) -> bool:
        refused.append(1)
        raise StoreError("the disk is full")

    monkeypatch.setattr(bay.studio.store, "keep_opening", full)
    openings.note(bay.path, fitting=bay.fitting)
    openings.settle()
    assert refused
    monkeypatch.setattr(bay.studio.store, "keep_opening", keep)
    openings.note(bay.path, fitting=bay.fitting, device=DEVICE)
    openings.close()
    assert len(opened_by(bay.studio, bay.golfer.id)) == 2


def test_openings_go_after_two_years_and_with_the_golfer(bay: Bay) -> None:
    openings = Openings(bay.studio)
    openings.note(bay.path, fitting=bay.fitting)
    openings.settle()
    bay.clock.at += KEPT + timedelta(seconds=1)
    openings.note(bay.path, fitting=bay.fitting, device=DEVICE)
    openings.settle()
    assert [one.device for one in opened_by(bay.studio, bay.golfer.id)] == ["d1"]
    openings.close()
    bay.do(Closed())
    bay.clock.at += timedelta(days=1)
    erase_everywhere(bay.studio, bay.golfer.id)
    with pytest.raises(NotFoundError):
        opened_by(bay.studio, bay.golfer.id)


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("/fittings/7/bay", "Bay"),
        ("/fittings/7/final-check/paper", "Final check"),
        ("/golfers/9/bag", "Bag"),
        ("/api/fittings/7/shots", "Shots"),
        ("/fittings/7", "Record"),
    ],
)
def test_a_page_is_told_in_words_without_ids(address: str, words: str) -> None:
    assert page_words(address) == words
