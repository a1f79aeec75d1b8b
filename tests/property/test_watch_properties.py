"""What must hold of any watched file: no ball lost, none twice, no content breaks the watch."""

import os
import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from loftwright.intake.folder import PATIENCE, FolderWatch
from loftwright.intake.options import ReadOptions

HEAD = b"Club,Ball speed (mph),Launch (deg),Spin (rpm),Carry (yd)\n"


class Steps:
    """A clock that a test moves, and a file whose time moves with every writing."""

    def __init__(self, path: Path) -> None:
        self.path, self.now, self.writings = path, 0.0, 0

    def __call__(self) -> float:
        return self.now

    def write(self, content: bytes) -> None:
        self.writings += 1
        self.path.write_bytes(content)
        os.utime(self.path, ns=(0, self.writings * 1_000_000_000))


@st.composite
def tables(draw: st.DrawFn) -> tuple[list[bytes], bytes]:
    """Return the lines of balls, some of them equal, and the whole table."""
    rows = [
        f"{draw(st.sampled_from(['Elm', 'Fir']))},{draw(st.integers(140, 143))},12.{place % 3},"
        f"2500,24{draw(st.integers(0, 2))}".encode()
        for place in range(draw(st.integers(1, 10)))
    ]
    end = draw(st.sampled_from([b"\n", b"\r\n"]))
    return rows, HEAD + b"".join(row + end for row in rows)


@given(tables(), st.lists(st.integers(0, 400), max_size=8), st.lists(st.booleans(), max_size=8))
@settings(max_examples=60, deadline=None)
def test_however_a_file_grows_each_ball_comes_once(
    made: tuple[list[bytes], bytes], cuts: list[int], restarts: list[bool]
) -> None:
    rows, whole = made
    with tempfile.TemporaryDirectory() as folder:
        steps = Steps(Path(folder) / "balls.csv")
        watch = FolderWatch(steps.path, ReadOptions(), clock=steps)
        taken: dict[str, str] = {}
        for place, cut in enumerate(sorted(min(cut, len(whole)) for cut in cuts)):
            steps.write(whole[:cut])
            new = watch.poll()
            assert not taken.keys() & {shot.key for shot in new}
            taken |= {shot.key: shot.line for shot in new}
            if place < len(restarts) and restarts[place]:
                watch = FolderWatch(steps.path, ReadOptions(), known=taken, clock=steps)
        steps.write(whole)
        taken |= {shot.key: shot.line for shot in watch.poll()}
        assert sorted(taken.values()) == sorted(row.decode() for row in rows)


@given(st.lists(st.binary(max_size=300) | st.just(HEAD + b"Elm,148,12,2500,240"), max_size=4))
@settings(max_examples=60, deadline=None)
def test_any_content_is_read_or_told(contents: list[bytes]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        steps = Steps(Path(folder) / "balls.csv")
        watch = FolderWatch(Path(folder), ReadOptions(), clock=steps)
        for content in contents:
            steps.write(content)
            watch.poll()
            steps.now += PATIENCE
            watch.poll()
            assert len(watch.reports()) == 1
        steps.write(HEAD + b"Fir,151,12.0,2500,250\n")
        assert any(shot.line == "Fir,151,12.0,2500,250" for shot in watch.poll())
        assert watch.reports()[0].error == ""
