"""What was predicted of each ball before it was hit."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table of predictions."""
    op.create_table(
        "predictions",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("fitting", sa.Text(), nullable=False),
        sa.Column("after", sa.Integer(), nullable=False),
        sa.Column("set_up", sa.Text(), nullable=False),
        sa.Column("bay", sa.Text(), nullable=False),
        sa.Column("device", sa.Text(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("rests", sa.Text(), nullable=False),
        sa.Column("home", sa.Text(), nullable=False),
        sa.Column("forecasts", sa.Text(), nullable=False),
        sa.Column("program", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["fitting"],
            ["fittings.id"],
            name=op.f("fk_predictions_fitting"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_predictions")),
        sa.UniqueConstraint(
            "fitting", "after", "set_up", name=op.f("uq_predictions_fitting_after_set_up")
        ),
    )
