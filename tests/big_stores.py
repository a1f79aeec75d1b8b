"""A store of many closed fittings: a few that were really played, copied under new golfers."""

import json
import random
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import islice
from pathlib import Path
from typing import Final
from uuid import NAMESPACE_URL, uuid5

from sqlalchemy import Connection, text

from loftwright.domain.acts import Closed, Felt, HandedOver, SettingSeen, WarmUpDone
from loftwright.domain.fitting import Strip
from loftwright.domain.golfer import Consents, Golfer, Hand, Identity
from loftwright.intake.files import write_whole
from loftwright.services.acting import act
from loftwright.services.demo_rack import METER
from loftwright.services.demo_studio import fill_demo, replace_clock
from loftwright.services.evidence import Desk
from loftwright.services.fittings import Wish, open_fitting, plan_visit
from loftwright.services.predicting import predict_next
from loftwright.services.studio import Studio
from loftwright.services.virtual_bay import virtual_ball
from loftwright.services.visit_start import Start, start_visit
from loftwright.store.engine import FILE
from loftwright.store.free_text import SEALED, FreeText
from loftwright.store.keys import KeyRing
from loftwright.store.sql import SqlStore
from loftwright.store.sqlite import open_store
from studios import Clock
from taken_clubs import Shop

PLAYED: Final = 5
"""Fittings that are really played; the others are copies of them."""
BALLS: Final = 46
WARM_UP: Final = 4
"""Balls before the comparison: with those above, fifty a fitting."""
AT_ONCE: Final = 500
DAY: Final = date(2026, 5, 14)
"""Of the fittings that were played."""
FITTERS: Final = ("Barnaby Quill (invented)", "Isolde Thatch (invented)", "Kit Lark (invented)")
BAYS: Final = ("Bay 1", "Bay 2", "Bay 3", "Bay 4", "Bay 5", "Bay 6")
CLOSED: Final = "/fittings/{closed}"
PAGES: Final = {
    "today": "/",
    "today, a golfer sought": "/?find=amberley",
    "start a fitting": "/golfers/new",
    "start a fitting, a golfer sought": "/golfers/new?find=cindle",
    "people": "/people",
    "people, a golfer sought": "/people?find=dravery",
    "a closed fitting: golfer": CLOSED + "/golfer",
    "a closed fitting: bay": CLOSED + "/bay",
    "a closed fitting: evidence": CLOSED + "/evidence",
    "a closed fitting: choice": CLOSED + "/choice",
    "a closed fitting: report": CLOSED + "/report",
    "a closed fitting: order": CLOSED + "/order",
    "a closed fitting: follow-up": CLOSED + "/follow-up",
    "rack": "/rack",
    "bays": "/bays",
    "bench": "/bench",
    "build list": "/build",
    "follow-ups": "/follow-ups",
    "proof": "/proof",
    "spin setting": "/spin",
    "shop": "/shop",
    "comparisons": "/shop/comparisons",
    "settings": "/settings",
    "bundle for help": "/settings/bundle",
    "terms": "/settings/terms",
    "what is kept, in plain words": "/what-is-kept",
    "fittings in progress, for senders": "/api/fittings",
    "health": "/health",
}
"""Every page that tells of more than one fitting, and those of a closed one with a job."""
_FIRST: Final = ("Ada", "Bram", "Cleo", "Dov", "Enid", "Fitz", "Greta", "Hal", "Ivor", "Jory")
_LAST: Final = ("Amberley", "Bexcombe", "Cindle", "Dravery", "Elmsworth", "Farrowby", "Gantle")

