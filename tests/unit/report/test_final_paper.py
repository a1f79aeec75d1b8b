"""The receipt on paper: every part of it in words, tagged, in ink alone, the same bytes."""

from io import BytesIO
from typing import Any

import numpy as np
import pikepdf
import pypdfium2
import pytest

from final_checks import BUILD, LOOKED, a_receipt, readings, without
from loftwright.domain.check_acts import Outcome
from loftwright.intake.build_text import read_build_text, read_measured_text
from loftwright.report.final_paper import FinalReceipt, final_pdf
from loftwright.report.final_words import names_of
from loftwright.report.screen_numbers import TRADE, Show
from loftwright.services.build_check import check_sheet
from loftwright.services.final_check import open_points
from studios import studio_in_memory


def receipt(measured: str | None = None, **changed: Any) -> FinalReceipt:  # noqa: ANN401
    text = readings() if measured is None else measured
    checked = check_sheet(read_build_text(BUILD), read_measured_text(text))
    received = a_receipt(studio_in_memory(), text, **changed)
    return FinalReceipt(
        player="O.B.",
        code="7KQ-4MX-9TR",
        studio="Invented Studio",
        club=(("Head", "Harrow 460"), ("Shaft", "Reedmace")),
        revision=2,
        number=3,
        checked=checked,
        received=received,
        unread=names_of(open_points(checked, received.looked).unread),
        departures=("Head, mass: 192 g instead of 195 g.",),
    )


def words(data: bytes) -> str:
    document = pypdfium2.PdfDocument(data)
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return " ".join(text.split())


def test_a_receipt_says_what_was_found() -> None:
    text = words(final_pdf(receipt(), TRADE))
    for said in (
        "Accepted. All 7 readings with a target are in.",
        "Harrow 460",
        "Length, in 45.02 0.03 45.00 0.06 +0.02 45.00 in",
        "Head, mass: 192 g instead of 195 g.",
        "Head does not turn under a hand twist yes",
        "Edition looked at: Equipment Rules, in force from 1 January 2019",
        "Published limit 48 in: below the limit as measured.",
        "Not measured here",
        "no ruling: only The R&A and the USGA decide",
        "every setting has to keep to the Rules",
        "The screw is checked again after the first session.",
        "Looked at by Petronella Vane, 25 November 2026.",
        "Player O.B. · Job 7KQ-4MX-9TR · Sheet revision 2 · Receipt 3",
        "page 1 of",
    ):
        assert said in text, said


def test_a_reworked_club_is_given_with_its_work_and_without_advice_for_the_golfer() -> None:
    looked = {k: v for k, v in LOOKED.items() if k != "screw"} | {"rattle": False}
    made = receipt(
        without("loft_deg"),
        outcome=Outcome.REWORK,
        rework="glue bead out\nweigh again",
        looked=looked,
        alone=True,
    )
    text = words(final_pdf(made, TRADE))
    assert "Rework. All 6 readings with a target are in." in text
    assert "Has a target and was not measured: loft." in text
    assert "To be done again: glue bead out weigh again" in text
    assert "Nothing rattles no" in text
    assert "Screw was checked with the torque tool not on this club" in text
    assert "Petronella Vane, who also built it" in text
    assert "first shots" not in text


def test_contradictions_and_tight_tolerances_stand_on_it() -> None:
    made = receipt(
        readings(swingweight__value="D6", loft_deg__u95=0.7), reason="the golfer could not wait"
    )
    text = words(final_pdf(made, TRADE))
    assert "The scale reads D6.0" in text
    assert "Loft, ° *" in text
    assert "* The tolerance is tighter than the reading can tell." in text
    assert "Why: the golfer could not wait" in text


def test_it_follows_the_shops_units() -> None:
    text = words(final_pdf(receipt(), Show(units="metric", decimal="comma")))
    assert "Length, mm 1143,5 0,8 1143,0 1,6 +0,5 1143,0 in" in text
    assert "Published limit 1219,2 mm" in text


def test_it_is_tagged_in_ink_alone_and_the_same_each_time() -> None:
    data = final_pdf(receipt(), TRADE)
    assert data == final_pdf(receipt(), TRADE)
    with pikepdf.open(BytesIO(data)) as opened:
        assert opened.Root.MarkInfo.Marked
        assert str(opened.docinfo.Title) == "Receipt of a finished club, 7KQ-4MX-9TR"
    document = pypdfium2.PdfDocument(data)
    assert len(document) <= 2
    shades = np.asarray(document[0].render(scale=0.5).to_pil(), dtype=int)
    document.close()
    # The ink is a little blue; no colour is meant to say anything.
    assert np.ptp(shades, axis=2).max() <= 30


@pytest.mark.parametrize("name", ["Ægir Ö.", "山田"])
def test_no_name_stops_it(name: str) -> None:
    text = words(final_pdf(receipt(second=name), TRADE))
    assert "Looked at by" in text
    assert ("stands for a letter" in text) == (name == "山田")
