"""A number joins what a page says of an error with what the log says of it."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import APIRouter, FastAPI, Response
from fastapi.responses import StreamingResponse

from loftwright.errors import InputError, StoreError
from loftwright.services.program_log import ProgramLog, log_file
from loftwright.services.studio import Studio
from loftwright.web.app import create_app
from loftwright.web.journal import HEADER, Refusals
from loftwright.web.security import Access
from studios import app_of
from web_client import TABLET, WebClient, asking

NUMBER = re.compile(r"number (\d{4}-\d{4})")
router = APIRouter()


@router.get("/broken/{golfer}")
def broken(golfer: str) -> Response:
    raise RuntimeError(golfer)


@router.get("/refused/{golfer}")
def refused(golfer: str) -> Response:
    raise InputError(f"{golfer} cannot be", place=golfer)


@router.get("/away")
def away() -> Response:
    raise StoreError("the store is away")


@router.get("/torn")
def torn() -> Response:
    def parts() -> Iterator[bytes]:
        yield b"first"
        raise RuntimeError("the rest is lost")

    return StreamingResponse(parts())


@router.get("/well")
def well() -> Response:
    return Response("well")


@pytest.fixture
def app(studio: Studio) -> FastAPI:
    return app_of(studio, router)


@pytest.fixture
def client(app: FastAPI) -> Iterator[WebClient]:
    with asking(app) as made:
        yield made


@pytest.fixture
def file(tmp_path: Path) -> Iterator[Path]:
    with ProgramLog(log_file(tmp_path)):
        yield log_file(tmp_path)


def test_a_fault_gives_a_page_with_the_number_under_which_the_log_has_it(
    client: WebClient, file: Path
) -> None:
    answer = client.get("/broken/Ottoline")
    assert answer.status_code == 500
    number = NUMBER.search(answer.text)
    assert number is not None
    assert answer.headers[HEADER] == number[1]
    assert "Nothing that was kept is lost" in answer.text
    assert "makes a bundle" in answer.text
    lines = file.read_text().splitlines()
    assert lines[0].endswith(
        f"a request failed | request={number[1]} method=GET route=/broken/{{golfer}}"
    )
    assert lines[1] == "  raised builtins.RuntimeError"
    assert "Ottoline" not in file.read_text()


def test_a_fault_is_written_once(client: WebClient, file: Path) -> None:
    client.get("/broken/x")
    assert file.read_text().count("raised") == 1


def test_a_program_is_told_the_number_too(client: WebClient, file: Path) -> None:
    answer = client.get("/broken/x", headers={"Accept": "application/json"})
    number = answer.headers[HEADER]
    assert number in answer.json()["error"]["mend"]
    assert number in file.read_text()


def test_a_refusal_says_its_kind_and_where_it_came_from(client: WebClient, file: Path) -> None:
    answer = client.get("/refused/Ottoline")
    number = NUMBER.search(answer.text)
    assert number is not None
    (line,) = file.read_text().splitlines()
    assert (
        f"request={number[1]} method=GET route=/refused/{{golfer}} status=422 kind=input" in line
    )
    assert "INFO" in line


def test_a_store_that_is_away_is_told_with_its_place(client: WebClient, file: Path) -> None:
    assert client.get("/away").status_code == 503
    lines = file.read_text().splitlines()
    assert "ERROR" in lines[0]
    assert lines[1] == "  raised loftwright.errors.StoreError"


def test_an_answer_that_broke_off_is_told(client: WebClient, file: Path) -> None:
    client.get("/torn")
    assert "a request failed" in file.read_text()
    assert "route=/torn" in file.read_text()


def test_what_is_answered_well_is_not_written(client: WebClient, file: Path) -> None:
    answer = client.get("/well")
    assert HEADER not in answer.headers
    assert not file.exists()


def test_what_a_stranger_tries_is_written_with_the_shape_of_the_address(
    studio: Studio, file: Path
) -> None:
    app = app_of(studio, router)
    with asking(app, host="evil.example") as client:
        client.get("/refused/Ottoline")
        client.get("/nowhere/Ottoline")
    told = file.read_text()
    assert "WARNING" in told
    assert "route=/refused/{golfer} status=421 kind=usage" in told
    assert "route=none status=421" in told


def test_a_device_without_a_key_is_written(studio: Studio, file: Path) -> None:
    access = Access(addresses=True, paired=True)
    app = create_app(studio, access=access, routers=(router,))
    with asking(app, client=TABLET, host="192.0.2.7:8432") as far:
        far.get("/well", headers={"Accept": "application/json"})
    assert "route=/well status=401" in file.read_text()


def test_many_refusals_fill_no_log_and_are_counted(client: WebClient, file: Path) -> None:
    for _ in range(150):
        client.get("/nowhere")
    assert len(file.read_text().splitlines()) == 120


def test_refusals_are_written_again_after_a_minute_with_how_many_were_not() -> None:
    at = [0.0]
    refusals = Refusals(2, 60.0, lambda: at[0])
    assert [refusals.may() for _ in range(4)] == [True, True, False, False]
    at[0] = 60.0
    assert refusals.may()
    assert refusals.left_out() == 2
    assert refusals.left_out() == 0
