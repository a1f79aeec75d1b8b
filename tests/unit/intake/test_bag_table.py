"""A bag as a table: what goes out comes in, and every line that cannot be is named."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bags import a_bag, an_iron
from loftwright.constants import CYCLE_PER_MINUTE, DEGREE, GRAM, MILLIMETRE
from loftwright.domain.bag import BagClub, BagKind, Known, Swung, Timed
from loftwright.domain.build_sheet import LengthMethod
from loftwright.errors import IntakeError
from loftwright.intake.bag_table import COLUMNS, MOST_BYTES, bag_csv, read_bag_table

HEAD = "name,kind,loft_deg,swingweight,frequency_cpm,clamp_mm,tip_mass_g\n"


def assert_alike(one: BagClub, other: BagClub) -> None:
    """Check that two clubs are the same, figures to eleven digits."""
    assert words_of(one) == words_of(other)
    assert figures_of(one) == pytest.approx(figures_of(other), rel=1e-11)


def words_of(club: BagClub) -> dict[str, object]:
    return {
        "said": (club.name, club.kind, club.spare, club.method, club.source),
        "known": [known for known in Known if club.value(known) is not None],
        "doubted": sorted(club.doubts),
        "swung": club.swung is not None,
        "own head": club.timed is not None and club.timed.tip_mass is None,
    }


def figures_of(club: BagClub) -> list[float]:
    timed, swung = club.timed, club.swung
    figures = [club.value(known) for known in Known]
    figures += [club.doubts[known] for known in sorted(club.doubts)]
    figures += [] if timed is None else [timed.clamp, timed.tip_mass]
    figures += [] if swung is None else [swung.pivot, swung.period]
    return [one for one in figures if one is not None]


def test_a_bag_that_went_out_comes_in_again() -> None:
    clubs = (*a_bag().in_play, *a_bag().spares)
    found = read_bag_table(bag_csv(clubs).encode(), "bag.csv")
    assert found.wrong == ()
    assert len(found.clubs) == len(clubs)
    for one, other in zip(found.clubs, clubs, strict=True):
        assert_alike(one, other)


names = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), min_size=1).map(
    lambda text: f"x{text.strip()[:30]}"
)


@st.composite
def any_club(draw: st.DrawFn) -> BagClub:
    def maybe(low: float, high: float, size: float) -> float | None:
        return draw(st.none() | st.floats(low, high).map(lambda value: value * size))

    timed = draw(
        st.none()
        | st.builds(
            Timed,
            frequency=st.floats(101.0, 499.0).map(lambda value: value * CYCLE_PER_MINUTE),
            clamp=st.floats(52.0, 304.0).map(lambda value: value * MILLIMETRE),
            tip_mass=st.none() | st.floats(21.0, 499.0).map(lambda value: value * GRAM),
        )
    )
    doubts = st.dictionaries(st.sampled_from(Known), st.floats(1e-6, 10.0), max_size=3)
    length = maybe(460.0, 1500.0, MILLIMETRE)
    return BagClub(
        name=draw(names),
        kind=draw(st.sampled_from([BagKind.IRON, BagKind.WOOD])),
        spare=draw(st.booleans()),
        loft=maybe(5.0, 74.0, DEGREE),
        length=length,
        method=draw(st.sampled_from(LengthMethod)) if length is not None else LengthMethod.PLANE,
        mass=maybe(201.0, 899.0, GRAM),
        balance=maybe(210.0, 1140.0, MILLIMETRE),
        swingweight=maybe(0.0, 69.99, 1.0),
        inertia=maybe(0.1501, 0.4999, 1.0),
        timed=timed,
        doubts=draw(doubts),
    )


@given(any_club())
def test_any_club_that_can_be_comes_in_as_it_went_out(club: BagClub) -> None:
    found = read_bag_table(bag_csv([club]).encode(), "bag.csv")
    assert found.wrong == ()
    (again,) = found.clubs
    assert (club.swingweight is None) == (again.swingweight is None)
    if club.swingweight is not None:
        # Between 9.999 and the next letter no number stands.
        assert again.swingweight == pytest.approx(club.swingweight, abs=1.1e-3)
    assert_alike(replace(club, swingweight=None), replace(again, swingweight=None))


def test_a_pendulum_goes_out_and_comes_in() -> None:
    club = replace(
        an_iron(7), inertia=None, mass=0.42, balance=0.715, swung=Swung(pivot=0.05, period=1.9)
    )
    (again,) = read_bag_table(bag_csv([club]).encode(), "bag.csv").clubs
    assert_alike(again, club)


def test_semicolons_with_decimal_commas_and_a_mark_in_front_are_read() -> None:
    text = "\ufeffName;Kind;loft_deg;swingweight\r\n7 iron;Iron;34,5;d2,5\r\n;;;\r\n"
    (club,) = read_bag_table(text.encode(), "bag.csv").clubs
    assert club.loft == pytest.approx(34.5 * DEGREE)
    assert club.swingweight == 32.5


def test_every_line_that_cannot_be_is_named_with_its_column_and_mend() -> None:
    rows = (
        "7 iron,iron,34,D2,,,",
        "8 iron,irn,38,,,,",
        "9 iron,iron,x,,,,",
        "PW,iron,46,H2,,,",
        "52,wedge,52,,,127,",
        "53,wedge,53,,300,127,heavy",
        "7 Iron,iron,30,,,,",
        "54,wedge,99,,,,",
        "55,wedge,55,,,,,,",
        ",wedge,56,,,,",
    )
    found = read_bag_table((HEAD + "\n".join(rows)).encode(), "mine.csv")
    assert [one.name for one in found.clubs] == ["7 iron"]
    assert [(one.place, bool(one.mend)) for one in found.wrong] == [
        ("mine.csv, line 3, kind", True),
        ("mine.csv, line 4, loft_deg", True),
        ("mine.csv, line 5, swingweight", True),
        ("mine.csv, line 6, frequency_cpm", True),
        ("mine.csv, line 7, tip_mass_g", True),
        ("mine.csv, line 8, name", True),
        ("mine.csv, line 9, loft_deg", True),
        ("mine.csv, line 10", True),
        ("mine.csv, line 11, name", True),
    ]


@pytest.mark.parametrize(
    ("more", "place"),
    [
        ("spare\n7 iron,iron,maybe\n", "spare"),
        ("length_method\n7 iron,iron,eye\n", "length_method"),
        ("period_s\n7 iron,iron,1.9\n", "pivot_mm"),
        ("pivot_mm\n7 iron,iron,50\n", "period_s"),
        ("length_mm\n7 iron,iron,38\n", "length_mm"),
        ("length_u95_mm\n7 iron,iron,-1\n", "length_mm"),
    ],
)
def test_each_column_tells_its_own_faults(more: str, place: str) -> None:
    (wrong,) = read_bag_table(f"name,kind,{more}".encode(), "b").wrong
    assert wrong.place == f"b, line 2, {place}"


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "no column 'name'"),
        (b"name,kind\n", "0 clubs are no bag"),
        (b"name,loft_deg\n7,34\n", "no column 'kind'"),
        (b"name,kind,loft_degrees\n7,iron,34\n", "'loft_degrees' is not known"),
        (b"name,kind,name\n7,iron,8\n", "a column stands twice"),
        (b"name,kind\n\xff,iron\n", "not in UTF-8"),
        (b"name,kind\n" + b"7,iron\n" * 61, "61 clubs are no bag"),
        (b"x" * (MOST_BYTES + 1), "are no bag"),
        (b'name,kind\n"7"x,iron\n', "it is no table"),
    ],
)
def test_what_is_no_table_of_clubs_is_refused_whole(data: bytes, says: str) -> None:
    with pytest.raises(IntakeError, match=says):
        read_bag_table(data, "b")


def test_the_columns_are_those_that_are_written() -> None:
    assert tuple(bag_csv([]).strip().split(",")) == COLUMNS
