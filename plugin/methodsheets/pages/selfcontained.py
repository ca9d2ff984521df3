"""How does a method travel? As one HTML file: page, bench sheet, pictures, its source and its workshop's file."""

from __future__ import annotations

import base64
import html as markup
import re
from collections.abc import Callable
from pathlib import Path, PurePosixPath

from methodsheets.handbook.model import Entry
from methodsheets.reading.inside import Inside, RefusedError
from methodsheets.reading.source import LARGEST

from .assets import first_script, lone_style, page_style, script, with_first_script
from .elements import to_html
from .islands import Islands
from .photos import packed
from .policy import lone_policy, with_policy
from .site import Site

METHOD, WORKSHOP = "method-file", "workshop-file"
"""What the file carries, by the id that it stands under."""
_PACKED = re.compile(
    r'<script type="application/octet-stream" id="([a-z-]+)" data-name="([^"]*)">([A-Za-z0-9+/=\s]*)</script>'
)
_FETCHED = re.compile(r'<img\b[^>]*\bdata-ms-drawing="([^"]*)"[^>]*>')
_PICTURE = re.compile(r"<img\b[^>]*>")
_ATTRIBUTE = re.compile(r'\b(src|alt)="([^"]*)"')
_LINK = re.compile(r'<a\b([^>]*?)\shref="([^"]*)"([^>]*)>(.*?)</a>', re.S)
_OUTSIDE = re.compile(r"[a-z][a-z0-9+.-]*:", re.I)


def travelling_page(
    site: Site,
    slug: str,
    content: str,
    photo: Callable[[str], Path | None] = lambda source: None,
    *,
    live: bool = False,
) -> str:
    """Return a method's whole page as one file that needs nothing else.

    Parameters:
        site: the handbook.
        slug: the method.
        content: the finished page content, drawings and formulas in it.
        photo: gives the file of a picture of the author's own, by its address in the content.
        live: whether a server shows it while it is written, and loads it again.
    """
    entry = site.handbook.entries[slug]
    carried = {METHOD: (PurePosixPath(entry.path).name, _bytes_of(entry)), **_workshop_of(site, entry)}
    title = markup.escape(entry.own.title)
    said = script()
    body = without_ways_out(_with_photos(_with_pictures(content, site.handbook.svg), photo))
    foot = "\n".join(_way_out_of(what, *found) for what, found in carried.items())
    sheet = _sheet_of(site, slug, photo)
    packed = "\n".join(_packed(what, *found) for what, found in carried.items())
    whole = (
        f'<!doctype html>\n<html lang="en" class="ms-alone">\n<head>\n<meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n<title>{title}</title>\n'
        f"<style>{lone_style(site.handbook.workshops)}{page_style(entry.own)}</style>\n</head>\n"
        f'<body class="ms-alone-body">\n<main class="md-typeset">\n{_TO_SHEET}\n{body}\n{sheet}\n'
        f'<footer class="ms-alone-foot">{foot}</footer>\n</main>\n'
        f"{packed}\n<script>{said}</script>\n</body>\n</html>\n"
    )
    return with_policy(with_first_script(whole), lone_policy(first_script(), said, live=live))


SHEET = "bench-sheet"
"""Where the bench sheet begins in the file; who goes there sees and prints it alone."""
_TO_SHEET = f'<p class="ms-ways-on"><a class="ms-action ms-first" href="#{SHEET}">Go to the bench</a></p>'
_TO_METHOD = '<p class="ms-ways-on"><a class="ms-action" href="#">Back to the method</a></p>'
_WHAT = {METHOD: ("method", "methods", "text/markdown"), WORKSHOP: ("workshop", "workshops", "application/yaml")}


def _sheet_of(site: Site, slug: str, photo: Callable[[str], Path | None]) -> str:
    """The bench sheet, with drawings of its own: two drawings of one page may not share the names of their parts."""
    islands = Islands()
    html = to_html(site.sheet(slug, site.places.methods[slug].page), islands)

    def drawing(key: str) -> str:
        return site.handbook.svg(key).replace(key, f"{key}-sheet")

    whole = _with_photos(_with_pictures(islands.fill(html, drawing), drawing), photo)
    return f'<section class="ms-alone-bench" id="{SHEET}">{_TO_METHOD}{without_ways_out(whole)}</section>'


