"""A watched file or folder: growing, half-written, replaced, rotated, broken and mended."""

import os
from pathlib import Path

import pytest

from loftwright.constants import MILE_PER_HOUR
from loftwright.intake import folder
from loftwright.intake.feed import FeedShot
from loftwright.intake.folder import PATIENCE, FolderWatch
from loftwright.intake.options import ReadOptions

HEAD = "Club,Ball speed (mph),Launch (deg),Direction (deg),Spin (rpm),Axis (deg),Time"
ROWS = (
    "Birch,148.2,12.1,-2.0,2510,8.0,10:42:07",
    "Birch,147.1,11.4,1.0,2680,-3.0,10:42:51",
    "Elm,149.0,13.0,0.5,2300,2.0,10:43:40",
    "Elm,150.3,12.2,3.5,2410,4.5,10:44:22",
)


class Clock:
    """Seconds that a test moves."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


def table(*rows: str) -> str:
    return "".join(f"{line}\n" for line in (HEAD, *rows))


def write(path: Path, text: str | bytes) -> None:
    path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
    later(path)


def append(path: Path, text: str) -> None:
    with path.open("a", encoding="utf-8", newline="") as file:
        file.write(text)
    later(path)


def later(path: Path) -> None:
    """Let the file's time move on, however fast the test is."""
    found = path.stat()
    os.utime(path, ns=(found.st_atime_ns, found.st_mtime_ns + 1_000_000_000))


def watch(path: Path, clock: Clock | None = None) -> FolderWatch:
    return FolderWatch(path, ReadOptions(), clock=clock or Clock())


def speeds(shots: tuple[FeedShot, ...]) -> list[float]:
    return [round((shot.numbers.ball_speed or 0.0) / MILE_PER_HOUR, 1) for shot in shots]


def test_rows_of_a_file_are_given_out_once_with_their_own_lines(tmp_path: Path) -> None:
    write(tmp_path / "balls.csv", table(*ROWS[:2]))
    watched = watch(tmp_path)
    shots = watched.poll()
    assert [shot.line for shot in shots] == list(ROWS[:2])
    assert [shot.club for shot in shots] == ["Birch", "Birch"]
    assert [shot.time for shot in shots] == ["10:42:07", "10:42:51"]
    assert speeds(shots) == [148.2, 147.1]
    assert watched.poll() == ()
    assert [report.balls for report in watched.reports()] == [2]


def test_a_growing_file_gives_its_new_rows_only(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, table(ROWS[0]))
    watched = watch(path)
    assert speeds(watched.poll()) == [148.2]
    append(path, f"{ROWS[1]}\n{ROWS[2]}\n")
    assert speeds(watched.poll()) == [147.1, 149.0]


def test_a_half_written_line_waits_for_its_end(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, table(ROWS[0]) + ROWS[1][:-9])
    watched = watch(path)
    assert len(watched.poll()) == 1
    assert watched.reports()[0].waiting
    append(path, ROWS[1][-9:])
    assert watched.poll() == ()
    append(path, "\n")
    assert [shot.line for shot in watched.poll()] == [ROWS[1]]
    assert not watched.reports()[0].waiting


def test_a_last_line_without_an_end_counts_when_it_rests(tmp_path: Path) -> None:
    path, clock = tmp_path / "balls.csv", Clock()
    write(path, table(ROWS[0]) + ROWS[1])
    watched = watch(path, clock)
    assert len(watched.poll()) == 1
    clock.now += 0.9 * PATIENCE
    assert watched.poll() == ()
    clock.now += 0.2 * PATIENCE
    assert [shot.line for shot in watched.poll()] == [ROWS[1]]
    append(path, f"\n{ROWS[2]}\n")
    (shot,) = watched.poll()
    assert (shot.line, shot.problems) == (ROWS[2], ())


def test_a_line_that_goes_on_after_a_rest_is_said(tmp_path: Path) -> None:
    path, clock = tmp_path / "balls.csv", Clock()
    write(path, table(ROWS[0]) + ROWS[1][:-4])
    watched = watch(path, clock)
    watched.poll()
    clock.now += PATIENCE
    assert len(watched.poll()) == 1
    append(path, ROWS[1][-4:])
    assert watched.poll() == ()
    append(path, "\n")
    (shot,) = watched.poll()
    assert shot.line == ROWS[1]
    assert "before it was whole" in shot.problems[0]


