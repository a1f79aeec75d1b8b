"""A link that says nothing, or says it too slowly, is let go."""

import asyncio
from typing import Final

from uvicorn.protocols.http.h11_impl import H11Protocol

HEADER_SECONDS: Final = 20.0
"""In which the headers of a first request have come (judgement)."""


class PatientProtocol(H11Protocol):
    """Answers requests over one link; lets go of a link whose first request does not come."""

    _late: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin to wait."""
        super().connection_made(transport)
        self._late = self.loop.call_later(HEADER_SECONDS, transport.close)

    def handle_events(self) -> None:
        """Take in what came; a request whose headers are whole is waited for no more."""
        super().handle_events()
        if self.scope is not None:
            self._be_patient()

    def connection_lost(self, exc: Exception | None) -> None:
        """End."""
        self._be_patient()
        super().connection_lost(exc)

    def _be_patient(self) -> None:
        if self._late is not None:
            self._late.cancel()
            self._late = None
