"""The bench page without a browser: typed, doubted, mended, undone, kept, brought in, locked."""

from collections.abc import Iterator
from html import unescape

import numpy as np
import pytest

from bench_readings import PLAIN, bending_at
from bench_sheets import LENGTH_MM, SLIPPED, deflections, slipped, typed
from loftwright.domain.rack import State
from loftwright.services.bench_keeping import open_sheet
from loftwright.services.bench_reads import read_sheet
from loftwright.services.studio import Studio
from loftwright.web.pages import bench_sheet, rack_shape
from studios import a_head, a_shaft, app_of, studio_in_memory
from web_client import WebClient, asking

SCRIPT = {"Accept": "application/json"}
TABLE = """kind,station_mm,span_mm,load_n,deflection_mm,clamp_mm,tip_mass_g,frequency_cpm,mass_g
three_point,150,300,50,0.369
three_point,230,300,50,0.391
frequency,,,,,127,205,258.4
mass,,,,,,,,62.0
"""


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, bench_sheet.router, rack_shape.router)) as made:
        yield made


@pytest.fixture
def shaft(studio: Studio) -> str:
    return a_shaft(studio, "Reedmace")[0].id


@pytest.fixture
def path(shaft: str) -> str:
    return f"/rack/items/{shaft}/bench"


def version(studio: Studio, shaft: str) -> str:
    return str(open_sheet(studio, shaft).version)


def post(
    client: WebClient, studio: Studio, shaft: str, fields: dict[str, str], act: str = "save"
) -> str:
    """Send the form as a browser without scripts does, and return the page it is led to."""
    data = {"version": version(studio, shaft), "act": act, **fields}
    answer = client.post(f"/rack/items/{shaft}/bench", data=data)
    assert answer.status_code == 303, answer.text
    return unescape(client.get(answer.headers["location"].partition("#")[0]).text)


def test_a_bare_sheet_says_so_and_the_caution_stands_before_the_first_load(
    client: WebClient, path: str
) -> None:
    text = unescape(client.get(path).text)
    assert "Nothing of Reedmace firm is read yet." in text
    assert "Head and hands out of the line of a slipping weight" in text
    assert text.index("Before the first load") < text.index('name="s0-load"')
    assert client.get("/rack/items/none/bench").status_code == 404
    head = a_head(studio_in_memory())
    assert client.get(f"/rack/items/{head.id}/bench").status_code == 404


def test_a_swapped_digit_is_named_and_the_rest_keeps_its_band(
    client: WebClient, studio: Studio, shaft: str
) -> None:
    text = post(client, studio, shaft, typed(slipped()))
    assert "row A9 looks wrong: two digits swapped?" in text
    assert "Two digits swapped (0.520 mm): take it so" in text
    trusted = read_sheet(open_sheet(studio, shaft).sheet).trusted
    assert trusted is not None
    field = trusted.piece.bending
    truth = bending_at(PLAIN, trusted.piece.stations)
    inside = (field.low() <= truth) & (truth <= field.high())
    assert inside[field.seen].mean() > 0.9
    assert field.seen.sum() > 30
    assert not field.seen[trusted.piece.stations > 1.05].any()
    assert "not read" in text


def test_a_mend_is_one_tap_and_so_is_its_undo(
    client: WebClient, studio: Studio, shaft: str
) -> None:
    digits = slipped()
    post(client, studio, shaft, typed(digits))
    text = post(client, studio, shaft, {}, f"mend-s0r{SLIPPED}-0")
    row = open_sheet(studio, shaft).sheet.series[0].rows[SLIPPED]
    assert row.cell("deflection") == deflections()[SLIPPED]
    assert f"Before: deflection {digits[SLIPPED]} (two digits swapped)." in text
    assert "looks wrong:" not in text
    text = post(client, studio, shaft, {}, f"undo-s0r{SLIPPED}")
    assert "row A9 looks wrong" in text
    row = open_sheet(studio, shaft).sheet.series[0].rows[SLIPPED]
    assert row.cell("deflection") == digits[SLIPPED]
    assert row.was == ()


def test_reading_again_empties_the_cell_and_says_what_stood_there(
    client: WebClient, studio: Studio, shaft: str
) -> None:
    digits = slipped()
    post(client, studio, shaft, typed(digits))
    text = post(client, studio, shaft, {}, f"again-s0r{SLIPPED}")
    assert f"Read it again; deflection {digits[SLIPPED]} stood here." in text
    assert "21 rows read." in text
    assert len(open_sheet(studio, shaft).sheet.series[0].rows) == len(digits)


