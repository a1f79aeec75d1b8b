"""What the first ball would wait for is loaded before it comes."""

import subprocess
import sys

LOADED = (
    "import sys\n"
    "from loftwright.services.warm_up import warm_up\n"
    "warm_up()\n"
    "print('scipy.stats' in sys.modules)\n"
)


def test_the_slow_libraries_are_there_after_it() -> None:
    found = subprocess.run(
        [sys.executable, "-c", LOADED], capture_output=True, text=True, check=True
    )
    assert found.stdout.strip() == "True"
