"""The table of a bag: every column is documented, and the one that is shown is read."""

import re

from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, MILLIMETRE
from loftwright.domain.bag import MOST_IN_PLAY, BagKind, Known
from loftwright.domain.bench_doubts import USUAL_DOUBTS
from loftwright.intake.bag_table import COLUMNS, MOST_ROWS, read_bag_table
from pages import ROOT

FILES = (ROOT / "docs" / "reference" / "files.md").read_text(encoding="utf-8")
PART = FILES.partition("\n## BAG.csv\n")[2].partition("\n## ")[0]
HOWTO = (ROOT / "docs" / "howto" / "see-a-whole-bag.md").read_text(encoding="utf-8")


def test_every_column_of_a_bag_is_documented_and_no_other() -> None:
    rows = [line.split("|")[1] for line in PART.splitlines() if line.startswith("| `")]
    listed = [name for row in rows for name in re.findall(r"`([a-z0-9_]+)`", row)]
    assert sorted(listed) == sorted(COLUMNS)


def test_the_bag_that_is_shown_is_read() -> None:
    shown = re.search(r"^```text\n(.*?)^```$", PART, re.MULTILINE | re.DOTALL)
    assert shown is not None
    table = read_bag_table(shown[1].encode(), "shown")
    assert table.wrong == ()
    assert [one.kind for one in table.clubs] == [BagKind.WOOD, BagKind.IRON, BagKind.PUTTER]
    assert table.clubs[1].value(Known.SWINGWEIGHT) == 32.5


def test_kinds_and_the_most_clubs_are_as_documented() -> None:
    for kind in BagKind:
        assert f"`{kind.value}`" in PART
    assert f"At most {MOST_ROWS} lines" in PART
    assert f"{MOST_IN_PLAY} at most are" in PART


def test_the_doubts_of_a_bench_are_those_that_are_told() -> None:
    doubts = USUAL_DOUBTS
    told = {
        "length by the 60-degree plane, by ruler": (
            f"{doubts.length / MILLIMETRE:.1f} mm, {doubts.ruler / MILLIMETRE:g} mm"
        ),
        "weight, balance point": f"{doubts.mass / GRAM:g} g, {doubts.balance / MILLIMETRE:g} mm",
        "swingweight on a scale": f"{doubts.swingweight:g} points",
        "club MOI; a pendulum's swing": f"13 kg cm²; {1000.0 * doubts.period:g} ms",
        "frequency": f"{doubts.frequency / CYCLE_PER_MINUTE:g} cpm",
        "loft": f"{doubts.loft / DEGREE:g}°",
    }
    for reading, doubt in told.items():
        assert f"| {reading} | {doubt} |" in HOWTO
