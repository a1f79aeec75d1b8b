"""Reads the parts and targets of a build: TOML in trade units, every key known."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Final

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    MILLIMETRE,
)
from loftwright.domain.build_sheet import BuildSheet
from loftwright.domain.built import Checked
from loftwright.domain.limits import USUAL_EDITION, Kind, Rules
from loftwright.domain.tolerances import Tolerances
from loftwright.errors import InputError
from loftwright.intake.build_keys import (
    ERROR_KEYS,
    INERTIA,
    KEYS,
    MOST_PARTS,
    TOLERANCE_KEYS,
)
from loftwright.intake.toml_files import Table, TableReader, load_toml, placed
from loftwright.physics.build.club import head_reach
from loftwright.physics.build.grip import BuildUp
from loftwright.physics.build.parts import (
    BuildParts,
    ButtWeight,
    FittedGrip,
    RawShaft,
    SeatedHead,
    SmallPart,
    Tape,
)
from loftwright.physics.build.rods import straight_rod
from loftwright.physics.build.solve import Target
from loftwright.physics.build.swingweight import (
    USUAL_SCALE,
    SwingweightScale,
    calibrated_scale,
    index_of,
)
from loftwright.physics.build.uncertainty import NINETY_FIVE, PartErrors

_ALSO: Final = {
    "loft_deg": (Checked.LOFT, DEGREE),
    "lie_deg": (Checked.LIE, DEGREE),
    "face_deg": (Checked.FACE, DEGREE),
    "frequency_cpm": (Checked.FREQUENCY, CYCLE_PER_MINUTE),
    "grip_inch": (Checked.GRIP, INCH),
}
_WEIGH: Final = "Weigh it, to a tenth of a gram; nothing is guessed for a part."
_MEASURE: Final = "Measure it; nothing is guessed for a part."


def read_build(path: Path) -> BuildSheet:
    """Return the parts and targets in a file.

    Parameters
    ----------
    path : Path
        Tables ``target, shaft, head, grip, tape, parts, counterweight, calibration, tolerance,
        u95, rules``; the first four are needed.

    Raises
    ------
    IntakeError
        When the file cannot be read.
    InputError
        When a key is not known or missing, or a value cannot be.
    """
    return build_of(load_toml(path), str(path))


def build_of(told: Mapping[str, object], place: str) -> BuildSheet:
    """Return the parts and targets that a build file's tables tell.

    Parameters
    ----------
    told : mapping
        As `read_build` reads them from a file.
    place : str
        What messages call it.

    Raises
    ------
    InputError
        When a key is not known or missing, or a value cannot be.
    """
    whole = TableReader(told, KEYS[""], place)
    head = _table(whole, "head", needed=True)
    small = whole.table.get("parts", [])
    if not isinstance(small, list) or len(small) > MOST_PARTS:
        raise whole.error("parts", f"a list of at most {MOST_PARTS} [[parts]]")
    target = _table(whole, "target", needed=True)
    scale = _scale(_table(whole, "calibration"))
    dry_fit = _table(whole, "dry_fit")
    parts = placed(
        lambda: BuildParts(
            shaft=_shaft(_table(whole, "shaft", needed=True)),
            head=_head(head, dry_fitted=bool(dry_fit.table)),
            grip=_grip(_table(whole, "grip", needed=True)),
            tape=_tape(_table(whole, "tape")),
            small=tuple(_small(one, number, place) for number, one in enumerate(small, 1)),
            butt_weight=_counterweight(_table(whole, "counterweight")),
        ),
        place,
    )
    errors = _errors(_section(whole, "u95", ERROR_KEYS))
    if dry_fit.table:
        parts, errors = _dry_fitted(dry_fit, parts, errors)
    return BuildSheet(
        parts=parts,
        target=_target(target, scale),
        also={
            checked: target.number(key) * unit
            for key, (checked, unit) in _ALSO.items()
            if key in target.table
        },
        clamp=_set_up(target, "clamp_mm", MILLIMETRE),
        tip_mass=_set_up(target, "tip_mass_g", GRAM),
        build_up=_build_up(_table(whole, "build_up")),
        kind=head.word("kind", Kind, Kind.WOOD),
        tolerances=_tolerances(_section(whole, "tolerance", TOLERANCE_KEYS)),
        errors=errors,
        rules=_rules(_table(whole, "rules")),
    )


def _rules(reader: TableReader) -> Rules:
    return placed(
        lambda: Rules(
            edition=reader.text("edition", USUAL_EDITION),
            local_length=reader.truth("competition_uses_46_inch", default=False),
        ),
        reader.place,
    )


def section_of(whole: TableReader, name: str, keys: Sequence[str]) -> TableReader:
    """Return the reader of one table of a file; an empty one where it is not there."""
    found = whole.table.get(name, {})
    if not isinstance(found, dict):
        raise whole.error(name, f"a table of keys; write [{name}]")
    return TableReader(found, keys, f"{whole.place}, {name}")


def _section(whole: TableReader, name: str, keys: dict[str, tuple[str, float]]) -> TableReader:
    return section_of(whole, name, tuple(keys))


def _table(whole: TableReader, name: str, *, needed: bool = False) -> TableReader:
    if needed and name not in whole.table:
        raise InputError(
            f"the table [{name}] is missing",
            place=whole.place,
            mend=f"Write [{name}] with {', '.join(KEYS[name])}.",
        )
    return section_of(whole, name, KEYS[name])


def _told(reader: TableReader, key: str, what: str) -> float:
    """Return a figure that nothing stands in for."""
    if key not in reader.table:
        raise InputError(
            f"{what} is missing",
            place=f"{reader.place}, {key}",
            mend=_WEIGH if key == "mass_g" else _MEASURE,
        )
    return reader.number(key)


def _shaft(reader: TableReader) -> RawShaft:
    length = _told(reader, "raw_length_inch", "the length of the raw shaft") * INCH
    mass = _told(reader, "mass_g", "the mass of the shaft") * GRAM
    balance = _told(reader, "balance_from_tip_inch", "the balance point of the shaft") * INCH
    return placed(
        lambda: RawShaft(
            rod=straight_rod(mass, length, balance, "shaft"),
            tip_trim=reader.number("tip_trim_inch", 0.0) * INCH,
        ),
        reader.place,
    )


def _head(reader: TableReader, *, dry_fitted: bool) -> SeatedHead:
    mass = _told(reader, "mass_g", "the mass of the head") * GRAM
    if dry_fitted and "cg_along_inch" in reader.table:
        raise InputError(
            "the head's balance point is given twice",
            place=f"{reader.place}, cg_along_inch",
            mend="Leave it out, since [dry_fit] finds it, or leave [dry_fit] out.",
        )
    if not dry_fitted and "cg_along_inch" not in reader.table:
        raise InputError(
            "the head's balance point along the shaft is missing",
            place=f"{reader.place}, cg_along_inch",
            mend="Weigh and balance a dry fit and write [dry_fit], or give it.",
        )
    reach = reader.number("cg_along_inch", 0.0) * INCH
    plane = _told(reader, "to_60_plane_inch", "the seated tip's distance to the 60-degree plane")
    return placed(
        lambda: SeatedHead(
            mass=mass,
            reach=reach,
            toe=reader.number("cg_toe_mm", 0.0) * MILLIMETRE,
            inertia=reader.number("own_moi_kgcm2", 0.0) * INERTIA,
            to_plane=plane * INCH,
            most_added=reader.number("max_added_g", 30.0) * GRAM,
        ),
        reader.place,
    )


def _grip(reader: TableReader) -> FittedGrip:
    mass = _told(reader, "mass_g", "the mass of the grip") * GRAM
    length = _told(reader, "length_inch", "the length of the grip") * INCH
    balance = _told(reader, "balance_inch", "the balance point of the grip") * INCH
    cap = _told(reader, "cap_inch", "the thickness of the grip's cap") * INCH
    return placed(
        lambda: FittedGrip(mass=mass, length=length, balance=balance, cap=cap), reader.place
    )


def _tape(reader: TableReader) -> Tape:
    if not reader.table:
        return Tape()
    mass = _told(reader, "mass_g", "the mass of the tape") * GRAM
    length = _told(reader, "length_inch", "the length of the tape") * INCH
    return placed(lambda: Tape(mass=mass, length=length), reader.place)


def _small(table: object, number: int, place: str) -> SmallPart:
    place = f"{place}, part {number}"
    if not isinstance(table, dict):
        raise InputError("a part is a table of keys", place=place, mend="Write [[parts]].")
    reader = TableReader(table, KEYS["parts"], place)
    name = reader.text("name")
    mass = _told(reader, "mass_g", f"the mass of the {name}") * GRAM
    reach = _told(reader, "from_tip_inch", f"the place of the {name}") * INCH
    return placed(lambda: SmallPart(name=name, mass=mass, reach=reach), place)


def _build_up(reader: TableReader) -> BuildUp | None:
    if not reader.table:
        return None
    butt = _told(reader, "butt_inch", "the diameter of the butt") * INCH
    core = _told(reader, "core_inch", "the core of the grip") * INCH
    nominal = _told(reader, "nominal_inch", "the grip's size on its core") * INCH
    tape = _told(reader, "tape_inch", "the thickness of the tape") * INCH
    return placed(
        lambda: BuildUp(
            butt=butt,
            core=core,
            nominal=nominal,
            tape=tape,
            wraps=reader.number("wraps", 0.0),
        ),
        reader.place,
    )


def _counterweight(reader: TableReader) -> ButtWeight:
    usual = ButtWeight()
    return placed(
        lambda: ButtWeight(
            below_cap=reader.number("below_cap_inch", usual.below_cap / INCH) * INCH,
            most=reader.number("max_g", usual.most / GRAM) * GRAM,
        ),
        reader.place,
    )


def _scale(reader: TableReader) -> SwingweightScale:
    if not reader.table:
        return USUAL_SCALE
    mass = _told(reader, "mass_g", "the mass of the calibration club") * GRAM
    balance = _told(reader, "balance_inch", "the balance point of the calibration club") * INCH
    return placed(
        lambda: calibrated_scale(mass, balance, index_of(reader.text("reads"))), reader.place
    )


def _target(reader: TableReader, scale: SwingweightScale) -> Target:
    length = _told(reader, "length_inch", "the length of the club") * INCH

    def optional(key: str, unit: float) -> float | None:
        return reader.number(key) * unit if key in reader.table else None

    return placed(
        lambda: Target(
            length=length,
            swingweight=index_of(reader.text("swingweight"))
            if "swingweight" in reader.table
            else None,
            mass=optional("mass_g", GRAM),
            inertia=optional("club_moi_kgcm2", INERTIA),
            scale=scale,
        ),
        reader.place,
    )


def _set_up(reader: TableReader, key: str, unit: float) -> float | None:
    if "frequency_cpm" in reader.table and key not in reader.table:
        raise InputError(
            "a frequency without its clamp and weight means nothing",
            place=f"{reader.place}, {key}",
            mend="Give clamp_mm and tip_mass_g with frequency_cpm.",
        )
    return reader.number(key) * unit if key in reader.table else None


def _dry_fitted(
    reader: TableReader, parts: BuildParts, errors: PartErrors
) -> tuple[BuildParts, PartErrors]:
    """Return the parts with the head's depth found by a dry fit, and how sure that is."""
    mass = _told(reader, "mass_g", "the mass of the dry fit") * GRAM
    balance = _told(reader, "balance_inch", "the balance point of the dry fit") * INCH
    kept = _told(reader, "cut_length_inch", "the length of its shaft") * INCH
    without = reader.table.get("without", [])
    known = ("grip", "tape", *(part.name for part in parts.small))
    if not isinstance(without, list) or not set(without) <= set(known):
        raise reader.error("without", f"a list of {', '.join(known)}")
    reach = placed(
        lambda: head_reach(parts, kept, mass, balance, frozenset(without)), reader.place
    )
    head = placed(lambda: replace(parts.head, reach=reach), reader.place)
    sure = errors.balance * mass / parts.head.mass
    return replace(parts, head=head), replace(errors, reach=sure)


def _tolerances(reader: TableReader) -> Tolerances:
    given = _given(reader, TOLERANCE_KEYS)
    return placed(lambda: Tolerances(**given), reader.place)


def _errors(reader: TableReader) -> PartErrors:
    given = {name: value / NINETY_FIVE for name, value in _given(reader, ERROR_KEYS).items()}
    return placed(lambda: PartErrors(**given), reader.place)


def _given(reader: TableReader, keys: dict[str, tuple[str, float]]) -> dict[str, float]:
    found: Table = reader.table
    return {name: reader.number(key) * unit for key, (name, unit) in keys.items() if key in found}
