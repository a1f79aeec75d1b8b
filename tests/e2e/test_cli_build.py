"""`loftwright build`: solve, check, sleeve and swingweight, in words and in keys."""

from math import asin, atan2, cos, degrees, radians, sin
from pathlib import Path

import numpy as np
import pytest

from builds import BUILD_TOML, DRIVER
from commands import Cli, Outcome
from loftwright.arrays import FloatArray
from loftwright.constants import GRAM, INCH
from loftwright.physics.build.uncertainty import PartErrors, club_errors

MEASURED: dict[str, str] = {
    "length_inch": "value = 45.02\nu95 = 0.03",
    "mass_g": "value = 325.4\nu95 = 1",
    "balance_inch": "value = 33.1\nu95 = 0.08",
    "grip_length_inch": "value = 10.5\nu95 = 0.05",
}
READINGS = "kind,span_mm,load_n,clamp_mm,tip_mass_g,frequency_cpm,mass_g\n" + (
    "frequency,,,127,205,250,\nmass,,,,,,62\n"
)


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    path = tmp_path / "build.toml"
    path.write_text(BUILD_TOML, encoding="utf-8")
    return path


def measured(tmp_path: Path, **change: str) -> Path:
    path = tmp_path / "measured.toml"
    tables = {**MEASURED, **change}
    text = "\n\n".join(f"[{name}]\n{lines}" for name, lines in tables.items() if lines)
    path.write_text(text, encoding="utf-8")
    return path


def edited(sheet: Path, old: str, new: str) -> Path:
    text = sheet.read_text(encoding="utf-8")
    assert old in text
    sheet.write_text(text.replace(old, new, 1), encoding="utf-8")
    return sheet


def narrow(outcome: Outcome) -> bool:
    return all(len(line) <= 80 for line in outcome.out.splitlines())


def test_a_build_is_solved_in_words(cli: Cli, sheet: Path) -> None:
    outcome = cli("build", "solve", sheet)
    assert outcome.code == 0
    first = " ".join(outcome.out.split("\n\n")[0].split())
    assert first == (
        "Cut the shaft to 43.125 in, add 6.9 g to the head and 3.2 g in the butt: 45.00 in, D3.0, "
        "325.0 g."
    )
    assert "from memory" in outcome.out
    assert narrow(outcome)


def test_a_build_is_solved_in_keys(cli: Cli, sheet: Path) -> None:
    record = cli("build", "solve", sheet, "--json").record
    assert record["cut_length_inch"] == pytest.approx(43.125)
    assert record["butt_cut_inch"] == pytest.approx(2.875)
    assert record["head_add_g"] == pytest.approx(6.8655, abs=5e-5)
    assert record["counterweight_g"] == pytest.approx(3.2465, abs=5e-5)
    assert record["length_inch"] == pytest.approx(45.0)
    assert record["mass_g"] == pytest.approx(325.0)
    assert record["balance_inch"] == pytest.approx(33.0814, abs=5e-5)
    assert record["swingweight"] == "D3.0"
    assert record["club_moi_kgcm2"] == pytest.approx(2869.38, abs=5e-3)
    assert record["feasible"] is True
    assert (record["reasons"], record["trades"]) == ([], [])
    kept, grams = 43.125 * INCH, (6.8655 * GRAM, 3.2465 * GRAM)
    doubt = 2.0 * club_errors(DRIVER, kept, PartErrors(), *grams).swingweight
    assert record["u95"]["swingweight"] == pytest.approx(doubt, abs=1e-4)
    assert record["swingweight_u95_by_part"][0]["part"] == "head depth along the shaft"


