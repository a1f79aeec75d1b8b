"""The study of pick-ups set down: what was said of which club, by golfer and by how it was hit."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

from loftwright.domain.check_acts import Against
from loftwright.training.summary import Mean, mean_of

SAME: Final = "the same club"
ANSWERS: Final = (Against.CONSISTENT, Against.NOT, Against.CANNOT_TELL)

Record = Mapping[str, Any]
Rows = Mapping[tuple[str, str], Sequence[Record]]
"""Records by the second day and by what was built."""


def share(records: Sequence[Record], said: Against) -> Mean:
    """Return how often an answer was given, in per cent.

    Parameters
    ----------
    records : sequence of dict
        One a pick-up.
    said : Against
    """
    return mean_of([100.0 * (one["against"] == said) for one in records])


def ever_not(records: Sequence[Record]) -> Mean:
    """Return how often *not* stood after some ball or other, in per cent.

    Parameters
    ----------
    records : sequence of dict
        One a pick-up, looked at after every ball.
    """
    return mean_of([100.0 * one["ever_not"] for one in records])


def would_tell(records: Sequence[Record]) -> Mean | None:
    """Return how often, where nobody could tell, further balls were said to tell, in per cent.

    None where there are too few of them.
    """
    left = [one for one in records if one["against"] == Against.CANNOT_TELL]
    return mean_of([100.0 * (one["more"] is not None) for one in left]) if len(left) > 1 else None


def page_lines(found: Rows, looked: Sequence[str]) -> list[str]:
    """Return the tables of the study as lines of a page.

    Parameters
    ----------
    found : mapping of (str, str) to sequence of dict
    looked : sequence of str
        Second days on which somebody looked after every ball.
    """
    days = tuple(dict.fromkeys(day for day, _ in found))
    lines: list[str] = []
    for day in days:
        rows = {made: records for (one, made), records in found.items() if one == day}
        lines += [f"## {day[0].upper()}{day[1:]}", "", *_answers(rows), ""]
    rows = {made: records for (one, made), records in found.items() if one == days[0]}
    lines += ["## By golfer", "", f"{days[0][0].upper()}{days[0][1:]}: consistent / not.", ""]
    lines += [*_by_golfer(rows), "", "## Looked at after every ball", ""]
    return [*lines, *_looked(found, looked)]


def _answers(rows: Mapping[str, Sequence[Record]]) -> list[str]:
    lines = [
        "| built | pick-ups | consistent | not | cannot tell | of these, more balls would tell |",
        "|---|---|---|---|---|---|",
    ]
    for made, records in rows.items():
        said = " | ".join(_cell(share(records, one)) for one in ANSWERS)
        lines.append(f"| {made} | {len(records)} | {said} | {_cell(would_tell(records))} |")
    return lines


def _by_golfer(rows: Mapping[str, Sequence[Record]]) -> list[str]:
    abilities = tuple(
        dict.fromkeys(one["ability"] for records in rows.values() for one in records)
    )
    lines = [f"| built | {' | '.join(abilities)} |", "|---|" + "---|" * len(abilities)]
    for made, records in rows.items():
        cells = []
        for ability in abilities:
            own = [one for one in records if one["ability"] == ability]
            same, apart = (share(own, one).mean for one in (Against.CONSISTENT, Against.NOT))
            cells.append(f"{same:.0f} / {apart:.0f}")
        lines.append(f"| {made} | {' | '.join(cells)} |")
    return lines


def _looked(found: Rows, looked: Sequence[str]) -> list[str]:
    lines = [
        "| second day | *not* at the end | *not* after some ball |",
        "|---|---|---|",
    ]
    lines += [
        f"| {day} | {_cell(share(records, Against.NOT))} | {_cell(ever_not(records))} |"
        for (day, made), records in found.items()
        if made == SAME and day in looked
    ]
    return lines


def _cell(one: Mean | None) -> str:
    return "–" if one is None else f"{one.mean:.1f} ± {one.error:.1f}"
