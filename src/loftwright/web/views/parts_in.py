"""Parts that came, beside the tested ones, as their page shows them."""

from dataclasses import dataclass
from typing import Final

from loftwright.domain.order import ClubSpec
from loftwright.domain.parts_acts import Matter, Part, Settled
from loftwright.domain.verdict import Fit
from loftwright.report.apart_picture import apart_picture
from loftwright.report.build_words import EVERY_SETTING
from loftwright.report.numbers import listed
from loftwright.report.parts_words import (
    FIGURE_WORDS,
    differs_words,
    settled_words,
)
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.parts import PartsNow
from loftwright.web.parts_forms import FIELDS, came_values, unit_of_field
from loftwright.web.views.part_mends import MatterView, matters_of, turn_note
from loftwright.web.views.part_rows import PICTURE, HeldRow, apart_rows, held_row
from loftwright.workshop.held import Figure, Held, Silent, Source
from loftwright.workshop.parts import PartNow, State, matter_of

STATE_WORDS: Final = {
    State.AWAITED: "to come",
    State.WRONG: "not what was ordered",
    State.OUT: "differs: say what is done",
    State.ASKS: "not measured to the end",
    State.CLOSE: "here; too close to call in a figure",
    State.SETTLED: "here and settled",
    State.FITS: "here, as the tested one",
    State.NOTED: "here; nothing to hold it to",
    State.BACK: "goes back; another is to come",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldView:
    """One figure of a form."""

    name: str
    words: str
    unit: str
    hint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartView:
    """One part.

    Attributes
    ----------
    title, state : str
    ordered : str
        What was ordered.
    here : bool
    fields : tuple of FieldView
    values : dict of str to str
        What the form holds.
    rows : tuple of HeldRow
    note : str
        What is special about it, or what is missing.
    settled : tuple of str
        What was decided.
    matters : tuple of MatterView
        What can be decided.
    can_go_back : bool
        Whether it is here and may be sent back for what it is.
    turn_note : str
        What a turn of the sleeve can or cannot do.
    next : bool
        Whether it is the one to do something about first.
    """

    part: str
    title: str
    state: str
    ordered: str
    here: bool
    fields: tuple[FieldView, ...]
    values: dict[str, str]
    rows: tuple[HeldRow, ...]
    note: str
    settled: tuple[str, ...]
    matters: tuple[MatterView, ...]
    can_go_back: bool
    turn_note: str
    next: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PartsView:
    """The page.

    Attributes
    ----------
    state : {"no_order", "off", "nothing", "parts"}
    parts : tuple of PartView
    picture, told : str
        How far the figures stand apart, drawn and in words; empty while none can be held.
    caution : str
        After a turn of the sleeve.
    cards : tuple of (str, str)
        Measured cards of what was hit: words and address.
    """

    state: str
    sentence: str
    lead: str
    parts: tuple[PartView, ...] = ()
    picture: str = ""
    told: str = ""
    caution: str = ""
    cards: tuple[tuple[str, str], ...] = ()


def parts_view(now: PartsNow, show: Show) -> PartsView:
    """Return the page of an order's parts."""
    if now.spec is None:
        return _without_order(now)
    if not now.expected:
        return PartsView(
            state="nothing",
            sentence="Nothing has to come: the golfer’s own club is kept.",
            lead="Only its sleeve or its length is changed.",
        )
    turned = any(
        one.settled is Settled.TURN_SLEEVE for one in now.parts[Part.HEAD].settled.values()
    )
    rows = apart_rows([now.parts[one] for one in now.expected], show)
    return PartsView(
        state="parts",
        sentence=_sentence(now, show),
        lead=_lead(now),
        parts=tuple(_part(now, now.spec, now.parts[one], show) for one in now.expected),
        picture=for_screen(apart_picture(rows, title=PICTURE)) if rows else "",
        told=" ".join(f"{one.name}: {one.says}." for one in rows),
        caution=EVERY_SETTING if turned else "",
        cards=_cards(now.spec),
    )


def _cards(spec: ClubSpec) -> tuple[tuple[str, str], ...]:
    """Return the measured cards of what was hit."""
    items = (("head", spec.head_piece), ("shaft", spec.shaft_piece), ("club", spec.assembly))
    return tuple(
        (f"Measured card of the tested {what}", f"/rack/items/{item}/measured")
        for what, item in items
    )


def _without_order(now: PartsNow) -> PartsView:
    if now.withdrawn is not None:
        return PartsView(
            state="off",
            sentence="The order is off: no part is checked in.",
            lead=f"Why: {now.withdrawn.reason}." if now.withdrawn.reason else "",
        )
    return PartsView(
        state="no_order",
        sentence="No order is agreed: parts have nothing to be held to yet.",
        lead="They are held to the club that was hit and agreed on.",
    )


def _sentence(now: PartsNow, show: Show) -> str:
    parts = [now.parts[one] for one in now.expected]
    of = {state: [str(one.part) for one in parts if one.state is state] for state in State}
    if of[State.WRONG]:
        return f"The {listed(of[State.WRONG])} {_are(of[State.WRONG])} not what was ordered."
    differs = next((one for one in parts if one.state is State.OUT), None)
    if differs is not None:
        told = differs_words(differs.part, _out(differs), show)
        return f"{told[0].upper()}{told[1:]}: settle it before anything is glued."
    if of[State.ASKS]:
        return f"The {listed(of[State.ASKS])} {_are(of[State.ASKS])} not measured to the end."
    waiting = [str(one.part) for one in parts if one.state in {State.AWAITED, State.BACK}]
    if waiting:
        return _waiting(waiting, of[State.BACK], len(parts))
    if of[State.CLOSE]:
        return (
            f"Everything is here; a figure of the {listed(of[State.CLOSE])} is too close to call."
        )
    return "Everything is here and settled: it can be built."


def _waiting(waiting: list[str], back: list[str], ordered: int) -> str:
    if back:
        return f"The {listed(back)} {'goes' if len(back) == 1 else 'go'} back; another is awaited."
    if len(waiting) == ordered:
        return f"Nothing has come yet: {listed(waiting)} {_are(waiting)} awaited."
    return f"What came is settled; {listed(waiting)} {_are(waiting)} still to come."


def _are(names: list[str]) -> str:
    return "is" if len(names) == 1 else "are"


def _lead(now: PartsNow) -> str:
    if now.builder:
        return f"{now.builder} builds it: check in what comes here, or what was measured there."
    if Part.HEAD not in now.expected:
        return "The own head stays; the rest is held to the club that was hit."
    source = now.tested[Part.HEAD].known[Figure.LOFT].source
    if source is Source.CARD and now.card is not None:
        day = now.card.day
        return f"The head is held to the tested one’s measured card of {day.day} {day:%B %Y}."
    if source is Source.CLUB_CARD:
        return "The head is held to the measured card of the whole tested club."
    return (
        "The tested head has no measured card: its angles are those it joined the fitting with, "
        "printed or measured."
    )


def _out(part: PartNow) -> list[Held]:
    return [
        one
        for one in part.held
        if one.fit is Fit.OUT
        and Matter.WHOLE not in part.settled
        and matter_of(part.part, one.figure) not in part.settled
    ]


def _part(now: PartsNow, spec: ClubSpec, part: PartNow, show: Show) -> PartView:
    came = part.came
    matters = tuple(matters_of(now, spec, part, show))
    return PartView(
        part=part.part.value,
        title=part.part.value.capitalize(),
        state=STATE_WORDS[part.state],
        ordered=_ordered(now, spec, part.part),
        here=came is not None and part.state is not State.BACK,
        fields=tuple(
            FieldView(name=one.name, words=one.words, unit=unit_of_field(one, show), hint=one.hint)
            for one in FIELDS[part.part]
        ),
        values={}
        if came is None or part.state is State.BACK
        else came_values(came, spec.hand, show),
        rows=tuple(held_row(one, show) for one in part.held),
        note=_note(part),
        settled=tuple(settled_words(one, show) for one in part.settled.values()),
        matters=matters,
        can_go_back=bool(matters) or part.state is State.WRONG,
        turn_note=turn_note(now, spec) if _angles_differ(matters) else "",
        next=part.part is _first(now),
    )


def _angles_differ(matters: tuple[MatterView, ...]) -> bool:
    return any(one.name == Matter.ANGLES for one in matters)


def _first(now: PartsNow) -> Part | None:
    """Return the part to do something about first: one that differs before one to come."""
    urgent = (State.WRONG, State.OUT, State.ASKS, State.AWAITED, State.BACK)
    for state in urgent:
        for part in now.expected:
            if now.parts[part].state is state:
                return part
    return None


def _ordered(now: PartsNow, spec: ClubSpec, part: Part) -> str:
    if part is Part.HEAD:
        return f"{spec.head}, {spec.hand.value}-handed"
    if part is Part.SLEEVE:
        angles = now.parts[Part.HEAD].settled.get(Matter.ANGLES)
        if angles is not None and angles.settled is Settled.TURN_SLEEVE:
            return f"to be set to {angles.setting}; ordered {spec.setting}"
        return f"to be set to {spec.setting}"
    return spec.shaft if part is Part.SHAFT else spec.grip


def _note(part: PartNow) -> str:
    came = part.came
    if came is None:
        return ""
    if came.other_hand:
        return "It is for the other hand."
    if came.named:
        return f"It is {came.named}."
    mass = part.line(Figure.MASS)
    if part.part is Part.HEAD and mass is not None and mass.silent is Silent.NOTHING_KNOWN:
        return "Nobody weighed the tested head: weigh it, and this one can be held to it."
    asked = [FIGURE_WORDS[one.figure] for one in part.held if one.asked]
    return f"Measure its {listed(asked)}: nothing is guessed." if asked else ""
