"""A device that is left alone shows nothing but its lock, in every tab, until its PIN is typed."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

import pytest
from fastapi import FastAPI

from bays import Bay, a_bay
from fakes import MemoryStore
from loftwright.errors import InputError, NotFoundError, TooManyError
from loftwright.intake.feed_keys import EXAMPLE
from loftwright.services import pin_lock
from loftwright.services.doorkeeping import Doorkeeper
from loftwright.services.live import Hub
from loftwright.services.pin_lock import (
    LONGEST_WAIT,
    SETTING,
    THIS_MACHINE,
    TRIES,
    PinLocks,
    wait_after,
)
from loftwright.services.pin_record import read_lock
from loftwright.store.door_interface import PairedDevice
from loftwright.web.app import create_app
from loftwright.web.security import Access
from studios import NOON, Clock
from web_client import MAIN_SCREEN, TABLET, WebClient, asking

JSON = {"Accept": "application/json"}
PIN = "4711"


@pytest.fixture(autouse=True)
def quick(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Hash at the least cost that there is, save where the cost itself is looked at."""
    if "published_cost" not in request.node.name:
        monkeypatch.setattr(pin_lock, "_MEMORY", 32)
        monkeypatch.setattr(pin_lock, "_PASSES", 1)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store() -> MemoryStore:
    made = MemoryStore()
    made.pair(PairedDevice(id="d1", name="T", role="fitter", key_hash="aa", paired_at=NOON))
    return made


@pytest.fixture
def locks(store: MemoryStore, clock: Clock) -> PinLocks:
    return PinLocks(store, clock)


def test_a_pin_is_kept_as_an_argon2id_hash_of_the_published_cost(
    store: MemoryStore, locks: PinLocks
) -> None:
    """RFC 9106, section 4: the second recommended option, t=3, m=64 MiB, p=4 (published)."""
    locks.set("d1", PIN, idle=0)
    kept = read_lock(store.paired()[0].pin)
    assert kept is not None
    assert kept.pin.startswith("$argon2id$v=19$m=65536,t=3,p=4$")
    assert PIN not in kept.pin
    salt, tag = kept.pin.split("$")[-2:]
    assert (len(salt), len(tag)) == (22, 43)
    locks.set("d1", PIN, idle=0, now=PIN)
    again = read_lock(store.paired()[0].pin)
    assert again is not None
    assert again.pin != kept.pin


@pytest.mark.parametrize("pin", ["", "123", "1" * 13, "12a4", "12 34", "١٢٣٤", "-123"])
def test_a_pin_has_four_to_twelve_figures(locks: PinLocks, pin: str) -> None:
    with pytest.raises(InputError, match="4 to 12 figures"):
        locks.set("d1", pin, idle=0)


def test_a_lock_is_changed_only_with_the_pin_it_has(locks: PinLocks, store: MemoryStore) -> None:
    locks.set("d1", PIN, idle=5)
    with pytest.raises(InputError) as refused:
        locks.set("d1", "2222", idle=0, now="1111")
    assert refused.value.place == "now"
    with pytest.raises(InputError):
        locks.drop("d1", "1111")
    locks.drop("d1", PIN)
    assert store.paired()[0].pin is None
    with pytest.raises(NotFoundError):
        locks.set("d9", PIN, idle=0)
    with pytest.raises(InputError):
        locks.set("d1", PIN, idle=7)


def test_after_five_wrong_pins_one_waits_twice_as_long_each_time(
    locks: PinLocks, clock: Clock
) -> None:
    locks.set("d1", PIN, idle=0)
    locks.lock("d1")
    for left in range(TRIES - 1, -1, -1):
        with pytest.raises(InputError) as wrong:
            locks.unlock("d1", "0000")
        assert (f"{left} tries" in wrong.value.mend) is (left > 0)
    with pytest.raises(TooManyError) as early:
        locks.unlock("d1", PIN)
    assert early.value.seconds == 31
    clock.at += timedelta(seconds=30)
    with pytest.raises(InputError):
        locks.unlock("d1", "0000")
    clock.at += timedelta(seconds=59)
    with pytest.raises(TooManyError):
        locks.unlock("d1", PIN)
    clock.at += timedelta(seconds=1)
    locks.unlock("d1", PIN)
    with pytest.raises(InputError, match="not the PIN"):
        locks.unlock("d1", "0000")


def test_waits_double_up_to_an_hour() -> None:
    waits = [wait_after(TRIES + more).total_seconds() for more in range(9)]
    assert waits == [30, 60, 120, 240, 480, 960, 1920, 3600, 3600]
    assert wait_after(10**6) == LONGEST_WAIT


def test_what_was_tried_outlives_the_program(
    store: MemoryStore, locks: PinLocks, clock: Clock
) -> None:
    locks.set("d1", PIN, idle=0)
    locks.lock("d1")
    for _ in range(TRIES):
        with pytest.raises(InputError):
            locks.unlock("d1", "0000")
    with pytest.raises(TooManyError):
        PinLocks(store, clock).unlock("d1", PIN)


