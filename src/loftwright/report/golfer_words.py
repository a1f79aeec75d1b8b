"""What the golfer's page says besides the sentence: how sure, what to do, cautions."""

from collections.abc import Iterator, Mapping
from math import isfinite

from loftwright.evidence.advice import MORE_BALLS, PROBABLY, Advice, Call, advise
from loftwright.evidence.result import ClubResult, Decision, RankedOn
from loftwright.report.belief_words import rests_on, source
from loftwright.report.marks import Mark
from loftwright.report.numbers import count
from loftwright.report.runs import Run, clubs, marked, plain, strong

SURE_WORDS = ((0.95, "Sure."), (0.80, "Very likely."), (PROBABLY, "Probably."))
"""The ladder of certainty as the first words of a line."""

DISCLAIMER = (
    "This page gives no swing and no medical advice and is no ruling on the Rules of the game."
)


def how_sure(decision: Decision, marks: Mapping[str, Mark], most: int = 5) -> list[list[Run]]:
    """Return lines on how certain the answer is, surest first.

    Parameters
    ----------
    decision : Decision
        The comparison.
    marks : mapping of str to Mark
        The fitting's clubs.
    most : int
        Lines at most; the last one, on what cannot be said, is always kept.
    """
    advice = advise(decision)
    lines = [*_rivals(decision, advice), *_few(decision), *_physics(decision)]
    cannot = [
        [strong("Cannot be said."), *marked(f" {_capital(claim.say)}: {claim.why}.", marks)]
        for claim in decision.claims
        if not claim.may
    ]
    return [*lines[: most - 1], *cannot[:1]] if cannot else lines[:most]


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _rivals(decision: Decision, advice: Advice) -> Iterator[list[Run]]:
    if advice.leader is None:
        return
    beats = " carries further than " if _device(decision) else " scores better than "
    found: dict[str, list[str]] = {}
    for pair in decision.pairs:
        if pair.a != advice.leader or pair.p_a_better is None:
            continue
        p = pair.p_a_better
        word = next((word for least, word in SURE_WORDS if p >= least), "Too close to call.")
        found.setdefault(word, []).append(pair.b)
    for _, word in SURE_WORDS:
        if word in found:
            beaten = clubs(found[word])
            yield [
                strong(word),
                plain(" "),
                *clubs([advice.leader]),
                plain(beats),
                *beaten,
                plain("."),
            ]
    if close := found.get("Too close to call."):
        yield [
            strong("Too close to call."),
            plain(" "),
            *clubs([advice.leader, *close], "or"),
            plain(_more_balls(advice, close)),
        ]


def _more_balls(advice: Advice, close: list[str]) -> str:
    if advice.more_balls_tell is None or advice.other not in close:
        return "."
    verb = "would" if advice.more_balls_tell else "would not"
    return f": {MORE_BALLS} more balls {verb} tell."


def _few(decision: Decision) -> Iterator[list[Run]]:
    few = [club for club in decision.clubs if club.balls < 2]
    if few:
        numbers = {count(club.balls, "ball") for club in few}
        hit = f": {numbers.pop()}" if len(numbers) == 1 else ""
        names = clubs([club.club for club in few])
        yield [strong("Too few balls."), plain(" "), *names, plain(f"{hit}; two are the least.")]


def _physics(decision: Decision) -> Iterator[list[Run]]:
    told = [club for club in decision.clubs if club.balls >= 2 and club.value is not None]
    belief = source(decision.believed)
    for words in (f"half {belief}", f"mostly {belief}"):
        names = [
            club.club for club in told if rests_on(club.physics_share, decision.believed) == words
        ]
        if names:
            yield [
                strong(f"{_capital(words)}."),
                plain(" What is said of "),
                *clubs(names),
                plain(" leans on what clubs usually do, not on these balls alone."),
            ]


def _device(decision: Decision) -> bool:
    return decision.ranked_on is RankedOn.DEVICE_CARRY


def next_steps(decision: Decision, marks: Mapping[str, Mark]) -> list[list[Run]]:
    """Return what to do now, in order, each step beginning with its verb."""
    advice = advise(decision)
    steps = {
        Call.CHANGE: _change,
        Call.KEEP_OWN: _keep,
        Call.LEADER: _leader,
        Call.TOO_CLOSE: _choose,
        Call.TOO_FEW: _hit_more,
    }[advice.call](decision, advice)
    if _device(decision):
        steps.append(
            "Measure launch and spin too: then the total at home can be worked out; with start "
            "direction and spin axis, start line and curve as well."
        )
    return [marked(step, marks) for step in steps[:4]]


