"""Text of any characters, also in a database that takes no NUL."""

from typing import Final

from sqlalchemy import Dialect, Text, TypeDecorator

_MARK: Final = "\ue000"
"""For private use, so that no script has it; doubled where somebody sends it all the same."""


class Words(TypeDecorator[str]):
    """A text column that gives back every character it was given.

    Notes
    -----
    PostgreSQL refuses U+0000 in text; there it stands as a mark and a nought.
    """

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:
        """Return a text as the database takes it."""
        if value is None or dialect.name != "postgresql":
            return value
        return value.replace(_MARK, 2 * _MARK).replace("\0", f"{_MARK}0")

    def process_result_value(self, value: str | None, dialect: Dialect) -> str | None:
        """Return a text as it was given."""
        if value is None or dialect.name != "postgresql" or _MARK not in value:
            return value
        parts = value.split(2 * _MARK)
        return _MARK.join(part.replace(f"{_MARK}0", "\0") for part in parts)
