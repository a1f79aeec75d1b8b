"""The order's page: quote, agreement, sending, calling off; every form keeps what was typed."""

import re
from collections.abc import Iterator
from datetime import timedelta
from html import unescape

import pytest

from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.order import PriceKind
from loftwright.domain.order_acts import Agreed, OrderSent, Quoted, Withdrawn
from loftwright.domain.terms import ListedPrice, Terms
from loftwright.report.order_words import FEW_BALLS_KNOWN
from loftwright.services.demo_studio import DemoStudio
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.order import Writing, give_quote
from loftwright.services.studio import Studio
from loftwright.services.terms import change_terms, read_terms
from loftwright.services.training_plays import new_training_id
from loftwright.workshop.standing import newest, standing
from orders import a_quote
from studios import Clock, app_of, studio_in_memory
from web_client import WebClient, asking

TERMS = Terms(
    prices=(
        ListedPrice(what="Build and grip", kind=PriceKind.LABOUR, price=6000, usual=True),
        ListedPrice(what="Spare sleeve", kind=PriceKind.PART, price=2450),
    ),
    tax=0.2,
    deposit=0.3,
    builder="The Old Forge",
    cannot=("tip trim", "tight swingweight"),
)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    made = studio_in_memory(clock)
    change_terms(made, TERMS, version=read_terms(made).version)
    return made


@pytest.fixture
def client(studio: Studio) -> Iterator[WebClient]:
    with asking(app_of(studio)) as made:
        yield made


@pytest.fixture
def at(demo: DemoStudio) -> str:
    return f"/fittings/{demo.finished}/order"


def words(text: str) -> str:
    """Return what a page says."""
    bare = re.sub(r"<svg.*?</svg>|<[^>]+>", " ", text, flags=re.DOTALL)
    return re.sub(r"\s+", " ", unescape(bare))


def said(text: str) -> str:
    """Return the answer of a page."""
    found = re.search(r"<h1>(.*?)</h1>", text, re.DOTALL)
    assert found is not None
    return words(found.group(1)).strip().replace(" ,", ",")


def fields_of(text: str, action: str) -> dict[str, str]:
    """Return what stands in the fields of a form."""
    form = next(
        one
        for one in re.findall(r"<form.*?</form>", text, re.DOTALL)
        if f'action="{action}' in one
    )
    found = dict(re.findall(r'<input(?=[^>]* name="([^"]+)")[^>]* value="([^"]*)"', form))
    for name, inner in re.findall(
        r'<select[^>]* name="([^"]+)".*?>(.*?)</select>', form, re.DOTALL
    ):
        chosen = re.search(r'value="([^"]*)" selected', inner)
        found[name] = chosen.group(1) if chosen else ""
    found |= dict(
        re.findall(r'<textarea[^>]* name="([^"]+)"[^>]*>(.*?)</textarea>', form, re.DOTALL)
    )
    found.pop("few_known", None)
    return {name: unescape(value) for name, value in found.items()}


def form(client: WebClient, at: str, club: str = "Ash") -> dict[str, str]:
    """Open the form of a quote and return what stands in it."""
    answer = client.get(at, params={"club": club})
    assert answer.status_code == 200
    return fields_of(answer.text, f"{at}/quote")


def quoted(client: WebClient, at: str, club: str = "Ash", **more: str) -> str:
    """Quote a club as the form stands and return the page after it."""
    answer = client.post(f"{at}/quote", data=form(client, at, club) | {"do": "quote"} | more)
    assert (answer.status_code, answer.headers.get("location")) == (303, at), words(answer.text)
    return client.get(at).text


def agreed(client: WebClient, at: str) -> str:
    """Quote and agree, and return the page after it."""
    fields = fields_of(quoted(client, at), f"{at}/agree")
    answer = client.post(f"{at}/agree", data=fields | {"name": "Rosalind Quickly"})
    assert answer.status_code == 303, words(answer.text)
    return client.get(at).text


def newest_of(studio: Studio, demo: DemoStudio, kind: type) -> object:
    return newest(standing(studio.store.job_record(demo.finished)), kind)


def test_before_a_quote_every_way_stands_with_its_price(client: WebClient, at: str) -> None:
    text = client.get(at).text
    assert said(text) == "Ash leads, and nothing is quoted yet."
    table = text[text.index('id="ways"') :]
    assert "429 crowns" in table
    assert "Only turn the sleeve" in table
    assert "The own head has no sleeve." in table
    assert table.count("shaft in the own head<") >= 4
    assert "there is nothing to order" in table
    assert "What the shop earns is in no ranking" in text
    assert "Why not the dearer one?" in words(text)


