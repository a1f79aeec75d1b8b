import re
from collections.abc import Callable
from datetime import time

import pytest

from loftwright.errors import InputError
from loftwright.report.day_picture import Booking, Stage, day_picture, day_words

BAYS = ["Bay 1", "Bay 2"]
BOOKINGS = [
    Booking(bay="Bay 1", name="Hob Noughtley", start=time(9, 30), end=time(11), stage=Stage.DONE),
    Booking(
        bay="Bay 1",
        name="Ottoline Brambleby",
        start=time(13, 30),
        end=time(15),
        stage=Stage.NOW,
    ),
    Booking(bay="Bay 1", name="Caspar Thistlewick", start=time(16), end=time(17, 30)),
    Booking(bay="Bay 2", name="Perpetua Quill", start=time(10), end=time(12)),
]


def bars(svg: str) -> dict[str, dict[str, str]]:
    """Return the attributes of each bar by the name in its title."""
    found = re.findall(r"<g><title>([^,]*),[^<]*</title><rect ([^>]*)/>", svg)
    return {name: dict(re.findall(r'([\w-]+)="([^"]*)"', one)) for name, one in found}


def hour_at(svg: str, hour: int) -> float:
    found = re.search(rf'x="([\d.]+)"[^>]*>{hour}:00</text>', svg)
    assert found is not None
    return float(found.group(1))


def test_a_bar_begins_and_ends_at_its_hours() -> None:
    svg = day_picture(BOOKINGS, BAYS)
    bar = bars(svg)["Perpetua Quill"]
    assert float(bar["x"]) == pytest.approx(hour_at(svg, 10), abs=0.1)
    end = float(bar["x"]) + float(bar["width"])
    assert end == pytest.approx(hour_at(svg, 12) - 2.0, abs=0.2)


def test_now_is_filled_done_is_dashed_and_to_come_is_open() -> None:
    found = bars(day_picture(BOOKINGS, BAYS))
    assert found["Ottoline Brambleby"]["fill"] == "#2e3a8c"
    assert "stroke-dasharray" in found["Hob Noughtley"]
    assert found["Caspar Thistlewick"]["fill"] == "#f2f4f1"
    assert "stroke-dasharray" not in found["Caspar Thistlewick"]


def test_each_bay_has_a_lane_and_an_unknown_one_is_added_below() -> None:
    extra = Booking(bay="Workshop", name="Final check", start=time(15), end=time(17))
    found = bars(day_picture([*BOOKINGS, extra], BAYS))
    tops = [float(found[name]["y"]) for name in ("Hob Noughtley", "Perpetua Quill", "Final check")]
    assert tops == sorted(tops)
    assert len(set(tops)) == 3


def test_visits_that_overlap_in_a_bay_stand_under_each_other() -> None:
    late = Booking(bay="Bay 2", name="Late One", start=time(11, 30), end=time(13))
    found = bars(day_picture([*BOOKINGS, late], BAYS))
    assert float(found["Late One"]["y"]) > float(found["Perpetua Quill"]["y"])


def test_visits_that_follow_each_other_share_a_row() -> None:
    after = Booking(bay="Bay 2", name="Next One", start=time(12), end=time(13))
    found = bars(day_picture([*BOOKINGS, after], BAYS))
    assert found["Next One"]["y"] == found["Perpetua Quill"]["y"]


def test_the_present_is_a_line_at_its_time() -> None:
    svg = day_picture(BOOKINGS, BAYS, now=time(14, 30))
    line = re.search(r'd="M([\d.]+) 24.0V', svg)
    assert line is not None
    middle = (hour_at(svg, 14) + hour_at(svg, 15)) / 2.0
    assert float(line.group(1)) == pytest.approx(middle, abs=0.1)
    assert "14:30</text>" in svg


def test_an_empty_day_is_a_bare_rule() -> None:
    svg = day_picture([], BAYS)
    assert bars(svg) == {}
    assert hour_at(svg, 8) < hour_at(svg, 20)
    assert "nothing is booked" in svg


def test_a_visit_beyond_the_day_is_held_inside() -> None:
    early = Booking(bay="Bay 1", name="Early", start=time(6), end=time(9))
    late = Booking(bay="Bay 1", name="Late", start=time(19), end=time(23))
    svg = day_picture([early, late], BAYS)
    found = bars(svg)
    assert float(found["Early"]["x"]) == pytest.approx(hour_at(svg, 8))
    end = float(found["Late"]["x"]) + float(found["Late"]["width"])
    assert end <= hour_at(svg, 20)
    assert "Early, 6:00 to 9:00, to come" in svg


def test_a_visit_that_does_not_last_is_refused() -> None:
    with pytest.raises(InputError, match="9:30 to 9:30 does not last"):
        Booking(bay="Bay 1", name="Nobody", start=time(9, 30), end=time(9, 30))


@pytest.mark.parametrize("minutes", [5, 15, 30, 45, 60, 90, 180])
def test_names_stand_apart_and_inside(
    minutes: int, misplaced: Callable[[str], list[str]], on_screen: Callable[[str], str]
) -> None:
    end = time(13 + minutes // 60, minutes % 60)
    short = Booking(
        bay="Bay 2", name="Marmaduke Fennimoss", start=time(13), end=end, stage=Stage.NOW
    )
    near = Booking(bay="Bay 2", name="Sunniva Oakapple", start=end, end=time(18))
    svg = day_picture([*BOOKINGS, short, near], BAYS, now=time(13, 4), prefix="today")
    assert misplaced(svg) == []
    on_screen(svg)


def test_a_very_short_visit_is_named_beside_its_bar() -> None:
    short = Booking(bay="Bay 2", name="Ada Fen", start=time(13), end=time(13, 20), stage=Stage.NOW)
    svg = day_picture([short], BAYS)
    assert re.search(r'fill="#182024"[^>]*>Ada Fen</text>', svg)


def test_a_name_is_text_and_never_markup() -> None:
    odd = Booking(bay="Bay 1", name="<b>&Co", start=time(9), end=time(12))
    svg = day_picture([odd], BAYS)
    assert "<b>" not in svg
    assert "&lt;b&gt;&amp;Co" in svg


def test_the_twin_tells_the_day_bay_by_bay() -> None:
    told = day_words(BOOKINGS, [*BAYS, "Bay 3"], now=time(14, 32))
    assert told.startswith("It is 14:32. Bay 1: Hob Noughtley 9:30 to 11:00, done; Ottoline ")
    assert "Bay 2: Perpetua Quill 10:00 to 12:00, to come." in told
    assert told.endswith("Bay 3: free.")
    assert day_words([], BAYS) == "Nothing is booked today."