def _workshop_of(site: Site, entry: Entry) -> dict[str, tuple[str, bytes]]:
    """The author's workshop, as name and bytes of its file; nothing where it cannot be read."""
    file = site.handbook.workshop_files.get(entry.own_workshop)
    if file is None:
        return {}
    try:
        return {WORKSHOP: (f"{entry.own_workshop}{file.suffix}", Inside(file.parent).read(file, LARGEST))}
    except RefusedError:
        return {}


def _packed(what: str, name: str, raw: bytes) -> str:
    data = base64.b64encode(raw).decode("ascii")
    return f'<script type="application/octet-stream" id="{what}" data-name="{markup.escape(name)}">{data}</script>'


def _way_out_of(what: str, name: str, raw: bytes) -> str:
    """The line at the foot that gives a file back."""
    said, where, kind = _WHAT[what]
    shown, data = markup.escape(name), base64.b64encode(raw).decode("ascii")
    link = f'<a download="{shown}" href="data:{kind};base64,{data}">Take the {said} file out of this page</a>'
    return f"<p>{link} ({shown}, {len(raw)} bytes), to put among your own {where}.</p>"


def _bytes_of(entry: Entry) -> bytes:
    """The method file, byte for byte; what was read of it where it lies elsewhere and is only linked to."""
    try:
        return Inside(entry.file.parent).read(entry.file, LARGEST)
    except RefusedError:
        return entry.file_text.encode()


def _with_pictures(content: str, drawing: Callable[[str], str]) -> str:
    """Drawings that the page would fetch when they are wanted are put in, since nothing can be fetched."""
    return _FETCHED.sub(lambda match: drawing(markup.unescape(match.group(1))), content)


def _with_photos(content: str, photo: Callable[[str], Path | None]) -> str:
    """The author's own photos are put in; in place of one that is not there stands what the author says of it."""

    def put(match: re.Match[str]) -> str:
        given = {name: markup.unescape(value) for name, value in _ATTRIBUTE.findall(match.group(0))}
        if given.get("src", "").startswith("data:"):
            return match.group(0)
        file = photo(given.get("src", ""))
        data = packed(file) if file is not None else ""
        said = markup.escape(given.get("alt", ""))
        return f'<img src="{data}" alt="{said}">' if data else f"<em>{said or 'A picture that did not travel.'}</em>"

    return _PICTURE.sub(put, content)


def without_ways_out(content: str) -> str:
    """Page content without links to pages that do not travel with it; links within it and to the web stay."""

    def keep(match: re.Match[str]) -> str:
        before, target, after, words = match.groups()
        if "headerlink" in before + after:
            return ""
        if target.startswith("#") or (_OUTSIDE.match(target) and not target.lower().startswith("javascript:")):
            return match.group(0)
        meaning = re.search(r'\btitle="([^"]*)"', before + after)
        if "ms-word" in before + after and meaning:
            return f'<abbr class="ms-word" title="{meaning.group(1)}">{words}</abbr>'
        if re.search(r"\bms-(action|quiet)\b", before + after):
            return ""
        return words

    return _LINK.sub(keep, content).replace("<li></li>", "")


def source_of(text: str) -> tuple[str, bytes] | None:
    """Take the method file out of a travelling page: its name and its bytes; None if there is none in it."""
    return _carried(text, METHOD)


def workshop_of(text: str) -> tuple[str, bytes] | None:
    """Take the author's workshop out of a travelling page: name and bytes of its file; None if there is none."""
    return _carried(text, WORKSHOP)


def _carried(text: str, what: str) -> tuple[str, bytes] | None:
    found = next((one for one in _PACKED.finditer(text) if one.group(1) == what), None)
    if not found:
        return None
    try:
        return PurePosixPath(markup.unescape(found.group(2))).name, base64.b64decode(found.group(3), validate=False)
    except ValueError:
        return None
