"""The receipt of a finished club on paper: A4, black and white, for the golfer's folder."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from loftwright.domain.build_sheet import CheckedBuild
from loftwright.domain.check_acts import Outcome, Received
from loftwright.report.build_words import EVERY_SETTING, FOOTER, not_measured_words
from loftwright.report.final_rounds import HAND_WORDS
from loftwright.report.final_words import (
    GOLFER_TOLD,
    OUTCOME_WORDS,
    contradiction_lines,
    limit_line,
    minded,
    sentence,
    verdict_rows,
    verdict_sentence,
)
from loftwright.report.fonts import SANS, SERIF
from loftwright.report.glyphs import STAND_IN, clean, printable
from loftwright.report.look import EDGE, INK, INK_2
from loftwright.report.runs import breakable
from loftwright.report.screen_numbers import Show
from loftwright.report.typesetting import compiler, pdf_bytes
from loftwright.workshop.final import HandCheck

_TEMPLATE = "final_check.typ"


@dataclass(frozen=True, slots=True, kw_only=True)
class FinalReceipt:
    """What a receipt on paper says.

    Attributes
    ----------
    player : str
        Initials, no more.
    code : str
        Of the job.
    club : tuple of (str, str)
        What it is made of, name and words.
    revision, number : int
        Of the build sheet, and which receipt this is.
    unread : str
        Targets that were not measured, in words.
    departures : tuple of str
        What was built otherwise than the sheet says.
    """

    player: str
    code: str
    studio: str
    club: tuple[tuple[str, str], ...]
    revision: int
    number: int
    checked: CheckedBuild
    received: Received
    unread: str
    departures: tuple[str, ...]


def final_pdf(receipt: FinalReceipt, show: Show) -> bytes:
    """Return a receipt as PDF.

    Parameters
    ----------
    receipt : FinalReceipt
    show : Show
        The units and the decimal mark of every figure.
    """
    return pdf_bytes(compiler(_TEMPLATE, _data(receipt, show)), receipt.received.day)


def _data(receipt: FinalReceipt, show: Show) -> dict[str, object]:
    checked, received = receipt.checked, receipt.received
    outcome = OUTCOME_WORDS[received.outcome]
    data = {
        "said": f"{outcome}. {verdict_sentence(checked, show)}",
        "club": [list(one) for one in receipt.club],
        "facts": _facts(receipt),
        "rows": [
            [
                f"{row.what}{' *' if row.tight else ''}",
                *(row.measured, row.doubt, row.target, row.tolerance, row.off, row.comes_to),
                row.verdict,
            ]
            for row in verdict_rows(checked, show)
        ],
        "tight": any(line.tight for line in checked.targets),
        "unread": receipt.unread,
        "contradictions": contradiction_lines(checked, show),
        "departures": list(receipt.departures),
        "looks": [[HAND_WORDS[one], _answer(received, one)] for one in HandCheck],
        "edition": checked.rules.edition,
        "limits": [limit_line(one, checked, show) for one in checked.limits],
        "unmeasured": [f"{sentence(one)}." for one in not_measured_words(checked)],
        "minded": minded(checked, show),
        "rework": received.rework,
        "reason": received.reason,
        "second": received.second,
        "alone": received.alone,
        "day": _day(received.day),
        "told": list(GOLFER_TOLD) if received.outcome is Outcome.ACCEPT else [],
        "footer": [FOOTER, EVERY_SETTING],
        "studio": receipt.studio,
        "missing": _missing((received.second, received.reason, received.rework, receipt.studio)),
    }
    return {
        **{key: _settable(value) for key, value in data.items()},
        "title": f"Receipt of a finished club, {clean(receipt.code)}",
        "author": clean(receipt.studio) or "Loftwright",
        "dated": received.day is not None,
        "look": {"ink": INK, "ink2": INK_2, "edge": EDGE, "sans": SANS, "serif": SERIF},
    }


def _facts(receipt: FinalReceipt) -> list[str]:
    return [
        f"Player {receipt.player}",
        f"Job {receipt.code}",
        f"Sheet revision {receipt.revision}",
        f"Receipt {receipt.number}",
    ]


def _answer(received: Received, look: HandCheck) -> str:
    if look.value not in received.looked:
        return "not on this club"
    return "yes" if received.looked[look.value] else "no"


def _day(day: date | None) -> str:
    return "" if day is None else f"{day:%-d %B %Y}"


def _missing(texts: Sequence[str]) -> str:
    """Return the line that explains the stand-in for letters, where a text needs it."""
    if not any(STAND_IN in printable(one) for one in texts):
        return ""
    return f"{STAND_IN} stands for a letter that the typefaces of this page do not have."


def _settable(value: object) -> object:
    """Return data whose words the typefaces can set."""
    if isinstance(value, list):
        return [_settable(one) for one in value]
    return breakable(value) if isinstance(value, str) else value
