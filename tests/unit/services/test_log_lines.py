"""A line of the log holds what the program wrote itself and known fields, and nothing else."""

import logging
import sqlite3
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy.exc import OperationalError

from loftwright.errors import InputError
from loftwright.services.log_lines import (
    FIELDS,
    WITHHELD,
    is_line,
    lines_of,
    place_of,
    told,
    trace_of,
)
from loftwright.services.log_sentences import LOST, UNMADE, logged_in, sentences, sentences_of
from loftwright.units import parse_quantity

AT = datetime(2026, 11, 25, 12, 0, 0, 250_000, tzinfo=UTC)
NAME = "Ottoline Brambleby"
SOURCE = Path(__file__).resolve().parents[3] / "src" / "loftwright"


def a_record(
    message: str, *filled: object, who: str = "loftwright.web.journal", **fields: object
) -> logging.LogRecord:
    module = str(SOURCE / "/".join(who.split(".")[1:])) + ".py"
    made = logging.LogRecord(who, logging.WARNING, module, 7, message, filled, None)
    made.told = told(**fields)["told"]
    return made


def test_a_line_bears_the_studio_s_instant_its_sentence_and_its_fields() -> None:
    record = a_record("a request was refused", request="4821-9035", status=404)
    assert lines_of(record, AT) == [
        "2026-11-25T12:00:00.250Z WARNING loftwright.web.journal: a request was refused | "
        "request=4821-9035 status=404"
    ]


def test_what_a_sentence_would_be_filled_with_is_left_out() -> None:
    said = "the next ball of fitting %s could not be predicted"
    (line,) = lines_of(a_record(said, NAME, who="loftwright.services.predicting"), AT)
    assert line.endswith("predicting: the next ball of fitting … could not be predicted")


@pytest.mark.parametrize(
    "message", [NAME, f"kept {NAME}", "ball\n2026 INFO", "100% | x=y", "", "started"]
)
def test_a_sentence_that_its_module_does_not_hold_is_withheld(message: str) -> None:
    (line,) = lines_of(a_record(message), AT)
    assert line.endswith(f": {WITHHELD}")


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("route", f"/golfers/{NAME}"),
        ("route", "/golfers/7d0c-9"),
        ("route", "/golfers/Ottoline"),
        ("kind", NAME),
        ("request", "48219035"),
        ("device", NAME),
        ("file", "ottoline.csv"),
        ("count", "many"),
        ("version", "0.1 Ottoline"),
    ],
)
def test_a_value_that_does_not_fit_its_field_is_withheld(field: str, value: str) -> None:
    (line,) = lines_of(a_record("a request was refused", **{field: value}), AT)
    assert line.endswith(f"{field}={WITHHELD}")
    assert is_line(line)


def test_a_field_of_no_known_name_is_left_out() -> None:
    (line,) = lines_of(a_record("a request was refused", golfer=NAME, note=NAME, status=404), AT)
    assert line.endswith("| status=404")


def test_what_another_library_says_is_only_placed() -> None:
    record = a_record("GET /golfers/%s", NAME, who="uvicorn.error")
    assert lines_of(record, AT) == ["2026-11-25T12:00:00.250Z WARNING uvicorn.error | at=error:7"]


def test_a_traceback_says_where_and_what_kind_but_no_value() -> None:
    def full(name: str) -> None:
        raise sqlite3.OperationalError(f"no room for {name}")

    def deep(name: str) -> None:
        try:
            full(name)
        except sqlite3.OperationalError as error:
            raise InputError(f"{name} cannot be", place=name) from error

    with pytest.raises(InputError) as raised:
        deep(NAME)
    lines = trace_of(raised.value)
    assert lines[0] == "  raised loftwright.errors.InputError"
    assert "  because of sqlite3.OperationalError" in lines
    assert any(line.endswith(" deep") for line in lines)
    assert "Ottoline" not in "\n".join(lines)
    assert all(is_line(line) for line in lines)


def test_the_code_of_a_full_disk_is_told() -> None:
    inner = sqlite3.OperationalError("database or disk is full")
    inner.sqlite_errorname = "SQLITE_FULL"
    outer = OperationalError("INSERT", {"name": NAME}, inner)
    assert trace_of(outer)[0] == "  raised sqlalchemy.exc.OperationalError SQLITE_FULL"
    assert trace_of(OSError(28, NAME, NAME))[0] == "  raised builtins.OSError ENOSPC"


def test_an_error_of_a_local_class_is_told_too() -> None:
    class Local(Exception):
        pass

    assert trace_of(Local(NAME))[0].endswith(".locals.Local")


def test_a_long_chain_of_errors_ends() -> None:
    first = error = ValueError(NAME)
    for _ in range(40):
        error.__cause__ = ValueError(NAME)
        error = error.__cause__
    assert len(trace_of(first)) == 6


def test_the_place_of_an_error_is_in_our_own_source() -> None:
    with pytest.raises(InputError) as raised:
        parse_quantity("no number", "yd", place="carry")
    assert place_of(raised.value) == f"loftwright.units:{line_of(raised.value)}"
    assert place_of(InputError("never raised")) is None


def line_of(error: BaseException) -> int:
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    assert trace is not None
    return trace.tb_lineno


@pytest.mark.parametrize(
    "line",
    [
        f"2026-11-25T12:00:00.250Z INFO loftwright.x: stopped | golfer={NAME}",
        "2026-11-25T12:00:00.250Z INFO loftwright.x: stopped | route=/golfers/Ottoline",
        f"{NAME} called",
        f"  raised builtins.ValueError: {NAME}",
        f"    loftwright.x:7 deep('{NAME}')",
        "",
    ],
)
def test_a_line_of_another_form_is_known_as_such(line: str) -> None:
    assert not is_line(line)


def test_every_call_of_a_log_gives_a_sentence_that_stands_in_the_source() -> None:
    """Words put together while the program runs could hold a name."""
    calls = []
    for module in SOURCE.rglob("*.py"):
        text = module.read_text(encoding="utf-8")
        if "getLogger(" not in text:
            continue
        said = sum(text.count(f" log.{level}(") for level in ("info", "warning", "error"))
        said += sum(text.count(f" log.{level}(") for level in ("exception", "critical", "log"))
        calls.append((module.name, said, len(list(logged_in(text)))))
    assert len(calls) >= 10
    assert [one for one in calls if one[1] != one[2]] == []


def test_every_sentence_of_the_source_is_one_that_a_line_may_hold() -> None:
    assert {"started", "stopped", "a request was refused", LOST, UNMADE} <= sentences()
    for module in SOURCE.rglob("*.py"):
        who = ".".join(("loftwright", *module.relative_to(SOURCE).with_suffix("").parts))
        for said in sentences_of(str(module)):
            (line,) = lines_of(a_record(said, who=who), AT)
            assert line.endswith(f": {said}"), said


def test_no_field_s_pattern_lets_a_space_or_a_line_in() -> None:
    for name, pattern in FIELDS.items():
        assert pattern.fullmatch("Ottoline Brambleby") is None, name
        assert pattern.fullmatch("a\nb") is None, name
