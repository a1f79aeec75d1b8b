"""The rack's forms: what was typed becomes a head, a shaft, a sleeve or a whole club."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from loftwright.constants import DEGREE
from loftwright.domain.golfer import Hand
from loftwright.domain.inspection import Finding
from loftwright.domain.rack import (
    Assembly,
    HeadModel,
    Piece,
    Rack,
    ShaftModel,
    Sleeve,
    SleeveSetting,
)
from loftwright.errors import InputError
from loftwright.services.rack_adding import NewClub, NewHead, NewShaft, first_setting
from loftwright.units import parse_quantity
from loftwright.web.forms import LONGEST_TEXT, Typed
from loftwright.web.views.rack_search import SORTS, Wanted
from loftwright.web.views.sleeve_words import LEAN_DIRECTIONS


def read_wanted(typed: Typed) -> Wanted:
    """Return what of the rack is looked for."""
    return Wanted(
        sort=typed.one_of("sort", SORTS, "weight"),
        least_mass=typed.quantity("least_mass", "mass"),
        most_mass=typed.quantity("most_mass", "mass"),
        least_length=typed.quantity("least_length", "length"),
        most_length=typed.quantity("most_length", "length"),
        words=typed.text("words"),
    )


def read_head(typed: Typed) -> NewHead | None:
    """Return a head with its one sample; None if a field cannot be."""
    model = read_head_model(typed)
    mass = typed.quantity("mass", "mass")
    label, place = typed.text("piece_label"), typed.text("place")
    if model is None or not typed.good:
        return None
    made = typed.tried("mass", lambda: Piece(id="", model="", mass=mass))
    return None if made is None else NewHead(model=model, label=label, mass=mass, place=place)


def read_head_model(typed: Typed, known: HeadModel | None = None) -> HeadModel | None:
    """Return a head as its maker sells it, new or with other words; None if it cannot be."""
    loft = typed.quantity("loft", "angle", need="Give the loft printed on the head.")
    lie = typed.quantity("lie", "angle")
    face = typed.quantity("face", "angle")
    name = typed.text("name", need="Write what is on the head.")
    maker, system = typed.text("maker"), typed.text("system")
    generation = typed.text("generation")
    hand = typed.word("hand", Hand, Hand.RIGHT)
    before = known or HeadModel(id="", maker="", name="-", loft=10.0 * DEGREE)
    sold = _sold(typed, before)
    if not typed.good or loft is None:
        return None
    return typed.tried(
        "loft",
        lambda: replace(
            before,
            name=name,
            maker=maker,
            system=system,
            generation=generation,
            hand=hand,
            loft=loft,
            lie=before.lie if lie is None else lie,
            face=before.face if face is None else face,
            **sold,
        ),
    )


def read_shaft(typed: Typed, rack: Rack) -> NewShaft | None:
    """Return a shaft with its sample and the club it makes; None if a field cannot be."""
    chosen = rack.shafts.get(typed.text("model"))
    model = chosen if chosen is not None else read_shaft_model(typed)
    mass = typed.quantity("mass", "mass")
    sleeve = typed.text("sleeve") or None
    club = _read_club(typed)
    if model is None or not typed.good:
        return None
    made = typed.tried("mass", lambda: Piece(id="", model="", mass=mass))
    if made is None:
        return None
    return NewShaft(
        model=model,
        label=typed.text("piece_label"),
        mass=mass,
        place=typed.text("place"),
        sleeve=sleeve,
        club=club,
    )


def read_shaft_model(typed: Typed, known: ShaftModel | None = None) -> ShaftModel | None:
    """Return a shaft as its maker sells it, new or with other words; None if it cannot be."""
    paper_mass = typed.quantity("paper_mass", "mass")
    words: dict[str, Any] = {
        "name": typed.text("name", need="Write what is on the shaft."),
        "maker": typed.text("maker"),
        "paper_label": typed.text("paper_label"),
        "generation": typed.text("generation"),
    }
    before = known or ShaftModel(id="", maker="", name="-")
    words |= _sold(typed, before)
    if not typed.good:
        return None
    return typed.tried("paper_mass", lambda: replace(before, paper_mass=paper_mass, **words))


def _sold(typed: Typed, before: HeadModel | ShaftModel) -> dict[str, Any]:
    """Return a model's family, forebear, stock and price; a form without the field keeps it."""
    read: dict[str, Callable[[], Any]] = {
        "family": lambda: typed.text("family"),
        "replaces": lambda: typed.text("replaces") or None,
        "stock": lambda: typed.whole("stock", least=0, most=99_999),
        "new_price": lambda: typed.money("new_price"),
    }
    told = {name: read[name]() for name in read if name in typed.fields}
    if "new_price" in told:
        told["price"] = told.pop("new_price")
    kept = {name: getattr(before, name) for name in ("family", "replaces", "stock", "price")}
    return kept | told


