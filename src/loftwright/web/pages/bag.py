"""A golfer's bag: its clubs, their steps, and what stands out of an even run."""

from collections.abc import Callable
from dataclasses import replace
from typing import Final
from urllib.parse import quote

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.bag import Bag
from loftwright.errors import ConflictError, InputError, IntakeError, NotFoundError
from loftwright.intake.bag_table import bag_csv, read_bag_table
from loftwright.report.numbers import count
from loftwright.services.bag_sources import offered, taken_over
from loftwright.services.bags import (
    keep_bag,
    put_back,
    read_bag,
    with_club,
    with_clubs,
    without_club,
)
from loftwright.services.golfers import known_golfer
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.web.bag_forms import club_values, read_club
from loftwright.web.forms import Fields, Files, Filled, Typed
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.bag import BagFacts, bag_view

router = APIRouter(prefix="/golfers/{golfer}/bag", include_in_schema=False)

LONGEST_VERSION: Final = 999_999_999
_KEPT: Final = {
    "club": "The club is written down.",
    "gone": "The club is taken out.",
    "taken": "The club is taken over.",
    "back": "The bag is as it was before the last change.",
    "table": "The table’s clubs are the bag now.",
    "rules": "Saved.",
}


@router.get("")
def show_bag(request: Request, golfer: str, studio: Here) -> Response:
    """Show a golfer's bag."""
    kept = _KEPT.get(request.query_params.get("kept", ""), "")
    return _page(request, studio, golfer, kept=kept)


@router.post("/club")
def write_club(request: Request, golfer: str, studio: Here, fields: Fields) -> Response:
    """Write a club down, new or anew."""

    def change(typed: Typed, bag: Bag) -> Bag | None:
        before = typed.text("before")
        old = bag.club(before) if before else None
        club = read_club(typed, old)
        return None if club is None else with_club(bag, club, before)

    return _change(request, studio, golfer, fields, change, form="club", anchor="clubs")


@router.post("/remove")
def remove_club(request: Request, golfer: str, studio: Here, fields: Fields) -> Response:
    """Take a club out; it can be put back."""

    def change(typed: Typed, bag: Bag) -> Bag:
        return without_club(bag, typed.text("name", need="Choose a club."))

    return _change(request, studio, golfer, fields, change, form="gone", anchor="clubs")


@router.post("/take")
def take_over(request: Request, golfer: str, studio: Here, fields: Fields) -> Response:
    """Take over a club that is known here."""

    def change(typed: Typed, bag: Bag) -> Bag:
        key = typed.text("from", need="Choose a club.")
        club = next(
            (one.club for one in offered(studio, golfer, bag) if one.key == key and one.club), None
        )
        if club is None:
            raise NotFoundError(
                "this club cannot be taken over any more", place="from", mend="Look again."
            )
        return taken_over(bag, club)

    return _change(request, studio, golfer, fields, change, form="taken", anchor="clubs")


@router.post("/back")
def back(request: Request, golfer: str, studio: Here, fields: Fields) -> Response:
    """Put the clubs back as they were before the last change, or bring the change again."""

    def change(_: Typed, bag: Bag) -> Bag:
        return put_back(bag)

    return _change(request, studio, golfer, fields, change, form="back", anchor="clubs")


@router.post("/rules")
def change_rules(request: Request, golfer: str, studio: Here, fields: Fields) -> Response:
    """Say whether the golfer's competition uses the local rule on length."""

    def change(typed: Typed, bag: Bag) -> Bag:
        return replace(bag, local_length=typed.ticked("local_length"))

    return _change(request, studio, golfer, fields, change, form="rules", anchor="limits")


@router.post("/table")
def read_table(
    request: Request, golfer: str, studio: Here, fields: Fields, files: Files
) -> Response:
    """Take the clubs of a table as the bag; one line that cannot be keeps all of it out."""
    name, data = files.get("file", ("", b""))

    def change(typed: Typed, bag: Bag) -> Bag | None:
        if not name:
            typed.fail("file", "no file was chosen", "Choose a table of clubs.")
            return None
        table = read_bag_table(data, name)
        for number, error in enumerate(table.wrong):
            typed.fail(f"line {number}", f"{error.place}: {error.message}", error.mend)
        if table.wrong:
            return None
        return with_clubs(bag, table.clubs, f"reading {count(len(table.clubs), 'club')} in")

    sent = {**fields, "file": ""}
    return _change(request, studio, golfer, sent, change, form="table", anchor="table")


@router.get(".csv")
def get_table(golfer: str, studio: Here) -> Response:
    """Take the bag out as a table."""
    bag = read_bag(studio, golfer).bag
    return Response(
        bag_csv((*bag.in_play, *bag.spares)),
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": 'attachment; filename="loftwright-bag.csv"'},
    )


def _change(
    request: Request,
    studio: Studio,
    golfer: str,
    fields: dict[str, str],
    change: Callable[[Typed, Bag], Bag | None],
    *,
    form: str,
    anchor: str,
) -> Response:
    """Change the bag as a form asks, keep it, and show what came of it."""
    typed = Typed(fields=fields, show=show_of(read_settings(studio).settings))
    version = typed.whole("version", least=0, most=LONGEST_VERSION, need="Open the page again.")
    known = read_bag(studio, golfer)
    try:
        _not_stale(version, known.version)
        changed = change(typed, known.bag)
        if changed is not None and version is not None and typed.good:
            keep_bag(studio, golfer, changed, version=version)
            address = f"/golfers/{quote(golfer)}/bag?kept={form}#{anchor}"
            return RedirectResponse(address, status_code=303)
    except (ConflictError, NotFoundError) as error:
        stale = f"Nothing was changed: {error.message}."
        return _page(request, studio, golfer, form=form, typed=typed, stale=stale, status=409)
    except (InputError, IntakeError) as error:
        typed.refused(error)
    return _page(request, studio, golfer, form=form, typed=typed, status=422)


def _not_stale(version: int | None, stands: int) -> None:
    if version is not None and version != stands:
        raise ConflictError(
            "the bag was changed meanwhile", place="version", mend="Look at what stands now."
        )


def _page(
    request: Request,
    studio: Studio,
    golfer: str,
    *,
    form: str = "",
    typed: Typed | None = None,
    kept: str = "",
    stale: str = "",
    status: int = 200,
) -> Response:
    known, who = read_bag(studio, golfer), known_golfer(studio, golfer)
    show, terms = show_of(read_settings(studio).settings), read_terms(studio).terms
    facts = BagFacts(
        bag=known.bag,
        scale=terms.scale,
        edition=terms.edition,
        offers=offered(studio, golfer, known.bag),
    )
    filled = Filled() if typed is None else typed.filled
    return render(
        request,
        "bag.html",
        status=status,
        view=bag_view(facts, show),
        name=who.identity.name,
        golfer=golfer,
        version=known.version,
        bag=known.bag,
        form=filled if form == "club" else Filled(typed=_club_form(request, known.bag, studio)),
        other=filled if form not in {"club", "table"} else Filled(),
        sheet=filled if form == "table" else Filled(),
        kept=kept,
        stale=stale,
    )


def _club_form(request: Request, bag: Bag, studio: Studio) -> dict[str, str]:
    """Return what the club's form holds: the one that is asked for, else a new one."""
    name = request.query_params.get("club", "")
    if not name:
        return {"before": "", "kind": "iron", "method": "plane", "tip": "head"}
    found = bag.club(name)
    if found is None:
        raise NotFoundError(
            f"no club of this bag is called {name!r}", place="club", mend="Choose one of it."
        )
    return club_values(found, show_of(read_settings(studio).settings))
