"""Tables of shots in many shapes, read to the same balls."""

import math
from dataclasses import replace
from pathlib import Path

import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.device import Origin
from loftwright.errors import IntakeError, UsageError
from loftwright.intake.doubts import DoubtsError
from loftwright.intake.own_table import HEADER
from loftwright.intake.table import ReadOptions, read_shots
from shot_tables import (
    Drive,
    Rows,
    Writer,
    adds_up,
    assert_same_launch,
    comma,
    number,
    origin_of,
    own_rows,
    sided,
)


def test_our_own_table_is_read_without_a_doubt(write: Writer, drives: list[Drive]) -> None:
    table = read_shots(write(own_rows(drives)), ReadOptions())
    assert_same_launch(table.shots, drives)
    assert adds_up(table)
    assert table.read == 24
    assert not table.warnings
    first, drive = table.shots[0], drives[0]
    assert first.row == 2
    assert first.ball == "1"
    assert first.order == 0
    assert first.strike_toe == pytest.approx(number(drive, "strike toe") / 1000.0)
    assert first.carry == pytest.approx(number(drive, "carry") * YARD)
    assert {column.column: column.origin for column in table.columns} == {
        name: Origin.ABSENT if name in {"time", "mark_set"} else Origin.MEASURED for name in HEADER
    }
    assert [column.column for column in table.columns] == list(HEADER)


