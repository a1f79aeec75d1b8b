"""Jobs, measured cards and bags, in every store alike."""

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from loftwright.domain.after_acts import Complained
from loftwright.domain.job_acts import JobUndone
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.order_acts import Agreed, Withdrawn
from loftwright.errors import ConflictError, NotFoundError, StoreError
from loftwright.store.interface import Store, TakenBack
from loftwright.store.sqlite import open_store
from store_samples import with_fitting, with_rack

AT = datetime(2026, 5, 14, 9, tzinfo=UTC)
CARD = MeasuredCard(item="p2", day=date(2026, 5, 14), by="Q", figures=PartFigures(mass=0.0654))


def test_acts_of_a_job_come_back_in_order_with_their_group(store: Store) -> None:
    fitting = with_fitting(store)
    store.append_job(fitting, [Agreed(name="Ottoline"), Withdrawn(reason="moved")], at=AT, by="Q")
    store.append_job(fitting, [JobUndone(act=2)], at=AT, by="Q")
    record = store.job_record(fitting)
    assert [entry.act for entry in record] == [
        Agreed(name="Ottoline"),
        Withdrawn(reason="moved"),
        JobUndone(act=2),
    ]
    assert [(entry.sequence, entry.group) for entry in record] == [(1, 1), (2, 1), (3, 3)]
    assert store.job_record(fitting, after=2) == record[2:]
    assert store.jobs() == (fitting,)


def test_a_key_that_a_job_knows_writes_nothing(store: Store) -> None:
    fitting = with_fitting(store)
    first = store.append_job(fitting, [Agreed(name="O")], at=AT, by="", key="k")
    again = store.append_job(fitting, [Agreed(name="P")], at=AT, by="", key="k")
    assert again.repeated
    assert again.entries == first.entries == store.job_record(fitting)


def test_a_job_of_no_fitting_is_refused(store: Store) -> None:
    with pytest.raises(NotFoundError, match="fitting 'f9'"):
        store.append_job("f9", [Agreed(name="O")], at=AT, by="")
    with pytest.raises(NotFoundError, match="fitting 'f9'"):
        store.job_record("f9")


def test_cards_come_back_by_item_in_order(store: Store) -> None:
    with_rack(store)
    later = MeasuredCard(
        item="p2", day=CARD.day, by="R", figures=PartFigures(mass=0.0655, balance=0.6)
    )
    store.keep_card(CARD)
    store.keep_card(later)
    assert store.cards() == {"p2": (CARD, later)}
    with pytest.raises(NotFoundError, match="item 'x9'"):
        store.keep_card(MeasuredCard(item="x9", day=CARD.day, by="", figures=CARD.figures))


def test_an_item_that_was_measured_is_not_taken_back(store: Store) -> None:
    with_rack(store)
    store.keep_card(CARD)
    version = store.item("p2").version
    with pytest.raises(ConflictError):
        store.take_back(TakenBack(items=(("p2", version),)))


def test_a_bag_is_kept_version_by_version(store: Store) -> None:
    fitting = with_fitting(store)
    golfer = store.fitting(fitting).value.golfer
    assert store.bag(golfer).version == 0
    assert store.set_bag(golfer, "[1]", version=0) == 1
    with pytest.raises(ConflictError):
        store.set_bag(golfer, "[2]", version=0)
    assert store.set_bag(golfer, "[2]", version=1) == 2
    assert store.bag(golfer).value == "[2]"
    with pytest.raises(NotFoundError, match="golfer 'g9'"):
        store.bag("g9")


def test_what_a_golfer_complained_of_lies_sealed_in_the_file(tmp_path: Path) -> None:
    kept = open_store(tmp_path)
    fitting = with_fitting(kept)
    golfer = kept.fitting(fitting).value.golfer
    kept.append_job(fitting, [Complained(day=AT.date(), words="Zwetschge")], at=AT, by="")
    kept.set_bag(golfer, "Zwetschge", version=0)
    kept.keys.forget(golfer)
    with pytest.raises(StoreError, match="key is gone"):
        kept.job_record(fitting)
    kept.close()
    for file in tmp_path.rglob("*"):
        assert not file.is_file() or b"Zwetschge" not in file.read_bytes()
