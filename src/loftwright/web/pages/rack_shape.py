"""A shaft's measured shape: what it plays like, its profiles, and typing a new one."""

from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.likeness import standing
from loftwright.domain.sections import Section
from loftwright.services.measuring import BY, Shape, alike, keep_profile
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Filled, Typed
from loftwright.web.profile_forms import read_profile
from loftwright.web.rack_forms import read_reason
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.rack_rows import shop_shaft
from loftwright.web.views.rack_shape import BY_WORDS, SECTION_WORDS, shape_view

router = APIRouter(prefix="/rack/items/{item}/shape", include_in_schema=False)

_KEPT: Final = {
    "kept": "The profile is kept.",
    "aside": "The profile is set aside; it stays in the list.",
    "stands": "The profile stands again.",
}


@router.get("")
def show_shape(request: Request, item: str, studio: Here) -> Response:
    """Show what a shaft plays like."""
    return _page(request, studio, item, kept=_KEPT.get(request.query_params.get("kept", ""), ""))


@router.post("")
def keep(request: Request, item: str, studio: Here, fields: Fields) -> Response:
    """Keep a measured profile."""
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    profile = read_profile(typed, item, studio.today())
    if profile is None:
        return _page(request, studio, item, form=typed.filled, status=422)
    keep_profile(studio, profile)
    return RedirectResponse(f"/rack/items/{item}/shape?kept=kept", status_code=303)


@router.post("/{profile}/aside")
def set_aside(request: Request, item: str, profile: str, studio: Here, fields: Fields) -> Response:
    """Set a profile aside with its reason."""
    typed = Typed(fields=fields)
    reason = read_reason(typed)
    if not typed.good:
        return _page(request, studio, item, aside={profile: typed.filled}, status=422)
    studio.store.set_profile_aside(profile, reason)
    return RedirectResponse(f"/rack/items/{item}/shape?kept=aside#profiles", status_code=303)


@router.post("/{profile}/stands")
def let_stand(item: str, profile: str, studio: Here) -> Response:
    """Let a profile stand again that was set aside."""
    studio.store.set_profile_aside(profile, "")
    return RedirectResponse(f"/rack/items/{item}/shape?kept=stands#profiles", status_code=303)


def _page(
    request: Request,
    studio: Studio,
    item: str,
    *,
    form: Filled | None = None,
    aside: dict[str, Filled] | None = None,
    kept: str = "",
    status: int = 200,
) -> Response:
    rack = studio.store.rack()
    shop_shaft(rack, item)
    asked = dict(request.query_params) if request.method == "GET" else {}
    seek = Typed(fields=asked)
    by = seek.one_of("by", BY, "bending")
    every = alike(studio, item, by=by)
    found = every
    if seek.given("least") or seek.given("most"):
        found = alike(studio, item, by=by, shape=_shape(seek))
    wanted = asked.get("against", "")
    chosen = next((one for one in every if one.piece.id == wanted), None)
    against = chosen or next(iter(found or every), None)
    profiles = studio.store.profiles().get(item, ())
    return render(
        request,
        "rack_shape.html",
        status=status,
        view=shape_view(
            rack, item, profiles, standing(profiles), found, against, len(every) - len(found)
        ),
        item=item,
        kept=kept,
        form=form or Filled(),
        seek=seek.filled,
        aside=aside or {},
        nothing=Filled(),
        by_words=BY_WORDS,
        sections=SECTION_WORDS,
        today=studio.today().isoformat(),
    )


def _shape(seek: Typed) -> Shape:
    section = seek.word("section", Section, Section.TIP)
    ends = []
    for name in ("least", "most"):
        text = seek.text(name).replace(",", ".").replace("\N{MINUS SIGN}", "-")
        try:
            ends.append(float(text) / 100.0 if text else None)
        except ValueError:
            seek.fail(name, f"{text!r} is no number", "Give per cent, such as -5.")
            ends.append(None)
    return Shape(section=section, least=ends[0], most=ends[1])
