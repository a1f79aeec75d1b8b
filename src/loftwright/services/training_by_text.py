"""A training case played line by line: what is typed, and what is answered."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final

from loftwright.bay.now import FittingNow, Swing
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.acts import HandedOver, NotRead
from loftwright.errors import InputError, LoftwrightError
from loftwright.evidence.budget import Budget
from loftwright.report.numbers import count, listed, percent
from loftwright.report.records import rounded
from loftwright.report.screen_numbers import TRADE
from loftwright.report.wording import sentence
from loftwright.services.acting import act
from loftwright.services.evidence import Desk, Evidence, weigh
from loftwright.services.settings import Settings, read_settings
from loftwright.services.training_bay import call_case, clubs_hit, open_case, training_ball
from loftwright.services.training_debrief import LookBack, look_back
from loftwright.services.training_plays import read_play
from loftwright.services.training_room import open_room
from loftwright.training.debrief import TOO_CLOSE

SECONDS_A_BALL: Final = 35.0
MOST_AT_ONCE: Final = 20
HELP: Final = (
    "A club's name      it hits one ball: Ash",
    "and a number       so many balls: Ash 3",
    "unread             the newest mark is of a ball that the device did not read",
    "compare            what the balls say so far",
    "call CLUB          your call, once; then you see what was true",
    "call close         too close to call: the own club stays",
    "help               this",
    "quit               leave without a call",
)

_KEYS: Final = {
    "head_speed_mph": ("head_speed", MILE_PER_HOUR),
    "ball_speed_mph": ("ball_speed", MILE_PER_HOUR),
    "launch_deg": ("launch", DEGREE),
    "direction_deg": ("direction", DEGREE),
    "spin_rpm": ("spin", REVOLUTION_PER_MINUTE),
    "axis_deg": ("axis", DEGREE),
    "carry_yd": ("carry", YARD),
}


class _Clock:
    """Tells an hour that passes by balls, so that the same lines give the same record."""

    def __init__(self) -> None:
        self.at = datetime(2026, 1, 5, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.at

    def forward(self, seconds: float) -> None:
        self.at += timedelta(seconds=seconds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a line was answered.

    Attributes
    ----------
    lines : tuple of str
    balls : tuple of dict
        Of the balls that it hit, with keys that carry their units.
    over : bool
        Whether the case ends with it.
    back : LookBack, optional
        After the call.
    """

    lines: tuple[str, ...] = ()
    balls: tuple[dict[str, object], ...] = ()
    over: bool = False
    back: LookBack | None = field(default=None)


