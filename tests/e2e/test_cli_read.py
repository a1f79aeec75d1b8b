"""`loftwright read`: from a file to a decision, in keys, words and on paper."""

import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from commands import Cli

Dealt = Callable[..., Path]
FIGURES = {
    "ball_speed_mph",
    "launch_deg",
    "direction_deg",
    "spin_rpm",
    "axis_deg",
    "carry_yd",
    "total_yd",
    "offline_yd",
}
PARTS = {"odd_balls", "strike", "swing", "warm_up", "club", "left_over"}
ABSENT_UNIT = """\
Stick,Thing,Launch Angle,Back Spin,Spin Axis,Launch Direction
Own,148,12.9,2610,1.2,-0.4
Own,147,13.4,2480,-0.8,0.9
Ash,150,12.1,2390,2.2,1.0
Ash,149,12.8,2520,0.4,-1.1
"""


@pytest.fixture
def record(cli: Cli, dealt: Dealt) -> dict[str, Any]:
    return cli("read", dealt(), "--json").record


def test_a_reading_has_every_promised_key(record: dict[str, Any]) -> None:
    assert set(record) >= {
        "sentence",
        "state",
        "ranked_on",
        "against",
        "clubs",
        "pairs",
        "odd_balls",
        "next_club",
        "next_why",
        "regret_yd",
        "rows",
        "columns",
        "claims",
        "warnings",
    }
    assert record["state"] in {"strong", "good_enough", "too_close", "too_few"}
    assert record["ranked_on"] == "as_you_swing_it"
    assert record["against"] == "own"
    for club in record["clubs"]:
        assert set(club["as_you_swing_it"]) == set(club["from_the_same_swing"]) == FIGURES
        for figure in club["as_you_swing_it"].values():
            assert figure["low95"] <= figure["mean"] <= figure["high95"]


def test_clubs_are_in_ranked_order_and_zero_is_the_own_club(record: dict[str, Any]) -> None:
    values = [club["value_yd"] for club in record["clubs"]]
    assert values == sorted(values, reverse=True)
    own = next(club for club in record["clubs"] if club["club"] == "Own")
    assert own["value_yd"] == pytest.approx(0.0, abs=1e-9)
    assert sum(club["p_best"] for club in record["clubs"]) == pytest.approx(1.0)


def test_every_pair_is_there_once_and_its_parts_sum(record: dict[str, Any]) -> None:
    ranked = [club["club"] for club in record["clubs"]]
    pairs = [(pair["a"], pair["b"]) for pair in record["pairs"]]
    assert sorted(pairs) == sorted(
        (a, b) for index, a in enumerate(ranked) for b in ranked[index + 1 :]
    )
    for pair in record["pairs"]:
        assert set(pair["parts"]) == PARTS
        assert sum(pair["parts"].values()) == pytest.approx(pair["raw_total_yd"], abs=1e-9)


def test_row_counts_add_up(cli: Cli, dealt: Dealt) -> None:
    shots = dealt("--misreads", 3, "--ghosts", 1)
    with shots.open("a", encoding="utf-8") as file:
        file.write(shots.read_text(encoding="utf-8").splitlines()[5] + "\n")
    record = cli("read", shots, "--json").record
    rows = record["rows"]
    assert rows["read"] == rows["used"] + rows["odd"] + rows["refused"] + rows["duplicate"] == 26
    assert rows["duplicate"] == 1
    assert rows["odd"] == len(record["odd_balls"])
    assert sum(club["balls"] for club in record["clubs"]) == rows["used"] + rows["odd"]
    assert record["duplicate_rows"] == [{"row": 27, "of": 6}]


def test_the_file_is_never_changed(cli: Cli, dealt: Dealt) -> None:
    shots = dealt()
    before = (shots.read_bytes(), shots.stat().st_mtime_ns)
    assert cli("read", shots).code == 0
    assert (shots.read_bytes(), shots.stat().st_mtime_ns) == before


def test_the_same_file_gives_the_same_words(cli: Cli, dealt: Dealt) -> None:
    shots = dealt()
    assert cli("read", shots, "--json").out == cli("read", shots, "--json").out


