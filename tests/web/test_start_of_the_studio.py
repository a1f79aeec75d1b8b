"""What the studio loads before its first page: nothing that only paper needs."""

import subprocess
import sys

CODE = """
import sys
sys.path[:0] = sys.argv[1:]
from studios import app_of, studio_in_memory
import loftwright.services.opening, loftwright.web.server
app_of(studio_in_memory())
slow = ("altair", "typst", "vl_convert", "pint", "loftwright.report.charts")
print([name for name in slow if name in sys.modules])
"""


def test_it_opens_without_the_typesetter_and_the_charts() -> None:
    paths = [path for path in sys.path if path.endswith("tests")]
    done = subprocess.run(
        [sys.executable, "-c", CODE, *paths], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