def test_what_cannot_be_built_is_said_with_what_can_and_ends_with_seven(
    cli: Cli, sheet: Path
) -> None:
    edited(sheet, "length_inch = 45\n", "length_inch = 46\n")
    edited(sheet, '"D3"', '"D0"')
    edited(sheet, "mass_g = 325", "mass_g = 312")
    outcome = cli("build", "solve", sheet)
    assert outcome.code == 7
    assert outcome.out.startswith("These parts cannot make it: the head would have to be 6.5 g")
    assert "What can be built of these parts:" in outcome.out
    assert narrow(outcome)
    told = cli("build", "solve", sheet, "--json")
    assert told.code == 7
    assert told.error["kind"] == "no_solution"
    record = told.record
    assert record["feasible"] is False
    assert record["head_add_g"] == pytest.approx(-6.5366, abs=5e-5)
    assert record["counterweight_g"] == pytest.approx(2.2219, abs=5e-5)
    assert record["reasons"][0]["obstacle"] == "head_heavy"
    assert {trade["trade"] for trade in record["trades"]} >= {"held", "nearest"}
    assert all(trade["head_add_g"] >= 0.0 for trade in record["trades"])


def test_a_shaft_that_is_too_short_has_no_club_but_a_shorter_one(cli: Cli, sheet: Path) -> None:
    edited(sheet, "length_inch = 45\n", "length_inch = 48.5\n")
    told = cli("build", "solve", sheet, "--json")
    assert told.code == 7
    assert told.record["cut_length_inch"] is None
    assert told.record["mass_g"] is None
    assert told.record["reasons"][0]["by_inch"] == pytest.approx(0.625)
    assert told.record["trades"]
    words = cli("build", "solve", sheet)
    assert "too short by 0.6" in words.out


def test_a_missing_mass_is_asked_for(cli: Cli, sheet: Path) -> None:
    edited(sheet, "mass_g = 195\n", "")
    told = cli("build", "solve", sheet, "--json")
    assert told.code == 3
    assert told.error["message"] == "the mass of the head is missing"
    assert told.error["place"] == f"{sheet}, head, mass_g"
    assert "nothing is guessed" in told.error["mend"]


def test_a_forecast_needs_its_clamp_and_weight(cli: Cli, sheet: Path, tmp_path: Path) -> None:
    readings = tmp_path / "readings.csv"
    readings.write_text(READINGS, encoding="utf-8")
    bare = cli("build", "solve", sheet, "--readings", readings, "--json")
    assert bare.code == 2
    assert bare.error["place"] == "--clamp"
    whole = ("build", "solve", sheet, "--readings", readings, "--clamp", 127, "--tip-mass", 205)
    record = cli(*whole, "--json").record
    found = record["frequency"]
    assert found["raw_cpm"] == pytest.approx(250.0, abs=1.0)
    assert found["cut_cpm"] > found["tip_trimmed_cpm"] == pytest.approx(found["raw_cpm"])
    assert 0.0 < found["change_cpm_u95"] < found["cut_cpm_u95"] + 5.0
    words = cli(*whole)
    assert "cpm raw" in words.out
    assert narrow(words)


def test_readings_of_another_shaft_are_doubted(cli: Cli, sheet: Path, tmp_path: Path) -> None:
    readings = tmp_path / "readings.csv"
    readings.write_text(READINGS.replace(",62", ",70"), encoding="utf-8")
    whole = ("build", "solve", sheet, "--readings", readings, "--clamp", 127, "--tip-mass", 205)
    assert any("does not weigh" in one for one in cli(*whole, "--json").record["warnings"])


BUILD_UP = """
[build_up]
butt_inch = 0.6
core_inch = 0.6
nominal_inch = 0.9
tape_inch = 0.005
wraps = 2
"""


def test_a_grip_comes_as_a_bracket_and_the_callipered_figure_counts(
    cli: Cli, sheet: Path, tmp_path: Path
) -> None:
    edited(sheet, "mass_g = 325", "mass_g = 325\ngrip_inch = 0.92")
    sheet.write_text(sheet.read_text(encoding="utf-8") + BUILD_UP, encoding="utf-8")
    words = cli("build", "solve", sheet)
    assert "2 turns of tape: 0.913 to 0.920 in; calliper it" in words.out
    assert "0.920 in would take 2.0 to 3.0 turns" in words.out
    assert narrow(words)
    found = cli("build", "solve", sheet, "--json").record["grip"]
    assert (found["under_inch"], found["high_inch"]) == pytest.approx((0.62, 0.92))
    for size, outside in ((0.918, False), (0.935, True)):
        path = measured(tmp_path, grip_inch=f"value = {size}\nu95 = 0.002")
        record = cli("build", "check", sheet, path, "--json").record
        (line,) = [line for line in record["lines"] if line["what"] == "grip_inch"]
        assert line["verdict"] == ("out" if outside else "in")
        assert any("callipered" in one for one in record["warnings"]) is outside


