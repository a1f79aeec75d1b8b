"""Every example of the documentation runs and gives the figure it expects."""

import runpy
from pathlib import Path

import pytest

from pages import ROOT, name_of

EXAMPLES = sorted((ROOT / "docs" / "examples").glob("*.py"))


@pytest.mark.parametrize("path", EXAMPLES, ids=name_of)
def test_an_example_gives_the_figure_it_expects(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    example = runpy.run_path(str(path), run_name="__main__")
    assert capsys.readouterr().out.strip()
    assert example["main"]() == pytest.approx(example["EXPECTED"], rel=0.0, abs=example["WITHIN"])


@pytest.mark.parametrize("path", EXAMPLES, ids=name_of)
def test_an_example_states_its_equation_and_is_shown_on_a_page(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert "\n    " in text.split('"""')[1]
    assert "Expected: " in text
    pages = (ROOT / "docs" / "explanation").glob("*.md")
    assert any(path.name in page.read_text(encoding="utf-8") for page in pages)
