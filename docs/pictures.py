"""Draws the pictures of the README from the demo's own pages: `python docs/pictures.py`."""

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

import pypdfium2

from loftwright.services.demo import run_demo

IMAGES: Final = Path(__file__).parent / "images"
PAGES: Final = ("report-golfer.png", "report-fitter.png")
DOTS_PER_INCH: Final = 110


def draw(folder: Path) -> None:
    """Write the pages of the demo's report as pictures.

    Parameters
    ----------
    folder : Path
    """
    with TemporaryDirectory() as made:
        document = pypdfium2.PdfDocument(run_demo(Path(made)).report)
        for page, name in zip(document, PAGES, strict=True):
            picture = page.render(scale=DOTS_PER_INCH / 72).to_pil().convert("RGB")
            picture.save(folder / name, optimize=True)
        document.close()


if __name__ == "__main__":
    draw(IMAGES)
