"""Who opened a golfer's record, and the lock of a device."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the openings, and what a device is locked by."""
    op.create_table(
        "openings",
        sa.Column("came", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), nullable=False),
        sa.Column("golfer", sa.Text(), nullable=False),
        sa.Column("fitting", sa.Text(), nullable=True),
        sa.Column("device", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("page", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["golfer"], ["golfers.id"], name=op.f("fk_openings_golfer")),
        sa.ForeignKeyConstraint(["fitting"], ["fittings.id"], name=op.f("fk_openings_fitting")),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_openings")),
    )
    op.create_index("ix_openings_golfer_at", "openings", ["golfer", "at"])
    op.add_column("paired_devices", sa.Column("pin", sa.Text(), nullable=True))
