"""Settings: the shop, its devices' columns, its fitters' double readings, who is let in."""

from collections.abc import Iterator

import pytest

from loftwright import __version__
from loftwright.constants import MILLIMETRE
from loftwright.domain.device import Origin
from loftwright.physics.sleeve import Convention
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.studio import Studio
from loftwright.web.app import create_app
from loftwright.web.pages import settings
from loftwright.web.security import Access
from studios import app_of
from web_client import WebClient, asking

SHOP = {
    "shop": "The Lantern Bay",
    "zone": "Europe/Vienna",
    "currency": "EUR",
    "bays": "Bay 1\nBay 2\n",
    "units": "metric",
    "decimal": "comma",
    "convention": "B",
    "version": "0",
}
FIRST = "10, 4\n-6, 2\n0, 12\n15, -3\n-11, -7"
AGAIN = "12, 4\n-6, 4\n0, 12\n13, -3\n-11, -9"


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, settings.router)) as made:
        yield made


def test_an_installation_without_a_device_says_what_that_means(
    client: WebClient, studio: Studio
) -> None:
    text = client.get("/settings").text
    assert "No device is written down yet" in text
    assert __version__ in text
    assert str(studio.folder) in text
    assert "1.75 mm is assumed of everybody" in text
    assert "A: the shaft stays where it was and is not twisted" in text


def test_the_newest_backup_is_told_once(client: WebClient, studio: Studio) -> None:
    (studio.folder / "backups").mkdir(exist_ok=True)
    (studio.folder / "backups" / "loftwright-20261124-030000.tar.gz").touch()
    text = client.get("/settings").text
    told = text.split('id="installation"')[1]
    assert told.lower().count("newest backup") + told.count("Last backup") == 1


def test_the_shop_s_words_are_kept(client: WebClient, studio: Studio) -> None:
    assert client.post("/settings", data=SHOP).status_code == 303
    kept = read_settings(studio).settings
    assert (kept.units, kept.decimal, kept.currency) == ("metric", "comma", "EUR")
    assert kept.bays == ("Bay 1", "Bay 2")
    assert kept.convention is Convention.B
    assert "1,75 mm" in client.get("/settings").text


def test_an_unknown_zone_is_told_at_its_field(client: WebClient, studio: Studio) -> None:
    answer = client.post("/settings", data={**SHOP, "zone": "Middle/Earth"})
    assert answer.status_code == 422
    assert 'id="n-f-zone"' in answer.text
    assert 'value="The Lantern Bay"' in answer.text
    assert read_settings(studio).version == 0


def test_no_bay_is_told_at_its_field(client: WebClient) -> None:
    answer = client.post("/settings", data={**SHOP, "bays": " \n"})
    assert answer.status_code == 422
    assert "Name at least one." in answer.text


def test_a_stale_change_keeps_what_was_typed(client: WebClient) -> None:
    client.post("/settings", data=SHOP)
    answer = client.post("/settings", data={**SHOP, "shop": "Another", "version": "0"})
    assert answer.status_code == 409
    assert "Not saved" in answer.text
    assert 'value="Another"' in answer.text


def test_a_device_is_written_down_changed_and_taken_off(client: WebClient, studio: Studio) -> None:
    data = {
        "device": "Bay meter",
        "mark_error": "3",
        "origin_ball_speed": "measured",
        "origin_carry": "calculated",
        "origin_spin": "unknown",
        "version": "0",
    }
    assert client.post("/settings/devices", data=data).status_code == 303
    (device,) = read_settings(studio).settings.devices
    assert device.origins == {
        "ball speed": Origin.MEASURED,
        "carry": Origin.CALCULATED,
        "spin": Origin.UNKNOWN,
    }
    assert device.mark_error == pytest.approx(3.0 * MILLIMETRE)
    page = client.get("/settings?device=Bay+meter").text
    assert "Of Bay meter it is not known what is measured" in page
    changed = {
        **data,
        "device": "Bay box",
        "before": "Bay meter",
        "origin_spin": "measured",
        "version": "1",
    }
    assert client.post("/settings/devices", data=changed).status_code == 303
    (device,) = read_settings(studio).settings.devices
    assert device.name == "Bay box"
    gone = client.post("/settings/devices/remove", data={"device": "Bay box", "version": "2"})
    assert gone.status_code == 303
    assert read_settings(studio).settings.devices == ()


def test_two_devices_do_not_share_a_name(client: WebClient) -> None:
    client.post("/settings/devices", data={"device": "Bay meter", "version": "0"})
    answer = client.post("/settings/devices", data={"device": "Bay meter", "version": "1"})
    assert answer.status_code == 422
    assert "Give it another name." in answer.text


def test_an_unknown_device_is_not_found(client: WebClient) -> None:
    assert client.get("/settings?device=Nothing").status_code == 404


def test_a_double_reading_gives_a_fitter_s_own_error(client: WebClient, studio: Studio) -> None:
    second = client.post("/settings/marking", data={"fitter": "Barnaby", "first": FIRST})
    assert second.status_code == 200
    assert "Now the same 5 marks again, in the same order." in second.text
    assert ">10, 4" not in second.text
    told = client.post(
        "/settings/marking", data={"fitter": "Barnaby", "first": FIRST, "again": AGAIN}
    )
    error = read_settings(studio).settings.mark_error("Barnaby")
    # Four of ten differences are 2 mm: the root of 16 over twice ten.
    assert error == pytest.approx((16.0 / 20.0) ** 0.5 * MILLIMETRE)
    assert "Barnaby’s marks are off by 0.9 mm either way" in told.text
    assert "Ten marks tell it better." in told.text
    assert "Barnaby" in client.get("/settings").text


@pytest.mark.parametrize(
    ("first", "says"),
    [
        ("1, 2\n3, 4", "2 marks are too few"),
        ("\n".join(["1, two"] * 5), "is no mark"),
        ("\n".join(["99, 0"] * 5), "lies beside the head"),
        ("\n".join(["nan, 0"] * 5), "lies beside the head"),
    ],
)
def test_marks_that_cannot_be_are_told(client: WebClient, first: str, says: str) -> None:
    answer = client.post("/settings/marking", data={"fitter": "Barnaby", "first": first})
    assert answer.status_code == 422
    assert says in answer.text


def test_a_second_reading_of_another_number_is_refused(client: WebClient, studio: Studio) -> None:
    data = {"fitter": "Barnaby", "first": FIRST, "again": "1, 2"}
    answer = client.post("/settings/marking", data=data)
    assert answer.status_code == 422
    assert "5 marks and 1 second readings cannot be compared" in answer.text
    assert read_settings(studio).settings.mark_errors == {}


def test_paired_devices_stand_on_the_page(studio: Studio) -> None:
    app = create_app(studio, access=Access(paired=True), routers=(settings.router,))
    with asking(app) as client:
        assert "Let a device in" in client.get("/settings").text
        assert client.post("/devices/code", data={"back": "/settings"}).status_code == 303
        assert 'class="code"' in client.get("/settings").text


def test_settings_of_before_a_stale_device_form_are_kept(
    client: WebClient, studio: Studio
) -> None:
    known = read_settings(studio)
    change_settings(studio, known.settings, version=known.version)
    answer = client.post("/settings/devices", data={"device": "Bay meter", "version": "0"})
    assert answer.status_code == 409
    assert read_settings(studio).settings.devices == ()