def _change(decision: Decision, advice: Advice) -> list[str]:
    steps = [
        f"Order {advice.leader} as you hit it: the same head, setting, shaft, length and grip.",
        f"Ask first what the cheap ways would do: the sleeve of {decision.own} turned, or this "
        f"shaft in its head. What is not in the table overleaf was not hit.",
        "Hit six to eight balls at pick-up: the club that arrives must play like the one you hit.",
    ]
    if advice.rivals:
        names = " or ".join(advice.rivals[:2])
        steps.insert(1, f"Let feel and price decide if you like {names} more: it may be as good.")
    return steps


def _keep(decision: Decision, advice: Advice) -> list[str]:
    steps = [f"Play {decision.own}. Nothing has to be bought after today."]
    if advice.leader != decision.own:
        steps.append(
            f"Come back for more balls with {advice.leader} and {decision.own} if the difference "
            "matters to you; today it is not sure enough to pay for."
        )
    if not _device(decision):
        steps.append(
            f"Change one large thing first if you want to look further: length, loft or weight "
            f"of {decision.own} before another shaft."
        )
    return steps


def _leader(decision: Decision, advice: Advice) -> list[str]:
    own = decision.own or "your own driver"
    if advice.other == decision.own:
        return [f"Play {own} for now: carry on this device alone is no reason to leave it."]
    return [
        f"Hit {own} in turn with {advice.leader} before you order anything: nothing is said to "
        "beat a club that was not hit.",
        f"Order {advice.leader}, if you do, as you hit it: the same head, setting, shaft, length "
        "and grip.",
        "Hit six to eight balls at pick-up, with the same device and ball.",
    ]


def _choose(decision: Decision, advice: Advice) -> list[str]:
    other = advice.other or "the others"
    steps = [f"Let feel decide between {advice.leader} and {other}, then price."]
    if decision.own is not None and decision.own in {advice.other, *advice.rivals}:
        steps.append(f"Keep {decision.own} if you like it as much: it costs nothing.")
    if advice.more_balls_tell:
        steps.append(
            f"Hit {MORE_BALLS} more balls with {advice.leader} and {other}, in turn, if you want "
            "to know: that would probably tell."
        )
    elif decision.next_club is not None:
        steps.append(f"Spend further balls, if any, on {decision.next_club.club} next.")
    return steps


def _hit_more(decision: Decision, advice: Advice) -> list[str]:
    del advice
    own = decision.own or "your own club"
    steps = [
        f"Hit at least two balls with each of two clubs, {own} among them; eight with each say "
        "much more.",
        "Change clubs every two or three balls, so that warming up and tiring favour none.",
    ]
    if decision.next_club is not None:
        steps.insert(1, f"Hit {decision.next_club.club} next.")
    return steps


def cautions(decision: Decision) -> list[str]:
    """Return the cautions that belong to what is to be done next.

    Notes
    -----
    Warm-up: Gosheger et al. 2003, Am. J. Sports Med. 31:438 (703 golfers; ten minutes and more
    had a positive effect). No published safe number of full swings was found, so none is named
    as safe. What is glued and screwed: common practice, no source.
    """
    call = advise(decision).call
    built = (
        "A club that is newly glued is not swung before the time on its tag; one whose screw was "
        "turned is tightened to the maker's torque and first hit at half speed."
    )
    more = (
        "Before more balls: warm up for ten minutes or more, rest between clubs, and stop at "
        "pain, dizziness or a drop in speed. Pain is a matter for a doctor or physiotherapist."
    )
    bay = "One hitter in the bay; nobody else within reach of club or rebound."
    if call in {Call.CHANGE, Call.LEADER}:
        return [built]
    return [f"{more} {bay}"]


def drawn_clubs(decision: Decision) -> list[ClubResult]:
    """Return the clubs whose drives are drawn: the one to beat first, the one spoken of last."""
    advice = advise(decision)
    level = {
        club.club: club
        for club in decision.clubs
        if club.level is not None and isfinite(club.level.total)
    }
    return [level[name] for name in (advice.other, advice.leader) if name in level]


def shape_known(decision: Decision) -> bool:
    """Return whether start direction and axis were given, so that a side may be drawn."""
    told = [club.as_you_swing_it for club in decision.clubs if club.as_you_swing_it is not None]
    return any(figures.offline is not None for figures in told)


def balls_words(decision: Decision) -> str:
    """Return how many balls with how many clubs, in words."""
    balls = sum(club.balls for club in decision.clubs)
    return f"{count(balls, 'ball')} with {count(len(decision.clubs), 'club')}"
