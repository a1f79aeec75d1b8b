"""Devices that give little: ball data only, or no more than ball speed and carry."""

from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from commands import Cli, Dealt

BALL_ONLY_SAYS_NOT = (
    "what the club does from the same swing, apart from strike and swing",
    "where the ball met the face",
    "which club is straighter",
)
CARRY_SAYS_NOT = (
    *BALL_ONLY_SAYS_NOT,
    "which club goes further as you swing it",
    "where each club starts and curves",
    "whether another loft, launch or spin would go further",
    "what a club is worth in strokes a round",
)
ABILITIES = ("tour", "low", "mid", "high")


def may_not(record: dict[str, Any]) -> set[str]:
    for claim in record["claims"]:
        assert claim["why"], claim
    return {claim["say"] for claim in record["claims"] if not claim["may"]}


def first_balls(shots: Path, count: int) -> Path:
    out = shots.with_name(f"{shots.stem}-first.csv")
    lines = shots.read_text(encoding="utf-8").splitlines()[: 1 + count]
    out.write_text("\n".join((*lines, "")), encoding="utf-8")
    return out


def printed(cli: Cli, shots: Path) -> str:
    """Return the words of the printed pages."""
    out = shots.with_suffix(".pdf")
    outcome = cli("read", shots, "--report", out)
    assert outcome.code == 0, outcome.err
    with pypdfium2.PdfDocument(out) as document:
        pages = [page.get_textpage().get_text_range() for page in document]
    assert len(pages) == 2
    return " ".join(" ".join(pages).split())


@pytest.mark.parametrize("ability", ABILITIES)
@pytest.mark.parametrize(
    ("device", "says_not"),
    [("ball-only", BALL_ONLY_SAYS_NOT), ("speed-and-carry", CARRY_SAYS_NOT)],
)
def test_what_will_not_be_said_is_known_from_the_first_ball(
    cli: Cli, dealt: Dealt, ability: str, device: str, says_not: tuple[str, ...]
) -> None:
    shots = dealt("--device", device, "--golfer", ability)
    first = cli("read", first_balls(shots, 1), "--json")
    assert first.code == 0, first.err
    assert first.record["state"] == "too_few"
    assert may_not(first.record) >= set(says_not)
    assert may_not(first.record) >= may_not(cli("read", shots, "--json").record)


@pytest.mark.parametrize("device", ["full", "no-marks", "ball-only", "speed-and-carry"])
def test_one_ball_or_one_club_allows_no_word_on_a_difference(
    cli: Cli, dealt: Dealt, device: str
) -> None:
    shots = dealt("--device", device)
    lines = shots.read_text(encoding="utf-8").splitlines()
    own = [line for line in lines[1:] if ",Own," in line]
    for kept in (lines[1:2], own):
        shots.write_text("\n".join((lines[0], *kept, "")), encoding="utf-8")
        record = cli("read", shots, "--json").record
        assert record["state"] == "too_few"
        for claim in record["claims"]:
            if claim["say"].startswith(("which club", "what the club does")):
                assert not claim["may"]


@pytest.mark.parametrize("ability", ABILITIES)
def test_ball_data_alone_have_no_strike_and_no_same_swing(
    cli: Cli, dealt: Dealt, ability: str
) -> None:
    record = cli("read", dealt("--device", "ball-only", "--golfer", ability), "--json").record
    assert record["ranked_on"] == "as_you_swing_it"
    for club in record["clubs"]:
        assert club["from_the_same_swing"] is None
        assert club["value_yd"] is not None
    for pair in record["pairs"]:
        assert pair["parts"]["strike"] == pair["parts"]["swing"] == 0.0


def test_a_strike_that_was_not_measured_is_not_shown_as_nothing(cli: Cli, dealt: Dealt) -> None:
    shots = dealt("--device", "ball-only")
    words = " ".join(cli("read", shots).out.split())
    assert "Strike and swing were not measured" in words
    assert "strike 0.0" not in words
    paper = printed(cli, shots)
    assert "Strike and swing were not measured" in paper
    assert "the club as you swing it is worth" in paper
    assert "the club itself" not in paper


@pytest.mark.parametrize("ability", ABILITIES)
def test_speed_and_carry_are_compared_as_the_device_shows_them_with_ranges(
    cli: Cli, dealt: Dealt, ability: str
) -> None:
    shots = dealt("--device", "speed-and-carry", "--golfer", ability)
    record = cli("read", shots, "--json").record
    assert record["ranked_on"] == "device_carry"
    assert record["sentence"].startswith("Carry as this device shows it: ")
    assert record["regret_yd"] is None
    for club in record["clubs"]:
        for figure in (club["device_ball_speed_mph"], club["device_carry_yd"]):
            if club["club"] == record["own"]:
                assert figure == {"mean": 0.0, "low95": 0.0, "high95": 0.0}
            else:
                assert figure["low95"] < figure["mean"] < figure["high95"]
        for absent in ("value_yd", "value_sd_yd", "as_you_swing_it", "from_the_same_swing"):
            assert club[absent] is None
        assert club["level"] is None
        assert club["plain_total_yd"] is None
    for pair in record["pairs"]:
        assert pair["raw_total_yd"] is None
        assert pair["parts"] is None
        assert 0.5 <= pair["p_a_better"] <= 1.0


def test_speed_and_carry_give_no_advice_on_launch_loft_or_spin(cli: Cli, dealt: Dealt) -> None:
    shots = dealt("--device", "speed-and-carry")
    words, claims = cli("read", shots).out.split("What may be said:")
    assert not any(word in words.lower() for word in ("loft", "total", "fairway", "stroke"))
    not_said = " ".join(claims.split("What may not:")[1].split())
    assert "Whether another loft, launch or spin would go further" in not_said
    golfer = printed(cli, shots).split("For the fitter")[0]
    assert "loft" not in golfer.lower().replace("loftwright", "")
    assert "Measure launch and spin too" in golfer


def test_what_one_more_column_would_buy_is_said(cli: Cli, dealt: Dealt) -> None:
    further = "which club goes further as you swing it"

    def why(shots: Path) -> str:
        claims = cli("read", shots, "--json").record["claims"]
        found: str = next(claim["why"] for claim in claims if claim["say"] == further)
        return found

    both = dealt("--device", "speed-and-carry")
    assert "launch and spin, one more column each, would give the total at home" in why(both)
    full = dealt()
    header, *rows = full.read_text(encoding="utf-8").splitlines()
    spin = header.split(",").index("spin_rpm")
    blanked = [[*row.split(",")[:spin], "", *row.split(",")[spin + 1 :]] for row in rows]
    full.write_text("\n".join((header, *map(",".join, blanked), "")), encoding="utf-8")
    assert "one more column, spin, would give the total at home" in why(full)
    record = cli("read", full, "--json").record
    assert record["ranked_on"] == "device_carry"
    assert may_not(record) >= {BALL_ONLY_SAYS_NOT[0], "where each club starts and curves"}
    assert all(club["from_the_same_swing"] is None for club in record["clubs"])