def test_the_form_begins_with_the_rack_s_price_and_the_shop_s_terms(
    client: WebClient, at: str
) -> None:
    text = client.get(at, params={"club": "Ash"}).text
    assert (
        said(text) == "Ash would cost 586.80 crowns with tax, 176.04 crowns of it with the order."
    )
    fields = fields_of(text, f"{at}/quote")
    assert {name: fields[name] for name in ("price-1", "what-2", "kind-2", "price-2")} == {
        "price-1": "429",
        "what-2": "Build and grip",
        "kind-2": "labour",
        "price-2": "60",
    }
    assert (fields["tax"], fields["deposit"], fields["lead_days"]) == ("20", "30", "14")
    assert (fields["valid_until"], fields["builder"]) == ("2026-12-25", "The Old Forge")
    assert "few_known" not in text
    assert "shaft in the own head<" in text[text.index('id="cheap"') :]


def test_a_quote_is_kept_and_shown(
    client: WebClient, studio: Studio, demo: DemoStudio, at: str
) -> None:
    text = quoted(client, at, **{"price-1": "450.50", "grip": "Cord", "note": "Logo below"})
    assert (
        said(text) == "Ash is quoted at 612.60 crowns until 25 December 2026; nobody agreed yet."
    )
    act = newest_of(studio, demo, Quoted)
    assert isinstance(act, Quoted)
    assert act.quote.lines[0].price == 45050
    assert (act.quote.spec.grip, act.quote.note) == ("Cord", "Logo below")
    assert act.quote.spec.promise is not None
    told = words(text)
    for line in ("450.50 crowns", "Sum with tax 612.60 crowns", "Logo below", "Cord"):
        assert line in told
    assert "Undo quote" in text


def test_lines_are_added_from_the_list_and_removed_without_a_word_lost(
    client: WebClient, at: str
) -> None:
    typed = form(client, at) | {"note": "Logo below", "price-1": "four hundred"}
    added = client.post(f"{at}/quote", data=typed | {"listed": "1", "do": "add"})
    assert added.status_code == 200
    fields = fields_of(added.text, f"{at}/quote")
    assert (fields["what-3"], fields["price-3"], fields["count-3"]) == (
        "Spare sleeve",
        "24.50",
        "1",
    )
    assert (fields["note"], fields["price-1"]) == ("Logo below", "four hundred")
    assert "is no amount" not in added.text
    blank = client.post(f"{at}/quote", data=fields | {"do": "add"})
    assert fields_of(blank.text, f"{at}/quote")["what-4"] == ""
    gone = client.post(f"{at}/quote", data=fields | {"do": "remove-2"})
    left = fields_of(gone.text, f"{at}/quote")
    assert "what-2" not in left
    assert left["what-3"] == "Spare sleeve"


def test_a_form_takes_no_more_lines_than_a_sheet(client: WebClient, at: str) -> None:
    fields = form(client, at)
    for _ in range(14):
        answer = client.post(f"{at}/quote", data=fields | {"do": "add"})
        fields = fields_of(answer.text, f"{at}/quote")
    assert sum(name.startswith("what-") for name in fields) == 12
    assert "No further line fits" in answer.text


def test_the_sum_is_told_before_it_is_quoted(
    client: WebClient, studio: Studio, demo: DemoStudio, at: str
) -> None:
    typed = form(client, at) | {"price-1": "100", "tax": "7.7"}
    text = client.post(f"{at}/quote", data=typed | {"do": "sum"}).text
    assert "Tax, 7.7 % 12.32 crowns" in words(text)
    assert newest_of(studio, demo, Quoted) is None
    bare = client.post(f"{at}/quote", data=typed | {"price-1": "", "do": "sum"}).text
    assert said(bare) == "Ash has no sum yet: 1 line without a price."
    assert "no price for “Club:" in words(bare)


