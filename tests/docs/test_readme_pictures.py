"""The pictures of the README are those of the demo's own pages."""

import runpy
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pages import ROOT

DRAWING = runpy.run_path(str(ROOT / "docs" / "pictures.py"))


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("pictures")
    DRAWING["draw"](folder)
    return folder


@pytest.mark.parametrize("name", DRAWING["PAGES"])
def test_a_picture_is_that_of_the_demo(name: str, drawn: Path) -> None:
    """When it is not, and the change is meant: `python docs/pictures.py` draws it again."""
    shown = np.asarray(Image.open(DRAWING["IMAGES"] / name).convert("RGB"), dtype=np.float64)
    now = np.asarray(Image.open(drawn / name).convert("RGB"), dtype=np.float64)
    assert shown.shape == now.shape
    assert np.abs(shown - now).mean() < 0.5
