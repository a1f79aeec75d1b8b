"""Settled columns that are remembered."""

from pathlib import Path

import pytest

from loftwright.errors import IntakeError
from loftwright.intake.mappings import recall, remember
from loftwright.intake.settle import read_setting


def test_what_was_settled_comes_back_for_the_same_headings(tmp_path: Path) -> None:
    path = tmp_path / "data" / "mappings.toml"
    texts = ['Col "A"\\=ball speed[mph]', "Größe\t1=spin[rpm]", "名=ignore"]
    settings = [read_setting(text) for text in texts]
    assert remember(path, "f1", settings)
    assert not remember(path, "f1", settings)
    assert remember(path, "f2", settings[:1])
    assert [setting.text for setting in recall(path, "f1")] == texts
    assert [setting.text for setting in recall(path, "f2")] == texts[:1]
    assert recall(path, "f3") == ()
    assert recall(None, "f1") == ()
    assert recall(tmp_path / "none.toml", "f1") == ()


@pytest.mark.parametrize(
    "content",
    [
        b"not = [toml",
        b"\xff\xfe",
        b"[[table]]\nheadings = 3\ncolumns = []\n",
        b'[[table]]\nheadings = "f"\ncolumns = [1]\n',
        b"table = [1]\n",
        b"table = 1\n",
        b'[[tables]]\nheadings = "f"\ncolumns = ["A=spin[rpm]"]\n',
        b'[[table]]\nheadings = "f"\ncolumns = ["A=parsnips"]\n',
    ],
)
def test_a_damaged_memory_is_named_and_left_as_it_was(content: bytes, tmp_path: Path) -> None:
    path = tmp_path / "mappings.toml"
    path.write_bytes(content)
    with pytest.raises(IntakeError, match=r"remembered") as caught:
        recall(path, "f")
    assert caught.value.place == str(path)
    assert path.read_bytes() == content


def test_a_data_folder_that_cannot_be_made_is_named(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("a file in the way")
    with pytest.raises(IntakeError):
        remember(tmp_path / "data" / "mappings.toml", "f", [read_setting("A=spin[rpm]")])
