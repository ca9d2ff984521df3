"""A stranger's words stay words: hostile text in every field, and every file of the built site is taken apart."""

import csv
import io
import json
import re
from dataclasses import dataclass
from pathlib import Path

import hostile
import pytest
import samples
from sample_site import build, make_project

from methodsheets.pages.policy import digest, policy, wanted_by, with_policy

PLUGINS = ["search", "tags", "methodsheets"]


@pytest.fixture(scope="module")
def sites(tmp_path_factory) -> dict[str, Path]:
    """The same handbook, friendly and hostile."""
    made = {}
    for name, book in (("friendly", samples.handbook()), ("hostile", hostile.handbook())):
        with pytest.MonkeyPatch.context() as patch:
            made[name], _ = build(make_project(tmp_path_factory.mktemp(name), plugins=PLUGINS), book, patch)
    return made


@dataclass(frozen=True)
class Seen:
    """What a browser finds in a page; each page is taken apart once, which takes longest."""

    faults: list
    scripts: list[str]
    policies: list[str]
    before: list[str]
    """The elements of its head up to the policy."""


def seen_in(page: Path) -> Seen:
    root = hostile.parsed(page.read_text("utf-8"))
    found = [one for one in root.iter("meta") if one.get("http-equiv") == "Content-Security-Policy"]
    head = [one.tag for one in root.find("head")]
    before = head[: head.index("meta") + 2] if "meta" in head else []
    return Seen(sorted(set(hostile.faults(root))), hostile.scripts(root), [one.get("content") for one in found], before)


@pytest.fixture(scope="module")
def seen(sites) -> dict[str, dict[str, Seen]]:
    """By site and page."""
    return {
        name: {page.relative_to(site).as_posix(): seen_in(page) for page in sorted(site.rglob("*.html"))}
        for name, site in sites.items()
    }


def made(pages: dict[str, Seen]) -> dict[str, Seen]:
    """The pages of the handbook's own folder."""
    return {page: one for page, one in pages.items() if page.startswith("methods/")}


def test_no_element_attribute_or_script_of_a_page_comes_from_content(seen):
    found = {page: one.faults[:5] for page, one in seen["hostile"].items() if one.faults}
    assert found == {}, json.dumps(found, indent=1)


def test_both_sites_have_the_same_files(sites):
    def names(name):
        return {page.relative_to(sites[name]).as_posix() for page in sites[name].rglob("*") if page.is_file()}

    assert names("hostile") == names("friendly")


def test_the_scripts_are_those_of_the_friendly_site(seen):
    assert len(seen["hostile"]) > 50
    for page, one in seen["hostile"].items():
        assert one.scripts == seen["friendly"][page].scripts, page


def test_the_words_are_there_all_the_same(sites):
    page = (sites["hostile"] / "methods/eccentric-two-pieces/index.html").read_text("utf-8")
    assert "&lt;x-evil onload=evil()&gt;" in page
    assert "div</div>" in page


def test_search_shows_words_and_no_markup(sites):
    index = json.loads((sites["hostile"] / "search/search_index.json").read_text("utf-8"))
    assert any("evil" in entry["title"] for entry in index["docs"])
    for entry in index["docs"]:
        for text in (entry["title"], entry["text"], *entry.get("tags", ())):
            assert list(hostile.faults(hostile.parsed(text))) == []
            assert not re.search(r"<(?!/?(p|code|pre|li|ol|ul|sub|sup|mark)\b)[a-z!/]", text, re.I), text[:200]


def test_every_svg_is_without_a_script(sites):
    for page in sites["hostile"].rglob("*.svg"):
        assert list(hostile.faults(hostile.parsed(page.read_text("utf-8")))) == []


def texts_in(data):
    """Every text of what a file tells the script, however it lies in it."""
    if isinstance(data, str):
        yield data
    elif isinstance(data, list | dict):
        for one in data.values() if isinstance(data, dict) else data:
            yield from texts_in(one)


def test_what_waits_for_the_script_is_words_and_our_elements(sites):
    files = sorted((sites["hostile"] / "methods").rglob("*.js"))
    assert files
    for file in files:
        told = re.fullmatch(r"methodSheetsTake\((.*)\);\n", file.read_text("utf-8"), re.S)
        assert told, file
        for piece in texts_in(json.loads(told.group(1))):
            assert list(hostile.faults(hostile.parsed(piece))) == [], piece


