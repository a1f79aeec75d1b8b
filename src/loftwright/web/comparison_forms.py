"""The forms of comparisons to publish: what is compared, and who publishes it."""

from collections.abc import Mapping
from typing import Final

from loftwright.services.published_making import Making, Obtained, Order, Paid
from loftwright.services.publishing_note import LONGEST
from loftwright.shop.publishing import KINDS, Question
from loftwright.web.forms import Typed

GOLFERS: Final = ("", "slow", "middle", "fast")
ASKED: Final = ("kind", "model", "reference", "golfers", "obtained", "paid", "order", "note")
"""Fields that say what a comparison is."""
MOST_LETTERS: Final = 2000
PLACES: Final = {"model": "model", "models": "model", "comparison": ""}
"""Fields by the places that errors name."""


def read_question(typed: Typed) -> Question | None:
    """Return what is to be compared; None if a field cannot be."""
    for name in ("model", "reference"):
        typed.fields.setdefault(name, "")
    kind = typed.one_of("kind", KINDS, KINDS[0])
    golfers = typed.one_of("golfers", GOLFERS, "")
    chosen = dict.fromkeys(one for one in typed.text("model", most=MOST_LETTERS).split(",") if one)
    reference = typed.text("reference", need="Choose what the others are compared with.")
    if not typed.good:
        return None
    models = tuple(dict.fromkeys([*chosen, reference]))
    return typed.tried(
        "model",
        lambda: Question(kind=kind, models=models, reference=reference, golfers=golfers),
        PLACES,
    )


def read_making(typed: Typed) -> Making:
    """Return what a person says of a comparison."""
    typed.fields.setdefault("note", "")
    return Making(
        obtained=typed.word("obtained", Obtained, Obtained.BOUGHT),
        paid=typed.word("paid", Paid, Paid.NOBODY),
        order=typed.word("order", Order, Order.NAME),
        note=typed.text("note", most=LONGEST),
    )


def asked_of(fields: Mapping[str, str]) -> dict[str, str]:
    """Return the fields that say what a comparison is, as they were sent."""
    return {name: fields[name] for name in ASKED if fields.get(name)}
