"""A store copied into another database is the same store."""

from dataclasses import replace
from pathlib import Path

import pytest

from databases import Cluster
from loftwright.domain import acts
from loftwright.domain.acts import ShotArrived
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.order_acts import Agreed
from loftwright.errors import ConflictError
from loftwright.store.copying import copy_store
from loftwright.store.postgres import open_postgres
from loftwright.store.sqlite import open_store
from store_samples import AT, DAY, with_fitting, with_rack


def test_a_copy_there_and_back_is_the_same_to_the_last_bit(
    cluster: Cluster, tmp_path: Path
) -> None:
    first = open_store(tmp_path / "first")
    fitting = with_fitting(first)
    with_rack(first)
    first.append(fitting, [acts.Rested(), _shot()], at=AT, by="\0 feed", key="k")
    first.append_job(fitting, [Agreed(name="Ottoline")], at=AT, by="")
    middle = open_postgres(cluster.fresh(), tmp_path / "first")
    last = open_store(tmp_path / "last")
    there, back = copy_store(first, middle), copy_store(middle, last)
    assert there == back
    assert {one.table: one.rows for one in there}["shots"] == 1
    assert middle.record(fitting) == first.record(fitting)
    assert middle.job_record(fitting) == first.job_record(fitting)
    assert middle.rack() == first.rack()
    middle.append(fitting, [acts.Rested()], at=AT, by="")
    middle.add_golfer(Golfer(id="g9"), Identity(name="Nine"))
    assert middle.golfers()[0].value.id == "g9"
    for one in (first, middle, last):
        one.close()


def test_fittings_of_two_who_took_turns_name_each_other_in_the_copy_too(
    cluster: Cluster, tmp_path: Path
) -> None:
    first = open_store(tmp_path / "first")
    fitting = with_fitting(first)
    first.add_golfer(Golfer(id="g2"), Identity(name="Two"))
    first.open_fitting(Fitting(id="f2", golfer="g2", opened=DAY, partner=fitting))
    kept = first.fitting(fitting)
    first.change_fitting(replace(kept.value, partner="f2"), version=kept.version)
    copies = (open_postgres(cluster.fresh(), tmp_path / "first"), open_store(tmp_path / "last"))
    for copy in copies:
        copy_store(first, copy)
        assert {one.value.id: one.value.partner for one in copy.fittings()} == {
            "f1": "f2",
            "f2": "f1",
        }
        copy.close()
    first.close()


def test_a_store_that_holds_something_is_not_copied_into(tmp_path: Path) -> None:
    first, second = open_store(tmp_path / "first"), open_store(tmp_path / "second")
    with_fitting(first)
    with_rack(second)
    with pytest.raises(ConflictError, match="holds items"):
        copy_store(first, second)
    assert second.golfers() == ()
    first.close()
    second.close()


def _shot() -> ShotArrived:
    return ShotArrived(numbers=ShotNumbers(ball_speed=66.123456789012345), line="Größe;1")
