"""The tables of the store."""

from typing import Final

from sqlalchemy import (
    Boolean,
    CheckConstraint,
    Column,
    Date,
    Float,
    ForeignKey,
    ForeignKeyConstraint,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
)

from loftwright.domain.numbers import FIELDS

HEAD: Final = "0006"
"""The newest revision of the schema."""

metadata: Final = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
    }
)

golfers: Final = Table(
    "golfers",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("id", Text, nullable=False, unique=True),
    Column("hand", Text, nullable=False),
    Column("goal", Text, nullable=False),
    Column("looks", Text, nullable=False),
    Column("wish", Text, nullable=False, server_default="distance"),
    Column("change", Text),
    Column("release", Text),
    Column("ability", Text),
    Column("head_speed", Float),
    Column("minor", Boolean, nullable=False),
    Column("home", Text, nullable=False),
    Column("own", Text),
    Column("keep", Boolean, nullable=False),
    Column("contact", Boolean, nullable=False),
    Column("publish", Boolean, nullable=False),
    Column("shop_record", Boolean, nullable=False),
    Column("given_on", Date),
    Column("version", Integer, nullable=False),
    CheckConstraint("hand in ('right', 'left')", name="hand"),
)

identities: Final = Table(
    "identities",
    metadata,
    Column("golfer", Text, ForeignKey("golfers.id"), primary_key=True),
    Column("sealed", LargeBinary, nullable=False),
)

limits: Final = Table(
    "limits",
    metadata,
    Column("golfer", Text, ForeignKey("golfers.id"), primary_key=True),
    Column("day", Date, primary_key=True),
    Column("sealed", LargeBinary, nullable=False),
)

items: Final = Table(
    "items",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("id", Text, nullable=False, unique=True),
    Column("kind", Text, nullable=False),
    Column("version", Integer, nullable=False),
    CheckConstraint("kind in ('head', 'shaft', 'piece', 'sleeve', 'assembly')", name="kind"),
)

