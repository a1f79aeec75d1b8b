"""The command line in this process, with a data folder of its own."""

from commands import cli, dealt, own_data_folder

__all__ = ["cli", "dealt", "own_data_folder"]
