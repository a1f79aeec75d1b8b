"""Clubs that could be built from those of a fitting, and what is told of them without a ball.

From the own club and from the leader: the nearest settings of the sleeve, four grams of head, half
an inch, four grams of shaft. Besides, every shaft of the fitting in the own head, the leader's
head on the own shaft, and every club that joined and was not hit. Nothing is told of a head that
was never hit.
"""

from collections.abc import Iterable
from dataclasses import replace
from math import cos, hypot, sin
from typing import Final

from loftwright.bay.now import ClubNow, FittingNow
from loftwright.bay.outside import is_outside
from loftwright.bay.setups import SetUp, angles_of, set_ups
from loftwright.domain.club_kind import Told, kind_of, may_tell
from loftwright.domain.fitting import ClubCard
from loftwright.domain.golfer import Hand
from loftwright.domain.names import OWN
from loftwright.domain.rack import Rack
from loftwright.evidence.build_changes import (
    BuildChange,
    Shift,
    head_mass_changed,
    length_changed,
    shaft_mass_changed,
    sleeve_turned,
)
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.compare import Comparison
from loftwright.evidence.neighbours import Neighbour
from loftwright.physics.sleeve import Convention, HeadAngles
from loftwright.services.not_hit import (
    LENGTHS,
    WEIGHTS,
    Made,
    Unhit,
    head_weight_label,
    length_label,
    new_head_label,
    new_shaft_label,
    weight_label,
)
from loftwright.services.shaft_shifts import NO_SHIFTS, Shifts, expected_of

CLICKS: Final = 2
"""Settings told of a club's sleeve: those nearest to how it sat."""

_NOTHING: Final = BuildChange(shift=(0.0,) * 5, doubt=(0.0,) * 7)
_HEAD_NOT_HIT: Final = "its head was not hit: nothing is known of what another head does"
_OWN_NOT_HIT: Final = "the own head was not hit: nothing is known of what another head does"


