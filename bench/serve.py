"""How soon a studio answers, empty and with the demo, and how soon its first page is there.

As an installed program starts: modules are compiled and kept by a start that is not counted. Of
several starts the quickest is told, for a machine that does something else only makes them slower.
"""

import os
import subprocess
import sys
import tempfile
import time
import urllib.request

ROUNDS = 5
COMMAND = (sys.executable, "-c", "from loftwright.cli.app import main; main()", "serve")


def timed(folder: str, compiled: str, *more: str) -> tuple[float, float]:
    """Start a studio and return the seconds until it answers, and until its first page."""
    began = time.perf_counter()
    server = subprocess.Popen(
        [*COMMAND, "--port", "0", *more],
        env=os.environ
        | {
            "LOFTWRIGHT_DATA": folder,
            "PYTHONDONTWRITEBYTECODE": "",
            "PYTHONPYCACHEPREFIX": compiled,
        },
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert server.stdout is not None
        address = server.stdout.readline().split()[-1]
        ready = time.perf_counter() - began
        urllib.request.urlopen(address).read()
        return ready, time.perf_counter() - began - ready
    finally:
        server.terminate()
        server.wait()


def tell(what: str, starts: list[tuple[float, float]]) -> None:
    ready, page = (min(times) for times in zip(*starts, strict=True))
    print(
        f"{what}: answers after {ready:.1f} s, first page {page:.2f} s (quickest of {len(starts)})"
    )


def main() -> None:
    with tempfile.TemporaryDirectory() as compiled:
        for what, more in (("an empty studio", ()), ("the demo", ("--demo",))):
            first, later = [], []
            for start in range(ROUNDS + 1):
                with tempfile.TemporaryDirectory() as folder:
                    times = [timed(folder, compiled, *more) for _ in range(2)]
                if start:
                    first.append(times[0])
                    later.append(times[1])
            tell(f"{what}, first start", first)
            tell(f"{what}, later start", later)


if __name__ == "__main__":
    main()
