"""Hold every locked package against the known vulnerabilities, and fail where that cannot be done.

`make audit` asks two services through pip-audit, the second where the first does not answer for
every package. A package that neither knows is not passed over: pip-audit alone would call that
"no known vulnerabilities" and end well.

Ends with 0 where every package was looked up and nothing is known, 1 where something is known,
2 where anything could not be looked up.
"""

import argparse
import json
import subprocess
import sys
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Final

from pins import LOCKS, read_pins

SERVICES: Final = ("pypi", "osv")
CLEAN: Final = 0
KNOWN: Final = 1
NOT_AUDITED: Final = 2
PIP_AUDIT: Final = Path(sys.executable).with_name("pip-audit")

Package = tuple[str, str]
"""Name and version."""

Ask = Callable[[str, tuple[Package, ...]], dict[str, Any]]
"""Asks one service about packages and returns what it answered, as pip-audit writes it."""


@dataclass(slots=True)
class Findings:
    """What is known of some packages.

    Attributes
    ----------
    known : dict
        Names of vulnerabilities by package.
    asked : set
        Packages that a service has looked up.
    """

    known: dict[Package, set[str]] = field(default_factory=dict)
    asked: set[Package] = field(default_factory=set)

    def add(self, answer: dict[str, Any], packages: Iterable[Package]) -> None:
        """Take in a service's answer about some packages; what it skipped was not looked up."""
        wanted = set(packages)
        for one in answer.get("dependencies", ()):
            package = (str(one["name"]), str(one.get("version", "")))
            if "vulns" not in one or package not in wanted:
                continue
            self.asked.add(package)
            names = {str(found["id"]) for found in one["vulns"]}
            if names:
                self.known.setdefault(package, set()).update(names)


def audit(packages: Iterable[Package], ask: Ask) -> Findings:
    """Return what the services know of packages.

    Parameters
    ----------
    packages : iterable of Package
    ask : callable
    """
    wanted = sorted(set(packages))
    found = Findings()
    for service in SERVICES:
        for some in rounds([one for one in wanted if one not in found.asked]):
            found.add(ask(service, some), some)
    return found


def rounds(packages: Iterable[Package]) -> list[tuple[Package, ...]]:
    """Return packages in as many rounds as it takes for a name to occur once in each."""
    made: list[dict[str, Package]] = []
    for one in packages:
        for there in made:
            if one[0] not in there:
                there[one[0]] = one
                break
        else:
            made.append({one[0]: one})
    return [tuple(there.values()) for there in made]


def verdict(packages: Iterable[Package], found: Findings) -> tuple[int, list[str]]:
    """Return how the audit ends and what it says."""
    wanted = set(packages)
    lines = [
        f"{name} {version}: {', '.join(sorted(names))}"
        for (name, version), names in sorted(found.known.items())
    ]
    missing = sorted(wanted - found.asked)
    lines.append(
        f"audit: {len(wanted)} packages, {len(wanted) - len(missing)} looked up, "
        f"{len(found.known)} with a known vulnerability"
    )
    if missing:
        shown = ", ".join(f"{name} {version}" for name, version in missing[:8])
        more = f" and {len(missing) - 8} more" if len(missing) > 8 else ""
        lines.append(
            f"NOT AUDITED: {shown}{more}. No service of vulnerabilities knew them or answered. "
            "Run make audit where one can be reached."
        )
    if found.known:
        return KNOWN, lines
    return (NOT_AUDITED if missing else CLEAN), lines


def ask_service(service: str, packages: tuple[Package, ...]) -> dict[str, Any]:
    """Ask one service through pip-audit; one that does not answer has looked up nothing."""
    with TemporaryDirectory() as folder:
        listed = Path(folder) / "pins.txt"
        listed.write_text("".join(f"{name}=={version}\n" for name, version in packages))
        words = [
            *(str(PIP_AUDIT), "--vulnerability-service", service, "--timeout", "15"),
            *("--no-deps", "--disable-pip", "--progress-spinner", "off"),
            *("--format", "json", "--requirement", str(listed)),
        ]
        done = subprocess.run(words, capture_output=True, text=True, check=False)
    try:
        return dict(json.loads(done.stdout))
    except ValueError:
        last = done.stderr.strip().splitlines()[-1:] or [f"it ended with {done.returncode}"]
        print(f"{service} did not answer: {last[0][:300]}", file=sys.stderr)
        return {}


def main() -> int:
    """Audit the locks that are named."""
    told = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    told.add_argument("locks", nargs="+", help="names of locks, such as run")
    pins = [pin for name in told.parse_args().locks for pin in read_pins(LOCKS / f"{name}.txt")]
    packages = {(pin.name, pin.version) for pin in pins}
    ended, lines = verdict(packages, audit(packages, ask_service))
    print("\n".join(lines))
    return ended


if __name__ == "__main__":
    sys.exit(main())
