"""What the workshop has to build, without a golfer's name."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.report.numbers import count
from loftwright.report.sheet_words import STEP_WORDS
from loftwright.services.job_parts import still_read
from loftwright.services.workshop_list import (
    WorkshopJob,
    WorkshopList,
    job_of_code,
    workshop_jobs,
)
from loftwright.web.forms import Filled, Typed
from loftwright.web.render import render
from loftwright.web.state import Here

router = APIRouter(include_in_schema=False)


@router.get("/build")
def show_list(request: Request, studio: Here) -> Response:
    """Show every job of the workshop, or open the one whose sheet was scanned or typed."""
    typed = Typed(fields=dict(request.query_params))
    status = 200
    if typed.given("code"):
        found = typed.tried("code", lambda: job_of_code(studio, typed.text("code")))
        if found is not None:
            return RedirectResponse(f"/build/{found}", status_code=303)
        status = 422
    told = workshop_jobs(studio)
    return render(
        request,
        "build_list.html",
        status=status,
        here="/build",
        sentence=_sentence(told),
        jobs=[(one, _state(one)) for one in told.jobs],
        not_shown=_not_shown(told.not_shown),
        still_read=still_read(told.unread),
        find=typed.filled if status != 200 else Filled(),
    )


def _sentence(told: WorkshopList) -> str:
    first = next((one for one in told.jobs if not (one.stopped or one.checked)), None)
    if not told.going:
        return "Nothing waits to be built."
    if first is None:
        return f"{count(told.going, 'club')} to build."
    due = f", promised for {first.promised:%-d %B}" if first.promised else ""
    if told.going == 1:
        return f"One club to build: {first.code}{due}."
    return f"{told.going} clubs to build; first {first.code}{due}."


def _not_shown(many: int) -> str:
    if not many:
        return ""
    does = "does" if many == 1 else "do"
    return f"{count(many, 'other club')} {does} not stand here: open one by its sheet."


def _state(job: WorkshopJob) -> str:
    if job.checked:
        return "Checked and accepted"
    if job.stopped:
        return "Stopped: the order is off or waits for agreement"
    if not job.revision:
        return "No sheet yet"
    if job.next is None:
        return "Built; the final check is next"
    return f"Next: {STEP_WORDS[job.next][0].lower()}"
