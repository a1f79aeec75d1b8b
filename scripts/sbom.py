"""Write the bill of materials of what runs: every locked package, its hashes and its licence.

The form is CycloneDX 1.6 as JSON (ECMA-424, first edition). `make sbom` writes it and holds it
against the standard's own schema; a build of the environment writes it too. The same lock gives
the same bytes.
"""

import argparse
import json
import sys
import tomllib
from importlib.metadata import PackageNotFoundError, metadata
from pathlib import Path
from typing import Any, Final
from uuid import UUID, uuid5

from pins import LOCKS, PROJECT, ROOT, Pin, read_pins

SPEC: Final = "1.6"
_SPACE: Final = UUID("6f1b2a3e-5d0c-4c0e-9a57-0d7f3c1b8e42")

READ_LICENCES: Final = {
    "altair": "BSD-3-Clause",
    "atpublic": "Apache-2.0",
    "colorama": "BSD-3-Clause",
    "duckdb": "MIT",
    "editables": "MIT",
    "flexcache": "BSD-3-Clause",
    "flexparser": "BSD-3-Clause",
    "h11": "MIT",
    "ibis-framework": "Apache-2.0",
    "jinja2": "BSD-3-Clause",
    "markdown-it-py": "MIT",
    "mdurl": "MIT",
    "numba": "BSD-2-Clause",
    "parsy": "MIT",
    "pathspec": "MPL-2.0",
    "pint": "BSD-3-Clause",
    "pluggy": "MIT",
    "pyarrow-hotfix": "Apache-2.0",
    "rich": "MIT",
    "scipy": "BSD-3-Clause",
    "segno": "BSD-3-Clause",
    "shellingham": "ISC",
    "trove-classifiers": "Apache-2.0",
    "tzdata": "Apache-2.0",
    "vl-convert-python": "BSD-3-Clause",
}
"""Licences of packages that state none as an expression, read in the licence file of each."""


def bill(pins: tuple[Pin, ...], version: str) -> dict[str, Any]:
    """Return the bill of materials of the pins of one lock.

    Parameters
    ----------
    pins : tuple of Pin
    version : str
        Our own.
    """
    own = f"pkg:pypi/{PROJECT}@{version}"
    references: dict[str, list[str]] = {PROJECT: [own]}
    for pin in pins:
        references.setdefault(pin.name, []).append(reference(pin))
    needs: dict[str, set[str]] = {one: set() for ones in references.values() for one in ones}
    for pin in pins:
        for name in pin.needed_by:
            for one in references.get(name, ()):
                needs[one].add(reference(pin))
    root = {
        "type": "application",
        "bom-ref": own,
        "name": PROJECT,
        "version": version,
        "purl": own,
        "licenses": [{"license": {"id": "MIT"}}],
    }
    listed = ";".join(f"{reference(pin)} {' '.join(pin.hashes)}" for pin in pins)
    return {
        "bomFormat": "CycloneDX",
        "specVersion": SPEC,
        "serialNumber": uuid5(_SPACE, f"{own};{listed}").urn,
        "version": 1,
        "metadata": {"component": root, "lifecycles": [{"phase": "build"}]},
        "components": [_component(pin) for pin in pins],
        "dependencies": [
            {"ref": one, "dependsOn": sorted(others)} for one, others in sorted(needs.items())
        ],
    }


def reference(pin: Pin) -> str:
    """Return the name of a pin as a package URL."""
    return f"pkg:pypi/{pin.name}@{pin.version}"


def licence_of(name: str) -> str | None:
    """Return a package's licence as an SPDX expression, or None where nobody has read it yet."""
    try:
        told = metadata(name).json.get("license_expression")
    except PackageNotFoundError:
        told = None
    return str(told) if told else READ_LICENCES.get(name)


def without_licence(made: dict[str, Any]) -> list[str]:
    """Return the names of what a bill lists without a licence."""
    return [one["name"] for one in made["components"] if "licenses" not in one]


def own_version() -> str:
    """Return our own version, as the project's file has it."""
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    return str(tomllib.loads(text)["project"]["version"])


def _component(pin: Pin) -> dict[str, Any]:
    licence = licence_of(pin.name)
    files = [
        {
            "type": "distribution",
            "url": reference(pin),
            "comment": "one file of this version, by its hash",
            "hashes": [{"alg": "SHA-256", "content": one}],
        }
        for one in pin.hashes
    ]
    made: dict[str, Any] = {
        "type": "library",
        "bom-ref": reference(pin),
        "name": pin.name,
        "version": pin.version,
        "purl": reference(pin),
        "externalReferences": files,
    }
    if licence is not None:
        plain = " " not in licence
        made["licenses"] = [
            {"license": {"id": licence}} if plain else {"expression": licence},
        ]
    if pin.marker:
        made["properties"] = [{"name": f"{PROJECT}:marker", "value": pin.marker}]
    return made


def main() -> None:
    """Write the bill to a file."""
    told = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    told.add_argument("file", type=Path, help="where to write it")
    told.add_argument("--every-licence", action="store_true", help="fail where one is not known")
    options = told.parse_args()
    made = bill(read_pins(LOCKS / "run.txt"), own_version())
    options.file.parent.mkdir(parents=True, exist_ok=True)
    options.file.write_text(json.dumps(made, indent=1) + "\n", encoding="utf-8")
    unread = without_licence(made)
    if unread and options.every_licence:
        sys.exit(
            f"no licence is known of {', '.join(unread)}: read its licence file and add it to "
            "READ_LICENCES in scripts/sbom.py"
        )
    print(f"{options.file}: {len(made['components'])} packages")


if __name__ == "__main__":
    main()
