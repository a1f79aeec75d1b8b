"""What a lock pins: names, versions, hashes, and what needs what."""

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parent.parent
LOCKS: Final = ROOT / "locks"
PROJECT: Final = "loftwright"

_PIN: Final = re.compile(r"^(?P<name>[a-z0-9-]+)(?:\[[^\]]*\])?==(?P<version>[^\s;]+)(?P<rest>.*)")
_HASH: Final = re.compile(r"--hash=sha256:([0-9a-f]{64})\b")
_VIA: Final = re.compile(r"^    #(?: via)?(?:\s+(?P<name>[\w.-]+))?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """One version of one package.

    Attributes
    ----------
    marker : str
        For which Python or platform it is taken; empty for all.
    hashes : tuple of str
        SHA-256 of each file that may be installed.
    needed_by : tuple of str
        Names of what needs it; our own name where we do.
    """

    name: str
    version: str
    marker: str
    hashes: tuple[str, ...]
    needed_by: tuple[str, ...]


def read_pins(lock: Path) -> tuple[Pin, ...]:
    """Return the pins of a lock in its order.

    Raises
    ------
    ValueError
        If the lock pins nothing, or something without a hash.
    """
    pins: list[Pin] = []
    lines: list[str] = []
    for line in [*lock.read_text(encoding="utf-8").splitlines(), "end"]:
        if lines and not line.startswith(" "):
            pins.append(_pin(lines, lock))
            lines = []
        if lines or _PIN.match(line):
            lines.append(line)
    if not pins:
        raise ValueError(f"{lock.name} pins nothing; make it again with: make lock")
    return tuple(pins)


def _pin(lines: list[str], lock: Path) -> Pin:
    found = _PIN.match(lines[0])
    if found is None:
        raise ValueError(f"{lock.name}: {lines[0]!r} is no pin; make it again with: make lock")
    hashes = tuple(_HASH.findall("\n".join(lines)))
    if not hashes:
        raise ValueError(f"{lock.name}: {found['name']} has no hash; make it with: make lock")
    after = [_VIA.match(line) for line in lines if line.startswith("    #")]
    return Pin(
        name=found["name"],
        version=found["version"],
        marker=found["rest"].replace("\\", "").strip().removeprefix(";").strip(),
        hashes=hashes,
        needed_by=tuple(one["name"] for one in after if one is not None and one["name"]),
    )
