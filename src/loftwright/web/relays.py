"""Requests that a reverse proxy passes on: from whom they come, and over which link.

References
----------
RFC 7239, sections 5.2 and 8.1: what a relay writes is believed only of relays that are known.
"""

from ipaddress import ip_address
from typing import Final

from starlette.datastructures import Headers
from starlette.types import Scope

from loftwright.errors import UsageError

RELAYED: Final = ("forwarded", "via", "x-real-ip")
"""Headers that only a relay sends, beside those that begin with `_FORWARDED`."""
_FORWARDED: Final = "x-forwarded-"


def proxy_addresses(named: list[str]) -> frozenset[str]:
    """Return the addresses of the proxies that were stated.

    Raises
    ------
    UsageError
        If one is no address.
    """
    try:
        return frozenset(str(ip_address(one)) for one in named)
    except ValueError as error:
        raise UsageError(
            f"{error}", place="--proxy", mend="Give the proxy's address, as 127.0.0.1."
        ) from error


def is_relayed(scope: Scope) -> bool:
    """Return whether a relay says that it passed a request on."""
    names = Headers(scope=scope).keys()
    return any(name in RELAYED or name.startswith(_FORWARDED) for name in names)


def as_sent(scope: Scope, proxies: frozenset[str]) -> Scope:
    """Return a request as its sender sent it, where it came through a proxy that was stated.

    Parameters
    ----------
    scope : Scope
    proxies : frozenset of str
        Addresses of the proxies; what others say of a sender is not believed.

    Notes
    -----
    A proxy appends to ``X-Forwarded-For`` the address that it saw, so the last entry that is no
    stated proxy's is the sender. What stands before it anybody may have written.
    """
    client = scope.get("client")
    if client is None or client[0] not in proxies:
        return scope
    headers = Headers(scope=scope)
    hops = [one.strip() for one in ",".join(headers.getlist("x-forwarded-for")).split(",")]
    senders = [hop for hop in hops if hop not in proxies]
    sender = senders[-1] if senders and _is_address(senders[-1]) else client[0]
    scheme = headers.get("x-forwarded-proto", scope["scheme"])
    known = scheme if scheme in {"http", "https"} else scope["scheme"]
    return {**scope, "client": (sender, client[1]), "scheme": known}


def _is_address(text: str) -> bool:
    try:
        ip_address(text)
    except ValueError:
        return False
    return True
