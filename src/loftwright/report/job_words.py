"""What the acts of a job are called where they are undone."""

from typing import Final

from loftwright.domain import after_acts, check_acts, order_acts, parts_acts, sheet_acts
from loftwright.domain.job_acts import JobAct, JobUndone

ACT_WORDS: Final[dict[type, str]] = {
    order_acts.Quoted: "quote",
    order_acts.Agreed: "agreement",
    order_acts.OrderSent: "order sent",
    order_acts.Withdrawn: "order off",
    parts_acts.PartCame: "part checked in",
    parts_acts.PartSettled: "part settled",
    sheet_acts.SheetIssued: "build sheet",
    sheet_acts.StepDone: "step done",
    sheet_acts.Deviated: "departure from the sheet",
    sheet_acts.Bonded: "bond",
    check_acts.Received: "final check",
    check_acts.PickUpBegun: "pick-up balls begun",
    check_acts.PickedUp: "pick-up",
    after_acts.FollowedUp: "follow-up",
    after_acts.Played: "rounds",
    after_acts.Complained: "complaint",
    after_acts.LookedAt: "look at the complaint",
    after_acts.ComplaintEnded: "end of the complaint",
    JobUndone: "undo",
}


def act_words(act: JobAct) -> str:
    """Return what an act is called on the button that takes it back."""
    return ACT_WORDS[type(act)]
