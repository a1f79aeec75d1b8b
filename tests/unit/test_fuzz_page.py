"""The page on broken input is made of its figures and findings, each with what brings it back."""

from dataclasses import replace
from pathlib import Path

from fuzz_page import FOUND, PAGE, ROOT, Fed, page, read_fed, read_findings

from fuzz_targets import TARGETS

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
FIRST = Fed(minutes=0.6, contents=3208, reached=137, slowest=1, found=2, day="2026-11-26")
LATER = Fed(minutes=1.0, contents=1000, reached=90, slowest=0, found=0, day="2026-11-27")


def test_the_written_page_is_the_one_that_its_figures_and_findings_give() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(read_fed(TARGETS), read_findings())


def test_a_later_run_adds_to_what_was_fed_and_says_what_is_not_mended_now() -> None:
    assert FIRST.and_then(LATER) == Fed(
        minutes=1.6, contents=4208, reached=137, slowest=1, found=0, day="2026-11-27"
    )


def test_the_page_tells_what_was_never_fed_and_what_is_not_mended() -> None:
    text = page({"feed": FIRST, "bag": Fed()}, ())
    assert "3,208 contents were fed to 1 of 2 ways in, the last on 2026-11-26." in text
    assert "\n2 are not mended." in text
    assert "| feed | 0.6 | 3,208 | 137 | 1 s | 2 |" in text
    assert "| bag | 0 | 0 | | | |" in text


def test_a_finding_without_an_input_says_that_it_was_not_replayed() -> None:
    (finding, *_) = read_findings()
    assert "| not replayed |" in page({"feed": FIRST}, [replace(finding, inputs=())])


def test_every_input_that_is_kept_belongs_to_one_finding_and_the_other_way_round() -> None:
    named = [name for one in read_findings() for name in one.inputs]
    kept = [path.relative_to(CORPUS).as_posix() for path in CORPUS.rglob("*") if path.is_file()]
    assert sorted(named) == sorted(kept), f"set {FOUND.name} and tests/corpus right"
    assert {name.partition("/")[0] for name in named} <= TARGETS.keys()


def test_the_page_of_promises_counts_ways_in_and_findings() -> None:
    told = (ROOT / "docs" / "trust.md").read_text(encoding="utf-8")
    assert f"**Figures.** {len(TARGETS)} ways in, " in told
    assert f"{len(read_findings())} kinds of findings in readers" in told
