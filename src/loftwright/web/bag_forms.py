"""A club of a bag in a form: read with what was measured kept, and written back."""

import re
from collections.abc import Callable, Iterator
from typing import Final

from loftwright.constants import CYCLE_PER_MINUTE, KILOGRAM_SQUARE_CENTIMETRE
from loftwright.domain.bag import BagClub, BagKind, Known, Swung, Timed
from loftwright.domain.build_sheet import LengthMethod
from loftwright.physics.build.swingweight import index_of, letters
from loftwright.report.screen_numbers import Show
from loftwright.units import parse_quantity
from loftwright.web.forms import Typed

METHODS: Final = {"plane": LengthMethod.PLANE, "ruler": LengthMethod.RULER}
TIPS: Final = ("head", "weight")
_INERTIA_UNIT: Final = re.compile(r"\s*kg\s*\.?·?\s*cm\s*(²|\^?2)\s*$", re.IGNORECASE)
_DOUBTED: Final = {
    Known.LOFT: "loft",
    Known.LENGTH: "length",
    Known.MASS: "mass",
    Known.BALANCE: "balance",
    Known.SWINGWEIGHT: "swingweight",
    Known.INERTIA: "inertia",
    Known.FREQUENCY: "frequency",
}


def club_values(club: BagClub, show: Show) -> dict[str, str]:
    """Return what the form of a club holds."""
    timed, swung = club.timed, club.swung
    return {
        "before": club.name,
        "name": club.name,
        "kind": club.kind.value,
        "spare": "yes" if club.spare else "",
        "loft": show.typed("angle", club.loft),
        "length": show.typed("length", club.length),
        "method": next(word for word, method in METHODS.items() if method is club.method),
        "mass": show.typed("mass", club.mass),
        "balance": show.typed("length", club.balance),
        "swingweight": points_typed(club.swingweight, show),
        "inertia": _plain(club.inertia, KILOGRAM_SQUARE_CENTIMETRE, show),
        "pivot": show.typed("mark", None if swung is None else swung.pivot),
        "period": _plain(None if swung is None else swung.period, 1.0, show),
        "frequency": _plain(None if timed is None else timed.frequency, CYCLE_PER_MINUTE, show),
        "clamp": show.typed("length", None if timed is None else timed.clamp),
        "tip": "head" if timed is None or timed.tip_mass is None else "weight",
        "tip_mass": show.typed("mass", None if timed is None else timed.tip_mass),
    }


def read_club(typed: Typed, old: BagClub | None) -> BagClub | None:
    """Return the club that was typed; None if a field cannot be.

    Parameters
    ----------
    typed : Typed
    old : BagClub or None
        As it stands; a field that still holds what it held keeps its figure and its doubt to
        the last digit.
    """
    held = {} if old is None else club_values(old, typed.show)
    name = typed.text("name", need="Call it as the golfer does: 7 iron.")
    kind = typed.word("kind", BagKind, BagKind.IRON)
    method = METHODS[typed.one_of("method", tuple(METHODS), "plane")]
    figures = {known: _figure(typed, known, old, held) for known in Known}
    swung, timed = _swung(typed, old, held), _timed(typed, figures[Known.FREQUENCY], old, held)
    if not typed.good:
        return None
    same = {
        known
        for known, field in _DOUBTED.items()
        if old is not None
        and figures[known] == old.value(known)
        and not (known is Known.LENGTH and method is not old.method)
    }
    return typed.tried(
        "name",
        lambda: BagClub(
            name=name,
            kind=kind,
            spare=typed.ticked("spare"),
            loft=figures[Known.LOFT],
            length=figures[Known.LENGTH],
            method=method,
            mass=figures[Known.MASS],
            balance=figures[Known.BALANCE],
            swingweight=figures[Known.SWINGWEIGHT],
            inertia=figures[Known.INERTIA],
            swung=swung,
            timed=timed,
            doubts={
                known: doubt
                for known, doubt in ({} if old is None else dict(old.doubts)).items()
                if known in same
            },
            source=old.source if old is not None and len(same) == len(_DOUBTED) else "",
        ),
    )


def points_typed(index: float | None, show: Show) -> str:
    """Return a swingweight as a field holds it; empty for none."""
    if index is None:
        return ""
    return show.words(letters(index).removesuffix(".0"))


