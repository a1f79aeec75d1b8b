"""The door for devices: a ball is posted, once; what cannot be is refused with its mend."""

import json
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import httpx
import pytest
from httpx import Response

from bays import Bay, a_bay
from loftwright.bay.replay import replay
from loftwright.domain.acts import Closed, Undone
from loftwright.domain.golfer import Golfer, Identity
from loftwright.intake.feed_keys import EXAMPLE
from loftwright.services.acting import act
from loftwright.services.fittings import open_fitting
from loftwright.services.shots import switch_golfer
from loftwright.web.app import create_app
from loftwright.web.pages import api
from serving import served


@pytest.fixture
def bay() -> Bay:
    return a_bay()


@pytest.fixture
def device(bay: Bay) -> Iterator[httpx.Client]:
    """Return a device that posts to a bay over HTTP."""
    with (
        served(create_app(bay.studio, routers=(api.router,))) as address,
        httpx.Client(base_url=address, timeout=20.0) as client,
    ):
        yield client


def shots(bay: Bay) -> str:
    return f"/api/fittings/{bay.fitting}/shots"


def balls(bay: Bay) -> int:
    return len(bay.now.swings)


def refusal(answer: Response) -> dict[str, str]:
    """Return what a refusal says: kind, message, place and mend."""
    told: dict[str, str] = answer.json()["error"]
    assert set(told) == {"kind", "message", "place", "mend"}
    assert told["message"]
    return told


def test_the_example_of_the_documentation_is_taken(bay: Bay, device: httpx.Client) -> None:
    answer = device.post(shots(bay), json=dict(EXAMPLE))
    assert answer.status_code == 200
    assert answer.json()["ball"] == balls(bay)
    assert answer.json()["club"] == "Birch"


def test_the_same_key_adds_nothing_and_answers_the_same_to_the_byte(
    bay: Bay, device: httpx.Client
) -> None:
    before = balls(bay)
    ball = {"key": "k1", "ball_speed_mph": 148.2, "launch_deg": 12.0, "spin_rpm": 2500}
    first = device.post(shots(bay), json=ball)
    again = device.post(shots(bay), json={**ball, "ball_speed_mph": 99.0})
    assert (first.status_code, again.status_code) == (200, 200)
    assert first.content == again.content
    assert balls(bay) == before + 1


def test_one_ball_posted_at_once_from_eight_sides_is_one_ball(
    bay: Bay, device: httpx.Client
) -> None:
    before = balls(bay)
    ball = {"key": "same", "ball_speed_mph": 148.2}
    with ThreadPoolExecutor(8) as sides:
        answers = list(sides.map(lambda _: device.post(shots(bay), json=ball), range(8)))
    assert {answer.status_code for answer in answers} == {200}
    assert len({answer.content for answer in answers}) == 1
    assert balls(bay) == before + 1


def test_what_was_left_out_of_a_ball_is_said(bay: Bay, device: httpx.Client) -> None:
    ball = {"key": "k", "read": False, "ball_speed_mph": 140.0}
    answer = device.post(shots(bay), json=ball)
    assert answer.status_code == 200
    assert any("not read" in line for line in answer.json()["left_out"])
    assert bay.now.swings[-1].numbers is None


@pytest.mark.parametrize(
    ("body", "place", "named"),
    [
        (b"", "body", "JSON"),
        (b"{", "body", "JSON"),
        (b"\xff\xfe", "body", "JSON"),
        (b"[" * 5000, "body", "JSON"),
        (b"[]", "ball", "object"),
        (b'"a ball"', "ball", "object"),
        (b"{}", "key", "no key"),
        (b'{"key": ""}', "key", "no key"),
        (b'{"key": 7, "ball_speed_mph": 140}', "key", "not text"),
        (b'{"key": "k"}', "ball", "no number"),
        (b'{"key": "k", "ball_speed": 140}', "ball", "ball_speed_mph"),
        (b'{"key": "k", "ball_speed_mph": "140"}', "ball_speed_mph", "quotation"),
        (b'{"key": "k", "ball_speed_mph": NaN}', "ball_speed_mph", "finite"),
        (b'{"key": "k", "ball_speed_mph": 1e400}', "ball_speed_mph", "finite"),
        (b'{"key": "k", "ball_speed_mph": ' + b"9" * 400 + b"}", "ball_speed_mph", "cannot be"),
        (b'{"key": "k", "ball_speed_mph": 900}', "ball_speed_mph", "cannot be"),
        (b'{"key": "k", "ball_speed_mph": true}', "ball_speed_mph", "not a number"),
        (b'{"key": "k", "carry_yd": 250, "carry_m": 250}', "carry_yd, carry_m", "cannot both"),
        (b'{"key": "k", "read": "no", "ball_speed_mph": 140}', "read", "true nor false"),
    ],
)
def test_a_malformed_ball_is_refused_with_field_value_and_mend(
    bay: Bay, device: httpx.Client, body: bytes, place: str, named: str
) -> None:
    before = len(bay.studio.store.record(bay.fitting))
    answer = device.post(shots(bay), content=body, headers={"Content-Type": "application/json"})
    assert answer.status_code == 422
    told = refusal(answer)
    assert told["place"] == place
    assert named in told["message"] + told["mend"]
    assert told["mend"]
    assert len(bay.studio.store.record(bay.fitting)) == before