def test_a_new_watch_gives_everything_again_with_the_same_keys(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, table(*ROWS[:2]))
    before = watch(tmp_path).poll()
    append(path, f"{ROWS[2]}\n")
    after = watch(tmp_path).poll()
    assert [shot.key for shot in after[:2]] == [shot.key for shot in before]
    assert len({shot.key for shot in after}) == 3


def test_equal_lines_are_different_balls(tmp_path: Path) -> None:
    write(tmp_path / "balls.csv", "Ball speed (mph),Carry (yd)\n" + "148,240\n" * 3)
    shots = watch(tmp_path).poll()
    assert len({shot.key for shot in shots}) == 3
    assert {shot.line for shot in shots} == {"148,240"}


def test_a_rotated_file_is_not_taken_twice(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, table(*ROWS[:2]))
    watched = watch(tmp_path)
    assert len(watched.poll()) == 2
    path.rename(tmp_path / "balls-1.csv")
    write(path, table(ROWS[2]))
    assert speeds(watched.poll()) == [149.0]
    assert watched.poll() == ()


def test_a_replaced_file_gives_what_is_new_in_it(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, table(*ROWS[:2]))
    watched = watch(path)
    watched.poll()
    write(tmp_path / "next", table(ROWS[1], ROWS[2]))
    (tmp_path / "next").replace(path)
    assert [shot.line for shot in watched.poll()] == [ROWS[2]]


def test_several_files_are_read_the_oldest_first(tmp_path: Path) -> None:
    write(tmp_path / "b.csv", table(ROWS[0]))
    write(tmp_path / "a.txt", table(ROWS[1]))
    later(tmp_path / "a.txt")
    assert speeds(watch(tmp_path).poll()) == [148.2, 147.1]


def test_other_files_of_a_folder_are_left_alone(tmp_path: Path) -> None:
    write(tmp_path / "photo.png", b"\x89PNG")
    write(tmp_path / ".balls.csv", table(ROWS[0]))
    (tmp_path / "inner.csv").mkdir()
    watched = watch(tmp_path)
    assert watched.poll() == ()
    assert watched.reports() == ()


def test_a_folder_that_is_not_there_is_said_and_read_once_it_is(tmp_path: Path) -> None:
    watched = watch(tmp_path / "device")
    assert watched.poll() == ()
    assert "not there yet" in watched.reports()[0].error
    (tmp_path / "device").mkdir()
    write(tmp_path / "device" / "balls.csv", table(ROWS[0]))
    assert speeds(watched.poll()) == [148.2]
    assert [report.error for report in watched.reports()] == [""]


def test_a_file_that_becomes_unreadable_is_said_and_goes_on_when_mended(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, table(ROWS[0]))
    watched = watch(tmp_path)
    watched.poll()
    write(path, b"%PDF-1.7\n")
    assert watched.poll() == ()
    assert "PDF" in watched.reports()[0].error
    assert watched.reports()[0].balls == 1
    write(path, table(*ROWS[:2]))
    assert speeds(watched.poll()) == [147.1]
    assert watched.reports()[0].error == ""


def test_a_file_that_may_not_be_read_is_tried_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "balls.csv"
    write(path, table(ROWS[0]))
    watched = watch(path)

    def refuse(_: Path) -> bytes:
        raise PermissionError(13, "no")

    with monkeypatch.context() as patch:
        patch.setattr(Path, "read_bytes", refuse)
        assert watched.poll() == ()
        assert "may not be read" in watched.reports()[0].error
    assert speeds(watched.poll()) == [148.2]


def test_a_table_with_an_open_question_waits_for_its_answer(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, "Ball speed,Carry\n148,240\n149,242\n147,238\n")
    watched = FolderWatch(path, ReadOptions())
    assert watched.poll() == ()
    (report,) = watched.reports()
    assert report.doubts
    answered = FolderWatch(path, ReadOptions(columns=("Carry=carry[yd]",)))
    assert speeds(answered.poll()) == [148.0, 149.0, 147.0]


def mirrored_rows(count: int) -> list[str]:
    """Return balls whose toe marks start to the heel's side and the other way round."""
    return [
        f"148.{place},12.{place % 10},{-0.4 * (place - 8):.1f},2500,{place - 8}"
        for place in range(count)
    ]


