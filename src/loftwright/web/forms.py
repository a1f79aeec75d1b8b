"""A form as it was typed: its values read one by one, its faults kept beside their fields."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Annotated, Final, TypeVar

from fastapi import Depends, Request
from starlette.datastructures import UploadFile

from loftwright.errors import InputError, LoftwrightError
from loftwright.report.screen_numbers import Show
from loftwright.units import parse_quantity

LONGEST_TEXT: Final = 400
LONGEST_LINE: Final = 80

Word = TypeVar("Word", bound=StrEnum)
Made = TypeVar("Made")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """What is wrong with one field, and the mend."""

    message: str
    mend: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """A form as its page shows it again.

    Attributes
    ----------
    typed : mapping of str to str
        What stands in each field, letter for letter.
    faults : mapping of str to Fault
        By field; the empty name is the form's own.
    """

    typed: Mapping[str, str] = field(default_factory=dict)
    faults: Mapping[str, Fault] = field(default_factory=dict)

    def value(self, name: str, usual: str = "") -> str:
        """Return what stands in a field."""
        return self.typed.get(name, usual)

    def fault(self, name: str) -> Fault | None:
        """Return what is wrong with a field."""
        return self.faults.get(name)

    @property
    def general(self) -> tuple[Fault, ...]:
        """Faults that belong to no field that was typed in."""
        return tuple(fault for name, fault in self.faults.items() if name not in self.typed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """Reads a form's fields; what cannot be is kept and told, and the reading goes on.

    Attributes
    ----------
    fields : dict of str to str
    show : Show
        The units that a plain figure is in.
    faults : dict of str to Fault
        Grows while the form is read.
    """

    fields: dict[str, str]
    show: Show = field(default_factory=Show)
    faults: dict[str, Fault] = field(default_factory=dict)

    @property
    def filled(self) -> Filled:
        """The form as its page shows it again."""
        return Filled(typed=dict(self.fields), faults=dict(self.faults))

    def given(self, name: str) -> bool:
        """Return whether anything was typed into a field."""
        return bool(self.fields.get(name, "").strip())

    def text(self, name: str, *, most: int = LONGEST_LINE, need: str = "") -> str:
        """Return a field's text; with `need` an empty one is a fault with that mend."""
        text = self.fields.get(name, "").strip()
        if need and not text:
            self.fail(name, "it is empty", need)
        if len(text) > most:
            self.fail(name, f"{len(text)} letters are too many", f"Write {most} at most.")
        return text

    def quantity(self, name: str, quantity: str, *, need: str = "") -> float | None:
        """Return a field's figure in SI, typed plain or with a unit; None for an empty one."""
        text = self.text(name, need=need)
        if not text:
            return None
        unit = self.show.unit(quantity).typed
        return self.tried(name, lambda: parse_quantity(text, unit, place=name))

    def whole(self, name: str, *, least: int, most: int, need: str = "") -> int | None:
        """Return a field's whole number; None for an empty one or one out of bounds."""
        text = self.text(name, need=need)
        if not text:
            return None
        number = int(text) if text.isdecimal() and len(text) < 10 else None
        if number is None or not least <= number <= most:
            self.fail(name, f"{text!r} cannot be", f"Give a whole number from {least} to {most}.")
            return None
        return number

    def money(self, name: str) -> int | None:
        """Return an amount in the smallest unit of money; None for an empty field."""
        text = self.text(name)
        if not text:
            return None
        whole, mark, rest = text.replace(",", ".").partition(".")
        hundredths = rest.ljust(2, "0") if mark else "00"
        if not (whole.isdecimal() and hundredths.isdecimal() and len(hundredths) == 2):
            self.fail(name, f"{text!r} is no amount", 'Write for example "450" or "450.50".')
            return None
        if len(whole) > 7:
            self.fail(name, f"{text!r} is too much", "Give less than ten million.")
            return None
        return int(whole) * 100 + int(hundredths)

    def word(self, name: str, kind: type[Word], usual: Word) -> Word:
        """Return one of a few words."""
        text = self.fields.get(name, "") or usual.value
        try:
            return kind(text)
        except ValueError:
            self.fail(name, f"{text!r} is unknown", f"Choose {', '.join(kind)}.")
            return usual

    def one_of(self, name: str, known: tuple[str, ...], usual: str) -> str:
        """Return one of a few texts."""
        text = self.fields.get(name, "") or usual
        if text not in known:
            self.fail(name, f"{text!r} is unknown", f"Choose {', '.join(known)}.")
            return usual
        return text

    def ticked(self, name: str) -> bool:
        """Return whether a box is ticked."""
        return self.fields.get(name, "") in {"yes", "on", "true"}

    def day(self, name: str) -> date | None:
        """Return a day; None for an empty field."""
        text = self.text(name)
        if not text:
            return None
        try:
            return date.fromisoformat(text)
        except ValueError:
            self.fail(name, f"{text!r} is no day", "Write it as 2026-11-25.")
            return None

    def fail(self, name: str, message: str, mend: str = "") -> None:
        """Keep what is wrong with a field; the first fault of a field stands."""
        self.faults.setdefault(name, Fault(message=_sentence(message), mend=mend))

    def refused(self, error: LoftwrightError, places: Mapping[str, str] | None = None) -> None:
        """Keep an error of the floors below, at the field that its place stands for."""
        name = (places or {}).get(error.place, error.place)
        self.fail(name, error.message, error.mend)

    def tried(
        self, name: str, make: Callable[[], Made], places: Mapping[str, str] | None = None
    ) -> Made | None:
        """Return what is made, or keep why it cannot be.

        Parameters
        ----------
        name : str
            The field of an error whose place no field has.
        make : callable
        places : mapping of str to str, optional
            Fields by the places that errors name.
        """
        try:
            return make()
        except InputError as error:
            field_name = (places or {}).get(error.place, error.place)
            known = field_name in self.fields
            self.fail(field_name if known else name, error.message, error.mend)
            return None

    @property
    def good(self) -> bool:
        """Whether nothing was wrong so far."""
        return not self.faults


@dataclass(frozen=True, slots=True, kw_only=True)
class Sent:
    """A posted form.

    Attributes
    ----------
    fields : dict of str to str
        A name that came several times holds its values with commas between.
    files : dict of str to (str, bytes)
        Name and content of each file that was chosen.
    """

    fields: dict[str, str]
    files: dict[str, tuple[str, bytes]]


async def sent_of(request: Request) -> Sent:
    """Return what a form posted, files read and let go of."""
    fields: dict[str, str] = {}
    files: dict[str, tuple[str, bytes]] = {}
    async with request.form() as form:
        for name, value in form.multi_items():
            if isinstance(value, UploadFile):
                if value.filename:
                    files[name] = (value.filename, await value.read())
            else:
                fields[name] = f"{fields[name]},{value}" if name in fields else value
    return Sent(fields=fields, files=files)


def fields_of(sent: Annotated[Sent, Depends(sent_of)]) -> dict[str, str]:
    """Return a posted form's fields."""
    return sent.fields


def files_of(sent: Annotated[Sent, Depends(sent_of)]) -> dict[str, tuple[str, bytes]]:
    """Return a posted form's files."""
    return sent.files


Fields = Annotated[dict[str, str], Depends(fields_of)]
"""What a handler takes to get a posted form's fields."""

Files = Annotated[dict[str, tuple[str, bytes]], Depends(files_of)]
"""What a handler takes to get a posted form's files: name and content of each."""


def _sentence(message: str) -> str:
    text = message[:1].upper() + message[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."
