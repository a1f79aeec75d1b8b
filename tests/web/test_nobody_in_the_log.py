"""Names in every field of every page, in errors and in faults: none of them reaches the log."""

import io
import logging
import re
import sqlite3
import zipfile
from pathlib import Path
from threading import Event, Thread
from typing import Any

import pytest
from sqlalchemy.exc import OperationalError

from bays import Bay, a_bay
from fakes import MemoryStore
from loftwright.errors import InputError, StoreError
from loftwright.services.log_lines import is_line
from loftwright.services.program_log import ProgramLog, log_file, log_files
from loftwright.services.workers import Worker
from loftwright.web.app import create_app
from loftwright.web.journal import Refusals
from loftwright.web.security import Access
from names_everywhere import MAIL, MARKS, NAME, NOTE, filled, named_paths, walk
from web_client import MAIN_SCREEN, TABLET, WebClient, asking

JSON = {"Accept": "application/json"}
_ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
_FAULTS = (
    RuntimeError(f"nobody foresaw {NAME}"),
    KeyError(NAME),
    StoreError(f"{NAME} cannot be kept", place=MAIL, mend=NOTE),
    InputError(f"{NAME} cannot be", place=NAME, mend=NOTE),
    OperationalError(
        f"INSERT {NAME}", {"name": NAME}, sqlite3.OperationalError(f"no room for {NAME}")
    ),
    OSError(28, f"no space for {NAME}", f"/home/{NAME}/{MAIL}"),
    UnicodeDecodeError("utf-8", NAME.encode(), 0, 1, NAME),
)


