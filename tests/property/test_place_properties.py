"""Wherever parts go, by whichever process: one place each, and a history without a gap."""

from datetime import UTC, datetime
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from loftwright.domain.place import PlaceMove
from loftwright.errors import ConflictError
from loftwright.store.places import KEPT
from loftwright.store.sqlite import open_store
from store_samples import with_rack

AT = datetime(2026, 11, 26, 9, tzinfo=UTC)
PLACES = ("", "Bay 1", "Bay 2", "Workshop")
MOVES = st.lists(
    st.tuples(
        st.integers(0, 1), st.sampled_from(("p1", "p2")), st.sampled_from(PLACES), st.booleans()
    ),
    max_size=25,
)


@settings(max_examples=15, deadline=None)
@given(MOVES)
def test_a_part_is_in_one_place_and_each_move_begins_where_the_last_one_ended(
    moves: list[tuple[int, str, str, bool]],
) -> None:
    with TemporaryDirectory() as folder:
        stores = (open_store(Path(folder), draft=True), open_store(Path(folder), draft=True))
        with_rack(stores[0])
        stands = {one: stores[0].rack().pieces[one].place for one in ("p1", "p2")}
        done = dict.fromkeys(stands, 0)
        for which, piece, place, knows in moves:
            was = stands[piece] if knows else "somewhere else"
            move = PlaceMove(piece=piece, was=was, place=place, at=AT)
            try:
                stores[which].check_out([move])
            except ConflictError:
                assert not knows
                continue
            assert knows
            stands[piece], done[piece] = place, done[piece] + 1
        for piece, place in stands.items():
            assert {store.rack().pieces[piece].place for store in stores} == {place}
            history = stores[1].place_history(piece)
            assert len(history) == min(done[piece], KEPT)
            for later, earlier in pairwise(history):
                assert later.was == earlier.place
                assert later.number > earlier.number
            if history:
                assert history[0].place == place
        for store in stores:
            store.close()
