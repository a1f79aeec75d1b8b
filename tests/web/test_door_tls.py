"""A link that is encrypted by the shop's own certificate, and one behind a reverse proxy."""

import os
import socket
import ssl
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

import httpx
import pytest
from fastapi import FastAPI
from starlette.types import Scope

from certificates import Files, a_certificate
from loftwright.cli.app import run
from loftwright.errors import UsageError
from loftwright.web import patience
from loftwright.web.certificate import read_certificate
from loftwright.web.door import COOKIE, SECURE_COOKIE
from loftwright.web.relays import as_sent, proxy_addresses
from loftwright.web.security import ALWAYS_TLS, Access, from_this_machine
from loftwright.web.server import StudioServer, access_for, listen, port_of
from tally_pages import tally_app
from web_client import MAIN_SCREEN, asking

NOW = datetime.now(UTC)
NAME = "studio.example"


@contextmanager
def encrypted(app: FastAPI, files: Files) -> Iterator[int]:
    """Serve an application under a certificate and give its port."""
    sockets, answers = listen("127.0.0.1", 0), threading.Event()
    made = read_certificate(files.certificate, files.key, NOW)
    server = StudioServer(app, app.state.studio.hub, answers.set, made)
    thread = threading.Thread(target=server.run, kwargs={"sockets": sockets}, daemon=True)
    thread.start()
    assert answers.wait(20.0)
    try:
        yield port_of(sockets[0])
    finally:
        server.should_exit = True
        thread.join(20.0)


def test_over_tls_the_key_is_a_cookie_that_only_this_host_can_set(tmp_path: Path) -> None:
    files = a_certificate(tmp_path)
    app = tally_app(access=Access(names=frozenset({NAME}), addresses=True, paired=True))
    trusted = ssl.create_default_context(cafile=str(files.certificate))
    with encrypted(app, files) as port:
        near = f"https://localhost:{port}"
        host = {"Host": f"{NAME}:{port}", "Accept": "text/html"}
        with httpx.Client(verify=trusted, base_url=near) as client:
            assert client.get("/devices").status_code == 200
            assert ALWAYS_TLS[0] not in client.get("/devices").headers
            assert client.get("/rack", headers=host).headers["location"] == "/pair"
            form = {
                "code": app.state.pairing.new_code().figures,
                "name": "Tablet",
                "role": "fitter",
            }
            answer = client.post("/pair", data=form, headers=host)
            told = answer.headers["set-cookie"]
            assert told.startswith(f"{SECURE_COOKIE}=")
            for word in ("Secure", "HttpOnly", "Path=/", "SameSite=strict"):
                assert word.lower() in told.lower()
            assert "domain" not in told.lower()
            assert answer.headers["strict-transport-security"] == "max-age=31536000"
            key = told.split("=", 1)[1].split(";")[0]
            let_in = {**host, "Cookie": f"{SECURE_COOKIE}={key}"}
            assert client.get("/rack", headers=let_in).status_code != 303
            plain = {**host, "Cookie": f"{COOKIE}={key}"}
            assert client.get("/rack", headers=plain).headers["location"] == "/pair"
        with pytest.raises(httpx.HTTPError):
            httpx.get(f"http://localhost:{port}/devices")


def test_without_tls_nothing_says_that_there_is_some() -> None:
    with asking(tally_app(access=Access(addresses=True, paired=True)), host="192.0.2.7") as far:
        assert ALWAYS_TLS[0].lower() not in far.get("/pair").headers


def test_a_certificate_is_looked_at_before_it_is_used(tmp_path: Path) -> None:
    good, other = a_certificate(tmp_path / "a"), a_certificate(tmp_path / "b")
    found = read_certificate(good.certificate, good.key, NOW)
    assert found is not None
    assert found.names == ("localhost", NAME, "127.0.0.1")
    assert found.doubts == ()
    assert read_certificate(None, None, NOW) is None
    sealed = a_certificate(tmp_path / "c", password=b"x")
    broken = tmp_path / "broken.pem"
    broken.write_text("no certificate")
    for certificate, key, place, words in (
        (good.certificate, None, "--key", "needs its key"),
        (None, good.key, "--certificate", "needs its key"),
        (tmp_path / "none.pem", good.key, "--certificate", "there is no file"),
        (good.certificate, tmp_path / "none.key", "--key", "there is no file"),
        (good.certificate, other.key, "--key", "not the certificate’s"),
        (broken, good.key, "--certificate", "cannot be read"),
        (sealed.certificate, sealed.key, "--key", "sealed under a password"),
    ):
        with pytest.raises(UsageError, match=words) as refused:
            read_certificate(certificate, key, NOW)
        assert refused.value.place == place
        assert refused.value.mend