def test_words_lead_with_the_sentence_of_the_record(cli: Cli, dealt: Dealt) -> None:
    shots = dealt()
    words = cli("read", shots)
    said = cli("read", shots, "--json").record["sentence"]
    assert " ".join(words.out.split()).startswith(said)
    assert max(len(line) for line in words.out.splitlines()) <= 80
    assert words.err == ""


def test_ball_data_alone_give_no_reason(cli: Cli, dealt: Dealt) -> None:
    record = cli("read", dealt("--device", "ball-only"), "--json").record
    assert record["ranked_on"] == "as_you_swing_it"
    assert all(club["from_the_same_swing"] is None for club in record["clubs"])
    assert any(not claim["may"] and claim["why"] for claim in record["claims"])


def test_speed_and_carry_are_compared_as_the_device_shows_them(cli: Cli, dealt: Dealt) -> None:
    outcome = cli("read", dealt("--device", "speed-and-carry"), "--json")
    record = outcome.record
    assert record["ranked_on"] == "device_carry"
    assert record["sentence"].startswith("Carry as this device shows it")
    for club in record["clubs"]:
        assert club["value_yd"] is None
        assert set(club["device_carry_yd"]) == {"mean", "low95", "high95"}
        assert club["as_you_swing_it"] is None or club["as_you_swing_it"]["total_yd"] is None


def test_a_home_changes_where_the_balls_go(cli: Cli, dealt: Dealt, tmp_path: Path) -> None:
    shots = dealt()
    home = tmp_path / "home.toml"
    home.write_text('name = "High invented links"\naltitude_ft = 6000\n', encoding="utf-8")
    high = cli("read", shots, "--home", home, "--json").record
    low = cli("read", shots, "--json").record
    assert high["home"]["name"] == "High invented links"
    totals = {club["club"]: club["level"]["total_yd"] for club in low["clubs"]}
    for club in high["clubs"]:
        assert club["level"]["total_yd"] > totals[club["club"]] + 5.0


def test_hand_balls_and_minutes_reach_the_reading(cli: Cli, dealt: Dealt) -> None:
    shots = dealt("--hand", "left")
    outcome = cli(
        "read", shots, "--hand", "left", "--minutes-left", 12, "--balls-left", 10, "--json"
    )
    assert outcome.code == 0
    assert (
        cli("read", shots, "--hand", "left", "--balls-left", 0, "--json").record["next_club"]
        is None
    )


def test_an_own_club_that_is_not_in_the_file_lists_the_names(cli: Cli, dealt: Dealt) -> None:
    outcome = cli("read", dealt(), "--own", "Oak", "--json")
    assert outcome.code == 3
    assert outcome.error["kind"] == "input"
    for club in ("Own", "Ash", "Birch", "Cedar"):
        assert club in outcome.error["mend"]


def test_a_report_is_printed_and_named(cli: Cli, dealt: Dealt, tmp_path: Path) -> None:
    out = tmp_path / "fitting.pdf"
    outcome = cli(
        *("read", dealt(), "--report", out, "--golfer", "Invented Name", "--date", "2026-05-14")
    )
    assert outcome.code == 0, outcome.err
    assert out.read_bytes().startswith(b"%PDF")
    assert f"Printed: {out}" in outcome.out


def test_a_day_that_is_none_is_refused_before_anything_is_read(cli: Cli, tmp_path: Path) -> None:
    outcome = cli("read", tmp_path / "nowhere.csv", "--date", "14.5.2026", "--json")
    assert (outcome.code, outcome.error["place"]) == (3, "--date")


def test_doubts_are_refused_with_rows_and_the_options_that_settle_them(
    cli: Cli, tmp_path: Path
) -> None:
    shots = tmp_path / "doubtful.csv"
    shots.write_text(ABSENT_UNIT, encoding="utf-8")
    outcome = cli("read", shots, "--json")
    assert outcome.code == 4
    assert outcome.error["kind"] == "intake"
    doubt = next(one for one in outcome.error["doubts"] if one["column"] == "Thing")
    assert len(doubt["samples"]) == 3
    assert any(option.startswith("--column") for option in doubt["options"])
    words = cli("read", shots)
    assert words.code == 4
    assert "--column" in words.err


