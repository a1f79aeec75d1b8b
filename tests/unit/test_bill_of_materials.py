"""The bill of materials lists what the lock pins, by hash and licence, and nothing beside it."""

import re
from pathlib import Path

import pytest
from pins import LOCKS, ROOT, read_pins
from sbom import bill, licence_of, own_version, reference, without_licence

RUN = LOCKS / "run.txt"
FREE = {
    *("0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "CC0-1.0", "ISC", "LGPL-3.0-only"),
    *("LLVM-exception", "MIT", "MIT-0", "MPL-2.0", "OFL-1.1", "PSF-2.0", "Zlib"),
}
"""Licences under which anybody may use, pass on and change what runs, by their SPDX names."""


def lines_of(lock: Path) -> list[str]:
    return lock.read_text(encoding="utf-8").splitlines()


def test_the_bill_lists_every_locked_version_once() -> None:
    made = bill(read_pins(RUN), "1")
    listed = [(one["name"], one["version"]) for one in made["components"]]
    pinned = [
        (re.sub(r"\[.*", "", line.split("==")[0]), line.split("==")[1].split()[0])
        for line in lines_of(RUN)
        if re.match(r"[a-z]", line)
    ]
    assert sorted(listed) == sorted(pinned)
    assert len(set(listed)) == len(listed) > 60


def test_the_bill_bears_every_hash_of_the_lock() -> None:
    made = bill(read_pins(RUN), "1")
    told = [
        one["content"]
        for component in made["components"]
        for file in component["externalReferences"]
        for one in file["hashes"]
    ]
    assert sorted(told) == sorted(re.findall(r"sha256:([0-9a-f]{64})", RUN.read_text("utf-8")))


def test_every_package_that_runs_is_under_a_free_licence() -> None:
    pins = read_pins(RUN)
    assert without_licence(bill(pins, "1")) == []
    unknown = {
        word: pin.name
        for pin in pins
        for word in re.findall(r"[\w.-]+", licence_of(pin.name) or "none")
        if word not in FREE | {"AND", "OR", "WITH"}
    }
    assert unknown == {}


def test_what_needs_what_is_as_the_lock_says() -> None:
    pins = read_pins(RUN)
    made = bill(pins, own_version())
    needs = {one["ref"]: one["dependsOn"] for one in made["dependencies"]}
    assert needs.keys() == {reference(pin) for pin in pins} | {
        made["metadata"]["component"]["bom-ref"]
    }
    starlette = next(pin for pin in pins if pin.name == "starlette")
    fastapi = next(pin for pin in pins if pin.name == "fastapi")
    assert "fastapi" in starlette.needed_by
    assert reference(starlette) in needs[reference(fastapi)]
    own = needs[made["metadata"]["component"]["bom-ref"]]
    assert reference(fastapi) in own
    assert reference(starlette) not in own


def test_the_same_lock_gives_the_same_bill() -> None:
    pins = read_pins(RUN)
    assert bill(pins, "1") == bill(pins, "1")
    assert bill(pins, "1")["serialNumber"] != bill(pins[1:], "1")["serialNumber"]


@pytest.mark.parametrize("lock", sorted(LOCKS.glob("*.txt")), ids=lambda path: path.stem)
def test_every_lock_is_pinned_by_hash_and_names_no_address(lock: Path) -> None:
    pins = read_pins(lock)
    assert all(pin.hashes for pin in pins)
    text = lock.read_text(encoding="utf-8")
    assert "://" not in text
    assert "--index-url" not in text


def test_a_pin_without_a_hash_is_refused(tmp_path: Path) -> None:
    lock = tmp_path / "run.txt"
    lock.write_text("alembic==1.20.1\n    # via loftwright (pyproject.toml)\n")
    with pytest.raises(ValueError, match="alembic has no hash"):
        read_pins(lock)
    lock.write_text("\n")
    with pytest.raises(ValueError, match="pins nothing"):
        read_pins(lock)


def test_every_lock_is_made_by_the_script_that_pins() -> None:
    script = (ROOT / "scripts" / "lock").read_text(encoding="utf-8")
    made = set(re.findall(r"^(\w+)\) groups=", script, re.MULTILINE))
    assert made == {lock.stem for lock in LOCKS.glob("*.txt")}
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    named = re.search(r"for group in ([\w ]+);", makefile)
    assert named is not None
    assert set(named[1].split()) == made
