"""A golfer's bag as its page shows it."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright.domain.bag import Bag, BagClub, BagKind, Known, Timed
from loftwright.domain.bag_figures import Step, disagreeing, figure_of, same_set_up, steps
from loftwright.domain.bag_runs import RUNNING, Run, row_of, runs
from loftwright.domain.build_sheet import LengthMethod
from loftwright.domain.limits import Kind, LimitLine, Measured, Rules, limit_lines
from loftwright.domain.verdict import Side
from loftwright.physics.build.swingweight import USUAL_SCALE, SwingweightScale
from loftwright.report.bag_picture import DRAWN, Drawn, DrawnClub, bag_picture
from loftwright.report.bag_words import (
    KNOWN_WORDS,
    Finding,
    apart_words,
    bag_finding,
    doubt_words,
    figure_words,
    half_inch_words,
    left_out_words,
    limit_line_words,
    mass_and_balance,
    rise_words,
    set_up_words,
)
from loftwright.report.build_words import FOOTER, SIDE_WORDS, contradiction_words
from loftwright.report.numbers import NONE, count
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.bag_sources import Offered
from loftwright.web.views.rack_rows import Choice

KINDS: Final = tuple(Choice(value=one.value, text=one.value.capitalize()) for one in BagKind)
METHOD_CHOICES: Final = (
    Choice(value="plane", text="By the 60-degree plane"),
    Choice(value="ruler", text="By a ruler at the playing lie"),
)
TIP_CHOICES: Final = (
    Choice(value="head", text="Its own head"),
    Choice(value="weight", text="A weight"),
)
_PARTED: Final = re.compile(r"(?<=\d) (?=in\b|mm\b|g\b|cpm\b|kg )|(?<=kg) (?=cm)|(?<=±) (?=\d)")
_LIMIT_KINDS: Final = {BagKind.PUTTER: Kind.PUTTER, BagKind.WOOD: Kind.WOOD}
_STEP_KNOWN: Final = (Known.LENGTH, Known.MASS, Known.SWINGWEIGHT, Known.INERTIA, Known.FREQUENCY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A figure with what stands under it; a dash where it is not known."""

    text: str
    under: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubLine:
    """A club of the table."""

    name: str
    kind: str
    source: str
    loft: str
    length: Cell
    weight: Cell
    swingweight: Cell
    inertia: Cell
    frequency: Cell
    leads: bool
    spare: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StepLine:
    """From one club to the next."""

    names: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferLine:
    """A club that can be taken over."""

    key: str
    name: str
    words: str
    why_not: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BagView:
    """A bag's page.

    Attributes
    ----------
    limits : tuple of str
        Lengths that are not below a published limit, each in words.
    limits_below : str
        How many are.
    points : str
        How a swingweight is typed.
    """

    finding: Finding
    picture: str
    clubs: tuple[ClubLine, ...]
    steps: tuple[StepLine, ...]
    per_half_inch: str
    left_out: str
    contradicted: tuple[str, ...]
    limits: tuple[str, ...]
    limits_below: str
    footer: str
    offers: tuple[OfferLine, ...]
    points: str
    units: dict[str, str]
    kinds: tuple[Choice, ...] = KINDS
    methods: tuple[Choice, ...] = METHOD_CHOICES
    tips: tuple[Choice, ...] = TIP_CHOICES


@dataclass(frozen=True, slots=True, kw_only=True)
class BagFacts:
    """What a bag's page is drawn from."""

    bag: Bag
    scale: SwingweightScale
    edition: str
    offers: tuple[Offered, ...]


