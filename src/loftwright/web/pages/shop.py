"""The shop record: what it taught, and learning from it anew beside everything else."""

from datetime import date
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.services.bay_check import checked_bays, read_house
from loftwright.services.bay_check_words import due_words
from loftwright.services.settings import read_settings, show_of
from loftwright.services.shop_against import said_against
from loftwright.services.shop_inside import inside
from loftwright.services.shop_newest import newest
from loftwright.services.shop_told import fittings_by_code
from loftwright.services.shop_versions import kept_versions
from loftwright.services.shop_work import TOPIC, ShopWork, Task, Work
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Typed
from loftwright.web.live import LiveState, live_events
from loftwright.web.render import has_page, part, render
from loftwright.web.state import AtWork, Here
from loftwright.web.views.shop import (
    ShopFacts,
    VersionRow,
    day_words,
    shop_view,
)
from loftwright.web.views.shop_work import WorkView, work_view

router = APIRouter(prefix="/shop", include_in_schema=False)

_MOST_VERSIONS: Final = 12
_BUSY: Final = "Not begun: something is under way already. Wait until it has ended."


@router.get("")
def show_shop(
    request: Request, studio: Here, work: AtWork, of: str = "", how: str = ""
) -> Response:
    """Show what the shop has learned."""
    return _page(request, studio, work, of, how)


@router.get("/events")
async def follow_work(request: Request, studio: Here, work: AtWork) -> Response:
    """Send how work on the record stands, as it goes on."""

    def draw() -> LiveState:
        now = work.now
        html = part("parts/shop_work.html", work=_work(studio, now))
        return LiveState(revision=now.revision, parts={"shop-work": html})

    return await live_events(request, TOPIC, draw)


@router.post("/work")
def begin(request: Request, studio: Here, work: AtWork, fields: Fields) -> Response:
    """Begin to bring the record up to date, or to learn from it."""
    typed = Typed(fields=fields)
    task = typed.word("task", Task, Task.RECORD)
    if not typed.good:
        return _page(request, studio, work, refused=_said(typed), status=422)
    if not work.start(task):
        return _page(request, studio, work, refused=_BUSY, status=409)
    return RedirectResponse("/shop#work", status_code=303)


def _page(
    request: Request,
    studio: Studio,
    work: ShopWork,
    of: str = "",
    how: str = "",
    *,
    refused: str = "",
    status: int = 200,
) -> Response:
    show = show_of(read_settings(studio).settings)
    found = newest(studio)
    learned = found.learned
    codes = [one.name for one in learned.leverage if one.kind == "golfer"] if learned else []
    facts = ShopFacts(
        rack=studio.store.rack(),
        inside=inside(studio),
        newest=found,
        versions=_versions(studio),
        fittings=fittings_by_code(studio, codes),
        against=() if learned is None else said_against(studio, learned),
    )
    return render(
        request,
        "shop_record.html",
        status=status,
        view=shop_view(facts, show, of, how),
        work=_work(studio, work.now),
        live="/shop/events",
        refused=refused,
        checks_bays=has_page(request, "/bays"),
        checks=_checks(studio),
    )


def _said(typed: Typed) -> str:
    return " ".join(f"Not begun: {one.message}. {one.mend}" for one in typed.faults.values())


def _checks(studio: Studio) -> str:
    """Return which bays wait for their check, in words."""
    if not read_house(studio).house.club:
        return "No check club is named yet: bays are told apart by golfers who hit in several."
    return f"Check club: {due_words(checked_bays(studio))}"


def _work(studio: Studio, now: Work) -> WorkView:
    return work_view(now, studio.zone, learns=inside(studio).fittings > 0)


def _versions(studio: Studio) -> tuple[VersionRow, ...]:
    return tuple(
        VersionRow(
            version=one.version,
            day=day_words(date.fromisoformat(one.made)) if one.made else "–",
            fittings=one.fittings,
            balls=one.balls,
        )
        for one in kept_versions(studio)[:_MOST_VERSIONS]
    )
