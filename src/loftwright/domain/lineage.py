"""Which model took whose place: replaces, replaced by, and the order of generations."""

from collections.abc import Mapping
from typing import TypeVar

from loftwright.domain.rack import HeadModel, ShaftModel
from loftwright.errors import InputError

Model = TypeVar("Model", HeadModel, ShaftModel)


def replaced_by(models: Mapping[str, Model], model: str) -> tuple[Model, ...]:
    """Return the models that took a model's place, in the order in which they came."""
    return tuple(one for one in models.values() if one.replaces == model)


def forebears(models: Mapping[str, Model], model: str) -> tuple[Model, ...]:
    """Return whom a model replaces, and whom that one did, the nearest first.

    Raises
    ------
    InputError
        If the line runs in a circle.
    """
    found: dict[str, Model] = {}
    before = models[model].replaces
    while before is not None and before in models:
        if before == model or before in found:
            raise InputError(
                f"{models[model].name} would replace itself by way of "
                f"{', '.join(one.name for one in found.values()) or models[before].name}",
                place="replaces",
                mend="Choose a model that is older than this one.",
            )
        found[before] = models[before]
        before = models[before].replaces
    return tuple(found.values())


def generation_of(models: Mapping[str, Model], model: str) -> int:
    """Return how many models stand before one in its line, from 0."""
    return len(forebears(models, model))


def check_line(models: Mapping[str, Model], model: Model) -> None:
    """Refuse a model that replaces one of another kind, or closes a circle.

    Parameters
    ----------
    models : mapping of str to HeadModel or ShaftModel
        Every model of its kind, this one among them or not.
    model : HeadModel or ShaftModel

    Raises
    ------
    InputError
        If the model it replaces is not among them, or stands behind it already.
    """
    if model.replaces is None:
        return
    if model.replaces not in models:
        raise InputError(
            f"{model.name} replaces {model.replaces!r}, which the rack does not have",
            place="replaces",
            mend="Choose a model of the rack, heads for heads and shafts for shafts.",
        )
    forebears({**models, model.id: model}, model.id)
