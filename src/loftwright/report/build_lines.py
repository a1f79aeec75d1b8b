"""A build, a check, a sleeve and a swingweight as lines of a terminal."""

from typing import Final, NamedTuple

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    GRAM,
    INCH,
    KILOGRAM_SQUARE_CENTIMETRE,
    MILLIMETRE,
    OUNCE_INCH,
)
from loftwright.domain.build_sheet import CheckedBuild, SolvedBuild, TurnedSleeve
from loftwright.domain.built import Checked, TargetLine
from loftwright.domain.verdict import Fit, Reading
from loftwright.physics.build.club import Club
from loftwright.physics.build.grip import BuildUp
from loftwright.physics.build.swingweight import (
    FULCRUM,
    OFFICIAL_FULCRUM,
    SwingweightScale,
    letters,
)
from loftwright.physics.build.trades import Instead
from loftwright.physics.build.uncertainty import NINETY_FIVE
from loftwright.report.build_words import (
    CHECKED_WORDS,
    EVERY_SETTING,
    FOOTER,
    check_warnings,
    contradiction_words,
    grip_words,
    limit_words,
    not_measured_words,
    obstacle_words,
    solve_warnings,
    trade_words,
)
from loftwright.report.layout import facts, notes, paragraph, table
from loftwright.report.numbers import NONE, count, fixed, listed, signed

INERTIA: Final = KILOGRAM_SQUARE_CENTIMETRE


class _Shown(NamedTuple):
    unit: str
    size: float
    digits: int


_SHOWN: Final = {
    Checked.LENGTH: _Shown("in", INCH, 2),
    Checked.SWINGWEIGHT: _Shown("points", 1.0, 1),
    Checked.MASS: _Shown("g", GRAM, 1),
    Checked.BALANCE: _Shown("in", INCH, 2),
    Checked.INERTIA: _Shown("kg cm²", INERTIA, 0),
    Checked.LOFT: _Shown("deg", DEGREE, 2),
    Checked.LIE: _Shown("deg", DEGREE, 2),
    Checked.FACE: _Shown("deg", DEGREE, 2),
    Checked.FREQUENCY: _Shown("cpm", CYCLE_PER_MINUTE, 1),
    Checked.GRIP: _Shown("in", INCH, 3),
}
_FITS: Final = {Fit.IN: "in", Fit.OUT: "out", Fit.CANNOT_TELL: "cannot tell"}


def solve_lines(solved: SolvedBuild) -> list[str]:
    """Return a solved build in words: what to cut and add, what it comes to, what to mind."""
    answer, scale = solved.answer, solved.sheet.target.scale
    lines = paragraph(_answer(solved))
    if answer.club is not None and answer.feasible:
        lines += ["", *_figures(solved, answer.club), "", *facts(_cut_order(solved))]
    if solved.trades:
        lines += ["", "What can be built of these parts:", *_trades(solved.trades, scale)]
    return [*lines, *notes(solve_warnings(solved))]


def check_lines(checked: CheckedBuild) -> list[str]:
    """Return a checked club in words: its targets, the published limits, what is not measured."""
    lines = paragraph(_told(checked))
    if checked.targets:
        headings = ("", "measured", "±", "target", "tolerance", "")
        rows = [_row(line) for line in checked.targets]
        lines += ["", *table(headings, rows, left=(0, 5))]
    said = [contradiction_words(one) for one in checked.contradicted]
    lines += notes(said, "These readings cannot all be right:")
    if checked.limits:
        lines += ["", *paragraph(f"Edition looked at: {checked.rules.edition}.")]
        method = checked.measured.method
        for line in checked.limits:
            lines += paragraph(limit_words(line, method), "  ", "    ")
    return [
        *lines,
        *notes(not_measured_words(checked), "Not measured here:"),
        "",
        *paragraph(FOOTER),
        *notes([*check_warnings(checked), EVERY_SETTING]),
    ]


