"""What lies beside an export and says in plain words how to read it."""

from datetime import date

from loftwright import __version__

_LEFT_OUT = (
    "Not in here: what the body allowed on a day, and that somebody was in pain. Such notes are",
    "kept for the visit alone. Nor is there any key, of golfers or of devices.",
)
_GOLFER = (
    "golfer.json      name, contact, goal, home course and consents; one entry for each record",
    "bag.json         the clubs of the bag, as far as somebody wrote them down",
    "own_clubs.json   own clubs in the shop's rack, with what was measured of them",
    "openings.csv     who opened the record and when, where that was kept",
    "fittings/        a folder for each fitting, by its day:",
    "  fitting.json     bay, fitter, visits, what measured the balls, the clubs as they were hit",
    "  shots.csv        the balls, one row each: mph, degrees, rpm, mm on the face, yards",
    "  acts.json        everything that happened, in order, with its time; numbers in SI units",
    "  predictions.json what was predicted of a ball before it was hit",
    "  job.json         quote, order, build sheets, final check, follow-up and rounds",
    "  result.json      what the balls said, each figure with its range",
    "  report.pdf       the printed report",
)
_SHOP = (
    "golfers/         a folder for each golfer, with these files:",
    *(f"  {line}" for line in _GOLFER),
    "rack.json        heads, shafts, clubs, inspections and measured shafts",
    "places.csv       where parts went; a golfer is the number of a folder",
    "devices.csv      tablets, feeds and screens that were let in",
    "settings.json    the shop's settings and terms, and what was published",
    "shop_record/     every ball of golfers who agreed, and what was learned from them",
)


def readme_of_golfer(day: date) -> bytes:
    """Return the page beside a golfer's copy."""
    return _page("What this studio keeps of you", day, _GOLFER)


def readme_of_shop(day: date) -> bytes:
    """Return the page beside a copy of a whole shop."""
    return _page("Everything that this studio keeps", day, _SHOP)


def _page(title: str, day: date, lines: tuple[str, ...]) -> bytes:
    text = "\n".join(
        (
            title,
            "=" * len(title),
            "",
            f"Copied on {day.isoformat()} by Loftwright {__version__}. A file that is missing had",
            "nothing to hold. All files are text in UTF-8, but for report.pdf and *.parquet.",
            "",
            *lines,
            "",
            "Numbers in JSON files are in SI units and radians, times in UTC. Direction, axis and",
            "offline are to the right; face, path and strike are in the golfer's own signs. A",
            "cell that would be taken for a formula begins with an apostrophe.",
            "",
            *_LEFT_OUT,
            "",
        )
    )
    return text.encode()
