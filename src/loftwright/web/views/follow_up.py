"""What became of a club, as its page and the list of those to be asked show it."""

from dataclasses import dataclass
from datetime import date

from loftwright.report.after_words import (
    ANSWERS,
    COURSE_WORDS,
    WHY_NOT_THE_CLUB,
    ask_words,
    asked_words,
    course_sentence,
    day_words,
    due_sentence,
    range_words,
)
from loftwright.report.numbers import count
from loftwright.report.played_picture import (
    fairways_picture,
    fairways_words,
    total_picture,
    total_words,
)
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.follow_up import MOST_SHOWN, FollowUps, Taken
from loftwright.services.golfers import KnownGolfer
from loftwright.services.job_parts import still_read
from loftwright.web.views.rack_rows import Choice
from loftwright.web.views.today import first_name
from loftwright.workshop.after import AfterNow
from loftwright.workshop.played import Compared, CourseResult, course_result


@dataclass(frozen=True, slots=True, kw_only=True)
class AskRow:
    """A golfer who has a club."""

    name: str
    invented: bool
    who: str
    contact: str
    club: str
    taken: str
    due: str
    overdue: str
    last: str
    path: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FollowUpsView:
    """The list of those to be asked."""

    sentence: str
    under: str
    due: tuple[AskRow, ...]
    not_contacted: tuple[AskRow, ...]
    later: tuple[AskRow, ...]
    shown: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenRow:
    """One figure of the course beside what was said."""

    name: str
    said: str
    seen: str
    range: str
    word: str
    picture: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundRow:
    """A round."""

    day: str
    course: str
    fairways: str
    total: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedRow:
    """A time that the golfer was asked."""

    day: str
    answer: str
    words: str
    again: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FollowUpView:
    """A fitting's page of what became of its club.

    Attributes
    ----------
    club : str
        What was taken, and when.
    ask : str
        Whom to ask and how, or why not to.
    may_ask : bool
    """

    sentence: str
    under: str
    club: str
    ask: str
    may_ask: bool
    answers: tuple[Choice, ...]
    asked: tuple[AskedRow, ...]
    seen: tuple[SeenRow, ...]
    together: str
    reasons: tuple[str, ...]
    rounds: tuple[RoundRow, ...]


def shown_words(told: FollowUps) -> str:
    """Return why a list may not show everybody; empty where it does."""
    if told.unread:
        return still_read(told.unread)
    shown = (told.due, told.not_contacted, told.later)
    if all(len(some) == there for some, there in zip(shown, told.counts, strict=True)):
        return ""
    return f"Each list shows its first {MOST_SHOWN}; the next ones come when these are done."


def follow_ups_view(told: FollowUps, growth: str, today: date) -> FollowUpsView:
    """Return the list of those to be asked.

    Parameters
    ----------
    told : FollowUps
    growth : str
        How many growth checks are due; empty for none.
    today : date
    """
    sentence, under = due_sentence(told.counts[0], told.counts[1])
    if growth:
        sentence, under = (sentence, f"{under} {growth}".strip()) if told.due else (growth, under)
    elif not (told.due or told.later or told.not_contacted):
        under = (
            "Here stands who took a club home, once the days that the shop settled have passed."
        )
    return FollowUpsView(
        sentence=sentence,
        under=under,
        due=tuple(_ask_row(one, today) for one in told.due),
        not_contacted=tuple(_ask_row(one, today) for one in told.not_contacted),
        later=tuple(_ask_row(one, today) for one in told.later),
        shown=shown_words(told),
    )


def follow_up_view(after: AfterNow, known: KnownGolfer, today: date, show: Show) -> FollowUpView:
    """Return the page of what became of a club.

    Parameters
    ----------
    after : AfterNow
    known : KnownGolfer
    today : date
    show : Show
    """
    promise = None if after.spec is None else after.spec.promise
    result = course_result(after.rounds, promise)
    sentence, under = _sentence(after, known, result, today, show)
    may_ask = known.golfer.consents.contact
    return FollowUpView(
        sentence=sentence,
        under=under,
        club=_club(after),
        ask=_whom(known),
        may_ask=may_ask,
        answers=tuple(
            Choice(value=one.value, text=words[:1].upper() + words[1:])
            for one, words in ANSWERS.items()
        ),
        asked=tuple(
            AskedRow(
                day=day_words(one.day),
                answer=ANSWERS[one.answer].capitalize(),
                words=one.words,
                again="" if one.again is None else day_words(one.again),
            )
            for one in reversed(after.asked)
        ),
        seen=_seen(result, show),
        together=_together(result, show),
        reasons=WHY_NOT_THE_CLUB,
        rounds=tuple(
            RoundRow(
                day=day_words(one.day),
                course=one.course or "–",
                fairways=f"{one.fairways} of {one.drives}",
                total="–"
                if one.total is None
                else f"{show.yards(one.total)} of {count(one.measured, 'drive')}",
            )
            for one in reversed(after.rounds)
        ),
    )


