"""Kill a program that works on a studio, at a moment of its work, and say what it answered for."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Timer

PROGRAM = Path(__file__).with_name("dying.py")
TESTS = Path(__file__).parent
LONGEST = 300.0
"""Seconds within which a child has said the word, which may be its sixtieth."""


class Doomed:
    """The program that is to be killed; it is loaded once for many kills.

    Parameters
    ----------
    load : str
        Modules that its children need and that are slow to load.
    """

    def __init__(self, *load: str) -> None:
        paths = filter(None, (str(TESTS), os.environ.get("PYTHONPATH", "")))
        self._process = subprocess.Popen(
            [sys.executable, "-X", "faulthandler", str(PROGRAM), *load],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            start_new_session=True,
            env=os.environ | {"PYTHONPATH": os.pathsep.join(paths)},
        )

    def killed(
        self,
        job: str,
        folder: Path,
        address: str,
        start: int,
        *,
        word: str,
        after: float,
        meanwhile: Callable[[], None] = lambda: None,
    ) -> list[str]:
        """Let a child work, kill it some seconds after it said a word, and return all it said.

        Parameters
        ----------
        job : str
            One of `dying.JOBS`.
        meanwhile : callable
            What is done to it while it works, before the seconds are waited for.
        """
        assert self._process.stdin is not None
        self._process.stdin.write(f"{job}\t{folder}\t{address}\t{start}\n")
        self._process.stdin.flush()
        late = Timer(LONGEST, os.killpg, (self._process.pid, signal.SIGABRT))
        late.start()
        child, said = 0, list[str]()
        # The child may say something before its parent says which child it is.
        while not child or word not in said:
            one = self._heard()
            assert one != "gone", f"{job} ended by itself after {said}"
            child = int(one.removeprefix("child ")) if one.startswith("child ") else child
            said += [] if one.startswith("child ") else [one]
        late.cancel()
        meanwhile()
        time.sleep(after)
        os.kill(child, signal.SIGKILL)
        while (one := self._heard()) != "gone":
            said.append(one)
        return said

    def _heard(self) -> str:
        assert self._process.stdout is not None
        line = self._process.stdout.readline()
        assert line, f"the program ended, or a child said nothing for {LONGEST} s"
        return line.rstrip("\n")

    def end(self) -> None:
        """Let the program go."""
        with suppress(ProcessLookupError):
            os.killpg(self._process.pid, signal.SIGKILL)
        self._process.communicate()


@contextmanager
def doomed(*load: str) -> Iterator[Doomed]:
    """Give a program that is to be killed, for the length of a block."""
    made = Doomed(*load)
    try:
        yield made
    finally:
        made.end()