@pytest.mark.parametrize(
    ("field", "typed", "wrong"),
    [
        ("price-1", "4x", "is no amount"),
        ("what-1", "", "Write what it is for"),
        ("count-1", "0", "Give a whole number from 1 to 100"),
        ("tax", "140", "A tax of 140 % cannot be"),
        ("deposit", "much", "much"),
        ("lead_days", "soon", "Give a whole number"),
        ("valid_until", "", "A last day is missing"),
        ("valid_until", "2026-11-01", "is over"),
    ],
)
def test_a_form_that_cannot_be_keeps_everything_typed(
    client: WebClient,
    studio: Studio,
    demo: DemoStudio,
    at: str,
    field: str,
    typed: str,
    wrong: str,
) -> None:
    fields = form(client, at) | {"note": "Logo below", field: typed, "do": "quote"}
    answer = client.post(f"{at}/quote", data=fields)
    assert answer.status_code == 422
    assert wrong in words(answer.text)
    kept = fields_of(answer.text, f"{at}/quote")
    assert (kept["note"], kept[field]) == ("Logo below", typed)
    assert studio.store.job_record(demo.finished) == ()


def test_a_stale_quote_is_told_and_keeps_what_was_typed(client: WebClient, at: str) -> None:
    stale = form(client, at) | {"note": "Logo below", "do": "quote"}
    quoted(client, at)
    answer = client.post(f"{at}/quote", data=stale)
    assert answer.status_code == 409
    assert "in the meantime" in answer.text
    kept = fields_of(answer.text, f"{at}/quote")
    assert kept["note"] == "Logo below"
    assert client.post(f"{at}/quote", data=kept | {"do": "quote"}).status_code == 303


def test_a_quote_is_changed_from_what_it_was(
    client: WebClient, studio: Studio, demo: DemoStudio, at: str
) -> None:
    quoted(client, at, **{"price-1": "450.50", "note": "Logo below"})
    fields = form(client, at)
    assert (fields["price-1"], fields["note"]) == ("450.50", "Logo below")
    quoted(client, at, **{"price-1": "400"})
    assert len(studio.store.job_record(demo.finished)) == 2


def test_the_golfer_agrees_on_the_screen_or_on_paper(
    client: WebClient, studio: Studio, demo: DemoStudio, at: str
) -> None:
    text = agreed(client, at)
    assert said(text) == "Ash is agreed at 586.80 crowns; it is not ordered yet."
    assert newest_of(studio, demo, Agreed) == Agreed(name="Rosalind Quickly")
    fields = fields_of(quoted(client, at), f"{at}/agree")
    answer = client.post(f"{at}/agree", data=fields | {"name": "", "how": "paper"})
    assert answer.status_code == 303
    signed = newest_of(studio, demo, Agreed)
    assert signed == Agreed(name="Rosalind Quickly (invented)", on_paper=True)


def test_an_agreement_without_a_name_is_asked_for_again(client: WebClient, at: str) -> None:
    fields = fields_of(quoted(client, at), f"{at}/agree")
    answer = client.post(f"{at}/agree", data=fields | {"name": "", "how": "screen"})
    assert answer.status_code == 422
    assert "The golfer types the name" in answer.text


def test_an_agreement_to_another_quote_is_refused(client: WebClient, at: str) -> None:
    fields = fields_of(quoted(client, at), f"{at}/agree")
    quoted(client, at, **{"price-1": "400"})
    del fields["seen"]
    answer = client.post(f"{at}/agree", data=fields | {"name": "Rosalind"})
    assert answer.status_code == 409
    assert "Another quote took the place" in answer.text
    assert fields_of(answer.text, f"{at}/agree")["name"] == "Rosalind"


def test_a_quote_that_ran_out_stands_ready_to_be_quoted_again(
    client: WebClient, clock: Clock, at: str
) -> None:
    fields = fields_of(quoted(client, at), f"{at}/agree")
    clock.at += timedelta(days=31)
    late = client.post(f"{at}/agree", data=fields | {"name": "Rosalind"})
    assert late.status_code == 422
    assert "The quote ran out on 25" in words(late.text)
    text = client.get(at).text
    again = fields_of(text, f"{at}/quote")
    assert (again["valid_until"], again["price-1"]) == ("2027-01-25", "429")
    assert "ran out on" in words(text)
    assert "Call it off" in text
    assert client.post(f"{at}/quote", data=again | {"do": "quote"}).status_code == 303
    assert said(client.get(at).text).startswith("Ash is quoted at 586.80 crowns")


