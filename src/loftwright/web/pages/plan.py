"""The plan: what is hit in which order, what it will show, and how the visit begins."""

from collections.abc import Mapping
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.bay.now import FittingNow
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer
from loftwright.domain.names import OWN
from loftwright.errors import ConvergenceError, InputError
from loftwright.evidence.plan import MINUTE
from loftwright.report.screen_numbers import Show
from loftwright.services.belongings import golfer_kind, speed_word
from loftwright.services.fittings import USUAL_BALLS, plan_visit
from loftwright.services.golfers import known_golfer, limits_today
from loftwright.services.promise import promised_now
from loftwright.services.rack import Candidate, candidates
from loftwright.services.settings import Settings, read_settings, show_of
from loftwright.services.shop_against import said_against
from loftwright.services.shop_newest import Learned, newest, of_version
from loftwright.services.shortlist_kept import listed_now
from loftwright.services.studio import Studio
from loftwright.services.visit_start import (
    balls_left,
    late_by,
    pace_now,
    plan_again,
    seconds_left,
    start_visit,
    visit_is_open,
)
from loftwright.web.attempts import DONE, attempt
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.job import job_of
from loftwright.web.plan_forms import (
    BY_HAND,
    LEFT_CHECKS,
    MOST_MINUTES,
    PLACES,
    SURFACES,
    TREATMENTS,
    USUAL_MINUTES,
    device_of,
    read_start,
    read_wish,
)
from loftwright.web.render import render
from loftwright.web.state import ActKey, Actor, Here, Seen
from loftwright.web.views.plan import PlanFacts, plan_view
from loftwright.web.views.rack_rows import Choice
from loftwright.web.views.shop_shaft import lines_by_shaft
from loftwright.web.views.shortlist import ShortlistView, not_listed, shortlist_view

router = APIRouter(prefix="/fittings/{fitting}/plan", include_in_schema=False)

FIRST_TICKED: Final = 4
LATE: Final = (5, 10, 20)
_PLACES: Final = {"seen": "plan"}
"""A stale page is told of the whole form, not of its hidden field."""


@router.get("")
def show_plan(request: Request, fitting: str, studio: Here) -> Response:
    """Show what can be hit, the plan that stands and what it will show."""
    return _page(request, studio, fitting)


