"""Comparisons over many golfers: looked at, published by a person, withdrawn."""

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from hashlib import sha256
from typing import Final

from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.report.numbers import count
from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.publishable import agreed, model_words, publishable_hits
from loftwright.services.published_content import Content, content_record
from loftwright.services.published_kept import (
    Published,
    keep_publications,
    published_ones,
    read_publications,
)
from loftwright.services.published_making import Making, made_content
from loftwright.services.publishing_note import checked_note
from loftwright.services.settings import read_settings
from loftwright.services.shop_folder import record_folder
from loftwright.services.studio import Studio
from loftwright.shop.cells import fittings_of
from loftwright.shop.engine import sums_in
from loftwright.shop.published_figures import Figure, figures_of
from loftwright.shop.publishing import (
    LEAST_GOLFERS,
    Chosen,
    Hit,
    Question,
    Refusal,
    choose,
    chosen_rows,
    tells_of_few,
)
from loftwright.shop.record import files

_MOST_LEARNED_FROM: Final = 60
"""Fittings from which slopes are learned for a comparison; physics is worth twenty of them."""
_kept: Final[KeptByStudio[tuple[Figure, ...]]] = KeptByStudio()


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """A comparison as it would leave the shop now.

    Attributes
    ----------
    chosen : Chosen
    refusals : tuple of Refusal
        None where it may be published.
    content : Content or None
        None where it may not.
    stamp : str
        Changes with anything that would leave the shop.
    """

    question: Question
    chosen: Chosen
    refusals: tuple[Refusal, ...]
    content: Content | None
    stamp: str


def look(studio: Studio, question: Question, making: Making) -> Looked:
    """Return a comparison as it would leave the shop now, or why it may not.

    Parameters
    ----------
    studio : Studio
    question : Question
    making : Making
        What the person says of it.

    Raises
    ------
    NotFoundError
        If the rack does not have one of the models.
    InputError
        If the note claims, counts or names, or two models have one name.
    """
    names = model_words(studio.store.rack(), question.kind)
    for model in question.models:
        if model not in names:
            raise NotFoundError(
                "the rack does not have one of these models", place="models", mend="Choose again."
            )
    if len({names[model] for model in question.models}) != len(question.models):
        raise InputError(
            "two of these models have one name",
            place="models",
            mend="Tell them apart in the rack first: by weight, label or generation.",
        )
    noted = replace(making, note=checked_note(making.note, private_names(studio)))
    hits = publishable_hits(studio)
    chosen = choose(hits, question)
    refusals = chosen.refusals or _differencing(studio, question, behind(chosen, question))
    content = None
    if not refusals:
        figures = _figures(studio, question, hits, chosen)
        content = made_content(studio, question, chosen, figures, noted, names)
        _refuse_names(content, private_names(studio))
    told = [asdict(question), behind(chosen, question)]
    told += [] if content is None else [content_record(content)]
    return Looked(
        question=question,
        chosen=chosen,
        refusals=refusals,
        content=content,
        stamp=_digest(json.dumps(told, sort_keys=True)),
    )


def publish(
    studio: Studio, question: Question, making: Making, *, by: str, stamp: str
) -> Published:
    """Publish a comparison that a person has looked at.

    Parameters
    ----------
    by : str
        Who decides; it stays in the shop.
    stamp : str
        Of what was looked at.

    Raises
    ------
    InputError
        If nobody decides.
    ConflictError
        If it may not be published, or is not what was looked at any more.
    """
    if not by.strip():
        raise InputError(
            "nobody decided",
            place="by",
            mend="Write who publishes it; the name stays in the shop.",
        )
    with studio.lock:
        now = look(studio, question, making)
        if now.content is None:
            raise ConflictError(
                "it may not be published",
                place="comparison",
                mend=" ".join(f"{one.why}." for one in now.refusals),
            )
        if now.stamp != stamp:
            raise ConflictError(
                "the record changed since it was looked at",
                place="comparison",
                mend="Look again, then publish.",
            )
        kept, version = read_publications(studio)
        made = Published(
            number=len(kept) + 1,
            question=question,
            by=by.strip(),
            at=studio.now(),
            behind=behind(now.chosen, question),
            content=now.content,
        )
        keep_publications(studio, (*kept, made), version)
    return made


