"""Bench sheets as they were typed, and the days of a bench's master shaft."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the sheets and the days."""
    op.create_table(
        "bench_sheets",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("piece", sa.Text(), nullable=False),
        sa.Column("told", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("kept", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["piece"], ["pieces.id"], name=op.f("fk_bench_sheets_piece")),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_bench_sheets")),
    )
    op.create_table(
        "bench_days",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("piece", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("told", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["piece"], ["pieces.id"], name=op.f("fk_bench_days_piece")),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_bench_days")),
    )
