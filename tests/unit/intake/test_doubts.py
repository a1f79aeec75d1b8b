"""What a table leaves open is asked, with samples and the options that settle it."""

import random
import shlex
from dataclasses import replace
from pathlib import Path

import pytest

from loftwright.domain.shot import ShotTable
from loftwright.errors import IntakeError
from loftwright.intake.doubts import Doubt, DoubtsError, quoted_option
from loftwright.intake.own_table import HEADER
from loftwright.intake.table import ReadOptions, read_shots
from shot_tables import Drive, Rows, Writer, invent_drives, number, own_rows


def doubts_of(path: Path, options: ReadOptions | None = None) -> tuple[Doubt, ...]:
    with pytest.raises(DoubtsError) as caught:
        read_shots(path, options or ReadOptions())
    for doubt in caught.value.doubts:
        assert doubt.question in str(caught.value)
        assert all(option in str(caught.value) for option in doubt.options)
        assert doubt.options
    return caught.value.doubts


def settled(path: Path, *options: str, base: ReadOptions | None = None) -> ShotTable:
    """Read with options as they are printed, each typed on a command line."""
    chosen = base or ReadOptions()
    for option in options:
        name, value = shlex.split(option)
        if name == "--column":
            chosen = replace(chosen, columns=(*chosen.columns, value))
        elif name == "--only":
            chosen = replace(chosen, only=(*chosen.only, value))
        else:
            assert name == "--club-column"
            chosen = replace(chosen, club_column=value)
    return read_shots(path, chosen)


def table(drives: list[Drive], **columns: str) -> Rows:
    """Return a table with these headings for these keys of a drive."""
    rows: Rows = [list(columns.values())]
    rows += [[drive[key.replace("_", " ")] for key in columns] for drive in drives]
    return rows


def test_unknown_headings_are_asked_with_three_rows_and_an_option(
    write: Writer, drives: list[Drive]
) -> None:
    path = write(table(drives, ball_speed="Col A", spin="Col B", club="Club"))
    first, second = doubts_of(path)
    assert first.column == "Col A"
    assert [row for row, _ in first.samples] == [2, 3, 4]
    assert first.options[0] == '--column "Col A=ball speed[mph]"'
    assert second.options[0] == '--column "Col B=spin[rpm]"'
    assert settled(path, first.options[0], second.options[0]).shots[0].ball_speed is not None


def test_a_speed_that_could_be_the_heads_is_asked_with_both_meanings(
    write: Writer, drives: list[Drive]
) -> None:
    path = write(table(drives, club="Club", head_speed="Col A", spin="Spin (rpm)"))
    (doubt,) = doubts_of(path)
    assert doubt.options[:2] == (
        '--column "Col A=ball speed[mph]"',
        '--column "Col A=head speed[mph]"',
    )
    known = write(
        table(drives, club="Club", head_speed="Head speed (mph)", ball_speed="Col B", spin="Spin")
    )
    (doubt,) = doubts_of(known)
    assert not any("head speed" in option for option in doubt.options)


def test_a_table_without_headings_is_asked_by_place(write: Writer, drives: list[Drive]) -> None:
    path = write(table(drives, club="", ball_speed="", launch="", spin="")[1:])
    found = doubts_of(path)
    assert {doubt.column for doubt in found} == {f"column {n}" for n in (1, 2, 3, 4)}
    read = settled(path, *(doubt.options[0] for doubt in found))
    assert len(read.shots) == 24
    assert read.shots[0].row == 1
    assert read.shots[0].club == drives[0]["club"]


