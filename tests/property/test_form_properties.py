"""Whatever is typed into a form is kept and answered; nothing of it is a defect."""

from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from loftwright.constants import DEGREE, INCH
from loftwright.domain.golfer import Golfer, Identity
from loftwright.report.screen_numbers import UNITS, Show
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.rack_adding import OwnClub
from loftwright.web.forms import Typed
from loftwright.web.golfer_forms import CONSENTS
from loftwright.web.pages import golfer, plan, rack, rack_item
from loftwright.web.pages import settings as settings_page
from loftwright.web.settings_forms import COLUMNS, field_of
from studios import a_club, a_head, app_of, studio_in_memory
from web_client import WebClient, asking

TEXT = st.text(max_size=30) | st.sampled_from(
    ["", "-1", "1e309", "nan", "45.25", "45,25", "10.5 deg", "60 g", "²", "٣", "yes", "2026-02-30"]
)
NAMES = (
    *("name", "maker", "loft", "lie", "face", "hand", "system", "mass", "paper_mass", "place"),
    *("head", "shaft", "sleeve", "setting", "settings", "length", "price", "grip", "model"),
    *("limits", "ability", "head_speed", "own_loft", "own_length", "own_mass", "altitude"),
    *("temperature", "humidity", "wind_along", "holes", "hole_1_length", "hole_1_fairway"),
    *("hole_1_from", "hole_1_trouble", "given_on", "do", "version", "model_version", "state"),
    *("reason", "club", "balls", "minutes", "late", "blind", "pain", "device", "first", "again"),
    *("zone", "bays", "units", "decimal", "convention", "mark_error", "fitter", "bay", *CONSENTS),
    *(field_of(means) for means in COLUMNS[:2]),
)
FORM = st.dictionaries(st.sampled_from(NAMES), TEXT, max_size=12)


@pytest.fixture(scope="module")
def client() -> Iterator[tuple[WebClient, list[str]]]:
    studio = studio_in_memory()
    club = a_club(studio, a_head(studio), "Reedmace", 60.0, 45.0)
    own = OwnClub(loft=10.5 * DEGREE, length=45.5 * INCH)
    visitor = Visitor(golfer=Golfer(id=""), identity=Identity(name="Ida"), own=own)
    fitting = open_for_new(studio, visitor, bay="Bay 1").id
    paths = [
        *("/rack/heads", "/rack/shafts", "/rack/clubs", "/rack/sleeves", "/golfers/new"),
        *(f"/rack/items/{club.id}", f"/rack/items/{club.shaft}/state", f"/rack/items/{club.head}"),
        *(f"/fittings/{fitting}/golfer", f"/fittings/{fitting}/plan"),
        *(f"/fittings/{fitting}/plan/late", f"/fittings/{fitting}/plan/start"),
        *("/settings", "/settings/devices", "/settings/marking"),
    ]
    routers = (rack.router, rack_item.router, golfer.router, plan.router, settings_page.router)
    with asking(app_of(studio, *routers)) as made:
        yield made, paths


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data(), form=FORM)
def test_no_form_is_answered_by_a_defect(
    client: tuple[WebClient, list[str]], data: st.DataObject, form: dict[str, str]
) -> None:
    asker, paths = client
    path = data.draw(st.sampled_from(paths))
    assert asker.post(path, data=form).status_code in {200, 303, 404, 409, 422}


@given(text=TEXT)
def test_a_field_that_cannot_be_read_is_kept_with_its_fault(text: str) -> None:
    typed = Typed(fields={"field": text})
    value = typed.quantity("field", "length")
    assert (value is not None) or not text.strip() or typed.filled.fault("field") is not None
    assert typed.filled.value("field") == text


@given(amount=st.integers(min_value=0, max_value=999_999_999))
def test_money_reads_back_as_it_was_written(amount: int) -> None:
    for show in (Show(), Show(decimal="comma")):
        typed = Typed(fields={"price": show.money(amount, "")})
        assert typed.money("price") == amount
        assert typed.good


@given(
    units=st.sampled_from(sorted(UNITS)),
    decimal=st.sampled_from(["point", "comma"]),
    quantity=st.sampled_from(sorted(UNITS["trade"])),
    figure=st.decimals(min_value=-500, max_value=500, places=3),
)
def test_a_figure_of_three_decimals_reads_back_as_it_was(
    units: str, decimal: str, quantity: str, figure: object
) -> None:
    show = Show(units=units, decimal=decimal)
    unit = show.unit(quantity)
    value = float(str(figure)) * unit.scale + unit.offset
    typed = Typed(fields={"field": show.typed(quantity, value)}, show=show)
    assert typed.quantity("field", quantity) == pytest.approx(value, rel=1e-9, abs=1e-9)
