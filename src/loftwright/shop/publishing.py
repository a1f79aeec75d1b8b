"""Which balls may stand behind a comparison that leaves the shop, and when none may leave.

Golfers, not balls, are what is counted: a figure stands on five golfers at least, none of them
behind more than two fifths of it, each of them having hit what is compared on one device and
with the rest of the club alike.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from typing import Any, Final

from loftwright.errors import InputError

KINDS: Final = ("shaft", "head")
LEAST_GOLFERS: Final = 5
"""Behind every figure (judgement)."""
MOST_SHARE: Final = 0.4
"""Of one golfer among the balls of a model (judgement)."""
MOST_MODELS: Final = 6
DEVICES_APART: Final = 0.25
"""Share of balls that two clubs of a fitting may have hit on different devices (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is to be compared.

    Attributes
    ----------
    kind : {"shaft", "head"}
    models : tuple of str
        Ids, in the order in which they are shown; the reference among them.
    reference : str
    golfers : str
        One speed of golfers, as the shop record calls it; empty for all of them.
    """

    kind: str
    models: tuple[str, ...]
    reference: str
    golfers: str = ""

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise InputError(
                f"{self.kind!r} is not compared", place="kind", mend="Choose shaft or head."
            )
        if len(set(self.models)) != len(self.models) or not 2 <= len(self.models) <= MOST_MODELS:
            raise InputError(
                f"{len(self.models)} models cannot be shown",
                place="models",
                mend=f"Choose 2 to {MOST_MODELS} different ones.",
            )
        if self.reference not in self.models:
            raise InputError(
                "the reference is not among the models",
                place="reference",
                mend="Choose one of the models that are shown.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Hit:
    """A club of a fitting, as far as a comparison asks.

    Attributes
    ----------
    golfer : str
        By the record's code.
    head, model, piece : str
        Its head's model, its shaft's model and its shaft's sample.
    head_piece : str
        Its head's sample; empty where nobody knows.
    setting : str
        Of the sleeve and whatever else of the club must be alike.
    speed : str
        Of the golfer.
    devices : mapping of str to int
        Balls by device.
    balls : int
        Whole and marked ones, which the sums hold.
    """

    fitting: str
    golfer: str
    club: str
    head: str
    model: str
    piece: str
    head_piece: str = ""
    setting: str = ""
    speed: str = ""
    devices: Mapping[str, int] = field(default_factory=dict)
    balls: int

    def shown(self, kind: str) -> str:
        """Return the model that a comparison of a kind shows of it."""
        return self.model if kind == "shaft" else self.head

    def sample(self, kind: str) -> str:
        """Return the sample of what is shown; its club's name where none is known."""
        known = self.piece if kind == "shaft" else self.head_piece
        return known or f"{self.shown(kind)} {self.fitting}"

    def beside(self, kind: str) -> tuple[str, str]:
        """Return what else the club is made of, which must be alike."""
        return (self.head if kind == "shaft" else self.model), self.setting


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """How much stands behind one model.

    Attributes
    ----------
    samples : int
    share : float
        Of the golfer with the most balls among them.
    """

    model: str
    golfers: int
    fittings: int
    balls: int
    samples: int
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why nothing leaves the shop, and what would change that.

    Attributes
    ----------
    model : str
        Which model it is about; empty for all of them.
    missing : int
        Golfers that are missing; 0 where that is not the reason.
    """

    why: str
    mend: str
    model: str = ""
    missing: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The clubs that may stand behind a comparison.

    Attributes
    ----------
    hits : tuple of Hit
        In the order of fittings and clubs.
    cells : tuple of Cell
        In the order of the question's models.
    refusals : tuple of Refusal
        None where the comparison may leave.
    """

    hits: tuple[Hit, ...]
    cells: tuple[Cell, ...]
    refusals: tuple[Refusal, ...]

    @property
    def golfers(self) -> tuple[str, ...]:
        """Codes of the golfers behind it, sorted."""
        return tuple(sorted({hit.golfer for hit in self.hits}))


def permitted(
    hits: Iterable[Hit], golfers: Collection[str], held: Collection[str] = ()
) -> tuple[Hit, ...]:
    """Return the clubs of golfers who agreed, without samples that may not be hit.

    Parameters
    ----------
    hits : iterable of Hit
    golfers : collection of str
        Codes of those who agreed to publishing and to the shop record.
    held : collection of str
        Recalled or locked pieces.
    """
    barred, agreed = set(held), set(golfers)
    return tuple(
        hit
        for hit in hits
        if hit.golfer in agreed and not {hit.piece, hit.head_piece} & barred and hit.balls > 0
    )


def choose(hits: Iterable[Hit], question: Question) -> Chosen:
    """Return the clubs that may stand behind a comparison, and why it may not leave, if so.

    Parameters
    ----------
    hits : iterable of Hit
        Permitted ones.
    question : Question

    Notes
    -----
    Only clubs of one fitting are compared, and of a fitting only those whose other part is that
    of the reference, which must be among them: no figure hangs by the few who hit what lies
    between.
    """
    asked = [
        hit
        for hit in hits
        if hit.shown(question.kind) in question.models and question.golfers in ("", hit.speed)
    ]
    by_fitting: dict[str, list[Hit]] = {}
    for hit in asked:
        by_fitting.setdefault(hit.fitting, []).append(hit)
    alike = [_alike(by_fitting[name], question) for name in sorted(by_fitting)]
    found = [group for group in alike if group and not _devices_apart(group)]
    kept = tuple(hit for group in found for hit in group)
    cells = tuple(_cell(model, kept, question.kind) for model in question.models)
    refusals = tuple(_refusals(asked, cells, question))
    return Chosen(hits=kept, cells=cells, refusals=refusals)


def chosen_rows(
    rows: Iterable[Mapping[str, Any]], chosen: Chosen
) -> tuple[Mapping[str, Any], ...]:
    """Return the sums of the chosen clubs alone."""
    wanted = {(hit.fitting, hit.club) for hit in chosen.hits}
    return tuple(row for row in rows if (row["fitting"], row["club"]) in wanted)


def changed_since(now: Mapping[str, str], before: Mapping[str, str]) -> int:
    """Return of how many golfers two publications tell different things.

    Parameters
    ----------
    now, before : mapping of str to str
        What stands behind each of a publication's golfers, by golfer.
    """
    return sum(now.get(golfer) != before.get(golfer) for golfer in {*now, *before})


def tells_of_few(now: Mapping[str, str], before: Mapping[str, str]) -> int:
    """Return how many golfers the difference of two publications would tell of; 0 for none.

    Notes
    -----
    Two figures over nearly the same golfers tell by their difference what the few did in whom
    they differ, though each stands on enough (differencing; Hundepool et al. 2012, Statistical
    Disclosure Control, chapter 1, from memory).
    """
    changed = changed_since(now, before)
    return changed if changed < LEAST_GOLFERS else 0


def _alike(hits: Sequence[Hit], question: Question) -> list[Hit]:
    """Return the largest group of clubs alike but for what is shown, the reference among them."""
    groups: dict[tuple[str, str], list[Hit]] = {}
    for hit in sorted(hits, key=lambda one: one.club):
        groups.setdefault(hit.beside(question.kind), []).append(hit)
    found: list[Hit] = []
    best = (1, 0)
    for _, group in sorted(groups.items()):
        models = {hit.shown(question.kind) for hit in group}
        size = (len(models), sum(hit.balls for hit in group))
        if question.reference in models and size[0] > 1 and size > best:
            found, best = group, size
    return found


def _devices_apart(hits: Sequence[Hit]) -> bool:
    shares = []
    for hit in hits:
        total = sum(hit.devices.values())
        shares.append({name: balls / total for name, balls in hit.devices.items() if total})
    return any(
        0.5 * sum(abs(one.get(name, 0.0) - other.get(name, 0.0)) for name in {*one, *other})
        > DEVICES_APART
        for one, other in combinations(shares, 2)
    )


def _cell(model: str, hits: Sequence[Hit], kind: str) -> Cell:
    own = [hit for hit in hits if hit.shown(kind) == model]
    by_golfer: dict[str, int] = {}
    for hit in own:
        by_golfer[hit.golfer] = by_golfer.get(hit.golfer, 0) + hit.balls
    balls = sum(by_golfer.values())
    return Cell(
        model=model,
        golfers=len(by_golfer),
        fittings=len({hit.fitting for hit in own}),
        balls=balls,
        samples=len({hit.sample(kind) for hit in own}),
        share=max(by_golfer.values(), default=0) / balls if balls else 0.0,
    )


def _refusals(
    asked: Sequence[Hit], cells: Sequence[Cell], question: Question
) -> Iterable[Refusal]:
    for cell in cells:
        missing = LEAST_GOLFERS - cell.golfers
        if missing > 0:
            there = {hit.golfer for hit in asked if hit.shown(question.kind) == cell.model}
            apart = len(there) - cell.golfers
            why = f"{cell.golfers} of {LEAST_GOLFERS} golfers who agreed stand behind it"
            if apart:
                other = "head" if question.kind == "shaft" else "shaft"
                why += (
                    f"; {apart} more hit it without the reference beside it, with another "
                    f"{other} or setting, or on another device"
                )
            yield Refusal(
                model=cell.model,
                missing=missing,
                why=why,
                mend=f"Ask {missing} more, or hit it beside the reference in more fittings.",
            )
        elif cell.share > MOST_SHARE:
            yield Refusal(
                model=cell.model,
                why=f"one golfer hit {100.0 * cell.share:.0f} % of its balls; "
                f"{100.0 * MOST_SHARE:.0f} % is the most",
                mend="Have others hit it first.",
            )
