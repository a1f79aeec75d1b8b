"""Pages and figures of a studio that an older program left, opened by this one."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store
from loftwright.web.app import create_app
from old_studios import NOON, OldStudio, old_studios
from web_client import asking

OLD = old_studios()
PAGES = ("/", "/rack", "/settings", "/golfers/new", "/devices", "/proof", "/build", "/rack/labels")
OF_A_FITTING = ("bay", "evidence", "choice", "plan", "report", "build")
CHANGED = [one for one in OLD if one.revision < "0002"]
SAME = [one for one in OLD if one not in CHANGED]
each = pytest.mark.parametrize("old", OLD, ids=lambda one: one.name)


@pytest.fixture
def studio(old: OldStudio, tmp_path: Path) -> Iterator[Studio]:
    """Open an old studio at the instant at which it was left."""
    old.unpack(tmp_path)
    made = Studio(store=open_store(tmp_path), folder=tmp_path, clock=lambda: NOON)
    yield made
    made.store.close()


def said(studio: Studio, fitting: str) -> tuple[str, dict[str, tuple[float, ...]]]:
    """Return what this program says of a fitting: its state, and each club's figures."""
    decision = bay_now(studio, Desk(), fitting).evidence.decision
    assert decision is not None
    figures: dict[str, tuple[float, ...]] = {
        one.club: (one.balls, one.value.mean, one.value.sd, one.p_best)
        for one in decision.clubs
        if one.value is not None and one.p_best is not None
    }
    return str(decision.state), figures


def then(told: dict[str, Any]) -> tuple[str, dict[str, tuple[float, ...]]]:
    """Return what the program of the time said of it."""
    figures = {one["club"]: (one["balls"], *one["value"], one["p_best"]) for one in told["clubs"]}
    return told["state"], figures


@pytest.mark.parametrize("old", SAME, ids=lambda one: one.name)
def test_figures_are_those_that_the_program_of_the_time_gave(
    old: OldStudio, studio: Studio
) -> None:
    """Self-consistent: computed by two programs from one record."""
    for fitting, told in old.figures.items():
        state, figures = said(studio, fitting)
        before, wanted = then(told)
        assert state == before
        assert figures.keys() == wanted.keys()
        for club, figure in figures.items():
            assert figure == pytest.approx(wanted[club], rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("old", CHANGED, ids=lambda one: one.name)
def test_figures_of_before_the_comparison_changed_say_the_same_of_every_club(
    old: OldStudio, studio: Studio
) -> None:
    """The comparison was changed on purpose since; by less than would change what is said."""
    for fitting, told in old.figures.items():
        state, figures = said(studio, fitting)
        before, wanted = then(told)
        assert state == before
        assert figures.keys() == wanted.keys()
        for club, (balls, mean, _, _) in figures.items():
            assert balls == wanted[club][0]
            assert abs(mean - wanted[club][1]) <= 0.5 * wanted[club][2]


@each
def test_the_pages_of_an_old_studio_open(old: OldStudio, studio: Studio) -> None:
    with asking(create_app(studio)) as browser:
        paths = [*PAGES]
        for fitting in old.golfers:
            paths += [f"/fittings/{fitting}/{page}" for page in OF_A_FITTING]
        answers = {path: browser.get(path).status_code for path in paths}
    assert {path: code for path, code in answers.items() if code != 200} == {}
