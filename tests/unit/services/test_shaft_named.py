"""A shaft is found by id, label or model; what is not clear is asked back."""

from pathlib import Path

import pytest

from loftwright.domain.rack import Piece
from loftwright.errors import InputError, NotFoundError
from loftwright.services.demo_family import FAMILY, fill_family
from loftwright.services.demo_rack import fill_rack
from loftwright.services.families import family
from loftwright.services.measuring import measured
from loftwright.services.rack import add_item
from loftwright.services.shaft_named import NamedShaft, shaft_named
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Studio:
    folder: Path = tmp_path_factory.mktemp("named")
    made = Studio(store=open_store(folder, draft=True), folder=folder)
    fill_rack(made)
    fill_family(made)
    return made


def named(studio: Studio, name: str) -> NamedShaft:
    return shaft_named(studio.store.rack(), measured(studio), name)


def test_label_model_and_id_name_the_same_shaft(studio: Studio) -> None:
    found = named(studio, "heron 1")
    assert found.name == "Heron 1"
    assert found.measured.piece == found.piece.id
    assert named(studio, "Heron").piece == named(studio, found.piece.id).piece == found.piece


def test_a_name_that_the_rack_does_not_have_tells_the_nearest(studio: Studio) -> None:
    with pytest.raises(NotFoundError, match="Heran") as told:
        named(studio, "Heran 1")
    assert "Heron 1" in told.value.mend


def test_a_model_of_several_samples_is_asked_back(studio: Studio) -> None:
    with pytest.raises(InputError, match="12 samples") as told:
        named(studio, FAMILY)
    assert "Curlew 55 first 2" in told.value.mend


def test_a_shaft_that_was_not_measured_says_so(studio: Studio) -> None:
    model = next(one for one in studio.store.rack().shafts.values() if one.name == "Heron")
    add_item(studio, Piece(id="", model=model.id, label="Heron 9"))
    with pytest.raises(InputError, match="Heron 9 was not measured"):
        named(studio, "Heron 9")


def test_the_invented_family_shows_a_claim_and_withholds_another(studio: Studio) -> None:
    found = family(studio, FAMILY)
    assert len(found.members) == 6
    assert {member.generation for member in found.members} == {0, 1, 2}
    claims = [told.claimed for member in found.members for told in member.since.values()]
    assert any(claims)
    assert not all(claims)