def test_columns_of_no_use_are_not_asked_about(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    rows = [
        [*row, extra] for row, extra in zip(rows, ["Battery", *range(99, 75, -1)], strict=True)
    ]
    assert len(read_shots(write(rows), ReadOptions()).shots) == 24


def test_an_open_word_is_asked(write: Writer, drives: list[Drive]) -> None:
    path = write(table(drives, club="Club", ball_speed="Speed (mph)", spin="Spin (rpm)"))
    (doubt,) = doubts_of(path)
    assert "ball speed or head speed" in doubt.question
    assert settled(path, doubt.options[0]).shots[0].ball_speed is not None


def test_kilometres_an_hour_under_a_miles_heading_are_asked(
    write: Writer, drives: list[Drive]
) -> None:
    rows = own_rows(drives)
    for row in rows[1:]:
        row[3], row[8] = float(str(row[3])) * 1.609344, float(str(row[8])) * 1.609344
    path = write(rows)
    ball, head = doubts_of(path)
    assert "as km/h they fit" in ball.question
    read = settled(path, ball.options[0], head.options[0])
    assert read.shots[0].ball_speed == pytest.approx(number(drives[0], "ball speed") * 0.44704)


@pytest.mark.parametrize("told", ["mph", "km/h"])
def test_metres_a_second_under_another_heading_are_asked(
    write: Writer, drives: list[Drive], told: str
) -> None:
    rows: Rows = [["Club", f"Ball speed ({told})"]]
    rows += [[d["club"], f"{number(d, 'ball speed') * 0.44704:.1f}"] for d in drives]
    path = write(rows)
    (doubt,) = doubts_of(path)
    assert "slow for a drive; as m/s they fit" in doubt.question
    drive, child = (settled(path, option).shots[0].ball_speed for option in doubt.options[:2])
    assert drive == pytest.approx(number(drives[0], "ball speed") * 0.44704, rel=1e-3)
    assert child is not None
    assert 15.0 < child < 35.0


def test_a_slow_golfer_is_not_taken_for_a_wrong_unit(write: Writer, drives: list[Drive]) -> None:
    """Head speed 75 mph: balls of 108 mph, in three units."""
    for unit, size in (("mph", 1.0), ("km/h", 1.609344), ("m/s", 0.44704)):
        rows: Rows = [["Club", f"Ball speed ({unit})"]]
        rows += [[d["club"], f"{number(d, 'ball speed') * 0.73 * size:.1f}"] for d in drives]
        assert len(read_shots(write(rows), ReadOptions()).shots) == 24


def test_slow_kilometres_an_hour_contradict_the_carry(write: Writer, drives: list[Drive]) -> None:
    """A ball of 108 mph told as 174 'mph' could be a tour drive, were it not for its carry."""
    rows: Rows = [["Club", "Ball speed (mph)", "Carry (yd)"]]
    rows += [
        [d["club"], f"{number(d, 'ball speed') * 0.73 * 1.609344:.1f}", number(d, "carry") * 0.7]
        for d in drives
    ]
    path = write(rows)
    (doubt,) = doubts_of(path)
    assert "cannot both have the units" in doubt.question
    assert '--column "Ball speed (mph)=ball speed[km/h]"' in doubt.options
    assert settled(path, '--column "Ball speed (mph)=ball speed[km/h]"').shots


def test_a_speed_that_fits_two_units_is_asked_unless_the_carry_tells(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed", "Carry (m)"]]
    rows += [
        [d["club"], f"{number(d, 'ball speed') * 0.73 * 1.609344:.1f}", number(d, "carry") * 0.64]
        for d in drives
    ]
    (doubt,) = doubts_of(write([row[:2] for row in rows]))
    assert doubt.options[:2] == (
        '--column "Ball speed=ball speed[mph]"',
        '--column "Ball speed=ball speed[km/h]"',
    )
    read = read_shots(write(rows), ReadOptions())
    assert {c.unit for c in read.columns if c.means == "ball speed"} == {"km/h"}


def test_yards_and_metres_of_carry_are_asked(write: Writer, drives: list[Drive]) -> None:
    path = write(table(drives, club="Club", ball_speed="Ball speed (mph)", carry="Carry"))
    (doubt,) = doubts_of(path)
    assert doubt.options[0] == '--column "Carry=carry[yd]"'
    assert settled(path, doubt.options[-1]).shots[0].carry is None


@pytest.mark.parametrize("key", ["strike_toe", "strike_high"])
def test_inches_under_a_heading_of_millimetres_are_asked(
    write: Writer, drives: list[Drive], key: str
) -> None:
    rows = table(drives, club="Club", ball_speed="Ball speed (mph)", **{key: f"{key} (mm)"})
    for row in rows[1:]:
        row[2] = round(float(str(row[2])) / 25.4, 2)
    (doubt,) = doubts_of(write(rows))
    assert "as in or cm they fit" in doubt.question or "as in they fit" in doubt.question


def test_inches_and_centimetres_of_marks_are_asked(write: Writer, drives: list[Drive]) -> None:
    rows = table(drives, club="Club", ball_speed="Ball speed (mph)", strike_toe="Strike toe")
    for row in rows[1:]:
        row[2] = float(str(row[2])) / 25.4
    (doubt,) = doubts_of(write(rows))
    assert '--column "Strike toe=strike toe[in]"' in doubt.options


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize(
    ("key", "column", "sign"),
    [
        ("strike_toe_mm", "strike toe", "heel +"),
        ("face_deg", "face", "closed +"),
        ("path_deg", "path", "out-to-in +"),
        ("axis_deg", "axis", "left +"),
        ("strike_high_mm", "strike high", "low +"),
    ],
)
def test_a_mirrored_column_is_asked_and_settled(
    write: Writer, drives: list[Drive], hand: str, key: str, column: str, sign: str
) -> None:
    rows = own_rows(drives)
    for row in rows[1:]:
        place = HEADER.index(key)
        row[place] = -float(str(row[place]))
        if hand == "left":
            for world in ("direction_deg", "axis_deg"):
                place = HEADER.index(world)
                row[place] = -float(str(row[place]))
    path = write(rows)
    base = ReadOptions(hand="left" if hand == "left" else "right")
    (doubt,) = doubts_of(path, base)
    assert doubt.column == key
    assert "mirrored" in doubt.question
    assert (
        doubt.options[0] == f'--column "{key}={column}[{"mm" if "mm" in key else "deg"}, {sign}]"'
    )
    upright = settled(path, doubt.options[0], base=base)
    as_told = settled(path, doubt.options[1], base=base)
    field = column.replace(" ", "_")
    for right, told in zip(upright.shots, as_told.shots, strict=True):
        assert getattr(right, field) == pytest.approx(-getattr(told, field))


@pytest.mark.parametrize(
    ("key", "covariates"),
    [
        ("strike_toe_mm", ("face_deg", "path_deg")),
        ("face_deg", ("strike_toe_mm",)),
        ("axis_deg", ("strike_toe_mm",)),
    ],
)
def test_a_mirrored_column_shows_where_few_balls_have_the_others(
    write: Writer, key: str, covariates: tuple[str, ...]
) -> None:
    """Ten balls have both; the ninety that have the column alone decide."""
    rows = own_rows(invent_drives(96))
    for place, row in enumerate(rows[1:]):
        row[HEADER.index(key)] = -float(str(row[HEADER.index(key)]))
        for name in covariates:
            if place >= 16:
                row[HEADER.index(name)] = ""
        if place < 6:
            row[HEADER.index(key)] = ""
    assert key in {doubt.column for doubt in doubts_of(write(rows))}


def test_the_wrong_hand_shows_in_every_sign(write: Writer, drives: list[Drive]) -> None:
    found = doubts_of(write(own_rows(drives)), ReadOptions(hand="left"))
    assert {"strike_toe_mm", "face_deg"} <= {doubt.column for doubt in found}
    assert all("say --hand right" in doubt.question for doubt in found)


def test_too_few_balls_raise_no_question_of_signs(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives[:14])
    for row in rows[1:]:
        row[12] = -float(str(row[12]))
    assert len(read_shots(write(rows), ReadOptions()).shots) == 14


def in_sets(rows: Rows, seed: int) -> Rows:
    """Return rows whose marks are shuffled within sets of four balls."""
    order = random.Random(seed)
    marks, name = slice(11, 13), HEADER.index("mark_set")
    for start in range(1, len(rows), 4):
        members = rows[start : start + 4]
        held = [row[marks] for row in members]
        order.shuffle(held)
        for row, mark in zip(members, held, strict=True):
            row[marks] = mark
            row[name] = str(start)
    return rows


@pytest.mark.parametrize("seed", [18, 243])
def test_marks_of_unknown_order_are_not_taken_for_mirrored(write: Writer, seed: int) -> None:
    """Row by row, these marks go with starts to the other side by chance (t below -2)."""
    rows = in_sets(own_rows(invent_drives(24, seed)), seed)
    assert len(read_shots(write(rows), ReadOptions()).shots) == 24


def test_mirrored_marks_of_unknown_order_are_asked_by_the_means_of_their_sets(
    write: Writer,
) -> None:
    rows = in_sets(own_rows(invent_drives(96)), 1)
    for row in rows[1:]:
        row[HEADER.index("strike_toe_mm")] = -float(str(row[HEADER.index("strike_toe_mm")]))
    (doubt,) = doubts_of(write(rows))
    assert doubt.column == "strike_toe_mm"
    assert "mirrored" in doubt.question


def test_golfers_days_and_kinds_of_club_are_never_mixed(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Player", "Date", "Club", "Ball speed (mph)"]]
    for place, drive in enumerate(drives):
        player, day = ("Ann", "Bob Lee")[place % 2], f"2026-05-0{1 + place % 3}"
        club = ("Driver Ash", "7 iron")[place // 12]
        rows.append([player, day, club, drive["ball speed"]])
    path = write(rows)
    golfers, days, kinds = doubts_of(path)
    assert golfers.options == ('--only "Player=Ann"', '--only "Player=Bob Lee"')
    assert days.options[1] == '--only "Date=2026-05-02"'
    assert kinds.options[0] == '--only "kind=driver"'
    read = settled(path, golfers.options[0], days.options[0], kinds.options[0])
    assert {shot.golfer for shot in read.shots} == {"Ann"}
    assert {shot.time for shot in read.shots} == {"2026-05-01"}
    assert read.read == 24 == len(read.shots) + len(read.refused)
    assert settled(path, golfers.options[0], days.options[0], kinds.options[2]).shots


def test_clubs_that_are_called_irons_are_asked_about_and_taken_for_drivers_when_told(
    write: Writer, drives: list[Drive]
) -> None:
    rows = own_rows(drives)
    for row in rows[1:]:
        row[2] = "7 iron"
    path = write(rows)
    (doubt,) = doubts_of(path)
    assert "flight, impact and value hold for drivers alone" in doubt.question
    assert doubt.options == ('--column "club=club[one kind]"',)
    read = settled(path, *doubt.options)
    assert len(read.shots) == len(drives)
    assert any("called iron and taken for drivers" in one for one in read.warnings)


def test_a_day_in_a_clubs_name_is_no_day_of_the_table(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    for place, row in enumerate(rows[1:]):
        row[2] = f"Ash 2026-05-0{1 + place // 12}"
    assert len({shot.club for shot in read_shots(write(rows), ReadOptions()).shots}) == 2


def test_a_second_column_that_never_changes_does_not_name_the_club(
    write: Writer, drives: list[Drive]
) -> None:
    rows = table(drives, club="Shaft", ball="Head", ball_speed="Ball speed (mph)")
    for row in rows[1:]:
        row[1] = "Round one"
    shots = read_shots(write(rows), ReadOptions()).shots
    assert {shot.club for shot in shots} == {"Own", "Ash", "Birch"}


def test_two_columns_that_could_name_the_club_are_asked(
    write: Writer, drives: list[Drive]
) -> None:
    rows = table(drives, ball="Head", club="Shaft", ball_speed="Ball speed (mph)")
    for row in rows[1:]:
        row[0] = "Round one"
    path = write(rows)
    (doubt,) = doubts_of(path)
    assert doubt.options == ('--club-column "Head"', '--club-column "Shaft"')
    assert settled(path, doubt.options[1]).shots[0].club == "Own"


def test_blank_club_cells_are_asked(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    for place, row in enumerate(rows[1:]):
        row[2] = row[2] if place % 4 == 0 else ""
    path = write(rows)
    (doubt,) = doubts_of(path)
    assert "18 of 24 rows" in doubt.question
    assert [shot.club for shot in settled(path, doubt.options[0]).shots] == [
        drive["club"] for drive in drives
    ]
    refused = settled(path, doubt.options[1])
    assert len(refused.shots) == 6
    assert {refusal.why for refusal in refused.refused} == {"names no club"}
    assert refused.read == len(refused.shots) + len(refused.refused)


def test_clubs_named_above_their_balls_are_asked_and_filled_down(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Spin (rpm)"]]
    for place, drive in enumerate(drives):
        if place % 8 == 0:
            rows.append([f"Club {place // 8}", "", ""])
        rows.append(["", drive["ball speed"], drive["spin"]])
    path = write(rows)
    (doubt,) = doubts_of(path)
    read = settled(path, doubt.options[0])
    assert [shot.club for shot in read.shots[::8]] == ["Club 0", "Club 1", "Club 2"]


def test_ball_numbers_against_the_rows_are_asked(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    body = rows[1:]
    random.Random(5).shuffle(body)
    path = write([rows[0], *body])
    (doubt,) = doubts_of(path)
    assert doubt.options == ('--column "ball=ball"', '--column "ball=ignore"')
    by_number = settled(path, '--column "ball=ball"')
    straight = settled(write(rows, name="straight.csv"), '--column "ball=ball"')
    assert [replace(shot, row=0) for shot in by_number.shots] == [
        replace(shot, row=0) for shot in straight.shots
    ]
    by_row = settled(path, '--column "ball=ignore"')
    assert [shot.row for shot in by_row.shots] == list(range(2, 26))


def test_times_against_the_rows_are_asked(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    for place, row in enumerate(rows[1:]):
        row[0], row[1] = "", f"10:{59 - place:02d}:00"
    path = write(rows)
    (doubt,) = doubts_of(path)
    assert doubt.column == "time"
    newest_last = settled(path, doubt.options[0])
    assert [shot.row for shot in newest_last.shots] == list(range(25, 1, -1))


@pytest.mark.parametrize("first", [0, 1])
def test_ball_numbers_that_begin_anew_are_no_doubt(
    write: Writer, drives: list[Drive], first: int
) -> None:
    rows = own_rows(drives)
    for place, row in enumerate(rows[1:]):
        row[0] = first + place % 4
    path = write(rows)
    assert len(read_shots(path, ReadOptions()).shots) == 24
    assert settled(path, '--column "ball=ball"').shots[4].row == 6


def test_an_order_by_numbers_that_repeat_or_lack_is_an_error(
    write: Writer, drives: list[Drive]
) -> None:
    rows = own_rows(drives)
    rows[3][0] = 20
    told = ReadOptions(columns=("ball=ball",))
    with pytest.raises(IntakeError, match="repeat"):
        read_shots(write(rows), told)
    rows[3][0] = ""
    with pytest.raises(IntakeError, match="row 4 has none"):
        read_shots(write(rows), told)


def test_columns_of_words_where_numbers_belong_are_asked(
    write: Writer, drives: list[Drive]
) -> None:
    rows = table(drives, club="Club", ball_speed="Ball speed (mph)", face="Face")
    for row in rows[1:]:
        row[2] = "square"
    path = write(rows)
    (doubt,) = doubts_of(path)
    assert "no numbers" in doubt.question
    assert settled(path, doubt.options[0]).shots


def test_options_are_quoted_as_a_shell_needs_them() -> None:
    text = 'A "big" $HOME `x` \\ col=spin[rpm]'
    assert shlex.split(quoted_option("--column", text)) == ["--column", text]