def test_a_person_is_asked_and_the_answer_is_remembered(
    cli: Cli, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shots = tmp_path / "doubtful.csv"
    shots.write_text(ABSENT_UNIT, encoding="utf-8")
    open_doubts = cli("read", shots, "--json").error["doubts"]
    answers = iter(
        '--column "Thing=ball speed[mph]"' if doubt["column"] == "Thing" else "1"
        for doubt in open_doubts
    )
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr("typer.prompt", lambda *_, **__: next(answers))
    outcome = cli("read", shots)
    assert outcome.code == 0, outcome.err
    again = cli("read", shots, "--json")
    assert again.code == 0, again.err
    thing = next(one for one in again.record["columns"] if one["column"] == "Thing")
    assert (thing["means"], thing["unit"]) == ("ball speed", "mph")
    assert (tmp_path / "data" / "mappings.toml").is_file()


def test_json_never_asks(cli: Cli, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shots = tmp_path / "doubtful.csv"
    shots.write_text(ABSENT_UNIT, encoding="utf-8")
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    assert cli("read", shots, "--json").code == 4


def test_one_ball_a_club_is_too_few_and_says_so(cli: Cli, dealt: Dealt) -> None:
    shots = dealt()
    header, *rows = shots.read_text(encoding="utf-8").splitlines()
    first = {row.split(",")[2]: row for row in reversed(rows)}
    shots.write_text("\n".join((header, *sorted(first.values()), "")), encoding="utf-8")
    record = cli("read", shots, "--json").record
    assert record["state"] == "too_few"
    assert record["sentence"].startswith("Too few balls to compare")
    assert all(club["p_best"] is None for club in record["clubs"])


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", 4),
        (b"\n\n\n", 4),
        (b"These are words and no table at all.\n", 4),
        (b"%PDF-1.7 not a table", 4),
        (b"club,ball_speed_mph\n", 4),
        (b"\x00\x01\x02\x03\x04", 4),
    ],
)
def test_a_file_that_is_no_table_has_a_clear_word(
    cli: Cli, tmp_path: Path, content: bytes, code: int
) -> None:
    shots = tmp_path / "shots.csv"
    shots.write_bytes(content)
    outcome = cli("read", shots, "--json")
    assert outcome.code == code, outcome.err
    assert outcome.error["message"]
    assert outcome.error["mend"]
    assert shots.read_bytes() == content


@pytest.mark.parametrize(
    ("arguments", "code", "kind"),
    [
        ((), 2, "usage"),
        (("nowhere.csv",), 4, "intake"),
        (("nowhere.csv", "--hand", "both"), 2, "usage"),
        (("nowhere.csv", "--balls-left", -1), 2, "usage"),
        (("nowhere.csv", "--minutes-left", "soon"), 3, "input"),
        (("nowhere.csv", "--home", "nohome.toml"), 4, "intake"),
    ],
)
def test_wrong_use_has_its_code(
    cli: Cli, arguments: tuple[object, ...], code: int, kind: str
) -> None:
    outcome = cli("read", *arguments, "--json")
    assert (outcome.code, outcome.error["kind"]) == (code, kind)


def test_words_and_paper_are_told_in_metres_with_a_comma(
    cli: Cli, dealt: Dealt, tmp_path: Path
) -> None:
    path, paper = dealt(), tmp_path / "fitting.pdf"
    metres = ("--units", "metric", "--decimal", "comma")
    told = cli("read", path, *metres, "--report", paper).out.partition("Columns:")[0]
    assert "Total as you swing it against Own, m; nine chances in ten" in told
    assert not re.search(r"\byd\b|\bmph\b|\d\.\d", told)
    pages = "".join(
        page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(paper)
    )
    assert "Metres of total" in pages
    assert not re.search(r"\byd\b|\bft\b", pages)
    trade, record = cli("read", path, "--json").record, cli("read", path, *metres, "--json").record
    assert record["clubs"] == trade["clubs"]
