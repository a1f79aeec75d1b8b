"""What the user settles about columns and rows."""

import pytest

from loftwright.domain.device import Origin
from loftwright.errors import UsageError
from loftwright.intake.settle import read_keep, read_setting


def test_a_setting_names_column_meaning_and_unit() -> None:
    setting = read_setting("Col A=ball speed[mph]")
    assert (setting.column, setting.means) == ("Col A", "ball speed")
    assert setting.unit is not None
    assert setting.unit.name == "mph"


@pytest.mark.parametrize(
    ("text", "sign", "world"),
    [
        ("Path=path[deg, right +]", 1, True),
        ("Path=path[deg, left +]", -1, True),
        ("Path=path[out-to-in +]", -1, False),
        ("Face=face[closed +]", -1, False),
        ("X=strike toe[mm, heel +]", -1, False),
        ("X=strike high[mm, low +]", -1, False),
        ("X=direction[deg, left +]", -1, True),
    ],
)
def test_a_setting_may_tell_the_positive_side(text: str, sign: int, world: bool) -> None:
    setting = read_setting(text)
    assert (setting.sign, setting.world) == (sign, world)


def test_a_setting_may_tell_origin_and_manner() -> None:
    assert read_setting("HS=head speed[mph, calculated]").origin is Origin.CALCULATED
    assert read_setting("Club=club[fill down, one kind]").manners == ("fill down", "one kind")
    assert read_setting("x=ignore").means == "ignore"
    assert read_setting("Tempo = head_speed [km/h]").means == "head speed"
    assert read_setting("A=B=spin[rpm]").column == "A=B"
    assert read_setting("Kopf=Schlägerkopfgeschwindigkeit[km/h]").means == "head speed"


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("Col A", "not of the form"),
        ("Col A=", "not of the form"),
        ("=ball speed", "not of the form"),
        ("Col A=bal sped", "Did you mean 'ball speed'"),
        ("Col A=ball speed[rpm]", "says nothing about ball speed"),
        ("Col A=ball speed[left +]", "says nothing about ball speed"),
        ("Col A=strike toe[right +]", "says nothing about strike toe"),
        ("Col A=note[mph]", "Leave the brackets out"),
        ("Col A=speed[mph]", "no quantity"),
    ],
)
def test_a_setting_without_meaning_is_wrong_use_with_a_mend(text: str, hint: str) -> None:
    with pytest.raises(UsageError, match=r"--column") as caught:
        read_setting(text)
    assert hint in str(caught.value)


def test_rows_are_kept_by_heading_and_value() -> None:
    keep = read_keep("Golfer = Ann = Lee")
    assert (keep.column, keep.value) == ("Golfer", "Ann = Lee")
    for text in ("Golfer", "Golfer=", "=Ann"):
        with pytest.raises(UsageError, match="heading=value"):
            read_keep(text)