def test_the_set_up_at_the_head_goes_into_every_row_and_stays_with_it(
    client: WebClient, studio: Studio, shaft: str
) -> None:
    post(client, studio, shaft, typed(deflections()[:3]))
    rows = open_sheet(studio, shaft).sheet.series[0].rows
    assert [(row.cell("span"), row.cell("load")) for row in rows] == [("300 mm", "50")] * 3
    post(client, studio, shaft, {"s0-load": "40"})
    rows = open_sheet(studio, shaft).sheet.series[0].rows
    assert {row.cell("load") for row in rows} == {"50"}
    text = post(client, studio, shaft, {}, "spread-0")
    rows = open_sheet(studio, shaft).sheet.series[0].rows
    assert {row.cell("load") for row in rows} == {"40"}
    assert "Before: load 50 (the set-up of all rows was changed)." in text


@pytest.mark.parametrize(
    ("without", "told"),
    [
        ("s0-span", "Span: Span is empty. Fill it in: a reading without it says nothing."),
        ("s0-load", "Load: Load is empty."),
        ("s0r1-station", "Station: Station is empty."),
        ("length", "The length is empty. Measure the bare shaft from butt to tip end."),
    ],
)
def test_an_empty_set_up_is_a_fault_at_its_cell_and_never_assumed(
    client: WebClient, studio: Studio, shaft: str, without: str, told: str
) -> None:
    fields = typed(deflections()[:3])
    fields[without] = ""
    text = post(client, studio, shaft, fields)
    assert told in text
    assert 'aria-invalid="true"' in text


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"s0r0-deflection": "much"}, "'much' is not a number"),
        ({"s0r0-deflection": "900"}, "Deflection:"),
        ({"s0r0-station": "20 mm"}, "Span: A support at -130 mm is beyond the shaft"),
        ({"s0-span": "-3"}, "Span:"),
        ({"length": "45 mm"}, "45"),
        ({"grip_mass": "50"}, "Grip length is empty."),
        ({"sleeve_mass": "6", "sleeve_length": "38 mm"}, "Sleeve balance is empty."),
    ],
)
def test_what_cannot_be_is_told_at_its_cell_and_stays_as_typed(
    client: WebClient, studio: Studio, shaft: str, changed: dict[str, str], told: str
) -> None:
    text = post(client, studio, shaft, typed(deflections()[:4]) | changed)
    assert told in text
    for value in changed.values():
        assert f'value="{value}"' in text


def test_the_next_station_is_offered_by_the_step_typed_so_far(
    client: WebClient, studio: Studio, shaft: str
) -> None:
    fields = typed(deflections()[:2])
    fields |= {"s0r0-station": "5.5", "s0r1-station": "7,0"}
    text = post(client, studio, shaft, fields)
    assert 'name="s0r2-station" value="8,5"' in text
    assert 'name="s0r3-station" value="10,0"' in text


def test_a_comma_is_taken_as_a_decimal_mark_and_its_swap_is_found(
    client: WebClient, studio: Studio, shaft: str
) -> None:
    digits = [text.replace(".", ",") for text in slipped()]
    text = post(client, studio, shaft, typed(digits))
    assert "row A9 looks wrong: two digits swapped?" in text
    post(client, studio, shaft, {}, f"mend-s0r{SLIPPED}-0")
    row = open_sheet(studio, shaft).sheet.series[0].rows[SLIPPED]
    assert row.cell("deflection") == deflections()[SLIPPED].replace(".", ",")


def test_a_script_sends_only_what_changed_and_gets_what_is_said_of_it(
    client: WebClient, studio: Studio, shaft: str, path: str
) -> None:
    fields = typed(deflections())
    last = {name: fields.pop(name) for name in list(fields) if name.startswith("s0r21-")}
    post(client, studio, shaft, fields)
    before = read_sheet(open_sheet(studio, shaft).sheet).measured
    answer = client.post(path, data={"version": "1", **last}, headers=SCRIPT)
    told = answer.json()
    assert told["version"] == 2
    assert "EI is read from" in told["parts"]["say"]
    assert told["parts"]["ribbon"].strip().startswith("<svg")
    assert "22 rows read." in told["parts"]["state"]
    assert told["faults"] == {}
    assert "s0r21" in told["rows"]
    after = read_sheet(open_sheet(studio, shaft).sheet).measured
    assert before is not None
    assert after is not None
    assert after.piece.bending.spread.sum() < before.piece.bending.spread.sum()


def test_two_tablets_type_on_one_sheet_and_nothing_is_lost(
    client: WebClient, studio: Studio, shaft: str, path: str
) -> None:
    digits = deflections()[:4]
    post(client, studio, shaft, typed(digits))
    for place, text in (("s0r0-deflection", "0.399"), ("s0r1-deflection", "0.401")):
        client.post(path, data={"version": "1", place: text}, headers=SCRIPT)
    rows = open_sheet(studio, shaft).sheet.series[0].rows
    assert [row.cell("deflection") for row in rows[:2]] == ["0.399", "0.401"]
    assert rows[0].was == ()
    assert rows[1].was[-1].cells == {"deflection": digits[1]}
    answer = client.post(path, data={"version": "1", "act": "save", "s0r2-deflection": "0.4"})
    assert answer.status_code == 409
    assert "Not saved: another page wrote on this sheet meanwhile" in answer.text
    assert 'name="s0r2-deflection" value="0.4"' in answer.text
    assert open_sheet(studio, shaft).sheet.series[0].rows[2].cell("deflection") == digits[2]


