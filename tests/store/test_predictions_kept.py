"""A prediction is kept before its ball is read, or never."""

import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import delete

from loftwright.domain.acts import HandedOver, NotRead, ShotArrived
from loftwright.domain.home import Home
from loftwright.domain.prediction import Forecast, Prediction, Rests
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.store.engine import FILE
from loftwright.store.interface import Store
from loftwright.store.schema import acts, appends, fittings
from loftwright.store.sqlite import open_store
from records import numbers
from store_samples import AT, HOME, with_fitting

SPEED = Forecast(
    quantity="ball_speed", mean=66.1, ranges=((65.2, 67.0), (64.3, 67.9), (1 / 3 + 62, 69.2))
)
PREDICTION = Prediction(
    after=1,
    set_up="Alder, one up",
    bay="Bay 1",
    device="meter",
    at=AT,
    rests=Rests.BALLS,
    home=HOME,
    forecasts=(SPEED, replace(SPEED, quantity="carry")),
    program="0.3.0",
)


def begun(store: Store) -> str:
    fitting = with_fitting(store)
    store.append(fitting, [HandedOver(club="Alder")], at=AT, by="")
    return fitting


def a_ball(store: Store, fitting: str) -> None:
    store.append(fitting, [ShotArrived(numbers=numbers())], at=AT, by="feed")


def test_predictions_come_back_whole_in_their_order(store: Store) -> None:
    fitting = begun(store)
    assert store.predictions(fitting) == ()
    assert store.predict(fitting, PREDICTION)
    other = replace(PREDICTION, set_up="Own", home=Home(), rests=Rests.STATED)
    assert store.predict(fitting, other)
    assert store.predictions(fitting) == (PREDICTION, other)


def test_what_was_predicted_stays_as_it_is(store: Store) -> None:
    fitting = begun(store)
    assert store.predict(fitting, PREDICTION)
    better = replace(PREDICTION, forecasts=(replace(SPEED, mean=66.2),))
    assert not store.predict(fitting, better)
    assert store.predictions(fitting) == (PREDICTION,)


def test_a_ball_that_was_read_is_predicted_no_more(store: Store) -> None:
    fitting = begun(store)
    a_ball(store, fitting)
    with pytest.raises(ConflictError):
        store.predict(fitting, PREDICTION)
    assert store.predictions(fitting) == ()
    assert store.predict(fitting, replace(PREDICTION, after=2))


def test_acts_that_are_no_ball_that_was_read_leave_time_to_predict(store: Store) -> None:
    fitting = begun(store)
    store.append(fitting, [HandedOver(club="Own"), NotRead()], at=AT, by="")
    assert store.predict(fitting, PREDICTION)


def test_nothing_is_predicted_from_entries_that_are_not_there(store: Store) -> None:
    fitting = begun(store)
    with pytest.raises(InputError):
        store.predict(fitting, replace(PREDICTION, after=2))
    with pytest.raises(InputError, match="zone"):
        store.predict(fitting, replace(PREDICTION, at=AT.replace(tzinfo=None)))
    with pytest.raises(NotFoundError, match="nothing"):
        store.predict("nothing", PREDICTION)
    with pytest.raises(NotFoundError, match="nothing"):
        store.predictions("nothing")
    assert store.predictions(fitting) == ()


def test_predictions_go_with_their_fitting(tmp_path: Path) -> None:
    store = open_store(tmp_path)
    fitting = begun(store)
    store.predict(fitting, PREDICTION)
    with store.writing() as connection:
        for table in (acts, appends):
            connection.execute(delete(table).where(table.c.fitting == fitting))
        connection.execute(delete(fittings).where(fittings.c.id == fitting))
        assert connection.exec_driver_sql("SELECT count(*) FROM predictions").scalar() == 0
    store.close()


def test_a_store_of_the_first_schema_takes_predictions_without_losing_anything(
    tmp_path: Path,
) -> None:
    store = open_store(tmp_path)
    fitting = begun(store)
    before = store.record(fitting)
    store.close()
    with sqlite3.connect(tmp_path / FILE) as door:
        younger = ("predictions", "bench_sheets", "bench_days", "profiles", "inspections")
        for table in (*younger, "job_acts", "measured_cards", "bags", "place_moves", "openings"):
            door.execute(f"DROP TABLE {table}")
        for table in ("head_models", "shaft_models"):
            for column in ("family", "stock", "price"):
                door.execute(f"ALTER TABLE {table} DROP COLUMN {column}")
        door.execute("ALTER TABLE paired_devices DROP COLUMN pin")
        door.execute("ALTER TABLE pieces DROP COLUMN check_after")
        door.execute("ALTER TABLE fittings DROP COLUMN bay_check")
        for column in ("wish", "change", "release", "merged_into"):
            door.execute(f"ALTER TABLE golfers DROP COLUMN {column}")
        door.execute("UPDATE alembic_version SET version_num = '0001'")
    door.close()
    store = open_store(tmp_path)
    assert store.record(fitting) == before
    assert store.predict(fitting, PREDICTION)
    store.close()
