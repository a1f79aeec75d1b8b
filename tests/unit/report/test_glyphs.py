import pytest

from loftwright.report.glyphs import BREAK, STAND_IN, clean, covered, printable


def test_the_letters_of_the_pages_own_words_are_covered() -> None:
    needed = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
    needed += "−+°%&'’“”.,;:·–…←→()[]/<>#\N{NO-BREAK SPACE}" + STAND_IN + BREAK
    assert {ord(letter) for letter in needed} <= covered()


@pytest.mark.parametrize("name", ["Ondřej Žák", "Nguyễn Văn", "Ελένη", "Жанна", "Ångström"])
def test_names_in_latin_greek_and_cyrillic_are_printed_as_they_are(name: str) -> None:
    assert printable(name) == name


def test_a_letter_with_a_plain_form_is_printed_plainly() -> None:
    assert printable("ｶﾞ１２")[-2:] == "12"
    assert printable("Ⓐsh") == "Ash"


def test_a_letter_without_one_is_a_square() -> None:
    assert printable("竹 66") == f"{STAND_IN} 66"


def test_what_cannot_be_printed_at_all_is_left_out() -> None:
    assert printable("a\x07b\ud800\u202ec\x00") == "abc"


def test_breaks_of_lines_become_spaces() -> None:
    assert clean("one\r\ntwo\tthree\u2028four") == "one  two three four"


def test_a_space_that_must_not_break_stays_one() -> None:
    assert printable("5\N{NO-BREAK SPACE}yd") == "5\N{NO-BREAK SPACE}yd"
    assert printable(f"a{BREAK}b") == f"a{BREAK}b"


def test_letters_in_pieces_are_put_together() -> None:
    assert printable("e\u0301") == "é"


def test_clean_text_keeps_letters_that_the_typefaces_lack() -> None:
    assert clean("竹 66\x07") == "竹 66"