def test_a_profile_is_kept_with_its_bench_and_how_it_was_measured(
    client: WebClient, studio: Studio, shaft: str, path: str
) -> None:
    post(client, studio, shaft, typed(deflections()))
    answer = client.post(f"{path}/keep", data={"version": version(studio, shaft)})
    assert answer.status_code == 303
    ((kept,),) = studio.store.profiles().values()
    assert (kept.bench, kept.day) == ("Bench 1", studio.today())
    assert kept.conditions.startswith("on two supports: 22 readings, span 300 mm")
    assert kept.conditions.endswith("bare")
    assert np.all(kept.bending_error > 0.0)
    assert version(studio, shaft) == "0"
    assert "The profile is kept." in client.get(answer.headers["location"]).text


def test_a_profile_with_a_doubt_needs_a_tick_and_says_so(
    client: WebClient, studio: Studio, shaft: str, path: str
) -> None:
    post(client, studio, shaft, typed(slipped()))
    answer = client.post(f"{path}/keep", data={"version": version(studio, shaft)})
    assert answer.status_code == 422
    assert "1 doubt not settled. Settle each at its row" in answer.text
    assert studio.store.profiles() == {}
    data = {"version": version(studio, shaft), "with_doubts": "yes"}
    assert client.post(f"{path}/keep", data=data).status_code == 303
    ((kept,),) = studio.store.profiles().values()
    assert kept.conditions.endswith("kept with 1 doubt: row A9")


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"bench": ""}, "The bench has no name. Name the bench."),
        ({"s0r3-span": "0"}, "A cell is not right yet."),
    ],
)
def test_what_is_not_whole_is_not_kept(
    client: WebClient, studio: Studio, shaft: str, path: str, changed: dict[str, str], told: str
) -> None:
    post(client, studio, shaft, typed(deflections()) | changed)
    answer = client.post(f"{path}/keep", data={"version": version(studio, shaft)})
    assert answer.status_code == 422
    assert told in answer.text
    stale = client.post(f"{path}/keep", data={"version": "0"})
    assert "Another page wrote on this sheet meanwhile." in stale.text
    assert studio.store.profiles() == {}


def test_other_kinds_are_added_and_the_tip_is_read(
    client: WebClient, studio: Studio, shaft: str
) -> None:
    text = post(client, studio, shaft, typed(deflections()) | {"kind": "tip_clamped"}, "add")
    assert "B. Tip clamped, loaded" in text
    assert "are not read: load or swing the shaft with its tip in the clamp" in text
    fields = {"s1-clamp": "30 mm", "s1-load": "10"}
    for row, (at, bent) in enumerate((("988 mm", "0.53"), ("888 mm", "2.40"))):
        fields |= {f"s1r{row}-station": at, f"s1r{row}-deflection": bent}
    text = post(client, studio, shaft, fields)
    assert "24 rows read" in text
    assert "with its tip in the clamp." not in text.partition("</h1>")[2].partition("</header>")[0]


def test_a_grip_and_a_sleeve_are_part_of_the_set_up(
    client: WebClient, studio: Studio, shaft: str
) -> None:
    fields = typed([]) | {"grip_mass": "50", "grip_length": "270 mm", "kind": "mass"}
    post(client, studio, shaft, fields, "add")
    post(client, studio, shaft, {"s1r0-mass": "112"})
    measured = read_sheet(open_sheet(studio, shaft).sheet).measured
    assert measured is not None
    assert measured.piece.mass.value == pytest.approx(0.062, abs=0.0005)


def test_a_table_comes_onto_the_sheet_row_by_row(
    client: WebClient, studio: Studio, shaft: str, path: str
) -> None:
    answer = client.post(f"{path}/table", data={"pasted": TABLE})
    assert answer.status_code == 303
    series = open_sheet(studio, shaft).sheet.series
    assert [(one.kind, len(one.rows)) for one in series] == [
        *(("three_point", 2), ("frequency", 1), ("mass", 1)),
    ]
    assert float(series[0].rows[1].cell("deflection")) == 0.391
    wrong = client.post(f"{path}/table", data={"pasted": TABLE.replace("230,300", "230,")})
    assert wrong.status_code == 422
    assert "row 3: a three_point reading without span says nothing" in wrong.text.casefold()
    nothing = client.post(f"{path}/table", data={})
    assert "Choose a file, or paste its lines." in nothing.text
    assert len(open_sheet(studio, shaft).sheet.series) == 3


