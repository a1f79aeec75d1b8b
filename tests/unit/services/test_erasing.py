"""Erased is erased: every record's key is gone, and nobody is called so any more."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bays import a_bay
from loftwright.domain.acts import Closed
from loftwright.domain.golfer import Golfer, Identity
from loftwright.errors import ConflictError, NotFoundError
from loftwright.services.erasing import erase_golfer
from loftwright.services.golfers import add_golfer, known_golfers
from loftwright.services.merging import merge
from loftwright.services.studio import Studio
from loftwright.store.golfers import ERASED
from loftwright.store.sqlite import open_store
from studios import studio_in_memory


def test_all_records_of_a_golfer_lose_their_keys_and_others_keep_theirs(tmp_path: Path) -> None:
    at = datetime(2026, 11, 26, 9, tzinfo=UTC)
    studio = Studio(store=open_store(tmp_path), folder=tmp_path, clock=lambda: at)
    first, second, other = (
        add_golfer(studio, Golfer(id="", goal=f"goal of {name}"), Identity(name=name))
        for name in ("A", "B", "C")
    )
    merge(studio, second.id, first.id)
    assert erase_golfer(studio, second.id) == (first.id, second.id)
    assert [studio.store.identity(one).name for one in (first.id, second.id)] == [ERASED.name] * 2
    assert sorted(one.name for one in (tmp_path / "keys").iterdir()) == [f"{other.id}.key"]
    assert [one.identity.name for one in known_golfers(studio)] == ["C"]
    assert studio.store.golfer(first.id).value.goal != "goal of A"
    assert studio.store.golfer(other.id).value.goal == "goal of C"
    erase_golfer(studio, first.id)
    studio.store.close()


def test_nobody_is_erased_while_hitting() -> None:
    bay = a_bay()
    second = add_golfer(bay.studio, replace(bay.golfer, id="", own=None), Identity(name="B"))
    bay.ball()
    with pytest.raises(ConflictError, match="runs in Bay 1"):
        erase_golfer(bay.studio, bay.golfer.id)
    assert bay.studio.store.identity(bay.golfer.id).name == "Ottoline Brambleby"
    bay.do(Closed())
    merge(bay.studio, second.id, bay.golfer.id)
    erase_golfer(bay.studio, second.id)
    assert bay.studio.store.identity(bay.golfer.id) == ERASED
    assert len(bay.now.balls) == 1


def test_a_golfer_who_is_not_there_cannot_be_erased() -> None:
    with pytest.raises(NotFoundError):
        erase_golfer(studio_in_memory(), "nobody")
