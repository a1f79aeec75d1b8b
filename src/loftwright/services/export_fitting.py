"""The files of one fitting in an export."""

import json
from collections.abc import Iterator
from typing import Any, Final

from loftwright.bay.now import FittingNow
from loftwright.domain.acts import PainSaid
from loftwright.domain.fitting import ClubCard, Fitting
from loftwright.errors import EvidenceError, StoreError
from loftwright.report.records import decision_record, strict
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.services.export_cells import plain, told
from loftwright.services.fitting_report import final_decision, report_pdf, shots_table
from loftwright.services.settings import show_of
from loftwright.services.studio import Studio
from loftwright.store.codec import act_text, job_act_text, kind_of

_IDS: Final = frozenset({"assembly", "head_piece", "shaft_piece"})
"""Of the shop's rack: they say nothing to anybody else."""


def fitting_files(
    studio: Studio, fitting: Fitting, *, results: bool
) -> Iterator[tuple[str, bytes]]:
    """Yield the files of a fitting, each with its name.

    Parameters
    ----------
    studio : Studio
    fitting : Fitting
    results : bool
        Whether its clubs are compared and its report is printed; that takes a second or two.

    Notes
    -----
    That somebody was in pain is a note on health and is left out, as the limits of a day are. So
    are readings that were found to be another golfer's.
    """
    now = studio.standing(fitting.id)
    yield "fitting.json", told(_fitting(fitting, now))
    yield "shots.csv", shots_table(now).encode()
    yield "acts.json", told(_acts(studio, fitting.id, now))
    predicted = [plain(one) for one in studio.store.predictions(fitting.id)]
    if predicted:
        yield "predictions.json", told(predicted)
    job = _job(studio, fitting.id)
    if job:
        yield "job.json", told(job)
    if results:
        yield from _results(studio, fitting.id)


def _fitting(fitting: Fitting, now: FittingNow) -> dict[str, Any]:
    return {
        "opened": fitting.opened.isoformat(),
        "bay": fitting.bay,
        "fitter": fitting.fitter,
        "took_turns": fitting.partner is not None,
        "invented": fitting.invented,
        "closed": now.closed,
        "visits": [
            {"day": visit.day.isoformat(), "bay": visit.bay, "device": plain(visit.device)}
            for visit in now.visits
        ],
        "clubs": [{"club": club.name, "out": club.out, **_card(club.card)} for club in now.clubs],
    }


def _card(card: ClubCard) -> dict[str, Any]:
    return {name: one for name, one in plain(card).items() if name not in _IDS}


def _acts(studio: Studio, fitting: str, now: FittingNow) -> list[dict[str, Any]]:
    others = {one.sequence for one in now.swings if one.not_ours}
    return [
        {
            "sequence": one.sequence,
            "at": one.at.isoformat(),
            "by": one.by,
            "kind": kind_of(type(one.act)),
            "told": json.loads(act_text(one.act)),
        }
        for one in studio.record(fitting)
        if not isinstance(one.act, PainSaid) and one.sequence not in others
    ]


def _job(studio: Studio, fitting: str) -> list[dict[str, Any]]:
    try:
        record = studio.store.job_record(fitting)
    except StoreError:
        # Of a golfer whose key an earlier version destroyed: the job went with it.
        return []
    return [
        {
            "sequence": one.sequence,
            "at": one.at.isoformat(),
            "by": one.by,
            "kind": kind_of(type(one.act)),
            "told": json.loads(job_act_text(one.act)),
        }
        for one in record
    ]


def _results(studio: Studio, fitting: str) -> Iterator[tuple[str, bytes]]:
    """Yield what the balls say, as `read` prints it of a table, and the printed report."""
    desk = Desk()
    bay = bay_now(studio, desk, fitting)
    decision = final_decision(desk, bay)
    if decision is None:
        return
    record = decision_record(decision, bay.evidence.table.table, show_of(bay.settings))
    yield "result.json", told(strict(record))
    try:
        yield "report.pdf", report_pdf(desk, bay)
    except EvidenceError:
        # Nothing can be printed of it; what there is stands in the result.
        return