class Driven:
    """A studio that was driven with names, with what its log and a log that hides nothing say."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.bay: Bay = a_bay()
        self.bay.studio.folder = folder
        self.open = io.StringIO()
        unguarded = logging.StreamHandler(self.open)
        root = logging.getLogger()
        root.addHandler(unguarded)
        try:
            with ProgramLog(log_file(folder), clock=self.bay.studio.clock) as made:
                self.app = create_app(
                    self.bay.studio,
                    access=Access(addresses=True, paired=True),
                    program_log=made,
                )
                # Every line is looked at, not only as many as a minute may write.
                monkeypatch.setattr(Refusals, "may", lambda _: True)
                self.drive()
                self.bundle = self.bundled()
        finally:
            root.removeHandler(unguarded)
        self.log = "".join(file.read_text("utf-8") for file in log_files(log_file(folder)))

    def drive(self) -> None:
        """Do everything that may be done, with names."""
        with asking(self.app, client=MAIN_SCREEN) as near:
            self.pages(near)
            self.addresses(near)
            self.devices(near)
            self.faults(near)
        self.threads()
        self.libraries()

    def pages(self, near: WebClient) -> None:
        fitting = self.bay.fitting
        forms = walk(near, ("/", "/settings", "/people", f"/fittings/{fitting}/bay"), 60)
        assert len(forms) > 40
        for form in forms.values():
            for number, sent in enumerate(filled(form)):
                near.post(form.action, headers=JSON if number % 2 else {}, **sent)

    def addresses(self, near: WebClient) -> None:
        shapes = tuple({route.path for route in self.app.state.asked})
        assert len(shapes) > 100
        # Streams of events end when their page is closed: nobody would close them here.
        for path in named_paths(tuple(one for one in shapes if not one.endswith("/events"))):
            near.get(path, headers={"User-Agent": NAME, "Referer": f"http://x/{MAIL}"})
        near.request("PROPFIND", named_paths(shapes)[0])
        api = f"/api/fittings/{NAME}/shots"
        near.post(api, json={"club": NAME, "note": NOTE, "ball_speed_mph": NAME})
        near.post(api, content=NAME.encode(), headers={"Content-Type": "application/json"})

    def devices(self, near: WebClient) -> None:
        letting_in = self.app.state.pairing
        with asking(self.app, client=TABLET, host="192.0.2.7:8432") as far:
            far.get(f"/golfers/{NAME}", headers={"Authorization": f"Bearer {NAME}"})
            far.get("/", headers={"Host": "zephyrine.quillfeather.example"})
            far.post("/pair", data={"code": NAME, "name": NAME, "role": NAME})
            figures = letting_in.new_code().figures
            far.post("/pair", data={"code": "000000x", "name": NAME, "role": "screen"})
            far.post("/pair", data={"code": figures, "name": NAME, "role": "screen"})
            far.get(f"/golfers/{NAME}")
            far.post("/theme", data={"back": NAME}, headers={"Origin": f"http://{MAIL}"})
        (device,) = letting_in.devices()
        assert device.name == NAME
        near.post(f"/devices/{device.id}/withdraw")
        near.post(f"/devices/{NAME}/withdraw")
        self.device = device.id

    def faults(self, near: WebClient) -> None:
        gets = ("/", "/settings", "/rack", "/bays", "/people", "/shop", "/api/fittings", "/build")
        for fault in _FAULTS:
            with pytest.MonkeyPatch.context() as patch:
                for method in ("fittings", "setting", "rack", "golfers", "set_setting", "probe"):
                    patch.setattr(MemoryStore, method, _raising(fault))
                for path in gets:
                    near.get(path)
                near.post("/settings", data={"shop": NAME}, headers=JSON)
                near.post("/golfers/new", data={"name": NAME, "contact": MAIL})

    def threads(self) -> None:
        stop = Event()

        def run() -> None:
            stop.set()
            raise RuntimeError(f"{NAME} stopped it")

        worker = Worker("watches", run, stop=stop, clock=self.bay.studio.clock)
        worker.start()
        worker.join()
        died = Thread(target=_raising(ValueError(MAIL)), name="warm-up")
        died.start()
        died.join()

    def libraries(self) -> None:
        logging.getLogger("uvicorn.error").error("GET /golfers/%s", NAME)
        logging.getLogger("sqlalchemy.engine").warning(f"INSERT {NAME}")  # noqa: G004
        logging.getLogger(f"made for {NAME}").warning("said")
        ours = logging.getLogger("loftwright.services.shots")
        ours.warning(f"kept {NAME}")
        ours.warning("kept %s", NAME)
        logging.getLogger("loftwright").error("kept", extra={"told": {"kind": NAME, NAME: NAME}})

    def bundled(self) -> dict[str, str]:
        """Return the files of the bundle that the page saves."""
        with asking(self.app, client=MAIN_SCREEN) as near:
            shown = near.get("/settings/bundle").text
            address = re.search(r'href="(/settings/bundle/\w+)"', shown)
            assert address is not None
            data = near.get(address[1]).content
        with zipfile.ZipFile(io.BytesIO(data)) as made:
            return {name: made.read(name).decode() for name in made.namelist()}


def _raising(fault: BaseException) -> Any:  # noqa: ANN401 - stands for any method
    def raises(*_: object, **__: object) -> None:
        raise fault

    return raises


@pytest.fixture(scope="module")
def driven(tmp_path_factory: pytest.TempPathFactory) -> Driven:
    with pytest.MonkeyPatch.context() as patch:
        return Driven(tmp_path_factory.mktemp("studio"), patch)


def test_the_drive_brings_names_to_a_log_that_hides_nothing(driven: Driven) -> None:
    """Else the other checks could not fail."""
    said = driven.open.getvalue().lower()
    assert min(said.count(mark) for mark in MARKS) > 5


def test_the_log_holds_what_happened(driven: Driven) -> None:
    for sentence in (
        *("a request was refused", "a request failed", "a request could not be done"),
        *("a device was let in", "a device was withdrawn", "a wrong code was tried"),
        *("a thread failed and is begun again", "a thread died"),
    ):
        assert sentence in driven.log, sentence
    assert "raised builtins.RuntimeError" in driven.log
    assert "builtins.OSError ENOSPC" in driven.log
    assert f"device={driven.device} role=screen" in driven.log
    assert "route=/golfers/{golfer}" in driven.log
    assert "status=421" in driven.log


def test_no_name_is_in_the_log(driven: Driven) -> None:
    named = [line for line in driven.log.splitlines() if any(one in line.lower() for one in MARKS)]
    assert named == []
    assert "brambleby" not in driven.log.lower()


def test_every_line_is_of_the_known_form(driven: Driven) -> None:
    lines = driven.log.splitlines()
    assert len(lines) > 200
    assert [line for line in lines if not is_line(line)] == []


def test_no_id_but_a_device_s_is_in_the_log(driven: Driven) -> None:
    assert set(_ID.findall(driven.log)) == {driven.device}


def test_the_bundle_names_nobody_and_no_id(driven: Driven) -> None:
    assert set(driven.bundle) == {
        *("README.txt", "doctor.json", "installation.json", "settings.json", "rows.json"),
        *("health.json", "log.txt"),
    }
    text = "\n".join(driven.bundle.values())
    assert [mark for mark in MARKS if mark in text.lower()] == []
    assert _ID.findall(text) == []
    assert "a request failed" in driven.bundle["log.txt"]
