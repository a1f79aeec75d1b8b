"""Pictures of a fitting that may leave the shop: without a name, and only with consent."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from loftwright import __version__
from loftwright.domain.device import Origin
from loftwright.domain.names import OWN
from loftwright.errors import ConflictError, EvidenceError, NotFoundError
from loftwright.evidence.result import Decision
from loftwright.report.decided_pictures import (
    Drawing,
    choice_drawing,
    ranges_drawing,
    strikes_drawing,
)
from loftwright.report.marks import Mark, deal_marks
from loftwright.report.numbers import count, listed
from loftwright.report.publish import Publication, published_png, published_svg
from loftwright.services.bay_now import BayNow
from loftwright.services.settings import show_of

KINDS: Final = ("svg", "png")
NOT_KNOWN: Final = "not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureKind:
    """A picture that can be published.

    Attributes
    ----------
    title : str
    ranges : str
        What its ranges mean.
    draw : callable
        Returns the drawing, or None where there is nothing to draw.
    """

    title: str
    ranges: str
    draw: Callable[[BayNow, Decision], Drawing | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """Why nothing is published, and what would change that."""

    why: str
    mend: str


def refusal(bay: BayNow) -> Refused | None:
    """Return why a fitting's pictures may not be published; None where they may.

    Parameters
    ----------
    bay : BayNow
    """
    if bay.golfer.minor:
        return Refused(
            why="This golfer is a minor: nothing is published, whoever agrees",
            mend="Show other fittings.",
        )
    if not bay.golfer.consents.publish:
        return Refused(
            why="The golfer has not agreed that figures without a name are shown to others",
            mend="Ask; the consent is ticked on the golfer’s page.",
        )
    return None


def published(bay: BayNow, decision: Decision | None, picture: str, kind: str) -> bytes:
    """Return a picture with its publication block.

    Parameters
    ----------
    bay : BayNow
    decision : Decision, optional
    picture : str
        Key of `PICTURES`.
    kind : {"svg", "png"}

    Raises
    ------
    NotFoundError
        If there is no such picture.
    ConflictError
        If it may not be published.
    EvidenceError
        If there is nothing to draw yet.
    """
    if picture not in PICTURES or kind not in KINDS:
        raise NotFoundError(
            f"there is no picture {picture}.{kind}", place="picture", mend="Go to the report."
        )
    refused = refusal(bay)
    if refused is not None:
        raise ConflictError(refused.why, place="publish", mend=refused.mend)
    wanted = PICTURES[picture]
    drawing = wanted.draw(bay, decision) if decision is not None else None
    if decision is None or drawing is None:
        raise EvidenceError(
            "there is nothing to draw yet", place=picture, mend="Hit two clubs twice at least."
        )
    block = publication(bay, decision, wanted.ranges)
    private = names_in(bay)
    if kind == "svg":
        return published_svg(drawing.svg, block, private=private).encode()
    return published_png(drawing.svg, block, private=private)


def publication(bay: BayNow, decision: Decision, ranges: str) -> Publication:
    """Return how a picture of a fitting came about.

    Parameters
    ----------
    bay : BayNow
    decision : Decision
    ranges : str
        What the picture's ranges mean.
    """
    clubs = [club for club in decision.clubs if club.balls]
    balls = sum(club.balls for club in clubs)
    samples = (
        f"{count(balls, 'ball')} with {count(len(clubs), 'club')}, one sample of each head and "
        "shaft"
    )
    golfers = "1, who agreed to this and is not named"
    if bay.fitting.invented:
        golfers = "none: every ball is invented, hit by a virtual golfer"
    days = dict.fromkeys(visit.day.isoformat() for visit in bay.now.visits)
    return Publication(
        samples=samples,
        obtained="in one fitting, sets of clubs shuffled, strikes marked on the face where known; "
        "flown again through the air of one course",
        ball=bay.now.strip.ball or NOT_KNOWN,
        device=_device_class(bay),
        golfers=golfers,
        dates=listed(tuple(days)) or NOT_KNOWN,
        program=f"Loftwright {__version__}",
        ranges=ranges,
    )


def names_in(bay: BayNow) -> tuple[str, ...]:
    """Return the names that no published picture may hold."""
    told = (bay.name, bay.partner)
    return tuple(name.replace("(invented)", "").strip() for name in told if name)


def device_class(measured: Sequence[str], devices: int = 1) -> str:
    """Return what devices measure, never what they are called.

    Parameters
    ----------
    measured : sequence of str
        What each of them measures.
    devices : int
    """
    monitors = "launch monitor" if devices == 1 else "launch monitors"
    if not measured:
        return (
            f"{monitors}; what {'it measures' if devices == 1 else 'they measure'} is {NOT_KNOWN}"
        )
    each = "that measures" if devices == 1 else "that all measure"
    return f"{monitors} {each} {listed(tuple(measured))}"


def _device_class(bay: BayNow) -> str:
    measured = dict.fromkeys(
        means
        for visit in bay.now.visits
        for means, origin in visit.device.origins.items()
        if origin is Origin.MEASURED
    )
    return device_class(tuple(measured))


def _marks(decision: Decision) -> dict[str, Mark]:
    return deal_marks([club.club for club in decision.clubs], OWN)


def _choice(bay: BayNow, decision: Decision) -> Drawing | None:
    return choice_drawing(decision, _marks(decision), show_of(bay.settings))


def _ranges(bay: BayNow, decision: Decision) -> Drawing | None:
    return ranges_drawing(decision, _marks(decision), show_of(bay.settings), out={})


def _strikes(bay: BayNow, decision: Decision) -> Drawing | None:
    return strikes_drawing(bay.now, _marks(decision), bay.golfer.hand)


_BANDS: Final = "marker: best estimate; band: half the chance; line: nine chances in ten"

PICTURES: Final = {
    "choice": PictureKind(
        title="Total against where drives finish",
        ranges=f"{_BANDS}; dashed: two of three balls of any club",
        draw=_choice,
    ),
    "ranges": PictureKind(title="Both figures with their ranges", ranges=_BANDS, draw=_ranges),
    "strikes": PictureKind(
        title="Where each club was struck",
        ranges="dashed: two of three strikes, the same for every club",
        draw=_strikes,
    ),
}
"""Every picture that can be published, by the name in its address."""
