"""Gives every column of a table its meaning: from the user, from memory or from its heading."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from loftwright.domain.device import Origin
from loftwright.errors import UsageError
from loftwright.intake.headers import ColumnHead, Layout
from loftwright.intake.own_table import HEADER
from loftwright.intake.quantities import QUANTITIES, Quantity
from loftwright.intake.settle import Setting, heading_key, no_column
from loftwright.units import Unit

_USER: Final = "user"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What one column is taken for.

    Attributes
    ----------
    index : int
        Place in the row, from 0.
    name : str
        Heading as the file has it.
    means : str
        Word of the column list; empty while it is open.
    meanings : tuple of str
        What an open heading could mean; empty for a word that is not known.
    unit : Unit, optional
        The unit told by user or heading.
    sign : int
        1 or -1 where the positive side is told, else 0.
    world : bool
        True when that side is right or left.
    origin : Origin
        As told; unknown where nothing is said.
    manners : tuple of str
        How club cells are taken.
    source : str
        What settled the meaning.
    settled : bool
        True when the user, now or earlier, said what the column is.
    """

    index: int
    name: str
    means: str = ""
    meanings: tuple[str, ...] = ()
    unit: Unit | None = None
    sign: int = 0
    world: bool = False
    origin: Origin = Origin.UNKNOWN
    manners: tuple[str, ...] = ()
    source: str = "heading"
    settled: bool = False

    @property
    def quantity(self) -> Quantity:
        """The quantity it is taken for."""
        return QUANTITIES[self.means]

    @property
    def numeric(self) -> bool:
        """Whether it is taken for numbers with a unit."""
        return bool(self.means) and self.quantity.numeric

    @property
    def told_now(self) -> bool:
        """Whether the user says so of this very table; what was said of an earlier one may err."""
        return self.settled and self.source == _USER


def is_own_table(layout: Layout) -> bool:
    """Return whether the headings are those of our own shot table."""
    return len(layout.header_rows) == 1 and layout.header_rows[0] == HEADER


def _from_setting(head: ColumnHead, setting: Setting, source: str, *, own: bool) -> Plan:
    heading = head.heading
    same = heading.meanings == (setting.means,)
    unit = setting.unit
    if unit is None and heading.unit is not None and setting.means != "ignore":
        told = QUANTITIES[setting.means].dimension == heading.unit.dimension
        unit = heading.unit if told else None
    sign, world = setting.sign, setting.world
    if sign == 0 and same:
        sign, world = heading.sign, heading.world
    origin = setting.origin if setting.origin is not Origin.UNKNOWN else heading.origin
    if own and same and origin is Origin.UNKNOWN:
        origin = Origin.MEASURED
    return Plan(
        index=head.index,
        name=head.name,
        means=setting.means,
        unit=unit,
        sign=sign,
        world=world,
        origin=origin,
        manners=setting.manners,
        source=source,
        settled=True,
    )


def _from_heading(head: ColumnHead, *, own: bool) -> Plan:
    heading = head.heading
    means = heading.meanings[0] if len(heading.meanings) == 1 else ""
    unit = heading.unit
    mismatch = (
        means != ""
        and unit is not None
        and QUANTITIES[means].numeric
        and QUANTITIES[means].dimension != unit.dimension
    )
    return Plan(
        index=head.index,
        name=head.name,
        # A unit of another dimension leaves the meaning open.
        means="" if mismatch else means,
        meanings=heading.meanings,
        unit=unit,
        sign=heading.sign,
        world=heading.world,
        origin=Origin.MEASURED if own and means else heading.origin,
        source="our own shot table" if own else "heading",
    )


def _find(name: str, heads: Sequence[ColumnHead], option: str) -> ColumnHead:
    key = heading_key(name)
    for head in heads:
        if heading_key(head.name) == key or f"column {head.index + 1}" == key:
            return head
    raise no_column(name, (head.name for head in heads), option=option)


def plan_columns(
    layout: Layout,
    settings: Sequence[Setting],
    remembered: Sequence[Setting],
    club_column: str | None,
) -> list[Plan]:
    """Return what every column is taken for, before its values are seen.

    Parameters
    ----------
    layout : Layout
        The headings.
    settings, remembered : sequence of Setting
        What the user says now and said of a table of this form before; now wins.
    club_column : str, optional
        Heading of the column that names the club.

    Raises
    ------
    IntakeError
        When a column named by the user is not in the table.
    UsageError
        When the user settles one column twice.
    """
    own = is_own_table(layout)
    plans = {head.index: _from_heading(head, own=own) for head in layout.heads}
    for earlier in remembered:
        head = _find(earlier.column, layout.heads, "mappings")
        plans[head.index] = _from_setting(head, earlier, "settled on an earlier table", own=own)
    done: set[int] = set()
    for setting in settings:
        head = _find(setting.column, layout.heads, f"--column {setting.text!r}")
        if head.index in done:
            raise UsageError(
                f"column {setting.column!r} is settled twice", place=f"--column {setting.text!r}"
            )
        done.add(head.index)
        plans[head.index] = _from_setting(head, setting, _USER, own=own)
    if club_column is not None:
        head = _find(club_column, layout.heads, "--club-column")
        manners = plans[head.index].manners
        chosen = Setting(column=head.name, means="club", manners=manners)
        plans[head.index] = _from_setting(head, chosen, _USER, own=own)
    _yield_to_settled(plans)
    return [plans[head.index] for head in layout.heads]


def _yield_to_settled(plans: dict[int, Plan]) -> None:
    """Leave out columns whose heading means what the user has given to another column."""
    taken = {plan.means for plan in plans.values() if plan.settled} - {"ignore", "time"}
    for index, plan in plans.items():
        if plan.means in taken and not plan.settled:
            plans[index] = replace(plan, means="ignore", unit=None, source=_USER)
