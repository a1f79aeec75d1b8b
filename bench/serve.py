"""How soon a studio answers, empty and with the demo, and how soon its first page is there."""

import os
import subprocess
import sys
import tempfile
import time
import urllib.request

ROUNDS = 3
COMMAND = (sys.executable, "-c", "from loftwright.cli.app import main; main()", "serve")


def timed(folder: str, *more: str) -> tuple[float, float]:
    """Start a studio and return the seconds until it answers, and until its first page."""
    began = time.perf_counter()
    server = subprocess.Popen(
        [*COMMAND, "--port", "0", *more],
        env=os.environ | {"LOFTWRIGHT_DATA": folder},
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


def main() -> None:
    for what, more in (("an empty studio", ()), ("the demo", ("--demo",))):
        with tempfile.TemporaryDirectory() as folder:
            for start in ("first start", *["later start"] * (ROUNDS - 1)):
                ready, page = timed(folder, *more)
                print(f"{what}, {start}: answers after {ready:.1f} s, first page {page:.2f} s")


if __name__ == "__main__":
    main()
