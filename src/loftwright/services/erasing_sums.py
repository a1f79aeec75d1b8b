"""What the shop keeps as sums over fittings, once some of these are erased."""

from collections.abc import Sequence

from loftwright.domain.fitting import Fitting
from loftwright.services import spin_setting
from loftwright.services.piece_balls import NAME as BALLS
from loftwright.services.piece_balls import told_with
from loftwright.services.studio import Studio


def kept_instead(studio: Studio, gone: Sequence[Fitting]) -> dict[str, str]:
    """Return the settings that are written with the erase of some fittings, by name.

    How often parts were hit stays, of nobody. What a ball does on a face is learned again from
    the other fittings, where it was learned at all.
    """
    real = [one.id for one in gone if not one.invented]
    told = {BALLS: told_with(studio, real)}
    known = spin_setting.read_spin(studio)
    if gone and known.version:
        ids = frozenset(one.id for one in gone)
        learned = spin_setting.learn_spin(studio, without=ids)
        told[spin_setting.NAME] = spin_setting.spin_text(learned)
    return told
