"""Work in a process of its own comes back whole: what it found, what it refused, and its end."""

import json
import os

import pytest

from loftwright.errors import InputError
from loftwright.services.own_process import in_own_process
from loftwright.shop.engine import bytes_of


def test_what_the_work_finds_comes_back_from_another_process() -> None:
    assert in_own_process(os.getpid) != os.getpid()
    told = in_own_process(json.dumps, {"b": 1, "a": 2}, sort_keys=True)
    assert told == '{"a": 2, "b": 1}'


def test_a_refusal_keeps_its_place_and_its_mend() -> None:
    with pytest.raises(InputError, match="'much' is no size of memory") as refused:
        in_own_process(bytes_of, "much")
    assert (refused.value.place, refused.value.mend) == ("memory", "Give it as 500MB or 2GB.")


def test_what_nobody_foresaw_says_where_it_happened() -> None:
    with pytest.raises(json.JSONDecodeError) as failed:
        in_own_process(json.loads, "{")
    assert "in raw_decode" in "".join(failed.value.__notes__)


def test_a_process_that_is_ended_from_outside_is_told() -> None:
    with pytest.raises(ChildProcessError, match="without a word, with code 9"):
        in_own_process(os._exit, 9)
