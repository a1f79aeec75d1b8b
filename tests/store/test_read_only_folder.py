"""A folder that may only be read: told at the start, and while the studio runs."""

import os
import stat
import subprocess
import sys
from pathlib import Path

NOBODY = 65534
AS_NOBODY = f"import os\nos.getuid() == 0 and os.setuid({NOBODY})\n"
"""Root may write everywhere."""


def passable(folder: Path) -> None:
    """Let another user pass through the folders of a test."""
    for parent in (folder, *folder.parents):
        if parent.name.startswith(("pytest-", "test_", "popen-")):
            mode = stat.S_IMODE(parent.stat().st_mode)
            parent.chmod(mode | stat.S_IXOTH | stat.S_IXGRP)


def ran(program: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run a program of a few lines on a folder."""
    return subprocess.run(
        [sys.executable, "-c", program, str(folder)],
        env=os.environ | {"LOFTWRIGHT_DATA": str(folder), "LOFTWRIGHT_STORE": ""},
        capture_output=True,
        text=True,
        check=False,
        timeout=120.0,
    )


def test_a_server_on_a_folder_that_may_only_be_read_says_so_and_ends_with_6(
    tmp_path: Path,
) -> None:
    """What `serve` does first: another user may not be able to load the rest of the program."""
    folder = tmp_path / "locked"
    folder.mkdir(mode=0o555)
    passable(tmp_path)
    program = (
        "import sys\n"
        "from loftwright.cli.errors import report\n"
        "from loftwright.errors import StoreError\n"
        "from loftwright.services.opening import hold_studio\n"
        f"{AS_NOBODY}"
        "try:\n"
        "    hold_studio()\n"
        "except StoreError as error:\n"
        "    sys.exit(report(error, as_json=False))\n"
    )
    done = ran(program, folder)
    assert done.returncode == 6, done.stderr
    assert "cannot be written" in done.stderr
    assert "LOFTWRIGHT_DATA" in done.stderr
    assert str(folder) in done.stderr
    assert list(folder.iterdir()) == []


def test_a_folder_that_is_locked_while_the_studio_runs_loses_nothing_and_says_so(
    tmp_path: Path,
) -> None:
    folder = tmp_path / "shared"
    folder.mkdir()
    if os.getuid() == 0:
        os.chown(folder, NOBODY, NOBODY)
    passable(tmp_path)
    program = (
        "import sys\n"
        "from datetime import UTC, date, datetime\n"
        "from pathlib import Path\n"
        "from loftwright.domain.acts import Rested\n"
        "from loftwright.domain.fitting import Fitting\n"
        "from loftwright.domain.golfer import Golfer, Identity\n"
        "from loftwright.errors import StoreError\n"
        "from loftwright.store.sqlite import open_store\n"
        f"{AS_NOBODY}"
        "folder = Path(sys.argv[1])\n"
        "at = datetime.now(UTC)\n"
        "store = open_store(folder)\n"
        "store.add_golfer(Golfer(id='g1'), Identity(name='Nobody'))\n"
        "store.open_fitting(Fitting(id='f1', golfer='g1', opened=date(2026, 5, 14)))\n"
        "places = [folder, *folder.rglob('*')]\n"
        "before = {one: one.stat().st_mode for one in places}\n"
        "for one in places:\n"
        "    one.chmod(0o555 if one.is_dir() else 0o444)\n"
        "answered = 0\n"
        "for number in range(3):\n"
        "    try:\n"
        "        store.append('f1', [Rested()], at=at, by='', key=str(number))\n"
        "        answered += 1\n"
        "    except StoreError as error:\n"
        "        assert 'writable' in error.mend, error\n"
        "assert len(store.record('f1')) == answered\n"
        "try:\n"
        "    store.add_golfer(Golfer(id='g2'), Identity(name='Nobody'))\n"
        "except StoreError as error:\n"
        "    print(error)\n"
        "assert len(store.golfers()) == 1\n"
        "for one, mode in before.items():\n"
        "    one.chmod(mode)\n"
        "for number in range(3):\n"
        "    store.append('f1', [Rested()], at=at, by='', key=str(number))\n"
        "assert [one.key for one in store.record('f1')] == ['0', '1', '2']\n"
        "store.add_golfer(Golfer(id='g2'), Identity(name='Nobody'))\n"
        "store.close()\n"
    )
    done = ran(program, folder)
    assert done.returncode == 0, done.stderr
    assert "writable" in done.stdout
    assert "keys" in done.stdout