def test_units_of_ones_own_give_the_same_points(cli: Cli) -> None:
    plain = cli("build", "swingweight", "--mass", 310, "--balance", 33.25, "--json").record
    other = ("--mass", "0.31kg", "--balance", "844.55mm")
    again = cli("build", "swingweight", *other, "--json").record
    assert again["index"] == pytest.approx(plain["index"], abs=1e-9)


def test_an_edition_of_the_build_file_stays_beside_the_competitions_rule(
    cli: Cli, sheet: Path, tmp_path: Path
) -> None:
    text = sheet.read_text(encoding="utf-8")
    sheet.write_text(f'{text}\n[rules]\nedition = "an invented edition"\n', encoding="utf-8")
    path = measured(tmp_path, rules="competition_uses_46_inch = true")
    record = cli("build", "check", sheet, path, "--json").record
    assert record["edition"] == "an invented edition"
    assert [line for line in record["lines"] if line.get("local_rule")]


def test_a_finished_club_is_held_against_its_sheet(cli: Cli, sheet: Path, tmp_path: Path) -> None:
    outcome = cli("build", "check", sheet, measured(tmp_path))
    assert outcome.code == 0
    assert outcome.out.startswith("Of 4 readings with a target: ")
    assert "Equipment Rules" in outcome.out
    assert "below the limit as measured" in " ".join(outcome.out.split())
    assert "only The R&A and the USGA decide" in " ".join(outcome.out.split())
    assert narrow(outcome)
    record = cli("build", "check", sheet, measured(tmp_path), "--json").record
    lines = {(line["what"], "limit" in line): line for line in record["lines"]}
    target = lines["length_inch", False]
    assert (target["target"], target["tolerance"], target["verdict"]) == (45.0, 0.0625, "in")
    assert target["asked"] is True
    assert lines["balance_inch", False]["asked"] is False
    upper = next(line for line in record["lines"] if line.get("limit") == 48.0)
    assert (upper["value"], upper["u95"], upper["verdict"]) == (45.02, 0.03, "below")
    assert any("CT, COR" in one for one in record["not_measured_here"])
    assert not [line for line in record["lines"] if line.get("local_rule")]


@pytest.mark.parametrize(
    ("value", "verdict"), [(48.00, "too_close"), (47.90, "below"), (48.10, "above")]
)
def test_a_length_by_the_limit(
    cli: Cli, sheet: Path, tmp_path: Path, value: float, verdict: str
) -> None:
    path = measured(tmp_path, length_inch=f"value = {value}\nu95 = 0.05")
    record = cli("build", "check", sheet, path, "--json").record
    upper = next(line for line in record["lines"] if line.get("limit") == 48.0)
    assert upper["verdict"] == verdict


def test_forty_six_inches_stand_only_where_the_competition_uses_them(
    cli: Cli, sheet: Path, tmp_path: Path
) -> None:
    long = "value = 46.1\nu95 = 0.05"
    usual = cli("build", "check", sheet, measured(tmp_path, length_inch=long))
    assert "46 in" not in usual.out
    path = measured(tmp_path, length_inch=long, rules="competition_uses_46_inch = true")
    local = cli("build", "check", sheet, path, "--json").record
    (line,) = [line for line in local["lines"] if line.get("local_rule")]
    assert (line["limit"], line["verdict"]) == (46.0, "above")


def test_an_edition_of_ones_own_is_named(cli: Cli, sheet: Path, tmp_path: Path) -> None:
    path = measured(tmp_path, rules='edition = "an invented edition"')
    assert "Edition looked at: an invented edition." in cli("build", "check", sheet, path).out


