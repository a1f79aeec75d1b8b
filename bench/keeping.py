"""Seconds that a backup, a restore and a look over take, of a studio with so many fittings.

LOFTWRIGHT_BENCH_FITTINGS=20000 is the drill: a million balls, to be restored within ten minutes.
"""

import json
import os
import random
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

FITTINGS = int(os.environ.get("LOFTWRIGHT_BENCH_FITTINGS", "200"))
BALLS = 50
AT = datetime(2026, 5, 14, 9, tzinfo=UTC)
BATCH = 200
RNG = random.Random(7)  # noqa: S311 - figures of invented balls


def main() -> None:
    from loftwright.services.backup import make_backup
    from loftwright.services.backup_content import source_in
    from loftwright.services.doctor import look_over
    from loftwright.services.restore import restore

    with tempfile.TemporaryDirectory(dir=os.environ.get("LOFTWRIGHT_BENCH_FOLDER")) as folder:
        data = Path(folder) / "data"
        timed("making the studio", lambda: fill(data))
        now = AT + timedelta(days=1)
        made = timed("backup, read back", lambda: make_backup(source_in(data), now))
        done = timed(
            "restore, every record read", lambda: restore(made.path, data, now, over=True)
        )
        looked = timed("doctor", lambda: look_over(data, now))
        store = (data / "loftwright.sqlite").stat().st_size
        print(f"  {done.tried.fittings} fittings, {done.tried.balls} balls")
        print(f"  store {store / 1e6:.0f} MB, backup {made.size / 1e6:.0f} MB")
        # What the restore put aside is told for a week, as it should be.
        found = [one for one in looked.findings if one.check != "leftovers"]
        if found:
            sys.exit(f"the doctor found: {found[0]}")


def timed(what: str, run: Callable[[], Any]) -> Any:  # noqa: ANN401 - gives back whatever it ran
    began, busy = time.perf_counter(), time.process_time()
    made = run()
    told = (
        f"{time.perf_counter() - began:8.1f} s, {time.process_time() - busy:8.1f} s of processor"
    )
    print(f"{what:<28}{told}", flush=True)
    return made


def fill(data: Path) -> None:
    """Keep a studio whose fittings are copies of one, each of a golfer with a key of their own."""
    from cryptography.fernet import Fernet
    from sqlalchemy import insert, select

    from loftwright.store.engine import sqlite_engine
    from loftwright.store.schema import acts, appends, fittings, golfers, identities, shots

    one_fitting(data)
    engine = sqlite_engine(data, draft=True)
    tables = (golfers, identities, fittings, appends, acts, shots)
    with engine.begin() as connection:
        first = {
            table: [dict(row) for row in connection.execute(select(table)).mappings()]
            for table in tables
        }
    name = json.dumps({"name": "Nobody at All", "contact": "", "guardian": ""}).encode()
    for start in range(1, FITTINGS, BATCH):
        numbers = range(start, min(start + BATCH, FITTINGS))
        keys = {number: Fernet.generate_key() for number in numbers}
        for number, key in keys.items():
            file = data / "keys" / f"g{number}.key"
            file.write_bytes(key)
            file.chmod(0o600)
        with engine.execution_options(writes=True).begin() as connection:
            for table in tables:
                rows = [again(row, number) for number in numbers for row in first[table]]
                for row in rows:
                    if table is identities:
                        row["sealed"] = Fernet(keys[int(row["golfer"][1:])]).encrypt(name)
                connection.execute(insert(table), rows)
    engine.dispose()


def again(row: dict[str, Any], number: int) -> dict[str, Any]:
    """Return a row of the first fitting as that of another one."""
    told = {key: value for key, value in row.items() if key != "came"}
    if "id" in told:
        told["id"] = f"{told['id'][0]}{number}"
    for key, begins in (("golfer", "g"), ("fitting", "f")):
        if key in told:
            told[key] = f"{begins}{number}"
    if "ball_speed" in told:
        # No two balls alike, as in life: else a backup packs to nothing.
        told |= {name: told[name] + RNG.random() for name in ("ball_speed", "launch", "spin")}
    return told


def one_fitting(data: Path) -> None:
    from loftwright.domain.acts import Closed, Felt, HandedOver, ShotArrived
    from loftwright.domain.fitting import Fitting
    from loftwright.domain.golfer import Golfer, Identity
    from loftwright.domain.numbers import ShotNumbers
    from loftwright.store.sqlite import open_store

    store = open_store(data, draft=True)
    store.add_golfer(Golfer(id="g0"), Identity(name="Nobody"))
    store.open_fitting(Fitting(id="f0", golfer="g0", opened=date(2026, 5, 14)))
    for ball in range(BALLS):
        shot = ShotArrived(
            numbers=ShotNumbers(ball_speed=60.0 + ball / 7, launch=0.2, spin=270.0),
            line=f"{ball},60.1,0.2,270,a line of a device",
        )
        more = (
            [HandedOver(club="Ash")]
            if ball % 10 == 0
            else [Felt(club="Ash", place=0.5, word="solid")]
        )
        store.append("f0", [shot, *more], at=AT, by="feed", key=f"k{ball}")
    store.append("f0", [Closed()], at=AT, by="Ann")
    store.close()


if __name__ == "__main__":
    main()
