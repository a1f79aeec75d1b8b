"""How the store's tables are named, and the whole numbers in them."""

from typing import Final

from sqlalchemy import BigInteger, Integer, MetaData

WHOLE: Final = Integer().with_variant(BigInteger, "postgresql")
"""Whole numbers of up to 18 digits, as SQLite takes them anyway."""

metadata: Final = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
    }
)
