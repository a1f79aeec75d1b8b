"""The commands that pages quote are run, and print what the pages say they print."""

from pathlib import Path

import pytest

from commands import Cli
from pages import Quoted, commands_of, name_of, pages, shows

QUOTING = [page for page in pages() if commands_of(page)]


def run_quoted(quoted: Quoted, cli: Cli, code: int) -> tuple[list[str], int]:
    """Run one quoted command in the folder the test is in; return its lines and exit code."""
    program, *words = quoted.words
    if program == "echo":
        assert words == ["$?"]
        return [str(code)], 0
    if program == "cat":
        path = Path(words[0])
        if not path.exists():
            path.write_text("\n".join(quoted.lines) + "\n", encoding="utf-8")
        return path.read_text(encoding="utf-8").splitlines(), 0
    assert program.removeprefix(".venv/bin/") == "loftwright"
    outcome = cli(*words)
    return (outcome.out + outcome.err).splitlines(), outcome.code


@pytest.mark.parametrize("page", QUOTING, ids=name_of)
def test_a_page_prints_what_it_quotes(
    page: Path, cli: Cli, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    code = 0
    told = True
    for quoted in commands_of(page):
        asks = quoted.words[0] == "echo"
        assert told or asks, "a command failed and the page does not say so with `echo $?`"
        printed, code = run_quoted(quoted, cli, code)
        told = code == 0
        assert shows(quoted.lines, printed), "\n".join((" ".join(quoted.words), *printed))


def test_the_readme_quotes_every_command() -> None:
    readme = next(page for page in pages() if page.name == "README.md")
    used = {" ".join(quoted.words[1:3]) for quoted in commands_of(readme)}
    for command in ("read", "plan", "flight", "impact", "training deal", "demo"):
        assert any(words.startswith(command) for words in used), command
