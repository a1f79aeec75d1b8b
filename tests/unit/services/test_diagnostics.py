"""A bundle for help holds what was shown, and nothing that is anybody's."""

import io
import json
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest

from fakes import MemoryStore
from loftwright import __version__
from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.errors import NotFoundError, StoreError
from loftwright.services.diagnostics import LIBRARIES, Bundle, Bundles, make_bundle
from loftwright.services.doctor import Looked
from loftwright.services.doctor_finding import doubt, wrong
from loftwright.services.golfers import add_golfer
from loftwright.services.log_tail import LEFT_OUT, log_tail
from loftwright.services.program_log import log_file
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.store.interface import Versioned
from studios import NOON, studio_in_memory

DEVICE = "0d3c1c0e-6a0f-4a64-9a6e-3f9c1f0f5c11"
KNOWN = "2026-11-25T12:00:00.000Z INFO loftwright.services.pairing: a device was let in"
NAMES = ("Zephyrine", "Quillfeather", "Lantern", "Kestrelmoor", "hush.example", "Wagtail")


@pytest.fixture
def studio() -> Studio:
    made = studio_in_memory()
    known = read_settings(made)
    device = DeviceCard(name="Quillfeather meter", origins={"spin": Origin.MEASURED})
    named = replace(
        known.settings,
        shop="The Lantern Bay",
        bays=("Kestrelmoor 1", "Kestrelmoor 2"),
        devices=(device,),
        mark_errors={"Wagtail": 0.001},
    )
    change_settings(made, named, version=known.version)
    add_golfer(
        made,
        Golfer(id="", hand=Hand.RIGHT, goal="beat Kestrelmoor"),
        Identity(name="Zephyrine Quillfeather", contact="z@hush.example"),
    )
    return made


def a_bundle(studio: Studio | None, folder: Path, trouble: StoreError | None = None) -> Bundle:
    return make_bundle(NOON, folder, log_file(folder), studio=studio, trouble=trouble)


def part(bundle: Bundle, name: str) -> str:
    return next(one.text for one in bundle.parts if one.name == name)


def test_it_says_what_this_installation_is(studio: Studio) -> None:
    told = json.loads(part(a_bundle(studio, studio.folder), "installation.json"))
    assert (told["version"], told["database"]) == (__version__, "memory")
    assert set(told["libraries"]) == set(LIBRARIES)
    assert all(told["libraries"].values())


