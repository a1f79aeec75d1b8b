"""Clubs that a golfer's bag can take over: the own one, and what was built and accepted."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final

from loftwright.domain.bag import Bag, BagClub, BagKind, Known, Timed
from loftwright.domain.build_sheet import MeasuredClub
from loftwright.domain.built import Checked
from loftwright.domain.check_acts import Outcome, Received
from loftwright.domain.club_kind import Kind, kind_of
from loftwright.domain.measured_card import MeasuredCard
from loftwright.domain.order import ClubSpec
from loftwright.domain.rack import Assembly, Rack
from loftwright.domain.verdict import Reading
from loftwright.errors import InputError, IntakeError
from loftwright.intake.build_text import read_measured_text
from loftwright.physics.build.pendulum import Pendulum, pendulum_error, pendulum_inertia
from loftwright.services.bags import with_club
from loftwright.services.one_golfer import records_of
from loftwright.services.studio import Studio
from loftwright.workshop.stages import agreed_quote
from loftwright.workshop.standing import newest, standing

FROM_RACK: Final = "the rack"
FROM_CHECK: Final = "the final check"
OWN: Final = "own"
_CHECKED: Final = {
    Checked.LOFT: Known.LOFT,
    Checked.LENGTH: Known.LENGTH,
    Checked.MASS: Known.MASS,
    Checked.BALANCE: Known.BALANCE,
    Checked.SWINGWEIGHT: Known.SWINGWEIGHT,
    Checked.INERTIA: Known.INERTIA,
}
_KINDS: Final = {
    Kind.DRIVER: BagKind.WOOD,
    Kind.FAIRWAY_WOOD: BagKind.WOOD,
    Kind.HYBRID: BagKind.HYBRID,
    Kind.IRON: BagKind.IRON,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """A club that can be taken over with one tap.

    Attributes
    ----------
    key : str
        `OWN`, or the fitting whose club was built.
    name, source : str
    club : BagClub or None
        As it would stand in the bag; None where it cannot.
    why_not : str
    """

    key: str
    name: str
    source: str
    club: BagClub | None
    why_not: str = ""


def offered(studio: Studio, golfer: str, bag: Bag) -> tuple[Offered, ...]:
    """Return the clubs that can be taken over.

    Parameters
    ----------
    studio : Studio
    golfer : str
    bag : Bag
        A club that stands in it just so is offered no more.

    Raises
    ------
    NotFoundError
        If there is no such golfer.
    """
    return tuple(one for one in _sources(studio, golfer) if not _is_in(bag, one))


def taken_over(bag: Bag, club: BagClub) -> Bag:
    """Return a bag with an offered club in it, new or in the place of the one of its name.

    Raises
    ------
    InputError
        If more would be in play than a round allows.
    """
    stands = bag.club(club.name)
    if stands is None:
        return with_club(bag, club)
    return with_club(bag, replace(club, spare=stands.spare), club.name)


def _is_in(bag: Bag, one: Offered) -> bool:
    stands = bag.club(one.name)
    return stands is not None and one.club == replace(stands, spare=False)


def _sources(studio: Studio, golfer: str) -> Iterator[Offered]:
    own = studio.store.golfer(golfer).value.own
    rack = studio.store.rack()
    assembly = None if own is None else rack.assemblies.get(own)
    if assembly is not None:
        name = f"{rack.head_of(assembly).name}, own"
        cards = studio.store.cards().get(assembly.id, ())
        card = cards[-1] if cards else None
        yield _offer(OWN, name, FROM_RACK, lambda: _of_rack(name, rack, assembly, card))
    records = records_of(studio, golfer)
    mine = {one.fitting for one in studio.store.outlines() if one.golfer in records}
    for fitting in studio.store.jobs():
        if fitting in mine:
            yield from _of_job(studio, fitting)


def _of_job(studio: Studio, fitting: str) -> Iterator[Offered]:
    record = studio.store.job_record(fitting)
    received, quoted = newest(standing(record), Received), agreed_quote(record)
    if received is None or quoted is None or received.outcome is not Outcome.ACCEPT:
        return
    spec, measured = quoted.quote.spec, received.measured
    yield _offer(fitting, spec.head, FROM_CHECK, lambda: _of_check(spec, measured))


def _offer(key: str, name: str, source: str, make: Callable[[], BagClub]) -> Offered:
    try:
        return Offered(key=key, name=name, source=source, club=make())
    except (InputError, IntakeError) as error:
        why = f"{error.place}: {error.message}"
        return Offered(key=key, name=name, source=source, club=None, why_not=why)


def _of_rack(name: str, rack: Rack, club: Assembly, card: MeasuredCard | None) -> BagClub:
    """Return a club as the rack knows it, with what was measured of it last."""
    loft = rack.head_of(club).loft
    plain = BagClub(
        name=name,
        kind=_KINDS[kind_of(loft, club.length)],
        loft=loft,
        length=club.length,
        source=FROM_RACK,
    )
    if card is None:
        return plain
    told = card.figures
    timed = None
    if told.frequency is not None and told.clamp is not None:
        timed = Timed(frequency=told.frequency, clamp=told.clamp, tip_mass=told.tip_mass)
    return replace(
        plain,
        loft=told.loft if told.loft is not None else loft,
        length=told.length if told.length is not None else club.length,
        mass=told.mass,
        balance=told.balance,
        swingweight=told.swingweight,
        inertia=told.inertia,
        timed=timed,
    )


def _of_check(spec: ClubSpec, measured: str) -> BagClub:
    """Return a built club as the final check measured it; of its length nothing else is taken."""
    found = read_measured_text(measured)
    readings = {
        known: found.checked[checked]
        for checked, known in _CHECKED.items()
        if checked in found.checked
    }
    inertia = _by_pendulum(found)
    if inertia is not None:
        readings[Known.INERTIA] = inertia
    doubts = {known: reading.half_width for known, reading in readings.items()}
    swing, timed = found.checked.get(Checked.FREQUENCY), None
    if swing is not None and found.clamp is not None:
        timed = Timed(frequency=swing.value, clamp=found.clamp, tip_mass=found.tip_mass)
        doubts[Known.FREQUENCY] = swing.half_width

    def value(known: Known) -> float | None:
        return readings[known].value if known in readings else None

    return BagClub(
        name=spec.head,
        kind=_KINDS[kind_of(spec.loft, spec.length)],
        loft=spec.loft if Known.LOFT not in readings else value(Known.LOFT),
        length=value(Known.LENGTH),
        method=found.method,
        mass=value(Known.MASS),
        balance=value(Known.BALANCE),
        swingweight=value(Known.SWINGWEIGHT),
        inertia=value(Known.INERTIA),
        timed=timed,
        doubts=doubts,
        source=FROM_CHECK,
    )


def _by_pendulum(found: MeasuredClub) -> Reading | None:
    swung = found.pendulum
    mass, balance = found.checked.get(Checked.MASS), found.checked.get(Checked.BALANCE)
    if swung is None or mass is None or balance is None:
        return None
    pendulum = Pendulum(
        mass=mass.value,
        balance=balance.value,
        pivot=swung.pivot,
        period=swung.period.value,
        swing=swung.swing,
        gravity=swung.gravity,
    )
    doubt = pendulum_error(
        pendulum,
        period=swung.period.half_width,
        mass=mass.half_width,
        balance=balance.half_width,
    )
    return Reading(value=pendulum_inertia(pendulum), half_width=doubt)
