"""A build sheet tried, issued and departed from."""

from collections.abc import Mapping, Sequence

from loftwright.domain.build_sheet import SolvedBuild
from loftwright.domain.job_acts import JobEntry
from loftwright.domain.sheet_acts import Deviated
from loftwright.domain.sheet_fields import MADE
from loftwright.domain.undoing import written
from loftwright.errors import ConflictError, InputError
from loftwright.intake.build_text import read_build_text
from loftwright.services.build import solve_sheet
from loftwright.services.build_sheets import build_now, not_agreed, said_at_first
from loftwright.services.job import job_act
from loftwright.services.sheet_now import SheetNow
from loftwright.services.sheet_text import draft_of, issued_of
from loftwright.services.sheet_usual import usual_room
from loftwright.services.studio import Studio


def try_sheet(draft: Mapping[str, str]) -> SolvedBuild:
    """Return a draft solved; nothing is written.

    Raises
    ------
    InputError
        If a part or target cannot be; its place names the key.
    ConvergenceError
        If the targets cannot be told apart.
    """
    return solve_sheet(read_build_text(issued_of(usual_room() | dict(draft)).build))


def issue_sheet(
    studio: Studio,
    fitting: str,
    draft: Mapping[str, str],
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Issue a sheet, one revision on.

    Parameters
    ----------
    studio : Studio
    fitting : str
    draft : mapping of str to str
    by, key : str
        Who acts, and under which key it is written once.
    seen : int, optional
        Sequence of the last entry that the acting page showed.

    Raises
    ------
    InputError
        If the club cannot be built of these parts, or nobody agreed to a quote.
    ConflictError
        If the club is bonded already, or the record went on.
    """
    now = build_now(studio, fitting)
    if written(now.record, key):
        return now.record
    if now.spec is None:
        raise not_agreed()
    if not now.progress.may_issue:
        raise ConflictError(
            "the club is bonded on the sheet that stands",
            place="seen",
            mend="What is done otherwise now is a departure; a final check can send it back.",
        )
    if not try_sheet(draft).answer.feasible:
        raise InputError(
            "the club cannot be built of these parts",
            place="target",
            mend="Change a part or a target, or take one of the clubs that can be built.",
        )
    issued = issued_of(usual_room() | dict(draft), now.spec.why)
    return job_act(studio, fitting, [issued], by=by, key=key, seen=seen)


def depart(
    studio: Studio,
    fitting: str,
    built: Mapping[str, str],
    why: str,
    *,
    by: str = "",
    key: str = "",
    seen: int | None = None,
) -> tuple[JobEntry, ...]:
    """Write down what is built otherwise than the sheet says; the targets stay.

    Parameters
    ----------
    studio : Studio
    fitting : str
    built : mapping of str to str
        By key of the build file, or of `MADE`; as a build file writes them.
    why : str
    by, key : str
        Who acts, and under which key it is written once.
    seen : int, optional
        Sequence of the last entry that the acting page showed.

    Raises
    ------
    InputError
        If a value cannot be, or a target would be moved.
    ConflictError
        If no sheet stands, or the record went on.
    """
    now = build_now(studio, fitting)
    if now.sheet is None or now.solved is None or now.made is None:
        raise ConflictError("no sheet stands", place="seen", mend="Issue one first.")
    says = said_at_first(now)
    for name in built:
        if name not in says or name.startswith(("target.", "tolerance.")):
            raise InputError(
                f"{name} is nothing that can be built otherwise",
                place="key",
                mend="A target stays; issue another revision to change it.",
            )
    acts = [
        Deviated(key=name, sheet=says[name], built=text, why=why) for name, text in built.items()
    ]
    _can_be(now.sheet, acts)
    return job_act(studio, fitting, acts, by=by, key=key, seen=seen)


def _can_be(sheet: SheetNow, acts: Sequence[Deviated]) -> None:
    """Refuse values that no build file can hold; the file's own places become keys."""
    for one in acts:
        if one.key in MADE and not float(one.built) >= 0.0:
            raise InputError(
                f"{one.built} cannot be cut or added",
                place="built",
                mend="Give nought or more.",
            )
    values = {one.key: one.built for one in acts if one.key not in MADE}
    read_build_text(issued_of(draft_of(sheet.as_built, sheet.issued.fields) | values).build)
