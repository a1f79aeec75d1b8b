"""Feed broken input to every way in, guided by the branches it reaches, and write what came of it.

Each way in runs in a process of its own for some minutes, from content that is taken and from
what earlier runs found worth keeping; that which was fed least comes first. What breaks the law of
`fuzz_targets` is kept with the error that it met; put it into tests/corpus once it is mended, and
into docs/truth/fuzz_found.toml. The figures are added to those of earlier runs after each way in,
so that a run can be stopped and taken up again.
"""

import argparse
import os
import re
import sys
import time
import traceback
from collections.abc import Callable
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from random import Random
from typing import Final

import atheris
from fuzz_page import ROOT, Fed, read_fed, write

LONGEST: Final = 1 << 16
SECONDS_EACH: Final = 120
"""No content may take longer by the clock, of which other work may take most."""
WORK_EACH: Final = 20.0
"""Nor need more of the processor [s]; following its branches makes a reader ten times slower."""
MEGABYTES: Final = 2048
FOLLOWED: Final = ("intake", "services", "domain", "shop", "web", "units.py")
"""Floors whose branches are followed; compiled loops cannot be."""
_RUNS: Final = re.compile(r"stat::number_of_executed_units:\s+(\d+)")
_SLOWEST: Final = re.compile(r"stat::slowest_unit_time_sec:\s+(\d+)")
_REACHED: Final = re.compile(r"cov: (\d+)")


def main() -> None:
    """Run every way in, or those that are named."""
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("names", nargs="*", help="ways in; all of them without")
    ask.add_argument("--minutes", type=float, default=1.0, help="for each")
    ask.add_argument("--keep", type=Path, default=_usual_folder(), help="where runs go on from")
    told = ask.parse_args()
    with atheris.instrument_imports(include=["loftwright"], exclude=_not_followed()):
        from fuzz_targets import TARGETS  # noqa: PLC0415 - followed from its import on

    unknown = set(told.names) - set(TARGETS)
    if unknown:
        raise SystemExit(f"no such way in: {', '.join(unknown)}; there are {', '.join(TARGETS)}")
    fed = read_fed(TARGETS)
    names = sorted(told.names or TARGETS, key=lambda name: fed[name].minutes)
    for name in names:
        ran = outside(name, told.keep, told.minutes)
        print(name, ran, flush=True)
        fed[name] = fed[name].and_then(ran)
        write(fed)
    raise SystemExit(1 if any(fed[name].found for name in names) else 0)


def outside(name: str, keep: Path, minutes: float) -> Fed:
    """Run one way in, in a process that is split off, until its time is over."""
    found, log = keep / name / "found", keep / name / "log.txt"
    found.mkdir(parents=True, exist_ok=True)
    child = os.fork()
    if not child:
        with log.open("wb") as told:
            os.dup2(told.fileno(), sys.stdout.fileno())
            os.dup2(told.fileno(), sys.stderr.fileno())
        inside(name, keep, minutes)
    os.waitpid(child, 0)
    said = log.read_text(encoding="utf-8", errors="replace")
    ran = Fed(
        minutes=minutes,
        contents=_last(_RUNS, said),
        reached=_last(_REACHED, said),
        slowest=_last(_SLOWEST, said),
        found=sum(one.suffix != ".txt" for one in found.iterdir()),
        day=datetime.now(UTC).date().isoformat(),
    )
    if not ran.contents:
        raise SystemExit(f"{name} did not run: see {log}")
    return ran


def inside(name: str, keep: Path, minutes: float) -> None:
    """Be the process that feeds one way in; it ends in here."""
    from fuzz_targets import TARGETS, refused  # noqa: PLC0415 - followed from its import on
    from hostile import spoilt  # noqa: PLC0415 - beside it

    target = TARGETS[name]
    corpus, found = keep / name / "corpus", keep / name / "found"
    for folder in (corpus, found):
        folder.mkdir(parents=True, exist_ok=True)
    for seed in target.seeds():
        corpus.joinpath(sha256(seed).hexdigest()[:16]).write_bytes(seed)
    for old in found.glob("*.input"):
        if _error_of(lambda: refused(target, old.read_bytes())) is None:  # noqa: B023 - used at once
            old.unlink()
            old.with_suffix(".txt").unlink(missing_ok=True)
    # What took too long or too much is fed again, and kept again if it still does.
    for old in found.glob("stopped-*"):
        old.rename(corpus / old.name)

    def feed(content: bytes) -> None:
        began = time.process_time()
        error = _error_of(lambda: refused(target, content))
        if error is None and time.process_time() - began > WORK_EACH:
            error = TimeoutError(f"{time.process_time() - began:.0f} s of work")
        if error is not None:
            _keep(found, content, error)

    def change(content: bytes, most: int, seed: int) -> bytes:
        chance = Random(seed)  # noqa: S311 - nothing is kept secret by it
        if chance.random() < 0.5:
            return bytes(atheris.Mutate(content, most))
        return spoilt(content, chance)[:most]

    atheris.Setup(
        [
            name,
            str(corpus),
            f"-max_total_time={max(round(60 * minutes), 1)}",
            f"-max_len={LONGEST}",
            f"-timeout={SECONDS_EACH}",
            f"-rss_limit_mb={MEGABYTES}",
            f"-artifact_prefix={found}/stopped-",
            "-print_final_stats=1",
            f"-report_slow_units={SECONDS_EACH}",
        ],
        feed,
        custom_mutator=change,
    )
    atheris.Fuzz()


def _error_of(act: Callable[[], object]) -> Exception | None:
    try:
        act()
    except Exception as error:  # noqa: BLE001 - whatever leaves is what is looked for
        return error
    return None


def _keep(folder: Path, content: bytes, error: Exception) -> None:
    """Keep the first content that meets an error in one place of the program."""
    steps = traceback.extract_tb(error.__traceback__)
    own = [step for step in steps if "loftwright" in step.filename] or list(steps)
    last = f" {Path(own[-1].filename).name} {own[-1].lineno}" if own else ""
    where = f"{type(error).__name__}{last}"
    place = folder / f"{sha256(where.encode()).hexdigest()[:12]}.input"
    if not place.exists():
        place.write_bytes(content)
        told = "".join(traceback.format_exception(error))
        place.with_suffix(".txt").write_text(told, encoding="utf-8", errors="replace")
        print(f"found: {where}", file=sys.stderr, flush=True)


def _last(pattern: re.Pattern[str], text: str) -> int:
    found = pattern.findall(text)
    return int(found[-1]) if found else 0


def _not_followed() -> list[str]:
    """Return every module whose branches are not followed."""
    source = ROOT / "src"
    modules = [one.relative_to(source) for one in source.rglob("*.py")]
    names = [
        ".".join(one.with_suffix("").parts) for one in modules if one.parts[1] not in FOLLOWED
    ]
    return [name.removesuffix(".__init__") for name in names]


def _usual_folder() -> Path:
    cache = os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache"
    return Path(cache) / "loftwright-fuzz"


if __name__ == "__main__":
    main()
