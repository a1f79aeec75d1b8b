"""A fitter leaves on Friday: what they could open is shut, what they wrote stays."""

import pytest

from bays import a_bay
from loftwright.errors import InputError, NotFoundError
from loftwright.services.fittings import open_fitting
from loftwright.services.leaving import (
    come_back,
    devices_of,
    fitters,
    gone,
    in_hands_of,
    leave,
    refuse_gone,
)
from loftwright.services.pairing import Pairing
from loftwright.services.studio import Studio
from studios import studio_in_memory


@pytest.fixture
def studio() -> Studio:
    made = studio_in_memory()
    bay = a_bay(studio=made)
    for name in ("Ann Reed", "Bo Marsh", "ann  reed"):
        open_fitting(made, bay.golfer.id, bay="Bay 1", fitter=name)
    return made


@pytest.fixture
def pairing(studio: Studio) -> Pairing:
    return Pairing(studio.store, studio.hub, studio.clock)


def let_in(pairing: Pairing, name: str) -> tuple[str, str]:
    """Let a device in and return its id and key."""
    made = pairing.let_in(pairing.new_code().figures, name=name, role="fitter")
    return made.device.id, made.key


def test_everybody_who_fitted_is_offered_once(studio: Studio) -> None:
    assert [one.casefold() for one in fitters(studio)] == ["ann reed", "bo marsh"]


def test_one_act_shuts_the_devices_and_takes_the_name_off_lists(
    studio: Studio, pairing: Pairing
) -> None:
    tablet, key = let_in(pairing, "Ann’s tablet")
    _, other = let_in(pairing, "Bo Marsh, tablet")
    assert [one.id for one in devices_of(pairing, "Ann Reed")] == [tablet]
    done = leave(studio, pairing, "Ann Reed", [tablet])
    assert pairing.who(key) is None
    assert pairing.who(other) is not None
    assert fitters(studio) == ("Bo Marsh",)
    assert done.gone.devices == ("Ann’s tablet",)
    assert [one.name.casefold() for one in gone(studio)] == ["ann reed"]
    with pytest.raises(InputError, match="left"):
        refuse_gone(studio, " ANN reed ")
    refuse_gone(studio, "Bo Marsh")


def test_what_they_wrote_stays_with_their_name(studio: Studio, pairing: Pairing) -> None:
    before = [kept.value for kept in studio.store.fittings()]
    leave(studio, pairing, "Ann Reed", [])
    assert [kept.value for kept in studio.store.fittings()] == before
    assert sum(one.fitter == "Ann Reed" for one in before) == 1


def test_a_fitting_in_their_hands_is_told_so_that_somebody_goes_on_with_it(
    pairing: Pairing, studio: Studio
) -> None:
    bay = a_bay(studio=studio)
    kept = studio.store.fitting(bay.fitting)
    moved = type(kept.value)(
        **{name: getattr(kept.value, name) for name in kept.value.__slots__}
        | {"fitter": "Ann Reed"}
    )
    studio.store.change_fitting(moved, version=kept.version)
    assert [one.fitting for one in in_hands_of(studio, "Ann Reed")] == [bay.fitting]
    assert leave(studio, pairing, "Ann Reed", []).running == ("Bay 1",)


def test_the_owner_lets_them_back_and_devices_are_let_in_anew(
    studio: Studio, pairing: Pairing
) -> None:
    tablet, key = let_in(pairing, "Ann’s tablet")
    leave(studio, pairing, "Ann Reed", [tablet])
    come_back(studio, "Ann Reed")
    assert "ann reed" in [one.casefold() for one in fitters(studio)]
    assert pairing.who(key) is None
    with pytest.raises(NotFoundError):
        come_back(studio, "Ann Reed")


def test_nobody_leaves_by_a_wrong_name_or_half(studio: Studio, pairing: Pairing) -> None:
    with pytest.raises(InputError, match="no fitter here"):
        leave(studio, pairing, "Nobody", [])
    tablet, key = let_in(pairing, "Ann’s tablet")
    with pytest.raises(NotFoundError):
        leave(studio, pairing, "Ann Reed", [tablet, "gone already"])
    assert pairing.who(key) is not None
    assert gone(studio) == ()
    leave(studio, pairing, "Ann Reed", [])
    with pytest.raises(InputError):
        leave(studio, pairing, "Ann Reed", [])