def test_a_club_that_was_not_hit_waits_for_its_tick(
    client: WebClient, studio: Studio, demo: DemoStudio, at: str
) -> None:
    club = "Ash, one down"
    text = quoted(client, at, club)
    told = words(text)
    assert "5 balls with just this club are missing before the golfer may agree." in told
    assert "Agreed here" not in text
    sequence = studio.store.job_record(demo.finished)[-1].sequence
    asked = {"name": "Rosalind", "quoted": str(sequence)}
    assert client.post(f"{at}/agree", data=asked).status_code == 422
    text = quoted(client, at, club, few_known="yes", note="Logo below")
    act = newest_of(studio, demo, Quoted)
    assert isinstance(act, Quoted)
    assert act.quote.note == f"Logo below {FEW_BALLS_KNOWN}"
    fields = fields_of(text, f"{at}/agree")
    assert client.post(f"{at}/agree", data=fields | {"name": "Rosalind"}).status_code == 303
    again = client.get(at, params={"club": club}).text
    assert 'name="few_known" value="yes" checked' in again
    assert fields_of(again, f"{at}/quote")["note"] == "Logo below"


def test_the_order_text_has_initials_and_what_cannot_be_done(client: WebClient, at: str) -> None:
    text = agreed(client, at)
    area = re.search(r"<textarea[^>]*readonly[^>]*>(.*?)</textarea>", text, re.DOTALL)
    assert area is not None
    order = unescape(area.group(1))
    assert "For: R.Q." in order
    assert "Ready by: 9 December 2026" in order
    assert "Quickly" not in order
    assert "crowns" not in order
    assert "What The Old Forge cannot do" in text
    file = client.get(f"{at}.txt")
    assert file.headers["content-type"].startswith("text/plain")
    assert 'filename="order-2026-11-25.txt"' in file.headers["content-disposition"]
    assert file.text == order


def test_of_another_builder_it_is_said_that_nobody_asked(client: WebClient, at: str) -> None:
    fields = fields_of(quoted(client, at, builder="Elsewhere"), f"{at}/agree")
    client.post(f"{at}/agree", data=fields | {"name": "Rosalind"})
    text = words(client.get(at).text)
    assert "Nobody wrote down what Elsewhere cannot do" in text
    assert "tip trim" not in text


def test_papers_are_there_when_there_is_something_on_them(client: WebClient, at: str) -> None:
    assert client.get(f"{at}.pdf").status_code == 422
    assert client.get(f"{at}.txt").status_code == 422
    quoted(client, at)
    assert client.get(f"{at}.pdf").content.startswith(b"%PDF")
    assert client.get(f"{at}.pdf?copy=workshop").status_code == 422
    agreed(client, at)
    answer = client.get(f"{at}.pdf?copy=workshop")
    assert answer.headers["content-type"] == "application/pdf"
    assert client.get(f"{at}.pdf?copy=friend").status_code == 422


def test_an_order_goes_out_with_its_day(
    client: WebClient, studio: Studio, demo: DemoStudio, at: str
) -> None:
    fields = fields_of(agreed(client, at), f"{at}/send")
    assert (fields["to"], fields["promised"]) == ("The Old Forge", "2026-12-09")
    bad = client.post(f"{at}/send", data=fields | {"to": "Forge", "promised": "2026-11-01"})
    assert bad.status_code == 422
    assert "cannot be promised" in bad.text
    assert fields_of(bad.text, f"{at}/send")["to"] == "Forge"
    assert client.post(f"{at}/send", data=fields | {"promised": ""}).status_code == 422
    assert client.post(f"{at}/send", data=fields).status_code == 303
    text = client.get(at).text
    assert said(text) == "Ash is ordered and promised for 9 December 2026."
    sent = newest_of(studio, demo, OrderSent)
    assert isinstance(sent, OrderSent)
    assert sent.to == "The Old Forge"
    assert '<li class="here"><a href="' + at in text


def test_an_order_is_called_off_with_a_reason_and_taken_back(
    client: WebClient, studio: Studio, demo: DemoStudio, at: str
) -> None:
    fields = fields_of(agreed(client, at), f"{at}/withdraw")
    silent = client.post(f"{at}/withdraw", data=fields | {"reason": ""})
    assert silent.status_code == 422
    assert "A reason is missing" in silent.text
    assert client.post(f"{at}/withdraw", data=fields | {"reason": "too dear"}).status_code == 303
    text = client.get(at).text
    assert said(text) == "The order is off: too dear."
    assert newest_of(studio, demo, Withdrawn) == Withdrawn(reason="too dear")
    undo = fields_of(text, f"/fittings/{demo.finished}/job/undo")
    answer = client.post(f"/fittings/{demo.finished}/job/undo", data=undo)
    assert answer.headers["location"] == at
    assert said(client.get(at).text).startswith("Ash is agreed")


