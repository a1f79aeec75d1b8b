"""Families, stock and prices of models; inspections and measured profiles of pieces."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add what is known of models and pieces."""
    for table in ("head_models", "shaft_models"):
        op.add_column(table, sa.Column("family", sa.Text(), nullable=False, server_default=""))
        op.add_column(table, sa.Column("stock", sa.Integer(), nullable=True))
        op.add_column(table, sa.Column("price", sa.Integer(), nullable=True))
    op.add_column("pieces", sa.Column("check_after", sa.Integer(), nullable=True))
    _make_inspections()
    _make_profiles()


def _make_inspections() -> None:
    op.create_table(
        "inspections",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("piece", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("balls", sa.Integer(), nullable=False),
        sa.Column("finding", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "finding in ('sound', 'worn', 'cracked')", name=op.f("ck_inspections_finding")
        ),
        sa.ForeignKeyConstraint(["piece"], ["pieces.id"], name=op.f("fk_inspections_piece")),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_inspections")),
    )


def _make_profiles() -> None:
    op.create_table(
        "profiles",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("piece", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("told", sa.Text(), nullable=False),
        sa.Column("set_aside", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["piece"], ["pieces.id"], name=op.f("fk_profiles_piece")),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_profiles")),
        sa.UniqueConstraint("id", name=op.f("uq_profiles_id")),
    )
