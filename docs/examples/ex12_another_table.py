"""The same ball in another table: German words, decimal commas, km/h, metres.

    every column has one unit, and a value is its number times that unit

Expected: 152.3 mph, whatever the table calls it.
"""

from pathlib import Path
from tempfile import TemporaryDirectory

from loftwright.constants import MILE_PER_HOUR
from loftwright.intake.options import ReadOptions
from loftwright.intake.table import read_shots

EXPECTED = 152.3
WITHIN = 0.05
TABLE = """\
Schläger;Ballgeschwindigkeit (km/h);Abflugwinkel;Drehzahl;Startrichtung;Spinachse
Altes Holz;245,1;13,4;2650;1,2 R;3,0 L
Altes Holz;243,0;12,9;2710;0,4 L;1,0 R
Neues Holz;246,2;14,0;2480;2,1 R;4,0 L
Neues Holz;244,8;13,1;2530;0,0;0,5 R
"""


def main() -> float:
    """Return the first ball's speed in mph."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "schuesse.csv"
        path.write_text(TABLE, encoding="utf-8")
        first = read_shots(path, ReadOptions()).shots[0]
    return (first.ball_speed or 0.0) / MILE_PER_HOUR


if __name__ == "__main__":
    print(f"{main():.1f} mph")  # noqa: T201 - the example's answer
