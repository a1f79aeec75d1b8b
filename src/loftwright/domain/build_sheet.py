"""A build as it was asked for, solved, built and measured: the values that pages are made of."""

from dataclasses import dataclass, field
from enum import StrEnum

from loftwright.constants import GRAVITY
from loftwright.domain.built import Checked, Contradicted, TargetLine
from loftwright.domain.limits import Kind, LimitLine, Measured, NotMeasured, Rules
from loftwright.domain.tolerances import Tolerances
from loftwright.domain.verdict import Reading
from loftwright.physics.build.forecast import Forecast
from loftwright.physics.build.grip import BuildUp
from loftwright.physics.build.parts import BuildParts
from loftwright.physics.build.solve import Answer, Target
from loftwright.physics.build.trades import Instead
from loftwright.physics.build.uncertainty import ClubErrors, PartErrors
from loftwright.physics.sleeve import HeadAngles


class Mind(StrEnum):
    """What a fitter has to mind of a solved or checked build.

    Attributes
    ----------
    UNCALIBRATED
        The swingweight scale stands on a figure from memory.
    TIGHT
        A tolerance is tighter than parts or bench can tell.
    NOT_BUILDABLE
        The sheet cannot be built as it is, so that nothing is predicted.
    SET_UP
        The frequency was read in another clamp or with another weight than asked for.
    RULER
        The length was measured by another method than the rules'.
    DERIVED
        The swingweight is worked out from weight and balance point.
    OTHER_SHAFT
        The readings are of a shaft that does not weigh what the sheet says.
    GRIP_OUTSIDE
        The callipered grip lies outside what butt, core and tape come to.
    """

    UNCALIBRATED = "uncalibrated"
    TIGHT = "tight"
    NOT_BUILDABLE = "not_buildable"
    SET_UP = "set_up"
    RULER = "ruler"
    DERIVED = "derived"
    OTHER_SHAFT = "other_shaft"
    GRIP_OUTSIDE = "grip_outside"


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildSheet:
    """What a club is built from and to.

    Attributes
    ----------
    parts : BuildParts
    target : Target
        What is solved for.
    also : dict of Checked to float
        Targets that masses do not change; held against the finished club only.
    clamp, tip_mass : float or None
        Of the frequency that is a target [m, kg].
    build_up : BuildUp or None
        Of the grip, where its size was asked for.
    kind : Kind
    tolerances : Tolerances
    errors : PartErrors
    rules : Rules
    """

    parts: BuildParts
    target: Target
    also: dict[Checked, float]
    clamp: float | None
    tip_mass: float | None
    build_up: BuildUp | None
    kind: Kind
    tolerances: Tolerances
    errors: PartErrors
    rules: Rules


class LengthMethod(StrEnum):
    """How a club's length was measured."""

    PLANE = "60 degrees"
    RULER = "ruler"


@dataclass(frozen=True, slots=True, kw_only=True)
class PendulumReading:
    """A club that was let swing [m, s, rad, m s^-2]."""

    pivot: float
    period: Reading
    swing: float
    gravity: float = GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredClub:
    """What was measured of a finished club.

    Attributes
    ----------
    checked : dict of Checked to Reading
        What has a target, SI, swingweight in points.
    limited : dict of Measured to Reading
        What has a published limit, SI; a length only where it was measured by the 60-degree
        plane.
    method : LengthMethod
    clamp, tip_mass : float or None
        Of the frequency [m, kg].
    pendulum : PendulumReading or None
    edition : str or None
        Of the Rules, where it is named with the readings.
    local_length : bool or None
        Whether the competition uses the local rule on length, where that is said with them.
    head_added, butt_added : float or None
        What was put into head and butt, where it was weighed [kg]; else what the sheet solves to.
    kept : float or None
        Length of the cut shaft, where it was measured [m]; else what the sheet solves to.
    grip_low : Reading or None
        Of the grip under the lower hand [m]; held against nothing.
    """

    checked: dict[Checked, Reading]
    limited: dict[Measured, Reading]
    method: LengthMethod
    clamp: float | None
    tip_mass: float | None
    pendulum: PendulumReading | None
    edition: str | None
    local_length: bool | None
    head_added: float | None = None
    butt_added: float | None = None
    kept: float | None = None
    grip_low: Reading | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SolvedBuild:
    """A build as it was solved.

    Attributes
    ----------
    sheet : BuildSheet
    answer : Answer
    trades : tuple of Instead
        Where it cannot be built.
    errors : ClubErrors or None
        None where it cannot be built.
    frequency : Forecast or None
        Where readings of the shaft were given.
    clamp, tip_mass : float or None
        Of that frequency [m, kg].
    minds : frozenset of Mind
    tight : tuple of Checked
        Which tolerances are tighter than the parts can promise.
    """

    sheet: BuildSheet
    answer: Answer
    trades: tuple[Instead, ...]
    errors: ClubErrors | None
    frequency: Forecast | None
    clamp: float | None
    tip_mass: float | None
    minds: frozenset[Mind]
    tight: tuple[Checked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnedSleeve:
    """A head with its sleeve as set, under the three conventions; face open positive.

    Attributes
    ----------
    kept, soled, squared : HeadAngles
        Shaft kept, head soled flat, face squared.
    design_lie : float
        Of the shaft seen along the target line [rad].
    """

    kept: HeadAngles
    soled: HeadAngles
    squared: HeadAngles
    design_lie: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedBuild:
    """A finished club beside its sheet and the published limits.

    Attributes
    ----------
    sheet : BuildSheet
    measured : MeasuredClub
    limits : tuple of LimitLine
    targets : tuple of TargetLine
    contradicted : tuple of Contradicted
    not_measured : tuple of NotMeasured
    rules : Rules
    minds : frozenset of Mind
    predicted : dict of Checked to Reading
        What the parts come to as they were built.
    """

    sheet: BuildSheet
    measured: MeasuredClub
    limits: tuple[LimitLine, ...]
    targets: tuple[TargetLine, ...]
    contradicted: tuple[Contradicted, ...]
    not_measured: tuple[NotMeasured, ...]
    rules: Rules
    minds: frozenset[Mind]
    predicted: dict[Checked, Reading] = field(default_factory=dict)
