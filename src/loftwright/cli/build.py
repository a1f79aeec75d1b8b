"""`loftwright build`: solve a build, hold the finished club against it, turn a sleeve."""

from pathlib import Path
from typing import Annotated

import typer

from loftwright.cli.options import Hand, JsonFlag, example, quantity, show_help_alone
from loftwright.cli.output import emit_lines, emit_record
from loftwright.errors import ConvergenceError, UsageError

_SOLVE: str = example(
    "loftwright build solve build.toml",
    "loftwright build solve build.toml --readings readings.csv --clamp 127 --tip-mass 205 --json",
)
_CHECK: str = example("loftwright build check build.toml measured.toml --json")
_SLEEVE: str = example("loftwright build sleeve --loft 10.5 --lie 58 --bore 1.5 --azimuth 0")
_SWINGWEIGHT: str = example(
    "loftwright build swingweight --mass 315.6 --balance 33.52",
    "loftwright build swingweight --mass 315.6 --balance 33.52 "
    "--reference-mass 310 --reference-balance 33.25 --reference-reads C9",
)


build = typer.Typer(rich_markup_mode=None)


@build.callback(invoke_without_command=True)
def _build(context: typer.Context) -> None:
    """Build a club: solve it, hold it against its sheet, turn its sleeve."""
    show_help_alone(context)


def register(app: typer.Typer) -> None:
    """Add the group."""
    app.add_typer(build, name="build")


@build.command(epilog=_SOLVE)
def solve(
    sheet: Annotated[
        Path, typer.Argument(metavar="BUILD.toml", help="The parts, weighed, and the targets.")
    ],
    readings: Annotated[
        Path | None,
        typer.Option(metavar="READINGS.csv", help="Of the raw shaft, to forecast its frequency."),
    ] = None,
    clamp: Annotated[
        str | None, typer.Option(metavar="MM", help="How much of the butt the clamp holds.")
    ] = None,
    tip_mass: Annotated[
        str | None, typer.Option(metavar="G", help="The weight on the tip.")
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Say what to cut off and what to add, or why these parts cannot and what they can instead.

    Exit code 7 where they cannot.
    """
    from loftwright.report.build_lines import solve_lines  # noqa: PLC0415
    from loftwright.report.build_records import solve_record  # noqa: PLC0415
    from loftwright.services.build import BenchSetUp, solve_file  # noqa: PLC0415

    bench = None
    if readings is not None:
        if clamp is None or tip_mass is None:
            raise UsageError(
                "a frequency without its clamp and weight means nothing",
                place="--clamp" if clamp is None else "--tip-mass",
                mend="Give both with --readings.",
            )
        bench = BenchSetUp(
            readings=readings,
            clamp=quantity(clamp, "mm", "--clamp"),
            tip_mass=quantity(tip_mass, "g", "--tip-mass"),
        )
    solved = solve_file(sheet, bench)
    if as_json:
        emit_record(solve_record(solved))
    else:
        emit_lines(solve_lines(solved))
    if not solved.answer.feasible:
        raise ConvergenceError(
            "these parts cannot make a club that meets every target",
            place=str(sheet),
            mend="Change a part or a target, or build one of those that can be.",
        )


@build.command(epilog=_CHECK)
def check(
    sheet: Annotated[
        Path, typer.Argument(metavar="BUILD.toml", help="The parts and the targets.")
    ],
    measured: Annotated[
        Path, typer.Argument(metavar="MEASURED.toml", help="What was measured, with its doubt.")
    ],
    as_json: JsonFlag = False,
) -> None:
    """Hold a finished club against its targets and the published limits."""
    from loftwright.report.build_lines import check_lines  # noqa: PLC0415
    from loftwright.report.build_records import check_record  # noqa: PLC0415
    from loftwright.services.build_check import check_files  # noqa: PLC0415

    checked = check_files(sheet, measured)
    if as_json:
        emit_record(check_record(checked))
    else:
        emit_lines(check_lines(checked))


@build.command(epilog=_SLEEVE)
def sleeve(
    loft: Annotated[
        str, typer.Option(metavar="DEG", help="Of the head with a straight hosel, soled flat.")
    ],
    lie: Annotated[str, typer.Option(metavar="DEG", help="Of the head with a straight hosel.")],
    bore: Annotated[str, typer.Option(metavar="DEG", help="How far the sleeve tilts the shaft.")],
    azimuth: Annotated[
        str,
        typer.Option(
            metavar="DEG", help="Where the grip end leans: 0 to the target, 90 to the player."
        ),
    ],
    face: Annotated[str, typer.Option(metavar="DEG", help="Of the head soled flat, open +.")] = (
        "0"
    ),
    hand: Annotated[Hand, typer.Option(help="The golfer's hand.")] = Hand.RIGHT,
    as_json: JsonFlag = False,
) -> None:
    """Say what a sleeve does to loft, lie and face, whatever is held."""
    from loftwright.report.build_lines import sleeve_lines  # noqa: PLC0415
    from loftwright.report.build_records import sleeve_record  # noqa: PLC0415
    from loftwright.services.build import Bore, turn_sleeve  # noqa: PLC0415

    found = turn_sleeve(
        quantity(loft, "deg", "--loft"),
        quantity(lie, "deg", "--lie"),
        quantity(face, "deg", "--face"),
        Bore(angle=quantity(bore, "deg", "--bore"), azimuth=quantity(azimuth, "deg", "--azimuth")),
    )
    if as_json:
        emit_record(sleeve_record(found, hand.value))
    else:
        emit_lines(sleeve_lines(found, hand.value))


@build.command(epilog=_SWINGWEIGHT)
def swingweight(
    mass: Annotated[str, typer.Option(metavar="G", help="Of the club.")],
    balance: Annotated[
        str, typer.Option(metavar="IN", help="Its balance point from the top of the grip.")
    ],
    mass_u95: Annotated[
        str, typer.Option("--mass-u95", metavar="G", help="Doubt of the mass, 95 in 100.")
    ] = "1",
    balance_u95: Annotated[
        str, typer.Option("--balance-u95", metavar="MM", help="Doubt of the balance point.")
    ] = "2",
    reference_mass: Annotated[
        str | None, typer.Option(metavar="G", help="Of a calibration club.")
    ] = None,
    reference_balance: Annotated[
        str | None, typer.Option(metavar="IN", help="Of a calibration club.")
    ] = None,
    reference_reads: Annotated[
        str | None, typer.Option(metavar="D0", help="What your own scale reads of it.")
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Say a club's swingweight from its mass and balance point, on no scale or on your own."""
    from loftwright.report.build_lines import swingweight_lines  # noqa: PLC0415
    from loftwright.report.build_records import swingweight_record  # noqa: PLC0415
    from loftwright.services.build import scale_of, weigh_swing  # noqa: PLC0415

    scale = scale_of(
        None if reference_mass is None else quantity(reference_mass, "g", "--reference-mass"),
        None
        if reference_balance is None
        else quantity(reference_balance, "in", "--reference-balance"),
        reference_reads,
    )
    weight, place = quantity(mass, "g", "--mass"), quantity(balance, "in", "--balance")
    points = weigh_swing(
        weight,
        place,
        scale,
        quantity(mass_u95, "g", "--mass-u95"),
        quantity(balance_u95, "mm", "--balance-u95"),
    )
    if as_json:
        emit_record(swingweight_record(weight, place, scale, points))
    else:
        emit_lines(swingweight_lines(weight, place, scale, points))
