"""Build files and files of measurements as text: written from figures, read and changed."""

from collections.abc import Mapping
from typing import TypeAlias

from loftwright.domain.build_sheet import BuildSheet, MeasuredClub
from loftwright.errors import InputError
from loftwright.intake.build_files import build_of
from loftwright.intake.measured_file import measured_of
from loftwright.intake.toml_files import parse_toml

Value: TypeAlias = float | str | bool | list[str]


def toml_text(values: Mapping[str, Value], parts: tuple[Mapping[str, Value], ...] = ()) -> str:
    """Return values as text of a build file or a file of measurements.

    Parameters
    ----------
    values : mapping of str to Value
        By key with its table: ``head.mass_g``.
    parts : tuple of mappings
        The small parts of a build file.
    """
    tables: dict[str, dict[str, Value]] = {}
    for name, value in values.items():
        table, _, key = name.rpartition(".")
        tables.setdefault(table, {})[key] = value
    lines = []
    for table, told in tables.items():
        lines += ([f"[{table}]"] if table else []) + _lines(told) + [""]
    for part in parts:
        lines += ["[[parts]]", *_lines(part), ""]
    return "\n".join(lines)


def read_build_text(text: str) -> BuildSheet:
    """Return the parts and targets in text of a build file.

    Raises
    ------
    IntakeError
        If it is no TOML.
    InputError
        If a key is not known or missing, or a value cannot be; its place names the key.
    """
    return build_of(parse_toml(text.encode(), "build sheet"), "build sheet")


def read_measured_text(text: str) -> MeasuredClub:
    """Return what text of a file of measurements says.

    Raises
    ------
    IntakeError
        If it is no TOML.
    InputError
        If a key is not known, a doubt is missing or a value cannot be; its place names the key.
    """
    return measured_of(parse_toml(text.encode(), "final check"), "final check")


def told_values(text: str) -> tuple[dict[str, Value], tuple[dict[str, Value], ...]]:
    """Return the values in text by key with its table, and its small parts.

    Raises
    ------
    IntakeError
        If it is no TOML.
    """
    values: dict[str, Value] = {}
    parts: tuple[dict[str, Value], ...] = ()
    for table, told in parse_toml(text.encode(), "build sheet").items():
        if isinstance(told, dict):
            values |= {f"{table}.{key}": value for key, value in told.items()}
        elif isinstance(told, list):
            parts = tuple(dict(one) for one in told)
    return values, parts


def with_changes(text: str, changes: Mapping[str, Value]) -> str:
    """Return text of a build file with some values changed.

    Parameters
    ----------
    text : str
    changes : mapping of str to Value
        By key with its table; of a small part by its name: ``parts.ferrule.mass_g``.

    Raises
    ------
    InputError
        If a small part is not there.
    """
    values, parts = told_values(text)
    for name, value in changes.items():
        if name.startswith("parts."):
            part, _, key = name.removeprefix("parts.").rpartition(".")
            found = next((one for one in parts if one.get("name") == part), None)
            if found is None:
                raise InputError(
                    f"the sheet has no part {part!r}",
                    place=name,
                    mend="It has " + ", ".join(str(one.get("name")) for one in parts) + ".",
                )
            found[key] = value
        else:
            values[name] = value
    return toml_text(values, parts)


def _lines(told: Mapping[str, Value]) -> list[str]:
    return [f"{key} = {_written(value)}" for key, value in told.items()]


def _written(value: Value) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return "[" + ", ".join(_written(one) for one in value) + "]"
    if isinstance(value, str):
        escaped = "".join(
            f"\\u{ord(one):04x}" if ord(one) < 32 or one in '"\\\x7f' else one for one in value
        )
        return f'"{escaped}"'
    return repr(value)