def _club(after: AfterNow) -> str:
    what = "The club" if after.spec is None else f"{after.spec.head}, {after.spec.shaft}:"
    return f"{what} taken on {day_words(after.taken)}."


def _whom(known: KnownGolfer) -> str:
    identity, minor = known.identity, known.golfer.minor
    if not known.golfer.consents.contact:
        agree = "The guardian" if minor else first_name(identity.name)
        return (
            f"{agree} did not agree to be contacted: do not ask. What is said unasked may be "
            "written down."
        )
    who = ask_words(identity.name, identity.guardian, minor=minor)
    reach = identity.contact or "how to reach them is not written down"
    return f"Ask {who}: {reach}."


def _sentence(
    after: AfterNow, known: KnownGolfer, result: CourseResult, today: date, show: Show
) -> tuple[str, str]:
    name, may_ask = first_name(known.identity.name), known.golfer.consents.contact
    waits = _waits(after, today, may_ask=may_ask)
    if after.rounds:
        told, under = course_sentence(result, len(after.rounds), show)
        return told, f"{under} {waits}".strip() if after.due and after.due <= today else under
    who = ask_words(name, known.identity.guardian, minor=known.golfer.minor)
    who += "," if "," in who else ""
    if after.due is not None and not may_ask:
        return f"{name} has the club and is not contacted.", "Nobody agreed to it."
    if after.due is None:
        last = after.asked[-1]
        return f"{asked_words(last, name)}.", last.words
    if after.due <= today:
        return f"Ask {who} how the club does.", waits
    heard = f"{asked_words(after.asked[-1], name)} so far." if after.asked else ""
    return f"Ask {who} how the club does on {day_words(after.due)}.", heard


def _waits(after: AfterNow, today: date, *, may_ask: bool) -> str:
    if after.due is None or not may_ask:
        return ""
    late = (today - after.due).days
    since = f"due since {count(late, 'day')}" if late else "due today"
    return f"Taken on {day_words(after.taken)}; {since}."


def _seen(result: CourseResult, show: Show) -> tuple[SeenRow, ...]:
    rows = []
    if (one := result.fairways) is not None:
        rows.append(
            SeenRow(
                name="Fairways in 14 drives",
                said="–" if one.said is None else show.number(one.said, 1),
                seen=show.number(one.seen, 1),
                range=range_words(one.low, one.high, show, "fairways"),
                word=_word(one),
                picture=for_screen(fairways_picture(one, show)),
                words=fairways_words(one, show),
            )
        )
    if (one := result.total) is not None:
        rows.append(
            SeenRow(
                name="Length of a drive",
                said="–" if one.said is None else show.yards(one.said),
                seen=show.yards(one.seen),
                range=range_words(one.low, one.high, show, "distance"),
                word=_word(one),
                picture=for_screen(total_picture(one, show)),
                words=total_words(one, show),
            )
        )
    return tuple(rows)


def _word(one: Compared) -> str:
    return "nothing was said" if one.word is None else COURSE_WORDS[one.word]


def _together(result: CourseResult, show: Show) -> str:
    if result.fairways is None or result.fairways.rounds < 2:
        return ""
    if result.together == 1.0:
        return "These rounds differ no more than chance makes them differ."
    return (
        f"Rounds differ more than single drives would: {show.number(result.together, 1)} times "
        "in variance, so that their drives count as fewer."
    )


def _ask_row(one: Taken, today: date) -> AskRow:
    identity, golfer, after = one.golfer.identity, one.golfer.golfer, one.after
    due = after.due or today
    last = after.asked[-1] if after.asked else None
    heard = (
        "Not asked yet"
        if last is None
        else f"{ANSWERS[last.answer].capitalize()}, {day_words(last.day)}"
    )
    return AskRow(
        name=identity.name,
        invented=one.invented,
        who=ask_words(identity.name, identity.guardian, minor=golfer.minor),
        contact=(identity.contact or "not written down") if one.may_ask else "",
        club="" if after.spec is None else f"{after.spec.head}, {after.spec.shaft}",
        taken=day_words(after.taken),
        due=day_words(due),
        overdue=_overdue((today - due).days),
        last=f"{heard}; a complaint is open" if one.complaint else heard,
        path=f"/fittings/{one.fitting}/follow-up",
    )


def _overdue(days: int) -> str:
    return "today" if days == 0 else count(days, "day")
