"""A studio in memory, empty or with the invented golfers."""

from demos import demo, studio

__all__ = ["demo", "studio"]
