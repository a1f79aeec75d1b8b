"""The bay page: its parts as HTML, so that one ball carries only what it changes."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from threading import Lock
from types import MappingProxyType
from typing import Final

from loftwright.report.bay_words import BayFacts, bay_sentence, care_words
from loftwright.services.bay_now import BayNow
from loftwright.services.settings import show_of
from loftwright.web.markers import marker
from loftwright.web.render import part
from loftwright.web.views import bay_fly, bay_hand, bay_marks, bay_rest, bay_taps


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """How one device draws the page.

    Attributes
    ----------
    turned : bool
        Whether the face stands as the fitter holds the club.
    closing : int, optional
        Sequence of the act that closed the fitting.
    plain : bool
        Whether forms must carry their own key and revision, for a page without scripts.
    """

    turned: bool = False
    closing: int | None = None
    plain: bool = False


_one_drawing = Lock()


def bay_parts(bay: BayNow, drawing: Drawing) -> Mapping[str, str]:
    """Return every part of the page by its name.

    Parameters
    ----------
    bay : BayNow
    drawing : Drawing
    """
    return {**prompt_parts(bay, drawing), **doubt_parts(bay, drawing)}


def prompt_parts(bay: BayNow, drawing: Drawing) -> Mapping[str, str]:
    """Return the parts that a fitter waits for after a ball."""
    return _parts(bay, drawing, doubted=False)


def doubt_parts(bay: BayNow, drawing: Drawing) -> Mapping[str, str]:
    """Return the parts that say what is doubtful, which takes longer to find."""
    return _parts(bay, drawing, doubted=True)


def _parts(bay: BayNow, drawing: Drawing, *, doubted: bool) -> Mapping[str, str]:
    """Return parts that are drawn once for all screens that look alike."""
    # Two screens ask at once: the second waits for the first one's drawing.
    with _one_drawing:
        return drawn_parts(bay, drawing, doubted)


@lru_cache(maxsize=16)
def drawn_parts(bay: BayNow, drawing: Drawing, doubted: bool) -> Mapping[str, str]:
    """Draw the parts of doubt or all others, or return those that were drawn before."""
    names = [name for name in PARTS if (name in DOUBTED) is doubted]
    return MappingProxyType({name: PARTS[name](bay, drawing) for name in names})


def facts_of(bay: BayNow) -> BayFacts:
    """Return what the page's sentence rests on."""
    mine = bay.turn == bay.fitting.id
    return BayFacts(
        now=bay.now,
        next=bay.next,
        pace=bay.pace,
        proposed=bay.proposed,
        decision=bay.evidence.decision,
        waits_for="" if mine else bay.partner,
        ask_club=bay.ask_club,
        show=show_of(bay.settings),
    )


def _html(name: str, bay: BayNow, drawing: Drawing, **context: object) -> str:
    return part(
        f"parts/bay_{name}.html",
        at=f"/fittings/{bay.fitting.id}",
        plain=drawing.plain,
        seen=bay.now.upto,
        marker=marker,
        **context,
    )


def _say(bay: BayNow, drawing: Drawing) -> str:
    facts = facts_of(bay)
    return _html("say", bay, drawing, said=bay_sentence(facts))


def _care(bay: BayNow, drawing: Drawing) -> str:
    words = care_words(facts_of(bay), bay.limits, bay.held)
    return _html("care", bay, drawing, words=words, taps=bay_taps.care_taps(bay))


def _hand(bay: BayNow, drawing: Drawing) -> str:
    return _html("hand", bay, drawing, view=bay_hand.hand_view(bay))


def _face(bay: BayNow, drawing: Drawing) -> str:
    view = bay_marks.face_view(bay, turned=drawing.turned)
    return _html("face", bay, drawing, view=view)


def _feel(bay: BayNow, drawing: Drawing) -> str:
    return _html("feel", bay, drawing, view=bay_rest.feel_view(bay))


def _wait(bay: BayNow, drawing: Drawing) -> str:
    return _html("wait", bay, drawing, view=bay_marks.wait_view(bay))


def _fly(bay: BayNow, drawing: Drawing) -> str:
    return _html("fly", bay, drawing, view=bay_fly.fly_view(bay, show_of(bay.settings)))


def _order(bay: BayNow, drawing: Drawing) -> str:
    return _html("order", bay, drawing, view=bay_rest.order_view(bay))


def _bar(bay: BayNow, drawing: Drawing) -> str:
    return _html("bar", bay, drawing, view=bay_taps.bar_view(bay, drawing.closing))


def _strip(bay: BayNow, drawing: Drawing) -> str:
    return _html("strip", bay, drawing, view=bay_rest.strip_view(bay))


def _doubts(bay: BayNow, drawing: Drawing) -> str:
    return _html("doubts", bay, drawing, doubts=bay_rest.doubts(bay))


def _doubtlist(bay: BayNow, drawing: Drawing) -> str:
    return _html("doubtlist", bay, drawing, doubts=bay_rest.doubts(bay))


def _clubs(bay: BayNow, drawing: Drawing) -> str:
    return _html(
        "clubs",
        bay,
        drawing,
        asked=bay_taps.it_was_taps(bay),
        clubs=bay_taps.club_taps(bay),
        leaving=bay_taps.leave_taps(bay),
        settings=bay_taps.setting_taps(bay),
        planned=bay.next.club or "",
    )


def _more(bay: BayNow, drawing: Drawing) -> str:
    warming = bay.now.visit is not None and not bay.now.visit.warm
    return _html("more", bay, drawing, taps=bay_taps.more_taps(bay), warming=warming)


PARTS: Final[dict[str, Callable[[BayNow, Drawing], str]]] = {
    "say": _say,
    "care": _care,
    "hand": _hand,
    "face": _face,
    "feel": _feel,
    "wait": _wait,
    "fly": _fly,
    "order": _order,
    "strip": _strip,
    "bar": _bar,
    "doubts": _doubts,
    "doubtlist": _doubtlist,
    "clubs": _clubs,
    "more": _more,
}
"""What draws each part of the page, by the part's name."""

DOUBTED: Final = frozenset({"doubts", "doubtlist"})