_COPIES: Final = (
    "INSERT INTO appends (fitting, first, at, by, key) "
    'SELECT :new, first, :day || substr("at", 11), by, key FROM appends WHERE fitting = :old',
    "INSERT INTO acts (fitting, sequence, first, kind, told) "
    "SELECT :new, sequence, first, kind, replace(told, :played, :day) "
    "FROM acts WHERE fitting = :old AND told NOT LIKE :sealed",
    "INSERT INTO predictions "
    '(fitting, "after", set_up, bay, device, "at", rests, home, forecasts, program) '
    'SELECT :new, "after", set_up, :bay, device, :day || substr("at", 11), rests, home, '
    "forecasts, program FROM predictions WHERE fitting = :old ORDER BY came",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """How much a big store holds."""

    fittings: int = 20_000
    golfers: int = 6_000
    jobs_each: int = 4
    """One fitting of so many has a job."""
    played: int = PLAYED
    balls: int = BALLS
    newest: date = DAY
    """The day before which the newest fitting was closed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Played:
    """A fitting that was played, and what of it is sealed."""

    id: str
    golfer: str
    felt: tuple[tuple[int, int, str, str], ...]
    job: tuple[dict[str, object], ...]
    shot_columns: tuple[str, ...]


def make_big_store(folder: Path, size: Size) -> None:
    """Fill a folder with a big store, going on where it stopped before."""
    done, played_before = folder / "MADE.json", folder / "PLAYED.json"
    if done.exists():
        return
    if not played_before.exists():
        # A fitting that was being played when the making was stopped is of no use.
        for left in folder.glob(f"{FILE}*"):
            left.unlink()
    store = open_store(folder, draft=True)
    try:
        studio = Studio(store=store, folder=folder)
        played = _play_all(studio, played_before, size)
        _add_golfers(studio, size)
        _copy_all(store, played, size)
        with store.reading() as connection:
            told = {
                table: connection.scalar(text(f"SELECT count(*) FROM {table}"))  # noqa: S608
                for table in ("fittings", "golfers", "shots", "acts", "predictions", "job_acts")
            }
    finally:
        store.close()
    write_whole(done, json.dumps(told).encode())


def golfer_id(number: int) -> str:
    """Return the id of a golfer of the big store."""
    return str(uuid5(NAMESPACE_URL, f"big-golfer-{number}"))


def closed_with_job(size: Size) -> str:
    """Return the newest copied fitting that has a job."""
    return fitting_id((size.fittings - 1) // size.jobs_each * size.jobs_each)


def fitting_id(number: int) -> str:
    """Return the id of a copied fitting, from 0 for the oldest."""
    return str(uuid5(NAMESPACE_URL, f"big-fitting-{number}"))


def name_of(number: int) -> str:
    """Return a golfer's invented name; no two are alike."""
    first, last = _FIRST[number % len(_FIRST)], _LAST[number // len(_FIRST) % len(_LAST)]
    return f"{first} {last} {number} (invented)"


def _play_all(studio: Studio, kept: Path, size: Size) -> tuple[_Played, ...]:
    """Play the fittings that are copied, once."""
    if not kept.exists():
        clock = Clock(datetime(DAY.year, DAY.month, DAY.day, 9, 0, tzinfo=UTC))
        past = replace_clock(studio, clock)
        fill_demo(past)
        ids = [_play(past, clock, seed, size.balls) for seed in range(size.played)]
        write_whole(kept, json.dumps(ids).encode())
    store = studio.store
    assert isinstance(store, SqlStore)
    return tuple(_played(store, one) for one in json.loads(kept.read_text(encoding="utf-8")))


def _play(studio: Studio, clock: Clock, seed: int, balls: int) -> str:
    """Play one fitting to its end, its balls predicted and its club taken home."""
    ability = ("low", "mid", "high")[seed % 3]
    golfer = Golfer(id=f"played-{seed}", ability=ability, consents=Consents(contact=True))
    studio.store.add_golfer(golfer, Identity(name=f"Played {seed} (invented)", contact="none"))
    fitting = open_fitting(studio, golfer.id, bay="Bay 1", fitter=FITTERS[0], invented=True)
    clubs = [one for one in studio.store.rack().assemblies.values() if one.owner is None]
    wish = Wish(assemblies=tuple(one.id for one in clubs[:4]), balls=balls)
    now = plan_visit(studio, fitting.id, wish, seed=seed)
    start_visit(studio, fitting.id, Start(device=METER, strip=Strip(), pain=False), by=FITTERS[0])
    sets = now.plan.plan.sets if now.plan else ()
    act(studio, fitting.id, [HandedOver(club=sets[0][0])], by=FITTERS[0])
    for _ in range(WARM_UP):
        clock.forward(0.4)
        virtual_ball(studio, fitting.id, marked=False)
    act(studio, fitting.id, [WarmUpDone(unseen=2)], by=FITTERS[0])
    desk = Desk()
    for club, many in sets:
        act(studio, fitting.id, [HandedOver(club=club)], by=FITTERS[0])
        card = studio.standing(fitting.id).club(club)
        if card is not None and card.card.settings:
            act(studio, fitting.id, [SettingSeen(setting=card.card.setting)], by=FITTERS[0])
        for _ in range(many):
            clock.forward(0.5)
            predict_next(studio, desk, fitting.id)
            virtual_ball(studio, fitting.id)
    for place, (club, _) in enumerate(sets[:4]):
        felt = Felt(club=club, place=0.2 * place, word=f"word {place}")
        act(studio, fitting.id, [felt], by=FITTERS[0])
    act(studio, fitting.id, [Closed()], by=FITTERS[0])
    shop = Shop.__new__(Shop)
    shop.studio, shop.clock = studio, clock
    shop.taken(fitting.id)
    return fitting.id


def _played(store: SqlStore, fitting: str) -> _Played:
    golfer = store.fitting(fitting).value.golfer
    words = FreeText(store.keys, golfer)
    with store.reading() as connection:
        felt = connection.execute(
            text(
                "SELECT sequence, first, kind, told FROM acts WHERE fitting = :f AND told LIKE :s"
            ),
            {"f": fitting, "s": f"%{SEALED}%"},
        ).all()
        job = connection.execute(
            text("SELECT * FROM job_acts WHERE fitting = :f ORDER BY sequence"), {"f": fitting}
        ).mappings()
        columns = connection.execute(text("SELECT * FROM shots LIMIT 0")).keys()
        return _Played(
            id=fitting,
            golfer=golfer,
            felt=tuple((one[0], one[1], one[2], words.opened_act(one[3])) for one in felt),
            job=tuple(
                {**one, "sealed": store.keys.opened(golfer, bytes(one["sealed"]))} for one in job
            ),
            shot_columns=tuple(columns),
        )


def _add_golfers(studio: Studio, size: Size) -> None:
    """Keep the golfers that are not there yet; every fifth does not agree to be asked."""
    there = {kept.value.id for kept in studio.store.golfers()}
    for number in range(size.golfers):
        if golfer_id(number) not in there:
            golfer = Golfer(
                id=golfer_id(number),
                hand=Hand.LEFT if number % 9 == 0 else Hand.RIGHT,
                goal="Further, and not right",
                ability=("low", "mid", "high")[number % 3],
                consents=Consents(keep=True, contact=number % 5 > 0, given_on=DAY),
            )
            studio.store.add_golfer(golfer, Identity(name=name_of(number), contact="by post"))


def _copy_all(store: SqlStore, played: tuple[_Played, ...], size: Size) -> None:
    with store.reading() as connection:
        there = {row[0] for row in connection.execute(text("SELECT id FROM fittings"))}
    missing = iter([n for n in range(size.fittings) if fitting_id(n) not in there])
    while some := _some(missing):
        with store.writing() as connection:
            for number in some:
                _copy(connection, store.keys, played[number % len(played)], number, size)


def _some(numbers: Iterator[int]) -> list[int]:
    return list(islice(numbers, AT_ONCE))


def _copy(connection: Connection, keys: KeyRing, played: _Played, number: int, size: Size) -> None:
    """Copy a played fitting under a new id, golfer, day and bay, with balls of its own."""
    chance = random.Random(number)
    back = 1 + (size.fittings - 1 - number) // 12
    told: dict[str, object] = {
        "new": fitting_id(number),
        "old": played.id,
        "golfer": golfer_id(number % size.golfers),
        "day": (size.newest - timedelta(days=back)).isoformat(),
        "played": DAY.isoformat(),
        "bay": BAYS[number % len(BAYS)],
        "fitter": FITTERS[number % len(FITTERS)],
        "sealed": f"%{SEALED}%",
    }
    connection.execute(
        text(
            "INSERT INTO fittings "
            "(id, golfer, opened, bay, fitter, partner, invented, version, bay_check) "
            "VALUES (:new, :golfer, :day, :bay, :fitter, NULL, 0, 1, 0)"
        ),
        told,
    )
    for statement in _COPIES:
        connection.execute(text(statement), told)
    connection.execute(text(_shots(played.shot_columns)), told | {"more": chance.gauss(1.0, 0.02)})
    words = FreeText(keys, str(told["golfer"]))
    for sequence, first, kind, said in played.felt:
        connection.execute(
            text("INSERT INTO acts VALUES (:new, :sequence, :first, :kind, :told)"),
            {
                "new": told["new"],
                "sequence": sequence,
                "first": first,
                "kind": kind,
                "told": words.seal_act(said),
            },
        )
    if number % size.jobs_each == 0:
        _copy_job(connection, keys, played, told)


def _shots(columns: tuple[str, ...]) -> str:
    """Return what copies a fitting's balls, all of them a little faster or slower."""
    changed = {
        "fitting": ":new",
        "source": "'feed'",
        "ball_speed": "ball_speed * :more",
        "head_speed": "head_speed * :more",
    }
    into = ", ".join(f'"{name}"' for name in columns)
    out = ", ".join(changed.get(name, f'"{name}"') for name in columns)
    return f"INSERT INTO shots ({into}) SELECT {out} FROM shots WHERE fitting = :old"  # noqa: S608


def _copy_job(
    connection: Connection, keys: KeyRing, played: _Played, told: dict[str, object]
) -> None:
    for one in played.job:
        row = one | {
            "fitting": told["new"],
            "at": f"{told['day']}{str(one['at'])[10:]}",
            "sealed": keys.seal(str(told["golfer"]), str(one["sealed"])),
        }
        connection.execute(
            text(
                "INSERT INTO job_acts VALUES "
                "(:fitting, :sequence, :first, :at, :by, :key, :kind, :sealed)"
            ),
            row,
        )
