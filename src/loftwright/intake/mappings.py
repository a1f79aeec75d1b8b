"""Remembers settled columns by the form of a table's headings, in the data folder."""

from collections.abc import Sequence
from pathlib import Path
from typing import Final

from loftwright.errors import IntakeError, UsageError
from loftwright.intake.files import write_whole
from loftwright.intake.settle import Setting, read_setting
from loftwright.intake.toml_files import parse_toml

_HEADER: Final = "# Columns that were settled, by the form of the table's headings.\n"
_MEND: Final = "Mend the file, or move it away to begin anew."


def _load(path: Path) -> dict[str, list[str]]:
    """Return the remembered texts by fingerprint; a missing file remembers nothing."""
    try:
        content = parse_toml(path.read_bytes(), str(path))
    except FileNotFoundError:
        return {}
    except (OSError, IntakeError) as error:
        raise IntakeError(
            f"the remembered columns cannot be read ({error})", place=str(path), mend=_MEND
        ) from error
    entries = content.get("table", [])
    if content.keys() - {"table"} or not isinstance(entries, list):
        raise IntakeError(
            "the remembered columns hold something other than tables of headings and columns",
            place=str(path),
            mend=_MEND,
        )
    found: dict[str, list[str]] = {}
    for entry in entries:
        key = entry.get("headings") if isinstance(entry, dict) else None
        texts = entry.get("columns") if isinstance(entry, dict) else None
        good = isinstance(texts, list) and all(isinstance(text, str) for text in texts)
        if not isinstance(key, str) or not isinstance(texts, list) or not good:
            raise IntakeError(
                "an entry of the remembered columns has not the form headings, columns",
                place=str(path),
                mend=_MEND,
            )
        found[key] = texts
    return found


def recall(path: Path | None, fingerprint: str) -> tuple[Setting, ...]:
    """Return what was settled for tables of this form.

    Parameters
    ----------
    path : Path, optional
        The file; None remembers nothing.
    fingerprint : str
        Digest of the headings; empty for a table without any.

    Raises
    ------
    IntakeError
        When the file is damaged.
    """
    if path is None or not fingerprint:
        return ()
    try:
        return tuple(read_setting(text) for text in _load(path).get(fingerprint, []))
    except UsageError as error:
        raise IntakeError(
            f"a remembered column has no meaning: {error.message}", place=str(path), mend=_MEND
        ) from error


def _quoted(text: str) -> str:
    """Return a TOML basic string."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    plain = "".join(ch if ch.isprintable() or ch == " " else f"\\U{ord(ch):08X}" for ch in escaped)
    return f'"{plain}"'


def remember(path: Path, fingerprint: str, settings: Sequence[Setting]) -> bool:
    """Keep what the user settled, and return whether anything was new.

    Parameters
    ----------
    path : Path
        The file; its folder is made where it is missing.
    fingerprint : str
        Digest of the headings.
    settings : sequence of Setting
        What is settled now, what was remembered of the same table included.

    Raises
    ------
    IntakeError
        When the file is damaged or cannot be written.
    """
    table = _load(path)
    texts = [setting.text for setting in settings]
    if table.get(fingerprint) == texts:
        return False
    table[fingerprint] = texts
    blocks = [
        f"\n[[table]]\nheadings = {_quoted(key)}\ncolumns = [{', '.join(map(_quoted, found))}]\n"
        for key, found in table.items()
    ]
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise IntakeError(
            f"the data folder cannot be made ({error.strerror or error})",
            place=str(path.parent),
            mend="Name a folder that may be written in LOFTWRIGHT_DATA.",
        ) from error
    write_whole(path, (_HEADER + "".join(blocks)).encode("utf-8"))
    return True
