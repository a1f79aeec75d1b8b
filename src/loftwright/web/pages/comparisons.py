"""Comparisons to publish: made, looked at, published by a person, withdrawn."""

from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.errors import ConflictError
from loftwright.services.publishable import model_words, publishable_hits
from loftwright.services.published_files import KINDS as FILES
from loftwright.services.published_files import file_of
from loftwright.services.published_kept import published_one, published_ones, withdraw
from loftwright.services.published_making import Obtained, Order, Paid
from loftwright.services.settings import read_settings, show_of
from loftwright.services.shop_publishing import Looked, look, no_longer_agree, publish
from loftwright.services.studio import Studio
from loftwright.shop.publishing import KINDS
from loftwright.web.attempts import DONE, REFUSED, attempt
from loftwright.web.comparison_forms import PLACES, asked_of, read_making, read_question
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.render import render
from loftwright.web.state import Actor, Here
from loftwright.web.views.comparisons import (
    comparisons_view,
    content_view,
    look_view,
    published_lead,
    published_sentence,
)
from loftwright.web.views.rack_rows import Choice

router = APIRouter(prefix="/shop/comparisons", include_in_schema=False)

_MEDIA: Final = {
    "png": "image/png",
    "svg": "image/svg+xml; charset=utf-8",
    "csv": "text/csv; charset=utf-8",
    "json": "application/json",
}
_PLACES: Final = {**PLACES, "by": "by", "note": "note", "reference": "reference"}


@router.get("")
def show_comparisons(request: Request, studio: Here) -> Response:
    """Show what was published, and the form for another comparison."""
    return _all(request, studio, Filled(typed=_asked(request)))


@router.get("/look")
def show_look(request: Request, studio: Here) -> Response:
    """Show a comparison as it would leave the shop."""
    typed = Typed(fields=_asked(request))
    looked = _look(studio, typed)
    if looked is None:
        return _all(request, studio, typed.filled, status=REFUSED)
    return _looked(request, studio, looked, typed.filled)


@router.post("")
def publish_it(request: Request, studio: Here, fields: Fields, by: Actor) -> Response:
    """Publish what was looked at."""
    typed = Typed(fields=fields)
    question, making = read_question(typed), read_making(typed)
    typed.fields.setdefault("by", "")
    who = typed.text("by", need="Write who publishes it; the name stays in the shop.")
    made = []

    def act() -> None:
        if question is not None:
            name = f"{who} ({by})" if by else who
            stamp = typed.fields.get("stamp", "")
            made.append(publish(studio, question, making, by=name, stamp=stamp))

    status = attempt(typed, act, _PLACES)
    if status == DONE:
        return RedirectResponse(f"/shop/comparisons/{made[0].number}", status_code=DONE)
    again = Typed(fields=dict(typed.fields))
    looked = _look(studio, again)
    if looked is None:
        return _all(request, studio, typed.filled, status=status)
    return _looked(request, studio, looked, typed.filled, status=status)


@router.get("/{number}")
def show_comparison(request: Request, number: int, studio: Here) -> Response:
    """Show a published comparison."""
    return _one(request, studio, number)


@router.get("/{number}/comparison.{kind}")
def get_file(number: int, kind: str, studio: Here) -> Response:
    """Return a published comparison as a file."""
    published = published_one(studio, number)
    if published.withdrawn_at is not None:
        raise ConflictError(
            f"comparison {number} was withdrawn",
            place="comparison",
            mend="Make another one when it may be made.",
        )
    return Response(
        file_of(published.content, kind),
        media_type=_MEDIA.get(kind, "application/octet-stream"),
        headers={"Content-Disposition": f'attachment; filename="comparison-{number}.{kind}"'},
    )


@router.post("/{number}/withdraw")
def withdraw_it(
    request: Request, number: int, studio: Here, fields: Fields, by: Actor
) -> Response:
    """Withdraw a published comparison."""
    typed = Typed(fields=fields)
    typed.fields.setdefault("by", "")
    who = typed.text("by", need="Write who withdraws it; the name stays in the shop.")
    name = f"{who} ({by})" if by else who
    status = attempt(typed, lambda: withdraw(studio, number, by=name), _PLACES)
    if status != DONE:
        return _one(request, studio, number, form=typed.filled, status=status)
    return RedirectResponse(f"/shop/comparisons/{number}", status_code=DONE)


def _asked(request: Request) -> dict[str, str]:
    """Return an address's fields; one that stands in it several times, with commas between."""
    fields: dict[str, str] = {}
    for name, value in request.query_params.multi_items():
        fields[name] = f"{fields[name]},{value}" if name in fields else value
    return fields


def _look(studio: Studio, typed: Typed) -> Looked | None:
    question, making = read_question(typed), read_making(typed)
    found: list[Looked] = []

    def act() -> None:
        if question is not None:
            found.append(look(studio, question, making))

    attempt(typed, act, _PLACES)
    return found[0] if found else None


def _all(request: Request, studio: Studio, form: Filled, *, status: int = 200) -> Response:
    kind = form.value("kind", KINDS[0])
    kind = kind if kind in KINDS else KINDS[0]
    names = model_words(studio.store.rack(), kind)
    published = [(one, no_longer_agree(studio, one)) for one in published_ones(studio)]
    ticked = [one for one in form.value("model").split(",") if one in names]
    return render(
        request,
        "comparisons.html",
        status=status,
        view=comparisons_view(
            publishable_hits(studio),
            published,
            (kind, names, ticked),
            show_of(read_settings(studio).settings),
        ),
        form=form,
        kind=kind,
        obtained=_choices(Obtained),
        paid=_choices(Paid),
        orders=_choices(Order),
    )


def _looked(
    request: Request, studio: Studio, looked: Looked, form: Filled, *, status: int = 200
) -> Response:
    asked = {**asked_of(form.typed), "model": ",".join(looked.question.models)}
    return render(
        request,
        "comparison_look.html",
        status=status,
        view=look_view(looked, model_words(studio.store.rack(), looked.question.kind)),
        form=form,
        asked=asked,
        stamp=looked.stamp,
    )


def _one(
    request: Request, studio: Studio, number: int, *, form: Filled | None = None, status: int = 200
) -> Response:
    published = published_one(studio, number)
    return render(
        request,
        "comparison.html",
        status=status,
        number=number,
        sentence=published_sentence(published),
        lead=published_lead(published, no_longer_agree(studio, published)),
        withdrawn=published.withdrawn_at is not None,
        content=content_view(published.content),
        title=published.content.title,
        form=form or Filled(),
        files=FILES,
    )


def _choices(words: type[Obtained] | type[Paid] | type[Order]) -> list[Choice]:
    return [Choice(value=one, text=f"{one[:1].upper()}{one[1:]}") for one in words]
