"""What a person answers settles a table."""

from collections.abc import Callable, Iterator

import pytest

from loftwright.cli.doubts import settle
from loftwright.intake.doubts import Doubt
from loftwright.intake.options import ReadOptions

DOUBT = Doubt(
    column="Col A",
    question="what is 'Col A'?",
    samples=((2, "148"),),
    options=('--column "Col A=ball speed[mph]"', '--column "Col A=ignore"'),
)
Answer = Callable[..., None]


@pytest.fixture
def answer(monkeypatch: pytest.MonkeyPatch) -> Answer:
    def give(*answers: str) -> None:
        left: Iterator[str] = iter(answers)
        monkeypatch.setattr("typer.prompt", lambda *_, **__: next(left))

    return give


def test_a_number_takes_the_option_beside_it(
    answer: Answer, capsys: pytest.CaptureFixture[str]
) -> None:
    answer("2")
    assert settle([DOUBT], ReadOptions()).columns == ("Col A=ignore",)
    asked = capsys.readouterr()
    assert asked.out == ""
    assert "what is 'Col A'?" in asked.err
    assert "row 2: 148" in asked.err
    assert '1  --column "Col A=ball speed[mph]"' in asked.err


def test_answers_join_what_was_settled_before(answer: Answer) -> None:
    answer("1", '--only "Golfer=Ann B"', '--club-column "Stick"', "--not-ours 14")
    options = ReadOptions(columns=("Spin=spin[rpm]",), hand="left")
    settled = settle([DOUBT, DOUBT, DOUBT, DOUBT], options)
    assert settled.columns == ("Spin=spin[rpm]", "Col A=ball speed[mph]")
    assert settled.only == ("Golfer=Ann B",)
    assert settled.club_column == "Stick"
    assert settled.not_ours == (14,)
    assert settled.hand == "left"


@pytest.mark.parametrize("text", ["", "9", "--column", 'an open "quote', "--not-ours x"])
def test_an_answer_that_settles_nothing_is_asked_again(
    answer: Answer, text: str, capsys: pytest.CaptureFixture[str]
) -> None:
    answer(text, "1")
    assert settle([DOUBT], ReadOptions()).columns == ("Col A=ball speed[mph]",)
    assert "settles nothing" in capsys.readouterr().err
