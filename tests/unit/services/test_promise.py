"""What a device's columns promise before the first ball."""

from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard, PlanCard
from loftwright.domain.home import Home
from loftwright.services.promise import gives, promised_claims

PLAN = PlanCard(sets=(("Own", 3), ("Ash", 3), ("Own", 3), ("Ash", 3)))
BALL = ("ball speed", "launch", "spin", "axis", "direction")


def may(device: DeviceCard, *, marked: bool, plan: PlanCard = PLAN) -> set[str]:
    claims = promised_claims(plan, device, Home(), marked=marked)
    return {claim.say for claim in claims if claim.may}


def a_device(*measured: str, **more: Origin) -> DeviceCard:
    origins = dict.fromkeys(measured, Origin.MEASURED)
    return DeviceCard(name="x", origins={**origins, **more})


def test_ball_data_alone_give_no_reason_and_no_strike() -> None:
    said = may(a_device(*BALL), marked=False)
    assert "which club goes further as you swing it" in said
    assert "where the ball met the face" not in said
    assert not any("from the same swing" in one for one in said)


def test_marks_on_the_face_give_the_strike() -> None:
    said = may(a_device(*BALL), marked=True)
    assert "where the ball met the face" in said
    assert any("from the same swing" in one for one in said)


def test_a_calculated_column_promises_nothing() -> None:
    device = DeviceCard(
        name="x",
        origins={**dict.fromkeys(BALL, Origin.MEASURED), "spin": Origin.CALCULATED},
    )
    assert "which club goes further as you swing it" not in may(device, marked=True)


def test_speed_and_carry_alone_promise_the_device_s_carry_only() -> None:
    said = may(a_device("ball speed", "carry"), marked=False)
    assert said == {"which club carries further, as this device shows it"}


def test_strike_columns_of_the_device_count_as_marks() -> None:
    device = a_device(*BALL, "strike toe", "strike high")
    assert "where the ball met the face" in may(device, marked=False)


def test_a_device_nobody_knows_promises_balls_but_no_strike() -> None:
    unknown = DeviceCard(name="x")
    assert gives(unknown, "spin")
    assert "where the ball met the face" not in may(unknown, marked=False)


def test_which_is_straighter_is_never_promised() -> None:
    assert "which club is straighter" not in may(a_device(*BALL), marked=True)


def test_one_club_promises_no_difference() -> None:
    said = may(a_device(*BALL), marked=True, plan=PlanCard(sets=(("Own", 6),)))
    assert "which club goes further as you swing it" not in said
