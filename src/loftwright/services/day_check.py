"""A bench's master shaft: read every day, so that a bench that moved is seen before it is used."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from loftwright.errors import InputError, NotFoundError
from loftwright.physics.bench.day_check import FEWEST, DayCheck, day_check
from loftwright.physics.bench.readings import Reading
from loftwright.services.bench_reads import read_sheet
from loftwright.services.bench_sheet import Row, Series, Sheet, sheet_of, sheet_text
from loftwright.services.bench_typing import typed_in
from loftwright.services.studio import Studio
from loftwright.store.interface import BenchDay

NAME: Final = "bench_masters"
"""Of the setting that holds every bench's master shaft."""

DAILY: Final = ("three_point", "frequency")
"""What is read of a master shaft, one row each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Master:
    """A bench's master shaft and how it is read.

    Attributes
    ----------
    set_up : Sheet
        One series a kind of `DAILY` with its set-up, station and all; no readings.
    """

    bench: str
    piece: str
    set_up: Sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRead:
    """One day of a master shaft.

    Attributes
    ----------
    readings : mapping of str to Reading
        By kind.
    checks : mapping of str to DayCheck
        Against the days before; none while these are too few.
    """

    day: date
    readings: Mapping[str, Reading]
    checks: Mapping[str, DayCheck]


def masters(studio: Studio) -> dict[str, Master]:
    """Return every bench's master shaft by the bench's name."""
    text = studio.store.setting(NAME).value
    told = json.loads(text) if text else {}
    return {
        bench: Master(bench=bench, piece=one["piece"], set_up=sheet_of(one["set_up"]))
        for bench, one in told.items()
    }


def mark_master(studio: Studio, bench: str, piece: str, set_up: Sheet) -> Master:
    """Mark a shaft as a bench's master, in place of any other.

    Raises
    ------
    InputError
        If the bench has no name, it is no shaft, or its set-up is not whole.
    """
    rack = studio.store.rack()
    found = rack.pieces.get(piece)
    if found is None or found.model not in rack.shafts:
        raise InputError(
            "only a shaft can be a master", place="piece", mend="Choose a shaft of the rack."
        )
    if not bench:
        raise InputError("the bench has no name", place="bench", mend="Name the bench.")
    _checked(set_up)
    kept = studio.store.setting(NAME)
    told = json.loads(kept.value) if kept.value else {}
    told[bench] = {"piece": piece, "set_up": sheet_text(set_up)}
    studio.store.set_setting(
        NAME, json.dumps(told, ensure_ascii=False, sort_keys=True), version=kept.version
    )
    return Master(bench=bench, piece=piece, set_up=set_up)


def read_master(studio: Studio, bench: str, read: Mapping[str, str]) -> None:
    """Keep what a bench reads of its master shaft today.

    Parameters
    ----------
    studio : Studio
    bench : str
    read : mapping of str to str
        By kind, as it was typed; at least one.

    Raises
    ------
    NotFoundError
        If the bench has no master.
    InputError
        If nothing was typed, or a figure cannot be.
    """
    master = masters(studio).get(bench)
    if master is None:
        raise NotFoundError(
            "no bench of that name has a master shaft", place=bench, mend="Mark one first."
        )
    if not any(read.get(kind) for kind in DAILY):
        raise InputError(
            "nothing was read", place=DAILY[0], mend="Type the deflection, the frequency, or both."
        )
    filled = _with_readings(master.set_up, read)
    _readings(filled)
    told = json.dumps({"bench": bench, "sheet": sheet_text(filled)}, ensure_ascii=False)
    studio.store.keep_bench_day(BenchDay(piece=master.piece, at=studio.now(), told=told))


def days(studio: Studio, master: Master) -> tuple[DayRead, ...]:
    """Return the days of a bench's master shaft, the oldest first.

    Each is held against the days before it in the same set-up.
    """
    found: list[DayRead] = []
    for kept in studio.store.bench_days():
        told = json.loads(kept.told)
        if told["bench"] != master.bench or kept.piece != master.piece:
            continue
        readings = _readings(sheet_of(told["sheet"]))
        checks = {
            kind: check
            for kind, reading in readings.items()
            if (check := _check(kind, reading, found)) is not None
        }
        day = kept.at.astimezone(studio.zone).date()
        found.append(DayRead(day=day, readings=readings, checks=checks))
    return tuple(found)


def days_wanted(known: tuple[DayRead, ...]) -> int:
    """Return on how many more days a master is read before one can be held against the others."""
    return max(0, FEWEST + 1 - len(known))


def set_up_of(lengths: str, fields: Mapping[str, str]) -> Sheet:
    """Return how a master is read, as it was typed.

    Raises
    ------
    InputError
        If a cell is no cell of a sheet.
    """
    bare = Sheet(lengths=lengths, series=tuple(Series(kind=kind) for kind in DAILY))
    cells = {name: text for name, text in fields.items() if name.startswith("s")}
    head = {"length": fields.get("length", "")}
    made = typed_in(bare, {**head, **cells})
    # A station belongs to a row; of a master it is part of the set-up.
    rows = (Row(cells={"station": fields.get("station", "").strip()}),)
    return replace(made, series=(replace(made.series[0], rows=rows), *made.series[1:]))


def _check(kind: str, today: Reading, before: list[DayRead]) -> DayCheck | None:
    """Return a check against the days before; days of another set-up do not count."""
    history = [day.readings[kind] for day in before if kind in day.readings]
    while history:
        try:
            return day_check(today, history)
        except InputError:
            history = history[1:]
    return None


def _with_readings(set_up: Sheet, read: Mapping[str, str]) -> Sheet:
    series = []
    for one in set_up.series:
        text = read.get(one.kind, "").strip()
        place = one.rows[0].cells if one.rows else {}
        row = Row(cells={**place, **one.set_up, one.of.read: text})
        series.append(replace(one, rows=(row,) if text else ()))
    return replace(set_up, series=tuple(series))


def _readings(sheet: Sheet) -> dict[str, Reading]:
    """Return the readings of a day by kind.

    Raises
    ------
    InputError
        If a cell cannot be; its place is the kind.
    """
    read = read_sheet(sheet)
    for place, error in read.faults.items():
        kind = sheet.series[int(place[1])].kind if place.startswith("s") else place
        raise InputError(error.message, place=kind, mend=error.mend)
    return {sheet.series[one.series].kind: one.reading for one in read.readings}


def _checked(set_up: Sheet) -> None:
    """Refuse a set-up in which nothing can be read."""
    if not set_up.head.get("length"):
        raise InputError("the length is empty", place="length", mend="Measure the master shaft.")
    whole = False
    for at, one in enumerate(set_up.series):
        place = one.rows[0].cell("station") if one.rows else ""
        cells = {**one.set_up, **({"station": place} if one.of.place else {})}
        if any(cells.values()):
            for cell in one.of.cells[:-1]:
                if not cells.get(cell):
                    name = "station" if cell == "station" else f"s{at}-{cell}"
                    raise InputError(
                        f"{cell.replace('_', ' ')} is empty",
                        place=name,
                        mend="Fill it in, or leave this kind empty altogether.",
                    )
            whole = True
    if not whole:
        raise InputError(
            "there is no set-up", place="s0-span", mend="Give how the master is read each day."
        )