def bag_view(facts: BagFacts, show: Show) -> BagView:
    """Return a bag's page.

    Parameters
    ----------
    facts : BagFacts
    show : Show
    """
    bag, scale = facts.bag, facts.scale
    played = bag.in_play
    found = runs(played, scale)
    set_ups = {one.name: one.timed for one in played if one.timed is not None}
    derived = any(row_of(one) is not None and _derived(one, scale) for one in played)
    finding = bag_finding(
        len(played), found, set_ups, show, scale_known=scale.calibrated or not derived
    )
    lines = tuple(_limits(bag, facts.edition))
    return BagView(
        finding=finding,
        picture=for_screen(bag_picture(_drawn(played, found, scale), show=show)),
        clubs=tuple(
            _club_line(one, found, scale, show, finding.club) for one in (*played, *bag.spares)
        ),
        steps=tuple(_step_line(one, show) for one in steps(played, scale) if one.apart),
        per_half_inch=half_inch_words(show),
        left_out=left_out_words(_lacking(played, scale)),
        contradicted=tuple(_contradicted(bag.clubs, scale, show)),
        limits=tuple(
            limit_line_words(name, line, show) for name, line in lines if not _clear(line)
        ),
        limits_below=_below_words(lines),
        footer=f"{facts.edition}. {FOOTER}",
        offers=tuple(_offer_line(one, bag, show) for one in facts.offers),
        points=f"D2 or {show.words('D2.5')}",
        units={name: show.unit(name).name for name in ("length", "mass", "angle", "mark")},
    )


def _derived(club: BagClub, scale: SwingweightScale) -> bool:
    figure = figure_of(club, Known.SWINGWEIGHT, scale)
    return figure is not None and figure.derived


def _lacking(clubs: Sequence[BagClub], scale: SwingweightScale) -> dict[Known, tuple[str, ...]]:
    """Return the clubs with a figure that no run can place, by what they lack for it."""
    rowed = [one for one in clubs if row_of(one) is not None]
    return {
        Known.LOFT: tuple(
            one.name for one in rowed if one.length is not None and one.loft is None
        ),
        Known.LENGTH: tuple(
            one.name
            for one in rowed
            if one.length is None
            and any(figure_of(one, known, scale) is not None for known in RUNNING)
        ),
    }


def _club_line(
    club: BagClub, found: Sequence[Run], scale: SwingweightScale, show: Show, leads: str
) -> ClubLine:
    out = {run.known: one for run in found for one in run.out if one.name == club.name}

    def cell(known: Known, *under: str) -> Cell:
        figure = figure_of(club, known, scale)
        if figure is None:
            return Cell(text=NONE)
        told = [
            doubt_words(known, figure.reading.half_width, show),
            *(one for one in under if one),
        ]
        if known in out and not club.spare:
            told.append(f"{apart_words(known, out[known].apart, show)} off the run")
        words = _together("; ".join(told))
        return Cell(text=figure_words(known, figure.reading.value, show), under=words)

    weight, balance = mass_and_balance(club.mass, club.balance, show)
    ruler = "by ruler" if club.method is LengthMethod.RULER else ""
    derived = "from weight and balance" if _derived(club, scale) else ""
    swung = "by pendulum" if club.inertia is None and club.swung is not None else ""
    how = "" if club.timed is None else set_up_words(club.timed, show)
    return ClubLine(
        name=club.name,
        kind=club.kind.value,
        source=f"from {club.source}" if club.source else "",
        loft=NONE if club.loft is None else show.angle(club.loft),
        length=cell(Known.LENGTH, ruler),
        weight=Cell(text=weight or NONE, under=_together(balance)),
        swingweight=cell(Known.SWINGWEIGHT, derived),
        inertia=cell(Known.INERTIA, swung),
        frequency=cell(Known.FREQUENCY, how),
        leads=club.name == leads and not club.spare,
        spare=club.spare,
    )


def _together(text: str) -> str:
    """Return words in which no figure parts from its unit or from the sign before it."""
    return _PARTED.sub("\N{NO-BREAK SPACE}", text)


