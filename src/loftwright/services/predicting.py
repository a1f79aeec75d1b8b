"""Predict every ball of a fitting before it is hit, without anybody having to wait for it.

A prediction is made from the comparison that the pages show, once they are painted; the store
takes it only while the ball has not come.
"""

import logging
from threading import Event
from typing import Final

from loftwright import __version__
from loftwright.bay.now import ClubNow, FittingNow, VisitNow
from loftwright.bay.setups import angles_of, label_of, set_ups
from loftwright.domain.golfer import Golfer, Hand
from loftwright.domain.home import Home
from loftwright.domain.prediction import Prediction
from loftwright.errors import ConflictError, LoftwrightError
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.predict import (
    Foreseen,
    NextBall,
    predict_ball,
    predict_from_stated,
)
from loftwright.evidence.unhit_effects import KnownNext
from loftwright.physics.sleeve import Convention
from loftwright.services.due_fittings import DueFittings
from loftwright.services.evidence import Compared, Desk, beliefs_of
from loftwright.services.overviews import may_be_open
from loftwright.services.settings import read_settings
from loftwright.services.shaft_shifts import expected_of, shaft_shifts
from loftwright.services.shop_beliefs import fitting_beliefs
from loftwright.services.studio import Studio
from loftwright.store.topics import FITTING

AFTER_PAGES: Final = 0.5
"""Seconds that are left to the pages before a prediction is worked out."""

log = logging.getLogger(__name__)


def predict_next(studio: Studio, desk: Desk, fitting: str) -> Prediction | None:
    """Predict the ball that comes next in a fitting and keep what was predicted.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    fitting : str

    Returns
    -------
    Prediction, optional
        None where the next ball is no ball of the comparison, nothing can be said of it, it was
        predicted already, or it came meanwhile.

    Raises
    ------
    NotFoundError
        If there is no such fitting.
    """
    now = studio.standing(fitting)
    visit, club = now.visit, _club_in_hand(now)
    if visit is None or club is None:
        return None
    opened = studio.store.fitting(fitting).value
    golfer = studio.store.golfer(opened.golfer).value
    convention = read_settings(studio).settings.convention
    shifts = shaft_shifts(studio, golfer, now)
    pinned = fitting_beliefs(studio, golfer, now)
    found = desk.compared(fitting, now, golfer, convention, shifts, pinned)
    foreseen = _foreseen(found, visit, club, golfer, convention)
    if foreseen is None or not foreseen.forecasts:
        return None
    prediction = Prediction(
        after=now.upto,
        set_up=label_of(club.name, club.card, _setting(now, club)),
        bay=visit.bay,
        device=visit.device.name,
        at=studio.now(),
        rests=foreseen.rests,
        home=_air_of(golfer.home),
        forecasts=foreseen.forecasts,
        program=__version__,
    )
    try:
        return prediction if studio.store.predict(fitting, prediction) else None
    except ConflictError:
        # The ball was quicker. It counts as not predicted.
        return None


def _club_in_hand(now: FittingNow) -> ClubNow | None:
    """Return the club of the next ball if that would be a ball of the comparison."""
    if now.visit is None or not now.visit.warm or now.closed or now.in_hand is None:
        return None
    club = now.club(now.in_hand)
    return None if club is None or club.out else club


def _setting(now: FittingNow, club: ClubNow) -> str:
    return club.card.setting if now.seen is None else now.seen


def _foreseen(
    found: Compared, visit: VisitNow, club: ClubNow, golfer: Golfer, convention: Convention
) -> Foreseen | None:
    now = found.now
    if found.comparison is not None:
        label = label_of(club.name, club.card, _setting(now, club))
        shift = _shift(found, club, golfer.hand, convention)
        ball = NextBall(
            club=label,
            order=float(now.swings_today),
            visit=_visit_number(found, visit),
            shift=shift,
            known=_known(found, label, club, shift),
        )
        return predict_ball(found.comparison, ball, golfer.home)
    if found.table.balls is None and golfer.head_speed is not None:
        return predict_from_stated(golfer.head_speed, beliefs_of(golfer, found.table), golfer.home)
    return None