@router.post("")
def make(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Make the plan, or another one."""
    typed = Typed(fields=fields)
    wish = read_wish(typed)
    now = studio.standing(fitting)

    def plan() -> None:
        _not_closed(now)
        if wish is not None:
            pace = pace_now(studio, now)
            plan_visit(studio, fitting, wish, by=by, key=key, pace=pace, seen=seen)

    status = attempt(typed, plan, _PLACES)
    if status != DONE:
        return _page(request, studio, fitting, wished=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{fitting}/plan", status_code=DONE)


@router.post("/late")
def again(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Plan again: so many minutes late, or so many minutes there are."""
    typed = Typed(fields=fields)
    late = typed.whole("late", least=1, most=MOST_MINUTES)
    there = typed.whole("minutes", least=1, most=MOST_MINUTES)
    if late is None and there is None:
        typed.fields.setdefault("minutes", "")
        typed.fail("minutes", "no minutes were given", "Give the minutes that there are.")
    now = studio.standing(fitting)
    seconds = late_by(studio, now, late) if late is not None else (there or 0) * MINUTE

    def plan() -> None:
        _not_closed(now)
        plan_again(studio, fitting, seconds, by=by, key=key, seen=seen)

    status = attempt(typed, plan, _PLACES)
    if status != DONE:
        return _page(request, studio, fitting, late=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{fitting}/plan", status_code=DONE)


@router.post("/start")
def start(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Open the visit, unless something hurts."""
    settings = read_settings(studio).settings
    golfer = known_golfer(studio, studio.store.fitting(fitting).value.golfer)
    typed = Typed(fields=fields)
    settled = read_start(typed, golfer.golfer, settings)
    if settled is not None and settled.pain:
        job = job_of(request, fitting, "plan")
        return render(request, "pain.html", job=job, name=golfer.identity.name)

    def begin() -> None:
        if settled is not None:
            start_visit(studio, fitting, settled, by=by, key=key, seen=seen)

    status = attempt(typed, begin, _PLACES)
    if status != DONE:
        return _page(request, studio, fitting, begun=typed.filled, status=status)
    return RedirectResponse(f"/fittings/{fitting}/bay", status_code=DONE)


def _not_closed(now: FittingNow) -> None:
    if now.closed:
        raise InputError(
            "this fitting is closed", place="plan", mend="Undo the closing in the bay first."
        )


def _facts(
    studio: Studio, opened: Fitting, settings: Settings, asked: Mapping[str, str]
) -> PlanFacts:
    known = known_golfer(studio, opened.golfer)
    now = studio.standing(opened.id)
    offered = candidates(studio, known.golfer, opened.bay, settings.convention)
    device = device_of(asked.get("device", ""), settings)
    marked = asked.get("marked", "yes") == "yes"
    return PlanFacts(
        golfer=known.golfer,
        name=known.identity.name,
        now=now,
        candidates=offered,
        claims=promised_now(now, device, known.golfer.home, marked=marked),
        open=visit_is_open(studio, now),
        pace=pace_now(studio, now),
        limits=limits_today(studio, opened.golfer),
        minutes_left=seconds_left(studio, now) / MINUTE,
        balls_left=balls_left(now),
        record=_record(studio, known.golfer, now, offered, show_of(settings)),
    )


def _found(studio: Studio, now: FittingNow) -> Learned:
    """Return what the shop learned: the version of an open visit, else the newest."""
    return of_version(studio, now.learned) if visit_is_open(studio, now) else newest(studio)


def _record(
    studio: Studio, golfer: Golfer, now: FittingNow, offered: tuple[Candidate, ...], show: Show
) -> dict[str, tuple[str, ...]]:
    """Return what the shop record says of shafts for golfers like this one."""
    found = _found(studio, now)
    pieces = {one.assembly.shaft for one in offered if not one.other_kind}
    kind = golfer_kind(golfer, speed_word(golfer.head_speed))
    against = () if found.learned is None else said_against(studio, found.learned)
    rack = studio.store.rack()
    return lines_by_shaft(found, rack, pieces, show, against=against, kind=kind)


def _ticked(facts: PlanFacts, wished: Filled | None) -> frozenset[str]:
    """Return what the form has ticked: what was typed, what is planned, or the first few."""
    if wished is not None:
        return frozenset(wished.value("club").split(","))
    now = facts.now
    if now.plan is None:
        able = [one.assembly.id for one in facts.candidates if not (one.why_not or one.other_kind)]
        return frozenset(able[:FIRST_TICKED])
    planned = {name for name, _ in now.plan.plan.sets}
    return frozenset(
        club.card.assembly
        for club in now.clubs
        if club.name in planned and club.name != OWN and not club.out
    )


def _page(
    request: Request,
    studio: Studio,
    fitting: str,
    *,
    wished: Filled | None = None,
    late: Filled | None = None,
    begun: Filled | None = None,
    status: int = 200,
) -> Response:
    opened = studio.store.fitting(fitting).value
    settings = read_settings(studio).settings
    asked = dict(request.query_params)
    facts = _facts(studio, opened, settings, asked)
    show = show_of(settings)
    names = [device.name for device in settings.devices] + [BY_HAND]
    usual = {"balls": str(USUAL_BALLS), "minutes": str(USUAL_MINUTES)}
    if facts.now.plan is not None:
        plan = facts.now.plan.plan
        minutes = plan.seconds / MINUTE if plan.seconds is not None else 0.0
        usual = {
            "balls": str(facts.balls_left if facts.open else plan.balls),
            "minutes": f"{facts.minutes_left if facts.open else minutes:.0f}" if minutes else "",
            "blind": "yes" if plan.blind else "",
        }
    return render(
        request,
        "plan.html",
        status=status,
        job=job_of(request, fitting, "plan"),
        view=plan_view(facts, show, settings.currency, _ticked(facts, wished)),
        shortlist=_shortlist(studio, facts, opened.bay, show),
        own_shaft=_own_shaft(studio, facts.golfer),
        wished=wished or Filled(typed=usual),
        late=late or Filled(),
        begun=begun or Filled(typed={"device": asked.get("device", names[0])}),
        asked={"device": asked.get("device", names[0]), "marked": asked.get("marked", "yes")},
        devices=[Choice(value=name, text=name) for name in names],
        strips={
            "surface": _choices(SURFACES),
            "place": _choices(PLACES),
            "treatment": _choices(TREATMENTS),
        },
        left_checks=LEFT_CHECKS,
        lateness=LATE,
        seen=facts.now.upto,
        bay=opened.bay,
        record_fault=_found(studio, facts.now).why_not,
    )


def _shortlist(studio: Studio, facts: PlanFacts, bay: str, show: Show) -> ShortlistView:
    try:
        found = listed_now(studio, facts.golfer, facts.now, bay)
    except (InputError, ConvergenceError) as error:
        return not_listed(error.message, error.mend)
    return shortlist_view(found, show)


def _own_shaft(studio: Studio, golfer: Golfer) -> str:
    club = studio.store.rack().assemblies.get(golfer.own or "")
    return "" if club is None else club.shaft


def _choices(words: tuple[str, ...]) -> list[Choice]:
    return [Choice(value=one, text=one.capitalize()) for one in words]
