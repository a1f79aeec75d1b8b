"""The study of shop records: many simulated shops and the fittings after them, as tables.

It resumes where it stopped: every shop is kept in `.cache/shop` under a fingerprint of the code
that made it. Without options it runs all of it and writes `docs/truth/shop_record.md`.
"""

import argparse
import json
import os
import time
from hashlib import sha256
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from rich.progress import track

from loftwright import __version__
from loftwright.training.shop_kinds import SHOP_KINDS
from loftwright.training.shop_study import FITTINGS, fresh_records, taught
from loftwright.training.shop_tables import page_lines
from loftwright.training.shop_truth import against_truth
from loftwright.training.shop_world import ROWS, draw_shop

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "truth" / "shop_record.md"
RESULTS = PAGE.with_suffix(".json")
BEGIN = "<!-- tables: made by scripts/shop_study.py -->"
SHOPS = 1
"""Of each kind."""
FRESH = 200
"""Fittings of each row after a record."""


def code() -> str:
    """Return a fingerprint of everything that a shop is computed by."""
    digest = sha256()
    for floor in ("physics", "domain", "evidence", "shop", "training"):
        for path in sorted((ROOT / "src" / "loftwright" / floor).glob("**/*.py")):
            if not path.stem.endswith("tables"):
                digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


def run(kind: str, seed: int, fittings: int, fresh: int) -> dict[str, Any]:
    """Return what one shop comes to, simulated unless it is kept."""
    folder = ROOT / ".cache" / "shop" / code()
    folder.mkdir(parents=True, exist_ok=True)
    plain = "".join(c if c.isalnum() else "-" for c in kind)
    path = folder / f"{plain}-{seed}-{fittings}-{fresh}.json"
    if path.exists():
        kept: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
        return kept
    started = time.process_time()
    told = taught(draw_shop(SHOP_KINDS[kind], seed), fittings)
    unit = {
        "kind": kind,
        "seed": seed,
        "fittings": fittings,
        "against_truth": against_truth(told.shop, told.learned),
        "fresh": fresh_records(told, fresh),
    }
    unit["seconds"] = time.process_time() - started
    draft = path.with_suffix(".new")
    draft.write_text(json.dumps(unit), encoding="utf-8")
    draft.replace(path)
    return unit


def main() -> None:
    """Run what was asked for and print or write its tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kind", choices=tuple(SHOP_KINDS), help="one kind, printed")
    parser.add_argument("--shops", type=int, default=SHOPS, help="how many of each kind")
    parser.add_argument("--fittings", type=int, default=FITTINGS, help="of each record")
    parser.add_argument("--fresh", type=int, default=FRESH, help="fittings after it, of each row")
    parser.add_argument("--first", type=int, default=1, help="the first seed")
    parser.add_argument("--print", action="store_true", help="print instead of writing")
    asked = parser.parse_args()
    kinds = (asked.kind,) if asked.kind else tuple(SHOP_KINDS)
    # Every kind once before any is run again, so that a run that was stopped tells of all.
    wanted = [
        (kind, seed) for seed in range(asked.first, asked.first + asked.shops) for kind in kinds
    ]
    units = [run(kind, seed, asked.fittings, asked.fresh) for kind, seed in track(wanted)]
    lines = page_lines(units)
    if asked.print or asked.kind:
        print("\n".join(lines))
        return
    seconds = sum(one["seconds"] for one in units)
    made = (
        f"Shops of each kind: {asked.shops}, from seed {asked.first} on; "
        f"{asked.fittings} fittings a record, {asked.fresh} fittings of each row after it; "
        f"loftwright {__version__}, code {code()}, {seconds / 60.0:.0f} minutes of one core."
    )
    words = PAGE.read_text(encoding="utf-8").partition(BEGIN)[0]
    PAGE.write_text("\n".join([words + BEGIN, "", made, "", *lines, ""]), encoding="utf-8")
    told = json.dumps(_rounded(_results(units)), separators=(",", ":"))
    RESULTS.write_text(told.replace('{"kind"', '\n{"kind"') + "\n", encoding="utf-8")


def _results(units: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return what was learned of every shop, and columns of the fittings after it."""
    return [
        {
            **{name: unit[name] for name in ("kind", "seed", "fittings", "against_truth")},
            "fresh": {
                row: _columns([one for one in unit["fresh"] if one["row"] == row]) for row in ROWS
            },
        }
        for unit in units
    ]


def _columns(records: list[dict[str, Any]]) -> dict[str, list[float]]:
    told = {
        f"{prior} {name}": [one[prior][name] for one in records]
        for prior in ("physics", "learned")
        for name in ("regret", "best", "value_80", "value_95")
    }
    return {"raw averages": [one["plain"] for one in records], **told}


def _rounded(value: Any) -> Any:  # noqa: ANN401 - whatever JSON holds
    """Return figures to three digits after the point, so that the file stays small."""
    if isinstance(value, float):
        return int(value) if value.is_integer() else round(value, 3)
    if isinstance(value, dict):
        return {name: _rounded(one) for name, one in value.items()}
    return [_rounded(one) for one in value] if isinstance(value, list) else value


if __name__ == "__main__":
    main()
