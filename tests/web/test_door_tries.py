"""What an address may try only so often, by a clock that the test moves."""

from collections.abc import Iterator

import pytest
from fastapi import FastAPI

from loftwright.errors import TooManyError
from loftwright.services.tries import (
    CODES,
    KEYS,
    MOST_ADDRESSES,
    REQUESTS,
    Limit,
    Tries,
    network_of,
)
from loftwright.web.security import Access
from tally_pages import tally_app
from web_client import MAIN_SCREEN, TABLET, WebClient, asking

FEW = Limit(what="things were tried", most=3, seconds=60.0)
JSON = {"Accept": "application/json"}
HOST = "192.0.2.7:8432"


class Seconds:
    """A clock that stands until it is moved."""

    def __init__(self) -> None:
        self.at = 1000.0

    def __call__(self) -> float:
        return self.at


@pytest.fixture
def clock() -> Seconds:
    return Seconds()


@pytest.fixture
def tries(clock: Seconds) -> Tries:
    return Tries(clock)


@pytest.fixture
def tablet(tries: Tries) -> Iterator[WebClient]:
    with asking(tally(tries), client=TABLET, host=HOST) as made:
        yield made


def tally(tries: Tries) -> FastAPI:
    return tally_app(access=Access(addresses=True, paired=True), tries=tries)


def test_an_address_may_try_so_often_and_then_as_fast_as_it_drains(
    tries: Tries, clock: Seconds
) -> None:
    for _ in range(3):
        tries.count(FEW, "192.0.2.1")
    with pytest.raises(TooManyError) as refused:
        tries.count(FEW, "192.0.2.1")
    assert refused.value.seconds == 20
    clock.at += 19.9
    with pytest.raises(TooManyError):
        tries.count(FEW, "192.0.2.1")
    clock.at += 0.1
    tries.count(FEW, "192.0.2.1")
    with pytest.raises(TooManyError):
        tries.count(FEW, "192.0.2.1")


def test_another_address_and_another_thing_are_counted_apart(tries: Tries) -> None:
    for _ in range(3):
        tries.count(FEW, "192.0.2.1")
    tries.count(FEW, "192.0.2.2")
    tries.count(CODES, "192.0.2.1")


def test_what_was_refused_makes_nobody_wait_longer(tries: Tries, clock: Seconds) -> None:
    for _ in range(3):
        tries.count(FEW, "192.0.2.1")
    for _ in range(50):
        with pytest.raises(TooManyError):
            tries.count(FEW, "192.0.2.1")
    clock.at += 20.0
    tries.count(FEW, "192.0.2.1")


def test_many_addresses_fill_no_memory_and_drained_ones_are_forgotten(
    tries: Tries, clock: Seconds
) -> None:
    for number in range(2 * MOST_ADDRESSES):
        tries.count(FEW, f"198.51.{number // 256}.{number % 256}")
    assert len(tries) == MOST_ADDRESSES
    clock.at += 60.0
    tries.count(FEW, "192.0.2.1")
    assert len(tries) == 1


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("2001:db8:1:2::1", "2001:db8:1:2:ffff::9", True),
        ("2001:db8:1:2::1", "2001:db8:1:3::1", False),
        ("::ffff:192.0.2.1", "192.0.2.1", True),
        ("192.0.2.1", "192.0.2.2", False),
        ("fe80::1%eth0", "fe80::2", True),
        ("unix", "unix", True),
    ],
)
def test_the_addresses_of_one_house_are_one(one: str, other: str, same: bool) -> None:
    assert (network_of(one) == network_of(other)) is same


def test_a_code_is_tried_so_often_from_one_address_whatever_code_stands(
    tablet: WebClient,
) -> None:
    form = {"code": "000000", "name": "Guess", "role": "fitter"}
    for _ in range(CODES.most):
        assert tablet.post("/pair", data=form).status_code == 422
    refused = tablet.post("/pair", data=form)
    assert refused.status_code == 429
    assert refused.headers["retry-after"] == "6"
    assert "Too many codes were tried from this address" in refused.text
    told = tablet.post("/pair", data=form, headers=JSON).json()["error"]
    assert (told["kind"], told["mend"]) == ("too_many", "Wait 6 s, then try again.")


def test_keys_that_are_not_known_are_counted_and_the_way_in_stays_open(
    tablet: WebClient, clock: Seconds
) -> None:
    wrong = {"Authorization": "Bearer wrong", **JSON}
    statuses = [tablet.get("/rack", headers=wrong).status_code for _ in range(KEYS.most + 1)]
    assert statuses == [401] * KEYS.most + [429]
    assert tablet.get("/rack").status_code == 303
    assert tablet.get("/pair", headers=wrong).status_code == 200
    clock.at += KEYS.seconds
    assert tablet.get("/rack", headers=wrong).status_code == 401


def test_beyond_this_machine_pages_are_asked_for_only_so_often(
    tries: Tries, tablet: WebClient, clock: Seconds
) -> None:
    for _ in range(REQUESTS.most):
        tries.count(REQUESTS, TABLET[0])
    assert tablet.get("/pair").status_code == 429
    assert tablet.get("/static/page.css").status_code == 200
    clock.at += 1.0
    assert tablet.get("/pair").status_code == 200


def test_this_machine_is_never_counted(tries: Tries) -> None:
    for _ in range(REQUESTS.most):
        tries.count(REQUESTS, MAIN_SCREEN[0])
    with asking(tally(tries), client=MAIN_SCREEN) as near:
        assert near.get("/pair").status_code == 200