def no_longer_agree(studio: Studio, published: Published) -> int:
    """Return how many golfers behind a comparison have taken their consent back, or are gone."""
    still = {token_of(code) for code in agreed(studio)}
    return len(published.golfers - still)


def behind(chosen: Chosen, question: Question) -> dict[str, dict[str, str]]:
    """Return what stands behind every golfer of a comparison, by model and a name for nobody."""
    told: dict[str, dict[str, list[str]]] = {model: {} for model in question.models}
    for hit in chosen.hits:
        own = told[hit.shown(question.kind)].setdefault(token_of(hit.golfer), [])
        own.append(f"{hit.fitting} {hit.club} {hit.balls}")
    return {
        model: {golfer: _digest(" ".join(sorted(hits))) for golfer, hits in sorted(own.items())}
        for model, own in told.items()
    }


def private_names(studio: Studio) -> tuple[str, ...]:
    """Return every name that may not leave the shop: of golfers, bays and devices."""
    settings = read_settings(studio).settings
    people = [studio.store.identity(kept.value.id).name for kept in studio.store.golfers()]
    devices = [device.name for device in settings.devices]
    told = dict.fromkeys([*people, *settings.bays, *devices, *settings.mark_errors])
    return tuple(name for name in told if name.strip())


def _figures(
    studio: Studio, question: Question, hits: Sequence[Hit], chosen: Chosen
) -> tuple[Figure, ...]:
    """Return the figures, computed once while question, clubs and record stay the same."""
    folder = record_folder(studio)
    ours = {(hit.fitting, hit.club) for hit in hits}

    def made() -> tuple[Figure, ...]:
        rows = sums_in(folder)
        others = fittings_of(row for row in rows if (row["fitting"], row["club"]) in ours)
        every = max(1, -(-len(others) // _MOST_LEARNED_FROM))
        fittings = fittings_of(chosen_rows(rows, chosen))
        return figures_of(fittings, chosen, question, others[::every])

    there = [(str(one), one.stat().st_mtime_ns, one.stat().st_size) for one in files(folder)]
    key = _digest(repr((question, sorted(ours), there)))
    return _kept.of(studio, key, made)


def _refuse_names(content: Content, names: Sequence[str]) -> None:
    """Refuse a model or a ball that is called like a person, a bay or a device."""
    texts = [content.title, *(line.name for line in content.models), content.block.ball]
    for name in names:
        word = re.compile(rf"(?<!\w){re.escape(name.strip())}(?!\w)", re.IGNORECASE)
        if any(word.search(text) for text in texts):
            raise InputError(
                "a model or ball is called like a golfer, a bay, a fitter or a device",
                place="models",
                mend="Call it otherwise in the rack or on the plan, then look again.",
            )


def _differencing(
    studio: Studio, question: Question, now: Mapping[str, Mapping[str, str]]
) -> tuple[Refusal, ...]:
    """Return why a comparison beside an earlier one would tell of a few golfers."""
    for before in published_ones(studio):
        shared = sorted(set(question.models) & set(before.question.models))
        if before.question.kind != question.kind or len(shared) < 2:
            continue
        pairs = [(now[model], before.behind[model]) for model in shared]
        pairs.append((_joined(now, shared), _joined(before.behind, shared)))
        few = max(tells_of_few(one, other) for one, other in pairs)
        if few:
            return (
                Refusal(
                    why=f"beside comparison {before.number} it would tell of "
                    f"{count(few, 'golfer')}: so many differ between the two",
                    mend=f"Wait until {LEAST_GOLFERS} differ, or leave it at the earlier one.",
                    missing=LEAST_GOLFERS - few,
                ),
            )
    return ()


def _joined(told: Mapping[str, Mapping[str, str]], models: Sequence[str]) -> dict[str, str]:
    golfers = {golfer for model in models for golfer in told[model]}
    return {
        golfer: " ".join(told[model].get(golfer, "-") for model in models) for golfer in golfers
    }


def token_of(golfer: str) -> str:
    """Return the name that tells nobody of a golfer's code in the shop record."""
    return sha256(f"published {golfer}".encode()).hexdigest()[:16]


def _digest(text: str) -> str:
    return sha256(text.encode()).hexdigest()[:16]
