"""A family's page: generations against one reference, and no claim beyond the samples."""

from collections.abc import Iterator

import numpy as np
import pytest

from loftwright.constants import GRAM
from loftwright.domain.rack import Piece, ShaftModel
from loftwright.services.families import family
from loftwright.services.family_picture import publication
from loftwright.services.measuring import keep_profile
from loftwright.services.studio import Studio
from loftwright.web.pages import rack, rack_family, rack_item
from shafts import a_profile, times
from studios import app_of, studio_in_memory
from web_client import WebClient, asking


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, rack.router, rack_item.router, rack_family.router)) as made:
        yield made


def models(studio: Studio) -> None:
    """Keep three generations of two weights, none measured."""
    for weight in (60, 70):
        for generation in (1, 2, 3):
            before = f"s{weight}-{generation - 1}" if generation > 1 else None
            model = ShaftModel(
                id=f"s{weight}-{generation}",
                maker="Nullmoor (invented)",
                name="Heron",
                paper_mass=weight * GRAM,
                paper_label="firm",
                generation=f"generation {generation}",
                family="Heron & Sons",
                replaces=before,
            )
            studio.store.put(model, version=None)


def samples(studio: Studio, model: str, *tips: float) -> None:
    """Keep measured samples of a model, each with a tip of this stiffness."""
    for place, tip in enumerate(tips):
        piece = f"{model}-{place}"
        studio.store.put(Piece(id=piece, model=model, label=piece), version=None)
        shape = _tip(tip)
        keep_profile(studio, a_profile(shape, piece=piece, noise=0.004))


def _tip(factor: float):  # type: ignore[no-untyped-def] # noqa: ANN202
    return lambda place: np.where(place > 0.85, factor, 1.0)


def test_no_family_says_how_to_get_one(client: WebClient) -> None:
    assert (
        "No shaft has a family yet: write it down with a shaft."
        in client.get("/rack/families").text
    )
    assert client.get("/rack/families/Heron").status_code == 404


def test_a_family_that_is_not_measured_shows_its_models(client: WebClient, studio: Studio) -> None:
    models(studio)
    assert "6 models, 0 measured samples" in client.get("/rack/families").text
    text = client.get("/rack/families/Heron%20%26%20Sons").text
    assert "No Heron &amp; Sons is measured yet" in text
    assert text.count(">not measured<") == 24
    assert "Picture to publish" not in text
    assert client.get("/rack/families/Heron%20%26%20Sons/picture.svg").status_code == 409


def test_generations_stand_in_order_the_lightest_first(studio: Studio) -> None:
    models(studio)
    found = family(studio, "Heron & Sons")
    assert [one.model.id for one in found.members] == [
        *("s60-1", "s70-1", "s60-2", "s70-2", "s60-3", "s70-3")
    ]
    assert found.reference is None


def test_what_changed_from_old_to_new_is_said_where_the_samples_bear_it(
    client: WebClient, studio: Studio
) -> None:
    models(studio)
    samples(studio, "s60-1", 1.00, 1.01, 0.99)
    samples(studio, "s60-2", 0.895, 0.905)
    text = client.get("/rack/families/Heron%20%26%20Sons").text
    assert "Heron 60 g firm (generation 2) is 10 % softer at the tip" in text
    assert "5 measured samples of 2 models; samples of one model differ by up to" in text
    assert "picture.png" in text


def test_one_sample_behind_a_change_within_the_spread_bears_no_claim(
    client: WebClient, studio: Studio
) -> None:
    models(studio)
    samples(studio, "s60-1", 1.00, 1.05, 0.96)
    samples(studio, "s60-2", 0.96)
    text = client.get("/rack/families/Heron%20%26%20Sons").text
    assert "no change is claimed: the widest, " in text
    assert "is within what 1 sample against 3 may differ by" in text
    found = family(studio, "Heron & Sons")
    assert not any(told.claimed for one in found.members for told in one.against.values())


def test_no_two_samples_of_one_model_bear_no_claim_at_all(
    client: WebClient, studio: Studio
) -> None:
    models(studio)
    samples(studio, "s60-1", 1.0)
    samples(studio, "s60-2", 0.7)
    text = client.get("/rack/families/Heron%20%26%20Sons").text
    assert "no model of the family has two measured samples, so their spread is not known" in text
    assert "spread not known; 1 against 1, noise" in text


def test_another_model_may_be_the_reference(client: WebClient, studio: Studio) -> None:
    models(studio)
    samples(studio, "s60-1", 1.00, 1.01)
    samples(studio, "s70-1", 1.20)
    path = "/rack/families/Heron%20%26%20Sons?reference=s70-1"
    assert "Against Heron 70 g firm (generation 1)" in client.get(path).text
    assert (
        "Against Heron 60 g firm (generation 1)" in client.get(path.split("?", maxsplit=1)[0]).text
    )


def test_the_picture_leaves_with_how_it_came_about(client: WebClient, studio: Studio) -> None:
    models(studio)
    samples(studio, "s60-1", 1.00, 1.01, 0.99)
    samples(studio, "s60-2", 0.90, 0.91)
    answer = client.get("/rack/families/Heron%20%26%20Sons/picture.svg?reference=s60-1")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    for words in ("5 samples of 2 models", "300 mm span, grip off", "Bench 1", "2026-11-25"):
        assert words in answer.text
    png = client.get("/rack/families/Heron%20%26%20Sons/picture.png")
    assert png.content.startswith(b"\x89PNG")
    assert client.get("/rack/families/Heron%20%26%20Sons/picture.gif").status_code == 404
    block = publication(family(studio, "Heron & Sons"))
    assert "tip" in block.samples
    assert block.golfers == "none"


def test_a_sample_measured_twice_counts_once(studio: Studio) -> None:
    models(studio)
    samples(studio, "s60-1", 1.0, 1.01)
    keep_profile(studio, a_profile(times(1.0), piece="s60-1-0", noise=0.004))
    (first, *_) = family(studio, "Heron & Sons").members
    assert len(first.samples) == 2
