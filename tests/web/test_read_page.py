"""An old file says what its balls and columns could not have shown."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from loftwright.services.training import DealOptions, deal_fitting
from loftwright.web.pages import today
from studios import app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture(scope="module")
def client() -> Iterator[WebClient]:
    with asking(app_of(studio_in_memory(), today.router)) as made:
        yield made


def read(client: WebClient, folder: Path, **options: object) -> str:
    path = folder / "shots.csv"
    deal_fitting(DealOptions(seed=7, **options), path)  # type: ignore[arg-type]
    files = {"file": ("shots.csv", path.read_bytes(), "text/csv")}
    answer = client.post("/read", data={"hand": "right"}, files=files)
    assert answer.status_code == 200
    return str(answer.text)


def test_it_says_the_smallest_difference_that_each_club_could_be_told_by(
    client: WebClient, tmp_path: Path
) -> None:
    text = read(client, tmp_path, clubs=3, balls=24)
    part = text.partition("What it could not have shown")[2].partition("</section>")[0]
    assert part.count("yd from Own") == 2
    assert "the others are told from it" in part
    assert "could hardly be told by plain averages" in part


def test_it_says_what_columns_that_were_not_measured_closed(
    client: WebClient, tmp_path: Path
) -> None:
    text = read(client, tmp_path, clubs=3, balls=24, device="ball-only")
    assert "No strike toe or strike high: it could not tell whether the club" in text
    whole = read(client, tmp_path, clubs=3, balls=24)
    assert "it could not tell whether the club" not in whole
