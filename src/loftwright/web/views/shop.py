"""The shop record as a page: what taught the shop, what it knows, and what to beware of."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from loftwright.domain.rack import Rack
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.report.shop_words import (
    leverage_words,
    nothing_learned,
    offset_words,
    shop_sentence,
)
from loftwright.services.shop_inside import Inside
from loftwright.services.shop_names import member
from loftwright.services.shop_newest import Learned
from loftwright.services.shop_told import (
    heads_told,
    models_known,
    offset_figures,
    shafts_told,
)
from loftwright.shop.contradictions import Contradiction
from loftwright.shop.learned import ShopLearned
from loftwright.shop.population import PHYSICS_FITTINGS
from loftwright.web.views.shop_drawn import SAME, SWUNG, Drawn, models_drawn
from loftwright.web.views.shop_rows import (
    COLUMNS,
    OFFSETS,
    Row,
    effect_rows,
    heading,
    offset_rows,
)
from loftwright.web.views.shop_shaft import contradicted


@dataclass(frozen=True, slots=True, kw_only=True)
class Warned:
    """A warning in words, and a fitting of the golfer whose balls it is about."""

    words: str
    fitting: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionRow:
    """A version that was learned."""

    version: int
    day: str
    fittings: int
    balls: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopView:
    """The page.

    Attributes
    ----------
    taught : bool
        Whether anything was learned.
    same : bool
        Whether figures are from the same swing; else they are as golfers swing it.
    """

    sentence: str
    lead: str
    why_not: str
    inside: tuple[tuple[str, str], ...]
    trouble: tuple[str, ...]
    drawn: Drawn | None
    taught: bool
    same: bool
    columns: tuple[str, ...]
    shafts: tuple[Row, ...]
    heads: tuple[Row, ...]
    offset_columns: tuple[str, ...]
    offsets: tuple[Row, ...]
    offset_words: tuple[str, ...]
    warnings: tuple[Warned, ...]
    against: tuple[tuple[str, str], ...]
    versions: tuple[VersionRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopFacts:
    """What the page is drawn from.

    Attributes
    ----------
    newest : Learned
    fittings : mapping of str to str
        The newest fitting of golfers behind codes that warnings name.
    against : tuple of Contradiction
        Where the record contradicts label, bench or sisters.
    """

    rack: Rack
    inside: Inside
    newest: Learned
    versions: tuple[VersionRow, ...]
    fittings: Mapping[str, str]
    against: tuple[Contradiction, ...] = ()


def shop_view(facts: ShopFacts, show: Show, figure: str, how: str) -> ShopView:
    """Return the page of the shop record.

    Parameters
    ----------
    facts : ShopFacts
    show : Show
    figure : str
        What the picture is of.
    how : str
        Asks for figures from the same swing; else they are as golfers swing it.
    """
    way = SAME if how == SAME else SWUNG
    columns = COLUMNS[:3] if way == SAME else COLUMNS
    learned, rack = facts.newest.learned, facts.rack
    known = () if learned is None else models_known(learned, rack)
    return ShopView(
        sentence=_sentence(facts),
        lead=_lead(facts),
        why_not=facts.newest.why_not,
        inside=_inside(facts.inside),
        trouble=facts.inside.trouble,
        drawn=models_drawn(known, show, figure, way),
        taught=learned is not None,
        same=way == SAME,
        columns=tuple(heading(one, show) for one in columns),
        shafts=()
        if learned is None
        else effect_rows(shafts_told(learned, rack), show, columns, same=way == SAME),
        heads=() if learned is None else effect_rows(heads_told(learned, rack), show, COLUMNS[:3]),
        offset_columns=tuple(heading(one, show) for one in OFFSETS),
        offsets=() if learned is None else offset_rows(learned, show),
        offset_words=() if learned is None else _offset_words(learned, show),
        warnings=() if learned is None else _warnings(facts, learned, show),
        against=tuple(
            (member(rack, one.level, one.member), contradicted(one, rack, show))
            for one in facts.against
        ),
        versions=facts.versions,
    )


def day_words(day: date) -> str:
    """Return a day that is never broken over two lines."""
    return f"{day:%-d %B %Y}".replace(" ", "\N{NO-BREAK SPACE}")


def _sentence(facts: ShopFacts) -> str:
    learned = facts.newest.learned
    if facts.newest.why_not:
        return "What the shop has learned cannot be read, so physics leads."
    if learned is None:
        return nothing_learned(facts.inside.fittings, round(PHYSICS_FITTINGS))
    return shop_sentence(
        fittings=learned.fittings,
        golfers=learned.golfers,
        balls=learned.balls,
        physics=learned.physics_share,
    )


def _lead(facts: ShopFacts) -> str:
    learned = facts.newest.learned
    if learned is None:
        return "Only fittings of golfers who agreed to it teach the shop; no name is in it."
    more = facts.inside.fittings - learned.fittings
    since = f"Version {learned.version}, learned on {day_words(learned.made)}."
    if more > 0:
        there = count(more, "more fitting is", "more fittings are")
        return f"{since} {there} in the record: newer, or without all that learning needs."
    if more < 0:
        return f"{since} {count(-more, 'fitting')} went since: learn again to forget them."
    return since


def _inside(inside: Inside) -> tuple[tuple[str, str], ...]:
    told = [
        (
            f"{inside.fittings}",
            f"in the record: {count(inside.golfers, 'golfer')}, {count(inside.balls, 'ball')}",
        ),
        (f"{inside.no_consent}", "left out: the golfer did not agree to it, or was erased"),
        (f"{inside.invented}", "left out: invented"),
        (f"{inside.not_closed}", "not in it yet: not closed"),
        (f"{inside.others}", "not in it yet, or without balls that can be compared"),
    ]
    return tuple(one for one in told if one[0] != "0" or one is told[0])


def _offset_words(learned: ShopLearned, show: Show) -> tuple[str, ...]:
    return tuple(
        offset_words(one.kind, one.name, figure, believed, show)
        for one in learned.offsets
        for figure, believed in offset_figures(one).items()
        if believed.sure
    )


def _warnings(facts: ShopFacts, learned: ShopLearned, show: Show) -> tuple[Warned, ...]:
    return tuple(
        Warned(
            words=leverage_words(
                one.kind,
                one.name,
                member(facts.rack, one.level, one.member),
                one.response,
                one.share,
                show,
            ),
            fitting=facts.fittings.get(one.name, "") if one.kind == "golfer" else "",
        )
        for one in learned.leverage
    )
