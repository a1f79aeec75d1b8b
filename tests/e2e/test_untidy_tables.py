"""Untidy tables give the result of tidy ones, and what is too much is refused in bounds.

Every table is that of a dealt visit, written in another way; none is ever changed.
"""

import hashlib
import random
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from commands import Cli, Dealt, Outcome

Row = list[str]
Spoil = Callable[[int, str], str]
Read = Callable[..., Outcome]

INTAKE = 4
KILOMETRES_IN_A_MILE = 1.609344
LAUNCH = ("ball_speed_mph", "launch_deg", "spin_rpm", "axis_deg", "direction_deg")
HUGE = 200_000_000
MOST_MEMORY = 500_000_000


class Table:
    """A shot table as cells."""

    def __init__(self, text: str) -> None:
        self.head, *self.rows = [line.split(",") for line in text.splitlines()]

    def text(self, rows: Sequence[Row] | None = None) -> str:
        """Return the table with these rows in place of its own."""
        lines = [self.head, *(self.rows if rows is None else rows)]
        return "".join(",".join(line) + "\n" for line in lines)

    def spoilt(self, spoil: Spoil, *names: str) -> str:
        """Return the table with the cells of some columns changed, row numbers from 0."""
        places = {self.head.index(name) for name in names}
        return self.text(
            [
                [
                    spoil(number, cell) if place in places else cell
                    for place, cell in enumerate(row)
                ]
                for number, row in enumerate(self.rows)
            ]
        )

    def picked(self, *names: str) -> list[Row]:
        """Return some columns alone."""
        places = [self.head.index(name) for name in names]
        return [[row[place] for place in places] for row in self.rows]


@pytest.fixture
def table(dealt: Dealt) -> Table:
    return Table(dealt(balls=32).read_text(encoding="utf-8"))


@pytest.fixture
def read(cli: Cli, tmp_path: Path) -> Read:
    """Return a function that writes a file and reads it, in words and as JSON, and compares."""

    def call(content: str | bytes, *arguments: object) -> Outcome:
        shots = tmp_path / "untidy.csv"
        shots.write_bytes(content if isinstance(content, bytes) else content.encode())
        before = (hashlib.sha256(shots.read_bytes()).hexdigest(), shots.stat().st_mtime_ns)
        words = cli("read", shots, *arguments)
        outcome = cli("read", shots, *arguments, "--json")
        assert (hashlib.sha256(shots.read_bytes()).hexdigest(), shots.stat().st_mtime_ns) == before
        assert words.code == outcome.code
        for said in (words, outcome):
            assert "Traceback" not in said.err
        if outcome.code:
            assert words.out == outcome.out == ""
            assert outcome.error["message"] in words.err
            assert outcome.error["mend"].strip()
            assert str(shots) in words.err or arguments
        return outcome

    return call


def values(record: dict[str, Any]) -> dict[str, float]:
    return {club["club"]: club["value_yd"] for club in record["clubs"]}


def moved(record: dict[str, Any], clean: dict[str, Any]) -> float:
    """Return how far the value of any club lies from that of the clean table, in yards."""
    before, after = values(clean), values(record)
    assert before.keys() == after.keys()
    return max(abs(after[club] - before[club]) for club in before)


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="another system")
def test_an_endless_file_is_told_so(cli: Cli) -> None:
    assert cli("read", "/dev/zero", "--json").code == INTAKE
    assert cli("read", "/dev/null", "--json").code == INTAKE


def test_one_ball_is_too_few_and_shows_no_comparison(
    cli: Cli, read: Read, table: Table, tmp_path: Path
) -> None:
    record = read(table.text(table.rows[:1])).record
    assert record["state"] == "too_few"
    assert record["rows"] == {"read": 1, "used": 1, "odd": 0, "refused": 0, "duplicate": 0}
    words = cli("read", tmp_path / "untidy.csv").out
    assert words.startswith("Only Own was hit")
    assert "Hand over" not in words
    assert "Strong evidence" not in words
    assert "goes" not in words.split("What may be said")[0]


def test_a_club_hit_once_is_not_ranked_among_the_others(read: Read, table: Table) -> None:
    hits = [row for row in table.rows if row[2] == "Ash"]
    record = read(table.text([row for row in table.rows if row not in hits[1:]])).record
    ash = next(club for club in record["clubs"] if club["club"] == "Ash")
    assert ash["p_best"] is None
    assert record["clubs"][-1]["club"] == "Ash"
    assert record["next_club"] == "Ash"


def test_a_column_without_a_number_is_a_column_that_is_not_there(read: Read, table: Table) -> None:
    none = read(table.spoilt(lambda _, __: "NaN", "axis_deg", "direction_deg"))
    without = read(table.spoilt(lambda _, __: "", "axis_deg", "direction_deg"))
    assert none.record["sentence"] == without.record["sentence"]
    assert values(none.record) == values(without.record)


def test_a_ball_number_that_disagrees_with_the_rows_is_a_doubt_and_then_the_order(
    read: Read, table: Table
) -> None:
    rows = table.rows.copy()
    random.Random(1).shuffle(rows)
    doubt = read(table.text(rows))
    assert doubt.code == INTAKE
    (asked,) = doubt.error["doubts"]
    assert "does not follow the order of the rows" in asked["question"]
    again = read(table.text(rows), "--column", "ball=ball").record
    straight = read(table.text()).record
    assert again["sentence"] == straight["sentence"]
    assert moved(again, straight) == pytest.approx(0.0, abs=1e-9)


