"""The pages of the documentation as tests read them: quoted commands and links."""

import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parents[1]
TOP_PAGES: Final = ("README.md", "CONTRIBUTING.md", "SECURITY.md", "CHANGELOG.md")
ELIDED: Final = "…"

_FENCE: Final = re.compile(r"^```console\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_LINK: Final = re.compile(r"\[[^\]]*\]\(([^)\s]+)\)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Quoted:
    """A command as a page quotes it, and the lines it is said to print."""

    words: tuple[str, ...]
    lines: tuple[str, ...]


def pages() -> list[Path]:
    """Return every page that is written by hand."""
    written = [ROOT / name for name in TOP_PAGES]
    docs = ROOT / "docs"
    return written + sorted(
        path
        for path in docs.rglob("*.md")
        if not {"_build", "truth"}.intersection(path.relative_to(docs).parts)
    )


def name_of(path: Path) -> str:
    """Return a page's path in the repository."""
    return str(path.relative_to(ROOT))


def commands_of(page: Path) -> list[Quoted]:
    """Return the commands of a page's console blocks, in order."""
    text = page.read_text(encoding="utf-8")
    return [quoted for block in _FENCE.findall(text) for quoted in _commands(block)]


def _commands(block: str) -> Iterator[Quoted]:
    for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
        lines = part.rstrip("\n").split("\n")
        command = lines.pop(0)
        while command.endswith("\\"):
            command = command.removesuffix("\\") + lines.pop(0)
        yield Quoted(words=tuple(shlex.split(command)), lines=tuple(lines))


def links_of(page: Path) -> list[str]:
    """Return where a page's links lead, without those to other machines."""
    text = re.sub(r"^```.*?^```$", "", page.read_text("utf-8"), flags=re.MULTILINE | re.DOTALL)
    return [link for link in _LINK.findall(text) if "://" not in link]


def shows(lines: tuple[str, ...], printed: list[str]) -> bool:
    """Return whether lines were printed as quoted; an ellipsis stands for any lines between."""
    parts: list[list[str]] = [[]]
    for line in lines:
        if line.strip() == ELIDED:
            parts.append([])
        else:
            parts[-1].append(line.rstrip())
    said = [line.rstrip() for line in printed]
    if len(parts) == 1:
        return parts[0] == said
    first, *between, last = parts
    if said[: len(first)] != first or (last and said[-len(last) :] != last):
        return False
    place = len(first)
    for part in between:
        found = [at for at in range(place, len(said)) if said[at : at + len(part)] == part]
        if not found:
            return False
        place = found[0] + len(part)
    return place <= len(said) - len(last)
