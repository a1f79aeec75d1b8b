"""What a store says of itself."""

from typing import Protocol


class Standing(Protocol):
    """How a store stands: nothing of it is anybody's."""

    @property
    def database(self) -> str:
        """Which database it is: sqlite, postgresql or memory."""

    def schema(self) -> str:
        """Return the schema at which its tables stand."""

    def probe(self) -> str:
        """Return the schema of the tables after making sure that a write would begin now.

        Raises `StoreError` if the store is gone, cannot be read, or would refuse a write.
        """

    def rows(self) -> dict[str, int]:
        """Return how many rows each table has."""
