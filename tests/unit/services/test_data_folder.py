"""Where Loftwright keeps what it remembers."""

from pathlib import Path

import pytest

from loftwright.services.data_folder import data_folder, mappings_file


@pytest.mark.parametrize(
    ("environment", "platform", "folder"),
    [
        ({"LOFTWRIGHT_DATA": "/data/bay"}, "linux", "/data/bay"),
        ({"HOME": "/home/fitter"}, "linux", "/home/fitter/.local/share/loftwright"),
        ({"HOME": "/home/f", "XDG_DATA_HOME": "/xdg"}, "linux", "/xdg/loftwright"),
        ({"HOME": "/Users/f"}, "darwin", "/Users/f/Library/Application Support/Loftwright"),
        ({"HOME": "/f"}, "win32", "/f/AppData/Local/Loftwright"),
        ({"HOME": "/f", "LOCALAPPDATA": "/local"}, "win32", "/local/Loftwright"),
    ],
)
def test_each_platform_has_its_place_and_the_setting_wins(
    environment: dict[str, str], platform: str, folder: str
) -> None:
    assert data_folder(environment, platform) == Path(folder)


def test_settled_columns_lie_in_the_data_folder(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("LOFTWRIGHT_DATA", str(tmp_path))
    assert mappings_file() == tmp_path / "mappings.toml"
    assert list(tmp_path.iterdir()) == []
