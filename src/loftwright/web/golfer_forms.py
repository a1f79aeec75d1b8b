"""The golfer's form: what was typed becomes a golfer, a name, limits and an own club."""

from dataclasses import replace
from datetime import date
from typing import Final

from loftwright.domain.golfer import Consents, Golfer, Hand, Identity, Wish
from loftwright.physics.shaft_swing.players import Change, Release
from loftwright.report.screen_numbers import Show
from loftwright.services.golfer_opening import Visitor
from loftwright.services.growth_checks import proposed_check
from loftwright.services.rack_adding import OwnClub, own_items
from loftwright.web.forms import LONGEST_TEXT, Typed
from loftwright.web.home_forms import home_values, read_home_form

ABILITIES: Final = ("tour", "low", "mid", "high", "senior", "junior")
CONSENTS: Final = ("keep", "contact_me", "publish", "shop_record")
_OWN_FIELDS: Final = (
    *("own_head", "own_loft", "own_shaft", "own_mass"),
    *("own_label", "own_length", "own_grip"),
)
_OWN_PLACES: Final = {
    "loft": "own_loft",
    "length": "own_length",
    "paper_mass": "own_mass",
    "name": "own_head",
}


def read_visitor(typed: Typed, known: Golfer | None = None) -> Visitor | None:
    """Return what the golfer's form says; None if a field cannot be.

    Parameters
    ----------
    typed : Typed
    known : Golfer, optional
        As the golfer was before; what the form does not ask stays.
    """
    identity = _identity(typed)
    golfer = _golfer(typed, known)
    limits = typed.text("limits", most=LONGEST_TEXT)
    own = _own(typed, golfer)
    if identity is None or golfer is None or not typed.good:
        return None
    return Visitor(golfer=golfer, identity=identity, limits=limits, own=own)


def visitor_values(visitor: Visitor, show: Show, today: date) -> dict[str, str]:
    """Return what the golfer's form holds for a known golfer."""
    golfer, identity = visitor.golfer, visitor.identity
    consents = golfer.consents
    agreed = consents.given_on or identity.agreed_to_fit
    values = {
        "name": identity.name,
        "contact": identity.contact,
        "guardian": identity.guardian,
        "fit": "yes" if identity.agreed_to_fit else "",
        "growth_check": _check_value(visitor, today),
        "hand": golfer.hand.value,
        "goal": golfer.goal,
        "looks": golfer.looks,
        "limits": visitor.limits,
        "wish": golfer.wish.value,
        "change": golfer.change.value if golfer.change else "",
        "release": golfer.release.value if golfer.release else "",
        "ability": golfer.ability or "",
        "head_speed": show.typed("speed", golfer.head_speed),
        "minor": "yes" if golfer.minor else "",
        "keep": "yes" if consents.keep else "",
        "contact_me": "yes" if consents.contact else "",
        "publish": "yes" if consents.publish else "",
        "shop_record": "yes" if consents.shop_record else "",
        "given_on": agreed.isoformat() if agreed else "",
    }
    return {**values, **_own_values(visitor.own, show), **home_values(golfer.home, show)}


def new_values(show: Show, today: date) -> dict[str, str]:
    """Return what the form of a new golfer holds: all consents off, the standard home."""
    return {
        **home_values(Golfer(id="").home, show),
        "given_on": today.isoformat(),
        "growth_check": proposed_check(today).isoformat(),
    }


def _check_value(visitor: Visitor, today: date) -> str:
    """Return a minor's growth check; of anybody else what is proposed once a minor is ticked."""
    day = visitor.identity.growth_check
    if not visitor.golfer.minor:
        day = proposed_check(today)
    return "" if day is None else day.isoformat()


def _identity(typed: Typed) -> Identity | None:
    name = typed.text("name", need="Give a name; initials will do.")
    contact, guardian = typed.text("contact", most=200), typed.text("guardian")
    agreed, check = _of_minor(typed, guardian) if typed.ticked("minor") else (None, None)
    if not name:
        return None
    return Identity(
        name=name, contact=contact, guardian=guardian, agreed_to_fit=agreed, growth_check=check
    )


