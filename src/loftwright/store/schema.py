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
    Table,
    UniqueConstraint,
    false,
)

from loftwright.domain.numbers import FIELDS
from loftwright.store import house_schema
from loftwright.store.naming import WHOLE, metadata
from loftwright.store.words import Words

HEAD: Final = "0008"
"""The newest revision of the schema."""

golfers: Final = Table(
    "golfers",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("id", Words, nullable=False, unique=True),
    Column("hand", Words, nullable=False),
    Column("goal", Words, nullable=False),
    Column("looks", Words, nullable=False),
    Column("wish", Words, nullable=False, server_default="distance"),
    Column("change", Words),
    Column("release", Words),
    Column("ability", Words),
    Column("head_speed", Float),
    Column("minor", Boolean, nullable=False),
    Column("home", Words, nullable=False),
    Column("own", Words),
    Column("keep", Boolean, nullable=False),
    Column("contact", Boolean, nullable=False),
    Column("publish", Boolean, nullable=False),
    Column("shop_record", Boolean, nullable=False),
    Column("given_on", Date),
    Column("version", WHOLE, nullable=False),
    Column("merged_into", Words),
    CheckConstraint("hand in ('right', 'left')", name="hand"),
)

identities: Final = Table(
    "identities",
    metadata,
    Column("golfer", Words, ForeignKey("golfers.id"), primary_key=True),
    Column("sealed", LargeBinary, nullable=False),
)

limits: Final = Table(
    "limits",
    metadata,
    Column("golfer", Words, ForeignKey("golfers.id"), primary_key=True),
    Column("day", Date, primary_key=True),
    Column("sealed", LargeBinary, nullable=False),
)

items: Final = Table(
    "items",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("id", Words, nullable=False, unique=True),
    Column("kind", Words, nullable=False),
    Column("version", WHOLE, nullable=False),
    CheckConstraint("kind in ('head', 'shaft', 'piece', 'sleeve', 'assembly')", name="kind"),
)

head_models: Final = Table(
    "head_models",
    metadata,
    Column("id", Words, ForeignKey("items.id"), primary_key=True),
    Column("maker", Words, nullable=False),
    Column("name", Words, nullable=False),
    Column("hand", Words, nullable=False),
    Column("loft", Float, nullable=False),
    Column("lie", Float, nullable=False),
    Column("face", Float, nullable=False),
    Column("system", Words, nullable=False),
    Column("generation", Words, nullable=False),
    Column("replaces", Words),
    Column("family", Words, nullable=False, server_default=""),
    Column("stock", WHOLE),
    Column("price", WHOLE),
)

shaft_models: Final = Table(
    "shaft_models",
    metadata,
    Column("id", Words, ForeignKey("items.id"), primary_key=True),
    Column("maker", Words, nullable=False),
    Column("name", Words, nullable=False),
    Column("paper_mass", Float),
    Column("paper_label", Words, nullable=False),
    Column("generation", Words, nullable=False),
    Column("replaces", Words),
    Column("family", Words, nullable=False, server_default=""),
    Column("stock", WHOLE),
    Column("price", WHOLE),
)

sleeves: Final = Table(
    "sleeves",
    metadata,
    Column("id", Words, ForeignKey("items.id"), primary_key=True),
    Column("name", Words, nullable=False),
    Column("system", Words, nullable=False),
)

sleeve_settings: Final = Table(
    "sleeve_settings",
    metadata,
    Column("sleeve", Words, ForeignKey("sleeves.id"), primary_key=True),
    Column("place", Integer, primary_key=True),
    Column("name", Words, nullable=False),
    Column("bore", Float, nullable=False),
    Column("azimuth", Float, nullable=False),
)

pieces: Final = Table(
    "pieces",
    metadata,
    Column("id", Words, ForeignKey("items.id"), primary_key=True),
    Column("model", Words, ForeignKey("items.id"), nullable=False),
    Column("label", Words, nullable=False),
    Column("mass", Float),
    Column("place", Words, nullable=False),
    Column("sleeve", Words, ForeignKey("sleeves.id")),
    Column("state", Words, nullable=False),
    Column("reason", Words, nullable=False),
    Column("locked_until", Words),
    Column("check_after", WHOLE),
    CheckConstraint("state in ('ready', 'locked', 'retired')", name="state"),
)

assemblies: Final = Table(
    "assemblies",
    metadata,
    Column("id", Words, ForeignKey("items.id"), primary_key=True),
    Column("head", Words, ForeignKey("pieces.id"), nullable=False),
    Column("shaft", Words, ForeignKey("pieces.id"), nullable=False),
    Column("length", Float, nullable=False),
    Column("setting", Words, nullable=False),
    Column("grip", Words, nullable=False),
    Column("owner", Words),
    Column("price", WHOLE),
)

inspections: Final = Table(
    "inspections",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("piece", Words, ForeignKey("pieces.id"), nullable=False),
    Column("at", Words, nullable=False),
    Column("balls", WHOLE, nullable=False),
    Column("finding", Words, nullable=False),
    Column("words", Words, nullable=False),
    Column("by", Words, nullable=False),
    CheckConstraint("finding in ('sound', 'worn', 'cracked')", name="finding"),
)
"""Looks at a piece, written once."""

profiles: Final = Table(
    "profiles",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("id", Words, nullable=False, unique=True),
    Column("piece", Words, ForeignKey("pieces.id"), nullable=False),
    Column("day", Date, nullable=False),
    Column("told", Words, nullable=False),
    Column("set_aside", Words, nullable=False),
)
"""Measured profiles of shafts; what was measured is JSON in SI."""

