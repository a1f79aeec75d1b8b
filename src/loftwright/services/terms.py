"""The shop's terms for every job, kept beside its settings."""

from dataclasses import dataclass
from functools import cache
from typing import Final

from pydantic import TypeAdapter

from loftwright.domain.terms import Terms
from loftwright.services.studio import Studio

NAME: Final = "terms"


@dataclass(frozen=True, slots=True, kw_only=True)
class TermsRead:
    """The terms and the version under which they were read."""

    terms: Terms
    version: int


def read_terms(studio: Studio) -> TermsRead:
    """Return the shop's terms; the usual ones if nothing was ever settled."""
    kept = studio.store.setting(NAME)
    terms = _adapter().validate_json(kept.value) if kept.value else Terms()
    return TermsRead(terms=terms, version=kept.version)


def change_terms(studio: Studio, terms: Terms, *, version: int) -> int:
    """Keep the shop's terms and return their new version.

    Raises
    ------
    ConflictError
        If somebody else changed them since they were read.
    """
    text = _adapter().dump_json(terms).decode("utf-8")
    return studio.store.set_setting(NAME, text, version=version)


@cache
def _adapter() -> TypeAdapter[Terms]:
    return TypeAdapter(Terms)
