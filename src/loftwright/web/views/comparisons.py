"""Comparisons to publish as their pages show them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from loftwright.report.models_words import model_told, models_told
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.published_content import Content
from loftwright.services.published_files import (
    WAY_WORDS,
    WRITTEN,
    behind_words,
    difference_of,
    picture_of,
    told_models,
    unit_of,
)
from loftwright.services.published_kept import Published
from loftwright.services.published_making import golfers_words
from loftwright.services.shop_publishing import Looked
from loftwright.shop.published_figures import QUANTITIES, WAYS, Figure
from loftwright.shop.publishing import LEAST_GOLFERS, Hit
from loftwright.web.comparison_forms import GOLFERS
from loftwright.web.views.rack_rows import Choice


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelRow:
    """A model that may be compared.

    Attributes
    ----------
    golfers : str
        Who agreed and hit it.
    """

    id: str
    name: str
    golfers: str
    balls: str
    ticked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedRow:
    """A published comparison in the list."""

    number: int
    title: str
    day: str
    by: str
    state: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparisonsView:
    """The page of all comparisons and of the form for another one."""

    sentence: str
    lead: str
    rows: tuple[ModelRow, ...]
    choices: tuple[Choice, ...]
    golfers: tuple[Choice, ...]
    published: tuple[PublishedRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CellView:
    """A figure of the table: the difference or that there is none, and its ranges."""

    best: str
    likely: str
    wide: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WayTable:
    """All figures one way; cells by model in the order of quantities."""

    name: str
    rows: tuple[tuple[str, tuple[CellView, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ContentView:
    """What leaves the shop, on the screen."""

    picture: str
    told: tuple[str, ...]
    heads: tuple[tuple[str, str], ...]
    tables: tuple[WayTable, ...]
    block: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LookView:
    """A comparison before somebody decides on it."""

    sentence: str
    lead: str
    missing: tuple[tuple[str, str, str], ...]
    content: ContentView | None


def comparisons_view(
    hits: Sequence[Hit],
    published: Sequence[tuple[Published, int]],
    asked: tuple[str, Mapping[str, str], Sequence[str]],
    show: Show,
) -> ComparisonsView:
    """Return the page of all comparisons.

    Parameters
    ----------
    hits : sequence of Hit
        That may stand behind one.
    published : sequence of (Published, int)
        The newest first, each with how many golfers agree no longer.
    asked : tuple of (str, mapping, sequence)
        Kind, models in words by id, and what is ticked.
    show : Show
    """
    kind, names, ticked = asked
    rows = _model_rows(hits, kind, names, ticked)
    golfers = {hit.golfer for hit in hits}
    ready = [row for row in rows if not row.golfers.endswith(f"of {LEAST_GOLFERS}")]
    out = [one for one, _ in published if one.withdrawn_at is None]
    sentence = "No comparison has left the shop."
    if out:
        sentence = f"{count(len(out), 'comparison')} {'is' if len(out) == 1 else 'are'} published."
    elif published:
        sentence = f"No comparison is published now; {len(published)} left the shop before."
    if golfers:
        lead = (
            f"{count(len(golfers), 'golfer')} agreed to publishing and to the shop record; "
            f"{len(ready)} of {count(len(rows), kind)} stand on {LEAST_GOLFERS} of them or more."
        )
    else:
        lead = (
            "Nobody who agreed both to publishing and to the shop record has a fitting in the "
            "record yet; both are ticked on a golfer’s page."
        )
    return ComparisonsView(
        sentence=sentence,
        lead=lead,
        rows=rows,
        choices=tuple(Choice(value=row.id, text=row.name) for row in rows),
        golfers=tuple(
            Choice(value=one, text=_capital(golfers_words(one, show))) for one in GOLFERS
        ),
        published=tuple(_published_row(one, gone) for one, gone in published),
    )


def look_view(looked: Looked, names: Mapping[str, str]) -> LookView:
    """Return a comparison before somebody decides on it."""
    content = looked.content
    if content is None:
        reasons = tuple(
            (names.get(one.model, "All of them"), _capital(f"{one.why}."), one.mend)
            for one in looked.refusals
        )
        return LookView(
            sentence="This comparison may not leave the shop yet.",
            lead="Nothing of it is drawn before it may: a figure over few golfers tells of them.",
            missing=reasons,
            content=None,
        )
    return LookView(
        sentence=models_told(told_models(content), content.reference, content.kind),
        lead=f"{content.block.golfers}. Look at all of it, then decide.",
        missing=(),
        content=content_view(content),
    )


def content_view(content: Content) -> ContentView:
    """Return what leaves the shop, on the screen."""
    show, told = content.show, told_models(content)
    others = [line.name for line in content.models if not line.reference]
    return ContentView(
        picture=for_screen(picture_of(content)),
        told=tuple(model_told(one, content.reference) for one in told),
        heads=tuple((WRITTEN[one].name, unit_of(one, show)[1]) for one in QUANTITIES),
        tables=tuple(
            WayTable(
                name=WAY_WORDS[way],
                rows=tuple(
                    (name, tuple(_cell(one, show) for one in content.of(name, way)))
                    for name in others
                ),
            )
            for way in WAYS
        ),
        block=(
            *((line.name, _behind(line.fittings, behind_words(line))) for line in content.models),
            ("Samples", content.block.samples),
            ("How obtained", content.block.obtained),
            ("Ball", content.block.ball),
            ("Device class", content.block.device),
            ("Golfers", content.block.golfers),
            ("Dates", content.block.dates),
            ("Program", content.block.program),
            ("Ranges", content.block.ranges),
            ("Funding", content.block.funding or "not asked"),
        ),
    )


def published_sentence(published: Published) -> str:
    """Return what stands of a published comparison."""
    day = f"{published.at:%-d %B %Y}"
    if published.withdrawn_at is not None:
        return (
            f"Comparison {published.number} was withdrawn on {published.withdrawn_at:%-d %B %Y}."
        )
    return f"Comparison {published.number} was published on {day} by {published.by}."


def published_lead(published: Published, gone: int) -> str:
    """Return what somebody who looks at a published comparison must know first."""
    if published.withdrawn_at is not None:
        return "Its files are handed out no more; who has them, has them."
    if gone:
        agree = "does not agree" if gone == 1 else "do not agree"
        return (
            f"{count(gone, 'golfer')} behind it {agree} any more: withdraw it, and make another "
            "one when it may be made."
        )
    return "Everybody behind it still agrees."


def _model_rows(
    hits: Sequence[Hit], kind: str, names: Mapping[str, str], ticked: Sequence[str]
) -> tuple[ModelRow, ...]:
    rows = []
    for model, name in sorted(names.items(), key=lambda one: one[1].casefold()):
        own = [hit for hit in hits if hit.shown(kind) == model]
        golfers = len({hit.golfer for hit in own})
        if golfers or model in ticked:
            enough = golfers >= LEAST_GOLFERS
            rows.append(
                ModelRow(
                    id=model,
                    name=name,
                    golfers=str(golfers) if enough else f"{golfers} of {LEAST_GOLFERS}",
                    balls=str(sum(hit.balls for hit in own)),
                    ticked=model in ticked,
                )
            )
    return tuple(rows)


def _published_row(one: Published, gone: int) -> PublishedRow:
    state = "All still agree"
    if one.withdrawn_at is not None:
        state = f"Withdrawn {one.withdrawn_at:%-d %B %Y} by {one.withdrawn_by}"
    elif gone:
        state = f"{count(gone, 'golfer')} no longer {'agrees' if gone == 1 else 'agree'}"
    return PublishedRow(
        number=one.number,
        title=one.content.title,
        day=f"{one.at:%-d %B %Y}",
        by=one.by,
        state=state,
    )


def _cell(figure: Figure, show: Show) -> CellView:
    told, digits = difference_of(figure, show), WRITTEN[figure.quantity].digits

    def span(ends: tuple[float, float]) -> str:
        return f"{show.signed(ends[0], digits)} to {show.signed(ends[1], digits)}"

    return CellView(
        best=show.signed(told.best, digits) if told.apart else "not told apart",
        likely=span(told.likely),
        wide=span(told.wide),
    )


def _behind(fittings: int, words: str) -> str:
    return f"{words}, {count(fittings, 'fitting')}"


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