def sleeve_lines(sleeve: TurnedSleeve, hand: str) -> list[str]:
    """Return a turned sleeve in words, under the three conventions."""

    def said(angle: float) -> str:
        return fixed(angle / DEGREE, 2)

    rows = [
        ("shaft kept", said(sleeve.kept.loft), NONE, _face(sleeve.kept.face)),
        (
            "head soled flat",
            said(sleeve.soled.loft),
            said(sleeve.soled.lie),
            _face(sleeve.soled.face),
        ),
        ("face squared", said(sleeve.squared.loft), NONE, "square"),
    ]
    points = "right" if hand == "right" else "left"
    turns = "" if hand == "right" else " Seen from the grip its marks run the other way round."
    return [
        *paragraph(
            f"One sleeve, three lofts: {said(sleeve.kept.loft)}° with the shaft kept, "
            f"{said(sleeve.soled.loft)}° soled flat, {said(sleeve.squared.loft)}° with the face "
            "squared."
        ),
        "",
        *table(("What is held", "loft, deg", "lie, deg", "face, deg"), rows),
        "",
        *facts([("Design lie, deg", said(sleeve.design_lie))]),
        *notes(
            (
                f"for a {hand}-handed golfer: open points {points}.{turns}",
                "printed sleeve values are nominal: measure on a gauge, and write down by which "
                "of the three it works",
                "the shaft turns with its sleeve: print, spine and a ribbed grip",
            )
        ),
    ]


def swingweight_lines(
    mass: float, balance: float, scale: SwingweightScale, points: Reading
) -> list[str]:
    """Return a swingweight in words.

    Parameters
    ----------
    mass, balance : float
        Of the club, its balance point from the top of the grip [kg, m].
    scale : SwingweightScale
    points : Reading
        Above A0, with their doubt.
    """
    own = "by your own scale" if scale.calibrated else "by the usual scale"
    rows = [
        ("Moment about 14 in", f"{fixed(mass * (balance - FULCRUM) / OUNCE_INCH, 2)} oz in"),
        (
            "Moment about 12 in",
            f"{fixed(mass * (balance - OFFICIAL_FULCRUM) / OUNCE_INCH, 2)} oz in",
        ),
    ]
    doubt = fixed(points.half_width, 1)
    lines = [f"{letters(points.value)} {own}, ± {doubt} points.", "", *facts(rows)]
    if not scale.calibrated:
        lines += notes(
            [
                "D0 at 213.5 oz in is from memory: give a calibration club that was read on your "
                "own scale",
            ]
        )
    return lines


def _face(angle: float) -> str:
    size = fixed(abs(angle) / DEGREE, 2)
    if float(size) == 0.0:
        return "square"
    return f"{size} {'open' if angle > 0.0 else 'closed'}"


def _answer(solved: SolvedBuild) -> str:
    answer, scale = solved.answer, solved.sheet.target.scale
    if not answer.feasible or answer.club is None or answer.cuts is None:
        why = listed([obstacle_words(one) for one in answer.reasons])
        return f"These parts cannot make it: {why}."
    adds = [f"add {fixed((answer.head_added or 0.0) / GRAM, 1)} g to the head"]
    if len(answer.target.wanted) > 1:
        adds.append(f"{fixed((answer.butt_added or 0.0) / GRAM, 1)} g in the butt")
    club, cuts = answer.club, answer.cuts
    return (
        f"Cut the shaft to {fixed(cuts.kept / INCH, 3)} in, {listed(adds)}: "
        f"{fixed(club.length / INCH, 2)} in, {_letters(club, scale)}, "
        f"{fixed(club.mass / GRAM, 1)} g."
    )


def _letters(club: Club, scale: SwingweightScale) -> str:
    return letters(scale.index(club.moment_about(FULCRUM)))


def _figures(solved: SolvedBuild, club: Club) -> list[str]:
    errors, scale = solved.errors, solved.sheet.target.scale
    twelve = fixed(club.moment_about(OFFICIAL_FULCRUM) / OUNCE_INCH, 1)
    rows = []
    for checked, value in (
        (Checked.LENGTH, club.length),
        (Checked.MASS, club.mass),
        (Checked.BALANCE, club.balance),
        (Checked.SWINGWEIGHT, scale.index(club.moment_about(FULCRUM))),
        (Checked.INERTIA, club.inertia),
    ):
        shown = _SHOWN[checked]
        size = NONE if errors is None else NINETY_FIVE * getattr(errors, checked.value)
        doubt = size if isinstance(size, str) else fixed(size / shown.size, shown.digits)
        tolerance = getattr(solved.sheet.tolerances, checked.value)
        figure = (
            letters(value)
            if checked is Checked.SWINGWEIGHT
            else fixed(value / shown.size, shown.digits)
        )
        rows.append(
            (
                f"{CHECKED_WORDS[checked]}, {shown.unit}",
                figure,
                doubt,
                fixed(tolerance / shown.size, max(shown.digits, 1)),
            )
        )
    rows.append(("moment about 12 in, oz in", twelve, "", ""))
    return table(("", "comes to", "±", "tolerance"), rows)


