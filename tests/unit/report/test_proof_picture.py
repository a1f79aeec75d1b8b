import re

import pytest

from loftwright.report.proof_picture import ProofMark, ProofRow, proof_picture, proof_words

ROWS = [
    ProofRow(
        name="Total",
        marks=(
            ProofMark(said=0.5, held=0.47, error=0.02),
            ProofMark(said=0.8, held=0.79, error=0.015),
            ProofMark(said=0.95, held=1.0, error=0.01),
        ),
    ),
    ProofRow(name="Spin", marks=(ProofMark(said=0.8, held=0.6),)),
]


def place_of(svg: str, words: str) -> float:
    found = re.search(rf'x="([\d.]+)"[^>]*>{words}</text>', svg)
    assert found is not None
    return float(found.group(1))


def test_a_dot_stands_at_the_share_that_a_range_held() -> None:
    svg = proof_picture(ROWS, title="Proof")
    dots = [float(x) for x in re.findall(r'<circle cx="([\d.]+)"', svg)]
    left, right = place_of(svg, "0"), place_of(svg, "100")
    shares = [(x - left) / (right - left) for x in dots]
    assert shares == pytest.approx([0.47, 0.79, 1.0, 0.6], abs=1e-3)


def test_an_upright_stands_at_what_a_range_was_to_hold() -> None:
    svg = proof_picture(ROWS, title="Proof")
    left, right = place_of(svg, "0"), place_of(svg, "100")
    for share in (50, 80, 95):
        x = place_of(svg, f"{share} %")
        assert (x - left) / (right - left) == pytest.approx(share / 100.0, abs=1e-3)
        assert f"M{x:.1f} " in svg


def test_the_line_of_doubt_stays_on_the_rule_and_is_left_out_where_nobody_knows_it() -> None:
    svg = proof_picture(ROWS, title="Proof")
    ends = [float(x) for x in re.findall(r'd="M[\d.]+ [\d.]+H([\d.]+)M', svg)]
    assert len(ends) == 3
    assert max(ends) == pytest.approx(place_of(svg, "100"))


def test_the_words_say_what_the_picture_shows() -> None:
    words = proof_words(ROWS)
    assert "Total: 47 % in the 50 % range, 79 % in the 80 % range" in words
    assert "Spin: 60 % in the 80 % range." in words
