"""Every name of the file of what was learned is on its page."""

import pytest

from loftwright.services.shop_folder import record_folder
from loftwright.services.shop_learning import learn_shop
from loftwright.shop.learned_form import record_of
from loftwright.shop.learning import learn_from
from loftwright.shop.record import keep
from pages import ROOT
from shop_samples import a_fitting, shaft_effects
from studios import studio_in_memory

PAGE = (ROOT / "docs" / "explanation" / "shop-record.md").read_text(encoding="utf-8")


def test_every_name_in_the_file_is_on_the_page() -> None:
    told = record_of(learn_from([], {}))
    for name in (*told, *told["launch"], *told["effects"]):
        assert f"`{name}`" in PAGE, name


def test_the_file_beside_it_is_as_the_page_says() -> None:
    pq = pytest.importorskip("pyarrow.parquet")
    studio = studio_in_memory()
    for seed in range(3):
        keep(record_folder(studio), a_fitting(seed, shaft_effects(3)))
    version = learn_shop(studio).version
    place = record_folder(studio) / "learned" / f"{version:04d}.effects.parquet"
    table = pq.read_table(place)
    assert all(f"`{name}`" in PAGE for name in table.column_names)
    for stage in ("effects", "swing_effects"):
        rows = table.to_pylist()
        own = [row for row in rows if row["stage"] == stage]
        assert own
        assert {len(row["covariance"]) for row in own} == {len(own)}
