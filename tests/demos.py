"""The invented studio in memory, and its fixtures."""

import pytest

from loftwright.services.demo_studio import DemoStudio, fill_demo
from loftwright.services.studio import Studio
from studios import studio_in_memory


def a_demo(studio: Studio) -> DemoStudio:
    """Fill a studio with the invented golfers and return what was made."""
    made = fill_demo(studio)
    assert made is not None
    return made


@pytest.fixture
def studio() -> Studio:
    """Return an empty studio in memory."""
    return studio_in_memory()


@pytest.fixture
def demo(studio: Studio) -> DemoStudio:
    """Fill the test's studio with the invented golfers."""
    return a_demo(studio)
