"""Beyond this machine every device is let in once, by its role, until it is withdrawn."""

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from hashlib import sha256

import pytest
from fastapi import FastAPI

from fakes import MemoryStore
from loftwright.errors import InputError, NotFoundError
from loftwright.services.live import Hub
from loftwright.services.pairing import KEY_LIFE, TRIES, Pairing
from loftwright.web.door import COOKIE
from loftwright.web.security import Access
from tally_pages import tally_app
from web_client import MAIN_SCREEN, TABLET, WebClient, asking

BAY = "/fittings/7/bay"
PAIRED = Access(addresses=True, paired=True)
JSON = {"Accept": "application/json"}


class Clock:
    """A clock that stands until it is moved."""

    def __init__(self) -> None:
        self.at = datetime(2026, 11, 25, 14, 32, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.at


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def devices() -> MemoryStore:
    return MemoryStore()


@pytest.fixture
def pairing(devices: MemoryStore, clock: Clock) -> Pairing:
    return Pairing(devices, Hub(), clock)


@pytest.fixture
def app() -> FastAPI:
    return tally_app(access=PAIRED)


@pytest.fixture
def tablet(app: FastAPI) -> Iterator[WebClient]:
    with asking(app, client=TABLET, host="192.0.2.7:8432") as made:
        yield made


@pytest.fixture
def main_screen(app: FastAPI) -> Iterator[WebClient]:
    with asking(app, client=MAIN_SCREEN) as made:
        yield made


def code_on(screen: WebClient) -> str:
    """Make a code on the main screen and read it there."""
    assert screen.post("/devices/code").status_code == 303
    found = re.search(r"<output>(\d{3}) (\d{3})</output>", screen.get("/devices").text)
    assert found is not None
    return "".join(found.groups())


def let_in(screen: WebClient, device: WebClient, role: str, name: str = "Tablet 1") -> None:
    form = {"code": code_on(screen), "name": name, "role": role}
    assert device.post("/pair", data=form).status_code == 303


def test_a_code_has_six_figures_and_lets_in_once(pairing: Pairing) -> None:
    code = pairing.new_code()
    assert re.fullmatch(r"\d{6}", code.figures)
    typed = f"{code.figures[:3]} {code.figures[3:]}"
    device = pairing.let_in(typed, name="  Tablet   1 ", role="fitter").device
    assert device.name == "Tablet 1"
    with pytest.raises(InputError, match="no code stands"):
        pairing.let_in(code.figures, name="Another", role="fitter")


def test_a_code_stands_for_two_minutes(pairing: Pairing, clock: Clock) -> None:
    code = pairing.new_code()
    clock.at += timedelta(seconds=119)
    assert pairing.code() == code
    clock.at += timedelta(seconds=1)
    assert pairing.code() is None
    with pytest.raises(InputError, match="no code stands"):
        pairing.let_in(code.figures, name="Late", role="fitter")


def test_five_wrong_codes_void_it(pairing: Pairing) -> None:
    code = pairing.new_code()
    wrong = f"{(int(code.figures) + 1) % 10**6:06d}"
    for left in range(TRIES - 1, -1, -1):
        with pytest.raises(InputError) as caught:
            pairing.let_in(wrong, name="Guess", role="fitter")
        assert (f"{left} tries" in caught.value.mend) is (left > 0)
    with pytest.raises(InputError, match="no code stands"):
        pairing.let_in(code.figures, name="Guess", role="fitter")


def test_a_new_code_voids_the_old_one_and_its_tries(pairing: Pairing) -> None:
    old = pairing.new_code()
    new = pairing.new_code()
    while new.figures == old.figures:
        new = pairing.new_code()
    with pytest.raises(InputError):
        pairing.let_in(old.figures, name="Tablet", role="fitter")
    assert pairing.let_in(new.figures, name="Tablet", role="fitter").key


@pytest.mark.parametrize(
    ("name", "role", "place"),
    [(" ", "fitter", "name"), ("x" * 61, "fitter", "name"), ("Tablet", "owner", "role")],
)
def test_a_device_without_name_or_role_uses_up_no_code(
    pairing: Pairing, name: str, role: str, place: str
) -> None:
    code = pairing.new_code()
    with pytest.raises(InputError) as caught:
        pairing.let_in(code.figures, name=name, role=role)
    assert caught.value.place == place
    assert pairing.code() == code


def test_only_the_digest_of_a_key_is_kept(pairing: Pairing, devices: MemoryStore) -> None:
    made = pairing.let_in(pairing.new_code().figures, name="Tablet", role="fitter")
    assert len(made.key) >= 43
    kept = devices.paired()[0]
    assert kept.key_hash == sha256(made.key.encode()).hexdigest()
    assert made.key not in repr(kept)
    assert pairing.who(made.key) == kept
    assert pairing.who(kept.key_hash) is None
    assert pairing.who("") is None


def test_a_device_of_an_earlier_run_is_known(devices: MemoryStore, clock: Clock) -> None:
    before = Pairing(devices, Hub(), clock)
    key = before.let_in(before.new_code().figures, name="Tablet", role="fitter").key
    assert Pairing(devices, Hub(), clock).who(key) is not None


@pytest.mark.parametrize(("role", "after"), [("fitter", None), ("screen", None), ("feed", "on")])
def test_a_key_ends_after_a_year_but_a_feeds_does_not(
    pairing: Pairing, clock: Clock, role: str, after: str | None
) -> None:
    made = pairing.let_in(pairing.new_code().figures, name="Tablet", role=role)
    clock.at += KEY_LIFE - timedelta(seconds=1)
    assert pairing.who(made.key) == made.device
    clock.at += timedelta(seconds=1)
    assert pairing.who(made.key) == (made.device if after else None)


def test_a_withdrawn_device_is_let_in_no_more(pairing: Pairing) -> None:
    made = pairing.let_in(pairing.new_code().figures, name="Tablet", role="fitter")
    assert pairing.who(made.key) is not None
    pairing.withdraw(made.device.id)
    assert pairing.who(made.key) is None
    assert pairing.devices() == ()
    with pytest.raises(NotFoundError):
        pairing.withdraw(made.device.id)


def test_on_this_machine_nobody_signs_in() -> None:
    with asking(tally_app()) as client:
        assert client.get(BAY).status_code == 200


def test_without_a_key_a_page_leads_to_pairing_and_a_program_is_refused(
    tablet: WebClient,
) -> None:
    page = tablet.get(BAY)
    assert (page.status_code, page.headers["location"]) == (303, "/pair")
    for answer in (
        tablet.get("/api/fittings/7/shots"),
        tablet.get("/api/openapi.json"),
        tablet.get("/fittings/7/events", headers={"Accept": "text/event-stream"}),
        tablet.post("/fittings/7/acts/add", headers=JSON),
        tablet.post("/devices/code", headers=JSON),
    ):
        assert answer.status_code == 401
        assert answer.headers["www-authenticate"] == "Bearer"


def test_a_device_that_is_not_let_in_is_shown_no_way_in_but_the_code(tablet: WebClient) -> None:
    text = tablet.get("/pair").text
    assert 'aria-label="Shop"' not in text
    assert re.findall(r'<a [^>]*href="([^"]+)"', text) == ["#main"]


def test_the_main_screen_of_a_shared_studio_needs_no_key(main_screen: WebClient) -> None:
    assert main_screen.get(BAY).status_code == 200


def test_the_main_screen_is_not_shut_out_by_a_key_of_its_own(main_screen: WebClient) -> None:
    let_in(main_screen, main_screen, "screen")
    assert COOKIE in main_screen.cookies
    assert main_screen.get(BAY).status_code == 200
    assert "Rack" in main_screen.get(BAY).text.partition("<main")[0]


def test_what_a_relay_passes_on_is_not_the_main_screen(app: FastAPI) -> None:
    with asking(app, client=MAIN_SCREEN) as relay:
        answer = relay.get(BAY, headers={"X-Forwarded-For": "192.0.2.20"})
        assert answer.status_code == 303


def test_a_tablet_is_let_in_by_the_code_of_the_main_screen(
    main_screen: WebClient, tablet: WebClient
) -> None:
    form = {"code": code_on(main_screen), "name": "Tablet in bay 1", "role": "fitter"}
    answer = tablet.post("/pair", data=form)
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert tablet.get(BAY).status_code == 200
    assert "Tablet in bay 1" in main_screen.get("/devices").text


def test_a_wrong_code_keeps_what_was_typed(main_screen: WebClient, tablet: WebClient) -> None:
    right = code_on(main_screen)
    wrong = f"{(int(right) + 1) % 10**6:06d}"
    answer = tablet.post("/pair", data={"code": wrong, "name": "Shop <1>", "role": "workshop"})
    assert answer.status_code == 422
    assert f"{wrong} is not the code" in answer.text
    assert 'value="Shop &lt;1&gt;"' in answer.text
    assert re.search(r'value="workshop" checked', answer.text)


def test_a_program_is_let_in_and_bears_its_key(main_screen: WebClient, tablet: WebClient) -> None:
    form = {"code": code_on(main_screen), "name": "Launch monitor", "role": "fitter"}
    answer = tablet.post("/pair", data=form, headers=JSON)
    bearer = {"Authorization": f"Bearer {answer.json()['key']}"}
    assert tablet.get("/api/openapi.json", headers=bearer).status_code == 200
    assert (
        tablet.get("/api/openapi.json", headers={"Authorization": "Bearer x"}).status_code == 401
    )


@pytest.mark.parametrize(
    ("role", "seen", "unseen"),
    [
        ("fitter", (BAY, "/rack", "/screen/7", "/devices"), ()),
        ("workshop", ("/rack", "/pair"), (BAY, "/screen/7", "/", "/devices", "/racket")),
        ("screen", ("/screen/7",), (BAY, "/rack", "/", "/devices", "/api/openapi.json")),
    ],
)
def test_a_role_sees_its_own_pages(
    main_screen: WebClient,
    tablet: WebClient,
    role: str,
    seen: tuple[str, ...],
    unseen: tuple[str, ...],
) -> None:
    let_in(main_screen, tablet, role)
    assert {path: tablet.get(path).status_code for path in seen} == dict.fromkeys(seen, 200)
    assert {path: tablet.get(path).status_code for path in unseen} == dict.fromkeys(unseen, 403)
    if role != "fitter":
        assert tablet.post("/devices/code").status_code == 403


def test_who_acts_is_the_device(main_screen: WebClient, tablet: WebClient, app: FastAPI) -> None:
    let_in(main_screen, tablet, "fitter")
    tablet.post("/fittings/7/acts/add", data={"key": "k"})
    assert app.state.tally.keys == ["k"]


def test_a_device_is_withdrawn_in_two_taps(
    main_screen: WebClient, tablet: WebClient, app: FastAPI
) -> None:
    let_in(main_screen, tablet, "fitter")
    page = main_screen.get("/devices").text
    assert page.count("<details") == 1
    found = re.search(r'action="(/devices/[^"]+/withdraw)"', page)
    assert found is not None
    assert main_screen.post(found.group(1)).headers["location"] == "/devices"
    assert tablet.get(BAY).status_code == 303
    assert app.state.studio.store.paired()[0].withdrawn_at is not None
    assert "No other device is let in yet." in main_screen.get("/devices").text


def test_a_tablet_lets_nobody_in(main_screen: WebClient, tablet: WebClient, app: FastAPI) -> None:
    let_in(main_screen, tablet, "fitter")
    assert app.state.pairing.code() is None
    assert tablet.post("/devices/code").status_code == 403
    assert app.state.pairing.code() is None
    page = tablet.get("/devices").text
    assert 'action="/devices/code"' not in page
    assert "from the studio’s own screen" in page


def test_a_device_that_is_let_in_again_has_a_new_key_alone(
    main_screen: WebClient, tablet: WebClient, app: FastAPI
) -> None:
    let_in(main_screen, tablet, "fitter")
    former = tablet.cookies[COOKIE]
    let_in(main_screen, tablet, "workshop")
    assert tablet.cookies[COOKIE] != former
    assert app.state.pairing.who(former) is None
    assert [one.role for one in app.state.pairing.devices()] == ["workshop"]


def test_a_tablet_that_is_shown_a_feeds_key_keeps_its_own(
    main_screen: WebClient, tablet: WebClient
) -> None:
    let_in(main_screen, tablet, "fitter")
    form = {"code": code_on(main_screen), "name": "Bridge", "role": "feed"}
    assert tablet.post("/pair", data=form).status_code == 200
    assert tablet.get(BAY).status_code == 200


def test_a_way_back_stays_in_the_studio(main_screen: WebClient) -> None:
    for back in ("//evil.example", "https://evil.example", "/\\evil.example", "/a\r\nX: y"):
        answer = main_screen.post("/devices/code", data={"back": back})
        assert answer.headers["location"] == "/devices"
    answer = main_screen.post("/devices/code", data={"back": "/settings"})
    assert answer.headers["location"] == "/settings"


def test_a_key_in_a_cookie_is_read_among_others(main_screen: WebClient, tablet: WebClient) -> None:
    let_in(main_screen, tablet, "fitter")
    assert COOKIE in tablet.cookies
    assert tablet.get(BAY, headers={"Authorization": "Basic eDp5"}).status_code == 200
