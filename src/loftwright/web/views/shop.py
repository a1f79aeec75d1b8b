"""The shop record as a page: what taught the shop, what it knows, and what to beware of."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from loftwright.domain.rack import Rack
from loftwright.report.numbers import count
from loftwright.report.screen_numbers import Show
from loftwright.report.shop_picture import ModelRow, models_picture
from loftwright.report.shop_words import (
    NAMES,
    Believed,
    Known,
    figure_words,
    leverage_words,
    nothing_learned,
    offset_words,
    scale_of,
    shop_sentence,
)
from loftwright.report.theme_svg import for_screen
from loftwright.services.shop_inside import Inside
from loftwright.services.shop_names import member
from loftwright.services.shop_newest import Learned
from loftwright.services.shop_told import (
    heads_told,
    models_known,
    offset_figures,
    shafts_told,
)
from loftwright.shop.learned import ShopLearned
from loftwright.shop.population import PHYSICS_FITTINGS
from loftwright.web.views.evidence_pictures import Picture
from loftwright.web.views.shop_rows import (
    COLUMNS,
    OFFSETS,
    Row,
    effect_rows,
    heading,
    offset_rows,
)

DRAWN: Final = ("launch", "spin", "ball_speed", "axis", "direction", "head_speed")
"""What the picture can be of; the first without being asked."""
_MOST_DRAWN: Final = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Warned:
    """A warning in words, and the golfer whose balls it is about."""

    words: str
    golfer: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionRow:
    """A version that was learned."""

    version: int
    day: str
    fittings: int
    balls: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """The picture and what else it could be of.

    Attributes
    ----------
    choices : tuple of (str, str, bool)
        Key, words, whether it is drawn.
    left_out : str
        Models that found no room.
    """

    picture: Picture
    figure: str
    choices: tuple[tuple[str, str, bool], ...]
    left_out: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopView:
    """The page."""

    sentence: str
    lead: str
    why_not: str
    inside: tuple[tuple[str, str], ...]
    drawn: Drawn | None
    columns: tuple[str, ...]
    shafts: tuple[Row, ...]
    heads: tuple[Row, ...]
    offset_columns: tuple[str, ...]
    offsets: tuple[Row, ...]
    offset_words: tuple[str, ...]
    warnings: tuple[Warned, ...]
    versions: tuple[VersionRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopFacts:
    """What the page is drawn from.

    Attributes
    ----------
    newest : Learned
    golfers : mapping of str to str
        Golfers behind codes that warnings name.
    """

    rack: Rack
    inside: Inside
    newest: Learned
    versions: tuple[VersionRow, ...]
    golfers: Mapping[str, str]


def shop_view(facts: ShopFacts, show: Show, figure: str) -> ShopView:
    """Return the page of the shop record.

    Parameters
    ----------
    facts : ShopFacts
    show : Show
    figure : str
        What the picture is of.
    """
    learned, rack = facts.newest.learned, facts.rack
    return ShopView(
        sentence=_sentence(facts),
        lead=_lead(facts),
        why_not=facts.newest.why_not,
        inside=_inside(facts.inside),
        drawn=None if learned is None else _drawn(models_known(learned, rack), show, figure),
        columns=tuple(heading(one, show) for one in COLUMNS),
        shafts=() if learned is None else effect_rows(shafts_told(learned, rack), show),
        heads=() if learned is None else effect_rows(heads_told(learned, rack), show, COLUMNS[:3]),
        offset_columns=tuple(heading(one, show) for one in OFFSETS),
        offsets=() if learned is None else offset_rows(learned, show),
        offset_words=() if learned is None else _offset_words(learned, show),
        warnings=() if learned is None else _warnings(facts, learned, show),
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
        (f"{inside.no_consent}", "left out: the golfer did not agree to it"),
        (f"{inside.invented}", "left out: invented"),
        (f"{inside.others}", "not in it yet, or without balls that can be compared"),
    ]
    return tuple(one for one in told if one[0] != "0" or one is told[0])


def _drawn(known: Sequence[Known], show: Show, figure: str) -> Drawn | None:
    if not known:
        return None
    chosen = figure if figure in DRAWN else DRAWN[0]
    most = sorted(known, key=lambda one: -one.fittings)[:_MOST_DRAWN]
    told = [one for one in known if one in most]
    scale = scale_of(chosen, show)[0]
    rows = [_model_row(one, one.figures[chosen], scale) for one in told]
    words = " ".join(
        f"{one.name}: {figure_words(chosen, one.figures[chosen], show)}." for one in told
    )
    drawn = models_picture(
        rows,
        title=f"{NAMES[chosen].capitalize()} of models of shafts, with ranges",
        zero="the shop’s usual shaft",
        unit=scale_of(chosen, show)[1],
        show=show,
    )
    left = len(known) - len(told)
    return Drawn(
        picture=Picture(heading="", svg=for_screen(drawn), words=words),
        figure=heading(chosen, show),
        choices=tuple((one, NAMES[one].capitalize(), one == chosen) for one in DRAWN),
        left_out=f"{count(left, 'model')} hit less often: in the table alone." if left else "",
    )


def _model_row(known: Known, believed: Believed, scale: float) -> ModelRow:
    half, most = believed.half, believed.likely
    return ModelRow(
        name=known.name,
        mean=believed.mean / scale,
        half=(half[0] / scale, half[1] / scale),
        most=(most[0] / scale, most[1] / scale),
        sure=believed.sure,
        hit=known.likeness is None,
    )


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
            golfer=facts.golfers.get(one.name, "") if one.kind == "golfer" else "",
        )
        for one in learned.leverage
    )