def test_a_german_table_with_decimal_commas_reads_the_same(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [
        ["Nr.", "Schläger", "Ballgeschwindigkeit [km/h]", "Abflugwinkel [°]", "Spinrate [U/min]"]
    ]
    for drive in drives:
        thousands = f"{number(drive, 'spin') / 1000.0:.3f}"
        speed = comma(number(drive, "ball speed") * 1.609344, 2)
        rows.append(
            [drive["ball"], drive["club"], speed, comma(number(drive, "launch")), thousands]
        )
    path = write(rows, delimiter=";", encoding="cp1252")
    table = read_shots(path, ReadOptions())
    assert_same_launch(table.shots, drives)
    assert any("cp1252" in warning for warning in table.warnings)


def test_two_rows_of_headings_and_units_in_utf_16_read_the_same(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [
        ["Bay 3, a wet afternoon"],
        [],
        ["", "", "Ball", "", "", "Club", ""],
        ["No", "Club name", "Speed", "Launch angle", "Spin", "Speed", "Path"],
        ["", "", "[mph]", "[deg]", "[rpm]", "[mph]", "[deg]"],
    ]
    rows += [
        [d["ball"], d["club"], d["ball speed"], d["launch"], d["spin"], d["head speed"], d["path"]]
        for d in drives
    ]
    table = read_shots(write(rows, delimiter="\t", encoding="utf-16"), ReadOptions())
    assert_same_launch(table.shots, drives)
    assert table.shots[0].row == 6
    assert table.shots[0].head_speed == pytest.approx(
        number(drives[0], "head speed") * MILE_PER_HOUR
    )


def test_sides_in_letters_and_side_spin_become_signs_and_axis(
    write: Writer, drives: list[Drive]
) -> None:
    headings = "Shot,Club,Ball Speed (mph),Launch,Side angle,Back spin,Side spin,Club path"
    rows: Rows = [[*headings.split(","), "Face to path", "Strike toe-heel (mm)"]]
    for drive in drives:
        spin, axis = number(drive, "spin"), number(drive, "axis") * DEGREE
        face, path = number(drive, "face"), number(drive, "path")
        rows.append(
            [
                drive["ball"],
                drive["club"],
                drive["ball speed"],
                drive["launch"],
                sided(number(drive, "direction"), "R", "L"),
                round(spin * math.cos(axis)),
                sided(round(spin * math.sin(axis)), "R", "L"),
                sided(path, "in-out", "out-in"),
                sided(round(face - path, 1), "O", "C"),
                sided(number(drive, "strike toe"), "T", "H"),
            ]
        )
    table = read_shots(write(rows), ReadOptions())
    assert not table.warnings
    for shot, drive in zip(table.shots, drives, strict=True):
        assert shot.direction == pytest.approx(number(drive, "direction") * DEGREE)
        assert shot.spin == pytest.approx(number(drive, "spin") * REVOLUTION_PER_MINUTE, rel=1e-3)
        assert shot.axis == pytest.approx(number(drive, "axis") * DEGREE, abs=3e-4)
        assert shot.face == pytest.approx(number(drive, "face") * DEGREE)
        assert shot.path == pytest.approx(number(drive, "path") * DEGREE)
        assert shot.strike_toe == pytest.approx(number(drive, "strike toe") / 1000.0)
    sources = {column.means: column.source for column in table.columns}
    assert sources["axis"] == "back spin and side spin"
    assert sources["face"] == "face to path and path"


def test_units_that_values_alone_can_show_are_taken_and_said(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["club", "ball speed", "launch", "spin", "head speed"]]
    for drive in drives:
        ball, head = (number(drive, key) * MILE_PER_HOUR for key in ("ball speed", "head speed"))
        rows.append([drive["club"], ball, drive["launch"], drive["spin"], head])
    table = read_shots(write(rows), ReadOptions())
    assert_same_launch(table.shots, drives)
    units = {column.means: column.unit for column in table.columns}
    assert units["ball speed"] == units["head speed"] == "m/s"
    assert all("values" in c.source for c in table.columns if c.unit and c.means != "club")


def test_what_is_absent_or_blank_is_listed(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Axis (deg)", "Gizmo", ""]]
    rows += [[d["club"], d["ball speed"], "--", "ok", ""] for d in drives]
    table = read_shots(write(rows), ReadOptions())
    assert origin_of(table, "axis") is Origin.ABSENT
    assert origin_of(table, "strike toe") is Origin.ABSENT
    assert [c.column for c in table.columns][:4] == list(rows[0][:4])
    assert any("'Gizmo'" in warning for warning in table.warnings)
    assert table.shots[0].axis is None


def test_unquoted_decimal_commas_in_a_comma_table_are_named(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball Speed (mph)", "Launch", "Spin"]]
    rows += [
        [d["club"], comma(number(d, "ball speed")), comma(number(d, "launch")), d["spin"]]
        for d in drives
    ]
    with pytest.raises(IntakeError, match="decimal comma"):
        read_shots(write(rows), ReadOptions())
    quoted = [rows[0], *([f'"{cell}"' for cell in row] for row in rows[1:])]
    assert_same_launch(read_shots(write(quoted), ReadOptions()).shots, drives)


def test_head_speed_that_follows_from_ball_speed_is_called_calculated(
    write: Writer, drives: list[Drive]
) -> None:
    rows = own_rows(drives)
    for row in rows[1:]:
        assert isinstance(row[3], float)
        row[8] = round(row[3] / 1.48, 1)
        row[6] = 2500
    table = read_shots(write(rows), ReadOptions())
    assert origin_of(table, "head speed") is Origin.CALCULATED
    assert origin_of(table, "spin") is Origin.CALCULATED
    assert origin_of(table, "ball speed") is Origin.MEASURED
    told = ReadOptions(columns=("head_speed_mph=head speed[mph, measured]",))
    assert origin_of(read_shots(write(rows), told), "head speed") is Origin.MEASURED


def test_a_calculated_column_yields_to_one_that_is_not(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", "Carry (calc.) yd", "Carry yd", "Spin rpm"]]
    rows += [[d["club"], number(d, "carry") + 9, d["carry"], d["spin"]] for d in drives]
    table = read_shots(write(rows), ReadOptions())
    assert table.shots[0].carry == pytest.approx(number(drives[0], "carry") * YARD)


def test_one_quantity_in_two_units_is_read_once(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Ball speed (m/s)"]]
    rows += [
        [d["club"], d["ball speed"], round(number(d, "ball speed") * 0.44704, 1)] for d in drives
    ]
    table = read_shots(write(rows), ReadOptions())
    assert [c.means for c in table.columns][:3] == ["club", "ball speed", "ignore"]


def test_left_handed_paths_told_as_right_and_left_are_turned(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Path (deg)", "Face (right +)"]]
    rows += [
        [d["club"], d["ball speed"], sided(number(d, "path"), "R", "L"), d["face"]] for d in drives
    ]
    path = write(rows)
    right = read_shots(path, ReadOptions()).shots[5]
    left = read_shots(path, ReadOptions(hand="left")).shots[5]
    assert right.path == pytest.approx(number(drives[5], "path") * DEGREE)
    assert left.path == pytest.approx(-number(drives[5], "path") * DEGREE)
    assert left.face == pytest.approx(-number(drives[5], "face") * DEGREE)


def test_what_a_heading_says_holds_beside_what_the_user_settles(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Path (left +)", "Spin (calc.)"]]
    rows += [[d["club"], d["ball speed"], d["path"], d["spin"]] for d in drives]
    settled = ("Path (left +)=path[deg]", "Spin (calc.)=spin[rpm]")
    path = write(rows)
    table = read_shots(path, ReadOptions(columns=settled))
    assert table.shots[5].path == pytest.approx(-number(drives[5], "path") * DEGREE)
    assert origin_of(table, "spin") is Origin.CALCULATED
    other = ReadOptions(columns=("Path (left +)=face[deg]", "Spin (calc.)=spin[measured]"))
    again = read_shots(path, other)
    assert again.shots[5].face == pytest.approx(number(drives[5], "path") * DEGREE)
    assert origin_of(again, "spin") is Origin.MEASURED


@pytest.mark.parametrize(("right", "left"), [("R", "L"), ("right", "left"), ("rechts", "links")])
def test_sides_in_words_follow_the_hand_for_face_and_path_alone(
    write: Writer, drives: list[Drive], right: str, left: str
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Direction (deg)", "Path (deg)"]]
    for drive in drives:
        cells = (sided(number(drive, key), right, left) for key in ("direction", "path"))
        rows.append([drive["club"], drive["ball speed"], *cells])
    for hand, sign in (("right", 1.0), ("left", -1.0)):
        shot = read_shots(
            write(rows), ReadOptions(hand="left" if hand == "left" else "right")
        ).shots[5]
        assert shot.direction == pytest.approx(number(drives[5], "direction") * DEGREE)
        assert shot.path == pytest.approx(sign * number(drives[5], "path") * DEGREE)


def test_settled_columns_are_remembered_and_named(
    write: Writer, drives: list[Drive], tmp_path: Path
) -> None:
    rows: Rows = [["Club", "Col A", "Col B"]]
    rows += [[d["club"], d["ball speed"], d["spin"]] for d in drives]
    path, memory = write(rows), tmp_path / "data" / "mappings.toml"
    with pytest.raises(DoubtsError):
        read_shots(path, ReadOptions(mappings_path=memory))
    assert not memory.exists()
    told = ReadOptions(columns=("Col A=ball speed[mph]", "Col B=spin[rpm]"), mappings_path=memory)
    first = read_shots(path, told)
    assert any(f"remembered in {memory}" in warning for warning in first.warnings)
    again = read_shots(path, ReadOptions(mappings_path=memory))
    assert again.shots == first.shots
    (said,) = [warning for warning in again.warnings if str(memory) in warning]
    assert "Col A=ball speed[mph]; Col B=spin[rpm]" in said
    changed = ReadOptions(columns=("Col B=ignore",), mappings_path=memory)
    assert read_shots(path, changed).shots[0].spin is None
    assert read_shots(path, ReadOptions(mappings_path=memory)).shots[0].spin is None


def test_a_table_without_headings_is_not_remembered(
    write: Writer, drives: list[Drive], tmp_path: Path
) -> None:
    memory = tmp_path / "mappings.toml"
    settled = ("column 2=ball speed[mph]", "column 3=spin[rpm]")
    told = ReadOptions(columns=settled, club_column="column 1")
    path = write([[d["club"], d["ball speed"], d["spin"]] for d in drives])
    table = read_shots(path, replace(told, mappings_path=memory))
    assert any("without headings" in warning for warning in table.warnings)
    assert not memory.exists()
    with pytest.raises(DoubtsError):
        read_shots(path, ReadOptions(mappings_path=memory))


def test_a_memory_that_cannot_be_written_does_not_stop_the_reading(
    write: Writer, drives: list[Drive], tmp_path: Path
) -> None:
    (tmp_path / "data").write_text("a file in the way")
    told = ReadOptions(
        columns=("carry_yd=ignore",), mappings_path=tmp_path / "none.toml" / "x" / "m.toml"
    )
    (tmp_path / "none.toml").write_text("")
    with pytest.raises(IntakeError, match="remembered"):
        read_shots(write(own_rows(drives)), told)


def test_the_input_is_never_changed(write: Writer, drives: list[Drive], tmp_path: Path) -> None:
    path = write(own_rows(drives))
    before = path.read_bytes(), path.stat().st_mtime_ns
    path.chmod(0o444)
    read_shots(path, ReadOptions(columns=("carry_yd=ignore",), mappings_path=tmp_path / "m.toml"))
    assert (path.read_bytes(), path.stat().st_mtime_ns) == before
    assert sorted(found.name for found in tmp_path.iterdir()) == ["m.toml", path.name]


@pytest.mark.parametrize(
    ("options", "error", "says"),
    [
        (ReadOptions(columns=("Nope=spin[rpm]",)), IntakeError, "no column 'Nope'"),
        (ReadOptions(columns=("axis_deg=ignore", "axis_deg=axis")), UsageError, "settled twice"),
        (ReadOptions(club_column="Nope"), IntakeError, "no column 'Nope'"),
        (ReadOptions(only=("Nope=1",)), IntakeError, "no column 'Nope'"),
        (ReadOptions(only=("club=Zelkova",)), IntakeError, "no row has 'Zelkova'"),
        (ReadOptions(only=("club",)), UsageError, "heading=value"),
    ],
)
def test_options_that_name_nothing_in_the_file_are_errors(
    write: Writer,
    drives: list[Drive],
    options: ReadOptions,
    error: type[Exception],
    says: str,
) -> None:
    with pytest.raises(error, match=says):
        read_shots(write(own_rows(drives)), options)
