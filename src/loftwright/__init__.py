"""Loftwright finds, explains and proves the club that suits a golfer."""

from importlib.metadata import version

__version__ = version("loftwright")
