"""The pick-up as its page shows it: whether the built club plays as the tested one."""

from dataclasses import dataclass
from typing import Final

from loftwright.domain.check_acts import Against, PickedUp
from loftwright.evidence.same_club import RANGE, SameClub
from loftwright.report.numbers import count
from loftwright.report.pick_up_picture import Apart, pick_up_picture
from loftwright.report.pick_up_words import (
    NAMES,
    apart_words,
    level_words,
    limit_words,
    ordered_numbers,
    range_words,
    said_objection,
    said_sentence,
    stands_words,
    told_at_pick_up,
)
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.pick_up import PickUpNow
from loftwright.services.pick_up_balls import BUILT_SET, FIRST_SET

FOUND: Final = {
    Against.CONSISTENT: "the balls were consistent with the tested club",
    Against.NOT: "the balls were not those of the tested club",
    Against.CANNOT_TELL: "the balls could not tell",
    None: "no balls were compared",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberRow:
    """One number of both clubs."""

    name: str
    tested: str
    built: str
    apart: str
    range: str
    explained: str
    margin: str
    stands: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PickUpView:
    """The pick-up's page.

    Attributes
    ----------
    state : {"barred", "unmet", "ready", "begun", "taken", "left"}
        What can be done: nothing yet, hand over without balls, begin, hit and hand over; taken
        or left by the golfer.
    bar_step : str
        The step where what bars it is mended.
    notes : tuple of str
        What is not as on the tested club's day, or missing.
    told : tuple of str
        What the golfer is told with the club.
    complaint : bool
        Whether beginning again is because of a complaint.
    on_visit, answered : bool
        Whether its visit is open today, and whether the balls gave one of the three answers.
    """

    state: str
    sentence: str
    objection: str
    bar_step: str
    built: str
    tested: str
    picture: str
    rows: tuple[NumberRow, ...]
    counts: str
    notes: tuple[str, ...]
    told: tuple[str, ...]
    closed: bool
    complaint: bool
    on_visit: bool
    answered: bool
    seen: int


def pick_up_view(found: PickUpNow, show: Show, *, today: bool) -> PickUpView:
    """Return the pick-up's page.

    Parameters
    ----------
    found : PickUpNow
    show : Show
    today : bool
        Whether a visit is open today.
    """
    state, pair, said = _state(found), found.pair, found.said
    sentence, objection = _sentence(found, state, show)
    tested = "" if pair is None else pair.tested_label
    built = "" if found.begun is None else found.begun.built
    drawn = bool(said is not None and said.numbers)
    return PickUpView(
        state=state,
        sentence=sentence,
        objection=objection,
        bar_step="" if found.bar is None else found.bar.step,
        built=built,
        tested=tested,
        picture=_picture(said, show, built, tested) if said is not None and drawn else "",
        rows=_rows(said, show) if said is not None else (),
        counts="" if said is None else _counts(said, built, tested),
        notes=_notes(found),
        told=told_at_pick_up(sleeve=pair is None or bool(pair.spec.settings)),
        closed=found.now.closed,
        complaint=found.picked is not None and found.picked.taken,
        on_visit=today and state == "begun",
        answered=said is not None and said.against is not None,
        seen=found.seen,
    )


def _state(found: PickUpNow) -> str:
    if found.picked is not None:
        return "taken" if found.picked.taken else "left"
    if found.bar is not None:
        return "barred" if found.bar.step else "unmet"
    return "ready" if found.begun is None else "begun"


def _sentence(found: PickUpNow, state: str, show: Show) -> tuple[str, str]:
    if found.picked is not None:
        return _ended(found.picked), found.picked.note
    if found.bar is not None:
        return f"No pick-up balls: {found.bar.message}.", found.bar.mend
    pair = found.pair
    if state == "ready" and pair is not None:
        first = pair.tested_label if pair.rotation else "Own"
        return (
            f"The built club can be hit against {pair.tested_label}.",
            f"In turn: {FIRST_SET} balls with {first}, {BUILT_SET} with the built club, and both "
            "once more.",
        )
    if found.carry_alone:
        return (
            "Nothing can be said: this device gives no launch and spin.",
            "Its own carry does not part the club from the day.",
        )
    if found.said is None:
        return "No ball yet with the built club or the tested one.", "The order stands in the bay."
    return said_sentence(found.said, show), said_objection(found.said, show)


def _ended(picked: PickedUp) -> str:
    what = FOUND[picked.against]
    if picked.taken:
        return f"The golfer has the club; {what}."
    return f"The golfer left the club here; {what}."


def _counts(said: SameClub, built: str, tested: str) -> str:
    return f"{count(said.built, 'ball')} with {built}, {count(said.tested, 'ball')} with {tested}"


def _rows(said: SameClub, show: Show) -> tuple[NumberRow, ...]:
    return tuple(
        NumberRow(
            name=f"{NAMES[one.name][0].upper()}{NAMES[one.name][1:]}",
            tested=level_words(one.name, one.tested, show),
            built=level_words(one.name, one.built, show),
            apart=apart_words(one.name, one.apart.mean, show),
            range=range_words(one, show),
            explained=limit_words(one.name, one.explained, show),
            margin=limit_words(one.name, one.margin, show),
            stands=stands_words(one),
        )
        for one in ordered_numbers(said)
    )


def _picture(said: SameClub, show: Show, built: str, tested: str) -> str:
    rows = []
    for one in ordered_numbers(said):
        low, high = one.apart.interval(RANGE)
        rows.append(
            Apart(
                name=f"{NAMES[one.name][0].upper()}{NAMES[one.name][1:]}",
                words=apart_words(one.name, one.apart.mean, show),
                best=one.apart.mean / one.margin,
                low=low / one.margin,
                high=high / one.margin,
                explained=one.explained / one.margin,
                within=one.within,
            )
        )
    title = f"{built} less {tested}, each number with its range against its margin"
    return for_screen(pick_up_picture(rows, title=title, built=built, tested=tested))


def _notes(found: PickUpNow) -> tuple[str, ...]:
    pair = found.pair
    if pair is None:
        return ()
    told = []
    if pair.gone:
        told.append(
            f"{pair.gone[0].upper()}{pair.gone[1:]}: only its balls of the earlier day stand "
            "against the built club. Nothing ties the two days together but clubs hit on both, "
            "the golfer’s own."
        )
    tested = found.now.club(pair.tested)
    if tested is not None and pair.spec.setting != tested.card.setting:
        told.append(f"{pair.tested} was chosen with its sleeve at {pair.spec.setting}: set it so.")
    if found.unlike:
        falls = (
            "Today it falls on both clubs alike; the earlier balls count for less."
            if pair.rotation
            else "What differs may be that and not the club."
        )
        told += [*(f"Not as on the day of {pair.tested}. {one}" for one in found.unlike), falls]
    return tuple(told)
