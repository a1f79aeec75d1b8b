"""What a golfer wishes of another club, and how the golfer loads a shaft."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the wish and the answers to both questions."""
    wish = sa.Column("wish", sa.Text(), nullable=False, server_default="distance")
    op.add_column("golfers", wish)
    for name in ("change", "release"):
        op.add_column("golfers", sa.Column(name, sa.Text(), nullable=True))
