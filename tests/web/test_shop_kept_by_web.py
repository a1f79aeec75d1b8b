"""The web application keeps the shop record while it runs: what is closed goes in by itself."""

import asyncio
from time import monotonic

from demos import a_demo
from loftwright.domain.acts import Closed
from loftwright.services.acting import act, undo
from loftwright.services.shop_folder import record_folder
from loftwright.services.studio import Studio
from loftwright.shop.record import standing
from shop_studios import with_consent
from studios import app_of, studio_in_memory

LONG = 90.0


async def until(studio: Studio, fittings: int) -> None:
    """Wait until so many fittings stand in the record."""
    begun = monotonic()
    while len(standing(record_folder(studio))) != fittings:
        assert monotonic() - begun < LONG
        await asyncio.sleep(0.1)


def test_closing_and_undoing_it_are_followed_behind_the_pages() -> None:
    studio = studio_in_memory()
    fitting = a_demo(studio).finished
    with_consent(studio, fitting, agreed=True)
    app = app_of(studio)

    async def a_day() -> None:
        async with app.router.lifespan_context(app):
            await until(studio, 1)
            closed = next(
                one.sequence
                for one in reversed(studio.record(fitting))
                if isinstance(one.act, Closed)
            )
            undo(studio, fitting, closed, seen=None)
            await until(studio, 0)
            act(studio, fitting, [Closed()])
            await until(studio, 1)

    asyncio.run(a_day())
