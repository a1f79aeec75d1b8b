"""The golfer: written down when coming in, and changed while the fitting is open."""

from typing import Final
from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.home import Hole
from loftwright.errors import ConflictError, InputError, IntakeError
from loftwright.report.screen_numbers import Show
from loftwright.services.bay_check import read_house
from loftwright.services.fittings import open_fitting
from loftwright.services.golfer_opening import change_visitor, open_for_new, visitor_of
from loftwright.services.golfers import golfers_called, golfers_of, known_golfer
from loftwright.services.leaving import fitters, refuse_gone
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Files, Filled, Typed
from loftwright.web.golfer_forms import new_values, read_visitor, visitor_values
from loftwright.web.home_forms import (
    HOME_FIELDS,
    holes_in,
    home_of_file,
    home_values,
    with_one_more_hole,
    without_hole,
)
from loftwright.web.job import job_of
from loftwright.web.render import has_page, render
from loftwright.web.state import Here, LookedFor
from loftwright.web.views.golfer import golfer_view, new_golfer_view
from loftwright.web.views.opened import opened_view
from loftwright.web.views.people import found_words

router = APIRouter(include_in_schema=False)

_MOST_KNOWN: Final = 30


@router.get("/golfers/new")
def ask_who_comes(
    request: Request, studio: Here, names: LookedFor, partner: str = "", sought: str = ""
) -> Response:
    """Show the form of a golfer who comes in."""
    find = names.text(sought)
    return _new_page(request, studio, _empty(studio), partner=partner, find=find)


@router.post("/golfers/find")
def find_known(names: LookedFor, fields: Fields) -> Response:
    """Go to golfers who were here before by a name, which stands in no address."""
    asked = {"sought": names.keep(fields.get("find", "")), "partner": fields.get("partner", "")}
    return RedirectResponse(f"/golfers/new?{urlencode(asked)}#known", status_code=303)


@router.post("/golfers/new")
def take_in(request: Request, studio: Here, fields: Fields, files: Files) -> Response:
    """Write a golfer down and open a fitting, or change the form's rows."""
    settings = read_settings(studio).settings
    partner = fields.get("partner", "")
    reshaped = _reshaped(fields, files, show_of(settings))
    if reshaped is not None:
        return _new_page(request, studio, reshaped, partner=partner)
    typed = Typed(fields=fields, show=show_of(settings))
    visitor = read_visitor(typed)
    bay = typed.one_of("bay", settings.bays, settings.bays[0])
    fitter = typed.text("fitter")
    typed.tried("fitter", lambda: refuse_gone(studio, fitter))
    if visitor is None or not typed.good:
        return _new_page(request, studio, typed.filled, partner=partner, status=422)
    opened = open_for_new(studio, visitor, bay=bay, fitter=fitter, partner=partner or None)
    return RedirectResponse(f"/fittings/{opened.id}/plan", status_code=303)


@router.post("/golfers/{golfer}/fittings")
def open_again(golfer: str, studio: Here, fields: Fields) -> Response:
    """Open another fitting for a golfer who has been here before."""
    settings = read_settings(studio).settings
    partner = fields.get("partner", "") or None
    if partner is not None:
        studio.store.fitting(partner)
    opened = open_fitting(studio, golfer, bay=settings.bays[0], partner=partner)
    return RedirectResponse(f"/fittings/{opened.id}/golfer", status_code=303)


@router.get("/fittings/{fitting}/golfer")
def show_golfer(request: Request, fitting: str, studio: Here) -> Response:
    """Show who the fitting is for."""
    kept = "Saved." if request.query_params.get("kept") else ""
    return _page(request, studio, fitting, kept=kept)


