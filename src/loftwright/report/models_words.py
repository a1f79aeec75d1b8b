"""What may be said of models against a reference: told apart in what, or not."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from loftwright.report.numbers import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelTold:
    """One model in words.

    Attributes
    ----------
    name : str
    apart : mapping of str to sequence of str
        By way, in words: the quantities in which it can be told from the reference.
    """

    name: str
    apart: Mapping[str, Sequence[str]]

    @property
    def any(self) -> bool:
        """Whether it can be told from the reference in anything."""
        return any(self.apart.values())


def models_told(models: Sequence[ModelTold], reference: str, thing: str) -> str:
    """Return the sentence over all models; it ranks none.

    Parameters
    ----------
    models : sequence of ModelTold
        Without the reference.
    reference : str
    thing : str
        What one of them is: shaft or head.
    """
    told = [one.name for one in models if one.any]
    if not told:
        each = f"This {thing}" if len(models) == 1 else f"None of these {len(models)} {thing}s"
        can = "cannot" if len(models) == 1 else "can"
        return f"{each} {can} be told apart from {reference}."
    if len(told) == len(models):
        return f"{listed(tuple(told))} can be told apart from {reference}."
    rest = [one.name for one in models if not one.any]
    return (
        f"{listed(tuple(told))} can be told apart from {reference}; {listed(tuple(rest))} cannot."
    )


def model_told(model: ModelTold, reference: str) -> str:
    """Return in what one model can be told from the reference."""
    said = [
        f"{way[:1].lower()}{way[1:]} in {listed([name.lower() for name in names])}"
        for way, names in model.apart.items()
        if names
    ]
    if not said:
        return f"{model.name} cannot be told apart from {reference}."
    return f"{model.name} can be told apart {'; '.join(said)}. In all else it cannot."
