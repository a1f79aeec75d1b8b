"""What a comparison believed before its first ball, in words and as a record."""

from loftwright.evidence.result import Believed
from loftwright.report.numbers import count, percent

PHYSICS = "physics"
RECORD = "the shop's record"


def rests_on(physics_share: float, believed: Believed) -> str:
    """Return what a club's figure rests on, in words.

    Parameters
    ----------
    physics_share : float
        0 when the figure rests on balls alone, 1 when on belief alone.
    believed : Believed
        What that belief is.
    """
    if physics_share < 1.0 / 3.0:
        return "mostly balls"
    belief = source(believed)
    return f"half {belief}" if physics_share < 2.0 / 3.0 else f"mostly {belief}"


def source(believed: Believed) -> str:
    """Return what was believed before the first ball, in a word or two."""
    return RECORD if by_shop(believed) else PHYSICS


def by_shop(believed: Believed) -> bool:
    """Return whether the shop's own fittings were believed."""
    return believed.version > 0 and not believed.lost


def before_words(believed: Believed) -> str:
    """Return one line that says what was believed before the first ball."""
    if believed.lost:
        return (
            f"Compared by physics alone: what the shop had learned ({believed.version}) cannot be "
            "read."
        )
    if not by_shop(believed):
        return "Believed before the first ball: physics alone."
    have = "has" if believed.fittings == 1 else "have"
    borrowed = "; slopes borrowed from other heads" if believed.borrowed else ""
    return (
        f"Believed before the first ball: what {count(believed.fittings, 'fitting')} of this shop "
        f"{have} taught (version {believed.version}, {percent(believed.physics_share)} physics)"
        f"{borrowed}."
    )


def believed_record(believed: Believed) -> dict[str, object]:
    """Return what was believed before the first ball, for a record."""
    return {
        "say": before_words(believed),
        "version": believed.version,
        "fittings": believed.fittings,
        "physics_share": believed.physics_share,
        "slopes_borrowed": believed.borrowed,
        "lost": believed.lost,
    }
