"""The tables of what the house's own things do."""

from typing import Final

from sqlalchemy import Column, ForeignKey, Index, Table

from loftwright.store.naming import WHOLE, metadata
from loftwright.store.words import Words

place_moves: Final = Table(
    "place_moves",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("piece", Words, ForeignKey("pieces.id"), nullable=False),
    Column("was", Words, nullable=False),
    Column("place", Words, nullable=False),
    Column("at", Words, nullable=False),
    Column("by", Words, nullable=False),
    Column("golfer", Words, ForeignKey("golfers.id")),
)
"""Where a part went last, the newest moves of each; the older ones are forgotten."""

openings: Final = Table(
    "openings",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("golfer", Words, ForeignKey("golfers.id"), nullable=False),
    Column("fitting", Words, ForeignKey("fittings.id")),
    Column("device", Words, nullable=False),
    Column("by", Words, nullable=False),
    Column("page", Words, nullable=False),
    Column("at", Words, nullable=False),
    Index("ix_openings_golfer_at", "golfer", "at"),
)
"""Who opened a golfer's record, written once; forgotten with the golfer, or when it is old."""
