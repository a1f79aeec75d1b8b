"""`loftwright demo`: an invented fitting, whole."""

from pathlib import Path

from commands import Cli


def test_the_demo_goes_from_balls_to_paper(cli: Cli, tmp_path: Path) -> None:
    folder = tmp_path / "new" / "folder"
    outcome = cli("demo", "--out", folder)
    assert outcome.code == 0, outcome.err
    assert {path.name for path in folder.iterdir()} == {"shots.csv", "home.toml", "fitting.pdf"}
    assert "All of this is invented" in outcome.out
    assert (folder / "fitting.pdf").read_bytes().startswith(b"%PDF")


def test_the_demos_files_give_the_same_decision_again(cli: Cli, tmp_path: Path) -> None:
    shown = cli("demo", "--out", tmp_path, "--json").record
    again = cli(
        "read", shown["shots"], "--own", "Own", "--home", shown["home_file"], "--json"
    ).record
    assert {key: shown[key] for key in again if key != "report"} == {
        key: again[key] for key in again if key != "report"
    }
    assert shown["state"] != "too_few"
