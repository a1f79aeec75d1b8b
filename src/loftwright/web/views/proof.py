"""The shop's proof as a page: its sentence, its picture, its tables."""

from dataclasses import dataclass

from loftwright.domain.prediction import PROBABILITIES
from loftwright.report.numbers import count
from loftwright.report.proof_picture import ProofMark, ProofRow, proof_picture, proof_words
from loftwright.report.theme_svg import for_screen
from loftwright.services.proof import Proof, Tally
from loftwright.services.proof_words import (
    BY_WORDS,
    QUANTITY_WORDS,
    name_of,
    proof_objection,
    proof_sentence,
    share_words,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyRow:
    """Some balls against their ranges; without shares they are too few."""

    name: str
    balls: str
    shares: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyTable:
    """Balls by what they have in common."""

    heading: str
    head: str
    rows: tuple[TallyRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofView:
    """The page.

    Attributes
    ----------
    picture, words : str
        Empty while there are too few balls for any share.
    heads : tuple of str
        Of the columns of shares.
    """

    sentence: str
    lead: str
    picture: str
    words: str
    heads: tuple[str, ...]
    whole: tuple[TallyRow, ...]
    tables: tuple[TallyTable, ...]


def proof_view(proof: Proof) -> ProofView:
    """Return the page of the shop's proof."""
    drawn = [
        ProofRow(name=_capital(QUANTITY_WORDS[one.name]), marks=_marks(one))
        for one in proof.whole
        if one.shares
    ]
    told = proof.headline
    return ProofView(
        sentence=proof_sentence(proof),
        lead=_lead(proof),
        picture=for_screen(proof_picture(drawn, title=_TITLE)) if drawn else "",
        words=proof_words(drawn),
        heads=tuple(f"In the {100.0 * one:.0f} % range" for one in PROBABILITIES),
        whole=tuple(_row(_capital(QUANTITY_WORDS[one.name]), one) for one in proof.whole),
        tables=_tables(proof, told) if told else (),
    )


def _lead(proof: Proof) -> str:
    """Return what speaks against the figures, first that some fittings are not in them yet."""
    if not proof.uncounted:
        return proof_objection(proof)
    left = f"{count(proof.uncounted, 'fitting')} are still to be counted: open the page again."
    return f"{left} {proof_objection(proof)}".strip()


_BY = {"bay": "bay", "device": "device", "club": "club", "rests": "what it was predicted from"}
_TITLE = "Share of balls in their ranges, per cent, beside what each range was to hold"


def _marks(found: Tally) -> tuple[ProofMark, ...]:
    return tuple(
        ProofMark(said=said, held=share.share, error=share.error)
        for said, share in zip(PROBABILITIES, found.shares, strict=True)
    )


def _tables(proof: Proof, told: Tally) -> tuple[TallyTable, ...]:
    tables = []
    for by, heading in BY_WORDS.items():
        rows = tuple(
            _row(name_of(group), found)
            for group in proof.groups
            if group.by == by and (found := group.of(told.name)) is not None
        )
        if rows:
            title = f"{QUANTITY_WORDS[told.name]} by {_BY[by]}"
            tables.append(TallyTable(heading=_capital(title), head=heading, rows=rows))
    return tuple(tables)


def _row(name: str, found: Tally) -> TallyRow:
    return TallyRow(
        name=name,
        balls=f"{found.balls:,}",
        shares=tuple(share_words(one) for one in found.shares),
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