def test_json_is_data(sites):
    for file in sites["hostile"].rglob("*.json"):
        json.loads(file.read_text("utf-8"))


def test_no_cell_of_a_table_begins_a_formula(sites):
    for file in sites["hostile"].rglob("*.csv"):
        for row in csv.reader(io.StringIO(file.read_text("utf-8"))):
            assert not [cell for cell in row if re.match(r"[=+@\t\r]|-(?![\d.]+$)", cell)]


def policy_of(page: Seen) -> dict[str, str]:
    assert len(page.policies) == 1
    assert "script" not in page.before
    rules = page.policies[0].split(";")
    return {rule.split()[0]: rule.strip() for rule in rules if rule.strip()}


def test_every_made_page_forbids_scripts_that_are_not_the_sites(seen):
    for page in made(seen["hostile"]).values():
        rules = policy_of(page)
        assert "unsafe" not in rules["script-src"]
        assert "http" not in rules["script-src"]
        assert rules["base-uri"] == "base-uri 'none'"


def test_the_policy_names_the_themes_own_scripts_and_no_other(seen):
    """The scripts of the finished page are the ones that are named; those of the hostile page are no more."""
    for page, one in made(seen["hostile"]).items():
        said = [script for script in one.scripts if not script.endswith(".js")]
        rules = policy_of(one)["script-src"]
        assert all(digest(script) in rules for script in said), page
        assert policy_of(seen["friendly"][page])["script-src"] == rules


def test_a_script_that_came_with_the_content_is_not_named():
    page = "<html><head><meta charset='utf-8'></head><body>{}<script>theme()</script></body></html>"
    rules = policy(wanted_by(page.format("")))
    assert digest("theme()") in rules
    assert digest("evil()") not in rules
    held = with_policy(page.format("<script>evil()</script>"), rules)
    assert held.index("Content-Security-Policy") < held.index("<script>")


def test_a_host_that_serves_may_load_the_page_again_and_fetches_nothing_from_elsewhere():
    """Its script is another one in every answer; a digest beside the leave for it would cancel that leave (CSP level 3)."""
    page = "<html><head><meta charset='utf-8'></head><body><script>theme()</script></body></html>"
    (rule,) = [one for one in policy(wanted_by(page), live=True).split("; ") if one.startswith("script-src")]
    assert rule == "script-src 'self' file: 'unsafe-inline'"


@pytest.mark.parametrize(
    ("written", "wanted"),
    [
        ('<script src="https://example.org/a.js?x=1"></script>', "https://example.org/a.js"),
        ('<img src="//example.org/a.png">', "//example.org/a.png"),
    ],
)
def test_what_the_keeper_put_into_the_theme_is_let_through(written, wanted):
    assert wanted in policy(wanted_by(written))


def test_an_address_cannot_add_a_rule():
    assert policy(wanted_by("""<img src="https://example.org/;script-src *">""")) == policy(wanted_by(""))


def test_a_keeper_may_trust_the_authors_and_the_health_page_says_so(sites, tmp_path, monkeypatch):
    """Only the prose is let through then: names, titles and records stay words."""
    plugins = ["search", {"methodsheets": {"trust_authors": True, "reference": False}}]
    site, _ = build(make_project(tmp_path, plugins=plugins), hostile.handbook(), monkeypatch)
    page = (site / "methods/eccentric-two-pieces/index.html").read_text("utf-8")
    assert "<script>evil()</script>" in page
    assert "Content-Security-Policy" not in page
    assert "scripts and outside pictures as well" in (site / "methods/health/index.html").read_text("utf-8")
    assert "kept to a safe list" in (sites["hostile"] / "methods/health/index.html").read_text("utf-8")
    assert "left out (<code>policy: false</code>" in (site / "methods/health/index.html").read_text("utf-8")
    assert "in every made page: no script" in (sites["hostile"] / "methods/health/index.html").read_text("utf-8")
    bench = hostile.parsed((site / "methods/eccentric-two-pieces/bench/index.html").read_text("utf-8"))
    assert list(hostile.faults(bench)) == []
