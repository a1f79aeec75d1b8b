"""Notes and pages keep the form that readers rely on."""

import re
from dataclasses import fields
from pathlib import Path

import pytest

from loftwright.domain.shot import Shot
from loftwright.intake.quantities import QUANTITIES
from pages import ROOT, name_of

DOCS = ROOT / "docs"
NOTES = sorted((DOCS / "decisions").glob("[0-9]*.md"))
EXPLANATIONS = sorted(set((DOCS / "explanation").glob("*.md")) - {DOCS / "explanation/index.md"})
ANSWERS = (
    "**Question.**",
    "**Decision.**",
    "**Evidence.**",
    "**What we give up.**",
    "**What would change our mind.**",
)
A_PAGE = 40
TITLE = re.compile(r"# (\d+)\. \w.*")


@pytest.mark.parametrize("note", NOTES, ids=name_of)
def test_a_decision_note_answers_five_questions_on_a_page(note: Path) -> None:
    text = note.read_text(encoding="utf-8")
    places = [text.find(f"\n{answer}") for answer in ANSWERS]
    assert -1 not in places
    assert places == sorted(places)
    assert len(text.splitlines()) <= A_PAGE


def test_decision_notes_are_numbered_without_a_gap() -> None:
    titles = [TITLE.match(note.read_text(encoding="utf-8")) for note in NOTES]
    numbers = [int(title[1]) for title in titles if title is not None]
    assert numbers == list(range(1, len(NOTES) + 1))
    assert numbers == [int(note.name[:4]) for note in NOTES]


@pytest.mark.parametrize("page", EXPLANATIONS, ids=name_of)
def test_an_explanation_asks_a_question_and_says_how_its_answer_was_checked(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    assert "\n**Question.**" in text
    if page.stem != "training":  # itself the check of the others
        assert "\n## How it is checked\n" in text or "\n**Check.**" in text


def test_every_quantity_of_a_shot_has_its_name_unit_and_sign_in_the_nomenclature() -> None:
    page = (DOCS / "nomenclature.md").read_text(encoding="utf-8")
    numbers = {one.name.replace("_", " ") for one in fields(Shot) if "float" in str(one.type)}
    assert numbers <= set(QUANTITIES)
    rows = [line.split("|")[1] for line in page.splitlines() if line.startswith("| ")]
    named = {name.strip() for row in rows for name in row.split(",")}
    assert numbers - named == set()