def test_a_shaft_that_creaks_is_locked_by_one_tap(
    client: WebClient, studio: Studio, shaft: str, path: str
) -> None:
    answer = client.post(f"{path}/lock")
    piece = studio.store.rack().pieces[shaft]
    assert piece.state is State.LOCKED
    assert piece.reason == "creaked or cracked on the bench"
    assert (
        "This shaft is locked: creaked or cracked on the bench."
        in client.get(answer.headers["location"]).text
    )


def test_a_new_sheet_begins_bare(client: WebClient, studio: Studio, shaft: str, path: str) -> None:
    post(client, studio, shaft, typed(deflections()[:3]))
    client.post(f"{path}/anew")
    assert "Nothing of Reedmace firm is read yet." in client.get(path).text


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"s9r0-deflection": "0.5"}, "this sheet has no such series"),
        ({"s0r0-twist": "0.5"}, "a three_point reading has no twist"),
        ({"s0r95-deflection": "0.5"}, "80 rows are as many as a series has"),
        ({"length": "4" * 90}, "90 letters are too many for a cell"),
        ({"act": "add", "kind": "guess"}, "is no kind of reading"),
        ({"act": "mend-s0r0-0"}, "row A1 is not doubted any more"),
        ({"act": "undo-s0r70"}, "this sheet has no such row"),
        ({"act": "spread-7"}, "this sheet has no such series"),
    ],
)
def test_what_no_page_sends_is_refused_with_a_reason(
    client: WebClient, studio: Studio, shaft: str, path: str, fields: dict[str, str], told: str
) -> None:
    answer = client.post(path, data={"version": "0", **fields})
    assert answer.status_code == 422
    assert told in unescape(answer.text)
    assert version(studio, shaft) == "0"


def test_the_sheet_survives_a_restart(client: WebClient, studio: Studio, shaft: str) -> None:
    post(client, studio, shaft, typed(deflections()))
    with asking(app_of(studio, bench_sheet.router)) as other:
        assert f'value="{LENGTH_MM} mm"' in other.get(f"/rack/items/{shaft}/bench").text


def test_a_span_that_was_another_from_some_row_on_is_named_with_its_rows(
    client: WebClient, studio: Studio, shaft: str, path: str
) -> None:
    digits = deflections()
    digits[10:] = [f"{float(text) * (250.0 / 300.0) ** 3:.3f}" for text in digits[10:]]
    text = post(client, studio, shaft, typed(digits))
    assert "Rows A11 to A22 together: another" in text
    answer = client.post(f"{path}/keep", data={"version": version(studio, shaft)})
    assert "not settled. Settle each at its row" in answer.text
    data = {"version": version(studio, shaft), "with_doubts": "yes"}
    assert client.post(f"{path}/keep", data=data).status_code == 303
    ((kept,),) = studio.store.profiles().values()
    assert "kept with a doubt of rows A11 to A22 together" in kept.conditions


def test_rows_that_slipped_together_are_taken_so_with_one_tap_and_taken_back_with_one(
    client: WebClient, studio: Studio, shaft: str
) -> None:
    digits = deflections()
    digits[10:] = [f"{float(text) * (250.0 / 300.0) ** 3:.3f}" for text in digits[10:]]
    before = post(client, studio, shaft, typed(digits))
    assert "Take them so" in before
    after = post(client, studio, shaft, {}, act="many-0")
    rows = open_sheet(studio, shaft).sheet.series[0].rows
    spans = [row.cell("span") for row in rows]
    assert set(spans[:10]) == {"300 mm"}
    assert set(spans[10:]) == {"250 mm"}
    assert "12 rows stand as they were probably meant" in after
    assert "Rows A11 to A22 together" not in after
    trusted = read_sheet(open_sheet(studio, shaft).sheet).trusted
    assert trusted is not None
    seen = trusted.piece.bending.seen
    truth = bending_at(PLAIN, trusted.piece.stations)
    assert np.abs(trusted.piece.bending.values / truth - 1.0)[seen].max() < 0.1
    back = post(client, studio, shaft, {}, act="many-back")
    assert {row.cell("span") for row in open_sheet(studio, shaft).sheet.series[0].rows} == {
        "300 mm"
    }
    assert "Rows A11 to A22 together" in back


def test_many_rows_that_are_not_doubted_any_more_are_left_alone(
    client: WebClient, studio: Studio, shaft: str, path: str
) -> None:
    post(client, studio, shaft, typed(deflections()))
    data = {"version": version(studio, shaft), "act": "many-0"}
    answer = client.post(path, data=data)
    assert answer.status_code == 422
    assert "no slip of many rows is doubted any more" in answer.text
