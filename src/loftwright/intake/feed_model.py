"""The model of one ball of a shot feed for the web's own description of itself."""

from typing import Any, Final

from pydantic import BaseModel, ConfigDict, Field, create_model

from loftwright.intake.feed_keys import EXAMPLE, KEYS, NUMBER_KEYS, READ_KEY, READ_SAYS, TEXT_KEYS

_CONFIG: Final = ConfigDict(
    extra="forbid",
    strict=True,
    frozen=True,
    title="One ball",
    json_schema_extra={"examples": [dict(EXAMPLE)]},
)


def _field(name: str) -> tuple[Any, Any]:
    number, text = NUMBER_KEYS.get(name), TEXT_KEYS.get(name)
    if number is not None:
        limits = Field(
            None, ge=number.low, le=number.high, allow_inf_nan=False, description=number.says
        )
        return float | None, limits
    if name == READ_KEY:
        return bool | None, Field(None, description=READ_SAYS)
    if text is None:
        raise LookupError(f"no table has the key {name}")
    if name == "key":
        return str, Field(pattern=r"\S", max_length=text.longest, description=text.says)
    return str | None, Field(None, max_length=text.longest, description=text.says)


FEED_MODEL: Final[type[BaseModel]] = create_model(
    "FeedBall",
    __config__=_CONFIG,
    **{name: _field(name) for name in KEYS},  # type: ignore[call-overload]
)
"""One ball as it is sent; unknown keys, texts for numbers and numbers beyond limits are refused.

Made from the same table of keys as the parser, which checks besides what a schema cannot say:
that two units of a quantity agree and that a ball that was read has a number.
"""


def feed_schema() -> dict[str, Any]:
    """Return the JSON schema of one ball, as the web's description of itself has it."""
    return FEED_MODEL.model_json_schema()