def test_a_body_that_is_too_large_is_refused_before_it_is_read(
    bay: Bay, device: httpx.Client
) -> None:
    before = balls(bay)
    answer = device.post(shots(bay), json={"key": "k", "line": "x" * 200_000})
    assert answer.status_code == 413
    assert refusal(answer)["mend"]
    assert balls(bay) == before


@pytest.mark.parametrize("kind", ["application/json", "text/csv", "multipart/form-data", ""])
def test_five_megabytes_are_refused_whatever_they_are_called(
    bay: Bay, device: httpx.Client, kind: str
) -> None:
    before = balls(bay)
    body = b'{"key": "k", "line": "' + b"x" * (5 * 1024 * 1024) + b'"}'
    answer = device.post(shots(bay), content=body, headers={"Content-Type": kind})
    assert 400 <= answer.status_code < 500
    assert refusal(answer)["mend"]
    assert balls(bay) == before


@pytest.mark.parametrize("kind", ["text/plain", "application/xml", "multipart/form-data"])
def test_what_is_no_json_is_refused_under_any_content_type(
    bay: Bay, device: httpx.Client, kind: str
) -> None:
    before = balls(bay)
    answer = device.post(shots(bay), content=b"<ball/>", headers={"Content-Type": kind})
    assert 400 <= answer.status_code < 500
    assert refusal(answer)["mend"]
    assert balls(bay) == before


def test_a_fitting_nobody_knows_is_not_found(device: httpx.Client) -> None:
    answer = device.post("/api/fittings/nothing/shots", json=dict(EXAMPLE))
    assert answer.status_code == 404
    assert "nothing" in refusal(answer)["message"]


def test_a_closed_fitting_takes_no_balls_and_says_so(bay: Bay, device: httpx.Client) -> None:
    act(bay.studio, bay.fitting, [Closed()])
    answer = device.post(shots(bay), json=dict(EXAMPLE))
    assert answer.status_code == 409
    assert "closed" in refusal(answer)["message"]
    act(bay.studio, bay.fitting, [Undone(act=bay.now.upto)])
    assert device.post(shots(bay), json=dict(EXAMPLE)).status_code == 200


def test_with_two_golfers_the_ball_goes_to_the_one_who_hits(
    bay: Bay, device: httpx.Client
) -> None:
    studio = bay.studio
    studio.store.add_golfer(Golfer(id="other"), Identity(name="Hob Noughtley"))
    partner = open_fitting(studio, "other", bay="Bay 1", partner=bay.fitting).id
    before = balls(bay)
    switch_golfer(studio, partner, version=studio.store.hitting("Bay 1").version)
    answer = device.post(shots(bay), json={"key": "k1", "ball_speed_mph": 140.0})
    assert answer.json()["fitting"] == partner
    switch_golfer(studio, bay.fitting, version=studio.store.hitting("Bay 1").version)
    again = device.post(shots(bay), json={"key": "k1", "ball_speed_mph": 140.0})
    assert again.content == answer.content
    assert balls(bay) == before
    assert len(replay(studio.record(partner)).swings) == 1


def test_the_decision_has_the_keys_of_a_file_that_was_read(bay: Bay, device: httpx.Client) -> None:
    for club in ("Own", "Ash"):
        bay.hand(club)
        bay.balls(2)
    told = device.get(f"/api/fittings/{bay.fitting}/decision").json()
    assert {"sentence", "clubs", "pairs", "claims", "next_club"} <= set(told)
    json.dumps(told, allow_nan=False)
    every = device.get(shots(bay)).json()
    assert [one["sequence"] for one in every] == [one.sequence for one in bay.now.swings]
