"""Reads a table of shots in any shape into domain values, or says what is open about it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.domain.shot import Refusal, Shot, ShotTable
from loftwright.errors import IntakeError
from loftwright.intake.averages import foot_rows
from loftwright.intake.body import MAX_BALLS, Body, Row, gather
from loftwright.intake.columns import Plan, plan_columns
from loftwright.intake.derive import derive
from loftwright.intake.dialect import Dialect, find_dialect
from loftwright.intake.doubts import DoubtsError
from loftwright.intake.kinds import DRIVER, club_kind
from loftwright.intake.labels import Labels, clubs_above, read_labels
from loftwright.intake.mappings import recall, remember
from loftwright.intake.measure import Measures, column_entry, measure, number_columns
from loftwright.intake.numbers import is_count, table_decimal
from loftwright.intake.options import ReadOptions
from loftwright.intake.order import Order, find_order
from loftwright.intake.origins import calculated, list_columns, named_columns
from loftwright.intake.quantities import LAUNCH_NUMBERS
from loftwright.intake.settle import Setting, heading_key, read_keep, read_setting
from loftwright.intake.signs import golfers_view, sign_doubts
from loftwright.intake.swings import Swings, build_shot, find_duplicates, mark_sets, sort_swings
from loftwright.intake.unknowns import unknown_doubts

__all__ = ["ReadOptions", "read_shots"]

_SHOWN_COLUMNS: Final = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class _Settled:
    """What the user says of the columns, now and before."""

    now: tuple[Setting, ...]
    before: tuple[Setting, ...]
    club_column: str | None

    @property
    def all(self) -> tuple[Setting, ...]:
        """Everything settled, the newest word on each column."""
        now = list(self.now)
        if self.club_column is not None:
            club = Setting(column=self.club_column, means="club", text=f"{self.club_column}=club")
            now = [setting for setting in now if setting.key != club.key] + [club]
        told = {setting.key for setting in now}
        return (*(setting for setting in self.before if setting.key not in told), *now)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Swung:
    """The rows that are swings, the club last named above each, and the rows refused."""

    rows: tuple[Row, ...]
    above: tuple[str, ...]
    unread: frozenset[int]
    refused: tuple[Refusal, ...]
    warnings: tuple[str, ...]


def read_shots(path: Path, options: ReadOptions) -> ShotTable:
    """Read a table of shots; the file is never changed.

    Parameters
    ----------
    path : Path
        A table as text: any delimiter, decimal mark, language and unit of the trade.
    options : ReadOptions
        What is settled about it.

    Returns
    -------
    ShotTable
        Its balls in order of play, SI and radians; every row is used, refused or a duplicate.

    Raises
    ------
    DoubtsError
        When the table can be read in more than one way; it lists the questions.
    IntakeError
        When the file is no table of shots, or is larger than a fitting may be.
    UsageError
        When an option has no meaning.
    """
    now = tuple(read_setting(text) for text in options.columns)
    named = frozenset(
        heading_key(name)
        for name in (*(setting.column for setting in now), options.club_column or "")
        if name
    )
    dialect = find_dialect(path, named)
    before = recall(options.mappings_path, dialect.layout.fingerprint)
    settled = _Settled(now=now, before=before, club_column=options.club_column)
    plans = plan_columns(dialect.layout, now, before, options.club_column)
    keeps = [read_keep(text) for text in options.only]
    body = gather(path, dialect, plans, only=keeps, not_ours=options.not_ours)
    table = _read_body(path, dialect, plans, body, options)
    return _with_memory(table, dialect, settled, options)


def _read_body(
    path: Path, dialect: Dialect, plans: list[Plan], body: Body, options: ReadOptions
) -> ShotTable:
    """Return the table, or raise all that is open about it at once."""
    swung = _swings(plans, body, options)
    if not swung.rows:
        raise _no_balls(path, body, swung)
    labels = read_labels(swung.rows, plans, swung.above, place=str(path))
    columns = number_columns(swung.rows, plans, options.hand)
    measures = measure(swung.rows, columns)
    entries = {plan.means: column_entry(plan, measures) for plan in plans if plan.means}
    derived, notes = derive(measures.values, entries)
    duplicates = find_duplicates(swung.rows, plans, measures.values, swung.unread)
    again = {duplicate.row for duplicate in duplicates}
    clubless = [
        Refusal(row=row.line, why="names no club")
        for row, club in zip(swung.rows, labels.clubs, strict=True)
        if not club and row.line not in again
    ]
    out = again.union(refusal.row for refusal in clubless)
    kept = [number for number, row in enumerate(swung.rows) if row.line not in out]
    order = find_order([swung.rows[number] for number in kept], plans)
    decimal = table_decimal(swung.rows, [column.plan.index for column in columns])
    lines = [row.line for row in swung.rows]
    sets = mark_sets(swung.rows, plans)
    seen = golfers_view(measures.values, measures.plans, labels.clubs, lines, options.hand, sets)
    doubts = (
        *unknown_doubts(swung.rows, plans, decimal),
        *labels.doubts,
        *measures.doubts,
        *order.doubts,
        *sign_doubts(seen),
    )
    if doubts:
        raise DoubtsError(doubts, place=str(path))
    shots = _shots(swung, plans, labels, measures, [kept[number] for number in order.places])
    _check_count(path, shots, columns=list(measures.values))
    named = named_columns(swung.rows, plans)
    general = _general_warnings(dialect, named, labels, order)
    refused = [*body.refused, *swung.refused, *clubless]
    return ShotTable(
        read=body.read,
        shots=shots,
        refused=tuple(sorted(refused, key=lambda refusal: refusal.row)),
        duplicates=tuple(duplicates),
        columns=list_columns(
            swung.rows, named, measures, derived, calculated(swung.rows, measures)
        ),
        warnings=tuple(_all_of(body, swung, labels, measures, notes, general)),
    )


def _all_of(
    body: Body,
    swung: _Swung,
    labels: Labels,
    measures: Measures,
    notes: Sequence[str],
    general: Sequence[str],
) -> list[str]:
    """Return all warnings, single rows first."""
    return [
        *body.warnings,
        *swung.warnings,
        *measures.warnings,
        *labels.warnings,
        *notes,
        *general,
    ]


def _swings(plans: Sequence[Plan], body: Body, options: ReadOptions) -> _Swung:
    """Return the rows that are swings: no averages, no lines of words."""
    columns = number_columns(body.rows, plans, options.hand)
    telling = [column for column in columns if not is_count(column.held)]
    feet = foot_rows(body.rows, plans, telling)
    summed = {refusal.row for refusal in feet}
    rows = [row for row in body.rows if row.line not in summed]
    swings: Swings = sort_swings(rows, plans, number_columns(rows, plans, options.hand))
    above = clubs_above(rows, plans)
    return _Swung(
        rows=tuple(rows[place] for place in swings.places),
        above=tuple(above[place] for place in swings.places),
        unread=frozenset(
            number for number, place in enumerate(swings.places) if place in swings.unread
        ),
        refused=(*feet, *swings.refused),
        warnings=swings.warnings,
    )


def _shots(
    swung: _Swung,
    plans: Sequence[Plan],
    labels: Labels,
    measures: Measures,
    places: Sequence[int],
) -> tuple[Shot, ...]:
    return tuple(
        build_shot(
            swung.rows[place],
            place,
            order=order,
            club=labels.clubs[place],
            read=place not in swung.unread,
            plans=plans,
            values=measures.values,
        )
        for order, place in enumerate(places)
    )


def _no_balls(path: Path, body: Body, swung: _Swung) -> IntakeError:
    if not body.read:
        return IntakeError(
            "has headings and no row below them",
            place=str(path),
            mend="Give one row a ball.",
        )
    reasons = sorted([*body.refused, *swung.refused], key=lambda refusal: refusal.row)
    return IntakeError(
        f"holds no ball among {body.read} rows; row {reasons[0].row} {reasons[0].why}",
        place=str(path),
        mend="Give one row a ball, with numbers under the headings.",
    )


def _check_count(path: Path, shots: Sequence[Shot], columns: Sequence[str]) -> None:
    if len(shots) > MAX_BALLS:
        raise IntakeError(
            f"holds {len(shots):,} balls; one fitting has at most {MAX_BALLS:,}",
            place=str(path),
            mend='Keep one golfer and day with --only "Golfer=Name", or part the file.',
        )
    if not {*LAUNCH_NUMBERS, "carry"}.intersection(columns):
        raise IntakeError(
            "no column of it gives a ball's speed, launch, direction, spin, axis or carry",
            place=str(path),
            mend='Say which column does, such as --column "Col A=ball speed[mph]".',
        )


def _general_warnings(
    dialect: Dialect, plans: Sequence[Plan], labels: Labels, order: Order
) -> list[str]:
    warnings = []
    unknown = [plan.name for plan in plans if not plan.means]
    if unknown:
        shown = ", ".join(map(repr, unknown[:_SHOWN_COLUMNS]))
        more = " and more" if len(unknown) > _SHOWN_COLUMNS else ""
        warnings.append(f"columns not used, their headings say nothing known: {shown}{more}")
    kinds = {club_kind(club) for club in labels.clubs} - {"", DRIVER}
    if kinds:
        warnings.append(
            f"the clubs are called {', '.join(sorted(kinds))} and taken for drivers: flight, "
            "impact and value hold for no others"
        )
    if dialect.encoding in {"cp1252", "cp932", "cp949", "latin-1"}:
        warnings.append(f"the file is not UTF-8; it was read as {dialect.encoding}")
    if list(order.places) != sorted(order.places):
        warnings.append("the order of play is that of the ball numbers or times, not of the rows")
    return warnings


def _with_memory(
    table: ShotTable, dialect: Dialect, settled: _Settled, options: ReadOptions
) -> ShotTable:
    """Keep what was settled, and say which mapping was used."""
    if options.mappings_path is None:
        return table
    warnings = list(table.warnings)
    now: Mapping[str, Setting] = {setting.key: setting for setting in settled.now}
    used = [setting.text for setting in settled.before if setting.key not in now]
    if used:
        warnings.append(
            f"columns read as settled on an earlier table ({options.mappings_path}): "
            + "; ".join(used)
        )
    told = settled.now or settled.club_column is not None
    if told and not dialect.layout.fingerprint:
        warnings.append("a table without headings is not known again: nothing is remembered")
    elif told:
        try:
            if remember(options.mappings_path, dialect.layout.fingerprint, settled.all):
                warnings.append(f"the settled columns are remembered in {options.mappings_path}")
        except IntakeError as error:
            warnings.append(f"the settled columns could not be remembered: {error}")
    return ShotTable(
        read=table.read,
        shots=table.shots,
        refused=table.refused,
        duplicates=table.duplicates,
        columns=table.columns,
        warnings=tuple(warnings),
    )
