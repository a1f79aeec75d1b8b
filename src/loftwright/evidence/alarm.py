"""A doubt that the balls themselves raise, for the fitter to look into."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Alarm:
    """One doubt.

    Attributes
    ----------
    kind : str
        `mirrored_marks`, `shifted_marks`, `strange_run`, `still_this_club`,
        `calculated_column` or `delivery_column`.
    say : str
        For the fitter's screen.
    rows : tuple of int
        The balls it is about, in their order of play.
    """

    kind: str
    say: str
    rows: tuple[int, ...]
