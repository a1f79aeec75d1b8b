"""The installation's table, the bundle and a fault's page, in Chromium, as a fitter meets them."""

import re
import zipfile
from pathlib import Path

import pytest
from fastapi import APIRouter, Response

from browser import LYING, NARROW, Browse, Faults, axe_findings, small_targets
from browser import wider_than_window as excess
from loftwright.services.program_log import ProgramLog, log_file
from loftwright.services.studio import Studio
from loftwright.web.app import create_app, page_routers
from serving import served

router = APIRouter()


@router.get("/broken")
def broken() -> Response:
    raise RuntimeError("nobody foresaw this")


@pytest.mark.parametrize(("theme", "size"), [("bright", LYING), ("dark", NARROW)])
def test_settings_and_bundle_are_sound_and_what_is_saved_was_read(
    browse: Browse, studio: Studio, tmp_path: Path, theme: str, size: tuple[int, int]
) -> None:
    page = browse(theme=theme, size=size)
    with (
        ProgramLog(log_file(studio.folder)) as made,
        served(create_app(studio, program_log=made)) as address,
    ):
        page.goto(f"{address}/settings#installation")
        page.get_by_role("rowheader", name="Room left on its disk").wait_for()
        assert page.get_by_text(str(log_file(studio.folder))).count() == 1
        assert (axe_findings(page), small_targets(page), excess(page)) == ([], [], 0)
        page.get_by_role("link", name="Make a bundle for help").click()
        for closed in page.locator("main summary").all()[1:]:
            closed.click()
        assert (axe_findings(page), small_targets(page), excess(page)) == ([], [], 0)
        shown = page.locator("pre").all_text_contents()
        with page.expect_download() as downloaded:
            page.get_by_role("link", name="Save loftwright-help-").click()
        downloaded.value.save_as(tmp_path / "help.zip")
    with zipfile.ZipFile(tmp_path / "help.zip") as saved:
        assert [saved.read(name).decode() for name in saved.namelist()] == shown
    assert any("started | version=" in text for text in shown)


def test_a_fault_shows_its_number_and_ways_on(
    browse: Browse, faults: Faults, studio: Studio
) -> None:
    faults.allow("500")
    page = browse()
    with (
        ProgramLog(log_file(studio.folder)) as made,
        served(create_app(studio, program_log=made, routers=(*page_routers(), router))) as address,
    ):
        page.goto(f"{address}/broken")
        found = re.search(r"number (\d{4}-\d{4})", page.locator("main").inner_text())
        assert found is not None
        assert (axe_findings(page), small_targets(page), excess(page)) == ([], [], 0)
        page.get_by_role("link", name="Go to the first page").click()
        page.wait_for_url(f"{address}/")
    told = log_file(studio.folder).read_text()
    assert f"a request failed | request={found[1]} method=GET route=/broken" in told
    assert told.rstrip().endswith("stopped")
