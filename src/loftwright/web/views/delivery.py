"""What one ball says of the swing: sentence, picture, table, and what it cannot say."""

from dataclasses import dataclass
from typing import Final

from loftwright.bay.now import Swing
from loftwright.constants import DEGREE
from loftwright.domain.fitting import MARK_ERROR
from loftwright.domain.golfer import Hand
from loftwright.report.face_picture import FaceMark, face_picture, strike_words
from loftwright.report.marks import OWN_MARK
from loftwright.report.numbers import listed
from loftwright.report.range_rows import RangeOf, range_rows
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.ball_delivery import STRIKE, BallDelivery, Kind, Refusal, Told
from loftwright.web.views.spin import used_words, usual_words

_NAMES: Final = {
    "head_speed": "Head speed",
    "attack": "Attack angle",
    "path": "Club path",
    "face": "Face angle",
    "face_to_path": "Face to path",
    "loft": "Dynamic loft",
    "toe": "Strike, heel to toe",
    "high": "Strike, low to high",
}
_SIDES: Final = {
    "attack": ("down", "up"),
    "path": ("out to in", "in to out"),
    "face": ("closed", "open"),
    "face_to_path": ("closed", "open"),
    "toe": ("heel", "toe"),
    "high": ("low", "high"),
}
_DRAWN: Final = ("attack", "path", "face", "face_to_path")
_SAME_SIDE: Final = (
    "A toe strike and an open face send a ball to the same side. A mark on the face, or attack "
    "and path measured, would tell."
)
_WIDER: Final = (
    "Measured figures have the errors of a good device (assumed); the ranges of the others are a "
    "quarter wider than readings make them, for what the model of impact leaves out (judgement)."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class DeliveryRow:
    """One figure with its range and where it comes from."""

    name: str
    best: str
    reach: str
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DeliveryView:
    """The page.

    Attributes
    ----------
    picture, words : str
        Empty where nothing can be said.
    face : str
        The strike on the face; empty where it cannot be told.
    notes : tuple of str
    """

    sentence: str
    lead: str
    club: str
    picture: str = ""
    words: str = ""
    face: str = ""
    rows: tuple[DeliveryRow, ...] = ()
    notes: tuple[str, ...] = ()


def delivery_view(found: BallDelivery, hand: Hand, show: Show) -> DeliveryView:
    """Return what a ball says of the swing.

    Parameters
    ----------
    found : BallDelivery
    hand : Hand
        Of the golfer; turns the picture of the face.
    show : Show
    """
    sentence, lead = _answer(found)
    club = "" if found.ball is None else found.ball.club or ""
    if not found.told:
        return DeliveryView(
            sentence=sentence, lead=lead, club=club, notes=_left_out(found.left_out)
        )
    drawn = [one for one in found.told if one.name in _DRAWN]
    return DeliveryView(
        sentence=sentence,
        lead=lead,
        club=club,
        picture=_picture(drawn, show),
        words=" ".join(f"{_NAMES[one.name]}: {_reach(one, show)}." for one in drawn),
        face=_face(found, hand),
        rows=tuple(_row(one, show) for one in found.told),
        notes=_notes(found, show),
    )


def ball_name(ball: Swing | None) -> str:
    """Return what a ball is called in a sentence."""
    if ball is None:
        return "no ball"
    return f"ball {ball.number}" if ball.number else "this warm-up ball"


def _answer(found: BallDelivery) -> tuple[str, str]:
    """Return the sentence, and the line under it."""
    ball = ball_name(found.ball)
    lacking = listed(list(found.lacking))
    words = {
        Refusal.NO_BALL: (
            "No ball was read yet.",
            "What a ball says of the swing stands here.",
        ),
        Refusal.NOT_READ: (
            f"{_capital(ball)} was hit and not read: it says nothing of the swing.",
            "A ball needs ball speed, launch, direction, spin and axis.",
        ),
        Refusal.LACKING: (
            f"{_capital(ball)} says nothing of the swing: {lacking} not read.",
            "A ball needs ball speed, launch, direction, spin and axis.",
        ),
        Refusal.CALCULATED: (
            f"{_capital(ball)} says nothing of the swing: {lacking} calculated.",
            "A number that the device works out from others holds nothing of its own.",
        ),
        Refusal.OUTSIDE: (
            f"{_capital(ball)} was not hit with a driver: nothing is said of the swing.",
            "Impact is that of a driver's head. The bay lists what the device showed.",
        ),
        Refusal.IMPOSSIBLE: (
            f"No swing of a driver gives {ball}.",
            "Look at its units and signs; set it aside if it is odd.",
        ),
        Refusal.NO_STRIKE: (f"Where {ball} met the face cannot be told.", _SAME_SIDE),
        Refusal.SET: (
            f"Where {ball} met the face is not told: its mark is one of a set.",
            "Which mark of the set is whose, nobody knows; the ball itself cannot tell.",
        ),
    }
    if found.refusals:
        return words[found.refusals[0]]
    toe, high = (found.of(name) for name in STRIKE)
    if toe is None or high is None:
        return words[Refusal.NO_STRIKE]
    about = "probably " if toe.kind is Kind.BALL_AND_PATH else ""
    where = strike_words(toe.value, high.value)
    return (
        f"{_capital(ball)} {about}met the face {where}.",
        "How the head came in follows from ball and strike together, as far as they tell.",
    )


def _row(one: Told, show: Show) -> DeliveryRow:
    usual = ", mostly what golfers do" if one.usual else ""
    return DeliveryRow(
        name=_NAMES[one.name],
        best=_figure(one.name, one.value, show),
        reach=_reach(one, show),
        kind=f"{one.kind}{usual}",
    )


def _reach(one: Told, show: Show) -> str:
    return f"{_figure(one.name, one.low, show)} to {_figure(one.name, one.high, show)}"


def _figure(name: str, value: float, show: Show) -> str:
    """Return a figure as the trade says it: a size with its side, never a sign."""
    if name == "head_speed":
        return show.speed(value)
    if name not in _SIDES:
        return show.angle(value)
    size = show.mark(abs(value)) if name in STRIKE else show.angle(abs(value))
    if not any(digit in size for digit in "123456789"):
        return size
    return f"{size} {_SIDES[name][value > 0.0]}"


def _picture(drawn: list[Told], show: Show) -> str:
    rows = [
        RangeOf(
            name=_NAMES[one.name],
            best=one.value / DEGREE,
            low=one.low / DEGREE,
            high=one.high / DEGREE,
            sure=one.kind is Kind.MEASURED,
            below=_SIDES[one.name][0],
            above=_SIDES[one.name][1],
        )
        for one in drawn
    ]
    title = "Attack, path and face in degrees, each with nine chances in ten"
    return for_screen(
        range_rows(
            rows, title=title, unit="\N{DEGREE SIGN}", zero=0.0, prefix="delivery", show=show
        )
    )


def _face(found: BallDelivery, hand: Hand) -> str:
    """Return the face with the strike, where it was marked or measured."""
    toe, high = (found.of(name) for name in STRIKE)
    if toe is None or high is None or toe.kind not in {Kind.MARK, Kind.MEASURED}:
        return ""
    error = MARK_ERROR
    if found.ball is not None and found.ball.mark is not None:
        error = found.ball.mark.error
    mark = FaceMark(club="", shape=OWN_MARK, toe=toe.value, high=high.value, error=error)
    return for_screen(face_picture([mark], hand=hand, prefix="struck"))


def _notes(found: BallDelivery, show: Show) -> tuple[str, ...]:
    notes = []
    if found.odd_numbers:
        notes.append("These numbers hardly go together for a driver: look at units and signs.")
    notes += _left_out(found.left_out)
    notes.append(usual_words(show) if found.spin is None else used_words(found.spin, show))
    return (*notes, _WIDER)


def _left_out(columns: tuple[str, ...]) -> tuple[str, ...]:
    if not columns:
        return ()
    return (f"Left out, for nobody said that the device measures it: {listed(list(columns))}.",)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
