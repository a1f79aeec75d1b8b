"""Run `main()` of every module of this folder that has one, or of those named."""

import importlib
import pkgutil
import sys

import bench


def main(names: list[str]) -> None:
    found = [module.name for module in pkgutil.iter_modules(bench.__path__)]
    for name in names or [name for name in found if name != "__main__"]:
        measure = getattr(importlib.import_module(f"bench.{name}"), "main", None)
        if measure is not None:
            measure()
            print()


if __name__ == "__main__":
    main(sys.argv[1:])