def test_a_new_quote_asks_for_a_new_agreement_and_says_so(client: WebClient, at: str) -> None:
    agreed(client, at)
    text = client.get(at, params={"club": "Birch"}).text
    assert "A new quote takes the place of the agreed one" in words(text)
    assert said(quoted(client, at, "Birch")).endswith("nobody agreed yet.")


@pytest.mark.parametrize("club", ["Own", "Only turn the sleeve", "Nothing <b>"])
def test_what_cannot_be_ordered_says_why(client: WebClient, at: str, club: str) -> None:
    text = client.get(at, params={"club": club}).text
    assert f"{club}: " in words(text)
    assert "<b>: " not in text
    assert 'id="ways"' in text
    answer = client.post(f"{at}/quote", data={"club": club, "do": "quote"})
    assert answer.status_code == 422


def test_an_open_fitting_says_that_more_balls_may_change_it(
    client: WebClient, demo: DemoStudio
) -> None:
    text = client.get(f"/fittings/{demo.in_progress}/order").text
    assert said(text) == "Nothing needs to be ordered: the choice is to keep Own ."
    assert "The fitting is still open" in text


def test_without_a_club_there_is_nothing_to_order(client: WebClient, studio: Studio) -> None:
    visitor = Visitor(golfer=Golfer(id=""), identity=Identity(name="Ida"))
    fitting = open_for_new(studio, visitor, bay="Bay 1").id
    text = client.get(f"/fittings/{fitting}/order").text
    assert "Nothing can be ordered yet" in said(text)
    assert "Go to the plan" in text


def test_the_choice_leads_to_the_quote_of_its_row(client: WebClient, demo: DemoStudio) -> None:
    text = client.get(f"/fittings/{demo.finished}/choice").text
    links = [unescape(one) for one in re.findall(r'class="quote" href="([^"]+)"', text)]
    assert len(links) >= 16
    assert len(set(links)) == len(links)
    for link in links:
        answer = client.get(link.partition("#")[0])
        assert 'id="quote"' in answer.text, link


def test_a_minor_s_guardian_signs(client: WebClient, studio: Studio) -> None:
    identity = Identity(name="Ida Young", guardian="Otto Old")
    visitor = Visitor(golfer=Golfer(id="", minor=True), identity=identity)
    fitting = open_for_new(studio, visitor, bay="Bay 1").id
    quote = a_quote(few_balls_known=True)
    record = give_quote(studio, fitting, quote, Writing())
    at = f"/fittings/{fitting}/order"
    assert "Name of the guardian, as signed" in client.get(at).text
    asked = {"quoted": str(record[-1].sequence), "how": "paper", "name": ""}
    assert client.post(f"{at}/agree", data=asked).status_code == 303
    assert newest(studio.store.job_record(fitting), Agreed) == Agreed(
        name="Otto Old", on_paper=True
    )


def test_a_club_that_left_the_choice_keeps_its_quote(client: WebClient, studio: Studio) -> None:
    visitor = Visitor(golfer=Golfer(id=""), identity=Identity(name="Ida"))
    fitting = open_for_new(studio, visitor, bay="Bay 1").id
    give_quote(studio, fitting, a_quote(few_balls_known=True), Writing())
    at = f"/fittings/{fitting}/order"
    fields = form(client, at)
    assert fields["price-1"] == "429"
    assert client.post(f"{at}/quote", data=fields | {"do": "quote"}).status_code == 303
    told = newest(studio.store.job_record(fitting), Quoted)
    assert told is not None
    assert told.quote.spec == a_quote().spec


@pytest.mark.parametrize("path", ["", ".pdf", ".txt"])
def test_a_training_case_has_no_order(client: WebClient, path: str) -> None:
    answer = client.get(f"/fittings/{new_training_id()}/order{path}")
    assert answer.status_code == 404
    assert "A training case is not ordered" in answer.text


def test_an_unknown_fitting_has_none(client: WebClient) -> None:
    assert client.get("/fittings/nobody/order").status_code == 404


def test_the_address_of_a_form_leads_back_to_the_page(client: WebClient, at: str) -> None:
    """A page that shows a form's faults stands at the form's address: it may be read again."""
    for form_of in ("quote", "agree", "send", "withdraw"):
        answer = client.get(f"{at}/{form_of}")
        assert (answer.status_code, answer.headers["location"]) == (303, at)
    assert client.get(f"{at}/elsewhere").status_code == 404
