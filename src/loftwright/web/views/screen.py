"""The golfer's own screen: the last ball and where it was struck; no names before the reveal."""

from dataclasses import replace

from loftwright.report.face_picture import face_picture, strike_words
from loftwright.report.marks import OWN_MARK
from loftwright.report.theme_svg import for_screen
from loftwright.report.wording import sentence
from loftwright.services.bay_now import BayNow
from loftwright.services.settings import show_of
from loftwright.web.render import part
from loftwright.web.views.bay_fly import last_flight
from loftwright.web.views.bay_marks import face_marks

NAMELESS = "this club"


def screen_parts(bay: BayNow) -> dict[str, str]:
    """Return every part of the golfer's screen by its name.

    Parameters
    ----------
    bay : BayNow
    """
    return {"told": _told(bay), "flight": _flight(bay), "strike": _strike(bay)}


def _told(bay: BayNow) -> str:
    now, decision = bay.now, bay.evidence.decision
    first = bay.name.split()[0] if bay.name.split() else ""
    if now.revealed and decision is not None and decision.clubs:
        say = sentence(decision, show_of(bay.settings))
    elif now.pain:
        say = "We stop here for today."
    elif not now.swings:
        say = f"Hello {first}. Your balls fly here."
    else:
        say = "Your last ball."
    return part("parts/screen_told.html", say=say, revealed=now.revealed)


def _flight(bay: BayNow) -> str:
    view = last_flight(
        bay.now,
        bay.golfer.home,
        bay.evidence.decision,
        show_of(bay.settings),
        named=bay.now.revealed,
    )
    return part("parts/screen_flight.html", view=view, revealed=bay.now.revealed)


def _strike(bay: BayNow) -> str:
    marks = face_marks(bay.now, newest_only=True)
    if not bay.now.revealed:
        marks = [replace(mark, club=NAMELESS, shape=OWN_MARK) for mark in marks]
    if not marks:
        return ""
    drawn = face_picture(marks, hand=bay.golfer.hand, prefix="strike")
    where = strike_words(marks[-1].toe, marks[-1].high)
    return part("parts/screen_strike.html", svg=for_screen(drawn), where=where)