class Maker:
    """What can be built, against the mean of the set-ups that were hit."""

    def __init__(
        self,
        now: FittingNow,
        comparison: Comparison,
        rack: Rack,
        hand: Hand,
        convention: Convention,
        shifts: Shifts = NO_SHIFTS,
    ) -> None:
        self._now, self._rack, self._convention = now, rack, convention
        self._hand, self._shifts = hand, shifts
        known = set_ups(now, convention)
        setup = comparison.visit.setup
        self._hit = {name: known[name] for name in setup.balls.clubs}
        inside = comparison.joined.inside.tolist()
        self._able = [one for one, can in zip(self._hit.values(), inside, strict=True) if can]
        leading = comparison.standing
        self._leader = None if leading is None else self._hit[setup.balls.clubs[leading.leader]]
        self._delivery, self._head = setup.slopes.delivery, setup.head
        expected = [self._expected(one.card, one.angles) for one in self._hit.values()]
        self._mean = tuple(_mean(part) for part in zip(*expected, strict=True))

    def everything(self) -> list[Unhit]:
        """Return what can be built, from the own club first, what is easier to do before."""
        own = next((one for one in self._able if one.club == OWN), None)
        found = [] if own is None else self._clicks(own)
        found += self._new_shafts(own)
        bases = [one for one in (own, self._leader) if one is not None]
        for place, base in enumerate(bases):
            if place and base.club == bases[0].club:
                continue
            found += self._clicks(base) if base is not own else []
            found += self._head_weights(base) + self._lengths(base) + self._weights(base)
        return found + self._new_head(own) + self._joined()

    def _clicks(self, base: SetUp) -> list[Unhit]:
        card = base.card
        hit = {one.setting for one in self._hit.values() if one.club == base.club}
        here = _leaning(card, base.setting)
        left = sorted(
            (one for one in card.settings if one.name not in hit),
            key=lambda one: hypot(*_apart(_leaning(card, one.name), here)),
        )
        found = []
        for one in left[:CLICKS]:
            before, after, soled, soled_after = (
                angles_of(card, setting, held)
                for held in (self._convention, Convention.B)
                for setting in (base.setting, one.name)
            )
            change = sleeve_turned(before, after, soled, soled_after)
            found.append(
                self._made(
                    base,
                    f"{base.club}, {one.name}",
                    Made.SLEEVE,
                    change,
                    0 if base.club == OWN else card.price,
                    f"told from {base.label} and what the sleeve turns",
                )
            )
        return found

    def _head_weights(self, base: SetUp) -> list[Unhit]:
        return [
            self._made(
                base,
                head_weight_label(base.label, word),
                Made.HEAD_WEIGHT,
                head_mass_changed(by, self._delivery, self._head),
                None if base.club == OWN else base.card.price,
                f"told from {base.label} and what its head's weight does to head speed and ball",
            )
            for word, by in WEIGHTS.items()
        ]

    def _lengths(self, base: SetUp) -> list[Unhit]:
        return [
            self._made(
                base,
                length_label(base.label, word),
                Made.LENGTH,
                length_changed(by, float(self._delivery[0])),
                None if base.club == OWN else base.card.price,
                f"told from {base.label} and what length does to head speed",
            )
            for word, by in LENGTHS.items()
        ]

    def _weights(self, base: SetUp) -> list[Unhit]:
        return [
            self._made(
                base,
                weight_label(base.label, word),
                Made.SHAFT_WEIGHT,
                shaft_mass_changed(by, float(self._delivery[0])),
                None if base.club == OWN else base.card.price,
                f"told from {base.label} and what its shaft's weight does to head speed",
            )
            for word, by in WEIGHTS.items()
        ]

    def _new_shafts(self, own: SetUp | None) -> list[Unhit]:
        found = []
        known = next((one for one in self._now.clubs if one.name == OWN), None)
        if known is None or is_outside(known.card):
            return []
        built = set()
        for club in self._now.clubs:
            piece = self._rack.pieces.get(club.card.shaft_piece)
            if club.name == OWN or club.out or is_outside(club.card) or piece is None:
                continue
            if club.card.shaft_piece in built or club.card.shaft_piece == known.card.shaft_piece:
                continue
            built.add(club.card.shaft_piece)
            model = self._rack.shafts.get(piece.model)
            row = Unhit(
                label=new_shaft_label(club.name),
                club=OWN,
                made=Made.NEW_SHAFT,
                price=None if model is None else model.price,
                neighbour=None,
                reason=_OWN_NOT_HIT,
            )
            if own is not None:
                hit = any(one.club == club.name for one in self._hit.values())
                told = f"told from the own head and {club.name}'s balls"
                row = self._told(
                    row,
                    _with_shaft_of(own, club),
                    told if hit else "told from the own head alone: its shaft was not hit",
                )
            found.append(row)
        return found

    def _new_head(self, own: SetUp | None) -> list[Unhit]:
        """Return the leader's head on the own shaft."""
        known = next((one for one in self._now.clubs if one.name == OWN), None)
        leader = self._leader
        if known is None or is_outside(known.card) or leader is None or leader.club == OWN:
            return []
        pair = (leader.card.head_piece, known.card.shaft_piece)
        if pair in {(one.card.head_piece, one.card.shaft_piece) for one in self._now.clubs}:
            return []
        piece = self._rack.pieces.get(leader.card.head_piece)
        model = None if piece is None else self._rack.heads.get(piece.model)
        row = Unhit(
            label=new_head_label(leader.club),
            club=leader.club,
            made=Made.NEW_HEAD,
            price=None if model is None else model.price,
            neighbour=None,
            reason="",
        )
        card = replace(leader.card, shaft=known.card.shaft, shaft_piece=known.card.shaft_piece)
        told = f"told from {leader.club}'s head"
        reason = f"{told} alone: the own shaft was not hit"
        if own is not None:
            reason = f"{told} and the own club's balls"
        return [self._told(row, (card, leader.angles), reason)]

    def _joined(self) -> list[Unhit]:
        found = []
        for club in self._now.clubs:
            hit = any(one.club == club.name for one in self._hit.values())
            if hit or club.out or is_outside(club.card) or club.name == OWN:
                continue
            row = Unhit(
                label=club.name,
                club=club.name,
                made=Made.JOINED,
                price=club.card.price,
                neighbour=None,
                reason=_HEAD_NOT_HIT,
            )
            same = {one.card.head_piece for one in self._able}
            if club.card.head_piece in same:
                angles = angles_of(club.card, club.card.setting, self._convention)
                row = self._told(
                    row, (club.card, angles), "told from its head, hit with other shafts"
                )
            found.append(row)
        return found

    def _told(
        self,
        row: Unhit,
        built: tuple[ClubCard, HeadAngles],
        reason: str,
        base: str = "",
        change: BuildChange = _NOTHING,
    ) -> Unhit:
        card, angles = built
        rule = may_tell(kind_of(card.loft, card.length), Told.NOT_HIT)
        if not rule.may:
            return replace(row, reason=rule.why)
        shift = self._against_mean(card, angles, change.shift)
        traits = ClubTraits(head=card.head_piece, shaft=card.shaft_piece, shift=shift)
        neighbour = Neighbour(
            name=row.label,
            traits=traits,
            base=base,
            doubt=change.doubt,
            launch=change.launch,
            launch_doubts=change.launch_doubts,
        )
        return replace(row, neighbour=neighbour, reason=reason)

    def _made(
        self,
        base: SetUp,
        label: str,
        made: Made,
        change: BuildChange,
        price: int | None,
        reason: str,
    ) -> Unhit:
        row = Unhit(label=label, club=base.club, made=made, price=price, neighbour=None, reason="")
        return self._told(row, (base.card, base.angles), reason, base.label, change)

    def _expected(self, card: ClubCard, angles: HeadAngles) -> Shift:
        return expected_of(angles, card, self._hand, self._shifts)

    def _against_mean(self, card: ClubCard, angles: HeadAngles, shift: Shift) -> Shift:
        side = -1.0 if self._hand is Hand.LEFT else 1.0
        speed, attack, path, face, loft = (
            one - mean for one, mean in zip(self._expected(card, angles), self._mean, strict=True)
        )
        return (
            speed + shift[0],
            attack + shift[1],
            path + shift[2],
            face + side * shift[3],
            loft + shift[4],
        )


def _with_shaft_of(own: SetUp, club: ClubNow) -> tuple[ClubCard, HeadAngles]:
    """Return the own club with another club's shaft in it."""
    return replace(own.card, shaft=club.card.shaft, shaft_piece=club.card.shaft_piece), own.angles


def _leaning(card: ClubCard, setting: str) -> tuple[float, float]:
    """Return where the shaft leans in the head's frame, to the target and to the player."""
    for one in card.settings:
        if one.name == setting:
            return one.bore * cos(one.azimuth), one.bore * sin(one.azimuth)
    return 0.0, 0.0


def _apart(first: tuple[float, float], second: tuple[float, float]) -> tuple[float, float]:
    return first[0] - second[0], first[1] - second[1]


def _mean(values: Iterable[float]) -> float:
    kept = list(values)
    return sum(kept) / len(kept)
