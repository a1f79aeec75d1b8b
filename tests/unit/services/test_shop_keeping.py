"""What is closed goes into the shop record by itself, and what may not stand in it comes out."""

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from threading import Event, Thread
from time import monotonic, sleep

import pyarrow.parquet as pq
import pytest

from demos import a_demo
from loftwright.domain.acts import Closed, ClubDropped
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.inspection import Finding, Inspection
from loftwright.domain.rack import State
from loftwright.errors import StoreError
from loftwright.services.acting import act, undo
from loftwright.services.evidence import Desk
from loftwright.services.golfers import add_golfer, change_golfer, known_golfer
from loftwright.services.merging import merge, take_apart
from loftwright.services.opening import open_studio
from loftwright.services.rack_back import NAME as LAST_IMPORT
from loftwright.services.rack_back import Came, remember, take_back
from loftwright.services.rack_changing import set_state
from loftwright.services.recalling import lock_all, put_all_back
from loftwright.services.shop_folder import (
    code_of_golfer,
    note_trouble,
    record_folder,
    record_trouble,
)
from loftwright.services.shop_keeping import ShopKeeper
from loftwright.services.shop_learning import learn_shop
from loftwright.services.shop_leaving import leave_golfer, take_out_stale
from loftwright.services.shop_record import keep_fitting, record_recall, record_shop
from loftwright.services.studio import Studio
from loftwright.services.training_plays import new_training_id
from loftwright.services.wear import inspect
from loftwright.shop.engine import sums_in
from loftwright.shop.record import files, keep
from loftwright.store.keys import KeyRing
from loftwright.store.topics import FITTING, RECORD
from shop_samples import a_fitting, shaft_effects
from shop_studios import with_consent
from studios import Clock, studio_in_memory


class Shop:
    """A studio in memory whose finished fitting may teach the shop, and who keeps its record."""

    def __init__(self, studio: Studio) -> None:
        self.studio, self.desk = studio, Desk()
        self.keeper = ShopKeeper(studio, self.desk)
        self.told: list[str] = []
        studio.hub.listen(self.told.append)
        self.fitting = a_demo(studio).finished
        self.golfer = with_consent(studio, self.fitting, agreed=True)
        self.keeper.keep(self.fitting)

    def rows(self) -> list[dict[str, object]]:
        return [
            row
            for file in files(record_folder(self.studio))
            for row in pq.read_table(file, partitioning=None).to_pylist()
        ]

    def catch_up(self) -> None:
        """Do what the keeper would do behind the pages."""
        told, self.told[:] = [*self.told], []
        for topic in told:
            if topic.startswith(("fitting:", RECORD)):
                self.keeper.keep(topic.removeprefix("fitting:").removeprefix(RECORD))

    def piece_of(self, club: str) -> str:
        found = self.studio.standing(self.fitting).club(club)
        assert found is not None
        return found.card.shaft_piece

    def close(self) -> None:
        act(self.studio, self.fitting, [Closed()])

    def open_again(self) -> None:
        last = next(
            one
            for one in reversed(self.studio.record(self.fitting))
            if isinstance(one.act, Closed)
        )
        undo(self.studio, self.fitting, last.sequence, seen=None)


@pytest.fixture
def shop() -> Shop:
    return Shop(studio_in_memory())


def test_closing_puts_a_fitting_into_the_record_and_opening_takes_it_out(shop: Shop) -> None:
    there = shop.rows()
    assert len(there) == 40
    shop.open_again()
    shop.catch_up()
    assert shop.rows() == []
    shop.close()
    shop.catch_up()
    assert shop.rows() == there


def test_a_fitting_under_way_is_not_looked_at(shop: Shop) -> None:
    shop.open_again()
    shop.catch_up()
    shop.keeper.keep(shop.fitting)
    assert shop.rows() == []
    assert not keep_fitting(shop.studio, shop.desk, shop.fitting)


def test_a_record_that_cannot_be_written_loses_no_closing_and_is_mended_later(
    shop: Shop,
) -> None:
    there = shop.rows()
    shop.open_again()
    shop.catch_up()
    folder = record_folder(shop.studio)
    aside = folder.rename(folder.with_name("aside"))
    folder.write_text("in the way", encoding="utf-8")
    shop.close()
    shop.catch_up()
    assert shop.studio.standing(shop.fitting).closed
    assert "cannot be written" in record_trouble(shop.studio)[shop.fitting]
    with pytest.raises(StoreError, match="cannot be written"):
        keep_fitting(shop.studio, shop.desk, shop.fitting)
    folder.unlink()
    aside.rename(folder)
    record_shop(shop.studio, shop.desk)
    assert record_trouble(shop.studio) == {}
    assert shop.rows() == there


