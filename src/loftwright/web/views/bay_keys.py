"""The letters that do what a tap does; the list that `?` shows."""

from typing import Final

KEYS: Final = (
    ("c", "the club is in hand, or still is"),
    ("s", "its sleeve is seen as planned"),
    ("o", "other club"),
    ("m", "to the face: arrows move, Enter marks"),
    ("x", "marks of a set in unknown order"),
    ("i", "turn the face as I hold it"),
    ("n", "hit, not read"),
    ("g", "the last ball is not ours"),
    ("d", "the last ball is odd"),
    ("k", "the last ball left no mark"),
    ("a", "how the club came in, by the last ball"),
    ("j", "join the waiting marks"),
    ("f", "to the feel line: arrows move, Enter says it"),
    ("v", "would not play it"),
    ("b", "type a ball"),
    ("t", "the other golfer hits"),
    ("h", "the virtual golfer hits, in an invented fitting"),
    ("w", "warm-up done"),
    ("e", "rested"),
    ("p", "pain: stop"),
    ("l", "all balls"),
    ("u", "undo"),
    ("r", "do it again"),
    ("?", "this list"),
)
"""Letter and what it does; letters do nothing while a field is typed in."""
