"""The command line in this process with a data folder of its own, and pages in Chromium."""

from browser import browse, chromium, faults, page
from commands import cli, dealt, own_data_folder

__all__ = ["browse", "chromium", "cli", "dealt", "faults", "own_data_folder", "page"]
