"""The shop's proof in sentences, in lines for a terminal and in keys for scripts."""

from collections.abc import Sequence
from types import MappingProxyType
from typing import Any, Final

from loftwright.domain.prediction import PROBABILITIES
from loftwright.report.numbers import listed
from loftwright.services.proof import FEWEST, Group, Proof, Share, Tally

QUANTITY_WORDS: Final = MappingProxyType(
    {
        "ball_speed": "ball speed",
        "launch": "launch",
        "spin": "spin",
        "axis": "spin axis",
        "direction": "direction",
        "carry": "carry",
        "total": "total",
    }
)
RESTS_WORDS: Final = MappingProxyType(
    {
        "balls": "balls with the same club",
        "other_clubs": "balls with other clubs alone",
        "stated": "what was stated of the golfer",
    }
)
BY_WORDS: Final = MappingProxyType(
    {"bay": "Bay", "device": "Device", "club": "Club", "rests": "Predicted from"}
)

_MIDDLE: Final = PROBABILITIES.index(0.80)
_BEYOND_CHANCE: Final = 2.0


def balls(number: int) -> str:
    """Return a number of balls in words."""
    return f"{number:,} ball{'' if number == 1 else 's'}"


def proof_sentence(proof: Proof) -> str:
    """Return the one sentence that says how the proof stands."""
    told = proof.headline
    whose = " of invented golfers" if proof.invented else ""
    if told is None:
        return f"No ball{whose} was predicted yet."
    if not told.shares:
        return f"Too few to say: {balls(told.balls)}{whose} predicted, and it takes {FEWEST}."
    share = told.shares[_MIDDLE].share
    return (
        f"Of {balls(told.balls)}{whose} {_percent(share)} fell in the "
        f"{_percent(PROBABILITIES[_MIDDLE])} range of {QUANTITY_WORDS[told.name]}."
    )


def proof_objection(proof: Proof) -> str:
    """Return what a careful fitter would say to that."""
    told = proof.headline
    if told is None or not told.shares:
        return _left_out(proof) or "A ball is predicted once its club was handed over."
    found = told.shares[_MIDDLE]
    if found.error is None:
        sure = "All of them were hit in one fitting, so nobody knows how sure that is."
    else:
        away = found.share - PROBABILITIES[_MIDDLE]
        fittings = f"{told.fittings:,} fittings"
        sure = f"Standard error {_percent(found.error, 1)}, over {fittings}"
        if abs(away) <= _BEYOND_CHANCE * found.error:
            sure += ": no further from what was said than chance explains."
        elif away > 0.0:
            sure += ": the ranges are wider than they need be."
        else:
            sure += ": the ranges are narrower than they may be."
    return " ".join(one for one in (sure, _left_out(proof)) if one)


def _left_out(proof: Proof) -> str:
    told = []
    if proof.not_predicted:
        told.append(f"{balls(proof.not_predicted)} came without a prediction")
    if proof.changed:
        was = "was" if proof.changed == 1 else "were"
        told.append(f"{proof.changed:,} predicted {was} mended afterwards and left out")
    return f"{listed(told)}." if told else ""


def _percent(share: float, digits: int = 0) -> str:
    return f"{100.0 * share:.{digits}f} %"


def share_words(found: Share) -> str:
    """Return a share with its standard error."""
    if found.error is None:
        return _percent(found.share)
    return f"{_percent(found.share)} ± {100.0 * found.error:.0f}"


def name_of(group: Group) -> str:
    """Return what a group is called."""
    return RESTS_WORDS[group.name] if group.by == "rests" else group.name or "not named"


def proof_lines(proof: Proof) -> list[str]:
    """Return the proof as lines for a terminal."""
    lines = [proof_sentence(proof), proof_objection(proof)]
    if not proof.whole:
        return lines
    said = "".join(f"{f'in {_percent(one)}':>12}" for one in PROBABILITIES)
    head = f"{'balls':>8}{said}"
    lines += ["", f"{'Quantity':<34}{head}"]
    lines += [_line(QUANTITY_WORDS[one.name], one) for one in proof.whole]
    told = proof.headline
    for by, words in BY_WORDS.items():
        rows = [
            (group, found)
            for group in proof.groups
            if group.by == by and told is not None and (found := group.of(told.name)) is not None
        ]
        if rows and told is not None:
            lines += ["", f"{f'{words}, {QUANTITY_WORDS[told.name]}':<34}{head}"]
            lines += [_line(name_of(group), found) for group, found in rows]
    return lines


def _line(name: str, found: Tally) -> str:
    shown = name if len(name) < 34 else f"{name[:32]}…"
    if not found.shares:
        return f"{shown:<34}{found.balls:>8,}{'too few':>12}"
    return f"{shown:<34}{found.balls:>8,}" + "".join(
        f"{share_words(one):>12}" for one in found.shares
    )


def proof_record(proof: Proof) -> dict[str, Any]:
    """Return the proof for scripts; shares from 0 to 1, `null` where too few balls are told."""
    told = proof.headline
    return {
        "sentence": proof_sentence(proof),
        "objection": proof_objection(proof),
        "invented": proof.invented,
        "balls": proof.balls,
        "fittings": proof.fittings,
        "not_predicted": proof.not_predicted,
        "changed": proof.changed,
        "headline": told.name if told else None,
        "quantities": _records(proof.whole),
        "groups": [
            {"by": group.by, "name": group.name, "quantities": _records(group.quantities)}
            for group in proof.groups
        ],
    }


def _records(tallies: Sequence[Tally]) -> list[dict[str, Any]]:
    found = []
    for one in tallies:
        record: dict[str, Any] = {
            "quantity": one.name,
            "balls": one.balls,
            "fittings": one.fittings,
        }
        for place, probability in enumerate(PROBABILITIES):
            key = f"in_{100.0 * probability:.0f}"
            share = one.shares[place] if one.shares else None
            record[key] = round(share.share, 4) if share else None
            error = share.error if share else None
            record[f"{key}_error"] = None if error is None else round(error, 4)
        found.append(record)
    return found
