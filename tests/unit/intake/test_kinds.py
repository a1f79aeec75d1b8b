"""Kinds of club by the words of their labels."""

import pytest

from loftwright.intake.kinds import club_kind


@pytest.mark.parametrize(
    ("label", "kind"),
    [
        ("Driver Ash", "driver"),
        ("driver 10.5°", "driver"),
        ("1W", "driver"),
        ("ドライバー", "driver"),
        ("3 wood", "fairway wood"),
        ("5W", "fairway wood"),
        ("Holz 3", "fairway wood"),
        ("4 Hybrid", "hybrid"),
        ("7 iron", "iron"),
        ("7i", "iron"),
        ("Eisen 7", "iron"),
        ("fer 7", "iron"),
        ("hierro 7", "iron"),
        ("PW", "wedge"),
        ("56°", "wedge"),
        ("Sand Wedge", "wedge"),
        ("Putter", "putter"),
        ("Ash", ""),
        ("Own", ""),
        ("Birch 60 g", ""),
        ("", ""),
    ],
)
def test_a_label_tells_its_kind_or_nothing(label: str, kind: str) -> None:
    assert club_kind(label) == kind
