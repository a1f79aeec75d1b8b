"""Errors become exit codes and words, never a traceback."""

import json
from errno import ENOENT

import pytest
import typer

from loftwright.cli.errors import EXIT_CODES, exit_code, report
from loftwright.errors import (
    ConvergenceError,
    EvidenceError,
    InputError,
    IntakeError,
    LoftwrightError,
    MeasurementError,
    StoreError,
    UsageError,
)
from loftwright.intake.doubts import Doubt, DoubtsError


@pytest.mark.parametrize(
    ("kind", "code"),
    [
        (UsageError, 2),
        (InputError, 3),
        (MeasurementError, 3),
        (IntakeError, 4),
        (EvidenceError, 5),
        (StoreError, 6),
        (ConvergenceError, 7),
    ],
)
def test_each_kind_of_error_has_its_exit_code(kind: type[LoftwrightError], code: int) -> None:
    assert exit_code(kind("what is wrong")) == code


def test_no_two_kinds_share_a_code_and_none_is_success() -> None:
    codes = list(EXIT_CODES.values())
    assert len(set(codes)) == len(codes)
    assert 0 not in codes
    assert 1 not in codes


def test_words_name_the_place_and_the_mend(capsys: pytest.CaptureFixture[str]) -> None:
    error = InputError("a wind of 60 mph cannot be", place="wind", mend="Give 30 mph at most.")
    assert report(error, as_json=False) == 3
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err == "wind: a wind of 60 mph cannot be\nGive 30 mph at most.\n"


def test_json_errors_have_the_four_keys(capsys: pytest.CaptureFixture[str]) -> None:
    assert report(EvidenceError("too little"), as_json=True) == 5
    record = json.loads(capsys.readouterr().err)
    assert record == {
        "error": {"kind": "evidence", "message": "too little", "place": None, "mend": None}
    }


def test_doubts_are_listed_with_rows_and_the_options_that_settle_them(
    capsys: pytest.CaptureFixture[str],
) -> None:
    doubt = Doubt(
        column="Col A",
        question="'Col A' may be ball speed or head speed",
        samples=((2, "148"), (3, "151"), (4, "149")),
        options=('--column "Col A=ball speed[mph]"',),
    )
    error = DoubtsError((doubt,), place="shots.csv")
    assert report(error, as_json=False) == 4
    words = capsys.readouterr().err
    assert "'Col A' may be ball speed or head speed" in words
    assert "row 2: '148'" in words
    assert '--column "Col A=ball speed[mph]"' in words
    assert report(error, as_json=True) == 4
    record = json.loads(capsys.readouterr().err)["error"]
    assert record["kind"] == "intake"
    assert record["doubts"] == [
        {
            "question": "'Col A' may be ball speed or head speed",
            "column": "Col A",
            "samples": [
                {"row": 2, "value": "148"},
                {"row": 3, "value": "151"},
                {"row": 4, "value": "149"},
            ],
            "options": ['--column "Col A=ball speed[mph]"'],
        }
    ]


def test_a_file_that_is_not_there_is_the_files_fault(capsys: pytest.CaptureFixture[str]) -> None:
    error = FileNotFoundError(ENOENT, "No such file or directory", "shots.csv")
    assert report(error, as_json=False) == 4
    assert capsys.readouterr().err.startswith("shots.csv: No such file or directory\n")


def test_a_defect_says_so_without_a_traceback(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("LOFTWRIGHT_DEBUG", raising=False)
    assert report(ZeroDivisionError("division by zero"), as_json=False) == 1
    words = capsys.readouterr().err
    assert "failed in a way it should not: ZeroDivisionError: division by zero" in words
    assert "Please report it" in words
    assert "Traceback" not in words
    assert report(ZeroDivisionError(), as_json=True) == 1
    assert json.loads(capsys.readouterr().err)["error"]["kind"] == "defect"


def test_a_defect_shows_its_details_when_they_are_asked_for(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LOFTWRIGHT_DEBUG", "1")
    assert report(ZeroDivisionError("division by zero"), as_json=False) == 1
    assert "ZeroDivisionError: division by zero" in capsys.readouterr().err.splitlines()[0]


@pytest.mark.parametrize("error", [KeyboardInterrupt(), typer.Abort()])
def test_a_person_who_stops_is_obeyed(
    error: BaseException, capsys: pytest.CaptureFixture[str]
) -> None:
    assert report(error, as_json=False) == 130
    assert capsys.readouterr().err == "Stopped.\n"
