"""The reference names every command, option, key and exit code, and none that is not there."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from command_options import options_of_commands
from commands import Cli
from loftwright.cli.errors import EXIT_CODES
from loftwright.intake.golfer_file import read_golfer
from loftwright.intake.own_table import HEADER
from loftwright.intake.quantities import QUANTITIES
from loftwright.intake.toml_files import read_head, read_home
from loftwright.services.demo_rack import fill_rack
from loftwright.services.rack_fields import FIELDS, Field
from loftwright.services.rack_in import look_at
from loftwright.services.rack_out import rack_json
from pages import ROOT
from proved import predicted_balls
from studios import studio_in_memory

REFERENCE = ROOT / "docs" / "reference"
COMMAND_LINE = (REFERENCE / "command-line.md").read_text(encoding="utf-8")
JSON_KEYS = (REFERENCE / "json.md").read_text(encoding="utf-8")
FILES = (REFERENCE / "files.md").read_text(encoding="utf-8")
RACK_FILES = (REFERENCE / "rack-files.md").read_text(encoding="utf-8")


def section(text: str, title: str) -> str:
    """Return what stands under a heading of the second level."""
    return text.partition(f"\n## {title}\n")[2].partition("\n## ")[0]


def keys_in(record: object) -> Iterator[str]:
    if isinstance(record, dict):
        for key, value in record.items():
            yield key
            yield from keys_in(value)
    elif isinstance(record, list):
        for value in record:
            yield from keys_in(value)


def documented(text: str) -> set[str]:
    return set(re.findall(r"`([a-z0-9_]+)`", text))


@pytest.mark.parametrize(("command", "options"), options_of_commands().items())
def test_a_command_is_documented_with_its_options_and_no_others(
    command: str, options: set[str]
) -> None:
    part = section(COMMAND_LINE, command)
    listed = {line.split("`")[1] for line in part.splitlines() if line.startswith("| `--")}
    assert listed == options


def test_every_exit_code_is_documented() -> None:
    part = section(COMMAND_LINE, "Exit codes")
    listed = {int(code) for code in re.findall(r"^\| (\d+) ", part, flags=re.MULTILINE)}
    assert listed == {0, 1, 130, *EXIT_CODES.values()}
    for kind in EXIT_CODES:
        assert f"`{kind.kind}`" in part


def test_every_key_of_every_command_is_documented(cli: Cli, tmp_path: Path) -> None:
    shots, truth = tmp_path / "shots.csv", tmp_path / "truth.json"
    predicted_balls(tmp_path / "proved", outside=6)
    deal = ("training", "deal", "--seed", 3, "--clubs", 3, "--balls", 18, "--ghosts", 1)
    readings = tmp_path / "readings.csv"
    readings.write_text("kind,mass_g\nmass,62\nmass,93\n", encoding="utf-8")
    said = {
        "shaft": cli("shaft", readings, "--length", 1143, "--json").record,
        "shortlist": a_shortlist(cli, tmp_path),
        "training deal": cli(*deal, "--out", shots, "--truth", truth, "--json").record,
        "read": cli("read", shots, "--json").record,
        "plan": cli("plan", "--clubs", 3, "--balls", 18, "--json").record,
        "flight": cli(
            *("flight", "--ball-speed", 140, "--launch", 12, "--spin", 2600, "--json")
        ).record,
        "impact": cli("impact", "--head-speed", 100, "--json").record,
        "truth": cli("truth", "--data", tmp_path / "proved", "--json").record,
    }
    for command, record in said.items():
        unknown = set(keys_in(record)) - documented(section(JSON_KEYS, command) + FILES)
        assert unknown == set(), command
    assert set(keys_in(json.loads(truth.read_text()))) - documented(FILES + JSON_KEYS) == set()


def a_shortlist(cli: Cli, folder: Path) -> dict[str, object]:
    golfer, rack = folder / "golfer.toml", folder / "rack.json"
    golfer.write_text(
        'head_speed_mph = 93\n[own]\nshaft = "Linnet 1"\nlength_inch = 45.25\n', encoding="utf-8"
    )
    studio = studio_in_memory()
    fill_rack(studio)
    rack.write_text(rack_json(studio), encoding="utf-8")
    record: dict[str, object] = cli(
        "shortlist", "--golfer", golfer, "--rack", rack, "--json"
    ).record
    assert record["shafts"]
    assert record["left_out"]
    return record


def test_the_keys_of_an_error_are_documented(cli: Cli, tmp_path: Path) -> None:
    table = tmp_path / "shots.csv"
    rows = "\n".join(f"A,{speed},12.{speed % 10}" for speed in range(140, 152))
    table.write_text(f"club,speed,launch\n{rows}\n")
    outcome = cli("read", table, "--json")
    assert outcome.code == 4
    assert outcome.error["doubts"]
    assert set(keys_in(outcome.error)) - documented(section(JSON_KEYS, "Errors")) == set()


def test_every_heading_of_our_table_and_every_word_for_columns_is_documented() -> None:
    listed = documented(section(FILES, "Our own shot table"))
    assert set(HEADER) <= listed
    words = set(re.findall(r"`([a-z ]+)`", section(FILES, "Tables of shots")))
    assert set(QUANTITIES) <= words


def example_of(title: str, tmp_path: Path) -> Path:
    block = re.search(r"```toml\n(.*?)```", section(FILES, title), flags=re.DOTALL)
    assert block is not None
    path = tmp_path / "example.toml"
    path.write_text(block[1], encoding="utf-8")
    return path


def test_the_home_file_shown_is_read_and_its_keys_are_those_documented(tmp_path: Path) -> None:
    home = read_home(example_of("HOME.toml", tmp_path))
    assert home.name == "Mossy Bottom Links"
    part = section(FILES, "HOME.toml")
    keys = {line.split("`")[1] for line in part.splitlines() if line.startswith("| `")}
    shown = set(re.findall(r"^([a-z_]+) =", part, flags=re.MULTILINE))
    assert shown | {"holes"} == keys


def test_the_head_file_shown_is_read_and_its_keys_are_those_documented(tmp_path: Path) -> None:
    head = read_head(example_of("HEAD.toml", tmp_path))
    assert head.source == "invented"
    part = section(FILES, "HEAD.toml")
    keys = {
        key
        for line in part.splitlines()
        if line.startswith("| `")
        for key in re.findall(r"`([a-z_0-9]+)`", line.split("|")[1])
    }
    assert set(re.findall(r"^([a-z_0-9]+) =", part, flags=re.MULTILINE)) == keys


def test_the_golfer_file_shown_is_read_and_its_keys_are_those_documented(tmp_path: Path) -> None:
    path = example_of("GOLFER.toml", tmp_path)
    (tmp_path / "home.toml").write_text('name = "Mossy Bottom Links"\n', encoding="utf-8")
    golfer = read_golfer(path)
    assert golfer.shaft == "Linnet 1"
    assert golfer.home.name == "Mossy Bottom Links"
    part = section(FILES, "GOLFER.toml")
    keys = {
        key
        for line in part.splitlines()
        if line.startswith("| `")
        for key in re.findall(r"`([a-z_0-9]+)`", line.split("|")[1])
    }
    assert set(re.findall(r"^([a-z_0-9]+) =", part, flags=re.MULTILINE)) == keys


@pytest.mark.parametrize(("kind", "fields"), FIELDS.items())
def test_every_key_of_a_rack_file_is_documented(kind: str, fields: tuple[Field, ...]) -> None:
    part = RACK_FILES.partition(f"\n### `{kind}`\n")[2].partition("\n### ")[0]
    listed = {
        cells[1].strip(" `"): cells[3].strip() == "yes"
        for cells in (line.split("|") for line in part.splitlines() if line.startswith("| `"))
    }
    assert listed == {field.key: field.needed for field in fields}


def test_the_rack_file_that_is_shown_comes_in() -> None:
    studio = studio_in_memory()
    shown = re.findall(r"^```(?:json|text)\n(.*?)^```$", RACK_FILES, re.MULTILINE | re.DOTALL)
    json_form, table_form = (look_at(studio, "shown", text.encode()) for text in shown)
    assert not json_form.refused
    assert json_form.new != ()
    assert [item for _, item in json_form.new] == [item for _, item in table_form.new]