def test_a_doubt_about_the_whole_loses_no_ball_of_a_file_that_was_read_well(
    tmp_path: Path,
) -> None:
    path = tmp_path / "balls.csv"
    rows = mirrored_rows(18)
    head = "Ball speed (mph),Launch (deg),Direction (deg),Spin (rpm),Strike toe (mm)\n"
    write(path, head + "\n".join(rows[:12]) + "\n")
    watched = watch(path)
    assert len(watched.poll()) == 12
    append(path, "\n".join(rows[12:]) + "\n")
    later_shots = watched.poll()
    assert [shot.line for shot in later_shots] == rows[12:]
    assert "mirrored" in watched.reports()[0].doubts[0].question
    assert later_shots[0].numbers.strike_toe == pytest.approx(0.004)


def test_headings_alone_wait_for_a_ball(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, HEAD[:30])
    watched = watch(path)
    assert watched.poll() == ()
    write(path, f"{HEAD}\n")
    assert watched.poll() == ()
    append(path, f"{ROWS[0]}\n")
    assert len(watched.poll()) == 1


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-be", "utf-16-le", "utf-8-sig"])
def test_a_half_written_line_waits_in_any_encoding(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "balls.csv"
    content = (table(*ROWS[:2]) + ROWS[2]).encode(encoding)
    write(path, content[:-3])
    watched = watch(path)
    assert [shot.line for shot in watched.poll()] == list(ROWS[:2])
    assert watched.reports()[0].waiting
    write(path, content + "\n".encode(encoding.removesuffix("-sig"))[-2:])
    if encoding == "utf-8-sig":
        write(path, content + b"\n")
    assert [shot.line for shot in watched.poll()] == [ROWS[2]]


def test_rows_that_are_no_balls_are_named(tmp_path: Path) -> None:
    write(tmp_path / "balls.csv", table(*ROWS[:3], "Average,148.1,12.2,-0.2,2497,2.3,"))
    watched = watch(tmp_path)
    assert len(watched.poll()) == 3
    (refused,) = watched.reports()[0].refused
    assert (refused.row, "sums up" in refused.why) == (5, True)


def test_balls_that_stood_there_before_are_not_given_out(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, table(ROWS[0]) + ROWS[1])
    before = watch(path).standing()
    watched = FolderWatch(path, ReadOptions(), known=before)
    append(path, f"\n{ROWS[2]}\n")
    assert [shot.line for shot in watched.poll()] == [ROWS[2]]


def test_balls_with_an_open_question_stood_there_before_too(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, "Ball speed,Carry\n148,240\n149,242\n147,238\n")
    write(tmp_path / "report.txt", b"%PDF-1.7")
    before = watch(tmp_path).standing()
    assert len(before) == 3
    answered = ReadOptions(columns=("Carry=carry[yd]",))
    watched = FolderWatch(tmp_path, answered, known=before)
    append(path, "150,244\n")
    assert [shot.line for shot in watched.poll()] == ["150,244"]


def test_balls_that_could_not_be_taken_come_again(tmp_path: Path) -> None:
    write(tmp_path / "balls.csv", table(*ROWS[:2]))
    watched = watch(tmp_path)
    first, second = watched.poll()
    watched.forget([second.key])
    assert watched.poll() == (second,)
    assert watched.poll() == ()
    assert first.key != second.key


def test_a_file_beyond_all_size_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path / "balls.csv", table(*ROWS))
    monkeypatch.setattr("loftwright.intake.file_rows.MOST_BYTES", 10)
    watched = watch(tmp_path)
    assert watched.poll() == ()
    assert "larger" in watched.reports()[0].error


def test_of_very_many_files_the_newest_are_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(folder, "MOST_FILES", 1)
    write(tmp_path / "a.csv", table(ROWS[0]))
    write(tmp_path / "b.csv", table(ROWS[1]))
    later(tmp_path / "b.csv")
    watched = watch(tmp_path)
    assert speeds(watched.poll()) == [147.1]
    assert "newest 1" in watched.reports()[0].error


def test_a_file_that_goes_away_is_no_longer_reported(tmp_path: Path) -> None:
    path = tmp_path / "balls.csv"
    write(path, table(ROWS[0]))
    watched = watch(tmp_path)
    watched.poll()
    path.unlink()
    assert watched.poll() == ()
    assert watched.reports() == ()
