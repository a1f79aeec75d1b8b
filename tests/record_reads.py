"""Which records a studio is asked for."""

import pytest

from loftwright.domain.acts import Entry
from loftwright.services.studio import Studio


def records_read(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return a list that takes in the fitting of every record asked for from now on."""
    read, record = list[str](), Studio.record

    def counted(studio: Studio, fitting: str) -> tuple[Entry, ...]:
        read.append(fitting)
        return record(studio, fitting)

    monkeypatch.setattr(Studio, "record", counted)
    return read
