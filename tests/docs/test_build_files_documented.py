"""The reference names every key of build files and of what the build commands print."""

import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from builds import BUILD_TOML
from commands import Cli
from loftwright.constants import INCH
from loftwright.domain.tolerances import Tolerances
from loftwright.intake.build_files import read_build
from loftwright.intake.build_keys import ERROR_KEYS, KEYS, TOLERANCE_KEYS
from loftwright.intake.measured_file import CHECKED_KEYS, LIMIT_KEYS, read_measured
from loftwright.physics.build.uncertainty import PartErrors
from pages import ROOT

REFERENCE = ROOT / "docs" / "reference"
FILES = (REFERENCE / "files.md").read_text(encoding="utf-8")
JSON_KEYS = (REFERENCE / "json.md").read_text(encoding="utf-8")
HOWTO = (ROOT / "docs" / "howto" / "solve-a-build.md").read_text(encoding="utf-8")
MEASURED = """\
length_inch = {value = 45.02, u95 = 0.03}
mass_g = {value = 325, u95 = 1}
balance_inch = {value = 33.1, u95 = 0.08}
swingweight = {value = "D9", u95 = 0.3}
"""


GRIP_TARGET = "mass_g = 325\ngrip_inch = 0.92"
BUILD_UP = """
[build_up]
butt_inch = 0.6
core_inch = 0.6
nominal_inch = 0.9
tape_inch = 0.005
"""


def section(text: str, title: str) -> str:
    return text.partition(f"\n## {title}\n")[2].partition("\n## ")[0]


def named(text: str) -> set[str]:
    return set(re.findall(r"`([a-z0-9_]+)`", text))


def keys_in(record: object) -> Iterator[str]:
    if isinstance(record, dict):
        for key, value in record.items():
            yield key
            yield from keys_in(value)
    elif isinstance(record, list):
        for value in record:
            yield from keys_in(value)


def rows(title: str) -> dict[str, str]:
    """Return what the rows of a file's table say of each table of keys."""
    found: dict[str, str] = {}
    table = ""
    for line in section(FILES, title).splitlines():
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if not line.startswith("| ") or len(cells) < 4 or cells[1] in {"key", "---"}:
            continue
        table = cells[0].strip("`") or table
        found[table] = found.get(table, "") + f" {cells[1]} {cells[2]}"
    return found


def test_every_key_of_a_build_file_is_documented_in_its_table() -> None:
    told = rows("BUILD.toml")
    assert set(told) == set(KEYS[""])
    for table, keys in KEYS.items():
        if table:
            assert set(keys) - named(told[table]) == set(), table
    assert named(told["tolerance"]) == set(TOLERANCE_KEYS)
    assert named(told["u95"]) == set(ERROR_KEYS)


def test_the_usual_tolerances_and_doubts_are_those_on_the_page() -> None:
    line = next(one for one in FILES.splitlines() if one.startswith("| `tolerance` |"))
    told = line.split("|")[-2].partition("(")[0]
    figures = [float(Fraction(one.strip())) for one in told.split(",")]
    usual = Tolerances()
    made = [getattr(usual, field) / unit for field, unit in TOLERANCE_KEYS.values()]
    assert figures == pytest.approx(made)
    line = next(one for one in FILES.splitlines() if one.startswith("| `u95` |"))
    grams, lengths, inertia = line.split("|")[-2].partition("(")[0].split(";")
    errors = PartErrors()
    lying = [field for field, _ in ERROR_KEYS.values() if field not in {"mass", "inertia"}]
    assert float(grams.split()[0]) == pytest.approx(2e3 * errors.mass)
    told_lengths = [float(one) for one in re.findall(r"[\d.]+", lengths)]
    assert told_lengths == pytest.approx([2e3 * getattr(errors, field) for field in lying])
    assert float(inertia) == pytest.approx(2e4 * errors.inertia)


def test_every_key_of_what_was_measured_is_documented() -> None:
    told = section(FILES, "MEASURED.toml")
    keys = {*CHECKED_KEYS, *LIMIT_KEYS, "pendulum", "rules", "method", "clamp_mm", "tip_mass_g"}
    assert keys | {"value", "u95", "period_s", "period_u95_s", "pivot_inch"} <= named(told)


def test_the_files_shown_are_read(tmp_path: Path) -> None:
    for title, read in (("BUILD.toml", read_build), ("MEASURED.toml", read_measured)):
        block = re.search(r"```toml\n(.*?)```", section(FILES, title), flags=re.DOTALL)
        assert block is not None
        path = tmp_path / "shown.toml"
        path.write_text(block[1], encoding="utf-8")
        assert read(path) is not None


def test_the_dry_fit_on_the_page_finds_the_head_of_the_page(tmp_path: Path) -> None:
    build = re.search(r"\$ cat build.toml\n(.*?)\$ ", HOWTO, flags=re.DOTALL)
    fit = re.search(r"```toml\n(.*?)```", HOWTO, flags=re.DOTALL)
    assert build is not None
    assert fit is not None
    path = tmp_path / "build.toml"
    text = build[1].replace("cg_along_inch = 0.6\n", "") + "\n" + fit[1]
    path.write_text(text, encoding="utf-8")
    assert read_build(path).parts.head.reach / INCH == pytest.approx(0.6, abs=0.02)


def test_every_key_that_the_commands_print_is_documented(cli: Cli, tmp_path: Path) -> None:
    sheet, measured = tmp_path / "build.toml", tmp_path / "measured.toml"
    readings = tmp_path / "readings.csv"
    sheet.write_text(BUILD_TOML.replace("mass_g = 325", GRIP_TARGET) + BUILD_UP, "utf-8")
    measured.write_text(MEASURED, encoding="utf-8")
    readings.write_text("kind,mass_g\nmass,62\n", encoding="utf-8")
    bench = ("--readings", readings, "--clamp", 127, "--tip-mass", 205)
    wish = tmp_path / "wish.toml"
    wish.write_text(BUILD_TOML.replace('"D3"', '"D9"'), encoding="utf-8")
    sleeve = ("--loft", 10.5, "--lie", 58, "--bore", 1.5, "--azimuth", 0)
    said = [
        ("build solve", cli("build", "solve", sheet, *bench, "--json").record),
        ("build solve", cli("build", "solve", wish, "--json").record),
        ("build check", cli("build", "check", sheet, measured, "--json").record),
        ("build sleeve", cli("build", "sleeve", *sleeve, "--json").record),
        (
            "build swingweight",
            cli("build", "swingweight", "--mass", 310, "--balance", 33.25, "--json").record,
        ),
    ]
    assert said[0][1]["frequency"]
    assert said[0][1]["grip"]
    assert said[1][1]["trades"]
    assert said[2][1]["contradictions"]
    for command, record in said:
        unknown = set(keys_in(record)) - named(section(JSON_KEYS, command))
        assert unknown == set(), command