def test_a_store_that_breaks_meanwhile_is_told_and_the_rest_stands_in_it(
    studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuses(_: MemoryStore) -> dict[str, int]:
        raise StoreError("Zephyrine's disk is full")

    def broken(_: MemoryStore, name: str) -> Versioned[str]:
        return Versioned(value="{Zephyrine", version=len(name))

    monkeypatch.setattr(MemoryStore, "rows", refuses)
    monkeypatch.setattr(MemoryStore, "setting", broken)
    bundle = a_bundle(studio, studio.folder)
    assert json.loads(part(bundle, "rows.json"))["cannot_be_read"] == "store"
    settings = json.loads(part(bundle, "settings.json"))
    assert settings["cannot_be_read"] == "JSONDecodeError"
    assert any("read_settings" in line for line in settings["trace"])
    assert json.loads(part(bundle, "installation.json"))["version"] == __version__
    assert "Zephyrine" not in "".join(one.text for one in bundle.parts)


def test_what_the_doctor_found_goes_along_without_names_and_places(studio: Studio) -> None:
    name = "Zephyrine Quillfeather"
    findings = (
        wrong("keys", f"/home/{name}/g1.key", "this golfer's key is gone", f"Copy {name}."),
        wrong("keys", f"/home/{name}/g2.key", "this golfer's key is gone", f"Copy {name}."),
        wrong(
            *("backups", name, "the daily backup fails since {since:%Y-%m-%d}: {why}", name),
            since=NOON,
            why=f"{name} has no room",
        ),
        doubt("room", name, "{room} MB are free", name, room=12),
    )
    looked = Looked(
        place=name, version=__version__, schema="0007", checks=("keys",), findings=findings
    )
    bundle = make_bundle(NOON, studio.folder, log_file(studio.folder), studio=None, looked=looked)
    assert json.loads(part(bundle, "doctor.json")) == {
        "checks": ["keys"],
        "findings": [
            {
                "check": "keys",
                "severity": "wrong",
                "says": "this golfer's key is gone",
                "times": 2,
            },
            {
                "check": "backups",
                "severity": "wrong",
                "says": "the daily backup fails since 2026-11-25: …",
                "times": 1,
            },
            {"check": "room", "severity": "doubt", "says": "12 MB are free", "times": 1},
        ],
    }
    assert json.loads(part(bundle, "installation.json"))["schema"] == "0007"
    assert "Zephyrine" not in "".join(one.text for one in bundle.parts)


def test_settings_go_without_a_name(studio: Studio) -> None:
    told = json.loads(part(a_bundle(studio, studio.folder), "settings.json"))
    assert (told["bays"], told["fitters_with_readings"]) == (2, 1)
    assert told["devices"][0]["columns"] == {"spin": "measured"}


def test_no_name_of_the_studio_is_in_it(studio: Studio) -> None:
    text = "\n".join(one.text for one in a_bundle(studio, studio.folder).parts)
    assert [name for name in NAMES if name.lower() in text.lower()] == []
    assert str(studio.folder) not in text


def test_the_file_holds_the_parts_and_is_the_same_twice(studio: Studio) -> None:
    bundle = a_bundle(studio, studio.folder)
    assert bundle.data() == bundle.data()
    with zipfile.ZipFile(io.BytesIO(bundle.data())) as made:
        held = {one: made.read(one).decode() for one in made.namelist()}
    assert held == {one.name: one.text for one in bundle.parts}
    assert bundle.name == "loftwright-help-20261125-120000.zip"


def test_what_is_read_first_names_every_other_file(studio: Studio) -> None:
    bundle = a_bundle(studio, studio.folder)
    assert bundle.parts[0].name == "README.txt"
    assert all(f"{one.name}: {one.says}." in bundle.parts[0].text for one in bundle.parts[1:])


def test_a_studio_that_does_not_open_is_told_by_its_kind(tmp_path: Path) -> None:
    bundle = a_bundle(None, tmp_path, trouble=StoreError("Zephyrine's disk is full"))
    told = json.loads(part(bundle, "installation.json"))
    assert (told["cannot_be_opened"], told["schema"]) == ("store", None)
    assert "Zephyrine" not in "".join(one.text for one in bundle.parts)
    assert part(bundle, "log.txt") == "No log was written.\n"


@pytest.mark.parametrize(
    "line",
    [
        "Zephyrine Quillfeather called",
        "2026-11-25T12:00:00.000Z INFO loftwright.services.pairing: Zephyrine",
        "2026-11-25T12:00:00.000Z INFO loftwright.services.pairing: started | kind=Zephyrine",
        "  raised builtins.ValueError: Zephyrine",
    ],
)
def test_a_line_that_this_version_does_not_write_is_left_out(tmp_path: Path, line: str) -> None:
    file = tmp_path / "loftwright.log"
    file.write_text(f"{KNOWN}\n{line}\n{KNOWN}\n")
    assert log_tail((file,), "salt").splitlines() == [KNOWN, LEFT_OUT, KNOWN]


def test_a_device_is_called_otherwise_in_every_bundle(tmp_path: Path) -> None:
    file = tmp_path / "loftwright.log"
    file.write_text(f"{KNOWN} | device={DEVICE} role=screen\n{KNOWN} | device={DEVICE}\n")
    first, second = (log_tail((file,), salt) for salt in ("one", "two"))
    assert DEVICE not in first + second
    assert first != second
    names = {line.partition("device=")[2].split()[0] for line in first.splitlines()}
    assert len(names) == 1


def test_only_the_end_of_a_long_log_goes_along_in_whole_lines(tmp_path: Path) -> None:
    files = [tmp_path / f"loftwright{number}.log" for number in ("", "-2")]
    for file in files:
        file.write_text(f"{KNOWN}\n" * 100)
    tail = log_tail(tuple(files), "salt", most=1000)
    assert set(tail.splitlines()) == {KNOWN}
    assert 900 < len(tail) <= 1000


def test_a_bundle_that_was_shown_is_saved_as_it_was_until_others_push_it_out(
    studio: Studio,
) -> None:
    bundles = Bundles()
    first = a_bundle(studio, studio.folder)
    name = bundles.show(first)
    assert bundles.shown(name) is first
    for hour in range(1, 5):
        bundles.show(replace(first, made=NOON.replace(hour=hour)))
    with pytest.raises(NotFoundError, match="not kept any more"):
        bundles.shown(name)