def _step_line(step: Step, show: Show) -> StepLine:
    cells = [
        Cell(
            text=apart_words(known, step.apart[known].value, show),
            under=doubt_words(known, step.apart[known].half_width, show),
        )
        if known in step.apart
        else Cell(text=NONE)
        for known in _STEP_KNOWN
    ]
    rise = step.rise
    text, under = (NONE, "") if rise is None else rise_words(rise, show)
    return StepLine(
        names=f"{step.before} to {step.after}", cells=(*cells, Cell(text=text, under=under))
    )


def _drawn(
    clubs: Sequence[BagClub], found: Sequence[Run], scale: SwingweightScale
) -> list[DrawnClub]:
    """Return the clubs of the picture: putters belong to no row and lie far off every rule."""
    clubs = [one for one in clubs if one.kind is not BagKind.PUTTER]
    set_up = _usual_set_up(clubs)
    drawn = []
    for club in clubs:
        figures = {}
        for known in DRAWN:
            figure = figure_of(club, known, scale)
            if figure is None:
                continue
            other = known is Known.FREQUENCY and not _is(club.timed, set_up)
            figures[known] = Drawn(
                value=figure.reading.value, half_width=figure.reading.half_width, hollow=other
            )
        row = row_of(club)
        drawn.append(
            DrawnClub(
                name=club.name,
                figures=figures,
                line={
                    run.known: dict(run.line)[club.name] for run in found if club.name in run.names
                },
                out={
                    run.known: one.apart
                    for run in found
                    for one in run.out
                    if one.name == club.name
                },
                row="" if row is None else row.value,
            )
        )
    return drawn


def _usual_set_up(clubs: Sequence[BagClub]) -> Timed | None:
    """Return the set-up in which most frequencies of a bag were read."""
    every = [one.timed for one in clubs if one.timed is not None]
    alike = {id(one): sum(same_set_up(one, other) for other in every) for one in every}
    return max(every, key=lambda one: alike[id(one)], default=None)


def _is(timed: Timed | None, set_up: Timed | None) -> bool:
    return timed is not None and set_up is not None and same_set_up(timed, set_up)


def _contradicted(clubs: Sequence[BagClub], scale: SwingweightScale, show: Show) -> Iterator[str]:
    for club in clubs:
        for one in disagreeing(club, scale):
            yield show.words(f"{club.name}: {contradiction_words(one)}.")


def _limits(bag: Bag, edition: str) -> Iterator[tuple[str, LimitLine]]:
    """Yield the lengths by the 60-degree plane beside the limits that are published for them."""
    rules = Rules(edition=edition, local_length=bag.local_length)
    for club in bag.clubs:
        if club.length is None or club.method is not LengthMethod.PLANE:
            continue
        figure = figure_of(club, Known.LENGTH, USUAL_SCALE)
        if figure is not None:
            kind = _LIMIT_KINDS.get(club.kind, Kind.IRON)
            for line in limit_lines({Measured.LENGTH: figure.reading}, kind, rules):
                yield club.name, line


def _clear(line: LimitLine) -> bool:
    return line.side is (Side.ABOVE if line.limit.least else Side.BELOW)


def _below_words(lines: Sequence[tuple[str, LimitLine]]) -> str:
    upper = [line for _, line in lines if not line.limit.least]
    below = sum(_clear(line) for line in upper)
    if not below:
        return ""
    return f"{count(below, 'length')} by the 60-degree plane: {SIDE_WORDS[Side.BELOW]}."


def _offer_line(one: Offered, bag: Bag, show: Show) -> OfferLine:
    club = one.club
    if club is None:
        return OfferLine(key=one.key, name=one.name, words=one.source, why_not=one.why_not)
    told = [
        f"{KNOWN_WORDS[known]} {figure_words(known, value, show)}"
        for known in (Known.LOFT, *RUNNING)
        if (value := club.value(known)) is not None
    ]
    there = " Its figures take the place of those in the bag." if bag.club(one.name) else ""
    words = f"From {one.source}: {', '.join(told)}.{there}"
    return OfferLine(key=one.key, name=one.name, words=words, why_not="")
