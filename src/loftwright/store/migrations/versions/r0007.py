"""Where parts went, checks of bays, and second records of one golfer."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the moves, and what marks a check and a second record."""
    op.create_table(
        "place_moves",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("piece", sa.Text(), nullable=False),
        sa.Column("was", sa.Text(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("golfer", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["piece"], ["pieces.id"], name=op.f("fk_place_moves_piece")),
        sa.ForeignKeyConstraint(["golfer"], ["golfers.id"], name=op.f("fk_place_moves_golfer")),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_place_moves")),
    )
    op.add_column(
        "fittings",
        sa.Column("bay_check", sa.Boolean(), nullable=False, server_default=sa.false()),
    )
    op.add_column("golfers", sa.Column("merged_into", sa.Text(), nullable=True))