def test_rows_twice_count_once_and_are_listed(read: Read, table: Table) -> None:
    clean = read(table.text()).record
    record = read(table.text([*table.rows, *table.rows[:3]])).record
    assert record["rows"]["duplicate"] == 3
    assert record["duplicate_rows"] == [{"row": 34 + n, "of": 2 + n} for n in range(3)]
    assert moved(record, clean) == pytest.approx(0.0, abs=1e-9)


def test_unit_rows_and_averages_at_the_foot_are_no_balls(read: Read, table: Table) -> None:
    picked = table.picked("club", *LAUNCH)
    lines = [["Club", "Ball speed", "Launch", "Spin", "Axis", "Direction"], *picked]
    clean = read("".join(",".join(line) + "\n" for line in lines), *_units()).record
    lines.insert(1, ["", "mph", "deg", "rpm", "deg", "deg"])
    means = [sum(float(row[place]) for row in picked) / len(picked) for place in range(1, 6)]
    lines += [[], ["Average", *(f"{mean:.1f}" for mean in means)], ["Std dev", *"32345"]]
    record = read("".join(",".join(line) + "\n" for line in lines)).record
    assert record["rows"] == {"read": 34, "used": 32, "odd": 0, "refused": 2, "duplicate": 0}
    assert [row["row"] for row in record["refused_rows"]] == [36, 37]
    assert all("sums up other rows" in row["why"] for row in record["refused_rows"])
    assert moved(record, clean) == pytest.approx(0.0, abs=1e-9)


def _units() -> list[str]:
    meant = ("Ball speed=ball speed[mph]", "Launch=launch[deg]", "Spin=spin[rpm]")
    sides = ("Axis=axis[deg]", "Direction=direction[deg]")
    return [word for text in (*meant, *sides) for word in ("--column", text)]


@pytest.mark.parametrize(
    ("headings", "per_mph", "encoding"),
    [
        pytest.param(
            "Schläger;Ballgeschwindigkeit (km/h);Abflugwinkel (°);Spinrate (U/min);"
            "Spinachse (°);Startrichtung (°)",
            KILOMETRES_IN_A_MILE,
            "utf-8",
            id="German",
        ),
        pytest.param(
            "Schläger;Ballgeschwindigkeit (km/h);Abflugwinkel (°);Spinrate (U/min);"
            "Spinachse (°);Startrichtung (°)",
            KILOMETRES_IN_A_MILE,
            "cp1252",
            id="German, an older encoding",
        ),
        pytest.param(
            "Club;Vitesse de balle (m/s);Angle de décollage (°);Spin (tr/min);"
            "Axe de rotation (°);Direction de départ (°)",
            0.44704,
            "utf-8-sig",
            id="French",
        ),
    ],
)
def test_semicolons_decimal_commas_and_other_languages_give_the_same_result(
    read: Read, table: Table, headings: str, per_mph: float, encoding: str
) -> None:
    blank = [name for name in table.head if name not in {"club", *LAUNCH}]
    clean = read(table.spoilt(lambda _, __: "", *blank)).record
    lines = [headings]
    for club, speed, *others in table.picked("club", *LAUNCH):
        cells = [f"{float(speed) * per_mph:.4f}", *others]
        lines.append(";".join([club, *(cell.replace(".", ",") for cell in cells)]))
    outcome = read("\n".join(lines).encode(encoding))
    assert outcome.code == 0, outcome.err
    assert outcome.record["rows"]["used"] + outcome.record["rows"]["odd"] == 32
    assert moved(outcome.record, clean) < 0.01


def test_a_report_that_cannot_be_written_leaves_nothing_behind(
    cli: Cli, dealt: Dealt, tmp_path: Path
) -> None:
    shots = dealt()
    before = sorted(tmp_path.iterdir())
    outcome = cli("read", shots, "--report", tmp_path / "gone" / "out.pdf", "--json")
    assert outcome.code == INTAKE
    assert sorted(path for path in tmp_path.iterdir() if path.name != "data") == before


def _fill(path: Path, first: bytes, block: bytes) -> None:
    with path.open("wb") as file:
        file.write(first)
        while file.tell() < HUGE:
            file.write(block)


def _peak(path: Path) -> tuple[int, int, str]:
    """Return exit code, peak memory [B] and words of a reading in a process of its own.

    Asked of the system's page of the process, which starts anew with the program; what the
    resource module gives counts what the parent held when it forked.
    """
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "from loftwright.cli.app import run\n"
        "code = run(['read', sys.argv[1], '--json'])\n"
        "lines = Path('/proc/self/status').read_text().splitlines()\n"
        "print(next(line.split()[1] for line in lines if line.startswith('VmHWM')))\n"
        "sys.exit(code)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(path)], capture_output=True, text=True, check=False
    )
    return done.returncode, 1024 * int(done.stdout.split()[-1]), done.stderr


@pytest.mark.skipif(sys.platform != "linux", reason="no such page of a process")
@pytest.mark.parametrize("kind", ["rows", "one line", "one cell", "blank lines", "words"])
def test_two_hundred_megabytes_are_refused_within_memory(
    table: Table, tmp_path: Path, kind: str
) -> None:
    text = table.text().encode()
    head, _, rows = text.partition(b"\n")
    first, block = {
        "rows": (head + b"\n", rows * 300),
        "one line": (b"", b"Own,148.2," * 100_000),
        "one cell": (head + b"\n", b"1" * 1_000_000),
        "blank lines": (text, b"\n" * 1_000_000),
        "words": (b"", b"These are words and no table at all.\n" * 30_000),
    }[kind]
    path = tmp_path / "huge.csv"
    _fill(path, first, block)
    size = path.stat().st_size
    try:
        code, memory, said = _peak(path)
        assert path.stat().st_size == size
    finally:
        path.unlink()
    assert code == INTAKE, said
    assert "Traceback" not in said
    assert memory < MOST_MEMORY
