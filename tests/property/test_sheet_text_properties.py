"""What is typed on a build sheet comes back: through text, form, units and decimal mark."""

from hypothesis import given
from hypothesis import strategies as st

from built_jobs import DRAFT
from loftwright.domain.sheet_fields import FIELDS
from loftwright.domain.sheet_kinds import FIGURES, Holds
from loftwright.report.screen_numbers import Show
from loftwright.services.sheet_text import draft_of, figure_text, issued_of
from loftwright.web.forms import Typed
from loftwright.web.sheet_forms import read_draft, typed_draft

WORDS = st.text(min_size=1, max_size=40).map(str.strip).filter(bool)
TEXTS = st.dictionaries(
    st.sampled_from([one.name for one in FIELDS.values() if one.kind is Holds.TEXT]), WORDS
)
AMOUNTS = st.dictionaries(
    st.sampled_from(
        [
            one.name
            for one in FIELDS.values()
            if one.kind in FIGURES and not one.name.startswith("parts.")
        ]
    ),
    st.floats(min_value=0.001, max_value=900.0).map(figure_text).filter(lambda one: one != "0"),
)
SHOWS = st.builds(
    Show, units=st.sampled_from(["trade", "metric"]), decimal=st.sampled_from(["point", "comma"])
)


@given(TEXTS, AMOUNTS)
def test_a_sheet_comes_back_from_its_build_text(
    texts: dict[str, str], amounts: dict[str, str]
) -> None:
    draft = DRAFT | texts | amounts
    issued = issued_of(draft)
    assert draft_of(issued.build, issued.fields) == draft


@given(AMOUNTS, SHOWS)
def test_a_form_that_nobody_touched_gives_back_every_digit(
    amounts: dict[str, str], show: Show
) -> None:
    draft = DRAFT | amounts | {"torque_source": "on it"}
    typed = Typed(fields=typed_draft(draft, show), show=show)
    read = read_draft(typed, draft)
    assert {name: read[name] for name in draft} == draft


@given(AMOUNTS, SHOWS)
def test_a_form_typed_anew_loses_less_than_the_bench_can_tell(
    amounts: dict[str, str], show: Show
) -> None:
    draft = DRAFT | amounts
    read = read_draft(Typed(fields=typed_draft(draft, show), show=show), {})
    for name, text in amounts.items():
        assert abs(float(read.get(name, "0")) - float(text)) <= 6e-5, name
