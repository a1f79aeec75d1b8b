"""Which one: every way to go on, in groups that are too close to call."""

from dataclasses import dataclass, replace
from math import isfinite
from typing import Final

from loftwright.bay.cancelled import standing_entries
from loftwright.constants import DEGREE
from loftwright.domain.acts import Entry, Revealed
from loftwright.domain.names import OWN
from loftwright.evidence.result import Against, ClubResult, Decision, RankedOn
from loftwright.evidence.strokes import STROKES_PER_METRE
from loftwright.evidence.value import DRIVES_PER_ROUND
from loftwright.report.clubs_table import STROKES_ORIGIN
from loftwright.report.decided_pictures import choice_drawing, ranges_drawing
from loftwright.report.feel_line import place_words
from loftwright.report.golfer_words import shape_known
from loftwright.report.home_words import home_lines
from loftwright.report.marks import deal_marks
from loftwright.report.not_hit_words import change_lines, confirm_sentence, keep_words, made_words
from loftwright.report.numbers import LIKELY_RANGE, NONE
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.bay_now import BayNow
from loftwright.services.choice import Choice, ChoiceRow, Group, Way
from loftwright.services.choosing import Chosen
from loftwright.services.training_plays import is_training
from loftwright.services.wanted import may_be_ordered
from loftwright.web.views import choice_words
from loftwright.web.views.choice_lines import Figure, Line, Lines, with_built
from loftwright.web.views.evidence_pictures import Picture
from loftwright.web.views.nothing_yet import (
    AS_READ,
    ONE_MORE_COLUMN,
    nothing_yet,
    without_columns,
    without_drivers,
)
from loftwright.web.views.order_ways import order_link

_UNHIT: Final = frozenset({Way.TURN_SLEEVE, Way.NEW_SHAFT, Way.OWN_NOT_HIT, Way.NOT_HIT})
_MADE: Final = frozenset({Way.NEW_SHAFT, Way.TURN_SLEEVE, Way.NO_SLEEVE, Way.NOT_HIT})
"""Ways that make something else of the own club, which has a price of its own."""
_FIGURES: Final = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceView:
    """The page.

    Attributes
    ----------
    confirm : str
        What is asked before a club that was not hit may lead; empty where none is put forward.
    keep : str
        How probably keeping the own club is right.
    changes : tuple of str
        What would change the answer.
    """

    sentence: str
    objection: str
    picture: Picture | None
    groups: tuple[Lines, ...]
    units: tuple[str, str]
    against: str
    course: tuple[str, ...]
    strokes: str
    dearer: str
    straighter: str
    not_hit: str
    confirm: str
    keep: str
    changes: tuple[str, ...]
    margin: str
    revealed: bool
    undo_reveal: int | None
    device_carry: bool
    seen: int


def choice_view(
    bay: BayNow,
    chosen: Chosen,
    record: tuple[Entry, ...],
    show: Show,
    built: frozenset[str] = frozenset(),
) -> ChoiceView:
    """Return the page that answers which one.

    Parameters
    ----------
    bay : BayNow
    chosen : Chosen
    record : tuple of Entry
        For the act that revealed the names.
    show : Show
    built : frozenset of str
        Clubs that were built from this fitting and joined it to be hit against the tested one.
    """
    decision, choice = bay.evidence.decision, chosen.choice
    currency = bay.settings.currency
    rows = [row for group in choice.groups for row in group.rows]
    lead = choice_words.pick(choice, decision)
    device = decision is not None and decision.ranked_on is RankedOn.DEVICE_CARRY
    own_is_zero = decision is not None and decision.against is Against.OWN
    return ChoiceView(
        sentence=nothing_yet(bay, choice_words.choice_sentence(choice, decision, show)),
        objection=_objection(bay, decision, show),
        picture=_picture(decision, show) if decision is not None else None,
        groups=with_built(_groups(choice, decision, lead, show, currency, bay.fitting.id), built),
        units=(show.unit("distance").name, show.unit("height").name),
        against="Own" if own_is_zero else "the mean of the clubs",
        course=tuple(home_lines(decision.home, show))
        if decision is not None and not device
        else (),
        strokes=STROKES_ORIGIN,
        dearer=choice_words.why_not_dearer(choice, decision, show, currency),
        straighter=choice_words.straighter(len(bay.now.balls), decision)
        if decision is not None
        else "",
        not_hit=choice_words.not_hit_note(rows),
        confirm=_confirm(choice, decision, show),
        keep="" if choice.p_keep is None else keep_words(choice.p_keep, show),
        changes=tuple(change_lines(chosen.answers, show)),
        margin=choice_words.MARGIN,
        revealed=bay.now.revealed,
        undo_reveal=_reveal(record),
        device_carry=device,
        seen=bay.now.upto,
    )


def _objection(bay: BayNow, decision: Decision | None, show: Show) -> str:
    if without_drivers(bay):
        return AS_READ
    if without_columns(bay):
        return ONE_MORE_COLUMN
    return choice_words.choice_objection(decision, show)


def _confirm(choice: Choice, decision: Decision | None, show: Show) -> str:
    row = choice.to_confirm
    if row is None or row.p_above_leader is None or decision is None or not decision.clubs:
        return ""
    return confirm_sentence(
        made_words(row.label, show), decision.clubs[0].club, row.p_above_leader
    )


