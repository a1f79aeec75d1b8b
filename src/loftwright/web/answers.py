"""What a form that was sent is answered: the next page, or a word to the script that sent it."""

from typing import Annotated

from fastapi import Form, Request, Response
from fastapi.responses import JSONResponse, RedirectResponse

from loftwright.web.errors import wants_json

Back = Annotated[str, Form(max_length=2000, description="Address of the page to go back to.")]


def acted(request: Request, to: str, *, revision: int | None = None, note: str = "") -> Response:
    """Answer an act that was done.

    Parameters
    ----------
    request : Request
    to : str
        Address of the page that shows it.
    revision : int, optional
        At which the act stands; a live page that has painted it shows the act.
    note : str
        What a person should know of it besides; a page without scripts shows what stands.

    Returns
    -------
    Response
        A redirection for a plain form; JSON for a script, which stays on its page.
    """
    if wants_json(request):
        told = {"to": to, "revision": revision}
        return JSONResponse(told | {"note": note} if note else told)
    return RedirectResponse(to, status_code=303)


def inside(address: str, otherwise: str = "/") -> str:
    """Return an address to go back to if it lies within this application, else another.

    Parameters
    ----------
    address : str
        As a form gave it.
    otherwise : str
    """
    plain = address.startswith("/") and not address.startswith(("//", "/\\"))
    return address if plain and address.isprintable() else otherwise
