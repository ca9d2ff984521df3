"""A handbook in which every text says something hostile, and a look through a built site for what came of it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import html5lib
import samples

from methodsheets.handbook.model import Entry, Handbook

MARKUP = (
    "\"'></script></style></title></textarea></svg>--><x-evil onload=evil()><img src=//evil.invalid/x onerror=evil()>"
)
MARKDOWN = "![p](https://evil.invalid/p.png) [a](javascript:evil()) `<x-evil>` \x02wzxhzdk:0\x03 \x02amp\x03lt;x-evil> &lt;x-evil&gt;"
ATTRIBUTES = '{: onclick="evil()" .ms-evil #ms-evil style="color:red" data-ms-evil="1" }'
HOSTILE = f"{MARKUP} {MARKDOWN} {{{{ evil }}}} {{% evil %}} {ATTRIBUTES}"

PROSE = f"""
# Evil {MARKUP}

<script>evil()</script> <style>* {{ color: red }}</style> <iframe src="https://evil.invalid/"></iframe>

<div id="ms-paper" name="methodSheets" class="ms-sheet md-overlay" data-ms-sheet="evil" onclick="evil()">div</div>

<a id="methodSheets"></a><a id="__config" href=" java&#x0a;script:evil()">link</a> <base href="https://evil.invalid/">

<form action="https://evil.invalid/"><input name="ms-units" value="evil"><button>go</button></form>

<img src="https://evil.invalid/a.png"> <img src="\\\\evil.invalid/b.png"> <img src="&#9;//evil.invalid/c.png"> <img srcset="https://evil.invalid/d.png">

<svg><script>evil()</script><use href="https://evil.invalid/x.svg#a"/><animate onbegin=evil() attributeName=x dur=1s /></svg>
<math><mtext><table><mglyph><style><!--</style><img title="--&gt;&lt;img src=1 onerror=evil()&gt;">

<meta http-equiv="refresh" content="0;url=https://evil.invalid/"> <link rel="stylesheet" href="https://evil.invalid/x.css">

Words {HOSTILE}
{ATTRIBUTES}

*emphasis*{ATTRIBUTES} [link](javascript:evil()) <javascript:evil()> [two]

[two]: data:text/html,<script>evil()</script> "{MARKUP}"

| {MARKUP.replace("|", "")} | b |
|---|--:|
| `c` | d {ATTRIBUTES} |

## A heading {ATTRIBUTES}

### Another {{: data-toc-label="{MARKUP.replace('"', "")}" }}

!!! note "{MARKUP.replace('"', "'")}"

    Inside {MARKUP}

```calc {ATTRIBUTES}
x = 1
```

~~~ {{ .mermaid onclick="evil()" }}
graph
~~~

<span data-ms-island="m1"></span><span data-ms-own="x-1"></span><template><x-evil></template><noscript><x-evil></noscript>
"""

KEPT = {
    # names by which rooms find each other; their form is checked where they are made
    "slug", "workshop", "own_workshop", "methods", "first", "second", "drawings", "figures", "code", "state",
    # typeset by the program, never words of an author
    "formula", "numbers", "result",
    # decide which form of something is shown
    "digest", "units", "src_uri", "file", "scheme", "severity",
}  # fmt: skip


def poisoned(given: Any, name: str = "") -> Any:
    """The same record with something hostile behind every text in it, however deep."""
    if name in KEPT or isinstance(given, Enum | Path):
        return given
    if isinstance(given, str):
        return given + HOSTILE if name != "key" else given
    if is_dataclass(given) and not isinstance(given, type):
        drawn = "caption" in {one.name for one in fields(given)}
        return replace(
            given,
            **{
                one.name: poisoned(getattr(given, one.name), one.name)
                for one in fields(given)
                if not (drawn and one.name == "key")
            },
        )
    if isinstance(given, tuple):
        return tuple(poisoned(one, name) for one in given)
    return given


def handbook() -> Handbook:
    """The sample handbook, hostile in every field."""
    book = samples.handbook()
    entries = {}
    for slug, entry in book.entries.items():
        made: Entry = poisoned(replace(entry, by_workshop={}, file_text="", experience=None))
        methods = {key: poisoned(method) for key, method in entry.by_workshop.items()}
        text = entry.file_text + PROSE
        entries[slug] = replace(
            made, by_workshop=methods, file_text=text, experience=poisoned(entry.experience), path=entry.path + HOSTILE
        )
    shops = {key: poisoned(card) for key, card in book.workshops.items()}
    compared = {part: {key: poisoned(one) for key, one in found.items()} for part, found in book.by_workshop.items()}
    return replace(
        book, entries=entries, workshops=shops, by_workshop=compared, problems=poisoned(tuple(book.problems))
    )


EVIL = re.compile("evil", re.I)
FETCHING = {"src", "href", "srcset", "action", "formaction", "data", "poster", "background", "ping", "manifest", "cite"}
HARMLESS = re.compile(
    r"https?://example\.org/|https://squidfunk|https://(www\.)?mkdocs|data:(text/markdown|application/yaml;base64,|image/(png|svg))|[^:]*$"
)


RAW = {"script", "style", "iframe", "object", "embed", "base", "form", "template", "noscript"}
QUOTED = re.compile(r'"(?:\\.|[^"\\\n])*"')
"""Words in quotes within a script or a stylesheet."""


def parsed(text: str) -> Element:
    """A page as a browser takes it apart."""
    return html5lib.parse(text, treebuilder="etree", namespaceHTMLElements=False)


def faults(root: Element) -> Iterator[str]:
    """What in a page came from content and is more than text."""
    for element in root.iter():
        if not isinstance(element.tag, str):
            continue
        tag = element.tag.rpartition("}")[2]
        if EVIL.search(tag):
            yield f"element {tag}"
        said = QUOTED.sub("", "".join(element.itertext())) if tag in RAW else ""
        if (
            tag in RAW
            and EVIL.search(said + str(element.attrib))
            and element.get("id") not in ("method-file", "workshop-file")
        ):
            yield f"{tag}: {said[:80]} {element.attrib}"
        for name, value in element.attrib.items():
            name = name.rpartition("}")[2]
            if name.startswith("on") or EVIL.search(name) or (name == "style" and EVIL.search(value)):
                yield f"attribute {name} of {tag}"
            if name in ("id", "class", "name") and EVIL.search(value) and tag not in ("main",):
                for one in value.split() if name == "class" else [value]:
                    if EVIL.search(one) and one.startswith(("ms-", "md-", "__")) and not re.match(r"ms-\w+-", one):
                        yield f"{name} {one[:60]} of {tag}"
            if name in FETCHING and value.startswith("#"):
                continue
            if name in FETCHING and not HARMLESS.match(value.strip()):
                yield f"{name}={value[:60]} of {tag}"
            if name in FETCHING and value.strip().startswith(("//", "\\", "javascript")):
                yield f"{name}={value[:60]} of {tag}"


def scripts(root: Element) -> set[str]:
    """Every script of a page: where it comes from, or what it says."""
    found = [one for one in root.iter("script") if one.get("type", "") in ("", "module", "text/javascript")]
    return {one.get("src") or "".join(one.itertext()) for one in found}
