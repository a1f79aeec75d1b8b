"""Two waggles and a neighbour's ball in one set: set aside, kept, exported, and counted again."""

import csv
from collections.abc import Iterator
from typing import Final

import pytest

from bays import Bay, a_bay, drive
from loftwright.constants import MILE_PER_HOUR
from loftwright.domain.numbers import ShotNumbers
from loftwright.report.records import decision_record
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from web_client import WebClient, asking

GHOSTS: Final = (
    (1, ShotNumbers(ball_speed=7.0 * MILE_PER_HOUR)),
    (2, ShotNumbers(ball_speed=9.0 * MILE_PER_HOUR)),
    (2, drive(a_bay().rng, "Own", ball_speed=121.0 * MILE_PER_HOUR)),
)
"""Before which ball of the set each came: a waggle, another, and a ball from the next bay."""


def played(*, ghosts: bool) -> Bay:
    """Return a fitting of two clubs; the ghosts come into its second set."""
    bay = a_bay()
    for number, club in enumerate(("Own", "Ash", "Own", "Ash")):
        bay.hand(club)
        for place in range(3):
            for at, ghost in GHOSTS if ghosts and number == 1 else ():
                if at == place:
                    bay.ball(ghost)
            bay.ball(drive(bay.rng, club))
    return bay


def came_out(bay: Bay) -> object:
    """Return the comparison with every digit."""
    evidence = bay_now(bay.studio, Desk(), bay.fitting).evidence
    assert evidence.decision is not None
    return decision_record(evidence.decision, evidence.table.table)


@pytest.fixture
def bay() -> Bay:
    return played(ghosts=True)


@pytest.fixture
def client(bay: Bay) -> Iterator[WebClient]:
    with asking(bay.app()) as asked:
        yield asked


@pytest.fixture
def strange(bay: Bay) -> list[int]:
    """Return the sequences of the ghosts."""
    expected = [one for _, one in GHOSTS]
    return [one.sequence for one in bay.now.swings if one.numbers in expected]


def post(client: WebClient, bay: Bay, name: str, **fields: object) -> None:
    told = {key: str(value) for key, value in fields.items()}
    answer = client.post(f"/fittings/{bay.fitting}/acts/{name}", data=told)
    assert answer.status_code == 303


def table(client: WebClient, bay: Bay, name: str) -> list[dict[str, str]]:
    text = client.get(f"/fittings/{bay.fitting}/{name}.csv").text
    return list(csv.DictReader(text.splitlines()))


def test_set_aside_they_change_nothing_and_stay_in_record_and_export(
    client: WebClient, bay: Bay, strange: list[int]
) -> None:
    for sequence in strange:
        post(client, bay, "not-ours", ball_of=sequence)
    assert came_out(bay) == came_out(played(ghosts=False))
    kept = [one for one in bay.now.swings if one.not_ours]
    assert [one.sequence for one in kept] == strange
    assert len(bay.now.swings) == 15
    every, counted = table(client, bay, "readings"), table(client, bay, "shots")
    assert (len(every), len(counted)) == (15, 12)
    aside = [row for row in every if not row["ball"]]
    assert [row["ball_speed_mph"] for row in aside] == ["7.0", "9.0", "121.0"]
    assert [row["club"] for row in aside] == ["", "", ""]
    assert [row for row in every if row["ball"]] == counted


def test_taken_back_each_counts_as_if_it_had_never_been_set_aside(
    client: WebClient, bay: Bay, strange: list[int]
) -> None:
    untouched = played(ghosts=True)
    before = came_out(untouched)
    for sequence in strange:
        post(client, bay, "not-ours", ball_of=sequence)
    assert came_out(bay) != before
    for _ in strange:
        undoable = bay.now.undoable
        assert undoable is not None
        post(client, bay, "undo", act=undoable.sequence)
    assert came_out(bay) == before
    assert not any(one.not_ours for one in bay.now.swings)
    assert table(client, bay, "readings") == table(client, bay, "shots")
