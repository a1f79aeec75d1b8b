import re

import pytest

from loftwright.report import look
from loftwright.report.marks import deal_marks
from loftwright.report.picture_parts import club_shape, label, picture
from loftwright.report.theme_svg import TOKENS, for_screen


def test_every_colour_of_the_look_has_a_token_of_its_own() -> None:
    colours = {value for name, value in vars(look).items() if name.isupper() and name[0] != "_"}
    flat = {colour for colour in colours if isinstance(colour, str)} | set(look.CLUB_COLOURS)
    assert set(TOKENS) == flat
    assert len(set(TOKENS.values())) == len(TOKENS)


def test_the_ground_of_paper_and_screen_change_places() -> None:
    assert for_screen(f'<rect fill="{look.FAIRWAY}"/>') == '<rect fill="var(--sheet)"/>'
    assert for_screen(f'<rect fill="{look.SHEET}"/>') == '<rect fill="var(--paper)"/>'


def test_a_club_keeps_its_colour_by_name() -> None:
    shape = club_shape(deal_marks(["Ash", "Larch"], None)["Larch"], 0.0, 0.0, 8.0)
    assert 'fill="var(--club-larch)"' in for_screen(shape)


def test_a_colour_without_a_token_is_refused() -> None:
    with pytest.raises(ValueError, match="#123456"):
        for_screen('<path stroke="#123456"/>')


def test_letters_lose_their_inline_style_and_take_the_family_of_the_page() -> None:
    shown = for_screen(label(1.0, 2.0, "carry", soft=True))
    assert "style=" not in shown
    assert 'font-family="var(--sans)"' in shown
    assert 'fill="var(--ink-2)"' in shown
    assert 'class="q"' in shown


def test_words_on_the_accent_take_the_colour_made_for_it() -> None:
    shown = for_screen(label(1.0, 2.0, "now", bold=True, on_accent=True))
    assert 'fill="var(--on-accent)"' in shown


def test_words_are_escaped_and_a_hash_in_them_is_no_colour() -> None:
    shown = for_screen(label(1.0, 2.0, 'shaft <#123456> & "co"'))
    assert "&lt;#123456&gt; &amp; &quot;co&quot;" in shown


def test_a_reference_to_an_id_is_no_colour() -> None:
    assert for_screen('<g clip-path="url(#face)"/>') == '<g clip-path="url(#face)"/>'


@pytest.mark.parametrize("prefix", ["", "1a", 'a"b', "a b"])
def test_a_prefix_that_cannot_begin_an_id_is_refused(prefix: str) -> None:
    with pytest.raises(ValueError, match="cannot begin an id"):
        picture(10.0, 10.0, [], title="nothing", prefix=prefix)


def test_a_picture_says_its_name_and_its_size() -> None:
    svg = picture(392.0, 84.0, [], title="Feel <now>", prefix="feel", data={"left": "12"})
    assert re.match(r'<svg xmlns="http://www.w3.org/2000/svg" width="392" height="84" ', svg)
    assert 'role="img" aria-labelledby="feel-title" data-left="12">' in svg
    assert '<title id="feel-title">Feel &lt;now&gt;</title>' in svg


def test_a_colour_that_lets_everything_through_is_none() -> None:
    assert for_screen('<rect fill="#ffffff00"/>') == '<rect fill="none"/>'