def test_readings_that_contradict_are_named_and_nothing_is_lost(
    cli: Cli, sheet: Path, tmp_path: Path
) -> None:
    path = measured(tmp_path, swingweight='value = "D9"\nu95 = 0.3')
    outcome = cli("build", "check", sheet, path)
    assert outcome.code == 0
    assert "cannot all be right" in outcome.out
    record = cli("build", "check", sheet, path, "--json").record
    (found,) = record["contradictions"]
    assert found["what"] == "scale"
    verdicts = {line["what"]: line["verdict"] for line in record["lines"] if "target" in line}
    assert verdicts["swingweight"] == verdicts["mass_g"] == "cannot_tell"
    assert len(verdicts) == 4


def test_a_pendulum_gives_the_inertia(cli: Cli, sheet: Path, tmp_path: Path) -> None:
    swing = "pivot_inch = 2\nperiod_s = 2.0197\nperiod_u95_s = 0.004"
    path = measured(tmp_path, pendulum=swing)
    record = cli("build", "check", sheet, path, "--json").record
    (line,) = [line for line in record["lines"] if line["what"] == "club_moi_kgcm2"]
    assert line["value"] == pytest.approx(2870.0, abs=15.0)
    alone = measured(tmp_path, pendulum=swing, mass_g="")
    assert cli("build", "check", sheet, alone, "--json").error["place"] == "pendulum"


def test_a_length_by_ruler_is_no_length_by_the_rules(
    cli: Cli, sheet: Path, tmp_path: Path
) -> None:
    path = measured(tmp_path, length_inch='value = 45.02\nu95 = 0.03\nmethod = "ruler"')
    record = cli("build", "check", sheet, path, "--json").record
    assert not [line for line in record["lines"] if line.get("limit") == 48.0]
    assert record["not_measured_here"][0].startswith("the length by the 60-degree plane")
    assert record["length_method"] == "ruler"


def test_a_frequency_of_another_set_up_tells_nothing(
    cli: Cli, sheet: Path, tmp_path: Path
) -> None:
    edited(
        sheet,
        "mass_g = 325",
        "mass_g = 325\nfrequency_cpm = 250\nclamp_mm = 127\ntip_mass_g = 205",
    )
    for clamp, verdict in ((127, "in"), (120, "cannot_tell")):
        reading = f"value = 250.2\nu95 = 0.5\nclamp_mm = {clamp}\ntip_mass_g = 205"
        path = measured(tmp_path, frequency_cpm=reading)
        record = cli("build", "check", sheet, path, "--json").record
        (line,) = [line for line in record["lines"] if line["what"] == "frequency_cpm"]
        assert line["verdict"] == verdict


def test_a_sheet_that_cannot_be_built_predicts_nothing(
    cli: Cli, sheet: Path, tmp_path: Path
) -> None:
    edited(sheet, "mass_g = 325", "mass_g = 300")
    record = cli("build", "check", sheet, measured(tmp_path), "--json").record
    assert "balance_inch" not in {line["what"] for line in record["lines"]}
    assert any("cannot be built" in one for one in record["warnings"])


def turned(beta: float, psi: float, loft: float, lie: float) -> dict[str, float]:
    """Return the three conventions by rotations of the whole head (Rodrigues)."""

    def about(axis: FloatArray, angle: float) -> FloatArray:
        x, y, z = axis / np.linalg.norm(axis)
        cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
        turn: FloatArray = np.eye(3) + sin(angle) * cross + (1 - cos(angle)) * cross @ cross
        return turn

    hosel = np.array([0.0, cos(lie), sin(lie)])
    side = np.array([0.0, sin(lie), -cos(lie)])
    lean = cos(psi) * np.array([1.0, 0.0, 0.0]) + sin(psi) * side
    tilt = about(np.cross(hosel, lean), beta)
    shaft = tilt @ hosel
    normal = np.array([cos(loft), 0.0, sin(loft)])
    kept = tilt.T @ normal
    soled_turn = about(np.array([0.0, 0.0, 1.0]), atan2(shaft[0], shaft[1]))
    soled = soled_turn @ normal
    low, high = -0.6, 0.6
    for _ in range(80):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if (about(hosel, middle) @ kept)[1] < 0 else (low, middle)
    squared = about(hosel, 0.5 * (low + high)) @ kept
    return {
        "kept_loft": degrees(asin(kept[2])),
        "kept_face": degrees(atan2(-kept[1], kept[0])),
        "lie": degrees(asin(shaft[2])),
        "soled_face": degrees(atan2(-soled[1], soled[0])),
        "squared_loft": degrees(asin(squared[2])),
        "design_lie": degrees(atan2(shaft[2], shaft[1])),
    }


