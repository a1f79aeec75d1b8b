"""The shortlist as the plan's page shows it."""

from dataclasses import dataclass

from loftwright.constants import DEGREE
from loftwright.domain.golfer import Wish
from loftwright.evidence.shaft_guess import Guess
from loftwright.evidence.shaft_prior import Effect
from loftwright.evidence.shortlist import Listed, Shortlist, Without, figure
from loftwright.report.range_rows import RangeOf, range_rows
from loftwright.report.screen_numbers import Show
from loftwright.report.shortlist_words import (
    LeverLine,
    launch_words,
    left_out_groups,
    levers,
    shaft_why,
    shortlist_sentence,
    shortlist_warnings,
    speed_words,
)
from loftwright.report.theme_svg import for_screen


@dataclass(frozen=True, slots=True, kw_only=True)
class ShaftRow:
    """One shaft that may be tried."""

    name: str
    place: str
    launch: str
    speed: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortlistView:
    """The shortlist inside the plan.

    Attributes
    ----------
    picture : str
        What is believed of each shaft for the wish; empty where there are none.
    under : str
        What the picture's rule counts.
    left_out : tuple of (str, str)
        Names, and the reason that they share.
    ask_golfer : bool
        Whether the golfer's page holds what is lacking.
    measure : bool
        Whether the own shaft wants measuring.
    """

    sentence: str
    levers: tuple[LeverLine, ...]
    shafts: tuple[ShaftRow, ...]
    picture: str
    under: str
    left_out: tuple[tuple[str, str], ...]
    warnings: tuple[str, ...]
    ask_golfer: bool
    measure: bool


def shortlist_view(found: Listed, show: Show) -> ShortlistView:
    """Return the shortlist inside the plan."""
    made = found.shortlist
    if made is None:
        return _empty(shortlist_sentence(found), ask_golfer=True)
    wish = made.sought.wish
    return ShortlistView(
        sentence=shortlist_sentence(found),
        levers=levers(made, show),
        shafts=tuple(_row(one, wish, found.own, show) for one in made.shafts),
        picture=_picture(made, found.own, show) if made.shafts else "",
        under=_under(wish, found.own, show),
        left_out=left_out_groups(made.left_out, show),
        warnings=shortlist_warnings(found),
        ask_golfer=False,
        measure=made.without is Without.OWN_NOT_MEASURED,
    )


def not_listed(reason: str, mend: str) -> ShortlistView:
    """Return the shortlist of a golfer with whose own club no swing can be reckoned."""
    return _empty(f"Nothing can be shortlisted: {reason} {mend}", ask_golfer=True)


def _empty(sentence: str, *, ask_golfer: bool) -> ShortlistView:
    return ShortlistView(
        sentence=sentence,
        levers=(),
        shafts=(),
        picture="",
        under="",
        left_out=(),
        warnings=(),
        ask_golfer=ask_golfer,
        measure=False,
    )


def _row(guess: Guess, wish: Wish, own: str, show: Show) -> ShaftRow:
    return ShaftRow(
        name=guess.shaft.name,
        place=guess.shaft.place,
        launch=launch_words(guess.beliefs[Effect.LAUNCH], show),
        speed=speed_words(guess.beliefs[Effect.HEAD_SPEED], show),
        why=shaft_why(guess, wish, own, show),
    )


def _picture(made: Shortlist, own: str, show: Show) -> str:
    wish = made.sought.wish
    unit, name = _unit(wish, show)
    rows = [
        RangeOf(
            name=guess.shaft.name,
            best=belief.mean / unit,
            low=(belief.mean - belief.sd) / unit,
            high=(belief.mean + belief.sd) / unit,
            sure=belief.distinguishable,
        )
        for guess in made.shafts
        for belief in (figure(guess, wish),)
    ]
    title = f"{_under(wish, own, show)}; every line is one standard deviation to both sides"
    return for_screen(range_rows(rows, title=title, unit=name, zero=0.0, prefix="shortlist"))


def _unit(wish: Wish, show: Show) -> tuple[float, str]:
    if wish is Wish.DISTANCE:
        return show.unit("speed").scale, ""
    return DEGREE, "\N{DEGREE SIGN}"


def _under(wish: Wish, own: str, show: Show) -> str:
    what = {
        Wish.DISTANCE: f"Head speed in {show.unit('speed').name}",
        Wish.HIGHER: "Launch",
        Wish.LOWER: "Launch",
        Wish.STRAIGHTER: "Face angle",
    }[wish]
    return f"{what} against {own or 'the own shaft'}"
