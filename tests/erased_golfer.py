"""A golfer with an unmistakable word in every field that can be typed, in a studio with others."""

from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any, Final

from bags import a_bag
from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR, YARD
from loftwright.domain.acts import Act, Closed, Felt, Marked, ShotArrived, VisitOpened
from loftwright.domain.after_acts import Complained, FollowedUp, Played, Round, StillPlayed
from loftwright.domain.fitting import Fitting, Mark
from loftwright.domain.golfer import Consents, Golfer, Identity
from loftwright.domain.home import Home
from loftwright.domain.measured_card import MeasuredCard, PartFigures
from loftwright.domain.opening import Opening
from loftwright.domain.order_acts import Agreed, OrderSent, Withdrawn
from loftwright.domain.place import AWAY, PlaceMove
from loftwright.domain.prediction import Forecast, Prediction, Rests
from loftwright.services.bags import keep_bag
from loftwright.services.demo_studio import fill_demo
from loftwright.services.evidence import Desk, beliefs_of, compare_clubs
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.golfers import add_golfer, set_limits_today
from loftwright.services.job import job_act
from loftwright.services.merging import merge
from loftwright.services.rack_adding import OwnClub
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio
from loftwright.store.interface import BenchDay, Store
from shop_studios import with_consent
from store_samples import LOOKED_AT, PROFILE
from studios import Clock
from taken_clubs import quoted

GROWTH_CHECK: Final = date(2093, 3, 14)
"""A day that nothing else bears."""


@dataclass(slots=True)
class Words:
    """Hands out a word for each field and remembers them all."""

    said: list[str] = field(default_factory=list)

    def __call__(self, of: str) -> str:
        word = f"Quimble{of}Zorvane{len(self.said)}"
        self.said.append(word)
        return word


@dataclass(slots=True, kw_only=True)
class Erasable:
    """A studio with a golfer who will be erased, and others.

    Attributes
    ----------
    golfer, second : str
        Records of the golfer, who was written down twice.
    fittings : tuple of str
        The golfer's.
    others : tuple of str
        Fittings of the others.
    words : list of str
        That only the golfer's fields hold.
    """

    studio: Studio
    golfer: str
    second: str
    fittings: tuple[str, ...]
    others: tuple[str, ...]
    words: list[str]

    @property
    def ids(self) -> tuple[str, ...]:
        """Ids of records and fittings."""
        return (self.golfer, self.second, *self.fittings)


def others_alone(store: Store, folder: Path, clock: Clock | None = None) -> Studio:
    """Return a studio with the invented golfers, of whom one is real and teaches the shop."""
    studio = Studio(store=store, folder=folder, clock=clock or Clock())
    made = fill_demo(studio)
    assert made is not None
    with_consent(studio, made.finished, agreed=True)
    return studio


def with_golfer(studio: Studio) -> Erasable:
    """Add a golfer who agreed to everything, took turns with another one and ordered a club."""
    words = Words()
    others = tuple(kept.value.id for kept in studio.store.fittings())
    like = next(one for one in others if studio.standing(one).closed)
    opened = open_for_new(studio, _visitor(words), bay="Bay 1", fitter="Ansel Quickthorn")
    _hit(studio, opened, like, words)
    kept = studio.store.fitting(like)
    studio.store.change_fitting(replace(kept.value, partner=opened.id), version=kept.version)
    _ordered(studio, opened.id, words)
    _in_other_places(studio, opened, words)
    second = add_golfer(
        studio,
        Golfer(id="", goal=words("second goal"), consents=_ALL),
        Identity(name=words("second name"), contact=words("second contact")),
    )
    merge(studio, second.id, opened.golfer, by="Ansel Quickthorn")
    words.said.append(GROWTH_CHECK.isoformat())
    return Erasable(
        studio=studio,
        golfer=opened.golfer,
        second=second.id,
        fittings=(opened.id,),
        others=others,
        words=words.said,
    )


def results(studio: Studio, fittings: tuple[str, ...]) -> dict[str, str]:
    """Return what fittings find, each number to its last digit."""
    return {one: _found(studio, one) for one in fittings}


def _found(studio: Studio, fitting: str) -> str:
    golfer = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value
    convention = read_settings(studio).settings.convention
    compared = compare_clubs(studio.standing(fitting), golfer, convention)
    assert compared.comparison is not None
    assert beliefs_of(golfer, compared.table) is not None
    launch = compared.comparison.visit.launch
    return repr([_plain(getattr(launch, name)) for name in sorted(launch.__slots__)])


def _plain(value: Any) -> object:  # noqa: ANN401 - whatever a comparison holds
    return value.tolist() if hasattr(value, "tolist") else repr(value)


_ALL = Consents(
    keep=True, contact=True, publish=True, shop_record=True, given_on=date(2026, 11, 25)
)


