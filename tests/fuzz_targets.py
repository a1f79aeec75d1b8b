"""Everything that takes content from outside, each as a function of bytes that keeps one law.

The law: it returns, or it raises one of our own errors that says what is wrong, where, and what
to do; in bounded time and memory; and it leaves the content as it was.
"""

import math
from collections.abc import Callable
from contextlib import ExitStack, suppress
from dataclasses import dataclass
from datetime import date
from functools import cache, partial
from pathlib import Path
from tempfile import TemporaryDirectory, mkdtemp
from typing import Any
from urllib.parse import urlencode

import fuzz_seeds as seeds
from form_house import House, a_house
from fuzz_kept import (
    backups,
    feed_backup,
    feed_effects,
    feed_learned,
    feed_play,
    feed_record,
    learned_files,
    rack_studio,
    record_file,
)
from loftwright.domain.piece_code import piece_of, read_code
from loftwright.errors import LONGEST, LoftwrightError
from loftwright.intake.answers import all_answered, answered
from loftwright.intake.bag_table import bag_csv, read_bag_table
from loftwright.intake.build_files import read_build
from loftwright.intake.build_text import read_build_text, read_measured_text, with_changes
from loftwright.intake.doubts import DoubtsError
from loftwright.intake.feed import shot_from_record
from loftwright.intake.file_rows import keys_of, one_by_one
from loftwright.intake.golfer_file import read_golfer
from loftwright.intake.line import ball_from_line
from loftwright.intake.line_order import read_order
from loftwright.intake.mappings import recall, remember
from loftwright.intake.measured_file import read_measured
from loftwright.intake.options import ReadOptions
from loftwright.intake.own_table import shot_table_text
from loftwright.intake.pasted import rows_of_text, rows_of_upload
from loftwright.intake.readings_file import read_readings
from loftwright.intake.settle import read_keep, read_setting
from loftwright.intake.sheet_rows import balls_from_sheet
from loftwright.intake.table import read_shots
from loftwright.intake.toml_files import read_head, read_home
from loftwright.physics.shaft.mount import BARE
from loftwright.services.rack_in import look_at
from loftwright.services.rack_out import rack_csv, rack_json
from loftwright.services.rounds_in import read_rounds, text_of
from loftwright.units import parse_quantity
from loftwright.web.pages.api import _decoded

LONGEST_ERROR = 3 * LONGEST + 100
UNITS = ("mph", "deg", "g", "mm")
_ANSWERS = 6
_TYPE = "application/x-www-form-urlencoded"
_OPEN = ExitStack()


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """One way in.

    Attributes
    ----------
    feed : callable
        Takes the content; what it returns is of no interest.
    seeds : callable
        Returns content that is taken.
    """

    name: str
    feed: Callable[[bytes], object]
    seeds: Callable[[], tuple[bytes, ...]]


def refused(target: Target, content: bytes) -> LoftwrightError | None:
    """Feed content to a target; return the error it was refused with, which must keep the law.

    Whatever else is raised leaves: it is a defect.
    """
    try:
        target.feed(content)
    except LoftwrightError as error:
        check_lawful(error)
        return error
    return None


def check_lawful(error: LoftwrightError) -> None:
    """Check that an error says what is wrong, where, and the mend, in text that can be shown."""
    for part in ("message", "place", "mend"):
        assert getattr(error, part).strip(), f"an error without {part}: {error!r}"
    assert len(str(error)) < LONGEST_ERROR, f"an error of {len(str(error))} letters"
    str(error).encode("utf-8")


def from_file(read: Callable[[Path], object], content: bytes, *, name: str = "told") -> None:
    """Let a reader read content from a file, which must stay as it was."""
    with TemporaryDirectory(prefix="loftwright-") as folder:
        path = Path(folder) / name
        path.write_bytes(content)
        try:
            read(path)
        finally:
            assert path.read_bytes() == content


def from_text(read: Callable[[str], object], content: bytes) -> None:
    """Let a reader take content as the text that a form or a terminal gives."""
    read(content.decode("utf-8", "replace"))


def _table(content: bytes) -> None:
    """Read a table, giving the first answer to every question until it is read or refused."""
    options = ReadOptions()
    for _ in range(_ANSWERS):
        try:
            rows = rows_of_upload(content, "shots.csv", options)
        except DoubtsError as error:
            check_lawful(error)
            ways = [way for one in error.doubts for way in one.options]
            keys_of(content, "shots.csv", options)
            settled = [way for way in ways if answered(way, options) is not None]
            if not settled:
                raise
            options = all_answered(settled[:1], options)
        else:
            shots = one_by_one(content, "shots.csv", options, known=())
            assert len({one.key for one in rows.shots}) == len(rows.shots)
            assert all(one.line is not None for one in shots)
            return


def _own_table(path: Path) -> None:
    """Read a table; what was read and written by ourselves reads back alike."""
    text = shot_table_text(read_shots(path, ReadOptions()).shots)
    again = path.with_name("again.csv")
    again.write_text(text, encoding="utf-8")
    assert shot_table_text(read_shots(again, ReadOptions()).shots) == text


def _bag(content: bytes) -> None:
    found = read_bag_table(content, "bag.csv")
    for wrong in found.wrong:
        check_lawful(wrong)
    if found.clubs:
        again = read_bag_table(bag_csv(found.clubs).encode(), "bag.csv")
        assert not again.wrong
        assert len(again.clubs) == len(found.clubs)


