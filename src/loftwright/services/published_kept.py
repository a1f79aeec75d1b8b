"""What a shop published, who decided it, and what was withdrawn again.

It is kept in the store, beside the settings: it cannot be made again from fittings.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import Any, Final

from loftwright.errors import InputError, NotFoundError
from loftwright.services.published_content import Content, content_of, content_record
from loftwright.services.studio import Studio
from loftwright.shop.publishing import Question

NAME: Final = "publications"


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """A comparison that a person published.

    Attributes
    ----------
    number : int
        From 1.
    by : str
        Who decided; kept in the shop.
    at : datetime
    behind : mapping of str to mapping of str to str
        By model's id: what stands behind each golfer, under names that tell nobody.
    content : Content
    withdrawn_by : str
    withdrawn_at : datetime or None
    """

    number: int
    question: Question
    by: str
    at: datetime
    behind: Mapping[str, Mapping[str, str]]
    content: Content
    withdrawn_by: str = ""
    withdrawn_at: datetime | None = None

    @property
    def golfers(self) -> frozenset[str]:
        """Names that tell nobody, of the golfers behind it."""
        return frozenset(one for told in self.behind.values() for one in told)


def published_ones(studio: Studio) -> tuple[Published, ...]:
    """Return everything that was ever published, the newest first."""
    return read_publications(studio)[0][::-1]


def published_one(studio: Studio, number: int) -> Published:
    """Return what was published under a number.

    Raises
    ------
    NotFoundError
        If there is none.
    """
    found = next((one for one in published_ones(studio) if one.number == number), None)
    if found is None:
        raise NotFoundError(
            f"no comparison {number} was published",
            place="comparison",
            mend="Go to the list of comparisons.",
        )
    return found


def withdraw(studio: Studio, number: int, *, by: str) -> Published:
    """Withdraw a comparison: its files are handed out no more.

    Raises
    ------
    InputError
        If nobody decides.
    """
    if not by.strip():
        raise InputError(
            "nobody decided",
            place="by",
            mend="Write who withdraws it; the name stays in the shop.",
        )
    with studio.lock:
        known = published_one(studio, number)
        if known.withdrawn_at is not None:
            return known
        gone = replace(known, withdrawn_by=by.strip(), withdrawn_at=studio.now())
        kept, version = read_publications(studio)
        keep_publications(
            studio, tuple(gone if one.number == number else one for one in kept), version
        )
    return gone


def read_publications(studio: Studio) -> tuple[tuple[Published, ...], int]:
    """Return everything that was ever published, in order, and its version in the store."""
    kept = studio.store.setting(NAME)
    records: list[dict[str, Any]] = json.loads(kept.value) if kept.value else []
    return tuple(_published(one) for one in records), kept.version


def keep_publications(studio: Studio, publications: Sequence[Published], version: int) -> None:
    """Keep everything that was ever published.

    Raises
    ------
    ConflictError
        If somebody else published meanwhile.
    """
    records = [_record(one) for one in publications]
    studio.store.set_setting(NAME, json.dumps(records, ensure_ascii=False), version=version)


def _record(one: Published) -> dict[str, Any]:
    return {
        "number": one.number,
        "question": asdict(one.question),
        "by": one.by,
        "at": one.at.isoformat(),
        "behind": one.behind,
        "content": content_record(one.content),
        "withdrawn_by": one.withdrawn_by,
        "withdrawn_at": None if one.withdrawn_at is None else one.withdrawn_at.isoformat(),
    }


def _published(record: dict[str, Any]) -> Published:
    gone = record["withdrawn_at"]
    question = record["question"]
    return Published(
        number=record["number"],
        question=Question(**{**question, "models": tuple(question["models"])}),
        by=record["by"],
        at=datetime.fromisoformat(record["at"]),
        behind=record["behind"],
        content=content_of(record["content"]),
        withdrawn_by=record["withdrawn_by"],
        withdrawn_at=None if gone is None else datetime.fromisoformat(gone),
    )
