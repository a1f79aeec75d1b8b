"""Pictures that leave the shop: consent, no names, and how they came about."""

from dataclasses import replace

import pytest

from demos import a_demo
from loftwright.domain.golfer import Consents
from loftwright.errors import ConflictError, EvidenceError, InputError, NotFoundError
from loftwright.services.bay_now import BayNow, bay_now
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.evidence import Desk
from loftwright.services.publishing import PICTURES, names_in, publication, published, refusal
from loftwright.services.studio import Studio
from studios import studio_in_memory


@pytest.fixture(scope="module")
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture(scope="module")
def demo(studio: Studio) -> DemoStudio:
    return a_demo(studio)


@pytest.fixture(scope="module")
def bay(studio: Studio, demo: DemoStudio) -> BayNow:
    return bay_now(studio, Desk(), demo.finished)


@pytest.mark.parametrize("picture", PICTURES)
def test_a_picture_bears_how_it_came_about_and_no_name(bay: BayNow, picture: str) -> None:
    svg = published(bay, bay.evidence.decision, picture, "svg").decode()
    assert svg.startswith("<svg")
    for words in ("Samples", "Device class", "Golfers", "Dates", "2026-11-19", "Ranges"):
        assert words in svg
    assert "every ball is invented" in svg
    for name in ("Rosalind", "Quickly", "Quill", "Bay meter", "Lantern"):
        assert name not in svg


def test_a_png_is_the_same_bytes_every_time(bay: BayNow) -> None:
    first = published(bay, bay.evidence.decision, "choice", "png")
    assert first.startswith(b"\x89PNG")
    assert first == published(bay, bay.evidence.decision, "choice", "png")


def test_nothing_is_published_without_consent(bay: BayNow) -> None:
    silent = replace(bay, golfer=replace(bay.golfer, consents=Consents(keep=True)))
    found = refusal(silent)
    assert found is not None
    assert "has not agreed" in found.why
    with pytest.raises(ConflictError, match="has not agreed"):
        published(silent, silent.evidence.decision, "choice", "svg")


def test_nothing_of_a_minor_is_published(bay: BayNow) -> None:
    minor = replace(bay, golfer=replace(bay.golfer, minor=True, consents=Consents()))
    with pytest.raises(ConflictError, match="is a minor"):
        published(minor, minor.evidence.decision, "ranges", "png")


def test_a_real_golfer_is_counted_and_not_named(bay: BayNow) -> None:
    real = replace(bay, fitting=replace(bay.fitting, invented=False))
    decision = real.evidence.decision
    assert decision is not None
    block = publication(real, decision, "ranges")
    assert block.golfers == "1, who agreed to this and is not named"
    assert block.samples.startswith("40 balls with 5 clubs")
    assert "invented" not in block.device
    assert names_in(real) == ("Rosalind Quickly",)


def test_a_name_that_would_stand_in_the_block_is_refused(bay: BayNow) -> None:
    odd = replace(bay, name="Premium Ballard")
    with pytest.raises(InputError, match="names a person"):
        published(odd, odd.evidence.decision, "choice", "svg")


def test_only_known_pictures_are_made(bay: BayNow) -> None:
    for picture, kind in (("bench", "svg"), ("choice", "gif"), ("../choice", "svg")):
        with pytest.raises(NotFoundError):
            published(bay, bay.evidence.decision, picture, kind)


def test_without_balls_there_is_nothing_to_draw(bay: BayNow) -> None:
    with pytest.raises(EvidenceError, match="nothing to draw yet"):
        published(bay, None, "choice", "svg")
