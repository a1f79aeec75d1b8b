"""Files that are tables, and files that are not."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from loftwright.errors import IntakeError
from loftwright.intake.files import encodings, read_sample, records, write_whole


def test_rows_carry_the_line_they_begin_on(tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    path.write_text('a,b\n"x\ny",2\n\n3,4\n')
    found = [(row.line, row.cells) for row in records(path, "utf-8", ",")]
    assert found == [(1, ("a", "b")), (2, ("x\ny", "2")), (4, ()), (5, ("3", "4"))]


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"", "empty"),
        (b"\n\n  \n", "empty"),
        (b"\xef\xbb\xbf", "empty"),
        (b"PK\x03\x04rest", "spreadsheet"),
        (b"%PDF-1.7", "PDF"),
        (b"\x1f\x8b\x08", "compressed"),
        (b"\x89PNG\r\n", "picture"),
        (b"\n<!DOCTYPE HTML><html><body>Gateway error</body></html>", "web page"),
        (b'\xef\xbb\xbf<?xml version="1.0"?>', "marked-up"),
    ],
)
def test_other_kinds_of_file_are_told_from_tables(
    content: bytes, what: str, tmp_path: Path
) -> None:
    path = tmp_path / "t.csv"
    path.write_bytes(content)
    with pytest.raises(IntakeError, match=what):
        read_sample(path)


def test_missing_files_and_folders_are_named(tmp_path: Path) -> None:
    with pytest.raises(IntakeError, match="no such file"):
        read_sample(tmp_path / "none.csv")
    with pytest.raises(IntakeError, match="folder"):
        read_sample(tmp_path)
    with pytest.raises(IntakeError, match="cannot be read"):
        read_sample(Path("a\x00b"))


@pytest.mark.skipif(os.name == "nt", reason="another system of rights")
def test_a_file_without_the_right_to_read_it_is_named(tmp_path: Path) -> None:
    """Root may read everything, so another user tries."""
    path = tmp_path / "t.csv"
    path.write_text("a,b\n")
    path.chmod(0)
    if os.geteuid() != 0:
        with pytest.raises(IntakeError, match="may not be read"):
            read_sample(path)
        return
    for folder in (tmp_path, *tmp_path.parents):
        if folder != Path("/"):
            folder.chmod(folder.stat().st_mode | 0o055)
    code = (
        "import os, sys; from pathlib import Path\n"
        "from loftwright.errors import IntakeError\n"
        "from loftwright.intake.files import read_sample\n"
        "os.setuid(65534)\n"
        "try: read_sample(Path(sys.argv[1]))\n"
        "except IntakeError as error: print(error)\n"
    )
    told = subprocess.run(
        [sys.executable, "-c", code, str(path)], capture_output=True, text=True, check=True
    )
    assert "may not be read" in told.stdout


def test_encodings_are_told_by_mark_and_bytes(tmp_path: Path) -> None:
    assert encodings("é".encode("utf-8-sig"), tmp_path) == ("utf-8-sig",)
    assert encodings("ball,speed".encode("utf-16"), tmp_path) == ("utf-16",)
    assert encodings("ball,speed".encode("utf-16-le"), tmp_path) == ("utf-16-le",)
    assert encodings("ball,speed".encode("utf-16-be"), tmp_path) == ("utf-16-be",)
    assert encodings("Schläger".encode(), tmp_path) == ("utf-8",)
    assert encodings("Schläger".encode("cp1252"), tmp_path)[0] == "cp1252"
    with pytest.raises(IntakeError, match="NUL"):
        encodings(b"ball,\x00speed,launch,spin", tmp_path)


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"a,b\n" + b"1" * 70_000, "longer than"),
        (b'a,b\n"' + b"1,\n" * 60_000, "quotation mark"),
        (b"a,b\n" + b"," * 500, "cells"),
        (b"a,b\n" + b"x" * 5_000, "characters"),
        (b"a,b\n1,\x002\n", "NUL"),
        (b"\n" * 500_001, "lines"),
    ],
)
def test_rows_beyond_a_tables_bounds_are_refused_by_name(
    content: bytes, what: str, tmp_path: Path
) -> None:
    path = tmp_path / "t.csv"
    path.write_bytes(content)
    with pytest.raises(IntakeError, match=what):
        list(records(path, "utf-8", ","))


def test_a_byte_of_another_encoding_is_named_by_its_row(tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    path.write_bytes(b"a,b\n1,2\n" + "Käfer,3\n".encode("cp1252"))
    with pytest.raises(IntakeError, match="row 3 holds a byte that is not UTF-8") as caught:
        list(records(path, "utf-8", ","))
    assert "UTF-8" in caught.value.mend
    assert len(list(records(path, "cp1252", ","))) == 3


def test_digits_that_a_spreadsheet_guards_are_plain_cells(tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    path.write_text('a,b,c\n="148.2","=""Ash""", ="" \n')
    assert list(records(path, "utf-8", ","))[1].cells == ("148.2", "Ash", "")


def test_a_file_is_written_whole_or_not_at_all(tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    write_whole(path, b"one")
    write_whole(path, b"two")
    assert path.read_bytes() == b"two"
    assert [found.name for found in tmp_path.iterdir()] == ["t.csv"]
    with pytest.raises(IntakeError, match="cannot be written"):
        write_whole(tmp_path / "none" / "t.csv", b"one")
    (tmp_path / "file").write_bytes(b"in the way")
    with pytest.raises(IntakeError, match="Not a directory"):
        write_whole(tmp_path / "file" / "t.csv", b"one")