bench_sheets: Final = Table(
    "bench_sheets",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("piece", Words, ForeignKey("pieces.id"), nullable=False),
    Column("told", Words, nullable=False),
    Column("version", WHOLE, nullable=False),
    Column("kept", Words),
)
"""Readings of shafts as they were typed, in JSON; one sheet of a piece is open at most."""

bench_days: Final = Table(
    "bench_days",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("piece", Words, ForeignKey("pieces.id"), nullable=False),
    Column("at", Words, nullable=False),
    Column("told", Words, nullable=False),
)
"""What a bench read of its master shaft, written once; the readings are JSON."""

fittings: Final = Table(
    "fittings",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("id", Words, nullable=False, unique=True),
    Column("golfer", Words, ForeignKey("golfers.id"), nullable=False),
    Column("opened", Date, nullable=False),
    Column("bay", Words, nullable=False),
    Column("fitter", Words, nullable=False),
    Column("partner", Words, ForeignKey("fittings.id")),
    Column("invented", Boolean, nullable=False),
    Column("version", WHOLE, nullable=False),
    Column("bay_check", Boolean, nullable=False, server_default=false()),
)

appends: Final = Table(
    "appends",
    metadata,
    Column("fitting", Words, ForeignKey("fittings.id"), primary_key=True),
    Column("first", WHOLE, primary_key=True),
    Column("at", Words, nullable=False),
    Column("by", Words, nullable=False),
    Column("key", Words),
    UniqueConstraint("fitting", "key"),
)
"""What was written together, under one idempotency key."""

acts: Final = Table(
    "acts",
    metadata,
    Column("fitting", Words, primary_key=True),
    Column("sequence", WHOLE, primary_key=True),
    Column("first", WHOLE, nullable=False),
    Column("kind", Words, nullable=False),
    Column("told", Words, nullable=False),
    ForeignKeyConstraint(["fitting", "first"], ["appends.fitting", "appends.first"]),
)
"""Acts and corrections; what each tells is JSON in SI."""

shots: Final = Table(
    "shots",
    metadata,
    Column("fitting", Words, primary_key=True),
    Column("sequence", WHOLE, primary_key=True),
    Column("first", WHOLE, nullable=False),
    Column("club", Words, nullable=False),
    Column("time", Words, nullable=False),
    Column("device", Words, nullable=False),
    Column("source", Words, nullable=False),
    Column("after", WHOLE),
    Column("sealed_line", LargeBinary),
    *(Column(name, Float) for name in FIELDS),
    ForeignKeyConstraint(["fitting", "first"], ["appends.fitting", "appends.first"]),
)
"""Balls as they came, written once; numbers in SI, the device's own line sealed."""

predictions: Final = Table(
    "predictions",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("fitting", Words, ForeignKey("fittings.id", ondelete="CASCADE"), nullable=False),
    Column("after", WHOLE, nullable=False),
    Column("set_up", Words, nullable=False),
    Column("bay", Words, nullable=False),
    Column("device", Words, nullable=False),
    Column("at", Words, nullable=False),
    Column("rests", Words, nullable=False),
    Column("home", Words, nullable=False),
    Column("forecasts", Words, nullable=False),
    Column("program", Words, nullable=False),
    UniqueConstraint("fitting", "after", "set_up"),
)
"""What was predicted of a ball before it came; what was foretold is JSON in SI."""

settings: Final = Table(
    "settings",
    metadata,
    Column("name", Words, primary_key=True),
    Column("text", Words, nullable=False),
    Column("version", WHOLE, nullable=False),
)

bays: Final = Table(
    "bays",
    metadata,
    Column("name", Words, primary_key=True),
    Column("hitting", Words, ForeignKey("fittings.id"), nullable=False),
    Column("version", WHOLE, nullable=False),
)

paired_devices: Final = Table(
    "paired_devices",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("id", Words, nullable=False, unique=True),
    Column("name", Words, nullable=False),
    Column("role", Words, nullable=False),
    Column("key_hash", Words, nullable=False, unique=True),
    Column("paired_at", Words, nullable=False),
    Column("withdrawn_at", Words),
    Column("pin", Words),
)

job_acts: Final = Table(
    "job_acts",
    metadata,
    Column("fitting", Words, ForeignKey("fittings.id"), primary_key=True),
    Column("sequence", WHOLE, primary_key=True),
    Column("first", WHOLE, nullable=False),
    Column("at", Words, nullable=False),
    Column("by", Words, nullable=False),
    Column("key", Words),
    Column("kind", Words, nullable=False),
    Column("sealed", LargeBinary, nullable=False),
)
"""What became of a choice, from quote to follow-up; JSON in SI, under the golfer's key."""

measured_cards: Final = Table(
    "measured_cards",
    metadata,
    Column("came", WHOLE, primary_key=True),
    Column("item", Words, ForeignKey("items.id"), nullable=False),
    Column("day", Date, nullable=False),
    Column("by", Words, nullable=False),
    Column("told", Words, nullable=False),
)
"""What was measured of parts and clubs of the rack, written once; JSON in SI."""

bags: Final = Table(
    "bags",
    metadata,
    Column("golfer", Words, ForeignKey("golfers.id"), primary_key=True),
    Column("sealed", LargeBinary, nullable=False),
    Column("version", WHOLE, nullable=False),
)
"""The clubs of a golfer's bag, under the golfer's key."""

place_moves: Final = house_schema.place_moves
