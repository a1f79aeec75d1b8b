"""The command line in this process, pages in Chromium, and a studio in memory."""

from browser import browse, chromium, faults, page
from commands import cli, dealt, own_data_folder
from demos import demo, studio

__all__ = [
    "browse",
    "chromium",
    "cli",
    "dealt",
    "demo",
    "faults",
    "own_data_folder",
    "page",
    "studio",
]
