"""`loftwright shop publish`: a comparison over many golfers, looked at and then published."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from loftwright.cli.options import DataOption, JsonFlag, example
from loftwright.cli.output import emit_lines, emit_record
from loftwright.cli.shop import shop
from loftwright.errors import EvidenceError, InputError, StoreError

if TYPE_CHECKING:
    from loftwright.services.published_content import Content
    from loftwright.services.shop_publishing import Looked
    from loftwright.services.studio import Studio
    from loftwright.shop.publishing import Question

_PUBLISH: Final = example(
    'loftwright shop publish "Reed 60 g firm" "Sedge 60 g firm" --against "Rush 60 g firm"',
    'loftwright shop publish Reed Sedge --against Rush --by "A. Fitter" --seen 3f2a9c41d07be655',
)


def register(app: typer.Typer) -> None:  # noqa: ARG001 - the group is there already
    """Add the command to the group of the shop record."""
    shop.command(epilog=_PUBLISH)(publish)


def publish(
    models: Annotated[
        list[str],
        typer.Argument(metavar="MODEL...", help="As the rack names it, or its beginning."),
    ],
    against: Annotated[str, typer.Option(metavar="MODEL", help="The reference.")],
    kind: Annotated[str, typer.Option(metavar="KIND", help="shaft or head.")] = "shaft",
    golfers: Annotated[
        str, typer.Option(metavar="SPEED", help="slow, middle or fast ones; all without it.")
    ] = "",
    note: Annotated[
        str, typer.Option(metavar="TEXT", help="One line: no claim, no figure, no name.")
    ] = "",
    by: Annotated[
        str, typer.Option(metavar="NAME", help="Publish it: who decides. It stays in the shop.")
    ] = "",
    seen: Annotated[str, typer.Option(metavar="STAMP", help="What the look before printed.")] = "",
    files: Annotated[
        Path, typer.Option(metavar="DIR", help="Where the published files go.")
    ] = Path(),
    data: DataOption = None,
    as_json: JsonFlag = False,
) -> None:
    """Look at a comparison over five golfers or more who agreed; with --by publish it.

    Nothing leaves the shop without a look before: the look prints a stamp, and what is published
    must be what was looked at.
    """
    from loftwright.services.opening import open_known_studio  # noqa: PLC0415
    from loftwright.services.published_making import Making  # noqa: PLC0415
    from loftwright.services.shop_publishing import look  # noqa: PLC0415
    from loftwright.services.shop_publishing import publish as publish_it  # noqa: PLC0415

    studio = open_known_studio(data)
    try:
        question, making = _question(studio, kind, models, against, golfers), Making(note=note)
        if not by:
            _say(look(studio, question, making), as_json=as_json)
            return
        made = publish_it(studio, question, making, by=by, stamp=seen)
        written = _write(made.number, made.content, files)
    finally:
        studio.store.close()
    if as_json:
        emit_record({"number": made.number, "files": [str(one) for one in written]})
        return
    emit_lines([f"Comparison {made.number} is published.", *(f"  {one}" for one in written)])


def _question(
    studio: "Studio", kind: str, models: list[str], against: str, golfers: str
) -> "Question":
    from loftwright.services.publishable import model_words  # noqa: PLC0415
    from loftwright.shop.publishing import KINDS, Question  # noqa: PLC0415

    if kind not in KINDS:
        raise InputError(f"{kind!r} is not compared", place="kind", mend="Give shaft or head.")
    names = model_words(studio.store.rack(), kind)
    reference = _named(names, against, "against")
    chosen = [_named(names, one, "MODEL") for one in models]
    return Question(
        kind=kind,
        models=tuple(dict.fromkeys([*chosen, reference])),
        reference=reference,
        golfers=golfers,
    )


def _named(names: Mapping[str, str], typed: str, place: str) -> str:
    """Return the model that is called so, or whose name alone begins so."""
    wanted = typed.strip().casefold()
    whole = [model for model, name in names.items() if name.casefold() == wanted]
    found = whole or [
        model for model, name in names.items() if wanted and name.casefold().startswith(wanted)
    ]
    if len(found) == 1:
        return found[0]
    several = ", ".join(sorted(names[model] for model in found))
    raise InputError(
        f"{typed!r} names {len(found) or 'no'} models of the rack",
        place=place,
        mend=f"Write more of one: {several}." if found else "Write it as the rack names it.",
    )


def _say(looked: "Looked", *, as_json: bool) -> None:
    from loftwright.report.models_words import model_told, models_told  # noqa: PLC0415
    from loftwright.services.published_files import record_of, told_models  # noqa: PLC0415

    content = looked.content
    if content is None:
        first = looked.refusals[0]
        raise EvidenceError(
            f"it may not leave the shop: {first.why}", place="comparison", mend=first.mend
        )
    if as_json:
        emit_record({"seen": looked.stamp, "content": record_of(content)})
        return
    told = told_models(content)
    emit_lines(
        [
            models_told(told, content.reference, content.kind),
            *(f"  {model_told(one, content.reference)}" for one in told),
            "",
            f"Golfers: {content.block.golfers}",
            f"Samples: {content.block.samples}",
            f"Dates: {content.block.dates}",
            "",
            f"Nothing is published yet. Publish exactly this: --by NAME --seen {looked.stamp}",
        ]
    )


def _write(number: int, content: "Content", folder: Path) -> list[Path]:
    from loftwright.services.published_files import KINDS, file_of  # noqa: PLC0415

    written = []
    for kind in KINDS:
        place = folder / f"comparison-{number}.{kind}"
        try:
            place.write_bytes(file_of(content, kind))
        except OSError as error:
            raise StoreError(
                f"the file cannot be written: {error.strerror}",
                place=str(place),
                mend="It is published and kept; get its files from the page of comparisons.",
            ) from error
        written.append(place)
    return written
