"""The golfer's form as its page shows it: questions, choices and the home hole."""

from dataclasses import dataclass
from typing import Final

from loftwright.domain.golfer import Golfer, Hand
from loftwright.domain.home import Hole, Home, Lie, Trouble, Turf
from loftwright.report.hole_ground import Ground, hole_ground
from loftwright.report.numbers import count
from loftwright.report.picture_parts import label, picture
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.golfers import KnownGolfer
from loftwright.services.settings import Settings
from loftwright.web.home_forms import usual_words
from loftwright.web.views.rack_rows import Choice

ABILITY_WORDS: Final = (
    Choice(value="", text="Not stated: balls will tell"),
    Choice(value="tour", text="Plays for a living"),
    Choice(value="low", text="Low handicap"),
    Choice(value="mid", text="Middle handicap"),
    Choice(value="high", text="High handicap or new to it"),
    Choice(value="senior", text="Senior or back after a break: fewer swings"),
    Choice(value="junior", text="Junior: fewer swings"),
)
WISH_CHOICES: Final = (
    Choice(value="distance", text="Further"),
    Choice(value="higher", text="Higher"),
    Choice(value="lower", text="Lower"),
    Choice(value="straighter", text="Straighter"),
)
CHANGE_CHOICES: Final = (
    Choice(value="", text="Not looked at"),
    Choice(value="quick", text="Quickly, with a jerk"),
    Choice(value="smooth", text="Smoothly"),
)
RELEASE_CHOICES: Final = (
    Choice(value="", text="Not looked at"),
    Choice(value="late", text="Late, close to the ball"),
    Choice(value="early", text="Early and long"),
)
HAND_CHOICES: Final = (
    Choice(value="right", text="Right-handed"),
    Choice(value="left", text="Left-handed"),
)
TURF_CHOICES: Final = tuple(Choice(value=one.value, text=one.value.capitalize()) for one in Turf)
TROUBLE_CHOICES: Final = (
    Choice(value=Trouble.NONE.value, text="None"),
    Choice(value=Trouble.LEFT.value, text="Left"),
    Choice(value=Trouble.RIGHT.value, text="Right"),
    Choice(value=Trouble.BOTH.value, text="Both sides"),
)
LIE_CHOICES: Final = (
    Choice(value=Lie.ROUGH.value, text="Rough"),
    Choice(value=Lie.SAND.value, text="Sand"),
    Choice(value=Lie.RECOVERY.value, text="A recovery"),
)
AIM_CHOICES: Final = (
    Choice(value="yes", text="Aim each club where it scores best"),
    Choice(value="no", text="Aim every club at the middle"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownRow:
    """A golfer who has been here before."""

    id: str
    name: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GolferView:
    """The golfer's page.

    Attributes
    ----------
    holes : tuple of int
        Numbers of the holes that the form has rows for.
    picture : str
        The first hole of the home course from above.
    partner : str
        Name of the golfer with whom this one takes turns; empty for none.
    bays : tuple of Choice
        More than one is asked for.
    usual : dict of str to str
        What stands for each field of the home course that is left empty.
    """

    sentence: str
    lead: str
    picture: str
    holes: tuple[int, ...]
    bays: tuple[Choice, ...]
    units: dict[str, str]
    usual: dict[str, str]
    partner: str = ""
    known: tuple[KnownRow, ...] = ()
    abilities: tuple[Choice, ...] = ABILITY_WORDS
    wishes: tuple[Choice, ...] = WISH_CHOICES
    changes: tuple[Choice, ...] = CHANGE_CHOICES
    releases: tuple[Choice, ...] = RELEASE_CHOICES
    hands: tuple[Choice, ...] = HAND_CHOICES
    turfs: tuple[Choice, ...] = TURF_CHOICES
    troubles: tuple[Choice, ...] = TROUBLE_CHOICES
    lies: tuple[Choice, ...] = LIE_CHOICES
    aims: tuple[Choice, ...] = AIM_CHOICES


def new_golfer_view(
    settings: Settings,
    show: Show,
    holes: int,
    *,
    partner: str = "",
    known: tuple[KnownGolfer, ...] = (),
) -> GolferView:
    """Return the page of a golfer who comes in.

    Parameters
    ----------
    settings : Settings
    show : Show
    holes : int
        Rows that the form has.
    partner : str
    known : tuple of KnownGolfer
        Who has been here before, the newest first.
    """
    turns = f"{partner} and the next golfer take turns." if partner else ""
    return GolferView(
        sentence=turns or "A name and a hand open the fitting; the rest can wait.",
        lead="Pain is asked before the first swing. Limits of the body are gone after today.",
        picture=_hole_picture(Home(), show),
        holes=tuple(range(1, holes + 1)),
        bays=tuple(Choice(value=bay, text=bay) for bay in settings.bays),
        units=_units(show),
        usual=usual_words(show),
        partner=partner,
        known=tuple(
            KnownRow(id=one.golfer.id, name=one.identity.name, words=_known_words(one.golfer))
            for one in known
        ),
    )


def golfer_view(known: KnownGolfer, settings: Settings, show: Show, holes: int) -> GolferView:
    """Return the page of a golfer whose fitting is open.

    Parameters
    ----------
    known : KnownGolfer
    settings : Settings
    show : Show
    holes : int
        Rows that the form has.
    """
    golfer = known.golfer
    side = "left" if golfer.hand is Hand.LEFT else "right"
    name = known.identity.name
    wish = f"wants “{golfer.goal}”" if golfer.goal else "has not said what should change"
    own = "" if golfer.own else " No own club is written down, so nothing can be compared with it."
    return GolferView(
        sentence=f"{name} plays {side}-handed and {wish}.",
        lead=f"A club is chosen for {golfer.home.name}.{own}",
        picture=_hole_picture(golfer.home, show),
        holes=tuple(range(1, holes + 1)),
        bays=tuple(Choice(value=bay, text=bay) for bay in settings.bays),
        units=_units(show),
        usual=usual_words(show),
    )


def _known_words(golfer: Golfer) -> str:
    hand = "left-handed" if golfer.hand is Hand.LEFT else "right-handed"
    return f"{hand}, {golfer.home.name}"


def _units(show: Show) -> dict[str, str]:
    quantities = (
        "angle",
        "length",
        "mass",
        "speed",
        "wind",
        "altitude",
        "temperature",
        "distance",
    )
    return {quantity: show.unit(quantity).name for quantity in quantities}


def _hole_picture(home: Home, show: Show) -> str:
    """Draw the first hole from above with what is known of it under it."""
    hole = home.holes[0] if home.holes else Hole()
    wide = max(hole.fairway + 30.0, 2.0 * hole.trouble_from + 20.0)
    ground = Ground(
        left=12.0,
        right=868.0,
        top=8.0,
        bottom=128.0,
        begins=170.0,
        middle=68.0,
        across=120.0 / wide,
    )
    trouble = "no trouble" if hole.trouble is Trouble.NONE else f"trouble {hole.trouble.value}"
    words = f"{show.yards(hole.length)}, fairway {show.yards(hole.fairway)}, {trouble}; left is up"
    more = f", the first of {count(len(home.holes), 'hole')}" if len(home.holes) > 1 else ""
    parts = [hole_ground(hole, ground), label(12.0, 164.0, words + more, soft=True)]
    return for_screen(
        picture(880.0, 172.0, parts, title=f"Home hole: {words}", prefix="home-hole")
    )
