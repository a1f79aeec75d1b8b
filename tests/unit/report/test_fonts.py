from pathlib import Path

import pytest
import typst

from loftwright.report import fonts


def test_both_families_are_found_with_their_weights() -> None:
    found = typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(folder) for folder in fonts.font_folders()],
    )
    assert set(found.families()) == {fonts.SANS, fonts.SERIF}


def test_a_package_without_its_files_is_a_broken_installation(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    fonts.font_folders.cache_clear()
    monkeypatch.setattr(fonts, "files", lambda _: tmp_path)
    with pytest.raises(FileNotFoundError, match="no font files"):
        fonts.font_folders()
    monkeypatch.undo()
    fonts.font_folders.cache_clear()
