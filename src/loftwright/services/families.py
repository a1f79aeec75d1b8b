"""A family of shafts: its generations, weights and labels against one reference, by section."""

from dataclasses import dataclass

from loftwright.domain.family import Against, Spread, against, spread_of
from loftwright.domain.lineage import generation_of
from loftwright.domain.profile import MeasuredProfile
from loftwright.domain.rack import Rack, ShaftModel
from loftwright.domain.sections import Section
from loftwright.errors import NotFoundError
from loftwright.services.measuring import measured
from loftwright.services.studio import Studio


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Member:
    """One model of a family.

    Attributes
    ----------
    generation : int
        How many of its line stood before it.
    samples : tuple of MeasuredProfile
        One a measured sample.
    against : dict of Section to Against
        Against the reference; empty for the reference itself.
    since : dict of Section to Against
        Against the model that it replaces.
    replaces : ShaftModel, optional
    """

    model: ShaftModel
    generation: int
    samples: tuple[MeasuredProfile, ...]
    against: dict[Section, Against]
    since: dict[Section, Against]
    replaces: ShaftModel | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Family:
    """A family of shafts.

    Attributes
    ----------
    members : tuple of Member
        Generation by generation, the lightest first.
    reference : Member, optional
        What the others stand against; None while none is measured.
    spreads : dict of Section to Spread
        Between samples of one model, where it is known.
    """

    name: str
    members: tuple[Member, ...]
    reference: Member | None
    spreads: dict[Section, Spread]


def family_names(rack: Rack) -> tuple[str, ...]:
    """Return the names of all families of shafts."""
    return tuple(dict.fromkeys(one.family for one in rack.shafts.values() if one.family))


def family(studio: Studio, name: str, reference: str = "") -> Family:
    """Return a family with every model against one.

    Parameters
    ----------
    studio : Studio
    name : str
    reference : str
        Id of the model that the others stand against; without it the oldest that has the most
        measured samples.

    Raises
    ------
    NotFoundError
        If no shaft is of that family.
    """
    rack, profiles = studio.store.rack(), measured(studio)
    models = [one for one in rack.shafts.values() if one.family == name]
    if not name or not models:
        raise NotFoundError(
            f"no shaft is of a family {name!r}",
            place="family",
            mend="Write the family down with one of its shafts.",
        )
    samples = {
        model.id: tuple(
            profiles[piece.id]
            for piece in rack.pieces.values()
            if piece.model == model.id and piece.id in profiles
        )
        for model in models
    }
    known = ((section, spread_of(samples, section)) for section in Section)
    spreads = {section: spread for section, spread in known if spread is not None}
    place = {model.id: generation_of(rack.shafts, model.id) for model in models}
    models.sort(key=lambda one: (place[one.id], one.paper_mass or 0.0, one.paper_label, one.name))
    chosen = _reference(models, samples, reference, place)
    members = tuple(
        Member(
            model=model,
            generation=place[model.id],
            samples=samples[model.id],
            against=_against(samples, model.id, chosen, spreads),
            since=_against(samples, model.id, model.replaces, spreads),
            replaces=rack.shafts.get(model.replaces or ""),
        )
        for model in models
    )
    return Family(
        name=name,
        members=members,
        reference=next((one for one in members if one.model.id == chosen), None),
        spreads=spreads,
    )


def _reference(
    models: list[ShaftModel],
    samples: dict[str, tuple[MeasuredProfile, ...]],
    wanted: str,
    place: dict[str, int],
) -> str | None:
    able = [one for one in models if samples[one.id]]
    if any(one.id == wanted for one in able):
        return wanted
    best = min(able, key=lambda one: (place[one.id], -len(samples[one.id])), default=None)
    return None if best is None else best.id


def _against(
    samples: dict[str, tuple[MeasuredProfile, ...]],
    model: str,
    other: str | None,
    spreads: dict[Section, Spread],
) -> dict[Section, Against]:
    if other is None or other == model or other not in samples:
        return {}
    found = (
        (section, against(samples[model], samples[other], section, spreads.get(section)))
        for section in Section
    )
    return {section: told for section, told in found if told is not None}
