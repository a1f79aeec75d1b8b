"""An audit that could not be done is never passed off as one that found nothing."""

from typing import Any

from audit import CLEAN, KNOWN, NOT_AUDITED, Package, audit, rounds, verdict

CLAY: Package = ("clay", "1.0")
FLINT: Package = ("flint", "2.1")
NEWER: Package = ("flint", "3.0")
PACKAGES = (CLAY, FLINT, NEWER)


def looked_up(package: Package, *ids: str) -> dict[str, Any]:
    """Return one entry as pip-audit 2.10 writes it as JSON."""
    vulns = [{"id": one, "fix_versions": [], "aliases": []} for one in ids]
    return {"name": package[0], "version": package[1], "vulns": vulns}


def skipped(package: Package) -> dict[str, Any]:
    return {"name": package[0], "skip_reason": f"{package[0]} could not be audited"}


class Services:
    """Services that know some packages, and a record of what they were asked."""

    def __init__(self, known: dict[str, dict[Package, tuple[str, ...]]]) -> None:
        self.known = known
        self.asked: list[tuple[str, tuple[Package, ...]]] = []

    def __call__(self, service: str, packages: tuple[Package, ...]) -> dict[str, Any]:
        self.asked.append((service, packages))
        known = self.known.get(service)
        if known is None:
            return {}
        told = [looked_up(one, *known[one]) if one in known else skipped(one) for one in packages]
        return {"dependencies": told, "fixes": []}


def test_all_looked_up_and_nothing_known_ends_well() -> None:
    ask = Services({"pypi": dict.fromkeys(PACKAGES, ())})
    ended, lines = verdict(PACKAGES, audit(PACKAGES, ask))
    assert ended == CLEAN
    assert lines == ["audit: 3 packages, 3 looked up, 0 with a known vulnerability"]
    assert {service for service, _ in ask.asked} == {"pypi"}


def test_services_that_do_not_answer_end_in_not_audited() -> None:
    ended, lines = verdict(PACKAGES, audit(PACKAGES, Services({})))
    assert ended == NOT_AUDITED
    assert "0 looked up" in lines[0]
    assert lines[1].startswith("NOT AUDITED: clay 1.0, flint 2.1, flint 3.0.")


def test_one_package_that_no_service_knows_ends_in_not_audited() -> None:
    ask = Services({"pypi": {CLAY: (), FLINT: ()}, "osv": {}})
    ended, lines = verdict(PACKAGES, audit(PACKAGES, ask))
    assert ended == NOT_AUDITED
    assert lines[1].startswith("NOT AUDITED: flint 3.0.")


def test_the_second_service_is_asked_about_what_the_first_passed_over_alone() -> None:
    ask = Services({"pypi": {CLAY: (), FLINT: ()}, "osv": {NEWER: ("X-1",)}})
    found = audit(PACKAGES, ask)
    assert ask.asked[-1] == ("osv", (NEWER,))
    ended, lines = verdict(PACKAGES, found)
    assert ended == KNOWN
    assert lines[0] == "flint 3.0: X-1"


def test_a_known_vulnerability_is_told_even_where_others_were_not_looked_up() -> None:
    ask = Services({"pypi": {CLAY: ("X-2", "X-1")}})
    ended, lines = verdict(PACKAGES, audit(PACKAGES, ask))
    assert ended == KNOWN
    assert lines[0] == "clay 1.0: X-1, X-2"
    assert "NOT AUDITED" in lines[-1]


def test_two_versions_of_a_package_are_asked_about_in_turn() -> None:
    made = rounds(PACKAGES)
    assert made == [(CLAY, FLINT), (NEWER,)]


def test_an_answer_about_another_version_counts_for_nothing() -> None:
    def other(service: str, packages: tuple[Package, ...]) -> dict[str, Any]:
        del service, packages
        return {"dependencies": [looked_up(("clay", "9.9"))]}

    assert verdict([CLAY], audit([CLAY], other))[0] == NOT_AUDITED
