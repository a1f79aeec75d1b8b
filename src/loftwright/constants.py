"""Exact sizes of trade units in SI, and the few physical constants every floor shares.

Sources print miles an hour, yards and degrees. A constant quoted from a source is written here
and elsewhere as the printed figure times one of these names, so that a reader can compare it
with the page. User input never meets these names: it is converted in `loftwright.units`.

References
----------
International yard and pound agreement, 1959 (inch, foot, yard, mile; exact;
pound 0.45359237 kg).
CGPM 1901, standard acceleration of free fall (exact).
Equipment Rules, part 4: a ball weighs at most 45.93 g and measures at least 42.67 mm.
"""

from math import pi
from typing import Final

INCH: Final = 0.0254
FOOT: Final = 0.3048
YARD: Final = 0.9144
MILE_PER_HOUR: Final = 0.44704
DEGREE: Final = pi / 180.0
REVOLUTION_PER_MINUTE: Final = 2.0 * pi / 60.0
CYCLE_PER_MINUTE: Final = 1.0 / 60.0
MILLIMETRE: Final = 1e-3
GRAM: Final = 1e-3
GRAM_SQUARE_CENTIMETRE: Final = 1e-7
KILOGRAM_SQUARE_CENTIMETRE: Final = 1e-4

GRAVITY: Final = 9.80665
OUNCE: Final = 0.45359237 / 16.0
OUNCE_INCH: Final = OUNCE * INCH
POUND_FORCE: Final = 0.45359237 * GRAVITY
FOOT_POUND: Final = FOOT * POUND_FORCE
BALL_MASS: Final = 45.93 * GRAM
BALL_DIAMETER: Final = 42.67 * MILLIMETRE
BALL_RADIUS: Final = BALL_DIAMETER / 2.0
