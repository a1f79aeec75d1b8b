"""A club that was built from a fitting and hit in it is told apart from the tested ones."""

import re

from loftwright.services.demo_studio import fill_demo
from loftwright.web.views.choice_lines import BUILT
from pick_ups import TESTED, ready
from studios import Clock, app_of, studio_in_memory
from web_client import asking


def test_the_built_club_bears_its_tag_in_the_choice_and_the_tested_one_none() -> None:
    clock = Clock()
    studio = studio_in_memory(clock)
    demo = fill_demo(studio)
    assert demo is not None
    built = ready(studio, clock, demo)
    name = built.begin()
    built.rotate(name)
    with asking(app_of(studio)) as client:
        page = client.get(f"/fittings/{built.fitting}/choice").text
    rows = re.findall(r"<tr[^>]*>.*?</tr>", page, flags=re.DOTALL)
    tagged = [row for row in rows if f'<span class="tag">{BUILT}</span>' in row]
    assert len(tagged) == 1
    assert name in tagged[0]
    assert TESTED not in tagged[0].split("</th>", 1)[0]
