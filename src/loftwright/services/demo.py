"""A fitting that never was: an invented studio, golfer, course and balls, read as any other."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from loftwright.intake.files import write_whole
from loftwright.intake.options import ReadOptions
from loftwright.intake.own_table import write_shots
from loftwright.intake.toml_files import read_home
from loftwright.services.paper import Visit, print_fitting
from loftwright.services.read import Reading, read_fitting
from loftwright.training.deal import DealOptions, deal

DEMO_DEAL: Final = DealOptions(seed=10, clubs=5, balls=44, golfer="mid", ghosts=1, strength=2.0)
DEMO_VISIT: Final = Visit(
    golfer="Wilhelmina Tuppence (invented)",
    fitter="Barnaby Quill",
    studio="The Lantern Bay",
    day=date(2026, 5, 14),
    conditions=("invented balls of a virtual golfer", "one ball, one tee height, mat, indoors"),
)
DEMO_HOME: Final = """\
# An invented course.
name = "Mossy Bottom Links"
altitude_ft = 180
temperature_f = 61
humidity_percent = 70
turf = "normal"
wind_along_mph = -3
wind_across_mph = 2
re_aim = true

[[holes]]
length_yd = 365
fairway_yd = 34

[[holes]]
length_yd = 402
fairway_yd = 30
trouble = "right"
trouble_from_yd = 28
trouble_lie = "recovery"

[[holes]]
length_yd = 421
fairway_yd = 36
trouble = "left"
trouble_from_yd = 35
trouble_lie = "sand"
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demo:
    """What the demo wrote and what came out."""

    shots: Path
    home: Path
    report: Path
    reading: Reading


def run_demo(folder: Path) -> Demo:
    """Deal the demo's balls into a folder, read them and print the report.

    Parameters
    ----------
    folder : Path
        Made if it is not there; files of the demo's names are replaced.

    Returns
    -------
    Demo

    Raises
    ------
    IntakeError
        If the folder cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    shots, home, report = (folder / name for name in ("shots.csv", "home.toml", "fitting.pdf"))
    write_shots(shots, deal(DEMO_DEAL).shots)
    write_whole(home, DEMO_HOME.encode())
    reading = read_fitting(shots, options=ReadOptions(), home=read_home(home), own="Own")
    print_fitting(reading, report, DEMO_VISIT)
    return Demo(shots=shots, home=home, report=report, reading=reading)
