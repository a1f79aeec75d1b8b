"""Whoever keeps a golfer in mind is told of an erase, also of one that this process did not do."""

from pathlib import Path

from loftwright.domain.golfer import Golfer, Identity
from loftwright.services.erasing import erase_everywhere
from loftwright.services.golfers import add_golfer
from loftwright.services.live import Hub
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store
from loftwright.store.topics import ERASED
from studios import Clock


def test_after_a_lost_connection_an_erase_may_have_been_missed() -> None:
    hub, heard = Hub(), list[str]()
    hub.listen(heard.append)
    hub.heard("", 0)
    assert heard == [ERASED]


def test_an_erase_by_another_process_on_a_file_is_seen_once(tmp_path: Path) -> None:
    here, there = (
        Studio(store=open_store(tmp_path), folder=tmp_path, clock=Clock()) for _ in range(2)
    )
    heard = list[str]()
    golfer = add_golfer(here, Golfer(id=""), Identity(name="A"))
    there.hub.listen(heard.append)
    there.look_for_erased()
    assert heard == []
    erase_everywhere(here, golfer.id)
    there.look_for_erased()
    there.look_for_erased()
    assert heard == [ERASED]
    here.store.close()
    there.store.close()
