from collections.abc import Callable
from dataclasses import replace
from datetime import date

from loftwright.evidence.result import Decision
from loftwright.report.content import ReportContent


def test_the_title_names_golfer_and_day_where_they_are_known(
    make_decision: Callable[..., Decision],
    make_content: Callable[[Decision], ReportContent],
) -> None:
    content = make_content(make_decision())
    assert content.title == "Driver fitting for Ottoline Brambleby, 25 November 2026"
    assert replace(content, golfer="").title == "Driver fitting, 25 November 2026"
    assert replace(content, visit_date=None).title == "Driver fitting for Ottoline Brambleby"
    assert replace(content, visit_date=date(2027, 1, 3)).date_words == "3 January 2027"
