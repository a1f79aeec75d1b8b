"""`/health` says all to whom it knows, one word to anybody else, and a status to every monitor."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI

from fakes import MemoryStore
from loftwright.errors import StoreError
from loftwright.services.pairing import Pairing
from loftwright.services.studio import Studio
from loftwright.web.app import create_app
from loftwright.web.pages import health
from loftwright.web.security import Access
from web_client import TABLET, WebClient, asking

REFERENCE = Path(__file__).resolve().parents[2] / "docs" / "reference" / "health.md"
HOST = "192.0.2.7:8432"


@pytest.fixture
def app(studio: Studio) -> FastAPI:
    access = Access(addresses=True, paired=True)
    return create_app(studio, access=access, routers=(health.router,))


@pytest.fixture
def far(app: FastAPI) -> Iterator[WebClient]:
    with asking(app, client=TABLET, host=HOST) as made:
        yield made


@pytest.fixture
def near(app: FastAPI) -> Iterator[WebClient]:
    with asking(app) as made:
        yield made


def key_of(app: FastAPI, role: str) -> dict[str, str]:
    letting_in: Pairing = app.state.pairing
    made = letting_in.let_in(letting_in.new_code().figures, name="A device", role=role)
    return {"Authorization": f"Bearer {made.key}"}


def test_this_machine_is_told_all_of_it(near: WebClient) -> None:
    answer = near.get("/health")
    assert answer.status_code == 200
    assert answer.headers["cache-control"] == "no-store"
    told = answer.json()
    assert told["keeps"] is True
    assert told["version"] == "0.1.0"


def test_every_key_is_documented(near: WebClient) -> None:
    text = REFERENCE.read_text("utf-8")
    told = near.get("/health").json()
    assert [key for key in told if f"`{key}`" not in text] == []
    assert all(f"`{word}`" in text for word in ("ok", "degraded", "failing"))
    threads = ("name", "alive", "waiting", "failures", "failed")
    assert all(f"`threads[].{key}`" in text for key in threads)


def test_a_stranger_is_told_one_word(far: WebClient) -> None:
    answer = far.get("/health")
    assert (answer.status_code, list(answer.json())) == (200, ["status"])


@pytest.mark.parametrize(
    ("role", "all_of_it"),
    [("fitter", True), ("workshop", False), ("screen", False), ("feed", False)],
)
def test_only_a_fitter_s_key_tells_more(
    app: FastAPI, far: WebClient, role: str, all_of_it: bool
) -> None:
    answer = far.get("/health", headers=key_of(app, role))
    assert ("version" in answer.json()) is all_of_it


def test_what_comes_through_a_relay_is_a_stranger(near: WebClient) -> None:
    answer = near.get("/health", headers={"X-Forwarded-For": "203.0.113.9"})
    assert list(answer.json()) == ["status"]


def test_a_monitor_may_ask_for_the_status_alone(near: WebClient) -> None:
    assert near.request("HEAD", "/health").status_code == 200


def test_a_store_that_refuses_is_answered_with_503(
    near: WebClient, far: WebClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(_: MemoryStore) -> str:
        raise StoreError("gone")

    monkeypatch.setattr(MemoryStore, "probe", gone)
    for client in (near, far):
        answer = client.get("/health")
        assert answer.status_code == 503
        assert int(answer.headers["retry-after"]) > 0
        assert answer.json()["status"] == "failing"