def test_a_device_that_nobody_touches_is_locked_by_the_keeper(
    store: MemoryStore, locks: PinLocks, clock: Clock
) -> None:
    locks.set("d1", PIN, idle=5)

    def locked() -> bool:
        lock = read_lock(store.paired()[0].pin)
        return lock is not None and lock.since is not None

    keeper = Doorkeeper(_Known(store), locks, Hub())  # type: ignore[arg-type]
    clock.forward(4.9)
    locks.seen("d1")
    clock.forward(4.9)
    keeper.look()
    assert not locked()
    clock.forward(0.1)
    keeper.look()
    assert locked()


def test_a_server_locks_no_device_that_another_one_serves(
    store: MemoryStore, locks: PinLocks, clock: Clock
) -> None:
    other = PinLocks(store, clock)
    keeper = Doorkeeper(_Known(store), other, Hub())  # type: ignore[arg-type]
    locks.set("d1", PIN, idle=5)
    for _ in range(3):
        clock.forward(4.0)
        locks.seen("d1")
        keeper.look()
    lock = read_lock(store.paired()[0].pin)
    assert lock is not None
    assert lock.since is None


def test_a_device_left_alone_while_the_server_began_anew_is_locked_when_it_asks(
    store: MemoryStore, locks: PinLocks, clock: Clock
) -> None:
    locks.set("d1", PIN, idle=5)
    anew = PinLocks(store, clock)
    lock = read_lock(store.paired()[0].pin)
    assert lock is not None
    clock.forward(4.9)
    assert not anew.left_alone("d1", lock, asks=True)
    clock.forward(0.1)
    assert anew.left_alone("d1", lock, asks=True)


def test_what_one_server_unlocked_another_does_not_lock_at_once(
    store: MemoryStore, locks: PinLocks, clock: Clock
) -> None:
    other = PinLocks(store, clock)
    other.set("d1", PIN, idle=5)
    clock.forward(60.0)
    locks.lock("d1")
    locks.release("d1")
    Doorkeeper(_Known(store), other, Hub()).look()  # type: ignore[arg-type]
    lock = read_lock(store.paired()[0].pin)
    assert lock is not None
    assert lock.since is None


def test_machines_that_share_a_store_share_a_pin_and_lock_each_for_itself(
    store: MemoryStore, locks: PinLocks, clock: Clock
) -> None:
    other = PinLocks(store, clock)
    other.look()
    locks.set(THIS_MACHINE, PIN, idle=5)
    for one in (locks, other):
        Doorkeeper(_Known(store), one, Hub()).look()  # type: ignore[arg-type]
        told = one.of(None)
        assert told is not None
        assert told.since is None
    other.lock(THIS_MACHINE)
    assert [one.of(None).since is None for one in (locks, other)] == [True, False]  # type: ignore[union-attr]
    with pytest.raises(InputError):
        other.unlock(THIS_MACHINE, "0000")
    other.unlock(THIS_MACHINE, PIN)
    assert other.of(None).since is None  # type: ignore[union-attr]


def test_this_machine_begins_locked(store: MemoryStore, locks: PinLocks, clock: Clock) -> None:
    locks.set(THIS_MACHINE, PIN, idle=0)
    anew = PinLocks(store, clock)
    told = anew.of(None)
    assert told is not None
    assert told.since == clock()
    anew.unlock(THIS_MACHINE, PIN)
    assert anew.of(None).since is None  # type: ignore[union-attr]


@dataclass
class _Known:
    store: MemoryStore

    def look(self) -> None:
        """Read nothing ahead."""

    def known(self) -> tuple[PairedDevice, ...]:
        return self.store.paired()


@dataclass
class Shop:
    """A studio with one fitting, its main screen and a tablet that is let in."""

    bay: Bay
    app: FastAPI
    tablet: WebClient
    main: WebClient
    screen: WebClient
    device: str

    def lock_tablet(self) -> None:
        form = {"pin": PIN, "again": PIN, "idle": "5"}
        assert self.tablet.post("/lock", data=form).status_code == 303
        assert self.tablet.post("/lock/now").headers["location"] == "/lock"


@pytest.fixture
def shop() -> Iterator[Shop]:
    bay = a_bay()
    app = create_app(bay.studio, access=Access(addresses=True, paired=True))
    host = "192.0.2.7:8432"
    with (
        asking(app, client=TABLET, host=host) as tablet,
        asking(app, client=MAIN_SCREEN) as main,
        asking(app, client=("192.0.2.21", 1), host=host) as screen,
    ):
        pairing = app.state.pairing
        for device, role in ((tablet, "fitter"), (screen, "screen")):
            code = pairing.new_code().figures
            form = {"code": code, "name": f"A {role}", "role": role}
            assert device.post("/pair", data=form).status_code == 303
        found = next(one.id for one in pairing.devices() if one.role == "fitter")
        yield Shop(bay=bay, app=app, tablet=tablet, main=main, screen=screen, device=found)


