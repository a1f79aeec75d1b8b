"""Text columns give back what they were given."""

from hypothesis import example, given
from hypothesis import strategies as st
from sqlalchemy.engine import make_url

from loftwright.store.words import Words

DIALECTS = (
    make_url("postgresql+psycopg://").get_dialect()(),
    make_url("sqlite://").get_dialect()(),
)
TEXTS = st.text(st.sampled_from("a0\0\ue000") | st.characters(exclude_categories=["Cs"]))


@given(text=TEXTS)
@example(text="\ue000\0\ue0000\0")
def test_every_text_comes_back_and_holds_no_nul_between(text: str) -> None:
    for dialect in DIALECTS:
        kept = Words().process_bind_param(text, dialect)
        assert Words().process_result_value(kept, dialect) == text
    there = Words().process_bind_param(text, DIALECTS[0])
    assert there is not None
    assert "\0" not in there