def _visitor(words: Words) -> Visitor:
    return Visitor(
        golfer=Golfer(
            id="",
            goal=words("goal"),
            looks=words("looks"),
            home=Home(name=words("home")),
            head_speed=93.0 * MILE_PER_HOUR,
            consents=_ALL,
        ),
        identity=Identity(
            name=f"{words('first')} {words('last')}",
            contact=f"{words('mail')}@example.org, {words('phone')}",
            guardian=words("guardian"),
            growth_check=GROWTH_CHECK,
        ),
        limits=words("limits"),
        own=OwnClub(
            loft=9.5 * DEGREE,
            length=45.0 * INCH,
            head=words("head"),
            shaft=words("shaft"),
            shaft_mass=58.0 * GRAM,
            label=words("label"),
            grip=words("grip"),
        ),
    )


def _hit(studio: Studio, opened: Fitting, like: str, words: Words) -> None:
    """Have the golfer hit what another one hit, with words of the golfer's own on the way."""
    line = words("line")
    acts: list[Act] = []
    for entry in studio.record(like):
        one = entry.act
        if isinstance(one, Closed):
            continue
        if isinstance(one, VisitOpened):
            strip = replace(one.strip, ball=words("ball"), tee=words("tee"))
            device = replace(one.device, name=words("device"))
            one = replace(one, device=device, strip=strip, bay="Bay 1")
        elif isinstance(one, ShotArrived):
            one = replace(one, line=f"{line};{entry.sequence}", time=words("time"))
        acts.append(one)
    acts += [
        Felt(club="Ash", place=0.6, word=words("feel")),
        Marked(mark=Mark(toe=0.001, high=0.002, words=words("mark"))),
        Closed(),
    ]
    studio.store.append(
        opened.id, acts, at=studio.now() - timedelta(hours=2), by="Ansel Quickthorn", key="k"
    )


def _ordered(studio: Studio, fitting: str, words: Words) -> None:
    today = studio.today()
    for one in (
        quoted(),
        Agreed(name=words("signed")),
        OrderSent(to=words("workshop")),
        FollowedUp(day=today, answer=StillPlayed.KEPT, words=words("answer")),
        Played(rounds=(Round(day=today, course=words("course"), drives=14, fairways=8),)),
        Complained(day=today, words=words("complaint"), short=5.0 * YARD),
        Withdrawn(reason=words("reason")),
    ):
        job_act(studio, fitting, [one], by="Ansel Quickthorn")


def _in_other_places(studio: Studio, opened: Fitting, words: Words) -> None:
    """Leave traces beside the record: bag, card, prediction, folder, part, limits."""
    store, golfer = studio.store, opened.golfer
    bag = a_bag()
    clubs = (replace(bag.clubs[0], name=words("bag")), *bag.clubs[1:])
    keep_bag(studio, golfer, replace(bag, clubs=clubs), version=0)
    club = store.rack().assemblies[store.golfer(golfer).value.own or ""]
    store.keep_card(
        MeasuredCard(
            item=club.id,
            day=studio.today(),
            by=words("measured by"),
            figures=PartFigures(mass=0.32),
        )
    )
    foretold = Forecast(quantity="carry", mean=200.0, ranges=((199, 201), (198, 202), (190, 210)))
    store.predict(
        opened.id,
        Prediction(
            after=store.record(opened.id)[-1].sequence,
            set_up="Ash",
            bay="Bay 1",
            device=words("predicted device"),
            at=studio.now(),
            rests=Rests.BALLS,
            home=Home(name=words("predicted home")),
            forecasts=(foretold,),
            program="0.1.0",
        ),
    )
    watched = f'{{"path": "/shots/{words("folder")}", "columns": [], "before": []}}'
    store.set_setting(f"watch:{opened.id}", watched, version=0)
    store.set_hitting("Bay 9", opened.id, version=0)
    piece = next(
        one for one in store.rack().pieces.values() if one.id not in {club.head, club.shaft}
    )
    move = PlaceMove(
        piece=piece.id, was=piece.place, place=AWAY, at=studio.now(), by="A. Q.", golfer=golfer
    )
    store.check_out([move])
    set_limits_today(studio, golfer, words("later limits"))
    _own_shaft_on_the_bench(studio, club.shaft, words)
    store.keep_opening(
        Opening(
            golfer=golfer,
            fitting=opened.id,
            device="",
            by=words("opened by"),
            page=f"/fittings/{opened.id}/bay",
            at=studio.now(),
        ),
        within=timedelta(minutes=10),
    )
    logs = studio.folder / "logs"
    logs.mkdir(exist_ok=True)
    (logs / "loftwright.log").write_text(f"before\nfitting {opened.id} was closed\nafter\n")
    copies = studio.folder / "backups" / "keys"
    copies.mkdir(parents=True, exist_ok=True)
    for key in (studio.folder / "keys").glob("*.key"):
        (copies / key.name).write_bytes(key.read_bytes())


def _own_shaft_on_the_bench(studio: Studio, shaft: str, words: Words) -> None:
    store = studio.store
    store.inspect(replace(LOOKED_AT, piece=shaft, words=words("seen"), by=words("seen by")))
    store.keep_profile(
        replace(PROFILE, piece=shaft, bench=words("bench"), conditions=words("conditions"))
    )
    store.set_bench_sheet(shaft, words("bench sheet"), version=0)
    store.keep_bench_day(BenchDay(piece=shaft, at=studio.now(), told=words("bench day")))


def a_desk() -> Desk:
    """Return where comparisons are kept."""
    return Desk()
