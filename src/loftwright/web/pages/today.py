"""Today: who needs what now; and an old fitting read again."""

from typing import Final
from zoneinfo import ZoneInfo

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from loftwright.domain.golfer import Hand
from loftwright.errors import LoftwrightError
from loftwright.intake.doubts import DoubtsError
from loftwright.report.after_words import due_words, growth_words
from loftwright.services.day import fittings_done, fittings_today
from loftwright.services.evidence import Desk
from loftwright.services.follow_up import how_many_due
from loftwright.services.golfers import golfers_called
from loftwright.services.growth_checks import how_many_growth_checks
from loftwright.services.old_fitting import read_old_fitting
from loftwright.services.settings import read_settings, show_of
from loftwright.services.studio import Studio
from loftwright.web.forms import Fields, Files, Filled, Typed
from loftwright.web.render import has_page, render
from loftwright.web.state import AtDesk, Here, LookedFor
from loftwright.web.views.golfer import HAND_CHOICES
from loftwright.web.views.read_back import ReadView, read_view, way_words
from loftwright.web.views.today import done_view, today_view
from loftwright.web.views.ways_in import Question, questions

router = APIRouter(include_in_schema=False)

MOST_DONE: Final = 12


@router.get("/")
def show_today(
    request: Request,
    studio: Here,
    desk: AtDesk,
    names: LookedFor,
    before: str = "",
    sought: str = "",
) -> Response:
    """Show who needs what now, and fittings done before, some at a time."""
    find = names.text(sought)
    return _today_page(request, studio, desk, before=before, find=find, sought=sought)


@router.post("/")
def find_done(names: LookedFor, fields: Fields) -> Response:
    """Go to the fittings done before of golfers by a name, which stands in no address."""
    mark = names.keep(fields.get("find", ""))
    return RedirectResponse(f"/?sought={mark}#done" if mark else "/#done", status_code=303)


def _today_page(
    request: Request, studio: Studio, desk: Desk, *, before: str, find: str, sought: str
) -> Response:
    settings = read_settings(studio).settings
    golfers = _records_called(studio, find) if find.split() else None
    done = fittings_done(studio, MOST_DONE, before=before, golfers=golfers)
    view = today_view(
        fittings_today(studio, desk),
        done,
        settings.bays,
        studio.now().astimezone(ZoneInfo(settings.zone)),
        empty_rack=not studio.store.rack().shafts,
    )
    listed = has_page(request, "/follow-ups")
    asked = how_many_due(studio) if listed else 0
    growth = how_many_growth_checks(studio) if listed else 0
    return render(
        request,
        "today.html",
        view=view,
        asked=due_words(asked),
        growth=growth_words(growth),
        seek=Filled(typed={"find": find}),
        sought=sought if find else "",
        done=done_view(done, find=find, before=before),
    )


def _records_called(studio: Studio, text: str) -> frozenset[str]:
    """Return every record of the golfers whose name has a text in it."""
    called = golfers_called(studio, text)
    seconds = studio.store.seconds().items()
    return frozenset(called) | {second for second, first in seconds if first in called}


@router.get("/read")
def ask_for_file(request: Request) -> Response:
    """Ask for an old file of shots."""
    return _read_page(request, Filled())


@router.post("/read")
def read_old(request: Request, studio: Here, fields: Fields, files: Files) -> Response:
    """Read an old file of shots and show what it says; nothing of it is kept."""
    name, content = files.get("file", ("shots.csv", fields.get("text", "").encode()))
    given = [text for key, text in fields.items() if key.startswith("answer")]
    answers = tuple(answer for answer in given if answer.strip())
    text = fields.get("text") or content.decode("utf-8", "replace")
    typed = Typed(fields={**fields, "file": "", "text": text})
    hand, own = typed.word("hand", Hand, Hand.RIGHT), typed.text("own")
    if not typed.good:
        return _read_page(request, typed.filled, status=422)
    try:
        reading = read_old_fitting(content, name, hand=hand, own=own, answers=answers)
    except DoubtsError as error:
        return _read_page(
            request,
            typed.filled,
            asked=questions(error.doubts),
            answers=answers,
            status=422,
        )
    except LoftwrightError as error:
        place = f"{error.place}: " if error.place not in {"", "file"} else ""
        typed.fail("own" if "own" in error.place else "file", place + error.message, error.mend)
        return _read_page(request, typed.filled, status=422)
    show = show_of(read_settings(studio).settings)
    kept = Filled(typed={"hand": hand.value, "own": own})
    return _read_page(request, kept, view=read_view(reading, show))


def _read_page(
    request: Request,
    form: Filled,
    *,
    view: ReadView | None = None,
    asked: tuple[Question, ...] = (),
    answers: tuple[str, ...] = (),
    status: int = 200,
) -> Response:
    return render(
        request,
        "read.html",
        status=status,
        view=view,
        form=form,
        asked=asked,
        answers=answers,
        hands=HAND_CHOICES,
        way_words=way_words,
    )
