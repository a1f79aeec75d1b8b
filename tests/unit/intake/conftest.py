"""Tables written to a folder of their own."""

from collections.abc import Sequence
from pathlib import Path

import pytest

from shot_tables import Drive, Writer, invent_drives


@pytest.fixture
def drives() -> list[Drive]:
    return invent_drives()


@pytest.fixture
def write(tmp_path: Path) -> Writer:
    """Write rows of cells as a table and return its path."""

    def writer(
        rows: Sequence[Sequence[object]],
        *,
        delimiter: str = ",",
        encoding: str = "utf-8",
        end: str = "\n",
        name: str = "shots.csv",
    ) -> Path:
        text = "".join(delimiter.join(str(cell) for cell in row) + end for row in rows)
        path = tmp_path / name
        path.write_bytes(text.encode(encoding))
        return path

    return writer
