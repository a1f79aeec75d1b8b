"""The loop that solves many impacts; the formula is `loftwright.physics.impulse.collide`."""

from math import isnan, nan

from numba import njit

from loftwright.arrays import FloatArray
from loftwright.physics.impulse import (
    HeadNumbers,
    LawNumbers,
    collide,
    launch_numbers,
    turned_to_horizontal,
)


@njit(cache=True)
def strike_rows(
    head: HeadNumbers, law: LawNumbers, deliveries: FloatArray, launches: FloatArray
) -> int:
    """Fill `launches`; return -1, or the first row whose face leaves the ball or never settles.

    A delivery with NaN gives a row of NaN.
    """
    rest = (0.0, 0.0, 0.0)
    refused = -1
    for i in range(deliveries.shape[0]):
        total = 0.0
        for j in range(7):
            total += deliveries[i, j]
        if isnan(total):
            for j in range(5):
                launches[i, j] = nan
            continue
        after = collide(
            head,
            law,
            deliveries[i, 0],
            deliveries[i, 1],
            deliveries[i, 2],
            deliveries[i, 3],
            deliveries[i, 4],
            0.0,
            deliveries[i, 5],
            deliveries[i, 6],
            rest,
        )
        if not after.approach > 0.0 or not after.settled:
            if refused < 0:
                refused = i
            for j in range(5):
                launches[i, j] = nan
            continue
        speed, launch, direction, spin, axis, _back, _side = launch_numbers(
            after.velocity, after.spin
        )
        launches[i, 0] = speed
        launches[i, 1] = launch
        launches[i, 2] = spin
        launches[i, 3] = turned_to_horizontal(axis, launch)
        launches[i, 4] = direction
    return refused
