"""What fittings leave in the shop record, and what golfers who said no leave: nothing."""

import pyarrow.parquet as pq

from demos import a_demo
from loftwright.services.evidence import Desk
from loftwright.services.shop_folder import code_of_golfer, record_folder
from loftwright.services.shop_record import record_shop, recorded_of
from loftwright.services.studio import Studio
from loftwright.shop.record import files
from shop_studios import with_consent
from studios import studio_in_memory


def rows(studio: Studio) -> list[dict[str, object]]:
    return [
        row
        for file in files(record_folder(studio))
        for row in pq.read_table(file, partitioning=None).to_pylist()
    ]


def test_only_golfers_who_agreed_are_in_it_and_they_go_when_they_say_no() -> None:
    studio, desk = studio_in_memory(), Desk()
    demo = a_demo(studio)
    golfer = with_consent(studio, demo.finished, agreed=True)
    with_consent(studio, demo.in_progress, agreed=False)
    kept = record_shop(studio, desk)
    assert (kept.fittings, kept.left_out) == (1, 1)
    there = rows(studio)
    assert {row["golfer"] for row in there} == {code_of_golfer(golfer)}
    assert len(there) == 40
    with_consent(studio, demo.finished, agreed=False)
    record_shop(studio, desk)
    assert rows(studio) == []


def test_invented_fittings_teach_a_shop_nothing() -> None:
    studio, desk = studio_in_memory(), Desk()
    demo = a_demo(studio)
    with_consent(studio, demo.finished, agreed=True, invented=True)
    with_consent(studio, demo.in_progress, agreed=True, invented=True)
    assert record_shop(studio, desk).fittings == 0
    assert rows(studio) == []


def test_a_ball_stands_in_it_with_what_its_club_belongs_to() -> None:
    studio, desk = studio_in_memory(), Desk()
    demo = a_demo(studio)
    with_consent(studio, demo.finished, agreed=True)
    recorded = recorded_of(studio, desk, demo.finished)
    assert recorded is not None
    assert recorded.weights is not None
    assert recorded.weights.max() <= 1.0
    assert recorded.weights.min() < 0.9
    ash = recorded.belongs["Ash"]
    rack = studio.store.rack()
    assert ash.model in rack.shafts
    assert ash.piece in rack.pieces
    assert ash.head in rack.heads
    assert recorded.speed in {"slow", "middle", "fast"}
