"""Which clubs a pick-up sets against each other, and what stands in its way."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from loftwright.bay.now import FittingNow
from loftwright.bay.setups import label_of
from loftwright.domain.check_acts import Outcome, PickedUp, PickUpBegun, Received
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.names import OWN
from loftwright.domain.order import ClubSpec
from loftwright.domain.order_acts import Withdrawn
from loftwright.domain.rack import Rack
from loftwright.domain.sheet_acts import Bonded
from loftwright.services.holding import held
from loftwright.workshop.stages import agreed_quote, changed_since
from loftwright.workshop.standing import newest, standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """Why the built club is not hit now.

    Attributes
    ----------
    step : str
        The step of the fitting where it is mended; empty where there is none.
    """

    message: str
    mend: str
    step: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """The two clubs.

    Attributes
    ----------
    spec : ClubSpec
        As it was agreed.
    assembly : str
        The built club's id in the rack.
    built : str
        Its name in the fitting; empty before it joined.
    tested : str
        Name of the tested club.
    tested_label : str
        The same with its setting, as the comparison calls it.
    rotation : bool
        Whether the tested club is at hand to be hit again.
    gone : str
        Why it is not.
    """

    spec: ClubSpec
    assembly: str
    built: str
    tested: str
    tested_label: str
    rotation: bool
    gone: str = ""


def begun_now(record: Sequence[JobEntry]) -> PickUpBegun | None:
    """Return the pick-up that is going on or was the last."""
    return newest(standing(record), PickUpBegun)


def picked_now(record: Sequence[JobEntry]) -> PickedUp | None:
    """Return how the last pick-up ended; None while one goes on."""
    stands = standing(record)
    last = next(
        (one.act for one in reversed(stands) if isinstance(one.act, PickUpBegun | PickedUp)), None
    )
    return last if isinstance(last, PickedUp) else None


def pair_of(record: Sequence[JobEntry], now: FittingNow, rack: Rack, at: datetime) -> Pair | Bar:
    """Return the built club and the tested one, or why there are none to be hit.

    Parameters
    ----------
    record : sequence of JobEntry
        The job's.
    now : FittingNow
    rack : Rack
    at : datetime
        Now, in the shop's zone.
    """
    stands = standing(record)
    quoted, bonded = agreed_quote(record), newest(stands, Bonded)
    if quoted is None or bonded is None:
        return _no_club(record, ordered=quoted is not None)
    spec = quoted.quote.spec
    tested, gone = now.club(spec.club), _gone(now, rack, spec, at)
    bar = _too_early(stands, bonded, at) or _no_pair(now, rack, spec, bonded, at)
    if bar is not None or tested is None:
        return bar or _never_hit()
    known = next((one.name for one in now.clubs if one.card.assembly == bonded.assembly), "")
    return Pair(
        spec=spec,
        assembly=bonded.assembly,
        built=known,
        tested=spec.club,
        tested_label=label_of(spec.club, tested.card, spec.setting),
        rotation=not gone,
        gone=gone,
    )


def _no_club(record: Sequence[JobEntry], *, ordered: bool) -> Bar:
    off = newest(standing(record), Withdrawn)
    if ordered:
        return Bar(message="no club is built yet", mend="Build it first.", step="build")
    if off is not None:
        return Bar(message=f"the order is off: {off.reason}", mend="", step="order")
    return Bar(message="no club is ordered yet", mend="Agree on one first.", step="order")


def _no_pair(
    now: FittingNow, rack: Rack, spec: ClubSpec, bonded: Bonded, at: datetime
) -> Bar | None:
    """Return what is missing of two clubs that could be hit against each other."""
    if bonded.assembly not in rack.assemblies:
        return Bar(
            message="the built club is not in the rack",
            mend="Put it into the rack as the golfer’s, with the pieces that were bonded.",
        )
    if now.club(spec.club) is None or not spec.hit:
        return _never_hit()
    gone = _gone(now, rack, spec, at)
    if gone and not _tied_by_own(now, rack, spec, at):
        return Bar(
            message=f"{gone}, and no club that was hit with it can be hit again",
            mend="Nothing would tie the two days together: hand it over by its measurements.",
        )
    return None


def _never_hit() -> Bar:
    return Bar(
        message="just this club was never hit, so there is none to set it against",
        mend="Hand it over by its measurements.",
    )


def _too_early(stands: Sequence[JobEntry], bonded: Bonded, at: datetime) -> Bar | None:
    if at < bonded.not_before:
        return Bar(
            message="the bond cures until "
            f"{bonded.not_before.astimezone(at.tzinfo):%H:%M on %d %B}",
            mend="Nobody hits the club before.",
            step="build",
        )
    received = newest(stands, Received)
    if received is None or received.outcome is not Outcome.ACCEPT:
        was = "is not done" if received is None else f"says {received.outcome}"
        return Bar(
            message=f"the final check {was}",
            mend="A second person measures and accepts the club first.",
            step="final-check",
        )
    if changed_since(stands):
        return Bar(
            message="something was changed since the final check",
            mend="A second person measures and accepts the club again.",
            step="final-check",
        )
    return None


def _gone(now: FittingNow, rack: Rack, spec: ClubSpec, at: datetime) -> str:
    """Return why the tested club cannot be hit again; empty if it can."""
    club = now.club(spec.club)
    if club is None:
        return f"{spec.club} left the fitting"
    made = rack.assemblies.get(club.card.assembly)
    if made is None:
        return f"{spec.club} is not in the rack any more"
    if (made.head, made.shaft) != (club.card.head_piece, club.card.shaft_piece):
        return f"{spec.club} has other parts now"
    return held(rack, club.card, at)


def _tied_by_own(now: FittingNow, rack: Rack, spec: ClubSpec, at: datetime) -> bool:
    """Return whether the golfer's own club was hit on a day with the tested one and still can."""
    own = now.club(OWN)
    if own is None or own.out or spec.club == OWN or held(rack, own.card, at):
        return False
    days = {ball.visit for ball in now.balls if ball.club == spec.club}
    return any(ball.club == OWN and ball.visit in days for ball in now.balls)