class TextPlay:
    """A case that is played by lines of text.

    Parameters
    ----------
    folder : Path
        For the store of this one play; nothing of it is kept.
    case : str
    seed : int, optional
        The case's own without it.
    """

    def __init__(self, folder: Path, case: str, seed: int | None = None) -> None:
        self._clock = _Clock()
        self._studio = open_room(folder, self._clock, Settings())
        self._fitting = open_case(self._studio, case, seed=seed)
        self._desk = Desk()
        play = read_play(self._studio, self._fitting)
        self.case, self.seed = play.player().case, play.seed

    def close(self) -> None:
        """Close the store."""
        self._studio.store.close()

    @property
    def now(self) -> FittingNow:
        """The fitting as it stands."""
        return self._studio.standing(self._fitting)

    def greeting(self) -> tuple[str, ...]:
        """Return what is known before the first ball."""
        clubs = [
            f"  {club.name:<8}{club.card.shaft}, {TRADE.angle(club.card.loft)}"
            for club in self.now.clubs
        ]
        plan = self.now.plan.plan if self.now.plan else None
        sets = ", ".join(f"{club} {balls}" for club, balls in plan.sets) if plan else ""
        return (
            f"{self.case.golfer} (invented): {' '.join(self.case.brief.split())}",
            f"Goal: {self.case.goal}. {count(self.case.balls, 'ball')}, warm-up over.",
            *clubs,
            f"Order on the sheet: {sets}",
            "Type a club's name to hit, call CLUB when you know, help for the rest.",
        )

    def answer(self, line: str) -> Answer:
        """Do what a line says.

        Parameters
        ----------
        line : str

        Returns
        -------
        Answer
            An error is an answer too: it loses no ball.
        """
        words = line.split()
        if not words:
            return Answer()
        try:
            return self._do(words[0], words[1:])
        except LoftwrightError as error:
            return Answer(lines=(f"{error.message[:1].upper()}{error.message[1:]}. {error.mend}",))

    def _do(self, word: str, rest: list[str]) -> Answer:
        alone = {
            "help": self._help,
            "quit": self._quit,
            "unread": self._unread,
            "compare": self._compared,
        }
        if word.lower() in alone and not rest:
            return alone[word.lower()]()
        if word.lower() == "call" and len(rest) == 1:
            return self._call(rest[0])
        number = rest[0] if rest else "1"
        if len(rest) <= 1 and number.isdecimal() and 0 < int(number) <= MOST_AT_ONCE:
            return self._hit(word, int(number))
        raise InputError(
            f"{' '.join([word, *rest])!r} is nothing that can be done",
            place="line",
            mend="Type help for what can.",
        )

    def _help(self) -> Answer:
        return Answer(lines=HELP)

    def _quit(self) -> Answer:
        left = "You left without a call; what was true stays hidden."
        return Answer(lines=(left,), over=True)

    def _club(self, word: str) -> str:
        names = {club.name.lower(): club.name for club in self.now.clubs}
        if word.lower() not in names:
            raise InputError(
                f"there is no club {word!r}",
                place="club",
                mend=f"There are {listed(list(names.values()))}; help tells the rest.",
            )
        return names[word.lower()]

    def _hit(self, word: str, number: int) -> Answer:
        club = self._club(word)
        if self.now.in_hand != club:
            act(self._studio, self._fitting, [HandedOver(club=club)])
        lines, balls = [], []
        for _ in range(number):
            if len(clubs_hit(self._studio.record(self._fitting))) >= self.case.balls:
                lines.append("The balls are spent: call a club, or that it is too close.")
                break
            self._clock.forward(SECONDS_A_BALL)
            taken = training_ball(self._studio, self._fitting)
            swing = self.now.swing(taken.sequence)
            if taken.number == 0 or swing is None:
                lines.append(f"{club}: the device read nothing, and a mark is on the face.")
                balls.append({"club": club, "read": False})
            else:
                lines.append(_ball_line(swing))
                balls.append(_ball_record(swing))
        return Answer(lines=tuple(lines), balls=tuple(balls))

    def _unread(self) -> Answer:
        if not self.now.waiting:
            raise InputError(
                "no mark waits for a ball", place="unread", mend="Every ball was read so far."
            )
        act(self._studio, self._fitting, [NotRead()])
        return Answer(lines=("Written down: a ball that was hit and not read.",))

    def _evidence(self) -> Evidence:
        fitting = self._studio.store.fitting(self._fitting).value
        golfer = self._studio.store.golfer(fitting.golfer).value
        convention = read_settings(self._studio).settings.convention
        found = self._desk.compared(self._fitting, self.now, golfer, convention)
        return weigh(found, golfer, Budget(balls=self.case.balls - len(self.now.balls)))

    def _compared(self) -> Answer:
        decision = self._evidence().decision
        if decision is None:
            return Answer(lines=("Nothing can be compared yet.",))
        chances = [
            f"{one.club} {percent(one.p_best)}" for one in decision.clubs if one.p_best is not None
        ]
        best = (f"Best with a chance of: {', '.join(chances)}.",) if chances else ()
        return Answer(lines=(sentence(decision), *best))

    def _call(self, word: str) -> Answer:
        call = TOO_CLOSE if word.lower() == "close" else self._club(word)
        call_case(self._studio, self._fitting, call)
        return Answer(over=True, back=look_back(self._studio, self._fitting))


def _ball_line(swing: Swing) -> str:
    numbers, mark = swing.numbers, swing.mark
    told = [f"{swing.number:>3}  {swing.club:<8}"]
    if numbers is not None:
        for value, write in (
            (numbers.head_speed, TRADE.speed),
            (numbers.ball_speed, TRADE.speed),
            (numbers.launch, TRADE.angle),
            (numbers.spin, TRADE.spin),
        ):
            told.append("–" if value is None else write(value))
        told.append("–" if numbers.carry is None else f"{TRADE.yards(numbers.carry)} carry")
    told.append("no mark" if mark is None else f"mark {_place(mark.toe, mark.high)}")
    return "  ".join(told)


def _place(toe: float, high: float) -> str:
    return f"{_way(toe, 'toe', 'heel')}, {_way(high, 'high', 'low')}"


def _way(length: float, ahead: str, behind: str) -> str:
    whole = f"{abs(length) / MILLIMETRE:.0f}"
    if whole == "0":
        return "0 mm"
    return f"{whole} mm {ahead if length > 0.0 else behind}"


def _ball_record(swing: Swing) -> dict[str, object]:
    """Return a ball with keys of our own shot table."""
    numbers, mark = swing.numbers, swing.mark
    told: dict[str, object] = {"ball": swing.number, "club": swing.club, "read": True}
    for key, (name, unit) in _KEYS.items():
        told[key] = rounded(None if numbers is None else getattr(numbers, name), unit)
    told["strike_toe_mm"] = None if mark is None else rounded(mark.toe, MILLIMETRE)
    told["strike_high_mm"] = None if mark is None else rounded(mark.high, MILLIMETRE)
    return told
