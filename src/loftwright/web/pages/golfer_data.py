"""A golfer's copy, what is kept in plain words, and the page that asks before an erase."""

from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import UsageError
from loftwright.services.erasing import erase_everywhere
from loftwright.services.erasing_look import look
from loftwright.services.exporting import zipped
from loftwright.services.key_copies import KEPT
from loftwright.services.retention import change_years, read_years
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.web.attempts import DONE, attempt
from loftwright.web.errors import error_answer
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.golfer_data import erase_view

router = APIRouter(include_in_schema=False)

_PLACES: Final = {"golfer": "initials", "years": "years"}


@router.get("/golfers/{golfer}/copy")
def get_copy(golfer: str, studio: Here) -> Response:
    """Send everything that is kept of a golfer as one file."""
    return Response(
        zipped(studio, golfer),
        media_type="application/zip",
        headers={
            "Content-Disposition": 'attachment; filename="copy-for-the-golfer.zip"',
            "Cache-Control": "no-store",
        },
    )


@router.get("/golfers/{golfer}/erase")
def ask_before(request: Request, golfer: str, studio: Here) -> Response:
    """Show what an erase takes, and ask; on the main screen alone, for the owner."""
    if getattr(request.state, "device", None) is not None:
        return _owners(request)
    return _page(request, studio, golfer)


@router.post("/golfers/{golfer}/erase")
def erase(request: Request, golfer: str, studio: Here, fields: Fields) -> Response:
    """Erase a golfer whose initials were typed."""
    if getattr(request.state, "device", None) is not None:
        return _owners(request)
    going = look(studio, golfer)
    typed = Typed(fields=fields)
    said = typed.text("initials", need=f"Type {going.initials} to erase.")
    if said and _plain(said) != _plain(going.initials):
        typed.fail("initials", "these are not the golfer’s initials", f"Type {going.initials}.")
    status = attempt(typed, lambda: erase_everywhere(studio, golfer), _PLACES)
    if status != DONE:
        return _page(request, studio, golfer, form=typed.filled, status=status)
    return RedirectResponse("/people?kept=erased#erase", status_code=DONE)


@router.post("/people/years")
def say_years(request: Request, studio: Here, fields: Fields) -> Response:
    """Say after how many years without a visit golfers are due; for the owner."""
    if getattr(request.state, "device", None) is not None:
        return _owners(request)
    typed = Typed(fields=fields)
    years = typed.whole("years", least=1, most=50, need="Give a number of years.")
    version = typed.whole("version", least=0, most=999_999_999, need="Open the page again.")
    status = attempt(
        typed, lambda: change_years(studio, years or 0, version=version or 0), _PLACES
    )
    said = "years" if status == DONE else "no-years"
    return RedirectResponse(f"/people?kept={said}#due", status_code=DONE)


@router.get("/what-is-kept")
def tell_what_is_kept(request: Request, studio: Here) -> Response:
    """Show in plain words what is kept of a golfer, to be printed and handed over."""
    return render(
        request,
        "what_is_kept.html",
        called=read_settings(studio).settings.shop,
        years=read_years(studio).value,
        days=KEPT.days,
    )


def _page(
    request: Request,
    studio: Studio,
    golfer: str,
    *,
    form: Filled | None = None,
    status: int = 200,
) -> Response:
    return render(
        request,
        "erase.html",
        status=status,
        view=erase_view(look(studio, golfer)),
        form=form or Filled(),
        at=f"/golfers/{golfer}",
    )


def _plain(text: str) -> str:
    return "".join(one for one in text.casefold() if one.isalnum())


def _owners(request: Request) -> Response:
    error = UsageError(
        "erasing is the owner’s to do",
        place=request.url.path,
        mend="Do it on the main screen of the studio.",
    )
    return error_answer(request, error, 403)