@pytest.mark.parametrize("azimuth", [0.0, 20.0, 45.0, 90.0, 135.0, 180.0, 270.0])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_sleeve_agrees_with_turning_the_whole_head(cli: Cli, azimuth: float, hand: str) -> None:
    """Self-consistent: brute-force rotation, to 1e-9 degrees."""
    options = ("--loft", 10.5, "--lie", 58, "--bore", 1.5, "--azimuth", azimuth, "--hand", hand)
    record = cli("build", "sleeve", *options, "--json").record
    brute = turned(radians(1.5), radians(azimuth), radians(10.5), radians(58.0))
    found = {
        "kept_loft": record["shaft_kept"]["loft_deg"],
        "kept_face": record["shaft_kept"]["face_deg"],
        "lie": record["soled"]["lie_deg"],
        "soled_face": record["soled"]["face_deg"],
        "squared_loft": record["squared"]["loft_deg"],
        "design_lie": record["design_lie_deg"],
    }
    assert found == pytest.approx(brute, abs=1e-9)


def test_a_sleeve_is_told_for_its_hand(cli: Cli) -> None:
    options = ("--loft", 10.5, "--lie", 58, "--bore", 1.5, "--azimuth", 45)
    right, left = (cli("build", "sleeve", *options, "--hand", hand) for hand in ("right", "left"))
    assert "open points right" in right.out
    assert "open points left" in left.out
    assert "the other way round" in " ".join(left.out.split())
    assert narrow(left)


def test_a_swingweight_by_the_usual_scale_and_by_ones_own(cli: Cli) -> None:
    whole = ("build", "swingweight", "--mass", 310, "--balance", 33.25)
    record = cli(*whole, "--json").record
    assert record["swingweight"] == "C8.3"
    assert record["index"] == pytest.approx(28.2842, abs=5e-5)
    assert record["moment_oz_inch"] == pytest.approx(210.4974, abs=5e-5)
    assert record["calibrated"] is False
    assert "from memory" in cli(*whole).out
    own = ("--reference-mass", 310, "--reference-balance", 33.25, "--reference-reads", "C9")
    assert cli(*whole, *own, "--json").record["swingweight"] == "C9.0"
    assert "by your own scale" in cli(*whole, *own).out
    assert cli(*whole, "--reference-mass", 310, "--json").code == 2


@pytest.mark.parametrize(
    ("change", "place"), [(("--mass", "11oz"), None), (("--mass", 3.1), "mass")]
)
def test_a_mass_takes_its_unit_and_is_refused_without(
    cli: Cli, change: tuple[str, object], place: str | None
) -> None:
    outcome = cli("build", "swingweight", *change, "--balance", 33.25, "--json")
    if place is None:
        assert outcome.code == 0
        return
    assert outcome.code == 3
    assert outcome.error["place"] == place


def test_a_balance_point_off_the_club_is_refused(cli: Cli) -> None:
    outcome = cli("build", "swingweight", "--mass", 310, "--balance", 844, "--json")
    assert (outcome.code, outcome.error["place"]) == (3, "balance")


def test_the_group_alone_shows_its_help(cli: Cli) -> None:
    outcome = cli("build")
    assert outcome.code == 2
    assert "swingweight" in outcome.err