@router.post("/fittings/{fitting}/golfer")
def change(request: Request, fitting: str, studio: Here, fields: Fields, files: Files) -> Response:
    """Write down anew what is known of the golfer, or change the form's rows."""
    show = show_of(read_settings(studio).settings)
    reshaped = _reshaped(fields, files, show)
    if reshaped is not None:
        return _page(request, studio, fitting, form=reshaped)
    known = known_golfer(studio, studio.store.fitting(fitting).value.golfer)
    typed = Typed(fields=fields, show=show)
    version = typed.whole("version", least=1, most=999_999_999, need="Open the page again.")
    visitor = read_visitor(typed, known.golfer)
    if visitor is None or version is None:
        return _page(request, studio, fitting, form=typed.filled, status=422)
    try:
        change_visitor(studio, known, visitor, version=version)
    except ConflictError as error:
        stale = f"Not saved: {error.message}."
        return _page(request, studio, fitting, form=typed.filled, stale=stale, status=409)
    return RedirectResponse(f"/fittings/{fitting}/golfer?kept=yes", status_code=303)


def _reshaped(
    fields: dict[str, str], files: dict[str, tuple[str, bytes]], show: Show
) -> Filled | None:
    """Return the form with other rows if a button asked for that, keeping what was typed."""
    asked = fields.get("do", "")
    if asked == "add-hole":
        return Filled(typed=with_one_more_hole(fields, show))
    if asked.startswith("remove-") and asked.removeprefix("remove-").isdecimal():
        return Filled(typed=without_hole(fields, int(asked.removeprefix("remove-"))))
    if asked != "read-home":
        return None
    typed = Typed(fields={**fields, "home_file": ""}, show=show)
    try:
        home = home_of_file(*files.get("home_file", ("", b"")))
    except (IntakeError, InputError) as error:
        typed.fail("home_file", f"{error.place}: {error.message}", error.mend)
        return typed.filled
    left = {
        name: text
        for name, text in fields.items()
        if name not in HOME_FIELDS and not name.startswith("hole_")
    }
    return Filled(typed={**left, **home_values(home, show)})


def _empty(studio: Studio) -> Filled:
    show = show_of(read_settings(studio).settings)
    return Filled(typed=new_values(show, studio.today()))


def _new_page(
    request: Request,
    studio: Studio,
    form: Filled,
    *,
    partner: str,
    find: str = "",
    status: int = 200,
) -> Response:
    people = read_house(studio).house.people
    called = tuple(golfers_called(studio, find, people)) if find.split() else studio.store.roll()
    settings = read_settings(studio).settings
    show = show_of(settings)
    with_whom = ""
    if partner:
        with_whom = studio.store.identity(studio.store.fitting(partner).value.golfer).name
    view = new_golfer_view(
        settings,
        show,
        holes_in(Typed(fields=dict(form.typed))),
        partner=with_whom,
        known=golfers_of(studio, called, _MOST_KNOWN, people),
    )
    return render(
        request,
        "golfer.html",
        status=status,
        view=view,
        form=form,
        seek=Filled(typed={"find": find}),
        found=found_words(find, len(called), _MOST_KNOWN),
        fitters=fitters(studio),
        job=None,
        opened=None,
        bag="",
        data="",
        action="/golfers/new",
        partner=partner,
        version="",
        kept="",
        stale="",
        standard=show.yards(Hole().length),
    )


def _page(
    request: Request,
    studio: Studio,
    fitting: str,
    *,
    form: Filled | None = None,
    kept: str = "",
    stale: str = "",
    status: int = 200,
) -> Response:
    settings = read_settings(studio).settings
    show = show_of(settings)
    known = known_golfer(studio, studio.store.fitting(fitting).value.golfer)
    filled = form or Filled(typed=visitor_values(visitor_of(studio, known), show, studio.today()))
    return render(
        request,
        "golfer.html",
        status=status,
        view=golfer_view(known, settings, show, holes_in(Typed(fields=dict(filled.typed)))),
        form=filled,
        seek=Filled(),
        found="",
        fitters=(),
        job=job_of(request, fitting, "golfer"),
        opened=opened_view(studio, known.golfer.id),
        data=f"/golfers/{known.golfer.id}" if has_page(request, "/golfers/{}/copy") else "",
        owner=getattr(request.state, "device", None) is None,
        bag=f"/golfers/{known.golfer.id}/bag" if has_page(request, "/golfers/{}/bag") else "",
        action=f"/fittings/{fitting}/golfer",
        partner="",
        version=filled.value("version") if form and not stale else known.version,
        kept=kept,
        stale=stale,
        standard=show.yards(Hole().length),
    )
