"""The page on builds says what the clubs behind it come to."""

import re

import pytest

from builds import DRIVER, IRON, WEDGE, club_at, points
from loftwright.constants import GRAM, INCH, KILOGRAM_SQUARE_CENTIMETRE, OUNCE_INCH
from loftwright.physics.build.grip import grip_size
from loftwright.physics.build.swingweight import OFFICIAL_FULCRUM, USUAL_SCALE, index_of, letters
from pages import ROOT
from thumb import driver_changes, restoring, rules_of_thumb

PAGE = (ROOT / "docs" / "explanation" / "build.md").read_text(encoding="utf-8")


def rows(title: str) -> list[list[str]]:
    """Return the cells of the table whose heading begins with a title."""
    lines = PAGE.splitlines()
    start = next(at for at, line in enumerate(lines) if line.startswith(f"| {title} |"))
    found = []
    for line in lines[start + 2 :]:
        if not line.startswith("|"):
            break
        found.append([cell.strip() for cell in line.strip("|").split("|")])
    return found


def figure(cell: str) -> tuple[float, int]:
    """Return the figure in a cell and its decimals."""
    text = cell.split(maxsplit=1)[0].replace("−", "-")
    return float(text), len(text.partition(".")[2])


def agrees(cell: str, value: float) -> None:
    told, digits = figure(cell)
    assert told == pytest.approx(value, abs=0.5000001 * 10.0**-digits), cell


def test_the_rules_of_thumb_are_what_the_clubs_do() -> None:
    table = rows("rule of thumb")
    clubs = ((DRIVER, 45.5), (IRON, 38.0), (WEDGE, 35.25))
    for column, (parts, length) in enumerate(clubs, 2):
        found = list(rules_of_thumb(parts, length * INCH).values())
        assert len(table) == len(found)
        for row, value in zip(table, found, strict=True):
            agrees(row[column], value)


def test_where_a_rule_of_thumb_would_hold() -> None:
    """The lever at which it is exact: two grams of head, five of grip, nine of shaft a point."""
    point = 1.75 * OUNCE_INCH / (GRAM * INCH)
    told = [float(re.findall(r"[\d.]+", row[1])[0]) for row in rows("rule of thumb")[:4]]
    half_inch = 3.0 * point / 0.5
    assert told == pytest.approx(
        [point / 2.0, 14.0 - point / 5.0, half_inch, point / 9.0], abs=0.5
    )
    assert told[:2] == pytest.approx([24.8, 4.08], abs=0.05)


def test_the_changes_of_the_driver_are_what_they_do() -> None:
    found = list(driver_changes().values())
    table = rows("change of the driver")
    assert len(table) == len(found)
    for (_, swing, inertia), change in zip(table, found, strict=True):
        agrees(swing, change.swing)
        agrees(inertia, change.inertia)


def test_what_restores_half_an_inch() -> None:
    told = re.search(r"takes ([\d.]+) g more head.*?and ([\d.]+) g", PAGE, flags=re.DOTALL)
    assert told is not None
    assert [float(one) for one in told.groups()] == pytest.approx(list(restoring()), abs=5e-3)


def test_the_driver_comes_to_what_the_page_says() -> None:
    club = club_at(45.5 * INCH)
    told = re.search(
        r"comes to ([\d.]+) g, balances at\s+([\d.]+) in, (\w\d\.\d), (\d+) kg cm²", PAGE
    )
    assert told is not None
    mass, balance, letter, inertia = told.groups()
    assert float(mass) == round(club.mass / GRAM, 1)
    assert float(balance) == round(club.balance / INCH, 2)
    assert letter == letters(points(club))
    assert float(inertia) == round(club.inertia / KILOGRAM_SQUARE_CENTIMETRE)


def test_the_clubs_of_the_page_come_to_their_figures() -> None:
    table = rows("club")
    clubs = ((DRIVER, 45.5), (IRON, 38.0), (WEDGE, 35.25))
    for row, (parts, length) in zip(table, clubs, strict=True):
        club = club_at(length * INCH, parts)
        agrees(row[1], club.mass / GRAM)
        agrees(row[2], club.balance / INCH)
        assert row[3] == letters(points(club))
        agrees(row[4], club.moment_about(OFFICIAL_FULCRUM) / OUNCE_INCH)
        agrees(row[5], club.inertia / KILOGRAM_SQUARE_CENTIMETRE)


def test_the_scale_on_the_page_is_the_scale() -> None:
    table = rows("letter")
    assert [row[0][0] for row in table] == list("ABCDEFG")
    for letter, above, ounces, grams in table:
        assert index_of(letter) == float(above)
        moment = USUAL_SCALE.moment(float(above))
        agrees(ounces, moment / OUNCE_INCH)
        agrees(grams, moment / (GRAM * INCH))


def test_the_grips_on_the_page_are_the_bracket() -> None:
    table = rows("core, in")
    assert len(table) == 3
    for core, under, added, kept in table:
        size = grip_size(0.900 * INCH, float(core) * INCH, float(under) * INCH)
        agrees(added, size.added / INCH)
        agrees(kept, size.stretched / INCH)


def test_every_case_on_the_page_has_its_test_and_its_status() -> None:
    table = rows("case")
    there = {
        name
        for path in (ROOT / "tests").glob("**/test_*.py")
        for name in re.findall(r"^def (test_\w+)\(", path.read_text("utf-8"), flags=re.MULTILINE)
    }
    assert len(table) >= 21
    for case, status, tests in table:
        named = re.findall(r"`(test_\w+)`", tests)
        assert named, case
        assert set(named) <= there, case
        words = r"published|from memory|self-consistent|common practice, no source"
        assert re.search(words, status), case
