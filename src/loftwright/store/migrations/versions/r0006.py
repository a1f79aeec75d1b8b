"""Records of jobs, measured cards of the rack and golfers' bags."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the records, the cards and the bags."""
    op.create_table(
        "job_acts",
        sa.Column("fitting", sa.Text(), nullable=False),
        sa.Column("sequence", sa.Integer(), nullable=False),
        sa.Column("first", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("key", sa.Text(), nullable=True),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("sealed", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["fitting"], ["fittings.id"], name=op.f("fk_job_acts_fitting")),
        sa.PrimaryKeyConstraint("fitting", "sequence", name=op.f("pk_job_acts")),
    )
    op.create_table(
        "measured_cards",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("told", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["item"], ["items.id"], name=op.f("fk_measured_cards_item")),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_measured_cards")),
    )
    op.create_table(
        "bags",
        sa.Column("golfer", sa.Text(), nullable=False),
        sa.Column("sealed", sa.LargeBinary(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["golfer"], ["golfers.id"], name=op.f("fk_bags_golfer")),
        sa.PrimaryKeyConstraint("golfer", name=op.f("pk_bags")),
    )
