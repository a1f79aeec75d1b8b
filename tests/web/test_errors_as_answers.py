"""Every error is answered in one shape: what, where and the mend."""

from collections.abc import Iterator

import pytest

from loftwright.errors import (
    ConflictError,
    ConvergenceError,
    EvidenceError,
    InputError,
    IntakeError,
    LoftwrightError,
    MeasurementError,
    NotFoundError,
    SchemaError,
    StoreError,
    UsageError,
)
from loftwright.web.errors import invalid_field, status_of
from tally_pages import tally_app
from web_client import WebClient, asking

JSON = {"Accept": "application/json"}


@pytest.fixture
def client() -> Iterator[WebClient]:
    with asking(tally_app()) as made:
        yield made


@pytest.mark.parametrize(
    ("kind", "status"),
    [
        (InputError, 422),
        (MeasurementError, 422),
        (IntakeError, 422),
        (UsageError, 400),
        (EvidenceError, 409),
        (ConflictError, 409),
        (NotFoundError, 404),
        (StoreError, 503),
        (SchemaError, 503),
        (ConvergenceError, 422),
        (LoftwrightError, 500),
    ],
)
def test_a_kind_of_error_has_its_status(kind: type[LoftwrightError], status: int) -> None:
    assert status_of(kind("no")) == status


@pytest.mark.parametrize("accept", ["application/json", "text/html"])
def test_what_cannot_be_done_now_says_when_to_try_again(accept: str) -> None:
    app = tally_app()

    @app.get("/away")
    def away() -> None:
        raise StoreError("the store does not answer")

    with asking(app) as asker:
        answer = asker.get("/away", headers={"Accept": accept})
    assert (answer.status_code, answer.headers["retry-after"]) == (503, "5")


def test_a_program_gets_json(client: WebClient) -> None:
    answer = client.post("/fittings/7/acts/refuse", headers=JSON)
    assert answer.status_code == 422
    assert answer.json() == {
        "error": {
            "kind": "input",
            "message": "a face is not 400 mm wide",
            "place": "mark",
            "mend": "Tap the face again.",
        }
    }


def test_a_person_gets_a_page_with_two_ways_on(client: WebClient) -> None:
    came_from = {"Referer": "http://127.0.0.1:8432/fittings/7/bay?x=1"}
    answer = client.post("/fittings/7/acts/refuse", headers=came_from)
    assert answer.status_code == 422
    assert answer.headers["content-type"].startswith("text/html")
    for words in (
        "<h1>A face is not 400 mm wide.</h1>",
        "Tap the face again.",
        "<code>mark</code>",
        "What still works",
        'href="/fittings/7/bay"',
        'href="/"',
    ):
        assert words in answer.text


def test_a_foreign_page_is_no_way_on(client: WebClient) -> None:
    answer = client.post(
        "/fittings/7/acts/refuse", headers={"Referer": "http://elsewhere.example/trap"}
    )
    assert "trap" not in answer.text


def test_a_conflict_says_what_stands_now(client: WebClient) -> None:
    answer = client.post("/fittings/7/acts/stale", data={"seen": "3"}, headers=JSON)
    assert answer.status_code == 409
    assert answer.json()["error"]["kind"] == "conflict"
    assert "ball 4 was moved" in answer.json()["error"]["message"]


def test_a_field_that_cannot_be_is_named_with_its_value_and_mend(client: WebClient) -> None:
    answer = client.post("/fittings/7/acts/stale", data={"seen": "many"}, headers=JSON)
    assert answer.status_code == 422
    assert answer.json()["error"] == {
        "kind": "input",
        "message": "'many' cannot be",
        "place": "seen",
        "mend": "Give a whole number.",
    }


def test_a_field_that_is_missing_is_named(client: WebClient) -> None:
    error = client.post("/fittings/7/acts/stale", headers=JSON).json()["error"]
    assert (error["message"], error["place"]) == ("it is missing", "seen")


def test_a_limit_is_named(client: WebClient) -> None:
    error = client.get("/rack?most=51", headers=JSON).json()["error"]
    assert (error["place"], error["mend"]) == ("most", "Give 50 or less.")


def test_a_long_value_is_not_repeated_whole() -> None:
    problem = {"type": "int_parsing", "loc": ("body", "n"), "input": "9" * 500, "msg": "no"}
    assert len(invalid_field([problem]).message) < 80


def test_an_unknown_kind_of_fault_keeps_its_own_words() -> None:
    problem = {"type": "strange", "loc": ("body", "n"), "input": 1, "msg": "Value is strange"}
    assert invalid_field([problem]).mend == "Value is strange."


@pytest.mark.parametrize("path", ["/nowhere", "/api/nowhere", "/static/nowhere.css"])
def test_an_address_of_nothing_is_not_found(client: WebClient, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert answer.headers["content-type"].startswith(
        "application/json" if path.startswith("/api") else "text/html"
    )
    assert path in answer.text


def test_a_method_without_meaning_names_the_right_one(client: WebClient) -> None:
    answer = client.get("/fittings/7/acts/add", headers=JSON)
    assert answer.status_code == 405
    assert answer.headers["allow"] == "POST"
    assert answer.json()["error"]["mend"] == "Use POST."


def test_a_defect_tells_no_secret(client: WebClient) -> None:
    answer = client.get("/api/broken")
    assert answer.status_code == 500
    assert answer.json()["error"]["kind"] == "defect"
    assert "secret" not in answer.text
    assert answer.headers["x-content-type-options"] == "nosniff"


def test_words_of_a_request_are_never_markup(client: WebClient) -> None:
    answer = client.get("/<script>alert(1)</script>")
    assert "<script>alert" not in answer.text
