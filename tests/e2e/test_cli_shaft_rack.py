"""Shafts by name: shown, held against each other, trimmed on paper and swung."""

from pathlib import Path

import pytest

from bench_readings import three_points
from bench_shafts import REFERENCE
from commands import Cli
from loftwright.domain.rack import Piece
from loftwright.errors import StoreError
from loftwright.services.opening import open_studio
from loftwright.services.rack_out import rack_csv, rack_json
from loftwright.store.engine import FILE
from loftwright.store.sqlite import open_store_to_read
from racks import a_measured_rack
from studios import studio_in_memory

NAME = "heron-60-1-a"
SECTIONS = ("butt", "upper_middle", "lower_middle", "tip")
READINGS = """\
kind,station_mm,span_mm,load_n,deflection_mm,clamp_mm,tip_mass_g,frequency_cpm,mass_g
three_point,150,300,50,0.369
three_point,300,300,50,0.410
three_point,450,300,50,0.450
three_point,600,300,50,0.540
three_point,750,300,50,0.712
three_point,900,300,50,0.967
mass,,,,,,,,62.0
"""


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Return a data folder with a measured rack, closed again."""
    studio = open_studio(tmp_path / "data")
    a_measured_rack(studio)
    studio.store.close()
    return tmp_path / "data"


@pytest.fixture
def rack(tmp_path: Path) -> Path:
    studio = studio_in_memory()
    a_measured_rack(studio)
    path = tmp_path / "rack.json"
    path.write_text(rack_json(studio), encoding="utf-8")
    return path


@pytest.mark.usefixtures("data")
def test_a_shaft_is_shown_by_name(cli: Cli) -> None:
    outcome = cli("shaft", "show", NAME)
    assert outcome.code == 0, outcome.err
    assert all(len(line) <= 80 for line in outcome.out.splitlines())
    assert "Not seen" not in outcome.out
    record = cli("shaft", "show", NAME.upper(), "--json").record
    assert set(record["stations"][3]) == {"mm", "ei_nm2", "sd"}
    assert record["stations"][-1]["read"] is False
    assert record["frequency_cpm"] > 0.0
    assert set(record["sections"]) == set(SECTIONS)
    assert record["frequency_cpm_sd"] > 0.0


@pytest.mark.usefixtures("data")
def test_store_and_rack_file_say_the_same(cli: Cli, rack: Path, tmp_path: Path) -> None:
    stored = cli("shaft", "show", NAME, "--json").record
    assert cli("shaft", "show", NAME, "--rack", rack, "--json").record | {"day": ""} == (
        stored | {"day": ""}
    )
    studio = studio_in_memory()
    a_measured_rack(studio)
    table = tmp_path / "rack.csv"
    table.write_text(rack_csv(studio), encoding="utf-8")
    again = cli("shaft", "show", NAME, "--rack", table, "--json").record
    assert again["stations"] == stored["stations"]


def test_the_store_is_only_read(cli: Cli, data: Path) -> None:
    before = {path.name: path.read_bytes() for path in data.iterdir() if path.is_file()}
    assert cli("shaft", "like", NAME, "--json").code == 0
    after = {path.name: path.read_bytes() for path in data.iterdir() if path.is_file()}
    assert after[FILE] == before[FILE]
    store = open_store_to_read(data)
    with pytest.raises(StoreError):
        store.put(Piece(id="new", model="heron-60-1"), version=None)
    store.close()


def test_a_studio_that_is_open_can_be_asked(cli: Cli, data: Path) -> None:
    studio = open_studio(data)
    try:
        studio.store.put(Piece(id="fresh", model="heron-60-1", label="fresh"), version=None)
        outcome = cli("shaft", "show", "fresh", "--json")
        assert outcome.code == 3
        assert "was not measured" in outcome.error["message"]
    finally:
        studio.store.close()


def test_nothing_is_made_where_there_is_no_studio(cli: Cli, tmp_path: Path) -> None:
    outcome = cli("shaft", "show", NAME, "--json")
    assert outcome.code == 6
    assert "--rack" in outcome.error["mend"]
    assert not (tmp_path / "data").exists()


@pytest.mark.usefixtures("data")
def test_an_unknown_name_is_told_with_the_nearest(cli: Cli) -> None:
    outcome = cli("shaft", "show", "heron-60-1-z", "--json")
    assert (outcome.code, outcome.error["kind"]) == (6, "not_found")
    assert cli("shaft", "show", NAME, "--length", 1168).code == 2


@pytest.mark.usefixtures("data")
def test_what_plays_like_a_shaft(cli: Cli) -> None:
    outcome = cli("shaft", "like", NAME)
    assert outcome.code == 0, outcome.err
    assert "plays like" in outcome.out or "differs most" in outcome.out
    record = cli("shaft", "like", NAME, "--json").record
    names = [one["id"] for one in record["near"]]
    assert NAME not in names
    assert names[0] in {"heron-60-1-b", "heron-60-1-c"}
    for one in record["near"]:
        assert set(one["percent"]) == set(one["noise"]) == set(SECTIONS)
    cracked = next(one for one in record["near"] if one["id"] == "heron-60-2-b")
    assert "locked" in cracked["why_not"]


@pytest.mark.usefixtures("data")
def test_a_firmer_tip_finds_the_firmer_tip(cli: Cli) -> None:
    record = cli("shaft", "like", NAME, "--tip", "+20%", "--json").record
    assert record["sought_percent"] == {"tip": 20.0}
    assert record["near"][0]["id"].startswith("heron-70-1")
    assert record["near"][0]["percent"]["tip"] == pytest.approx(17.0, abs=4.0)
    softer = cli("shaft", "like", NAME, "--tip", "-10%", "--json").record
    assert softer["near"][0]["id"].startswith("heron-60-2")
    words = cli("shaft", "like", NAME, "--tip", "+20%").out
    assert words.startswith("Nearest to ")
    assert "20 % firmer at the tip" in " ".join(words.split())


@pytest.mark.usefixtures("data")
def test_what_the_bench_cannot_tell_is_said(cli: Cli) -> None:
    fine = cli("shaft", "like", NAME, "--butt", "+0.5%", "--json").record["warnings"]
    assert any("no more than the bench can tell" in one for one in fine)
    far = cli("shaft", "like", NAME, "--butt", "+40%", "--json").record["warnings"]
    assert any("No measured shaft comes nearer" in one for one in far)


@pytest.mark.usefixtures("data")
@pytest.mark.parametrize("by", ["twist", "weight", "balance"])
def test_likeness_by_something_else(cli: Cli, by: str) -> None:
    assert cli("shaft", "like", NAME, "--by", by).code == 0
    record = cli("shaft", "like", NAME, "--by", by, "--json").record
    assert record["by"] == by
    assert record["near"]
    with_section = cli("shaft", "like", NAME, "--by", by, "--tip", "5", "--json")
    assert with_section.code == (0 if by == "twist" else 2)


@pytest.mark.usefixtures("data")
def test_shares_that_cannot_be_are_refused(cli: Cli) -> None:
    assert cli("shaft", "like", NAME, "--tip", "80%").code == 3
    assert cli("shaft", "like", NAME, "--tip", "firm").code == 3
    assert cli("shaft", "like", NAME, "--count", 0).code == 2


def test_a_section_that_was_not_seen_cannot_be_asked_about(
    cli: Cli, rack: Path, tmp_path: Path
) -> None:
    table = tmp_path / "readings.csv"
    table.write_text(READINGS, encoding="utf-8")
    words = ("shaft", "like", table, "--length", 1168, "--rack", rack)
    outcome = cli(*words, "--tip", "+10%", "--json")
    assert (outcome.code, outcome.error["kind"]) == (5, "evidence")
    assert outcome.error["place"] == "--tip"
    record = cli(*words, "--json").record
    assert all(one["percent"]["tip"] is None for one in record["near"])
    assert any("the tip" in one for one in record["warnings"])


@pytest.mark.usefixtures("data")
def test_a_trim_before_and_after(cli: Cli) -> None:
    outcome = cli("shaft", "trim", NAME, "--tip", "0.5in")
    assert outcome.code == 0, outcome.err
    assert all(len(line) <= 80 for line in outcome.out.splitlines())
    record = cli("shaft", "trim", NAME, "--tip", "12.7", "--butt", "1in", "--json").record
    before, after, change = record["before"], record["after"], record["change"]
    assert before["length_mm"] - after["length_mm"] == pytest.approx(38.1)
    assert change["length_mm"] == pytest.approx(-38.1)
    for key in ("frequency_cpm", "torque_deg", "mass_g", "balance_mm"):
        assert after[key] - before[key] == pytest.approx(change[key], abs=1e-6)
    assert change["frequency_cpm"] > 10.0
    assert change["frequency_cpm_sd"] < before["frequency_cpm_sd"]
    assert after["frequency_set_up"]["free_length_mm"] == pytest.approx(after["length_mm"] - 127.0)


@pytest.mark.usefixtures("data")
def test_build_up_changes_the_hand_and_nothing_else(cli: Cli) -> None:
    words = ("shaft", "trim", NAME, "--wraps", 2, "--tape-thickness", "0.13")
    record = cli(*words, "--json").record
    assert record["change"]["hand_mm"] == pytest.approx(0.52)
    assert record["change"]["frequency_cpm"] == 0.0
    assert any("not the stiffness" in one for one in record["warnings"])
    assert "+0.52" in cli(*words).out


@pytest.mark.usefixtures("data")
@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        ((), 2, "nothing to preview"),
        (("--wraps", 2), 3, "go together"),
        (("--tip", "-5"), 3, "cannot be used"),
        (("--tip", "0.8 m"), 3, "leave"),
        (("--tip", "10", "--clamp", "1 m"), 3, "too little"),
        (("--butt-diameter", "0.62in"), 3, "go together"),
        (("--butt-diameter", "0.62in", "--wall", "1.1"), 3, "was not measured"),
        (("--tip", "5 g"), 3, "unit of mass"),
    ],
)
def test_trims_that_cannot_be(
    cli: Cli, options: tuple[object, ...], code: int, words: str
) -> None:
    outcome = cli("shaft", "trim", NAME, *options, "--json")
    assert outcome.code == code
    assert words in outcome.error["message"]
    assert outcome.error["mend"]


@pytest.mark.usefixtures("data")
def test_a_frequency_needs_its_set_up(cli: Cli) -> None:
    assert cli("shaft", "frequency", NAME).code == 2
    assert cli("shaft", "frequency", NAME, "--clamp", "5in").code == 2
    words = ("shaft", "frequency", NAME, "--clamp", "5in", "--tip-mass", "205g")
    assert "127 mm held, 205 g on the tip" in " ".join(cli(*words).out.split())
    record = cli(*words, "--json").record
    assert record["frequency_set_up"] == {
        "clamp_mm": 127.0,
        "tip_mass_g": 205.0,
        "free_length_mm": 1041.0,
    }
    assert any("hardly its tip" in one for one in record["warnings"])


def test_a_table_of_readings_is_a_shaft_too(cli: Cli, tmp_path: Path) -> None:
    table = tmp_path / "readings.csv"
    table.write_text(READINGS, encoding="utf-8")
    assert cli("shaft", "show", table).code == 2
    record = cli("shaft", "show", table, "--length", 1168, "--json").record
    assert record["mass_g"] == pytest.approx(62.0, abs=0.1)
    assert (record["torque_deg"], record["balance_mm"], record["sections"]["tip"]) == (None,) * 3
    told = " ".join(record["warnings"])
    for reason in ("not balanced", "not twisted", "the tip"):
        assert reason in told
    assert cli("shaft", "show", table.with_name("lost.csv"), "--length", 1168).code == 4


def test_a_shaft_that_was_not_weighed_has_no_frequency(cli: Cli, tmp_path: Path) -> None:
    table = tmp_path / "bent.csv"
    table.write_text(READINGS.rpartition("mass,")[0], encoding="utf-8")
    words = ("shaft", "frequency", table, "--length", 1168, "--clamp", 127, "--tip-mass", 205)
    record = cli(*words, "--json").record
    assert (record["frequency_cpm"], record["frequency_cpm_sd"]) == (None, None)
    assert "not weighed" in record["warnings"][0]
    assert "no frequency can be told" in cli(*words).out


def test_a_doubted_row_is_named_wherever_its_table_serves(cli: Cli, tmp_path: Path) -> None:
    table = tmp_path / "slipped.csv"
    rows = [
        f"three_point,{1000.0 * one.station:.1f},300,50,{1000.0 * one.value:.3f}"  # type: ignore[union-attr]
        for one in three_points(REFERENCE)
    ]
    rows[8] = f"{rows[8].rpartition(',')[0]},0.999"
    table.write_text("\n".join([READINGS.splitlines()[0], *rows]), encoding="utf-8")
    outcome = cli("shaft", "show", table, "--length", 1143, "--json")
    assert "Row 10 looks wrong and counts as it stands" in outcome.record["warnings"][0]


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ('"model": "heron-60-1"', '"model": "gone"', "model"),
        ('"bending_nm2": [', '"bending_nm2": [-', "bending"),
        ('"kind": "shaft"', '"kind": "shift"', "item 2"),
    ],
)
def test_a_rack_file_that_cannot_be_names_its_place(
    cli: Cli, rack: Path, old: str, new: str, place: str
) -> None:
    text = rack.read_text(encoding="utf-8")
    assert old in text
    rack.write_text(text.replace(old, new, 1), encoding="utf-8")
    outcome = cli("shaft", "show", NAME, "--rack", rack, "--json")
    assert (outcome.code, outcome.error["kind"]) == (3, "input")
    assert outcome.error["place"] == place
    assert cli("shaft", "show", NAME, "--rack", rack.with_name("lost.json")).code == 4


def test_a_store_of_another_version_is_left_as_it_is(cli: Cli, data: Path) -> None:
    studio = open_studio(data)
    with studio.store.writing() as connection:  # type: ignore[attr-defined]
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = '0002'")
    studio.store.close()
    outcome = cli("shaft", "show", NAME, "--json")
    assert (outcome.code, outcome.error["kind"]) == (6, "schema")
    (data / FILE).write_bytes(b"no store at all, and long enough to be read as one" * 40)
    for rest in data.glob(f"{FILE}-*"):
        rest.unlink()
    assert cli("shaft", "show", NAME, "--json").code == 6
