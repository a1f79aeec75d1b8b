"""An old fitting read again from its file: what it could show and what it could not."""

from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from loftwright.domain.golfer import Hand
from loftwright.errors import IntakeError, LoftwrightError
from loftwright.intake.answers import all_answered
from loftwright.intake.doubts import DoubtsError
from loftwright.intake.options import ReadOptions
from loftwright.services.hands import handedness
from loftwright.services.read import Reading, read_fitting


def read_old_fitting(
    content: bytes,
    name: str,
    *,
    hand: Hand,
    own: str = "",
    answers: Sequence[str] = (),
) -> Reading:
    """Read a file of shots and compare its clubs; nothing of it is kept.

    Parameters
    ----------
    content : bytes
        The file.
    name : str
        What it was called; it serves messages only.
    hand : Hand
        The golfer's.
    own : str
        The golfer's own club as the file calls it; empty to let the file tell.
    answers : sequence of str
        What settles its doubts, as options of the command line.

    Raises
    ------
    DoubtsError
        If its columns can be read in more than one way.
    IntakeError
        If it is no table of shots.
    InputError
        If the own club is not in it, or an answer settles nothing.
    EvidenceError
        If no ball can be used.
    """
    if not content.strip():
        raise IntakeError(
            "no file was chosen", place="file", mend="Choose a table of shots, then read it."
        )
    options = all_answered(answers, ReadOptions(hand=handedness(hand)))
    with TemporaryDirectory() as folder:
        path = Path(folder) / (Path(name).name or "shots.csv")
        path.write_bytes(content)
        try:
            return read_fitting(path, options=options, own=own or None)
        except DoubtsError:
            raise
        except LoftwrightError as error:
            place = error.place.replace(f"{folder}/", "")
            message = error.message.replace(f"{folder}/", "")
            raise type(error)(message, place=place, mend=error.mend) from error