def test_a_golfer_who_says_no_is_out_at_once(shop: Shop) -> None:
    known = known_golfer(shop.studio, shop.golfer)
    silent = replace(known.golfer, consents=replace(known.golfer.consents, shop_record=False))
    change_golfer(shop.studio, silent, known.identity, version=known.version)
    assert shop.rows() == []
    shop.catch_up()
    assert shop.rows() == []


def test_a_golfer_who_says_yes_later_comes_in(shop: Shop) -> None:
    there = shop.rows()
    with_consent(shop.studio, shop.fitting, agreed=False)
    record_shop(shop.studio, shop.desk)
    assert shop.rows() == []
    known = known_golfer(shop.studio, shop.golfer)
    agreed = replace(known.golfer, consents=replace(known.golfer.consents, shop_record=True))
    change_golfer(shop.studio, agreed, known.identity, version=known.version)
    shop.catch_up()
    assert shop.rows() == there


def test_a_fitting_called_invented_is_out(shop: Shop) -> None:
    with_consent(shop.studio, shop.fitting, agreed=True, invented=True)
    shop.keeper.keep(shop.fitting)
    assert shop.rows() == []


def test_a_no_that_cannot_be_carried_out_is_noted_and_made_up_for(shop: Shop) -> None:
    with_consent(shop.studio, shop.fitting, agreed=False)
    (file,) = files(record_folder(shop.studio))
    raw = file.read_bytes()
    file.write_bytes(b"damaged")
    assert not leave_golfer(shop.studio, shop.golfer)
    assert shop.golfer in record_trouble(shop.studio)
    file.write_bytes(raw)
    assert take_out_stale(shop.studio) == 1
    assert shop.rows() == []
    assert leave_golfer(shop.studio, shop.golfer)
    assert record_trouble(shop.studio) == {}


@pytest.fixture
def on_disk(tmp_path: Path) -> Iterator[Shop]:
    studio = open_studio(tmp_path)
    yield Shop(studio)
    studio.store.close()


def test_a_golfer_who_was_erased_leaves_nothing(on_disk: Shop, tmp_path: Path) -> None:
    assert len(on_disk.rows()) == 40
    KeyRing(tmp_path).forget(on_disk.golfer)
    ShopKeeper(on_disk.studio, on_disk.desk).resume()
    assert on_disk.rows() == []
    assert record_shop(on_disk.studio, on_disk.desk).fittings == 0


def test_what_is_missing_is_taken_up_when_the_studio_opens(shop: Shop) -> None:
    there = shop.rows()
    for file in files(record_folder(shop.studio)):
        file.unlink()
    late = ShopKeeper(shop.studio, shop.desk)
    late.resume()
    late.keep(shop.fitting)
    assert shop.rows() == there


def taught(shop: Shop) -> dict[str, object]:
    """Return sums and what is learned, beside thirty fittings of others."""
    effects = shaft_effects(3)
    for seed in range(30):
        keep(record_folder(shop.studio), a_fitting(seed, effects))
    sums = sorted((dict(row) for row in sums_in(record_folder(shop.studio))), key=str)
    learned = learn_shop(shop.studio)
    place = record_folder(shop.studio) / "learned" / f"{learned.version:04d}.json"
    told = json.loads(place.read_text(encoding="utf-8"))
    # Names of files carry the version; the digest of what is in them stays.
    del told["version"], told["covariance"]["file"]
    return {"rows": shop.rows(), "sums": sums, "learned": told}


def test_a_recalled_piece_leaves_what_a_shop_has_that_never_had_its_balls(shop: Shop) -> None:
    """A club that the fitter took out before closing never left a ball in the record."""
    before, piece = shop.rows(), shop.piece_of("Ash")
    locked = lock_all(shop.studio, piece, "cracked ferrule")
    assert shop.rows() == []
    shop.catch_up()
    after = shop.rows()
    assert 0 < len(after) < len(before)
    assert "Ash" not in {row["club"] for row in after}
    recalled = taught(shop)
    put_all_back(shop.studio, locked, "cracked ferrule")
    shop.open_again()
    act(shop.studio, shop.fitting, [ClubDropped(club="Ash")])
    shop.close()
    shop.catch_up()
    assert taught(shop) == recalled


def test_a_golfer_taken_out_leaves_sums_and_learning_of_a_shop_that_never_had_them(
    shop: Shop,
) -> None:
    known = known_golfer(shop.studio, shop.golfer)
    silent = replace(known.golfer, consents=replace(known.golfer.consents, shop_record=False))
    change_golfer(shop.studio, silent, known.identity, version=known.version)
    never = Shop(studio_in_memory())
    for file in files(record_folder(never.studio)):
        file.unlink()
    assert taught(shop) == taught(never)


def test_a_recall_taken_back_brings_the_balls_back(shop: Shop) -> None:
    there = shop.rows()
    piece = shop.piece_of("Ash")
    locked = lock_all(shop.studio, piece, "cracked ferrule")
    shop.catch_up()
    assert shop.rows() != there
    assert put_all_back(shop.studio, locked, "cracked ferrule") == 1
    shop.catch_up()
    assert shop.rows() == there


