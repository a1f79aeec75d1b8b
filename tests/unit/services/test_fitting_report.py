"""What leaves a fitting: the report, and its balls as a table that can be read again."""

from dataclasses import replace
from pathlib import Path

import pytest

from demos import a_demo
from loftwright.domain.acts import Closed, OddBall, StripChanged, Vetoed
from loftwright.errors import EvidenceError
from loftwright.intake.doubts import DoubtsError
from loftwright.intake.options import ReadOptions
from loftwright.intake.table import read_shots
from loftwright.services.acting import act
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.evidence import Desk
from loftwright.services.fitting_report import (
    conditions_of,
    file_name,
    final_decision,
    report_content,
    report_pdf,
    shots_table,
)
from loftwright.services.studio import Studio
from loftwright.services.virtual_bay import virtual_ball
from studios import Clock, studio_in_memory


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def demo(studio: Studio) -> DemoStudio:
    return a_demo(studio)


def bay_of(studio: Studio, fitting: str) -> BayNow:
    return bay_now(studio, Desk(), fitting)


def test_the_report_bears_the_day_of_the_visit_and_its_people(
    studio: Studio, demo: DemoStudio
) -> None:
    bay = bay_of(studio, demo.finished)
    decision = final_decision(Desk(), bay)
    assert decision is not None
    content = report_content(bay, decision)
    assert content.title == "Driver fitting for Rosalind Quickly (invented), 19 November 2026"
    assert content.fitter == "Barnaby Quill (invented)"
    assert content.studio == "The Lantern Bay (invented)"
    assert (content.counts, content.listed) == (
        "ball",
        "on the fitting\N{RIGHT SINGLE QUOTATION MARK}s page Evidence",
    )
    assert content.conditions == (
        "Measured by Bay meter (invented).",
        "premium, new; tee 40 mm; mat; indoors; face: spray.",
        "Invented: every ball here is a virtual golfer's.",
    )


def test_a_closed_fitting_is_printed_alike_at_any_hour(
    studio: Studio, demo: DemoStudio, clock: Clock
) -> None:
    first = report_pdf(Desk(), bay_of(studio, demo.finished))
    clock.forward(60.0 * 24 * 30)
    again = report_pdf(Desk(), bay_of(studio, demo.finished))
    assert first.startswith(b"%PDF")
    assert first == again


def test_nothing_is_printed_of_no_balls(studio: Studio, demo: DemoStudio) -> None:
    opened = studio.store.fitting(demo.finished).value
    studio.store.open_fitting(replace(opened, id="fresh"))
    with pytest.raises(EvidenceError, match="nothing to report yet") as refused:
        report_pdf(Desk(), bay_of(studio, "fresh"))
    assert "Hit two clubs twice" in refused.value.mend


def test_a_condition_that_changed_is_told_in_order(studio: Studio, demo: DemoStudio) -> None:
    strip = bay_of(studio, demo.in_progress).now.strip
    act(studio, demo.in_progress, [StripChanged(strip=replace(strip, ball="range"))])
    virtual_ball(studio, demo.in_progress)
    lines = conditions_of(bay_of(studio, demo.in_progress))
    assert any(line.startswith("premium, new then range;") for line in lines)


def test_the_table_gives_the_same_balls_when_it_is_read_again(
    studio: Studio, demo: DemoStudio, tmp_path: Path
) -> None:
    act(studio, demo.in_progress, [Vetoed(club="Cedar")])
    first = bay_of(studio, demo.in_progress).now.balls[0]
    act(studio, demo.in_progress, [OddBall(ball=first.sequence)])
    now = bay_of(studio, demo.in_progress).now
    path = tmp_path / "shots.csv"
    path.write_text(shots_table(now), "utf-8")
    table = read_shots(path, ReadOptions())
    assert table.read == 23
    assert [shot.club for shot in table.shots] == [swing.club for swing in now.balls]
    assert not table.refused
    for shot, swing in zip(table.shots, now.balls, strict=True):
        assert swing.numbers is not None
        assert shot.spin == pytest.approx(swing.numbers.spin, abs=0.06)
        assert (shot.strike_toe is None) == (swing.mark is None)


def test_every_reading_stays_in_the_longer_table(
    studio: Studio, demo: DemoStudio, tmp_path: Path
) -> None:
    now = bay_of(studio, demo.in_progress).now
    path = tmp_path / "readings.csv"
    path.write_text(shots_table(now, every=True), "utf-8")
    with pytest.raises(DoubtsError, match="names no club in 5 of 28 rows"):
        read_shots(path, ReadOptions())
    settled = ReadOptions(columns=("club=club[blank refused]",))
    table = read_shots(path, settled)
    assert [shot.club for shot in table.shots] == [swing.club for swing in now.balls]
    assert {refusal.why for refusal in table.refused} == {"names no club"}


def test_names_of_files_are_plain_and_name_nobody_unasked(
    studio: Studio, demo: DemoStudio
) -> None:
    bay = bay_of(studio, demo.finished)
    assert file_name(bay, "shots", "csv") == "shots-2026-11-19.csv"
    named = file_name(bay, "fitting", "pdf", named=True)
    assert named == "fitting-2026-11-19-rosalind-quickly-invented.pdf"
    odd = replace(bay, name='../..\\"Zoë\r\nX-Header: 1 ' + "ß漢" * 80)
    assert file_name(odd, "fitting", "pdf", named=True) == "fitting-2026-11-19-zoe-x-header-1.pdf"


def test_an_open_fitting_still_names_the_next_club(studio: Studio, demo: DemoStudio) -> None:
    bay = bay_of(studio, demo.in_progress)
    found = final_decision(Desk(), bay)
    assert found is not None
    assert found.next_club == bay.proposed
    act(studio, demo.in_progress, [Closed()])
    closed = final_decision(Desk(), bay_of(studio, demo.in_progress))
    assert closed is not None
    assert closed.next_club is None
