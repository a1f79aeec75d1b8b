"""A complaint as golfer and fitter read it together."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from loftwright.bay.now import FittingNow, Swing
from loftwright.domain.after_acts import Look, LookedAt
from loftwright.domain.built import Checked
from loftwright.domain.home import Home
from loftwright.domain.order import ClubSpec
from loftwright.physics.build.swingweight import letters
from loftwright.report.after_words import day_words
from loftwright.report.complaint_words import (
    BALLS_SAID,
    ENDINGS,
    FIGURE_NAMES,
    FOUND_WORDS,
    LOOK_ASKS,
    LOOK_NAMES,
    SHEET_WORDS,
    SINCE_WORDS,
    WHAT_THEN,
    ended_words,
    part_words,
    place_words,
    suggested_words,
)
from loftwright.report.home_words import wind_words
from loftwright.report.numbers import count, fixed
from loftwright.report.screen_numbers import Show
from loftwright.services.complaint import PlaceEffect, ReadAgain
from loftwright.web.after_forms import AS_FOUND
from loftwright.web.views.rack_rows import Choice
from loftwright.workshop.complaint import Complaint, ComplaintNow


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureRow:
    """A figure of the club read again."""

    name: str
    before: str
    sheet: str
    now: str
    word: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRow:
    """One of the six looks.

    Attributes
    ----------
    found, words : str
        Empty while it was not taken.
    """

    look: str
    number: int
    name: str
    found: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The look that the form below asks for.

    Attributes
    ----------
    facts : tuple of str
        What is known of the same thing in the bay.
    """

    look: str
    name: str
    question: str
    facts: tuple[str, ...]
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlierRow:
    """A complaint that ended."""

    day: str
    said: str
    ending: str
    words: str
    found: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ComplaintView:
    """The page of a complaint."""

    sentence: str
    under: str
    said: tuple[str, ...]
    looks: tuple[LookRow, ...]
    figures: tuple[FigureRow, ...]
    place: tuple[str, ...]
    asked: Asked | None
    endings: tuple[Choice, ...]
    suggested: str
    earlier: tuple[EarlierRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ComplaintFacts:
    """What a complaint's page is made of.

    Attributes
    ----------
    fitting : FittingNow
    ordered : datetime
        Balls before it were hit in the fitting, later ones because of the order.
    asked : Look or None
        The look whose form is shown; None for none.
    effect : PlaceEffect or None
        Of the look at the place, where a total was said.
    """

    now: ComplaintNow
    spec: ClubSpec | None
    fitting: FittingNow
    ordered: datetime
    home: Home
    asked: Look | None
    readings: tuple[ReadAgain, ...]
    effect: PlaceEffect | None


def complaint_view(facts: ComplaintFacts, show: Show) -> ComplaintView:
    """Return the page of a complaint.

    Parameters
    ----------
    facts : ComplaintFacts
    show : Show
    """
    one, now = facts.now.open, facts.now
    sentence, under = _sentence(facts, show)
    ending = now.suggested.ending
    return ComplaintView(
        sentence=sentence,
        under=under,
        said=() if one is None else _said(one, facts.spec, show),
        looks=() if one is None else _looks(one.looks),
        figures=tuple(_figure(line, show) for line in facts.readings),
        place=_place(facts, show),
        asked=None if facts.asked is None else _asked(facts.asked, facts, show),
        endings=tuple(
            Choice(value=one.value, text=f"{words}. {WHAT_THEN[one]}")
            for one, words in ENDINGS.items()
        ),
        suggested="" if ending is None else f"The findings speak for: {_lower(ENDINGS[ending])}.",
        earlier=tuple(_earlier(done) for done in now.earlier),
    )


def _sentence(facts: ComplaintFacts, show: Show) -> tuple[str, str]:
    one, now = facts.now.open, facts.now
    if one is not None:
        place = (
            ""
            if facts.effect is None
            else place_words(facts.effect.together, one.said.short, show)
        )
        return suggested_words(now.suggested, one.next_look, len(one.looks), place)
    if now.earlier and (ended := now.earlier[0].ended) is not None:
        return ended_words(ended.ending), ended.words or WHAT_THEN[ended.ending]
    return (
        "Nobody complained of this club.",
        "If it does not do what it did, write that down first; then look at it together.",
    )


def _said(one: Complaint, spec: ClubSpec | None, show: Show) -> tuple[str, ...]:
    short = "" if one.said.short is None else f" Shorter by {show.yards(one.said.short)}."
    told = [f"{day_words(one.said.day)}: “{one.said.words}”{short}"]
    if spec is not None and spec.promise is not None:
        told.append(
            f"Said when it was chosen: {show.yards(spec.promise.total)} with the run, at "
            f"{spec.promise.home}."
        )
    return tuple(told)


def _looks(looks: Mapping[Look, LookedAt]) -> tuple[LookRow, ...]:
    return tuple(
        LookRow(
            look=one.value,
            number=place,
            name=LOOK_NAMES[one],
            found=FOUND_WORDS[one][looks[one].found] if one in looks else "",
            words=looks[one].words if one in looks else "",
        )
        for place, one in enumerate(Look, start=1)
    )


def _asked(look: Look, facts: ComplaintFacts, show: Show) -> Asked:
    choices = [Choice(value=one.value, text=words) for one, words in FOUND_WORDS[look].items()]
    if look in {Look.MEASURED, Look.PLACE}:
        choices.insert(0, Choice(value=AS_FOUND, text="As the figures say"))
    return Asked(
        look=look.value,
        name=LOOK_NAMES[look],
        question=LOOK_ASKS[look],
        facts=_known(look, facts, show),
        choices=tuple(choices),
    )


def _known(look: Look, facts: ComplaintFacts, show: Show) -> tuple[str, ...]:
    """Return what is known of a look from the bay and the order."""
    swings = [one for one in facts.fitting.swings if one.at < facts.ordered]
    strip = next((one.strip for one in reversed(swings) if one.compared), None)
    if look is Look.BALL:
        ball = strip.ball if strip is not None else ""
        return (f"Hit in the bay: {ball or 'nobody wrote the ball down'}.",)
    if look is Look.PLACE:
        hit = " ".join(x for x in (strip.surface, strip.place) if x) if strip is not None else ""
        return (*_at_home(facts, show), f"Hit in the bay: {hit or 'nobody wrote down from what'}.")
    if look is Look.WARM_UP:
        return (_warm_up(swings, facts.fitting),)
    if look is Look.SETTINGS and facts.spec is not None:
        sleeve = facts.spec.setting
        return (f"Handed over with the sleeve at {sleeve}." if sleeve else "No sleeve: glued.",)
    if look is Look.HIT_AGAIN:
        balls = None if facts.now.open is None else facts.now.open.balls
        how = "Same ball, same place, the two clubs in turn: then only the club differs."
        return (how if balls is None else BALLS_SAID[balls],)
    return ()


def _at_home(facts: ComplaintFacts, show: Show) -> tuple[str, ...]:
    home = facts.home
    said = None if facts.spec is None else facts.spec.promise
    air = (
        f"At {home.name}: {show.temperature(home.temperature)}, {show.altitude(home.altitude)}, "
        f"{home.turf} ground, {wind_words(home, show)}."
    )
    if said is None or said.home == home.name:
        return (air,)
    return (f"It was said for {said.home}; the golfer’s course is now another.", air)


def _warm_up(swings: list[Swing], fitting: FittingNow) -> str:
    if not swings:
        return "Nobody hit a ball in this fitting."
    visit = swings[-1].visit
    warm = sum(one.warm_up and one.visit == visit for one in swings)
    warm += sum(one.unseen for one in fitting.visits if one.index == visit)
    return f"In the bay: {count(warm, 'swing')} before the first ball that counts."


def _place(facts: ComplaintFacts, show: Show) -> tuple[str, ...]:
    one, effect = facts.now.open, facts.effect
    if one is None or effect is None:
        return ()
    where = one.looks[Look.PLACE].where
    hit = "" if where is None else ", ".join(x for x in (where.surface, where.place) if x)
    told = [place_words(effect.together, one.said.short, show), part_words(effect.parts, show)]
    return tuple([*told, f"Hit from: {hit}."] if hit else told)


def _figure(line: ReadAgain, show: Show) -> FigureRow:
    told = SINCE_WORDS[line.since] if line.since is not None else ""
    if line.since is None:
        told = SHEET_WORDS[line.fit] if line.fit is not None else "nothing to compare it with"
    return FigureRow(
        name=FIGURE_NAMES[line.checked],
        before="–" if line.before is None else figure_words(line.checked, line.before.value, show),
        sheet="–" if line.target is None else figure_words(line.checked, line.target, show),
        now=figure_words(line.checked, line.reading.value, show),
        word=told,
    )


def figure_words(checked: Checked, value: float, show: Show) -> str:
    """Return a figure of a club in the shop's units.

    Parameters
    ----------
    checked : Checked
    value : float
        SI, swingweight in points.
    show : Show
    """
    if checked in {Checked.LENGTH, Checked.BALANCE}:
        return show.length(value)
    if checked is Checked.SWINGWEIGHT:
        return show.words(letters(value))
    if checked is Checked.MASS:
        return show.mass(value, 1)
    if checked in {Checked.LOFT, Checked.LIE, Checked.FACE}:
        return show.angle(value)
    return show.words(fixed(value, 3))


def _earlier(done: Complaint) -> EarlierRow:
    ended = done.ended
    return EarlierRow(
        day=day_words(done.said.day),
        said=done.said.words,
        ending="" if ended is None else ENDINGS[ended.ending],
        words="" if ended is None else ended.words,
        found=tuple(
            f"{LOOK_NAMES[look]}: {_lower(FOUND_WORDS[look][told.found])}"
            for look, told in done.looks.items()
        ),
    )


def _lower(words: str) -> str:
    return words[:1].lower() + words[1:]