def test_a_locked_device_shows_its_lock_alone(shop: Shop) -> None:
    shop.lock_tablet()
    for path in ("/", shop.bay.path, "/rack", "/settings", "/devices", "/pair"):
        answer = shop.tablet.get(path)
        assert (answer.status_code, answer.headers["location"]) == (303, "/lock"), path
    assert shop.tablet.get("/api/fittings").status_code == 423
    assert shop.tablet.post("/devices/code", headers=JSON).status_code == 423
    assert shop.tablet.post("/lock/awake", headers=JSON).status_code == 423
    page = shop.tablet.get("/lock")
    assert page.status_code == 200
    assert "is locked" in page.text
    assert "Ottoline" not in page.text
    assert 'aria-label="Shop"' not in page.text


def test_a_lock_leaves_the_golfers_screen_and_the_main_screen_alone(shop: Shop) -> None:
    shop.lock_tablet()
    assert shop.screen.get(f"/screen/{shop.bay.fitting}").status_code == 200
    assert shop.main.get(shop.bay.path).status_code == 200
    assert shop.screen.post("/lock/now", headers=JSON).status_code in (400, 403)


def test_the_right_pin_unlocks_and_a_wrong_one_says_how_many_are_left(shop: Shop) -> None:
    shop.lock_tablet()
    wrong = shop.tablet.post("/lock/open", data={"pin": "0000"})
    assert wrong.status_code == 422
    assert "4 tries are left" in wrong.text
    assert "0000" not in wrong.text
    assert shop.tablet.post("/lock/open", data={"pin": PIN}).headers["location"] == "/"
    assert shop.tablet.get(shop.bay.path).status_code == 200


def test_a_locked_device_cannot_take_its_lock_away_or_change_it(shop: Shop) -> None:
    shop.lock_tablet()
    for path, form in (
        ("/lock/drop", {"now": PIN}),
        ("/lock", {"pin": "2222", "again": "2222", "now": PIN}),
    ):
        assert shop.tablet.post(path, data=form).status_code == 422
    assert shop.tablet.get("/").headers["location"] == "/lock"


def test_a_device_is_unlocked_on_the_main_screen(shop: Shop) -> None:
    shop.lock_tablet()
    assert "locked since" in shop.main.get("/devices").text
    shop.main.post(f"/devices/{shop.device}/unlock")
    assert shop.tablet.get(shop.bay.path).status_code == 200


def test_a_device_that_nobody_touches_locks_itself_at_its_next_page(shop: Shop) -> None:
    form = {"pin": PIN, "again": PIN, "idle": "5"}
    shop.tablet.post("/lock", data=form)
    page = shop.tablet.get(shop.bay.path)
    assert 'data-lock-after="300"' in page.text
    shop.bay.clock.forward(4.0)
    # A page that follows its fitting by itself is no touch.
    shop.tablet.get("/api/fittings", headers=JSON)
    shop.bay.clock.forward(1.0)
    assert shop.tablet.get(shop.bay.path).headers["location"] == "/lock"
    shop.tablet.post("/lock/open", data={"pin": PIN})
    shop.bay.clock.forward(4.0)
    assert shop.tablet.post("/lock/awake", headers=JSON).status_code == 200
    shop.bay.clock.forward(4.0)
    assert shop.tablet.get(shop.bay.path).status_code == 200


def test_this_machine_locks_too_and_still_takes_balls_and_shows_the_golfer(shop: Shop) -> None:
    form = {"pin": PIN, "again": PIN, "idle": "0"}
    assert shop.main.post("/lock", data=form).status_code == 303
    shop.main.post("/lock/now")
    assert shop.main.get("/settings").headers["location"] == "/lock"
    assert shop.main.get("/devices").headers["location"] == "/lock"
    fitting = shop.bay.fitting
    assert shop.main.get("/api/fittings").status_code == 200
    shots = f"/api/fittings/{fitting}/shots"
    assert shop.main.post(shots, json=dict(EXAMPLE)).status_code == 200
    assert shop.main.get(f"/screen/{fitting}").status_code == 200
    assert shop.tablet.get(shop.bay.path).status_code == 200
    shop.main.post("/lock/open", data={"pin": PIN})
    assert shop.main.get("/settings").status_code == 200
    PinLocks(shop.bay.studio.store, shop.bay.clock).drop(THIS_MACHINE, sure=True)
    assert shop.bay.studio.store.setting(SETTING).value == ""


def test_pins_are_tried_only_so_often_from_one_address(shop: Shop) -> None:
    shop.lock_tablet()
    statuses = [
        shop.tablet.post("/lock/open", data={"pin": "0000"}).status_code for _ in range(TRIES + 1)
    ]
    assert statuses == [422] * TRIES + [429]
    refused = shop.tablet.post("/lock/open", data={"pin": PIN})
    assert refused.status_code == 429
    assert int(refused.headers["retry-after"]) == 31
    assert "Wait 31 s" in refused.text