def test_a_piece_retired_after_its_recall_stays_out(shop: Shop) -> None:
    piece = shop.piece_of("Ash")
    lock_all(shop.studio, piece, "cracked ferrule")
    shop.catch_up()
    without = shop.rows()
    set_state(shop.studio, piece, State.RETIRED, reason="sent back")
    shop.catch_up()
    assert shop.rows() == without
    assert record_recall(shop.studio, shop.desk, [piece]) >= 1
    assert shop.rows() == without


def test_a_cracked_piece_leaves_and_a_sound_look_brings_it_back(shop: Shop) -> None:
    there, piece = shop.rows(), shop.piece_of("Ash")
    inspect(shop.studio, piece, Finding.CRACKED, words="hairline at the tip")
    shop.catch_up()
    assert "Ash" not in {row["club"] for row in shop.rows()}
    inspect(shop.studio, piece, Finding.SOUND)
    set_state(shop.studio, piece, State.READY)
    shop.catch_up()
    assert shop.rows() == there


def test_a_look_from_a_file_is_followed_and_so_is_its_taking_back(shop: Shop) -> None:
    there, piece = shop.rows(), shop.piece_of("Ash")
    look = Inspection(
        piece=piece,
        at=shop.studio.now(),
        balls=0,
        finding=Finding.CRACKED,
        words="hairline at the tip",
    )
    shop.studio.store.inspect(look)
    remember(shop.studio, "looks.csv", Came(new=(), changed=(), looks=(look,), profiles=()))
    shop.catch_up()
    assert "Ash" not in {row["club"] for row in shop.rows()}
    take_back(shop.studio, version=shop.studio.store.setting(LAST_IMPORT).version)
    shop.catch_up()
    assert shop.rows() == there


def test_balls_before_the_last_sound_look_stay() -> None:
    clock = Clock()
    shop = Shop(studio_in_memory(clock))
    there, piece = shop.rows(), shop.piece_of("Ash")
    inspect(shop.studio, piece, Finding.SOUND)
    clock.forward(60.0)
    lock_all(shop.studio, piece, "cracked ferrule")
    shop.catch_up()
    assert shop.rows() == there


def test_a_note_that_was_mended_goes(shop: Shop) -> None:
    note_trouble(shop.studio, "one", "disk full")
    note_trouble(shop.studio, "two", "disk full")
    note_trouble(shop.studio, "one", "")
    assert record_trouble(shop.studio) == {"two": "disk full"}


def test_two_records_merged_leave_one_golfer_and_two_again_when_taken_apart(shop: Shop) -> None:
    there = shop.rows()
    consents = shop.studio.store.golfer(shop.golfer).value.consents
    first = add_golfer(
        shop.studio, Golfer(id="", consents=consents), Identity(name="Ottoline Brambleby")
    )
    merge(shop.studio, shop.golfer, first.id)
    shop.catch_up()
    merged = shop.rows()
    assert {row["golfer"] for row in merged} == {code_of_golfer(first.id)}
    assert [{**row, "golfer": ""} for row in merged] == [{**row, "golfer": ""} for row in there]
    take_apart(shop.studio, shop.golfer)
    shop.catch_up()
    assert shop.rows() == there


def test_a_no_to_a_merged_record_holds_for_both(shop: Shop) -> None:
    consents = shop.studio.store.golfer(shop.golfer).value.consents
    first = add_golfer(
        shop.studio, Golfer(id="", consents=consents), Identity(name="Ottoline Brambleby")
    )
    merge(shop.studio, shop.golfer, first.id)
    shop.catch_up()
    known = known_golfer(shop.studio, shop.golfer)
    silent = replace(known.golfer, consents=replace(consents, shop_record=False))
    change_golfer(shop.studio, silent, known.identity, version=known.version)
    shop.catch_up()
    assert shop.rows() == []
    assert record_shop(shop.studio, shop.desk).fittings == 0


def test_while_the_studio_runs_closed_fittings_of_the_shop_alone_are_kept_behind_the_pages(
    shop: Shop, caplog: pytest.LogCaptureFixture
) -> None:
    there = shop.rows()
    for file in files(record_folder(shop.studio)):
        file.unlink()
    keeper, stop = ShopKeeper(shop.studio, shop.desk), Event()
    keeper.told(f"{FITTING}{new_training_id()}")
    keeper.resume()
    thread = Thread(target=keeper.run, args=(stop,))
    thread.start()
    until = monotonic() + 60.0
    while shop.rows() != there and monotonic() < until:
        sleep(0.1)
    stop.set()
    keeper.wake()
    thread.join(60.0)
    assert not thread.is_alive()
    assert shop.rows() == there
    assert caplog.records == []
