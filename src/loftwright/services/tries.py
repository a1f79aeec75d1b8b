"""How often an address may try something: a little at once, then as fast as it drains.

References
----------
ITU-T I.371, annex A (generic cell rate algorithm, as virtual scheduling), from memory.
"""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from ipaddress import IPv6Address, ip_address
from math import ceil
from threading import Lock
from time import monotonic
from typing import Final

from loftwright.errors import TooManyError

MOST_ADDRESSES: Final = 4096
"""Addresses that are remembered; the one that asked longest ago is forgotten first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """How much an address may do.

    Attributes
    ----------
    what : str
        What is counted, in words for the one who is refused.
    most : int
        How often at once.
    seconds : float
        After which as many are free again.
    """

    what: str
    most: int
    seconds: float


_SLACK: Final = 1e-6
"""Of a step: what sums of fractions may be off by."""

CODES: Final = Limit(what="codes were tried", most=10, seconds=60.0)
"""Codes on /pair (judgement): twice the five tries that a code stands for."""
PINS: Final = Limit(what="PINs were tried", most=20, seconds=60.0)
KEYS: Final = Limit(what="keys that are not known were shown", most=30, seconds=60.0)
REQUESTS: Final = Limit(what="pages were asked for", most=2400, seconds=60.0)
"""Beyond this machine: forty a second, six busy tablets behind one address (judgement)."""


class Tries:
    """Counts by address what may be tried only so often.

    Parameters
    ----------
    clock : callable, optional
        Returns seconds that only grow; a test gives its own.
    """

    def __init__(self, clock: Callable[[], float] = monotonic) -> None:
        self._clock = clock
        self._lock = Lock()
        self._free_at: OrderedDict[tuple[str, str], float] = OrderedDict()

    def count(self, limit: Limit, address: str) -> None:
        """Count one try.

        Raises
        ------
        TooManyError
            If the address tried as often as it may; it says after how many seconds it may again.
        """
        key, step = (limit.what, network_of(address)), limit.seconds / limit.most
        with self._lock:
            now = self._clock()
            free_at = max(self._free_at.get(key, now), now)
            over = free_at - now - (limit.seconds - step)
            if over <= _SLACK * step:
                self._free_at[key] = free_at + step
                self._free_at.move_to_end(key)
                self._forget(now)
                return
        wait = max(1, ceil(over))
        raise TooManyError(
            f"too many {limit.what} from this address",
            place="address",
            mend=f"Wait {wait} s, then try again.",
            seconds=wait,
        )

    def __len__(self) -> int:
        return len(self._free_at)

    def _forget(self, now: float) -> None:
        while len(self._free_at) > MOST_ADDRESSES:
            self._free_at.popitem(last=False)
        # The oldest go first, and a try that has drained says nothing any more.
        while self._free_at and next(iter(self._free_at.values())) <= now:
            self._free_at.popitem(last=False)


def network_of(address: str) -> str:
    """Return what is counted as one address: of IPv6 the network of 64 bits, which one house has.

    Parameters
    ----------
    address : str
        As the connection has it; anything that is no address stands for itself.
    """
    try:
        read = ip_address(address.partition("%")[0])
    except ValueError:
        return address
    if not isinstance(read, IPv6Address):
        return str(read)
    if read.ipv4_mapped is not None:
        return str(read.ipv4_mapped)
    return f"{IPv6Address(int(read) >> 64 << 64)}/64"
