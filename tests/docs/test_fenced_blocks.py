"""What pages show in fenced blocks works: targets exist, commands run, files can be read."""

import json
import os
import re
import shlex
import sys
import tomllib
from pathlib import Path
from typing import Final

import pytest

from builds import BUILD_TOML
from command_options import options_of_commands
from commands import Cli
from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.golfers import add_golfer
from loftwright.services.opening import open_studio
from pages import ROOT, name_of, pages
from proved import predicted_balls
from racks import a_measured_rack
from shop_studios import a_taught_shop

FENCE: Final = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
TARGET: Final = re.compile(r"^make ([\w-]+)", re.MULTILINE)
COMMAND: Final = re.compile(r"^(?:\S*/)?loftwright ([^#>|\n]*)", re.MULTILINE)
BUILD_FILES: Final = {
    "BUILD.toml": BUILD_TOML,
    "MEASURED.toml": "[mass_g]\nvalue = 325\nu95 = 1\n",
    "READINGS.csv": "kind,mass_g\nmass,62\n",
}
STANDS_FOR_ANY: Final = {"WHERE", "CASE", "COMMAND", "MODEL...", "[MODEL]", "SHOTS.csv"}
KEEPING: Final = {"backup", "restore", "doctor", "erase", "export"}
FOR_WORDS: Final = {"GOLFER": "Ottoline Brambleby", "[GOLFER]": "Ottoline Brambleby"}
HEADINGS: Final = {"Col A": "ball_speed_mph", "Path": "path_deg", "Face": "face_deg"}


def told(one: object) -> str:
    """Return the name of a case: its page, or its command."""
    if isinstance(one, Path):
        return name_of(one)
    return " ".join(one) if isinstance(one, list) else str(one).partition("\n")[0][:40]


def blocks(language: str) -> list[tuple[Path, str]]:
    return [
        (page, text)
        for page in pages()
        for kind, text in FENCE.findall(page.read_text(encoding="utf-8"))
        if kind == language
    ]


def shown_commands() -> list[tuple[str, list[str]]]:
    """Return the commands in `sh` blocks, with the page that shows each."""
    return [
        (name_of(page), shlex.split(words.replace("[OPTIONS]", "")))
        for page, text in blocks("sh")
        for words in COMMAND.findall(text)
    ]


def runnable() -> list[tuple[str, list[str]]]:
    """Return the commands that end by themselves, with words that stand for themselves."""
    return [
        (page, words)
        for page, words in shown_commands()
        if not STANDS_FOR_ANY.intersection(words)
        and "serve" not in words
        and not any("://" in word for word in words)
    ]


def table_for(words: list[str], cli: Cli) -> None:
    """Deal the table a command reads, with the headings and signs that its settings speak of."""
    hand = "left" if "left" in words else "right"
    deal = ("training", "deal", "--seed", 7, "--clubs", 3, "--balls", 24, "--golfer", "low")
    assert cli(*deal, "--hand", hand, "--out", "shots.csv").code == 0
    path = Path("shots.csv")
    names, *rows = (line.split(",") for line in path.read_text(encoding="utf-8").splitlines())
    for heading, ours in HEADINGS.items():
        setting = next((word for word in words if word.startswith(f"{heading}=")), "")
        if setting:
            place = names.index(ours)
            names[place] = heading
            if hand == "left" and "right +" in setting:
                for row in rows:
                    row[place] = f"{-float(row[place]):.1f}"
    lines = [["Golfer", "kind", *names], *(["Ann", "driver", *row] for row in rows)]
    path.write_text("\n".join(",".join(line) for line in lines) + "\n", encoding="utf-8")


def of_a_studio(words: list[str], cli: Cli, folder: Path) -> list[str]:
    """Make a studio with the golfer whom pages speak of; return the words as they fit it."""
    studio = open_studio(folder / "data")
    add_golfer(studio, Golfer(id=""), Identity(name="Ottoline Brambleby"))
    studio.store.close()
    made = [
        str(folder / word.lstrip("/")) if word.startswith("/") else FOR_WORDS.get(word, word)
        for word in words
    ]
    for word in words:
        if word.startswith("/") and "." not in Path(word).name:
            (folder / word.lstrip("/")).mkdir(parents=True, exist_ok=True)
    if words[0] == "restore":
        drive = folder / "drive"
        drive.mkdir()
        assert cli("backup", "--to", drive).code == 0
        (made[1],) = (str(one) for one in drive.glob("*.tar.gz"))
        made += [] if "--into" in words else ["--into", str(folder / "fresh")]
    if words[0] == "doctor":
        assert cli("backup").code == 0
    if words[0] == "erase" and "--yes" not in words:
        # At a terminal it asks for the initials.
        made.append("--yes")
    return made


def test_every_make_target_shown_is_there() -> None:
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    there = set(re.findall(r"^([\w-]+):", makefile, flags=re.MULTILINE))
    for page, text in blocks("sh"):
        assert set(TARGET.findall(text)) <= there, name_of(page)


def test_every_command_shown_has_the_options_it_is_shown_with() -> None:
    known = options_of_commands()
    for page, words in shown_commands():
        if words[0] == "COMMAND":
            continue
        command = next(
            name for name in sorted(known, reverse=True) if " ".join(words).startswith(name)
        )
        options = {word for word in words if word.startswith("--")}
        assert options <= known[command], page


@pytest.mark.parametrize(("page", "words"), runnable(), ids=told)
def test_a_command_shown_runs(
    page: str, words: list[str], cli: Cli, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for word in set(words) & set(BUILD_FILES):
        Path(word).write_text(BUILD_FILES[word], encoding="utf-8")
    table_for(words, cli)
    if words[0] == "truth":
        predicted_balls(tmp_path / "data", outside=6)
    if words[0] == "shop":
        a_taught_shop(tmp_path / "data", fittings=8)
    if words[0] == "shortlist":
        (tmp_path / "data").mkdir()
        studio = open_studio(tmp_path / "data")
        studio.store.close()
        monkeypatch.setenv("LOFTWRIGHT_DATA", str(tmp_path / "data"))
        Path(words[2]).write_text(
            "head_speed_mph = 93\n[own]\nlength_inch = 45.25\n", encoding="utf-8"
        )
    if words[:2] == ["shaft", "bench"]:
        Path(words[2]).write_text("kind,mass_g\nmass,62\n", encoding="utf-8")
    elif words[0] == "shaft":
        studio = open_studio(tmp_path / "data")
        a_measured_rack(studio)
        studio.store.close()
        words = ["heron-60-1-a" if word == "NAME" else word for word in words]
    if words[0] in KEEPING:
        words = of_a_studio(words, cli, tmp_path)
    outcome = cli(*words)
    assert outcome.code == 0, f"{page}: {outcome.err}"


@pytest.mark.parametrize(
    ("page", "text"),
    blocks("python"),
    ids=told,
)
def test_a_program_shown_runs(
    page: Path,
    text: str,
    cli: Cli,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PATH", f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}")
    table_for([], cli)
    capsys.readouterr()
    exec(compile(text, str(page), "exec"), {"__name__": "__main__"})  # noqa: S102 - our own page
    assert capsys.readouterr().out.strip()


@pytest.mark.parametrize(
    ("page", "text"),
    [*blocks("toml"), *blocks("json")],
    ids=told,
)
def test_a_file_shown_is_one(page: Path, text: str) -> None:
    assert json.loads(text) if text.lstrip().startswith("{") else tomllib.loads(text), page
