"""An order in plain words: what is wanted, by initials, and what a builder cannot do."""

from dataclasses import replace
from datetime import date

import pytest

from loftwright.constants import DEGREE, INCH
from loftwright.domain.golfer import Hand, Identity
from loftwright.domain.order import ClubSpec, Kept, PriceLine
from loftwright.domain.tolerances import Tolerances
from loftwright.evidence.neighbours import CONFIRMING_BALLS
from loftwright.report.order_prices import amount, share_words, sum_rows, untold
from loftwright.report.order_why import balls_line, why_lines
from loftwright.report.order_words import (
    FEW_BALLS_KNOWN,
    OrderText,
    cannot_lines,
    day_words,
    order_text,
    promise_rows,
    spec_rows,
    without_name,
)
from loftwright.report.screen_numbers import Show
from orders import LINES, a_quote, a_spec

TRADE = Show()
METRIC = Show(units="metric", decimal="comma")
ORDER = OrderText(
    shop="The Lantern Bay",
    initials="O.B.",
    to="The Old Forge",
    day=date(2026, 11, 26),
    promised=date(2026, 12, 10),
    spec=a_spec(),
    lines=LINES,
    note="Logo below.",
    cannot=("tip trim", "tight swingweight", "paint"),
    tolerances=Tolerances(),
)


def test_an_order_says_who_what_and_when() -> None:
    text = order_text(ORDER, TRADE)
    for line in (
        "Order from The Lantern Bay, 26 November 2026",
        "To: The Old Forge",
        "For: O.B.",
        "Ready by: 10 December 2026",
        "Wanted: A new club, right-handed",
        "As: Ash of this fitting",
        "Head: Harrow 460: 10.5° loft, 58.0° lie, face square, before the sleeve",
        "Sleeve: middle",
        "Shaft: Reedmace firm",
        "Grip: not said",
        "Length: 45.25 in",
        "- 2 x Spare sleeve",
        "Note: Logo below.",
    ):
        assert line in text.split("\n")
    assert "The golfer’s own club comes" not in text


def test_an_order_tells_no_price() -> None:
    text = order_text(ORDER, TRADE)
    priced = replace(ORDER, lines=tuple(replace(one, price=None) for one in LINES))
    assert text == order_text(priced, TRADE)


def test_what_keeps_a_part_comes_with_the_own_club() -> None:
    for kept, words in (
        (Kept.HEAD, "Wanted: The golfer’s own head with a new shaft, right-handed"),
        (Kept.CLUB, "Wanted: The golfer’s own club, changed, right-handed"),
    ):
        text = order_text(replace(ORDER, spec=a_spec(kept=kept)), TRADE)
        assert words in text
        assert "The golfer’s own club comes with this order." in text


def test_what_was_not_hit_is_said_to_be_so() -> None:
    assert ("As", "Ash of this fitting, not hit") in spec_rows(a_spec(hit=False), TRADE)


@pytest.mark.parametrize(
    ("face", "words"),
    [(1.5, "face 1.5° open"), (-1.0, "face 1.0° closed"), (0.01, "face square")],
)
def test_a_face_is_open_closed_or_square_and_never_signed(face: float, words: str) -> None:
    rows = dict(spec_rows(a_spec(face=face * DEGREE), TRADE))
    assert words in rows["Head"]


def test_figures_are_in_the_shop_s_units() -> None:
    spec = a_spec(label="Ash, half an inch longer", hand=Hand.LEFT, settings=(), grip="Cord, mid")
    rows = dict(spec_rows(spec, METRIC))
    assert rows["As"] == "Ash, 13 mm longer of this fitting"
    assert rows["Length"] == "1149 mm"
    assert rows["Sleeve"] == "none: glued hosel"
    assert (rows["Grip"], rows["Wanted"]) == ("Cord, mid", "A new club, left-handed")
    told = dict(promise_rows(spec, METRIC))
    assert told["At Farrow Links"] == "carry 218 m + run 15 m"
    assert told["Off the face"] == "66,2 m/s, launch 12,3°, spin 2540 rpm"
    assert told["Fairways in 14"] == "8,3"
    assert told["Worth against Own"] == "+3,0 m (−0,5 to +6,5), nine chances in ten"


def test_nothing_is_told_of_a_club_that_promised_nothing() -> None:
    assert promise_rows(a_spec(promise=None), TRADE) == ()
    promise = a_spec().promise
    assert promise is not None
    less = replace(promise, home="", fairways_in_14=None, value=None)
    rows = dict(promise_rows(a_spec(promise=less), TRADE))
    assert set(rows) == {"At home", "Off the face"}


def flags(spec: ClubSpec, *cannot: str, show: Show = TRADE) -> tuple[str, ...]:
    return cannot_lines(spec, cannot, Tolerances(swingweight=0.5), show)


