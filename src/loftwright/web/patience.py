"""A link that says nothing, or says it too slowly, is let go."""

import asyncio
from typing import Final

from uvicorn.protocols.http.h11_impl import H11Protocol

HEADER_SECONDS: Final = 20.0
"""In which the headers of a request have come, the first or a later one (judgement)."""


class PatientProtocol(H11Protocol):
    """Answers requests over one link; lets go of a link whose request does not come."""

    _late: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin to wait."""
        super().connection_made(transport)
        self._wait()

    def data_received(self, data: bytes) -> None:
        """Take in what came; a request whose headers are whole is waited for no more."""
        super().data_received(data)
        if self._is_answering():
            self._be_patient()
        elif self._late is None:
            self._wait()

    def connection_lost(self, exc: Exception | None) -> None:
        """End."""
        self._be_patient()
        super().connection_lost(exc)

    def _is_answering(self) -> bool:
        if self.cycle is None:
            return False
        return not self.cycle.response_complete

    def _wait(self) -> None:
        self._late = self.loop.call_later(HEADER_SECONDS, self.transport.close)

    def _be_patient(self) -> None:
        if self._late is not None:
            self._late.cancel()
            self._late = None
