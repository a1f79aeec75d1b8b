"""What the build's pages share: whose they are, and how each is drawn after a form."""

from typing import Any, Final

from fastapi import Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.sheet_acts import Step
from loftwright.services.build_sheets import BuildNow, build_now
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.web.attempts import DONE
from loftwright.web.forms import Filled
from loftwright.web.job import job_of
from loftwright.web.render import render
from loftwright.web.sheet_forms import MIXED
from loftwright.web.views.build import build_view
from loftwright.web.views.job_undo import undo_view

WORKSHOP: Final = "/build"
PLACES: Final = {"seen": "", "key": "what", "target": ""}
"""A stale page is told of the whole form, not of its hidden fields."""


def address_of(request: Request, fitting: str) -> str:
    """Return where a job's build stands: the fitting's page, or the workshop's without a name."""
    if request.url.path.startswith(f"{WORKSHOP}/"):
        return f"{WORKSHOP}/{fitting}"
    return f"/fittings/{fitting}/build"


def head_of(request: Request, fitting: str, now: BuildNow) -> dict[str, Any]:
    """Return what the head of a build's page needs; the workshop's knows no golfer's name."""
    at = address_of(request, fitting)
    named = not at.startswith(f"{WORKSHOP}/")
    return {
        "at": at,
        "named": named,
        "layout": "fitting.html" if named else "base.html",
        "job": job_of(request, fitting, "build") if named else None,
        "undo": undo_view(now.record),
        "seen": now.seen,
        "here": None if named else WORKSHOP,
    }


def back_to(request: Request, fitting: str, part: str = "") -> Response:
    """Show a job's build again."""
    return RedirectResponse(f"{address_of(request, fitting)}{part}", status_code=DONE)


def build_page(
    request: Request,
    studio: Studio,
    fitting: str,
    *,
    step: Filled | None = None,
    otherwise: Filled | None = None,
    glue: Filled | None = None,
    departs: bool = False,
    status: int = 200,
) -> Response:
    """Show a job's build.

    Parameters
    ----------
    request : Request
    studio : Studio
    fitting : str
    step, otherwise, glue : Filled, optional
        Forms of the next step, of a departure and of the bond, as they were typed.
    departs : bool
        Whether a reading of the step may be logged as a departure.
    status : int
    """
    now = build_now(studio, fitting)
    head = head_of(request, fitting, now)
    if now.sheet is None:
        return render(request, "build_empty.html", status=status, **head, view=_nothing(now))
    show = show_of(read_settings(studio).settings)
    view = build_view(now, show, studio.now(), studio.zone)
    return render(
        request,
        "build.html",
        status=status,
        **head,
        view=view,
        step=step or Filled(),
        otherwise=otherwise or Filled(),
        glue=glue or Filled(typed=_usual_glue(studio, now)),
        departs=departs,
        bonding=now.progress.next is Step.BONDED,
        adhesives=[one.name for one in read_terms(studio).terms.adhesives],
        temperature=show.unit("temperature").name,
    )


def _usual_glue(studio: Studio, now: BuildNow) -> dict[str, str]:
    name = now.draft.get("adhesive", "")
    known = {one.name: f"{one.hours:g}" for one in read_terms(studio).terms.adhesives}
    mixed = studio.now().astimezone(studio.zone).strftime(MIXED)
    return {"adhesive": name, "hours": known.get(name, ""), "mixed": mixed}


def _nothing(now: BuildNow) -> dict[str, str]:
    """Return what an empty build says: what is missing, and where to go."""
    if now.progress.off is not None:
        return {
            "sentence": "The order is off: nothing is built.",
            "lead": now.progress.off.reason,
            "go": "order",
        }
    if now.quote is None:
        return {
            "sentence": "Nothing can be built yet: the golfer has not agreed to a quote.",
            "lead": "The sheet begins with the club that was agreed to.",
            "go": "order",
        }
    return {
        "sentence": "No sheet yet: weigh the parts, then issue it.",
        "lead": "Targets, parts that came and the shop’s tolerances are filled in already.",
        "go": "form",
    }
