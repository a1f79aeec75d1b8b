"""Set-ups: a club with its sleeve as planned, or as it was found to sit."""

from dataclasses import dataclass

from loftwright.bay.now import FittingNow, Swing
from loftwright.domain.fitting import ClubCard
from loftwright.physics.sleeve import Bore, Convention, HeadAngles, turned


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """A club as it was hit.

    Attributes
    ----------
    label : str
        The club's name, with the setting where it is not the planned one.
    angles : HeadAngles
        Loft, lie and face with the sleeve so set [rad].
    """

    label: str
    club: str
    setting: str
    card: ClubCard
    angles: HeadAngles


def label_of(club: str, card: ClubCard, setting: str) -> str:
    """Return what a set-up is called."""
    return club if setting == card.setting else f"{club}, {setting}"


def set_up_of(swing: Swing, now: FittingNow) -> str | None:
    """Return the label of the set-up a ball was hit with, or None without a club."""
    if swing.club is None:
        return None
    club = now.club(swing.club)
    return None if club is None else label_of(club.name, club.card, swing.setting)


def set_ups(now: FittingNow, convention: Convention) -> dict[str, SetUp]:
    """Return every set-up that was hit, by its label, in the order of the clubs' joining.

    Parameters
    ----------
    now : FittingNow
    convention : Convention
        How a sleeve's setting turns into loft, lie and face.
    """
    found: dict[str, SetUp] = {}
    for club in now.clubs:
        hit = {club.card.setting} | {one.setting for one in now.balls if one.club == club.name}
        for setting in sorted(hit, key=lambda name: (name != club.card.setting, name)):
            label = label_of(club.name, club.card, setting)
            found[label] = SetUp(
                label=label,
                club=club.name,
                setting=setting,
                card=club.card,
                angles=angles_of(club.card, setting, convention),
            )
    return found


def angles_of(card: ClubCard, setting: str, convention: Convention) -> HeadAngles:
    """Return loft, lie and face of a club with its sleeve so set."""
    bores = {one.name: Bore(angle=one.bore, azimuth=one.azimuth) for one in card.settings}
    bore = bores.get(setting, Bore(angle=0.0, azimuth=0.0))
    return turned(card.loft, card.lie, card.face, bore, convention)