def _rack_file(content: bytes) -> None:
    for one in look_at(rack_studio(), "rack", content).refused:
        assert one.message.strip()
        assert one.mend.strip(), one
        assert len(str(one).encode("utf-8")) < 4 * LONGEST_ERROR


def _racks() -> tuple[bytes, ...]:
    return rack_json(rack_studio()).encode(), rack_csv(rack_studio()).encode()


def _rounds(content: bytes) -> None:
    found = read_rounds(text_of(content), taken=date(2026, 9, 1), today=date(2026, 11, 25))
    assert not (found.rounds and found.refused)
    for one in found.refused:
        assert one.what.strip()
        assert one.mend.strip(), one
        assert len(one.what) < LONGEST_ERROR


def _sheet(text: str) -> None:
    order = read_order("speed launch spin")
    balls_from_sheet(text, order, sheet="1", clubs=("Ash", "Elm"))


def _line(text: str) -> None:
    ball_from_line(text, read_order("speed launch spin"), key="1", clubs=("Ash", "Elm"))


def _settings(text: str) -> None:
    """Read the options of a table; each is taken or refused by itself."""
    for read in (read_setting, read_keep):
        with suppress(LoftwrightError):
            read(text)
    with suppress(LoftwrightError):
        all_answered([text], ReadOptions())
    read_order(text)


def _mappings(path: Path) -> None:
    """Recall what was settled; what is damaged is not written over."""
    recall(path, "a1")
    remember(path.with_name("other"), "a1", [read_setting("Col A=ball speed[mph]")])


def _build(path: Path) -> None:
    read_build(path)
    text = path.read_text(encoding="utf-8-sig")
    read_build_text(text)
    with_changes(text, {"target.length_inch": 45.5})


def _measured(path: Path) -> None:
    read_measured(path)
    read_measured_text(path.read_text(encoding="utf-8-sig"))


def _code(text: str) -> None:
    code = read_code(text)
    assert read_code(code) == code
    piece_of(text, ("harrow-1", "heron-60-1-a"))


def _feed(content: bytes) -> None:
    line, record = _decoded(content)
    shot = shot_from_record(record, line=line)
    shot.line.encode("utf-8")


def _quantity(text: str) -> None:
    """Read a quantity as one of each kind: what is no speed may be a length."""
    wrong: list[LoftwrightError] = []
    for unit in UNITS:
        try:
            assert math.isfinite(parse_quantity(text, unit, place="field"))
        except LoftwrightError as error:
            check_lawful(error)
            wrong.append(error)
    if len(wrong) == len(UNITS):
        raise wrong[-1]


@cache
def _house() -> House:
    """Return a studio whose forms are sent, until the process ends."""
    folder = Path(mkdtemp(prefix="loftwright-"))
    return _OPEN.enter_context(a_house(folder))


def _form(content: bytes) -> None:
    """Send one of the forms: its number in two bytes, then its body."""
    house = _house()
    number = int.from_bytes(content[:2], "big") % len(house.forms)
    form = house.forms[number]
    house.send(form.action, form.action, content=content[2:], headers={"Content-Type": _TYPE})


def _forms() -> tuple[bytes, ...]:
    return tuple(
        number.to_bytes(2, "big") + urlencode(form.fields).encode()
        for number, form in enumerate(_house().forms)
    )


def _texts(*texts: str) -> Callable[[], tuple[bytes, ...]]:
    return lambda: tuple(text.encode() for text in texts)


def _files(read: Callable[[Path], object]) -> Callable[[bytes], None]:
    return partial(from_file, read)


def _typed(read: Callable[[str], object]) -> Callable[[bytes], None]:
    return partial(from_text, read)


_ALL: tuple[tuple[str, Callable[[bytes], Any], Callable[[], tuple[bytes, ...]]], ...] = (
    ("shot_table", _table, seeds.shot_tables),
    ("own_table", _files(_own_table), seeds.own_tables),
    ("pasted", _typed(partial(rows_of_text, options=ReadOptions())), seeds.shot_tables),
    ("feed", _feed, seeds.feeds),
    ("bag", _bag, seeds.bags),
    ("readings", _files(partial(read_readings, dressing=BARE)), _texts(seeds.READINGS)),
    ("home", _files(read_home), _texts(seeds.HOME)),
    ("head", _files(read_head), _texts(seeds.HEAD)),
    ("golfer", _files(read_golfer), _texts(seeds.GOLFER)),
    ("build", _files(_build), seeds.builds),
    ("measured", _files(_measured), _texts(seeds.MEASURED)),
    ("rack", _rack_file, _racks),
    ("rounds", _rounds, _texts(*seeds.ROUNDS)),
    ("learned", feed_learned, lambda: (learned_files()["0001.json"],)),
    ("effects", feed_effects, lambda: (learned_files()[seeds.EFFECTS],)),
    ("record", feed_record, lambda: (record_file(),)),
    ("play", feed_play, _texts('{"case": "bryony", "seed": 1, "call": "", "upto": 0}')),
    ("sheet", _typed(_sheet), _texts(*seeds.SHEETS)),
    ("line", _typed(_line), _texts(*seeds.LINES)),
    ("settings", _typed(_settings), _texts(*seeds.SETTINGS)),
    ("mappings", _files(_mappings), _texts(seeds.MAPPINGS)),
    ("code", _typed(_code), _texts(*seeds.CODES)),
    ("quantity", _typed(_quantity), _texts(*seeds.QUANTITIES)),
    ("form", _form, _forms),
    ("backup", feed_backup, backups),
)
TARGETS = {name: Target(name=name, feed=feed, seeds=given) for name, feed, given in _ALL}
