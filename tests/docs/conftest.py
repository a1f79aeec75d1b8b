"""The command line in this process, with a data folder of its own."""

from commands import cli, own_data_folder

__all__ = ["cli", "own_data_folder"]