def read_points(typed: Typed, name: str) -> float | None:
    """Return a swingweight that was typed, such as ``D2`` or ``D2,5``; None for an empty field."""
    text = typed.text(name)
    if not text:
        return None
    return typed.tried(name, lambda: index_of(text.replace(",", ".")))


def read_inertia(typed: Typed, name: str) -> float | None:
    """Return a club MOI that was typed in kg cm² [kg m^2]; None for an empty field."""
    text = _INERTIA_UNIT.sub("", typed.text(name))
    if not text:
        return None
    found = typed.tried(name, lambda: parse_quantity(text, "1", place=name))
    return None if found is None else found * KILOGRAM_SQUARE_CENTIMETRE


def read_cycles(typed: Typed, name: str) -> float | None:
    """Return a frequency that was typed in cycles a minute [s^-1]; None for an empty field."""
    text = typed.text(name)
    return typed.tried(name, lambda: parse_quantity(text, "cpm", place=name)) if text else None


def _figure(typed: Typed, known: Known, old: BagClub | None, held: dict[str, str]) -> float | None:
    field = _DOUBTED[known]
    if old is not None and typed.fields.get(field, "").strip() == held[field]:
        return old.value(known)
    readers: dict[Known, Callable[[], float | None]] = {
        Known.LOFT: lambda: typed.quantity(field, "angle"),
        Known.LENGTH: lambda: typed.quantity(field, "length"),
        Known.MASS: lambda: typed.quantity(field, "mass"),
        Known.BALANCE: lambda: typed.quantity(field, "length"),
        Known.SWINGWEIGHT: lambda: read_points(typed, field),
        Known.INERTIA: lambda: read_inertia(typed, field),
        Known.FREQUENCY: lambda: read_cycles(typed, field),
    }
    return readers[known]()


def _swung(typed: Typed, old: BagClub | None, held: dict[str, str]) -> Swung | None:
    given = [name for name in ("period", "pivot") if typed.given(name)]
    if old is not None and all(_same(typed, name, held) for name in ("period", "pivot")):
        return old.swung
    if len(given) == 1:
        missing = "pivot" if given == ["period"] else "period"
        typed.fields.setdefault(missing, "")
        typed.fail(missing, "a pendulum needs both", "Give the period and where the club hung.")
    text = typed.text("period")
    period = (
        typed.tried("period", lambda: parse_quantity(text, "s", place="period")) if text else 0
    )
    pivot = typed.quantity("pivot", "mark")
    if len(given) < 2 or period is None or pivot is None:
        return None
    return Swung(pivot=pivot, period=period)


def _timed(
    typed: Typed, frequency: float | None, old: BagClub | None, held: dict[str, str]
) -> Timed | None:
    names = ("frequency", "clamp", "tip", "tip_mass")
    if old is not None and all(_same(typed, name, held) for name in names):
        return old.timed
    clamp, weight = typed.quantity("clamp", "length"), typed.quantity("tip_mass", "mass")
    own_head = typed.one_of("tip", TIPS, "head") == "head"
    for name, words, mend in _missing(typed, own_head=own_head):
        typed.fields.setdefault(name, "")
        typed.fail(name, words, mend)
    if frequency is None or clamp is None or not (own_head or weight is not None):
        return None
    return typed.tried(
        "frequency",
        lambda: Timed(frequency=frequency, clamp=clamp, tip_mass=None if own_head else weight),
    )


def _missing(typed: Typed, *, own_head: bool) -> Iterator[tuple[str, str, str]]:
    """Yield what a frequency means nothing without."""
    alone = "a frequency without its clamp and weight means nothing"
    if typed.given("frequency") and not typed.given("clamp"):
        yield "clamp", alone, "Give how much of the butt was held."
    if typed.given("clamp") and not typed.given("frequency"):
        yield "frequency", "a clamp without a frequency tells nothing", "Give it, or empty both."
    if typed.given("frequency") and not own_head and not typed.given("tip_mass"):
        yield "tip_mass", alone, "Give the weight on the tip, or say that its own head was on."


def _same(typed: Typed, name: str, held: dict[str, str]) -> bool:
    return typed.fields.get(name, "").strip() == held[name]


def _plain(value: float | None, size: float, show: Show) -> str:
    if value is None:
        return ""
    text = f"{value / size:.6f}".rstrip("0").rstrip(".")
    return show.words(text)
