"""Draws the pictures of the studio's pages from its own demo: `python docs/screens.py`."""

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

import httpx
from playwright.sync_api import Browser, sync_playwright

from loftwright.services.opening import DEMO, open_studio
from loftwright.web.server import listen, port_of

IMAGES: Final = Path(__file__).parent / "images"
LAPTOP: Final = (1280, 900)
TABLET: Final = (820, 1180)
# picture, page, which fitting of the demo (0 is finished, 1 in progress), size, dark
SCREENS: Final = (
    ("today.png", "/", 1, LAPTOP, False),
    ("rack.png", "/rack", 1, LAPTOP, False),
    ("plan.png", "/fittings/{}/plan", 1, LAPTOP, False),
    ("bay.png", "/fittings/{}/bay", 1, LAPTOP, False),
    ("bay-tablet-dark.png", "/fittings/{}/bay", 1, TABLET, True),
    ("evidence.png", "/fittings/{}/evidence", 0, LAPTOP, False),
    ("choice.png", "/fittings/{}/choice", 0, LAPTOP, False),
    ("order.png", "/fittings/{}/order?club=Ash", 0, LAPTOP, False),
)
FLAGS: Final = ("--no-sandbox", "--disable-gpu", "--disable-background-networking")


def draw(folder: Path) -> None:
    """Write the pages of a fresh demo studio as pictures.

    Parameters
    ----------
    folder : Path
    """
    with TemporaryDirectory() as data:
        (door,) = listen("127.0.0.1", 0)
        port = port_of(door)
        door.close()
        server = subprocess.Popen(
            [
                sys.executable,
                "-c",
                "from loftwright.cli.app import main; main()",
                "serve",
                "--demo",
                "--port",
                str(port),
            ],
            env=os.environ | {"LOFTWRIGHT_DATA": data},
            stdout=subprocess.DEVNULL,
        )
        address = f"http://127.0.0.1:{port}"
        try:
            _wait(address)
            fittings = _fittings(Path(data) / DEMO)
            with sync_playwright() as player:
                browser = player.chromium.launch(
                    executable_path=shutil.which("chromium"), args=list(FLAGS)
                )
                for screen in SCREENS:
                    _draw(browser, address, fittings, screen, folder)
                browser.close()
        finally:
            server.terminate()
            server.wait()


def _wait(address: str) -> None:
    for _ in range(600):
        try:
            httpx.get(f"{address}/pair", timeout=5.0)
        except httpx.TransportError:
            time.sleep(0.05)
        else:
            return
    raise SystemExit("the studio does not answer")


def _fittings(folder: Path) -> list[str]:
    """Return the demo's fittings, the finished one first."""
    studio = open_studio(folder)
    found = [kept.value.id for kept in reversed(studio.store.fittings())]
    studio.store.close()
    return found


def _draw(
    browser: Browser,
    address: str,
    fittings: list[str],
    screen: tuple[str, str, int, tuple[int, int], bool],
    folder: Path,
) -> None:
    name, page, which, (width, height), dark = screen
    context = browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme="dark" if dark else "light",
    )
    sheet = context.new_page()
    sheet.goto(address + page.format(fittings[which]))
    sheet.wait_for_timeout(800)
    sheet.screenshot(path=folder / name)
    context.close()


if __name__ == "__main__":
    draw(IMAGES)
