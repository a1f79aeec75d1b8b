"""The tables of what the house's own things do."""

from typing import Final

from sqlalchemy import Column, ForeignKey, Table

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