def test_a_certificate_that_ended_and_a_key_that_others_can_read_are_told(tmp_path: Path) -> None:
    old = a_certificate(tmp_path, days=-1.0)
    old.key.chmod(0o644)
    found = read_certificate(old.certificate, old.key, NOW)
    assert found is not None
    ended, open_key = found.doubts
    assert "ended on" in ended
    assert "chmod 600" in open_key
    soon = read_certificate(old.certificate, old.key, NOW - timedelta(days=10))
    assert soon is not None
    assert "ends on" in soon.doubts[0]


def test_serve_refuses_a_key_that_is_not_the_certificates(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    one, other = a_certificate(tmp_path / "a"), a_certificate(tmp_path / "b")
    assert run(["serve", "--certificate", str(one.certificate), "--key", str(other.key)]) == 2
    assert "not the certificate" in capsys.readouterr().err


def test_serve_writes_addresses_that_begin_with_https_and_answers_there(tmp_path: Path) -> None:
    files = a_certificate(tmp_path / "certificate")
    files.key.chmod(0o644)
    words = ["serve", "--host", "0.0.0.0", "--port", "0"]  # noqa: S104 - as a shop starts it
    words += ["--certificate", str(files.certificate), "--key", str(files.key)]
    with subprocess.Popen(
        [sys.executable, "-c", "from loftwright.cli.app import main; main()", *words],
        env=os.environ | {"LOFTWRIGHT_DATA": str(tmp_path / "data"), "LOFTWRIGHT_STORE": ""},
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        try:
            assert process.stdout is not None
            told = [process.stdout.readline().rstrip() for _ in range(4)]
            near = told[0].rpartition(" ")[2]
            assert near.startswith("https://127.0.0.1:")
            assert told[1].startswith(f"Other devices open https://{NAME}:")
            assert told[2].endswith(f"{near}/devices.")
            assert "chmod 600" in told[3]
            trusted = ssl.create_default_context(cafile=str(files.certificate))
            assert httpx.get(f"{near}/devices", verify=trusted).status_code == 200
        finally:
            process.kill()


def scope(client: str, **headers: str) -> Scope:
    named = [
        (name.replace("_", "-").encode(), value.encode())
        for name, value in {"host": "localhost", **headers}.items()
    ]
    return {"type": "http", "scheme": "http", "client": (client, 1), "headers": named}


PROXY = frozenset({"127.0.0.1"})


@pytest.mark.parametrize(
    ("asks", "forwarded", "proxies", "sender"),
    [
        ("127.0.0.1", "198.51.100.9", PROXY, "198.51.100.9"),
        ("127.0.0.1", "203.0.113.5, 198.51.100.9", PROXY, "198.51.100.9"),
        ("127.0.0.1", "198.51.100.9, 127.0.0.1", PROXY, "198.51.100.9"),
        ("127.0.0.1", "nonsense", PROXY, "127.0.0.1"),
        ("127.0.0.1", "198.51.100.9", frozenset(), "127.0.0.1"),
        ("192.0.2.20", "127.0.0.1", PROXY, "192.0.2.20"),
    ],
)
def test_whom_a_relay_names_is_believed_of_a_stated_proxy_alone(
    asks: str, forwarded: str, proxies: frozenset[str], sender: str
) -> None:
    sent = as_sent(scope(asks, x_forwarded_for=forwarded), proxies)
    assert sent["client"][0] == sender
    assert not from_this_machine(sent)


def test_a_proxy_says_that_its_link_was_encrypted_and_nobody_else_does() -> None:
    told = {"x_forwarded_for": "198.51.100.9", "x_forwarded_proto": "https"}
    assert as_sent(scope("127.0.0.1", **told), PROXY)["scheme"] == "https"
    assert as_sent(scope("192.0.2.20", **told), PROXY)["scheme"] == "http"


def test_behind_a_stated_proxy_a_device_needs_a_code_and_gets_a_secure_cookie() -> None:
    app = tally_app(access=access_for("127.0.0.1", [NAME], PROXY))
    relayed = {"X-Forwarded-For": "198.51.100.9", "X-Forwarded-Proto": "https"}
    with asking(app, client=MAIN_SCREEN, host=NAME) as proxy:
        assert proxy.get("/devices", headers=relayed).headers["location"] == "/pair"
        form = {"code": app.state.pairing.new_code().figures, "name": "T", "role": "fitter"}
        answer = proxy.post("/pair", data=form, headers=relayed)
        assert SECURE_COOKIE in answer.headers["set-cookie"]
        assert ALWAYS_TLS[0].lower() in answer.headers


def test_a_studio_of_this_machine_alone_takes_nothing_from_a_relay() -> None:
    with asking(tally_app(), client=MAIN_SCREEN) as relay:
        refused = relay.get("/devices", headers={"X-Forwarded-For": "198.51.100.9"})
        assert refused.status_code == 403
        assert "--proxy" in refused.text


def test_tries_behind_a_proxy_are_counted_by_sender() -> None:
    app = tally_app(access=access_for("127.0.0.1", [NAME], PROXY))
    form = {"code": "000000", "name": "Guess", "role": "fitter"}
    with asking(app, client=MAIN_SCREEN, host=NAME) as proxy:
        one = {"X-Forwarded-For": "198.51.100.9"}
        statuses = {proxy.post("/pair", data=form, headers=one).status_code for _ in range(11)}
        assert statuses == {422, 429}
        other = {"X-Forwarded-For": "198.51.100.10"}
        assert proxy.post("/pair", data=form, headers=other).status_code == 422


def test_a_proxy_is_named_by_its_address() -> None:
    assert proxy_addresses(["127.0.0.1", "::1"]) == {"127.0.0.1", "::1"}
    with pytest.raises(UsageError, match=r"proxy\.local"):
        proxy_addresses(["proxy.local"])


def test_a_link_that_sends_no_whole_request_is_let_go_the_first_or_a_later_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(patience, "HEADER_SECONDS", 0.3)
    app = tally_app()
    sockets, answers = listen("127.0.0.1", 0), threading.Event()
    server = StudioServer(app, app.state.studio.hub, answers.set)
    thread = threading.Thread(target=server.run, kwargs={"sockets": sockets}, daemon=True)
    thread.start()
    assert answers.wait(20.0)
    with socket.create_connection(("127.0.0.1", port_of(sockets[0])), 10.0) as slow:
        slow.sendall(b"GET /pair HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: ")
        began = time.monotonic()
        assert slow.recv(10) == b""
        assert time.monotonic() - began < 5.0
    with socket.create_connection(("127.0.0.1", port_of(sockets[0])), 10.0) as slow:
        slow.sendall(b"GET /static/icon.svg HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
        assert b"</svg>" in whole(slow, b"</svg>")
        slow.sendall(b"GET /pair HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: ")
        began = time.monotonic()
        assert slow.recv(10) == b""
        assert time.monotonic() - began < 5.0
    server.should_exit = True
    thread.join(20.0)


def whole(link: socket.socket, end: bytes) -> bytes:
    """Return what comes until an end."""
    came = b""
    while end not in came:
        more = link.recv(65536)
        assert more, "the link was let go early"
        came += more
    return came


def spoken(asks: ssl.SSLContext, answers: ssl.SSLContext) -> str | None:
    """Return the version of TLS that two sides agree on; None if they cannot."""
    there, back = ssl.MemoryBIO(), ssl.MemoryBIO()
    sides = (
        asks.wrap_bio(back, there, server_hostname="localhost"),
        answers.wrap_bio(there, back, server_side=True),
    )
    for _ in range(10):
        for side in sides:
            try:
                side.do_handshake()
            except ssl.SSLWantReadError:
                continue
            except ssl.SSLError:
                return None
    return sides[0].version()


@pytest.mark.filterwarnings("ignore:ssl.TLSVersion:DeprecationWarning")
@pytest.mark.parametrize(
    ("version", "current"),
    [
        (ssl.TLSVersion.TLSv1, False),
        (ssl.TLSVersion.TLSv1_1, False),
        (ssl.TLSVersion.TLSv1_2, True),
        (ssl.TLSVersion.TLSv1_3, True),
    ],
)
def test_no_version_of_tls_is_spoken_that_rfc_8996_retires(
    tmp_path: Path, version: ssl.TLSVersion, *, current: bool
) -> None:
    files = a_certificate(tmp_path)
    app = tally_app(access=Access(addresses=True, paired=True))
    made = read_certificate(files.certificate, files.key, NOW)
    config = StudioServer(app, app.state.studio.hub, lambda: None, made).config
    config.load()
    assert config.ssl is not None
    asks = ssl.create_default_context(cafile=str(files.certificate))
    asks.set_ciphers("DEFAULT:@SECLEVEL=0")
    asks.minimum_version = asks.maximum_version = version
    assert spoken(asks, config.ssl) == (version.name.replace("_", ".") if current else None)
    # The one who asks could: a server that took the retired ones would be found out.
    config.ssl.set_ciphers("DEFAULT:@SECLEVEL=0")
    config.ssl.minimum_version = ssl.TLSVersion.TLSv1
    assert spoken(asks, config.ssl) == version.name.replace("_", ".")
