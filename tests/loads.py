"""Bays at work: balls at a steady pace, acts now and then, and pages that are kept open."""

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from threading import Event, Lock, Thread
from typing import Final

import httpx

from bays import MEASURED, club_card
from load_watch import Follower
from loftwright.domain.acts import (
    ClubJoined,
    HandedOver,
    Planned,
    ShotArrived,
    VisitOpened,
    WarmUpDone,
)
from loftwright.domain.fitting import DeviceCard, PlanCard, Strip
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.acting import act
from loftwright.services.fittings import open_fitting
from loftwright.services.golfers import add_golfer
from loftwright.services.studio import Studio
from serving import ServerProcess

CLUBS: Final = ("Own", "Ash", "Birch", "Cedar")
SET: Final = 5
"""Balls after which the next club is handed over."""
PATIENCE: Final = 60.0
"""Seconds after which an answer counts as none; a slow one is told, not failed."""
LOOK: Final = 10.0
"""Seconds between two looks at pages of a bay's device."""
PAGES: Final = ("/fittings/{}/bay", "/fittings/{}/evidence", "/", "/fittings/{}/choice", "/bays")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How much happens in each bay.

    Attributes
    ----------
    seconds : float
        How long balls come.
    every : float
        Seconds between two balls.
    balls : int
        After which a fitting is closed and the next one opened.
    """

    seconds: float
    every: float = 2.0
    balls: int = 50


@dataclass(slots=True)
class Figures:
    """What was measured, each with the second of the run at which it was."""

    answers: list[tuple[float, float]] = field(default_factory=list)
    events: list[tuple[float, float]] = field(default_factory=list)
    acts: list[tuple[float, float]] = field(default_factory=list)
    pages: dict[str, list[tuple[float, float]]] = field(default_factory=dict)
    late: list[float] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)
    fittings: dict[str, list[str]] = field(default_factory=dict)
    """Keys of the balls that were answered for, by fitting."""
    lock: Lock = field(default_factory=Lock)

    def wrong(self, what: str) -> None:
        """Take note of something that must not be."""
        with self.lock:
            self.errors.append(what)


class BayAtWork:
    """One bay: its device's sender, a fitter's taps, two screens and pages that are looked at.

    Parameters
    ----------
    studio : Studio
        Opens fittings; a process of its own beside the bay's server.
    server : ServerProcess
    name : str
    pace : Pace
    figures : Figures
    """

    def __init__(
        self, studio: Studio, server: ServerProcess, name: str, pace: Pace, figures: Figures
    ) -> None:
        self._studio, self._address, self._name = studio, server.address, name
        self._pace, self._figures = pace, figures
        self._fitting = ""
        self._posted: list[tuple[float, int]] = []
        self._over = Event()

    def work(self, began: float, offset: float) -> None:
        """Hit balls until the time is over; each fitting is opened, hit in and closed."""
        looking = Thread(target=self._look, args=(began,))
        try:
            with httpx.Client(base_url=self._address, timeout=PATIENCE) as device:
                number, due = 0, began + offset
                while due < began + self._pace.seconds:
                    self._open(number)
                    if not looking.is_alive():
                        looking.start()
                    with self._watched(began):
                        due = self._fit(device, began, due)
                    number += 1
        except Exception as error:  # noqa: BLE001 - whatever it is, the run has failed
            self._figures.wrong(f"{self._name}: {error!r}")
        finally:
            self._over.set()
            if looking.is_alive():
                looking.join()

    def _open(self, number: int) -> None:
        """Open a fitting whose visit is on, planned and warm."""
        studio = self._studio
        name = f"{self._name} golfer {number} (invented)"
        golfer = add_golfer(studio, Golfer(id=""), Identity(name=name))
        fitting = open_fitting(studio, golfer.id, bay=self._name, fitter="Barnaby Quill").id
        sets = tuple((club, SET) for _ in range(10) for club in CLUBS)
        device = DeviceCard(name="meter", origins=MEASURED)
        act(
            studio,
            fitting,
            [
                VisitOpened(day=studio.today(), bay=self._name, device=device, strip=Strip()),
                *(ClubJoined(club=club, card=club_card(club)) for club in CLUBS),
                Planned(plan=PlanCard(sets=sets, seconds=3600.0)),
            ],
        )
        act(studio, fitting, [HandedOver(club="Own"), WarmUpDone(unseen=4)])
        with self._figures.lock:
            self._figures.fittings[fitting] = []
        self._fitting = fitting

    @contextmanager
    def _watched(self, began: float) -> Iterator[None]:
        """Keep the bay's page and the golfer's screen open while a fitting lasts."""
        paths = (f"/fittings/{self._fitting}/bay/events", f"/screen/{self._fitting}/events")
        followers = [Follower(self._address + path) for path in paths]
        for one in followers:
            one.start()
        try:
            yield
        finally:
            posted = self._posted
            for one in followers:
                one.wait_for(max((last for _, last in posted), default=0), PATIENCE)
                one.stop()
                if one.failed:
                    self._figures.wrong(f"{self._name}: {one.failed}")
            with self._figures.lock:
                for at, sequence in posted:
                    came = followers[0].when(sequence)
                    if came is None:
                        self._figures.errors.append(f"{self._name}: ball {sequence} never shown")
                    else:
                        self._figures.events.append((at - began, came - at))

    def _fit(self, device: httpx.Client, began: float, due: float) -> float:
        """Hit one fitting's balls at their times and close it; return when the next is due."""
        self._posted = []
        fitting = self._fitting
        for ball in range(self._pace.balls):
            if due >= began + self._pace.seconds:
                break
            time.sleep(max(0.0, due - time.monotonic()))
            self._figures.late.append(max(0.0, time.monotonic() - due))
            sequence = self._post(device, began, fitting, ball)
            due += self._pace.every
            if ball % 3 == 1:
                mark = {"toe_mm": str(ball % 9 - 4), "high_mm": "2", "ball_of": str(sequence)}
                self._act(device, began, "mark", mark, f"mark{ball}")
            if ball % SET == SET - 1:
                club = CLUBS[(ball // SET + 1) % len(CLUBS)]
                self._act(device, began, "hand-over", {"club": club}, f"hand{ball}")
            if ball % 12 == 11:
                self._act(device, began, "felt", {"place": "0.6", "word": "solid"}, f"felt{ball}")
        self._act(device, began, "close", {}, "close")
        return due

    def _post(self, device: httpx.Client, began: float, fitting: str, ball: int) -> int:
        """Post a ball as a device's program does and return its sequence."""
        key = f"{fitting}-{ball}"
        told = {
            "key": key,
            "ball_speed_mph": 145.0 + ball * 7 % 11,
            "launch_deg": 12.0 + ball * 5 % 7 / 4.0,
            "direction_deg": ball * 3 % 7 - 3.0,
            "spin_rpm": 2600 + ball * 37 % 400,
            "axis_deg": float(ball * 11 % 9 - 4),
        }
        at = time.monotonic()
        answer = device.post(f"/api/fittings/{fitting}/shots", json=told)
        took = time.monotonic() - at
        if answer.status_code != httpx.codes.OK:
            raise AssertionError(f"a ball was refused: {answer.status_code} {answer.text[:200]}")
        sequence = int(answer.json()["sequence"])
        with self._figures.lock:
            self._figures.answers.append((at - began, took))
            self._figures.fittings[fitting].append(key)
        self._posted.append((at, sequence))
        return sequence

    def _act(
        self, device: httpx.Client, began: float, name: str, fields: dict[str, str], key: str
    ) -> None:
        at = time.monotonic()
        answer = device.post(
            f"/fittings/{self._fitting}/acts/{name}",
            data=fields,
            headers={"Origin": self._address, "Idempotency-Key": f"{self._fitting}-{key}"[-64:]},
        )
        with self._figures.lock:
            self._figures.acts.append((at - began, time.monotonic() - at))
        if answer.status_code >= httpx.codes.BAD_REQUEST:
            self._figures.wrong(f"{self._name}: {name} was answered {answer.status_code}")

    def _look(self, began: float) -> None:
        """Open one page after the other until the bay's work is over."""
        turn = 0
        with httpx.Client(base_url=self._address, timeout=PATIENCE) as device:
            while not self._over.wait(LOOK):
                page, turn = PAGES[turn % len(PAGES)], turn + 1
                at = time.monotonic()
                try:
                    status = device.get(page.format(self._fitting)).status_code
                except httpx.HTTPError as error:
                    self._figures.wrong(f"{self._name}: {page}: {error!r}")
                    continue
                with self._figures.lock:
                    took = time.monotonic() - at
                    self._figures.pages.setdefault(page, []).append((at - began, took))
                if status != httpx.codes.OK:
                    self._figures.wrong(f"{self._name}: {page} was answered {status}")


def work_all(
    bays: list[BayAtWork], pace: Pace, each_minute: Callable[[float], None], every: float
) -> None:
    """Let all bays work, a ball of one falling between those of the others."""
    began = time.monotonic()
    threads = [
        Thread(target=bay.work, args=(began, place * pace.every / len(bays)))
        for place, bay in enumerate(bays)
    ]
    for thread in threads:
        thread.start()
    due = began
    while any(thread.is_alive() for thread in threads):
        each_minute(time.monotonic() - began)
        due += every
        while time.monotonic() < due and any(thread.is_alive() for thread in threads):
            time.sleep(0.2)
    for thread in threads:
        thread.join()


def lost_or_doubled(studio: Studio, figures: Figures) -> tuple[int, int]:
    """Return how many balls that were answered for are not in the store, and how many twice."""
    lost = doubled = 0
    for fitting, keys in figures.fittings.items():
        record = studio.store.record(fitting)
        there = [one.key for one in record if isinstance(one.act, ShotArrived)]
        lost += len(set(keys) - set(there))
        doubled += len(there) - len(set(there))
    return lost, doubled
