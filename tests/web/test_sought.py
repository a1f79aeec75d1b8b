"""What was looked for is kept in mind for a while, under a mark that does not tell it."""

from loftwright.web.sought import KEPT, MOST, Sought


def test_a_mark_stands_for_what_was_looked_for_and_does_not_tell_it() -> None:
    sought = Sought()
    mark = sought.keep("Ottoline")
    assert sought.text(mark) == "Ottoline"
    assert "ottoline" not in mark.lower()
    assert sought.keep("Ottoline") != mark


def test_what_nobody_kept_stands_for_nothing() -> None:
    sought = Sought()
    assert sought.text("guessed") == ""
    assert sought.keep("  ") == ""


def test_a_name_is_forgotten_after_an_hour() -> None:
    now = [0.0]
    sought = Sought(lambda: now[0])
    mark = sought.keep("Ottoline")
    now[0] = KEPT - 1.0
    assert sought.text(mark) == "Ottoline"
    now[0] = KEPT
    assert sought.text(mark) == ""


def test_only_the_newest_are_kept() -> None:
    sought = Sought()
    first = sought.keep("first")
    last = [sought.keep(str(number)) for number in range(MOST)][-1]
    assert sought.text(first) == ""
    assert sought.text(last) == str(MOST - 1)
