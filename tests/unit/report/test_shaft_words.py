"""Shafts in words: ranges, set-ups, and the reason for every figure that is not told."""

from dataclasses import replace

import pytest

from loftwright.constants import GRAM, INCH
from loftwright.domain.bench_figures import SetUp, bench_figures
from loftwright.domain.likeness import likeness
from loftwright.domain.rack import Piece
from loftwright.domain.sections import Section
from loftwright.domain.shaft_preview import Trims, preview
from loftwright.domain.sought import Liked, Near, Sought, far_from
from loftwright.physics.bench.piece import Estimate
from loftwright.report.shaft_likes import like_lines, like_record
from loftwright.report.shaft_shown import show_lines, trim_lines, trim_record
from loftwright.report.shaft_words import figure_rows, missing, ranged, swung, twisted, unseen
from shafts import a_profile, times


def one_line(lines: list[str]) -> str:
    return " ".join(" ".join(lines).split())


def test_a_figure_has_its_range_of_nine_in_ten_or_was_not_measured() -> None:
    assert ranged(Estimate(62.0 * GRAM, 1.0 * GRAM), GRAM, "g") == "62.0 g (60.4 to 63.6)"
    assert ranged(None, GRAM, "g") == "not measured"


def test_a_set_up_is_told_in_full() -> None:
    usual = SetUp()
    assert swung(usual, 1.168) == "127 mm held, 205 g on the tip, 1041 mm free"
    assert twisted(usual, 1.168) == "1.356 N m (1 lbf ft) over 1016 mm from the clamp"
    assert "lbf" not in twisted(SetUp(moment=1.0), 1.168)


def test_what_was_not_measured_has_a_reason_and_no_set_up() -> None:
    figures = bench_figures(replace(a_profile(twist=False), mass=None, mass_error=None))
    rows = dict(figure_rows(figures, SetUp()))
    assert "  its set-up" not in rows
    assert set(rows.values()) == {"not measured"}
    told = " ".join(missing(figures))
    for reason in ("no frequency and no weight", "not balanced", "not twisted"):
        assert reason in told
    assert missing(bench_figures(a_profile())) == []
    unbalanced = bench_figures(replace(a_profile(), balance=None, balance_error=None))
    assert "spread evenly" in " ".join(missing(unbalanced))


def test_sections_that_were_not_seen_are_named() -> None:
    assert unseen([]) == ""
    assert unseen([Section.TIP]).endswith("the tip.")
    text = shown(blind_from=0.95)
    assert text.startswith("Wren, 1168 mm: EI is read in the butt, the upper middle and the lower")
    assert "Not seen on the bench, and nothing is said of it: the tip." in text
    nothing = shown(blind_from=0.0)
    assert nothing.startswith("Wren, 1168 mm: no section of it was read.")


def shown(blind_from: float) -> str:
    shaft = a_profile(blind_from=blind_from)
    return one_line(show_lines("Wren", shaft, bench_figures(shaft), SetUp(), []))


def test_a_trim_tells_the_change_with_its_noise() -> None:
    found = preview(a_profile(), Trims(tip=0.5 * INCH))
    text = one_line(trim_lines("Wren", found, []))
    assert text.startswith("Wren would be 1155 mm long and swing ")
    assert " faster; noise 0." in text
    record = trim_record("Wren", found, ["mind this"])
    assert record["warnings"] == ["mind this"]
    assert preview(a_profile(), Trims(tip=0.5 * INCH)).change.length == pytest.approx(-0.0127)


def test_builds_say_what_they_do_not_do() -> None:
    bare = replace(a_profile(), butt_diameter=0.6 * INCH)
    tape = preview(bare, Trims(wraps=2, tape=1.3e-4))
    text = one_line(trim_lines("Wren", tape, []))
    assert "swing as before" in text
    assert "not the stiffness" in text
    assert "15.24 15.76 +0.52" in text
    wide = one_line(trim_lines("Wren", preview(bare, Trims(butt_diameter=0.0157, wall=1e-3)), []))
    assert "that of another shaft" in wide
    gone = one_line(trim_lines("Wren", preview(bare, Trims(tip=0.2)), []))
    assert "Nothing is left of the tip." in gone
    cut = preview(replace(bare, mass=None, mass_error=None), Trims(butt=0.02))
    assert "its frequency is not told" in one_line(trim_lines("Wren", cut, []))


def liked(factor: float, sought: Sought, noise: float = 0.01) -> Liked:
    mine, other = a_profile(noise=noise), a_profile(times(factor), noise=noise, grams=63.0)
    found = likeness(other, mine)
    near = Near(
        name="Wren 2",
        piece=Piece(id="w2", model="wren"),
        measured=other,
        likeness=found,
        far=far_from(found, sought),
        why_not="",
    )
    return Liked(name="Wren 1", sought=sought, near=(near,), untold=(), unread=())


def test_likeness_is_told_with_the_noise_of_the_bench() -> None:
    plain = one_line(like_lines(liked(1.0, Sought(shares={})), 5))
    assert plain.startswith("Wren 2 plays like Wren 1: no section differs by over 2 %")
    wanted = Sought(shares={Section.TIP: 0.1, Section.BUTT: -0.05})
    text = one_line(like_lines(liked(1.1, wanted), 5))
    assert "10 % firmer at the tip and 5 % softer at the butt" in text
    assert "No measured shaft comes nearer than +10.0 % at the butt" in text
    blurred = one_line(like_lines(liked(1.1, Sought(shares={Section.TIP: 0.1}), 0.04), 5))
    assert "10 % at the tip is no more than the bench can tell, 11 %." in blurred
    heavy = one_line(like_lines(liked(1.0, Sought(by="weight", shares={})), 5))
    assert "by weight: Wren 2, +3.0 g (noise 0.1)" in heavy
    assert "by twist: Wren 2." in one_line(
        like_lines(liked(1.0, Sought(by="twist", shares={})), 5)
    )


def test_a_rack_without_another_measured_shaft_says_so() -> None:
    alone = replace(liked(1.0, Sought(shares={})), near=(), untold=("Wren 3",))
    text = one_line(like_lines(alone, 5))
    assert text.startswith("No other measured shaft can be held against Wren 1.")
    assert "left out: Wren 3." in text
    record = like_record(alone)
    assert record["near"] == []