def test_a_builder_who_cannot_trim_or_balance_is_told_what_it_means() -> None:
    trim, balance, paint = flags(a_spec(), "Tip trim", "tight swing weight", "paint")
    assert trim.startswith("Tip trim: this shaft is wanted as it was tested.")
    assert "more than 0.5 points off what was hit" in balance
    assert paint == "paint: look whether this club needs it, and say so before it is begun."
    assert "0,5 points" in flags(a_spec(), "swingweight", show=METRIC)[0]


def test_turning_a_sleeve_needs_neither_trim_nor_balance() -> None:
    turned = a_spec(kept=Kept.CLUB, label="Own, one up")
    for one in flags(turned, "tip trim", "swingweight"):
        assert "does not matter here" in one
    longer = a_spec(kept=Kept.CLUB, label="Own, half an inch longer")
    trim, balance = flags(longer, "tip trim", "swingweight")
    assert "does not matter here" in trim
    assert "0.5 points" in balance


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Ring Ottoline Brambleby", "Ring O.B."),
        ("ring ottoline brambleby", "ring O.B."),
        ("Ottoline rings", "O. rings"),
        ("Mrs Brambleby's grip", "Mrs B.'s grip"),
        ("Brambles stay", "Brambles stay"),
        ("", ""),
    ],
)
def test_no_part_of_a_name_goes_to_the_workshop(text: str, told: str) -> None:
    assert without_name(text, Identity(name="Ottoline Brambleby")) == told


def test_words_in_brackets_are_no_name() -> None:
    identity = Identity(name="Rosalind Quickly (invented)")
    assert identity.initials == "R.Q."
    assert without_name("Harrow (invented)", identity) == "Harrow (invented)"
    assert without_name("for Rosalind Quickly (invented)", identity) == "for R.Q."


def test_a_day_is_said_in_words_that_stay_together() -> None:
    assert day_words(date(2026, 12, 9)) == "9\N{NO-BREAK SPACE}December\N{NO-BREAK SPACE}2026"


def test_the_sum_is_told_line_by_line() -> None:
    assert sum_rows(a_quote(tax=0.077), TRADE) == (
        ("Sum without tax", "538 crowns", False),
        ("Tax, 7.7 %", "41.43 crowns", False),
        ("Sum with tax", "579.43 crowns", True),
        ("Deposit, 30 %", "173.83 crowns", False),
        ("When it is fetched", "405.60 crowns", False),
    )
    assert share_words(0.077, METRIC) == "7,7 %"
    assert share_words(0.0, TRADE) == "0 %"


def test_without_tax_and_deposit_there_is_one_sum() -> None:
    assert sum_rows(a_quote(tax=0.0, deposit=0.0), TRADE) == (("Sum", "538 crowns", True),)
    names = [name for name, _, _ in sum_rows(a_quote(tax=0.0), TRADE)]
    assert names == ["Sum", "Deposit, 30 %", "When it is fetched"]


def test_a_sum_that_is_not_told_says_which_line_lacks_its_price() -> None:
    bare = tuple(replace(one, price=None) for one in LINES[:2])
    quote = a_quote(lines=bare)
    assert untold(quote) == ("no price for “Club: Harrow 460, Reedmace firm” and “Build and grip”")
    assert sum_rows(quote, TRADE) == (("Sum", f"not told: {untold(quote)}", True),)
    assert untold(a_quote(lines=())) == "nothing stands in it"
    assert untold(a_quote()) == ""
    assert amount(None, "crowns", TRADE) == "–"


def test_the_number_of_confirming_balls_is_the_one_that_is_written() -> None:
    assert CONFIRMING_BALLS == 5
    assert "fewer than five balls" in FEW_BALLS_KNOWN


@pytest.mark.parametrize(
    ("balls", "told"),
    [
        (0, "No ball was hit with just this club: 5 before an order."),
        (1, "1 ball hit with just this club; 5 before an order."),
        (4, "4 balls hit with just this club; 5 before an order."),
        (5, "5 balls hit with just this club."),
    ],
)
def test_balls_are_counted_until_there_are_enough(balls: int, told: str) -> None:
    assert balls_line(balls) == told


def test_what_it_rests_on_is_said_without_a_comparison_too() -> None:
    told = why_lines(
        None,
        None,
        balls=0,
        rests="told from Own, half an inch longer",
        feel=None,
        word="",
        show=METRIC,
    )
    assert told == (
        "Told from Own, 13 mm longer.",
        "No ball was hit with just this club: 5 before an order.",
    )


def test_a_length_is_told_to_the_digits_of_the_trade() -> None:
    rows = dict(spec_rows(a_spec(length=44.5 * INCH), TRADE))
    assert rows["Length"] == "44.50 in"


def test_a_line_may_be_free_of_charge() -> None:
    free = PriceLine(what="Turn the sleeve", kind=LINES[1].kind, price=0)
    rows = {name: money for name, money, _ in sum_rows(a_quote(lines=(free,)), TRADE)}
    assert rows["Sum with tax"] == "0 crowns"
