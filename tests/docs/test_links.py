"""Links inside the repository lead somewhere."""

from pathlib import Path

import pytest

from pages import ROOT, links_of, name_of, pages


@pytest.mark.parametrize("page", pages(), ids=name_of)
def test_a_pages_links_lead_somewhere(page: Path) -> None:
    lost = []
    for link in links_of(page):
        target = link.partition("#")[0]
        if target and not (page.parent / target).exists():
            lost.append(link)
    assert lost == []


def test_every_page_of_the_documentation_is_in_a_table_of_contents() -> None:
    docs = ROOT / "docs"
    named: set[Path] = set()
    for page in docs.rglob("*.md"):
        _, *blocks = page.read_text(encoding="utf-8").split("```{toctree}\n")
        for block in blocks:
            entries = [line for line in block.partition("```")[0].splitlines() if line.strip()]
            named |= {page.parent / f"{entry}.md" for entry in entries if entry[0] != ":"}
    named = {path.resolve() for path in named}
    built = docs / "_build"
    lost = {page for page in docs.rglob("*.md") if built not in page.parents} - named
    assert lost == {docs / "index.md"}
