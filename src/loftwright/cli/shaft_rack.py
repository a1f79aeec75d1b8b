"""Shafts by name: show one, find its like, preview its trims, tell its frequency."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loftwright.cli.options import JsonFlag, example, quantity
from loftwright.cli.output import emit_lines, emit_record
from loftwright.errors import UsageError

if TYPE_CHECKING:
    from loftwright.domain.bench_figures import SetUp
    from loftwright.services.shafts_at_hand import FoundShaft

Name = Annotated[
    str,
    typer.Argument(metavar="NAME", help="Its id, label or model in the rack, or READINGS.csv."),
]
RackFile = Annotated[
    Path | None,
    typer.Option("--rack", metavar="RACK", help="A rack file; the studio's rack without it."),
]
Length = Annotated[
    str | None,
    typer.Option("--length", metavar="MM", help="Of the shaft of a table of readings."),
]
Clamp = Annotated[str, typer.Option("--clamp", metavar="MM", help="How much of the butt is held.")]
TipMass = Annotated[
    str, typer.Option("--tip-mass", metavar="G", help="On the tip end for the frequency.")
]
SectionShare = Annotated[
    str | None, typer.Option(metavar="%", help="Firmer by so much there, softer with a minus.")
]
CLAMP: Final = "127"
TIP_MASS: Final = "205"
COUNT: Final = 5


class By(StrEnum):
    """What likeness is measured in."""

    BENDING = "bending"
    TWIST = "twist"
    WEIGHT = "weight"
    BALANCE = "balance"


def add_commands(group: typer.Typer) -> None:
    """Add the commands on shafts by name."""
    shown = (
        'loftwright shaft show "Badger 1"',
        "loftwright shaft show readings.csv --length 1168 --json",
    )
    group.command("show", epilog=example(*shown))(show)
    likes = (
        'loftwright shaft like "Badger 1"',
        'loftwright shaft like "Badger 1" --tip +10% --butt -5%',
        'loftwright shaft like "Badger 1" --by weight --rack rack.json',
    )
    group.command("like", epilog=example(*likes))(like)
    trims = (
        'loftwright shaft trim "Badger 1" --tip 0.5in',
        "loftwright shaft trim readings.csv --length 1168 --wraps 2 --tape-thickness 0.13",
    )
    group.command("trim", epilog=example(*trims))(trim)
    swung = ('loftwright shaft frequency "Badger 1" --clamp 5in --tip-mass 205',)
    group.command("frequency", epilog=example(*swung))(frequency)


def show(
    name: Name,
    clamp: Clamp = CLAMP,
    tip_mass: TipMass = TIP_MASS,
    length: Length = None,
    rack: RackFile = None,
    as_json: JsonFlag = False,
) -> None:
    """Show a measured shaft: EI by section, frequency, torque, weight, balance.

    What was not read has no figure.
    """
    from loftwright.domain.bench_figures import bench_figures  # noqa: PLC0415
    from loftwright.report.shaft_shown import show_lines, show_record  # noqa: PLC0415

    found, set_up = _found(name, rack, length), _set_up(clamp, tip_mass)
    told = (found.name, found.measured, bench_figures(found.measured, set_up), set_up)
    if as_json:
        emit_record(show_record(*told, _mind(found)))
    else:
        emit_lines(show_lines(*told, _mind(found)))


def frequency(
    name: Name,
    clamp: Clamp,
    tip_mass: TipMass,
    length: Length = None,
    rack: RackFile = None,
    as_json: JsonFlag = False,
) -> None:
    """Tell how a measured shaft swings in a clamp with a weight on its tip end.

    A frequency without clamp and weight means nothing, so that both must be given.
    """
    from loftwright.domain.bench_figures import bench_figures  # noqa: PLC0415
    from loftwright.report.shaft_shown import frequency_lines, frequency_record  # noqa: PLC0415

    found, set_up = _found(name, rack, length), _set_up(clamp, tip_mass)
    told = (found.name, bench_figures(found.measured, set_up), set_up, _mind(found))
    if as_json:
        emit_record(frequency_record(*told))
    else:
        emit_lines(frequency_lines(*told))


def like(
    name: Name,
    butt: SectionShare = None,
    upper_middle: SectionShare = None,
    lower_middle: SectionShare = None,
    tip: SectionShare = None,
    by: Annotated[By, typer.Option(help="What likeness is measured in.")] = By.BENDING,
    count: Annotated[
        int, typer.Option(metavar="COUNT", min=1, help="Shafts that are shown in words.")
    ] = COUNT,
    length: Length = None,
    rack: RackFile = None,
    as_json: JsonFlag = False,
) -> None:
    """Find the measured shafts that play like one, or like it with a section firmer or softer."""
    from loftwright.domain.sections import Section  # noqa: PLC0415
    from loftwright.domain.sought import Sought  # noqa: PLC0415
    from loftwright.report.shaft_likes import like_lines, like_record  # noqa: PLC0415
    from loftwright.services import shaft_like, shafts_at_hand  # noqa: PLC0415

    asked = {
        "butt": butt,
        "upper-middle": upper_middle,
        "lower-middle": lower_middle,
        "tip": tip,
    }
    shares = {
        Section(option.replace("-", " ")): quantity(text, "%", f"--{option}")
        for option, text in asked.items()
        if text is not None
    }
    sought = Sought(by=by.value, shares=shares)
    at_hand = shafts_at_hand.open_rack(rack)
    liked = shaft_like.like(_found(name, rack, length), at_hand, sought, shafts_at_hand.now())
    if as_json:
        emit_record(like_record(liked))
    else:
        emit_lines(like_lines(liked, count))


def trim(
    name: Name,
    tip: Annotated[str | None, typer.Option(metavar="MM", help="Cut off the tip.")] = None,
    butt: Annotated[str | None, typer.Option(metavar="MM", help="Cut off the butt.")] = None,
    wraps: Annotated[
        int | None, typer.Option(metavar="COUNT", help="Of tape under the grip.")
    ] = None,
    tape_thickness: Annotated[
        str | None, typer.Option(metavar="MM", help="Of one layer of that tape.")
    ] = None,
    butt_diameter: Annotated[
        str | None, typer.Option(metavar="MM", help="Of a shaft like this with another butt.")
    ] = None,
    wall: Annotated[
        str | None, typer.Option(metavar="MM", help="Of the tube at the butt, kept by the other.")
    ] = None,
    clamp: Clamp = CLAMP,
    tip_mass: TipMass = TIP_MASS,
    length: Length = None,
    rack: RackFile = None,
    as_json: JsonFlag = False,
) -> None:
    """Preview trims and build-up: EI by section, frequency, torque, weight, balance.

    Nothing is cut or kept. Build-up copies the size in the hand, not the stiffness.
    """
    from loftwright.domain.shaft_preview import Trims, preview  # noqa: PLC0415
    from loftwright.report.shaft_shown import trim_lines, trim_record  # noqa: PLC0415

    given = (tip, butt, wraps, tape_thickness, butt_diameter, wall)
    if all(one is None for one in given):
        raise UsageError(
            "there is nothing to preview",
            place="loftwright shaft trim",
            mend="Give --tip, --butt, --wraps with --tape-thickness, or --butt-diameter with "
            "--wall.",
        )
    trims = Trims(
        tip=_or_none(tip, "--tip") or 0.0,
        butt=_or_none(butt, "--butt") or 0.0,
        wraps=wraps or 0,
        tape=_or_none(tape_thickness, "--tape-thickness") or 0.0,
        butt_diameter=_or_none(butt_diameter, "--butt-diameter"),
        wall=_or_none(wall, "--wall"),
    )
    found = _found(name, rack, length)
    shown = preview(found.measured, trims, _set_up(clamp, tip_mass))
    if as_json:
        emit_record(trim_record(found.name, shown, _mind(found)))
    else:
        emit_lines(trim_lines(found.name, shown, _mind(found)))


def _found(name: str, rack: Path | None, length: str | None) -> "FoundShaft":
    from loftwright.services.shafts_at_hand import find_shaft  # noqa: PLC0415

    return find_shaft(name, rack, _or_none(length, "--length"))


def _set_up(clamp: str, tip_mass: str) -> "SetUp":
    from loftwright.domain.bench_figures import SetUp  # noqa: PLC0415

    return SetUp(
        clamp=quantity(clamp, "mm", "--clamp"), weight=quantity(tip_mass, "g", "--tip-mass")
    )


def _or_none(text: str | None, option: str) -> float | None:
    return None if text is None else quantity(text, "mm", option)


def _mind(found: "FoundShaft") -> list[str]:
    """Return what else is to be minded of a shaft that a table of readings tells."""
    from loftwright.report.numbers import listed  # noqa: PLC0415

    if not found.doubted:
        return []
    rows = listed([str(one) for one in found.doubted])
    which = f"Row {rows} looks" if len(found.doubted) == 1 else f"Rows {rows} look"
    return [f"{which} wrong and counts as it stands; see `loftwright shaft bench`."]
