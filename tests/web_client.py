"""Requests to a web application in this process, without a server."""

import asyncio
from collections.abc import Coroutine, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from typing import Any, TypeVar

import httpx
from starlette.types import ASGIApp

MAIN_SCREEN = ("127.0.0.1", 51234)
TABLET = ("192.0.2.20", 51234)
"""An address of RFC 5737, as a device on the shop's network has one."""


Answer = TypeVar("Answer")


class WebClient:
    """A browser without scripts: it keeps cookies and does not follow redirections.

    Its event loop runs in a thread of its own, for that of a test may belong to a real browser.

    Parameters
    ----------
    app : ASGIApp
    client : (str, int)
        From where it asks.
    host : str
        Under which name it asks.
    """

    def __init__(
        self, app: ASGIApp, *, client: tuple[str, int] = MAIN_SCREEN, host: str = "127.0.0.1:8432"
    ) -> None:
        self._loop = asyncio.new_event_loop()
        self._thread = ThreadPoolExecutor(max_workers=1)
        self._inner = httpx.AsyncClient(
            transport=httpx.ASGITransport(app, raise_app_exceptions=False, client=client),
            base_url=f"http://{host}",
            headers={"Accept": "text/html"},
        )

    def request(self, method: str, path: str, **more: Any) -> httpx.Response:  # noqa: ANN401
        """Send one request."""
        return self._run(self._inner.request(method, path, **more))

    def get(self, path: str, **more: Any) -> httpx.Response:  # noqa: ANN401
        """Ask for a page."""
        return self.request("GET", path, **more)

    def post(self, path: str, **more: Any) -> httpx.Response:  # noqa: ANN401
        """Send a form."""
        return self.request("POST", path, **more)

    @property
    def cookies(self) -> httpx.Cookies:
        """The cookies it keeps."""
        return self._inner.cookies

    def close(self) -> None:
        """Let go of everything."""
        self._run(self._inner.aclose())
        self._thread.shutdown()
        self._loop.close()

    def _run(self, what: Coroutine[Any, Any, Answer]) -> Answer:
        return self._thread.submit(self._loop.run_until_complete, what).result()


@contextmanager
def asking(
    app: ASGIApp, *, client: tuple[str, int] = MAIN_SCREEN, host: str = "127.0.0.1:8432"
) -> Iterator[WebClient]:
    """Give a client for the length of a block."""
    made = WebClient(app, client=client, host=host)
    try:
        yield made
    finally:
        made.close()