def _visit_number(found: Compared, visit: VisitNow) -> int:
    """Return a visit's number among those with balls that are compared."""
    rows = {shot.row for shot in found.table.table.shots}
    hit = sorted({swing.visit for swing in found.now.balls if swing.number in rows})
    return hit.index(visit.index) if visit.index in hit else len(hit)


def _shift(
    found: Compared, club: ClubNow, hand: Hand, convention: Convention
) -> tuple[float, float, float, float, float]:
    """Return what the set-up in hand is believed to differ by from the mean of those hit.

    By loft and face of its head as it is set, and by what is believed of its shaft.
    """
    balls = found.table.balls
    if balls is None:
        return (0.0, 0.0, 0.0, 0.0, 0.0)
    known = set_ups(found.now, convention)
    shifts = found.table.shifts
    hit = [expected_of(known[name].angles, known[name].card, hand, shifts) for name in balls.clubs]
    angles = angles_of(club.card, _setting(found.now, club), convention)
    here = expected_of(angles, club.card, hand, shifts)
    speed, attack, path, face, loft = (
        one - sum(row[part] for row in hit) / len(hit) for part, one in enumerate(here)
    )
    return speed, attack, path, face, loft


def _known(
    found: Compared, label: str, club: ClubNow, shift: tuple[float, float, float, float, float]
) -> KnownNext | None:
    """Return what the shop's record says of a set-up in hand with which no ball was hit."""
    balls, hit = found.table.balls, found.table.traits
    if balls is None or label in balls.clubs:
        return None
    traits = ClubTraits(head=club.card.head_piece, shaft=club.card.shaft_piece, shift=shift)
    told = None if found.shop is None else found.pinned.beliefs((*hit, traits))
    return None if told is None else KnownNext(hit=hit, traits=traits, shop=told)


def _air_of(home: Home) -> Home:
    """Return the air, wind and turf of a home, which is all that a flight needs of it."""
    return Home(
        altitude=home.altitude,
        temperature=home.temperature,
        humidity=home.humidity,
        turf=home.turf,
        wind_along=home.wind_along,
        wind_across=home.wind_across,
    )


class Predictor:
    """Predicts the next ball of every fitting in which something happened, behind the pages.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    """

    def __init__(self, studio: Studio, desk: Desk) -> None:
        self._studio, self._desk = studio, desk
        self._due = DueFittings(AFTER_PAGES, FITTING)
        studio.hub.listen(self.told)

    def told(self, topic: str) -> None:
        """Take note that something happened; made to be called from any thread.

        Balls of training cases prove nothing and are not predicted.
        """
        self._due.told(topic)

    def resume(self) -> None:
        """Take up the fittings of today whose next ball may come any moment."""
        for one in may_be_open(self._studio):
            if self._is_on(one.fitting):
                self.told(f"{FITTING}{one.fitting}")

    def run(self, stop: Event) -> None:
        """Predict until told to stop; `wake` ends a wait."""
        while not stop.is_set():
            fitting = self._due.next()
            if fitting is not None and not stop.is_set():
                self._predict(fitting)

    def wake(self) -> None:
        """End the wait for the next fitting."""
        self._due.wake()

    def _predict(self, fitting: str) -> None:
        self._studio.look_for_erased()
        try:
            predict_next(self._studio, self._desk, fitting)
        except LoftwrightError:
            # The ball counts as not predicted; the fitting goes on.
            log.exception("the next ball of fitting %s could not be predicted", fitting)

    def _is_on(self, fitting: str) -> bool:
        now = self._studio.standing(fitting)
        return now.visit is not None and not now.closed and now.visit.day == self._studio.today()