def _cut_order(solved: SolvedBuild) -> list[tuple[str, str]]:
    """Return the cuts in the order in which they are made."""
    cuts, parts = solved.answer.cuts, solved.sheet.parts
    if cuts is None:
        return []
    plane = fixed(parts.head.to_plane / INCH, 3)
    rows = [
        ("1. Raw shaft", f"{fixed(cuts.raw / INCH, 3)} in, weighed and looked at"),
        (
            "2. Tip trim",
            f"{fixed(cuts.tip_trim / INCH, 3)} in ({fixed(cuts.tip_piece.mass / GRAM, 1)} g)"
            if cuts.tip_trim > 0.0
            else "none",
        ),
        ("3. Dry fit", f"measure seated tip to 60-degree plane again: {plane} in here"),
        (
            "4. Butt cut",
            f"{fixed(cuts.butt_cut / INCH, 3)} in ({fixed(cuts.butt_piece.mass / GRAM, 1)} g), "
            f"{fixed(cuts.kept / INCH, 3)} in left",
        ),
        ("5. Dry check", "length, weight and balance point again, then the bond"),
    ]
    if solved.sheet.build_up is not None:
        rows += _grip(solved.sheet.build_up, solved.sheet.also.get(Checked.GRIP))
    found = solved.frequency
    if found is not None:
        size = CYCLE_PER_MINUTE
        doubt = fixed(NINETY_FIVE * found.error / size, 1)
        change = fixed(NINETY_FIVE * found.change_error / size, 1)
        rows += [
            (
                "Frequency",
                f"{fixed(found.raw / size, 1)} cpm raw, {fixed(found.tip_trimmed / size, 1)} "
                f"after the tip trim, {fixed(found.cut / size, 1)} ± {doubt} cut",
            ),
            ("", f"the cuts add {signed((found.cut - found.raw) / size)} ± {change} cpm"),
            (
                "",
                f"clamp {fixed((solved.clamp or 0.0) / MILLIMETRE)} mm, weight "
                f"{fixed((solved.tip_mass or 0.0) / GRAM)} g on the tip",
            ),
        ]
    return rows


def _grip(made: BuildUp, wanted: float | None) -> list[tuple[str, str]]:
    """Return what a grip comes to, and the turns of tape that its target asks for."""
    turns = count(1, "turn") if made.wraps == 1.0 else f"{made.wraps:g} turns"
    rows = [("6. Grip", f"{turns} of tape: {grip_words(made)}; calliper it")]
    if wanted is not None:
        few, many = (fixed(one, 1) for one in made.wraps_to(wanted))
        rows.append(("", f"{fixed(wanted / INCH, 3)} in would take {few} to {many} turns"))
    return rows


def _trades(trades: tuple[Instead, ...], scale: SwingweightScale) -> list[str]:
    headings = ("", "length, in", "head, g", "butt, g", "mass, g", "", "kg cm²")
    rows = [
        (
            trade_words(one),
            fixed(one.club.length / INCH, 2),
            signed(one.head_added / GRAM),
            signed(one.butt_added / GRAM),
            fixed(one.club.mass / GRAM, 1),
            _letters(one.club, scale),
            fixed(one.club.inertia / INERTIA),
        )
        for one in trades
    ]
    return table(headings, rows)


def _told(checked: CheckedBuild) -> str:
    if not checked.targets:
        return "Nothing that has a target was measured."
    fits = [line.fit for line in checked.targets]
    parts = [
        f"{fits.count(fit)} {word}"
        for fit, word in ((Fit.OUT, "out"), (Fit.CANNOT_TELL, "cannot be told"), (Fit.IN, "in"))
        if fit in fits
    ]
    return f"Of {count(len(fits), 'reading')} with a target: {listed(parts)}."


def _row(line: TargetLine) -> tuple[str, ...]:
    shown = _SHOWN[line.checked]

    def said(value: float) -> str:
        return fixed(value / shown.size, shown.digits)

    points = line.checked is Checked.SWINGWEIGHT
    target = letters(line.target) if points else said(line.target)
    return (
        f"{CHECKED_WORDS[line.checked]}, {shown.unit}",
        letters(line.reading.value) if points else said(line.reading.value),
        said(line.reading.half_width),
        target if line.asked else f"({target})",
        fixed(line.tolerance / shown.size, max(shown.digits, 1)),
        _FITS[line.fit],
    )
