"""A receipt's files: any bench that checks them again comes to the same verdicts."""

import json
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest

from final_checks import BUILD, TYPED, a_built_job, a_golfers_fitting, a_quote, a_receipt, readings
from loftwright.cli.app import run
from loftwright.domain.check_acts import Outcome
from loftwright.domain.order_acts import Agreed, Quoted
from loftwright.domain.sheet_acts import Deviated, SheetIssued
from loftwright.services.build_check import check_files
from loftwright.services.final_check import held_rounds, keep_check
from loftwright.services.job import job_act
from loftwright.services.studio import Studio
from loftwright.web.pages import final_check, final_papers
from loftwright.workshop.final import final_now
from studios import app_of, studio_in_memory
from web_client import WebClient, asking

LIGHT = Deviated(key="head.mass_g", sheet="195", built="192", why="the head that came")
WRONG = (
    readings(mass_g__value=322.1, balance_inch__value=32.97, swingweight__value="D1.2"),
    readings(swingweight__value="D6"),
    readings(loft_deg__value=11.1, frequency_cpm__clamp_mm=152.0),
    readings(length_inch__method="ruler", grip_inch__value=0.9),
)


@pytest.fixture
def studio() -> Studio:
    return studio_in_memory()


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio, final_check.router, final_papers.router)) as made:
        yield made


def files(client: WebClient, at: str, folder: Path, number: int = 1) -> tuple[Path, Path]:
    """Save both files of a receipt and return where."""
    saved = []
    for name in ("build.toml", "measured.toml"):
        answer = client.get(f"{at}/{name}?round={number}")
        assert answer.status_code == 200
        assert "attachment" in answer.headers["content-disposition"]
        (folder / name).write_bytes(answer.content)
        saved.append(folder / name)
    return saved[0], saved[1]


@pytest.mark.parametrize("measured", WRONG)
def test_files_of_a_receipt_give_its_verdicts_again(
    client: WebClient,
    studio: Studio,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    measured: str,
) -> None:
    fitting = a_built_job(studio, LIGHT)
    rework = a_receipt(studio, measured, outcome=Outcome.REWORK, rework="as told")
    keep_check(studio, fitting, rework)
    record = studio.store.job_record(fitting)
    (kept,) = held_rounds(record, final_now(record, studio.now()))
    build, found = files(client, f"/fittings/{fitting}/final-check", tmp_path)
    again = check_files(build, found)
    for what in (
        "targets",
        "limits",
        "contradicted",
        "not_measured",
        "rules",
        "minds",
        "predicted",
    ):
        assert getattr(again, what) == getattr(kept.checked, what), what
    capsys.readouterr()
    assert run(["build", "check", str(build), str(found), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    verdicts = [line["verdict"] for line in told["lines"]]
    assert verdicts == [
        *(line.fit.value for line in kept.checked.targets),
        *(line.side.value for line in kept.checked.limits),
    ]
    assert len(told["contradictions"]) == len(kept.checked.contradicted)


def test_what_was_typed_on_the_page_is_what_the_file_says(
    client: WebClient, studio: Studio, tmp_path: Path
) -> None:
    fitting = a_built_job(studio)
    more = {"grip_low": "0.88", "grip_low_u95": "0.003", "volume": "455", "volume_u95": "5"}
    at = f"/build/{fitting}/final-check"
    assert client.post(at, data={**TYPED, **more, "act": "keep"}).status_code == 303
    build, found = files(client, at, tmp_path)
    text = found.read_text(encoding="utf-8")
    for told in (
        "[length_inch]\nvalue = 45.02\nu95 = 0.03\n",
        "[swingweight]\nvalue = 33.0\nu95 = 0.3\n",
        "[frequency_cpm]\nvalue = 251.6\nu95 = 1.0\nclamp_mm = 127.0\ntip_mass_g = 205.0\n",
        "[grip_low_inch]\nvalue = 0.88\n",
        "[volume_cm3]\nvalue = 455.0\nu95 = 5.0\n",
        "[built]\nhead_added_g = 6.9\nbutt_added_g = 3.2\n",
        'edition = "Equipment Rules of the year"\ncompetition_uses_46_inch = false\n',
    ):
        assert told in text
    assert build.read_text(encoding="utf-8").startswith("[target]\nlength_inch = 45\n")


def test_an_older_receipt_keeps_the_sheet_it_was_held_against(
    client: WebClient, studio: Studio, tmp_path: Path
) -> None:
    fitting = a_built_job(studio)
    keep_check(studio, fitting, a_receipt(studio, outcome=Outcome.REWORK, rework="shorter"))
    shorter = BUILD.replace("length_inch = 45\n", "length_inch = 44.5\n", 1)
    job_act(studio, fitting, [SheetIssued(build=shorter, fields={}), LIGHT])
    keep_check(studio, fitting, a_receipt(studio, reason="the golfer keeps it long"))
    at = f"/fittings/{fitting}/final-check"
    first, _ = files(client, at, tmp_path, 1)
    assert "length_inch = 45\n" in first.read_text(encoding="utf-8")
    second, _ = files(client, at, tmp_path, 2)
    text = second.read_text(encoding="utf-8")
    assert "length_inch = 44.5\n" in text
    assert "mass_g = 192.0\n" in text
    newest = client.get(f"{at}/build.toml")
    assert newest.content == second.read_bytes()


def test_a_receipt_is_printed_with_initials_alone(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio)
    keep_check(studio, fitting, a_receipt(studio))
    answer = client.get(f"/build/{fitting}/final-check/receipt.pdf")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")
    assert b"Ottoline" not in answer.content


def test_there_is_no_file_before_there_is_a_receipt(client: WebClient, studio: Studio) -> None:
    for fitting in (a_golfers_fitting(studio), a_built_job(studio), "training-1"):
        for name in ("receipt.pdf", "measured.toml", "build.toml"):
            answer = client.get(f"/fittings/{fitting}/final-check/{name}")
            assert answer.status_code == 404, name


def test_the_paper_names_what_was_ordered(client: WebClient, studio: Studio) -> None:
    fitting = a_built_job(studio, Quoted(quote=a_quote(studio)), Agreed(name="O. Brambleby"))
    keep_check(studio, fitting, a_receipt(studio))
    paper = pypdfium2.PdfDocument(
        client.get(f"/fittings/{fitting}/final-check/receipt.pdf").content
    )
    text = " ".join(page.get_textpage().get_text_range() for page in paper)
    paper.close()
    for told in ("Harrow 460", "Reedmace firm", "Round (invented)", "10.5°", "one up", "45.00 in"):
        assert told in text
    assert "Brambleby" not in text
