"""The quick check: six entries tell a shaft from another, and what may have been done to it."""

from collections.abc import Iterator
from html import unescape

import pytest

from loftwright.constants import CYCLE_PER_MINUTE, GRAM, MILLIMETRE
from loftwright.domain.shaft_shape import shape_of
from loftwright.physics.bench.handling import predicted
from loftwright.physics.bench.readings import Balance, Frequency, Mass
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import BARE, Dressing, Mount
from loftwright.physics.shaft.profile import Profile, trimmed
from loftwright.services.measuring import keep_profile
from loftwright.services.studio import Studio
from loftwright.web.pages import bench_check
from shafts import a_profile, times
from studios import a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking

CLAMP, WEIGHT = 127.0 * MILLIMETRE, TipBody(mass=205.0 * GRAM)


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, bench_check.router)) as made:
        yield made


def shaft(
    studio: Studio, name: str = "Reedmace", stiffer: float = 1.0, grams: float = 60.0
) -> str:
    piece = a_shaft(studio, name)[0].id
    keep_profile(studio, a_profile(times(stiffer), piece=piece, grams=grams))
    return piece


def kept(studio: Studio, piece: str) -> Profile:
    (profile,) = studio.store.profiles()[piece]
    return shape_of(profile).profile


def six(profile: Profile, on_it: Dressing = BARE) -> dict[str, str]:
    """Return what a bench without errors reads of a shaft, as it is typed."""
    mount = Mount(clamp=CLAMP, dressing=on_it)
    swung = predicted(profile, Frequency(mount=mount, weight=WEIGHT, value=4.0))
    balance = predicted(profile, Balance(value=0.5, dressing=on_it))
    return {
        "length": f"{profile.length / MILLIMETRE:.1f} mm",
        "mass": f"{predicted(profile, Mass(value=0.06, dressing=on_it)) / GRAM:.2f}",
        "balance": f"{balance / MILLIMETRE:.2f} mm",
        "clamp": "127 mm",
        "tip_mass": "205",
        "frequency": f"{swung / CYCLE_PER_MINUTE:.2f}",
    }


def said(client: WebClient, piece: str, fields: dict[str, str], status: int = 200) -> str:
    answer = client.post(f"/rack/items/{piece}/check", data=fields)
    assert answer.status_code == status
    return unescape(answer.text)


def test_a_shaft_that_is_still_itself_agrees(client: WebClient, studio: Studio) -> None:
    piece = shaft(studio)
    text = said(client, piece, six(kept(studio, piece)))
    assert "This is Reedmace firm as it was kept, within what the bench repeats." in text


def test_a_trimmed_tip_is_named_with_its_size(client: WebClient, studio: Studio) -> None:
    piece = shaft(studio)
    cut = trimmed(kept(studio, piece), tip=25.0 * MILLIMETRE, butt=0.0)
    text = said(client, piece, six(cut))
    assert "Reedmace firm does not read as it was kept: a trimmed tip (about" in text
    assert "weight, balance point" in text


def test_a_grip_that_was_not_typed_is_named(client: WebClient, studio: Studio) -> None:
    piece = shaft(studio)
    on_it = Dressing(grip_mass=50.0 * GRAM, grip_length=270.0 * MILLIMETRE)
    fields = six(kept(studio, piece), on_it)
    assert "a grip that was not typed (about 50" in said(client, piece, fields)
    typed = fields | {"grip_mass": "50", "grip_length": "270 mm"}
    assert "as it was kept, within what the bench repeats" in said(client, piece, typed)


def test_mixed_labels_are_named_with_the_shaft_that_it_is(
    client: WebClient, studio: Studio
) -> None:
    piece, other = shaft(studio), shaft(studio, "Rush", 1.12, 64.0)
    text = said(client, piece, six(kept(studio, other)))
    assert "Labels mixed up: this is Rush firm." in text


def test_a_shaft_without_a_profile_has_nothing_to_be_checked_against(
    client: WebClient, studio: Studio
) -> None:
    piece = a_shaft(studio, "Reedmace")[0].id
    text = unescape(client.get(f"/rack/items/{piece}/check").text)
    assert "Reedmace firm has no profile yet" in text
    refused = said(client, piece, {"mass": "60"}, status=422)
    assert "has no profile yet" in refused
    assert client.get(f"/rack/items/{a_head(studio).id}/check").status_code == 404


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"clamp": ""}, "A frequency says nothing without it."),
        ({"tip_mass": ""}, "A frequency says nothing without it."),
        ({"mass": "heavy"}, "'heavy' is not a number"),
        ({"mass": "", "balance": "", "frequency": ""}, "Weigh it, balance it, swing it"),
        ({"mass": "6000"}, "oz instead of g"),
        ({"grip_mass": "50"}, "Give how far down the shaft it reaches."),
        ({"clamp": "1100 mm"}, "must be free to bend"),
    ],
)
def test_what_cannot_be_is_told_at_its_field(
    client: WebClient, studio: Studio, changed: dict[str, str], told: str
) -> None:
    piece = shaft(studio)
    fields = six(kept(studio, piece)) | changed
    assert told in said(client, piece, fields, status=422)
