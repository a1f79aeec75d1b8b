"""The build sheet: tried, issued, revised and read."""

from collections.abc import Mapping

from fastapi import APIRouter, Request, Response

from loftwright.domain.build_sheet import SolvedBuild
from loftwright.errors import ConflictError, ConvergenceError, InputError, NotFoundError
from loftwright.report.sheet_lines import changed_rows, departure_rows
from loftwright.services.build_sheets import build_now, start_of
from loftwright.services.job import undo_job
from loftwright.services.settings import read_settings, show_of
from loftwright.services.sheet_forecast import with_forecast
from loftwright.services.sheet_issue import issue_sheet, try_sheet
from loftwright.services.sheet_text import draft_of
from loftwright.services.studio import Studio
from loftwright.web.answers import acted, inside
from loftwright.web.build_answers import address_of, back_to, build_page, head_of
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.render import render
from loftwright.web.sheet_forms import read_draft, refuse_field, typed_draft
from loftwright.web.state import ActKey, Actor, Here, Seen
from loftwright.web.views.build import revision_blocks
from loftwright.web.views.build_form import form_view
from loftwright.web.views.build_steps import clock_text

router = APIRouter(include_in_schema=False)


@router.get("/fittings/{fitting}/build")
@router.get("/build/{fitting}")
def show_build(request: Request, fitting: str, studio: Here) -> Response:
    """Show the sheet that stands and how far the work is, or the form of the first sheet."""
    now = build_now(studio, fitting)
    if now.sheet is None and now.spec is not None:
        return _form(request, studio, fitting)
    return build_page(request, studio, fitting)


@router.get("/fittings/{fitting}/build/form")
@router.get("/build/{fitting}/form")
def show_form(request: Request, fitting: str, studio: Here) -> Response:
    """Show the form of the next revision."""
    now = build_now(studio, fitting)
    if now.spec is None or not now.progress.may_issue:
        return build_page(request, studio, fitting)
    return _form(request, studio, fitting)


@router.post("/fittings/{fitting}/build/form")
@router.post("/build/{fitting}/form")
def send_form(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Solve the sheet as it was typed, or issue it."""
    show = show_of(read_settings(studio).settings)
    typed = Typed(fields=fields, show=show)
    now = build_now(studio, fitting)
    draft = read_draft(typed, {} if now.spec is None else start_of(studio, now).draft)
    tried, status = _tried(typed, draft)
    if tried is not None and tried.answer.feasible and fields.get("do") == "issue":
        try:
            issue_sheet(studio, fitting, draft, by=by, key=key, seen=seen)
        except ConflictError as error:
            typed.fail("", error.message, error.mend)
            status = 409
        else:
            return back_to(request, fitting)
    return _form(
        request, studio, fitting, filled=typed.filled, tried=tried, draft=draft, status=status
    )


@router.get("/fittings/{fitting}/build/sheet/{revision}")
@router.get("/build/{fitting}/sheet/{revision}")
def show_revision(request: Request, fitting: str, revision: int, studio: Here) -> Response:
    """Show a revision as it was issued, and what it changed.

    Raises
    ------
    NotFoundError
        If there is none of that number.
    """
    now = build_now(studio, fitting)
    issues = now.progress.issues
    if not 1 <= revision <= len(issues):
        raise NotFoundError(
            f"this job has no revision {revision}",
            place="revision",
            mend=f"It has {len(issues)}." if issues else "No sheet was issued yet.",
        )
    show = show_of(read_settings(studio).settings)
    issue = issues[revision - 1]
    drafts = [draft_of(one.sheet.build, one.sheet.fields) for one in issues[:revision]]
    changed = changed_rows(drafts[-2], drafts[-1], show) if revision > 1 else ()
    return render(
        request,
        "build_revision.html",
        **head_of(request, fitting, now),
        revision=revision,
        last=len(issues),
        issued=clock_text(issue.entry.at, studio.zone),
        changed=changed,
        departures=departure_rows(issue.departures, show),
        blocks=revision_blocks(issue, show),
        why=issue.sheet.why,
    )


@router.post("/fittings/{fitting}/build/undo")
@router.post("/build/{fitting}/undo")
def undo(
    request: Request,
    fitting: str,
    studio: Here,
    fields: Fields,
    by: Actor,
    key: ActKey,
    seen: Seen = None,
) -> Response:
    """Take back the newest act, or do again what was taken back, and show its page again."""
    sequence = int(fields.get("act", "")) if fields.get("act", "").isdecimal() else 0
    record = undo_job(studio, fitting, sequence, by=by, key=key, seen=seen)
    page = inside(fields.get("back", ""), address_of(request, fitting))
    return acted(request, page, revision=record[-1].sequence)


def _tried(typed: Typed, draft: Mapping[str, str]) -> tuple[SolvedBuild | None, int]:
    """Return a draft solved and the status of its answer; its faults are kept at their fields."""
    if not typed.good:
        return None, 422
    try:
        tried = try_sheet(draft)
    except (InputError, ConvergenceError) as error:
        refuse_field(typed, error)
        return None, 422
    return tried, 200 if tried.answer.feasible else 422


def _form(
    request: Request,
    studio: Studio,
    fitting: str,
    *,
    filled: Filled | None = None,
    tried: SolvedBuild | None = None,
    draft: Mapping[str, str] | None = None,
    status: int = 200,
) -> Response:
    now = build_now(studio, fitting)
    if now.spec is None:
        return build_page(request, studio, fitting, status=409)
    if tried is not None:
        tried = with_forecast(studio, now.spec.shaft_piece, draft or {}, tried)
    show = show_of(read_settings(studio).settings)
    usual = start_of(studio, now)
    first = typed_draft(usual.draft, show)
    shown = filled or Filled(typed=first)
    sources = {
        name: words
        for name, words in usual.sources.items()
        if shown.value(name) == first.get(name, "")
    }
    return render(
        request,
        "build_sheet.html",
        status=status,
        **head_of(request, fitting, now),
        view=form_view(now, shown, sources, show, tried=tried, draft=draft),
        form=shown,
    )
