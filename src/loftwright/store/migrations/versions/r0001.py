"""The first schema."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make every table."""
    _make_golfers()
    _make_items()
    _make_paired_devices()
    _make_settings()
    _make_fittings()
    _make_head_models()
    _make_identities()
    _make_limits()
    _make_shaft_models()
    _make_sleeves()
    _make_appends()
    _make_bays()
    _make_pieces()
    _make_sleeve_settings()
    _make_acts()
    _make_assemblies()
    _make_shots()


def _make_golfers() -> None:
    op.create_table(
        "golfers",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("hand", sa.Text(), nullable=False),
        sa.Column("goal", sa.Text(), nullable=False),
        sa.Column("looks", sa.Text(), nullable=False),
        sa.Column("ability", sa.Text(), nullable=True),
        sa.Column("head_speed", sa.Float(), nullable=True),
        sa.Column("minor", sa.Boolean(), nullable=False),
        sa.Column("home", sa.Text(), nullable=False),
        sa.Column("own", sa.Text(), nullable=True),
        sa.Column("keep", sa.Boolean(), nullable=False),
        sa.Column("contact", sa.Boolean(), nullable=False),
        sa.Column("publish", sa.Boolean(), nullable=False),
        sa.Column("shop_record", sa.Boolean(), nullable=False),
        sa.Column("given_on", sa.Date(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.CheckConstraint("hand in ('right', 'left')", name=op.f("ck_golfers_hand")),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_golfers")),
        sa.UniqueConstraint("id", name=op.f("uq_golfers_id")),
    )


def _make_items() -> None:
    op.create_table(
        "items",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.CheckConstraint(
            "kind in ('head', 'shaft', 'piece', 'sleeve', 'assembly')", name=op.f("ck_items_kind")
        ),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_items")),
        sa.UniqueConstraint("id", name=op.f("uq_items_id")),
    )


def _make_paired_devices() -> None:
    op.create_table(
        "paired_devices",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("key_hash", sa.Text(), nullable=False),
        sa.Column("paired_at", sa.Text(), nullable=False),
        sa.Column("withdrawn_at", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_paired_devices")),
        sa.UniqueConstraint("id", name=op.f("uq_paired_devices_id")),
        sa.UniqueConstraint("key_hash", name=op.f("uq_paired_devices_key_hash")),
    )


def _make_settings() -> None:
    op.create_table(
        "settings",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_settings")),
    )


def _make_fittings() -> None:
    op.create_table(
        "fittings",
        sa.Column("came", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("golfer", sa.Text(), nullable=False),
        sa.Column("opened", sa.Date(), nullable=False),
        sa.Column("bay", sa.Text(), nullable=False),
        sa.Column("fitter", sa.Text(), nullable=False),
        sa.Column("partner", sa.Text(), nullable=True),
        sa.Column("invented", sa.Boolean(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["golfer"], ["golfers.id"], name=op.f("fk_fittings_golfer")),
        sa.ForeignKeyConstraint(["partner"], ["fittings.id"], name=op.f("fk_fittings_partner")),
        sa.PrimaryKeyConstraint("came", name=op.f("pk_fittings")),
        sa.UniqueConstraint("id", name=op.f("uq_fittings_id")),
    )


def _make_head_models() -> None:
    op.create_table(
        "head_models",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("maker", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("hand", sa.Text(), nullable=False),
        sa.Column("loft", sa.Float(), nullable=False),
        sa.Column("lie", sa.Float(), nullable=False),
        sa.Column("face", sa.Float(), nullable=False),
        sa.Column("system", sa.Text(), nullable=False),
        sa.Column("generation", sa.Text(), nullable=False),
        sa.Column("replaces", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["id"], ["items.id"], name=op.f("fk_head_models_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_head_models")),
    )


def _make_identities() -> None:
    op.create_table(
        "identities",
        sa.Column("golfer", sa.Text(), nullable=False),
        sa.Column("sealed", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["golfer"], ["golfers.id"], name=op.f("fk_identities_golfer")),
        sa.PrimaryKeyConstraint("golfer", name=op.f("pk_identities")),
    )


def _make_limits() -> None:
    op.create_table(
        "limits",
        sa.Column("golfer", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("sealed", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["golfer"], ["golfers.id"], name=op.f("fk_limits_golfer")),
        sa.PrimaryKeyConstraint("golfer", "day", name=op.f("pk_limits")),
    )


def _make_shaft_models() -> None:
    op.create_table(
        "shaft_models",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("maker", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("paper_mass", sa.Float(), nullable=True),
        sa.Column("paper_label", sa.Text(), nullable=False),
        sa.Column("generation", sa.Text(), nullable=False),
        sa.Column("replaces", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["id"], ["items.id"], name=op.f("fk_shaft_models_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_shaft_models")),
    )


def _make_sleeves() -> None:
    op.create_table(
        "sleeves",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("system", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["id"], ["items.id"], name=op.f("fk_sleeves_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sleeves")),
    )


def _make_appends() -> None:
    op.create_table(
        "appends",
        sa.Column("fitting", sa.Text(), nullable=False),
        sa.Column("first", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("key", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["fitting"], ["fittings.id"], name=op.f("fk_appends_fitting")),
        sa.PrimaryKeyConstraint("fitting", "first", name=op.f("pk_appends")),
        sa.UniqueConstraint("fitting", "key", name=op.f("uq_appends_fitting_key")),
    )


def _make_bays() -> None:
    op.create_table(
        "bays",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("hitting", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["hitting"], ["fittings.id"], name=op.f("fk_bays_hitting")),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_bays")),
    )


def _make_pieces() -> None:
    op.create_table(
        "pieces",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("model", sa.Text(), nullable=False),
        sa.Column("label", sa.Text(), nullable=False),
        sa.Column("mass", sa.Float(), nullable=True),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("sleeve", sa.Text(), nullable=True),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("locked_until", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "state in ('ready', 'locked', 'retired')", name=op.f("ck_pieces_state")
        ),
        sa.ForeignKeyConstraint(["id"], ["items.id"], name=op.f("fk_pieces_id")),
        sa.ForeignKeyConstraint(["model"], ["items.id"], name=op.f("fk_pieces_model")),
        sa.ForeignKeyConstraint(["sleeve"], ["sleeves.id"], name=op.f("fk_pieces_sleeve")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pieces")),
    )


def _make_sleeve_settings() -> None:
    op.create_table(
        "sleeve_settings",
        sa.Column("sleeve", sa.Text(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("bore", sa.Float(), nullable=False),
        sa.Column("azimuth", sa.Float(), nullable=False),
        sa.ForeignKeyConstraint(
            ["sleeve"], ["sleeves.id"], name=op.f("fk_sleeve_settings_sleeve")
        ),
        sa.PrimaryKeyConstraint("sleeve", "place", name=op.f("pk_sleeve_settings")),
    )


def _make_acts() -> None:
    op.create_table(
        "acts",
        sa.Column("fitting", sa.Text(), nullable=False),
        sa.Column("sequence", sa.Integer(), nullable=False),
        sa.Column("first", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("told", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["fitting", "first"],
            ["appends.fitting", "appends.first"],
            name=op.f("fk_acts_fitting"),
        ),
        sa.PrimaryKeyConstraint("fitting", "sequence", name=op.f("pk_acts")),
    )


def _make_assemblies() -> None:
    op.create_table(
        "assemblies",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("head", sa.Text(), nullable=False),
        sa.Column("shaft", sa.Text(), nullable=False),
        sa.Column("length", sa.Float(), nullable=False),
        sa.Column("setting", sa.Text(), nullable=False),
        sa.Column("grip", sa.Text(), nullable=False),
        sa.Column("owner", sa.Text(), nullable=True),
        sa.Column("price", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["head"], ["pieces.id"], name=op.f("fk_assemblies_head")),
        sa.ForeignKeyConstraint(["id"], ["items.id"], name=op.f("fk_assemblies_id")),
        sa.ForeignKeyConstraint(["shaft"], ["pieces.id"], name=op.f("fk_assemblies_shaft")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_assemblies")),
    )


def _make_shots() -> None:
    op.create_table(
        "shots",
        sa.Column("fitting", sa.Text(), nullable=False),
        sa.Column("sequence", sa.Integer(), nullable=False),
        sa.Column("first", sa.Integer(), nullable=False),
        sa.Column("club", sa.Text(), nullable=False),
        sa.Column("time", sa.Text(), nullable=False),
        sa.Column("device", sa.Text(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column("after", sa.Integer(), nullable=True),
        sa.Column("sealed_line", sa.LargeBinary(), nullable=True),
        sa.Column("ball_speed", sa.Float(), nullable=True),
        sa.Column("launch", sa.Float(), nullable=True),
        sa.Column("direction", sa.Float(), nullable=True),
        sa.Column("spin", sa.Float(), nullable=True),
        sa.Column("axis", sa.Float(), nullable=True),
        sa.Column("head_speed", sa.Float(), nullable=True),
        sa.Column("attack", sa.Float(), nullable=True),
        sa.Column("path", sa.Float(), nullable=True),
        sa.Column("face", sa.Float(), nullable=True),
        sa.Column("dynamic_loft", sa.Float(), nullable=True),
        sa.Column("strike_toe", sa.Float(), nullable=True),
        sa.Column("strike_high", sa.Float(), nullable=True),
        sa.Column("carry", sa.Float(), nullable=True),
        sa.Column("total", sa.Float(), nullable=True),
        sa.Column("offline", sa.Float(), nullable=True),
        sa.Column("peak_height", sa.Float(), nullable=True),
        sa.Column("landing_angle", sa.Float(), nullable=True),
        sa.Column("flight_time", sa.Float(), nullable=True),
        sa.ForeignKeyConstraint(
            ["fitting", "first"],
            ["appends.fitting", "appends.first"],
            name=op.f("fk_shots_fitting"),
        ),
        sa.PrimaryKeyConstraint("fitting", "sequence", name=op.f("pk_shots")),
    )
