"""What plays like a shaft, or like it with a section otherwise."""

from dataclasses import replace
from math import exp, log

import numpy as np
import pytest

from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Assembly, Piece, Rack, ShaftModel, State
from loftwright.domain.sections import Section
from loftwright.domain.sought import Liked, Sought
from loftwright.errors import EvidenceError, InputError, UsageError
from loftwright.services.shaft_like import like
from loftwright.services.shafts_at_hand import FoundShaft, ShaftRack
from shafts import BENDING, a_profile, times
from studios import NOON


def rack_of(profiles: dict[str, MeasuredProfile], *clubs: Assembly, **states: str) -> ShaftRack:
    """Return a rack of one model; shafts named in `states` are locked for that reason."""
    pieces = {
        name: Piece(
            id=name,
            model="wren",
            label=name.title(),
            state=State.LOCKED if name in states else State.READY,
            reason=states.get(name, ""),
        )
        for name in profiles
    }
    rack = Rack(
        heads={},
        shafts={"wren": ShaftModel(id="wren", maker="", name="Wren")},
        pieces=pieces,
        sleeves={},
        assemblies={one.id: one for one in clubs},
    )
    return ShaftRack(rack=rack, profiles=profiles)


def asked(at_hand: ShaftRack, by: str = "bending", **shares: float) -> Liked:
    """Return what plays like shaft `a` with sections otherwise."""
    found = FoundShaft(name="A", piece=at_hand.rack.pieces["a"], measured=at_hand.profiles["a"])
    sections = {Section(name.replace("_", " ")): share for name, share in shares.items()}
    return like(found, at_hand, Sought(by=by, shares=sections), NOON)


def names(liked: Liked) -> list[str]:
    return [one.name for one in liked.near]


def firm_tip(factor: float) -> MeasuredProfile:
    return a_profile(lambda place: np.where(place > 0.94, factor, 1.0), piece="tip")


def test_the_distance_is_to_what_is_sought() -> None:
    at_hand = rack_of(
        {"a": a_profile(), "tip": firm_tip(1.1), "all": a_profile(times(1.1)), "b": a_profile()}
    )
    assert names(asked(at_hand)) == ["B", "Tip", "All"]
    wanted = asked(at_hand, tip=0.1)
    assert names(wanted)[0] == "Tip"
    assert wanted.near[0].far == pytest.approx(0.0, abs=5e-3)
    found = asked(at_hand, butt=0.1, upper_middle=0.1, lower_middle=0.1, tip=0.1)
    assert names(found)[0] == "All"
    assert found.near[0].far == pytest.approx(0.0, abs=1e-12)
    assert found.near[-1].far == pytest.approx(log(1.1), abs=1e-12)
    assert exp(found.near[0].likeness.bending[Section.BUTT].log) == pytest.approx(1.1)


def test_twist_weight_and_balance_have_their_own_order() -> None:
    one = a_profile(times(1.2), grams=60.1)
    other = replace(a_profile(grams=64.0), balance=0.5775)
    far = replace(other, twisting=1.3 * 0.45 * BENDING, balance=0.590)
    at_hand = rack_of({"a": a_profile(), "one": one, "other": other, "far": far})
    assert names(asked(at_hand, by="twist"))[0] == "Other"
    assert names(asked(at_hand, by="twist", upper_middle=0.3, tip=0.3))[0] == "One"
    every = asked(at_hand, by="twist", butt=0.3, upper_middle=0.3, lower_middle=0.3, tip=0.3)
    assert names(every)[0] == "Far"
    assert names(asked(at_hand, by="weight"))[0] == "One"
    assert names(asked(at_hand, by="balance")) == ["One", "Other", "Far"]


def test_who_was_not_read_there_is_left_out_by_name() -> None:
    at_hand = rack_of({"a": a_profile(), "blind": a_profile(blind_from=0.95), "b": a_profile()})
    found = asked(at_hand, tip=0.1)
    assert (names(found), found.untold) == (["B"], ("Blind",))
    unweighed = rack_of({"a": a_profile(), "light": a_profile(grams=None)})
    assert asked(unweighed, by="weight").untold == ("Light",)
    assert asked(unweighed).untold == ()


def test_a_section_of_the_named_shaft_must_have_been_seen() -> None:
    at_hand = rack_of({"a": a_profile(blind_from=0.95), "b": a_profile()})
    assert asked(at_hand).unread == (Section.TIP,)
    with pytest.raises(EvidenceError, match="not read at its tip"):
        asked(at_hand, tip=0.1)
    no_twist = rack_of({"a": a_profile(twist=False), "b": a_profile()})
    with pytest.raises(EvidenceError):
        asked(no_twist, by="twist", butt=0.1)


def test_golfers_own_shafts_are_left_out_and_locked_ones_say_why() -> None:
    own = Assembly(id="club", head="h", shaft="own", length=1.14, owner="g1")
    shop = Assembly(id="other", head="h", shaft="b", length=1.14)
    profiles = {"a": a_profile(), "own": a_profile(), "b": a_profile()}
    found = asked(rack_of(profiles, own, shop, b="cracked"))
    assert names(found) == ["B"]
    assert "cracked" in found.near[0].why_not


@pytest.mark.parametrize(
    ("by", "share", "error"),
    [("weight", 0.1, UsageError), ("balance", 0.1, UsageError), ("bending", 0.6, InputError)],
)
def test_what_cannot_be_sought(by: str, share: float, error: type[Exception]) -> None:
    with pytest.raises(error):
        Sought(by=by, shares={Section.TIP: share})
    with pytest.raises(InputError):
        Sought(shares={Section.TIP: float("nan")})