def _reveal(record: tuple[Entry, ...]) -> int | None:
    standing = (one.sequence for one in standing_entries(record) if isinstance(one.act, Revealed))
    return max(standing, default=None)


def _picture(decision: Decision, show: Show) -> Picture | None:
    marks = deal_marks([club.club for club in decision.clubs], OWN)
    drawing = choice_drawing(decision, marks, show) or ranges_drawing(
        decision, marks, show, out={}
    )
    if drawing is None:
        return None
    return Picture(heading="", svg=for_screen(drawing.svg), words=drawing.words)


def _groups(
    choice: Choice,
    decision: Decision | None,
    lead: ChoiceRow | None,
    show: Show,
    currency: str,
    fitting: str,
) -> tuple[Lines, ...]:
    device = decision is not None and decision.ranked_on is RankedOn.DEVICE_CARRY
    found = []
    for number, group in enumerate(choice.groups):
        lines = tuple(
            replace(
                _line(row, group, decision, show, currency, lead=row is lead),
                order=_order(row, fitting),
            )
            for row in group.rows
        )
        heading = choice_words.group_heading(group, number, device=device)
        found.append(Lines(heading=heading, close=group.close, lines=lines))
    return tuple(found)


def _line(
    row: ChoiceRow,
    group: Group,
    decision: Decision | None,
    show: Show,
    currency: str,
    *,
    lead: bool,
) -> Line:
    figures: tuple[Figure, ...] = ()
    reason = row.reason
    told = group.ranked or row.way in _UNHIT
    if told and decision is not None and row.result is not None:
        if decision.ranked_on is RankedOn.DEVICE_CARRY:
            reason = _device_carry(row.result, decision, show)
        else:
            figures = _figures(row.result, decision, show)
    made = row.set_up is None
    return Line(
        club=row.club,
        label=row.label if not made and row.label != row.club else "",
        head=made_words(row.label, show) if made else _head(row, show),
        built=made_words(row.reason.replace("not hit: ", ""), show) if made else _built(row, show),
        figures=figures,
        reason="" if figures or made else reason,
        tag="not hit" if row.way in _UNHIT else "",
        made=made,
        feel=_feel(row),
        price=_price(row, show, currency),
        lead=lead,
    )


def _order(row: ChoiceRow, fitting: str) -> str:
    """Return where a row is quoted; nobody orders the clubs of a training case."""
    if is_training(fitting) or not may_be_ordered(row):
        return ""
    return order_link(fitting, row.label)


def _head(row: ChoiceRow, show: Show) -> str:
    if row.set_up is None:
        return ""
    return f"{row.set_up.card.head}, {show.angle(row.set_up.angles.loft)}"


def _built(row: ChoiceRow, show: Show) -> str:
    if row.set_up is None:
        return ""
    card = row.set_up.card
    setting = f"sleeve {row.set_up.setting}" if row.set_up.setting else ""
    return " · ".join(part for part in (card.shaft, show.length(card.length), setting) if part)


def _feel(row: ChoiceRow) -> str:
    if row.feel is None:
        return NONE
    words = place_words(row.feel)
    return f"{words}: “{row.word}”" if row.word else words


def _price(row: ChoiceRow, show: Show, currency: str) -> str:
    if row.club == OWN and row.way not in _MADE:
        return "yours"
    return NONE if row.price is None else show.money(row.price, currency)


def _figures(result: ClubResult, decision: Decision, show: Show) -> tuple[Figure, ...]:
    """Return fairways, strokes, start line, curve, height, landing, carry and run."""
    level = result.level
    if level is None or not isfinite(level.total):
        return tuple(Figure(text=NONE) for _ in range(_FIGURES))
    flight = (
        _bare(show.height(level.peak_height)),
        Figure(text=show.number(level.landing_angle / DEGREE)),
        Figure(text=" + ".join(show.carry_and_run(level.carry, level.total))),
    )
    if not shape_known(decision):
        blank = Figure(text=NONE)
        return (blank, blank, blank, blank, *flight)
    return (
        Figure(text=show.number(level.fairways_in_14, 1)),
        _strokes(result, decision, show),
        Figure(text=show.side(level.start_offline)),
        Figure(text=show.side(level.curve)),
        *flight,
    )


def _device_carry(result: ClubResult, decision: Decision, show: Show) -> str:
    """Return carry as the device shows it against what all are taken against."""
    if result.club == decision.own and decision.against is Against.OWN:
        return "the club to beat"
    if result.device_carry is None:
        return NONE
    spread = show.yards_range(*result.device_carry.interval(LIKELY_RANGE))
    return f"carry on the device {show.yards_apart(result.device_carry.mean)} ({spread})"


def _bare(text: str) -> Figure:
    """Leave out a unit that stands at the head of the column."""
    return Figure(text=text.split(" ", maxsplit=1)[0])


def _strokes(result: ClubResult, decision: Decision, show: Show) -> Figure:
    """Return strokes a round against what all are taken against; fewer are better."""
    if result.value is None:
        return Figure(text=NONE)
    if result.club == decision.own and decision.against is Against.OWN:
        return Figure(text="0")
    a_round = -DRIVES_PER_ROUND * STROKES_PER_METRE
    low, high = sorted(end * a_round for end in result.value.interval(LIKELY_RANGE))
    return Figure(
        text=show.signed(result.value.mean * a_round, 2),
        under=f"{show.signed(low, 2)} to {show.signed(high, 2)}",
    )