head_models: Final = Table(
    "head_models",
    metadata,
    Column("id", Text, ForeignKey("items.id"), primary_key=True),
    Column("maker", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("hand", Text, nullable=False),
    Column("loft", Float, nullable=False),
    Column("lie", Float, nullable=False),
    Column("face", Float, nullable=False),
    Column("system", Text, nullable=False),
    Column("generation", Text, nullable=False),
    Column("replaces", Text),
    Column("family", Text, nullable=False, server_default=""),
    Column("stock", Integer),
    Column("price", Integer),
)

shaft_models: Final = Table(
    "shaft_models",
    metadata,
    Column("id", Text, ForeignKey("items.id"), primary_key=True),
    Column("maker", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("paper_mass", Float),
    Column("paper_label", Text, nullable=False),
    Column("generation", Text, nullable=False),
    Column("replaces", Text),
    Column("family", Text, nullable=False, server_default=""),
    Column("stock", Integer),
    Column("price", Integer),
)

sleeves: Final = Table(
    "sleeves",
    metadata,
    Column("id", Text, ForeignKey("items.id"), primary_key=True),
    Column("name", Text, nullable=False),
    Column("system", Text, nullable=False),
)

sleeve_settings: Final = Table(
    "sleeve_settings",
    metadata,
    Column("sleeve", Text, ForeignKey("sleeves.id"), primary_key=True),
    Column("place", Integer, primary_key=True),
    Column("name", Text, nullable=False),
    Column("bore", Float, nullable=False),
    Column("azimuth", Float, nullable=False),
)

pieces: Final = Table(
    "pieces",
    metadata,
    Column("id", Text, ForeignKey("items.id"), primary_key=True),
    Column("model", Text, ForeignKey("items.id"), nullable=False),
    Column("label", Text, nullable=False),
    Column("mass", Float),
    Column("place", Text, nullable=False),
    Column("sleeve", Text, ForeignKey("sleeves.id")),
    Column("state", Text, nullable=False),
    Column("reason", Text, nullable=False),
    Column("locked_until", Text),
    Column("check_after", Integer),
    CheckConstraint("state in ('ready', 'locked', 'retired')", name="state"),
)

assemblies: Final = Table(
    "assemblies",
    metadata,
    Column("id", Text, ForeignKey("items.id"), primary_key=True),
    Column("head", Text, ForeignKey("pieces.id"), nullable=False),
    Column("shaft", Text, ForeignKey("pieces.id"), nullable=False),
    Column("length", Float, nullable=False),
    Column("setting", Text, nullable=False),
    Column("grip", Text, nullable=False),
    Column("owner", Text),
    Column("price", Integer),
)

inspections: Final = Table(
    "inspections",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("piece", Text, ForeignKey("pieces.id"), nullable=False),
    Column("at", Text, nullable=False),
    Column("balls", Integer, nullable=False),
    Column("finding", Text, nullable=False),
    Column("words", Text, nullable=False),
    Column("by", Text, nullable=False),
    CheckConstraint("finding in ('sound', 'worn', 'cracked')", name="finding"),
)
"""Looks at a piece, written once."""

profiles: Final = Table(
    "profiles",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("id", Text, nullable=False, unique=True),
    Column("piece", Text, ForeignKey("pieces.id"), nullable=False),
    Column("day", Date, nullable=False),
    Column("told", Text, nullable=False),
    Column("set_aside", Text, nullable=False),
)
"""Measured profiles of shafts; what was measured is JSON in SI."""

bench_sheets: Final = Table(
    "bench_sheets",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("piece", Text, ForeignKey("pieces.id"), nullable=False),
    Column("told", Text, nullable=False),
    Column("version", Integer, nullable=False),
    Column("kept", Text),
)
"""Readings of shafts as they were typed, in JSON; one sheet of a piece is open at most."""

bench_days: Final = Table(
    "bench_days",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("piece", Text, ForeignKey("pieces.id"), nullable=False),
    Column("at", Text, nullable=False),
    Column("told", Text, nullable=False),
)
"""What a bench read of its master shaft, written once; the readings are JSON."""

fittings: Final = Table(
    "fittings",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("id", Text, nullable=False, unique=True),
    Column("golfer", Text, ForeignKey("golfers.id"), nullable=False),
    Column("opened", Date, nullable=False),
    Column("bay", Text, nullable=False),
    Column("fitter", Text, nullable=False),
    Column("partner", Text, ForeignKey("fittings.id")),
    Column("invented", Boolean, nullable=False),
    Column("version", Integer, nullable=False),
)

appends: Final = Table(
    "appends",
    metadata,
    Column("fitting", Text, ForeignKey("fittings.id"), primary_key=True),
    Column("first", Integer, primary_key=True),
    Column("at", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("key", Text),
    UniqueConstraint("fitting", "key"),
)
"""What was written together, under one idempotency key."""

acts: Final = Table(
    "acts",
    metadata,
    Column("fitting", Text, primary_key=True),
    Column("sequence", Integer, primary_key=True),
    Column("first", Integer, nullable=False),
    Column("kind", Text, nullable=False),
    Column("told", Text, nullable=False),
    ForeignKeyConstraint(["fitting", "first"], ["appends.fitting", "appends.first"]),
)
"""Acts and corrections; what each tells is JSON in SI."""

shots: Final = Table(
    "shots",
    metadata,
    Column("fitting", Text, primary_key=True),
    Column("sequence", Integer, primary_key=True),
    Column("first", Integer, nullable=False),
    Column("club", Text, nullable=False),
    Column("time", Text, nullable=False),
    Column("device", Text, nullable=False),
    Column("source", Text, nullable=False),
    Column("after", Integer),
    Column("sealed_line", LargeBinary),
    *(Column(name, Float) for name in FIELDS),
    ForeignKeyConstraint(["fitting", "first"], ["appends.fitting", "appends.first"]),
)
"""Balls as they came, written once; numbers in SI, the device's own line sealed."""

predictions: Final = Table(
    "predictions",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("fitting", Text, ForeignKey("fittings.id", ondelete="CASCADE"), nullable=False),
    Column("after", Integer, nullable=False),
    Column("set_up", Text, nullable=False),
    Column("bay", Text, nullable=False),
    Column("device", Text, nullable=False),
    Column("at", Text, nullable=False),
    Column("rests", Text, nullable=False),
    Column("home", Text, nullable=False),
    Column("forecasts", Text, nullable=False),
    Column("program", Text, nullable=False),
    UniqueConstraint("fitting", "after", "set_up"),
)
"""What was predicted of a ball before it came; what was foretold is JSON in SI."""

settings: Final = Table(
    "settings",
    metadata,
    Column("name", Text, primary_key=True),
    Column("text", Text, nullable=False),
    Column("version", Integer, nullable=False),
)

bays: Final = Table(
    "bays",
    metadata,
    Column("name", Text, primary_key=True),
    Column("hitting", Text, ForeignKey("fittings.id"), nullable=False),
    Column("version", Integer, nullable=False),
)

paired_devices: Final = Table(
    "paired_devices",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("id", Text, nullable=False, unique=True),
    Column("name", Text, nullable=False),
    Column("role", Text, nullable=False),
    Column("key_hash", Text, nullable=False, unique=True),
    Column("paired_at", Text, nullable=False),
    Column("withdrawn_at", Text),
)

job_acts: Final = Table(
    "job_acts",
    metadata,
    Column("fitting", Text, ForeignKey("fittings.id"), primary_key=True),
    Column("sequence", Integer, primary_key=True),
    Column("first", Integer, nullable=False),
    Column("at", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("key", Text),
    Column("kind", Text, nullable=False),
    Column("sealed", LargeBinary, nullable=False),
)
"""What became of a choice, from quote to follow-up; JSON in SI, under the golfer's key."""

measured_cards: Final = Table(
    "measured_cards",
    metadata,
    Column("came", Integer, primary_key=True),
    Column("item", Text, ForeignKey("items.id"), nullable=False),
    Column("day", Date, nullable=False),
    Column("by", Text, nullable=False),
    Column("told", Text, nullable=False),
)
"""What was measured of parts and clubs of the rack, written once; JSON in SI."""

bags: Final = Table(
    "bags",
    metadata,
    Column("golfer", Text, ForeignKey("golfers.id"), primary_key=True),
    Column("sealed", LargeBinary, nullable=False),
    Column("version", Integer, nullable=False),
)
"""The clubs of a golfer's bag, under the golfer's key."""