def _of_minor(typed: Typed, guardian: str) -> tuple[date | None, date | None]:
    """Return when the guardian agreed to the fitting, and when growth is to be looked at."""
    typed.fields.setdefault("fit", "")
    if not guardian:
        typed.fail("guardian", "a minor's guardian is missing", "Write who consents.")
    agreed = typed.day("given_on")
    if not typed.ticked("fit"):
        typed.fail("fit", "the guardian has not agreed to the fitting", "Ask first, then tick it.")
    elif agreed is None:
        typed.fail("given_on", "the day of the consent is missing", "Give the day it was given.")
    return agreed, typed.day("growth_check")


def _golfer(typed: Typed, known: Golfer | None) -> Golfer | None:
    hand = Hand.RIGHT
    if typed.given("hand"):
        hand = typed.word("hand", Hand, Hand.RIGHT)
    else:
        typed.fields["hand"] = ""
        typed.fail("hand", "it is open", "Choose the side that the golfer plays from.")
    goal = typed.text("goal", most=LONGEST_TEXT)
    looks = typed.text("looks", most=LONGEST_TEXT)
    wish = typed.word("wish", Wish, known.wish if known else Wish.DISTANCE)
    change = typed.one_of("change", ("", *Change), "")
    release = typed.one_of("release", ("", *Release), "")
    ability = typed.one_of("ability", ("", *ABILITIES), "") or None
    head_speed = typed.quantity("head_speed", "speed")
    minor = typed.ticked("minor")
    consents = _consents(typed)
    home = read_home_form(typed)
    if home is None or not typed.good:
        return None
    before = known or Golfer(id="")
    return typed.tried(
        "name",
        lambda: replace(
            before,
            hand=hand,
            goal=goal,
            wish=wish,
            change=Change(change) if change else None,
            release=Release(release) if release else None,
            looks=looks,
            ability=ability,
            head_speed=head_speed,
            minor=minor,
            home=home,
            consents=consents,
        ),
        {"consents": "publish"},
    )


def _consents(typed: Typed) -> Consents:
    given = {name: typed.ticked(name) for name in CONSENTS}
    day = typed.day("given_on")
    if any(given.values()) and day is None:
        typed.fail("given_on", "the day of the consent is missing", "Give the day it was given.")
    return Consents(
        keep=given["keep"],
        contact=given["contact_me"],
        publish=given["publish"],
        shop_record=given["shop_record"],
        given_on=day if any(given.values()) else None,
    )


def _own(typed: Typed, golfer: Golfer | None) -> OwnClub | None:
    """Return the own club if anything of it was typed."""
    if not any(typed.given(name) for name in _OWN_FIELDS):
        return None
    loft = typed.quantity("own_loft", "angle", need="Read it on the head or on a gauge.")
    length = typed.quantity("own_length", "length", need="Measure it; the plan starts from it.")
    mass = typed.quantity("own_mass", "mass")
    head, shaft = typed.text("own_head"), typed.text("own_shaft")
    label, grip = typed.text("own_label"), typed.text("own_grip")
    if loft is None or length is None:
        return None
    own = OwnClub(
        loft=loft,
        length=length,
        head=head,
        shaft=shaft,
        shaft_mass=mass,
        label=label,
        grip=grip,
    )
    able = typed.tried("own_loft", lambda: own_items(golfer or Golfer(id=""), own), _OWN_PLACES)
    return None if able is None else own


def _own_values(own: OwnClub | None, show: Show) -> dict[str, str]:
    if own is None:
        return {}
    return {
        "own_head": own.head,
        "own_loft": show.typed("angle", own.loft),
        "own_shaft": own.shaft,
        "own_mass": show.typed("mass", own.shaft_mass),
        "own_label": own.label,
        "own_length": show.typed("length", own.length),
        "own_grip": own.grip,
    }
