"""`loftwright shop publish`: looked at, then published by somebody."""

from pathlib import Path

from commands import Cli
from loftwright.services.opening import open_studio
from pages import ROOT
from published_shops import a_publishing_shop

THREE = ("shop", "publish", "bittern", "Egret 60 g firm", "--against", "Curlew")


def a_shop_to_publish(folder: Path, golfers: int) -> None:
    studio = open_studio(folder)
    try:
        a_publishing_shop(golfers, studio=studio)
    finally:
        studio.store.close()


def test_a_look_prints_a_stamp_and_somebody_publishes_exactly_that(
    cli: Cli, tmp_path: Path
) -> None:
    a_shop_to_publish(tmp_path / "data", 6)
    said = cli(*THREE)
    assert said.code == 0, said.err
    assert said.out.startswith(
        "Bittern 60 g firm can be told apart from Curlew 60 g firm; Egret 60 g firm cannot."
    )
    seen = cli(*THREE, "--json").record
    assert seen["seen"] in said.out
    assert seen["content"]["figures"][0]["golfers"] == 6
    files = tmp_path / "out"
    files.mkdir()
    wrong = cli(*THREE, "--by", "Umberto", "--files", str(files))
    assert wrong.code == 6
    assert "changed since" in wrong.err
    assert list(files.iterdir()) == []
    done = cli(*THREE, "--by", "Umberto", "--seen", seen["seen"], "--files", str(files))
    assert done.code == 0, done.err
    assert done.out.startswith("Comparison 1 is published.")
    kinds = sorted(one.name for one in files.iterdir())
    assert kinds == [f"comparison-1.{kind}" for kind in ("csv", "json", "png", "svg")]
    assert all(b"Umberto" not in one.read_bytes() for one in files.iterdir())


def test_too_few_golfers_are_too_little_evidence(cli: Cli, tmp_path: Path) -> None:
    a_shop_to_publish(tmp_path / "data", 4)
    said = cli(*THREE, "--json")
    assert said.code == 5
    assert "4 of 5 golfers" in said.error["message"]
    assert said.error["mend"].startswith("Ask 1 more")


def test_a_model_is_named_whole_or_by_its_beginning(cli: Cli, tmp_path: Path) -> None:
    a_shop_to_publish(tmp_path / "data", 1)
    nobody = cli("shop", "publish", "Heron", "--against", "Curlew", "--json")
    assert (nobody.code, nobody.error["place"]) == (3, "MODEL")
    kind = cli("shop", "publish", "Bittern", "--against", "Curlew", "--kind", "grip", "--json")
    assert (kind.code, kind.error["place"]) == (3, "kind")


def test_every_key_of_a_look_is_documented(cli: Cli, tmp_path: Path) -> None:
    a_shop_to_publish(tmp_path / "data", 5)
    page = (ROOT / "docs" / "reference" / "json.md").read_text(encoding="utf-8")
    part = page.partition("\n## shop publish\n")[2].partition("\n## ")[0]
    told = cli(*THREE, "--note", "Hit from a mat", "--json").record
    keys = {*told, *told["content"], *told["content"]["how"], *told["content"]["figures"][0]}
    assert {key for key in keys if f"`{key}`" not in part} == set()
