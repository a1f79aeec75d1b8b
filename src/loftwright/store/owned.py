"""What the rack holds of a golfer's own clubs, and how it goes with the golfer."""

from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, Table, delete, func, or_, select, update

from loftwright.domain.acts import ClubJoined
from loftwright.store.codec import kind_of
from loftwright.store.schema import (
    acts,
    assemblies,
    bench_days,
    bench_sheets,
    golfers,
    head_models,
    inspections,
    items,
    measured_cards,
    pieces,
    place_moves,
    profiles,
    shaft_models,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Owned:
    """Ids of what goes.

    Attributes
    ----------
    clubs, pieces, models : frozenset of str
    """

    clubs: frozenset[str]
    pieces: frozenset[str]
    models: frozenset[str]

    @property
    def every(self) -> tuple[str, ...]:
        """All of them, each after what names it."""
        return (*sorted(self.clubs), *sorted(self.pieces), *sorted(self.models))


def owned_items(connection: Connection, gone: Collection[str], fittings: Collection[str]) -> Owned:
    """Return what the rack holds of these golfers' clubs and of nobody else's.

    Parameters
    ----------
    connection : Connection
    gone : collection of str
        Records of golfers.
    fittings : collection of str
        Their fittings.

    Notes
    -----
    Parts that another golfer hit, or that are in a club of the shop, are not among them: those
    results stand on them. Of models only those of the club that the golfer brought go, for they
    bear the golfer's words; a club that was built is of the shop's models.
    """
    clubs = connection.execute(select(assemblies).where(assemblies.c.owner.in_(gone))).all()
    brought = {
        one
        for one in connection.scalars(select(golfers.c.own).where(golfers.c.id.in_(gone)))
        if one
    }
    mine = {club.id for club in clubs}
    parts = {part for club in clubs for part in (club.head, club.shaft)}
    kept = _hit_by_others(connection, parts, fittings) | _in_other_clubs(connection, parts, mine)
    left = parts - kept
    own = {part for club in clubs if club.id in brought for part in (club.head, club.shaft)}
    return Owned(
        clubs=frozenset(club.id for club in clubs if not {club.head, club.shaft} & kept),
        pieces=frozenset(left),
        models=frozenset(_models(connection, own & left, left)),
    )


def forget_owned(connection: Connection, gone: Collection[str], owned: Owned) -> None:
    """Remove what goes and make nobody's what stays."""
    connection.execute(update(assemblies).where(assemblies.c.owner.in_(gone)).values(owner=None))
    connection.execute(
        update(place_moves).where(place_moves.c.golfer.in_(gone)).values(golfer=None)
    )
    _drop(connection, measured_cards, "item", owned.every)
    for table in (inspections, profiles, bench_sheets, bench_days, place_moves):
        _drop(connection, table, "piece", owned.pieces)
    for table, there in (
        (assemblies, owned.clubs),
        (pieces, owned.pieces),
        (head_models, owned.models),
        (shaft_models, owned.models),
        (items, owned.every),
    ):
        _drop(connection, table, "id", there)


def _hit_by_others(
    connection: Connection, parts: Collection[str], fittings: Collection[str]
) -> set[str]:
    found = set()
    for part in parts:
        query = select(func.count()).where(
            acts.c.kind == kind_of(ClubJoined),
            acts.c.fitting.not_in(fittings),
            acts.c.told.contains(part, autoescape=True),
        )
        if connection.scalar(query):
            found.add(part)
    return found


def _in_other_clubs(
    connection: Connection, parts: Collection[str], mine: Collection[str]
) -> set[str]:
    rows = connection.execute(
        select(assemblies.c.head, assemblies.c.shaft).where(
            or_(assemblies.c.head.in_(parts), assemblies.c.shaft.in_(parts)),
            assemblies.c.id.not_in(mine),
        )
    ).all()
    return {one for row in rows for one in row} & set(parts)


def _models(connection: Connection, own: Collection[str], left: Collection[str]) -> set[str]:
    """Return the models of parts that were brought, where no other part and no line has them."""
    models = set(connection.scalars(select(pieces.c.model).where(pieces.c.id.in_(own))))
    others = connection.scalars(
        select(pieces.c.model).where(pieces.c.model.in_(models), pieces.c.id.not_in(left))
    )
    models -= set(others)
    for table in (head_models, shaft_models):
        models -= set(
            connection.scalars(select(table.c.replaces).where(table.c.replaces.in_(models)))
        )
    return models


def _drop(connection: Connection, table: Table, column: str, named: Collection[str]) -> None:
    connection.execute(delete(table).where(table.c[column].in_(named)))
