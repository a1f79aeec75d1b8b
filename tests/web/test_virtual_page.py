"""The virtual golfer's address: one ball a key, its mark later, never for a real golfer."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from loftwright.bay.replay import replay
from loftwright.domain.acts import HandedOver
from loftwright.services.acting import act
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.studio import Studio
from loftwright.web.pages import bay, virtual
from studios import app_of
from web_client import WebClient, asking

JSON = {"Accept": "application/json"}


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, virtual.router, bay.router)) as made:
        yield made


def test_a_tap_hits_one_ball_with_its_mark_and_goes_back_to_the_bay(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    act(studio, demo.in_progress, [HandedOver(club="Ash")])
    answer = client.post(f"/fittings/{demo.in_progress}/virtual")
    assert answer.status_code == 303
    assert answer.headers["location"] == f"/fittings/{demo.in_progress}/bay"
    balls = replay(studio.record(demo.in_progress)).balls
    assert len(balls) == 24
    assert balls[-1].club == "Ash"
    assert balls[-1].source == "virtual"


def test_the_same_key_hits_once(client: WebClient, studio: Studio, demo: DemoStudio) -> None:
    path = f"/fittings/{demo.in_progress}/virtual"
    first, again = (client.post(path, data={"key": "k1"}, headers=JSON).json() for _ in "ab")
    assert first == again
    assert len(replay(studio.record(demo.in_progress)).balls) == 24


def test_a_later_mark_is_read_by_itself(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    path = f"/fittings/{demo.in_progress}/virtual"
    told = [client.post(path, data={"mark": "later"}, headers=JSON).json() for _ in range(3)]
    assert all(one.mark is None for one in replay(studio.record(demo.in_progress)).balls[-3:])
    left = [
        client.post(f"{path}/mark", data={"ball": str(one["ball"])}, headers=JSON).json()
        for one in told
    ]
    swings = replay(studio.record(demo.in_progress)).balls[-3:]
    assert [one["marked"] for one in left] == [one.mark is not None for one in swings]
    assert any(one["marked"] for one in left)


def test_a_real_golfers_record_takes_none(
    client: WebClient, studio: Studio, demo: DemoStudio
) -> None:
    kept = studio.store.fitting(demo.in_progress)
    studio.store.change_fitting(replace(kept.value, invented=False), version=kept.version)
    before = studio.record(demo.in_progress)
    answer = client.post(f"/fittings/{demo.in_progress}/virtual", headers=JSON)
    assert answer.status_code == 409
    assert "a real golfer's fitting" in answer.json()["error"]["message"]
    assert studio.record(demo.in_progress) == before
    assert "virtual.js" not in client.get(f"/fittings/{demo.in_progress}/bay").text


def test_a_closed_fitting_takes_none(client: WebClient, demo: DemoStudio) -> None:
    answer = client.post(f"/fittings/{demo.finished}/virtual")
    assert answer.status_code == 409
    assert "closed" in answer.text


@pytest.mark.parametrize("ball", ["", "0", "x", "99999"])
def test_a_mark_of_no_ball_is_refused(client: WebClient, demo: DemoStudio, ball: str) -> None:
    path = f"/fittings/{demo.in_progress}/virtual/mark"
    answer = client.post(path, data={"ball": ball}, headers=JSON)
    assert answer.status_code == 422
    assert answer.json()["error"]["mend"]


def test_the_bay_of_an_invented_fitting_says_so_and_offers_more(
    client: WebClient, demo: DemoStudio
) -> None:
    text = client.get(f"/fittings/{demo.in_progress}/bay").text
    assert "Invented fitting" in text
    assert "Let it keep hitting" in text
    assert "virtual.js" in text