def _read_club(typed: Typed) -> NewClub | None:
    """Return what the shaft is put on, if a head was chosen."""
    head = typed.text("head")
    if not head:
        return None
    length = typed.quantity("length", "length", need="Give the playing length of the club.")
    price = typed.money("price")
    if length is None:
        return None
    return NewClub(
        head=head,
        length=length,
        setting=typed.text("setting"),
        grip=typed.text("grip"),
        price=price,
    )


def read_assembly(typed: Typed, rack: Rack, known: Assembly | None = None) -> Assembly | None:
    """Return a whole club of known pieces; None if a field cannot be.

    A shaft with a sleeve whose setting was left open takes the sleeve's first one.
    """
    head = typed.text("head", need="Choose a head.")
    shaft = typed.text("shaft", need="Choose a shaft.")
    length = typed.quantity("length", "length", need="Give the playing length of the club.")
    price = typed.money("price")
    setting, grip = typed.text("setting"), typed.text("grip")
    if not typed.good or length is None:
        return None
    piece = rack.pieces.get(shaft)
    usual = first_setting(rack, piece) if piece is not None else ""
    before = known or Assembly(id="", head="", shaft="", length=length)
    return typed.tried(
        "length",
        lambda: replace(
            before,
            head=head,
            shaft=shaft,
            length=length,
            setting=setting or usual,
            grip=grip,
            price=price,
        ),
    )


def read_sleeve(typed: Typed, known: Sleeve | None = None) -> Sleeve | None:
    """Return a sleeve with its settings, one a line; None if a line cannot be."""
    name = typed.text("name", need="Write what is on the sleeve.")
    system = typed.text("system", need="Name the system of heads that it fits.")
    lines = [
        line.strip() for line in typed.text("settings", most=2000).splitlines() if line.strip()
    ]
    settings = typed.tried("settings", lambda: tuple(_setting(line) for line in lines))
    if settings is None or not typed.good:
        return None
    return typed.tried(
        "settings",
        lambda: Sleeve(id=known.id if known else "", name=name, system=system, settings=settings),
    )


def _setting(line: str) -> SleeveSetting:
    """Return one setting of a line: name; bore in degrees; where the grip end leans."""
    parts = [part.strip() for part in line.split(";")]
    if len(parts) == 1:
        return SleeveSetting(name=parts[0])
    if len(parts) != 3:
        raise InputError(
            f"the line {line!r} is not a name, or a name, a bore and a direction",
            place="settings",
            mend='Write for example "one up; 2; to the target".',
        )
    name, bore, lean = parts
    azimuth = LEAN_DIRECTIONS.get(lean.lower())
    return SleeveSetting(
        name=name,
        bore=parse_quantity(bore, "deg", place="settings"),
        azimuth=azimuth * DEGREE
        if azimuth is not None
        else parse_quantity(lean, "deg", place="settings"),
    )


def read_piece(typed: Typed, rack: Rack, known: Piece) -> Piece | None:
    """Return a sample with other words; None if a field cannot be."""
    mass = typed.quantity("mass", "mass")
    label, place = typed.text("piece_label"), typed.text("place")
    every = known.check_after
    if "check_after" in typed.fields:
        every = typed.whole("check_after", least=1, most=100_000)
    sleeve = known.sleeve
    if known.model in rack.shafts and "sleeve" in typed.fields:
        sleeve = typed.text("sleeve") or None
    if sleeve is not None and sleeve not in rack.sleeves:
        typed.fail("sleeve", "the rack has no such sleeve", "Choose one, or add it first.")
    if not typed.good:
        return None
    return typed.tried(
        "mass",
        lambda: replace(
            known, mass=mass, label=label, place=place, sleeve=sleeve, check_after=every
        ),
    )


def read_reason(typed: Typed) -> str:
    """Return why a piece is locked or retired."""
    need = "Write what was seen: cracked at the tip, sold, lost."
    return typed.text("reason", most=LONGEST_TEXT, need=need)


def read_look(typed: Typed) -> tuple[Finding, str, str]:
    """Return what a look at a piece found, in words, and who looked."""
    finding = typed.word("finding", Finding, Finding.SOUND)
    need = "" if finding is Finding.SOUND else "Write where: hairline at the hosel, paint worn."
    return finding, typed.text("words", most=LONGEST_TEXT, need=need), typed.text("by")
