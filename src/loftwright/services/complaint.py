"""The looks of a complaint: the club measured again, and what another place takes away."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot, isfinite
from typing import Final

from loftwright.constants import YARD
from loftwright.domain.after_acts import ComplaintEnded, Found, Look, LookedAt, Where
from loftwright.domain.build_sheet import MeasuredClub
from loftwright.domain.built import Checked
from loftwright.domain.check_acts import Received
from loftwright.domain.home import Home
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.order import ClubSpec, Promise
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.undoing import written
from loftwright.domain.verdict import Fit, Reading
from loftwright.errors import ConvergenceError, InputError
from loftwright.evidence.flight_map import conditions_at
from loftwright.intake.build_text import read_build_text, read_measured_text
from loftwright.physics.flight import Launch, fly_quickly
from loftwright.services.build_check import check_sheet
from loftwright.services.follow_up import taken_club
from loftwright.services.job import job_act
from loftwright.services.sheet_now import sheet_now
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms
from loftwright.workshop.after import spec_of
from loftwright.workshop.complaint import complaint_now
from loftwright.workshop.standing import newest, standing

FELT: Final = 3.0 * YARD
"""What another place has to take away or add to count as different (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadAgain:
    """One figure of the club, read again.

    Attributes
    ----------
    before : Reading or None
        At the final check.
    target : float or None
        Of the sheet; None where it says nothing.
    tolerance : float
        Within which a figure counts as the same.
    fit : Fit or None
        Against the sheet.
    since : Fit or None
        Against the final check: in for the same, out for changed; None without one.
    """

    checked: Checked
    reading: Reading
    before: Reading | None
    target: float | None
    tolerance: float
    fit: Fit | None
    since: Fit | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatWasSaid:
    """A club that was taken, and what was said of it.

    Attributes
    ----------
    spec : ClubSpec or None
        Of a club that is back in the shop too.
    home : Home
        The golfer's course as it stands now.
    """

    spec: ClubSpec | None
    home: Home

    @property
    def promise(self) -> Promise | None:
        """What it was said to do; None where nothing was."""
        return None if self.spec is None else self.spec.promise


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceEffect:
    """What a place does to the total that was said [m]; less is negative.

    Attributes
    ----------
    parts : tuple of (str, float)
        Each of ``temperature``, ``altitude``, ``turf`` and ``wind_along`` by itself.
    together : float
        All at once; not quite the sum.
    """

    parts: tuple[tuple[str, float], ...]
    together: float


def what_was_said(studio: Studio, fitting: str) -> WhatWasSaid:
    """Return the club that a complaint is of, and what was said of it."""
    after = taken_club(studio, fitting)
    ordered = spec_of(standing(studio.store.job_record(fitting)))
    golfer = studio.store.fitting(fitting).value.golfer
    return WhatWasSaid(
        spec=ordered if after is None else after.spec,
        home=studio.store.golfer(golfer).value.home,
    )


def read_again(
    record: Sequence[JobEntry], measured: str, usual: Tolerances
) -> tuple[ReadAgain, ...]:
    """Return what was read of the club again, beside its sheet and its final check.

    Parameters
    ----------
    record : sequence of JobEntry
        The whole record, in order.
    measured : str
        Text of a file of measurements.
    usual : Tolerances
        Where there is no sheet.

    Raises
    ------
    IntakeError, InputError
        If the readings cannot be.
    """
    found = read_measured_text(measured)
    before = _final_check(record)
    now = sheet_now(record)
    sheet = None if now is None else read_build_text(now.as_built)
    lines = {} if sheet is None else {x.checked: x for x in check_sheet(sheet, found).targets}
    tolerances = usual if sheet is None else sheet.tolerances
    told = []
    for checked, reading in found.checked.items():
        line = lines.get(checked)
        old = None if before is None else before.checked.get(checked)
        tolerance: float = getattr(tolerances, checked.value)
        told.append(
            ReadAgain(
                checked=checked,
                reading=reading,
                before=old,
                target=None if line is None else line.target,
                tolerance=tolerance,
                fit=None if line is None else line.fit,
                since=None if old is None else changed(reading, old, tolerance),
            )
        )
    return tuple(told)


def changed(reading: Reading, before: Reading, tolerance: float) -> Fit:
    """Return whether a figure is what it was: in, out, or nobody can tell.

    Parameters
    ----------
    reading, before : Reading
    tolerance : float
        A smaller change counts as none.

    Notes
    -----
    Out: the two differ by more than the tolerance and by more than both doubts together. In: they
    differ by the tolerance at most, and the doubts together are at most twice as large.
    """
    apart = abs(reading.value - before.value)
    doubt = hypot(reading.half_width, before.half_width)
    if apart > max(tolerance, doubt):
        return Fit.OUT
    return Fit.IN if apart <= tolerance and doubt <= 2.0 * tolerance else Fit.CANNOT_TELL


def found_of(lines: Sequence[ReadAgain]) -> Found:
    """Return what readings taken again say of the club.

    Notes
    -----
    A figure counts against the final check where it was read then, else against the sheet. One
    that is out makes the club different; it is the same when every figure is in.
    """
    told = [one.fit if one.since is None else one.since for one in lines]
    known = [one for one in told if one is not None]
    if Fit.OUT in known:
        return Found.DIFFERENT
    return Found.SAME if known and set(known) == {Fit.IN} else Found.NOT_KNOWN


def place_effect(promise: Promise, home: Home, where: Where) -> PlaceEffect:
    """Return what a place does to the total that was said for the golfer's home.

    Parameters
    ----------
    promise : Promise
        Its mean launch is flown; a club's shape and aim are left out.
    home : Home
        What the total was said for.
    where : Where
        What is None is as at home.

    Raises
    ------
    ConvergenceError
        If the ball does not come down, or does not run.
    """
    changes = {
        name: value
        for name in ("temperature", "altitude", "turf", "wind_along")
        if (value := getattr(where, name)) is not None and value != getattr(home, name)
    }
    at_home = _total(promise, home)
    if not isfinite(at_home):
        raise ConvergenceError(
            "the launch that was said has no total",
            place="temperature",
            mend="Leave the figures of the place out, and choose what was found.",
        )
    parts = tuple(
        (name, _total(promise, replace(home, **{name: value})) - at_home)
        for name, value in changes.items()
    )
    together = _total(promise, replace(home, **changes)) - at_home if changes else 0.0
    return PlaceEffect(parts=parts, together=together)


def found_at(effect: PlaceEffect) -> Found:
    """Return whether a place counts as different."""
    return Found.DIFFERENT if abs(effect.together) >= FELT else Found.SAME


def look(
    studio: Studio,
    fitting: str,
    looked: LookedAt,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write down one of the looks of the open complaint.

    Raises
    ------
    InputError
        If no complaint is open, or readings cannot be.
    ConvergenceError
        If what was said cannot be flown at the place.
    ConflictError
        If the record went on since the page was drawn.
    """
    with studio.lock:
        record = studio.store.job_record(fitting)
        if not written(record, key):
            _must_be_open(record)
        _must_be_readable(studio, fitting, looked)
        return job_act(studio, fitting, [looked], by=by, key=key, seen=seen)


def end(
    studio: Studio,
    fitting: str,
    ended: ComplaintEnded,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write down how the open complaint ended.

    Raises
    ------
    InputError
        If no complaint is open.
    ConflictError
        If the record went on since the page was drawn.
    """
    with studio.lock:
        record = studio.store.job_record(fitting)
        if not written(record, key):
            _must_be_open(record)
        return job_act(studio, fitting, [ended], by=by, key=key, seen=seen)


def _must_be_open(record: Sequence[JobEntry]) -> None:
    if complaint_now(record).open is None:
        raise InputError(
            "no complaint is open", place="complaint", mend="Write down what was said first."
        )


def _must_be_readable(studio: Studio, fitting: str, looked: LookedAt) -> None:
    if looked.measured:
        usual = read_terms(studio).terms.tolerances
        read_again(studio.store.job_record(fitting), looked.measured, usual)
    if looked.where is None:
        return
    if looked.look is not Look.PLACE:
        raise InputError("only a look at the place has a place", place="where")
    said = what_was_said(studio, fitting)
    if said.promise is not None:
        place_effect(said.promise, said.home, looked.where)


def _final_check(record: Sequence[JobEntry]) -> MeasuredClub | None:
    received = newest(standing(record), Received)
    if received is None or not received.measured.strip():
        return None
    return read_measured_text(received.measured)


def _total(promise: Promise, home: Home) -> float:
    launch = Launch(
        ball_speed=promise.ball_speed,
        launch=promise.launch,
        direction=0.0,
        spin=promise.spin,
        axis=0.0,
    )
    return fly_quickly(launch, conditions_at(home)).total
