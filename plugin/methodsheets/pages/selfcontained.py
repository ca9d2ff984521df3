"""How does a method travel? As one HTML file with its pictures, its data and its source, byte for byte."""

from __future__ import annotations

import base64
import html as markup
import re
from collections.abc import Callable
from pathlib import Path, PurePosixPath

from methodsheets.handbook.model import Entry
from methodsheets.reading.inside import Inside, RefusedError
from methodsheets.reading.source import LARGEST

from .assets import page_style, script, style
from .photos import packed
from .policy import lone_policy, with_policy
from .site import Site

_SOURCE = re.compile(
    r'<script type="application/octet-stream" id="method-file" data-name="([^"]*)">([A-Za-z0-9+/=\s]*)</script>'
)
_FETCHED = re.compile(r'<img\b[^>]*\bdata-ms-drawing="([^"]*)"[^>]*>')
_PICTURE = re.compile(r"<img\b[^>]*>")
_ATTRIBUTE = re.compile(r'\b(src|alt)="([^"]*)"')
_LINK = re.compile(r'<a\b([^>]*?)\shref="([^"]*)"([^>]*)>(.*?)</a>', re.S)
_OUTSIDE = re.compile(r"[a-z][a-z0-9+.-]*:", re.I)


def travelling_page(
    site: Site, slug: str, content: str, photo: Callable[[str], Path | None] = lambda source: None
) -> str:
    """Return a method's whole page as one file that needs nothing else.

    Parameters:
        site: the handbook.
        slug: the method.
        content: the finished page content, drawings and formulas in it.
        photo: gives the file of a picture of the author's own, by its address in the content.
    """
    entry = site.handbook.entries[slug]
    source = _bytes_of(entry)
    name = markup.escape(PurePosixPath(entry.path).name)
    packed = base64.b64encode(source).decode("ascii")
    data = f"data:text/markdown;base64,{packed}"
    title = markup.escape(entry.own.title)
    said = script()
    body = without_ways_out(_with_photos(_with_pictures(site, content), photo))
    whole = (
        f'<!doctype html>\n<html lang="en" class="ms-alone">\n<head>\n<meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n<title>{title}</title>\n'
        f"<style>{style(site.handbook.workshops)}{page_style(entry.own)}</style>\n</head>\n"
        f'<body class="ms-alone-body">\n<main class="md-typeset">\n{body}\n'
        f'<footer class="ms-alone-foot"><p><a download="{name}" href="{data}">Take the method file out of this page</a>'
        f" ({name}, {len(source)} bytes), to put among your own methods.</p></footer>\n</main>\n"
        f'<script type="application/octet-stream" id="method-file" data-name="{name}">{packed}</script>\n'
        f"<script>{said}</script>\n</body>\n</html>\n"
    )
    return with_policy(whole, lone_policy(said))


def _bytes_of(entry: Entry) -> bytes:
    """The method file, byte for byte; what was read of it where it lies elsewhere and is only linked to."""
    try:
        return Inside(entry.file.parent).read(entry.file, LARGEST)
    except RefusedError:
        return entry.file_text.encode()


def _with_pictures(site: Site, content: str) -> str:
    """Drawings that the page would fetch when they are wanted are put in, since nothing can be fetched."""
    return _FETCHED.sub(lambda match: site.handbook.svg(markup.unescape(match.group(1))), content)


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
    found = _SOURCE.search(text)
    if not found:
        return None
    try:
        return PurePosixPath(markup.unescape(found.group(1))).name, base64.b64decode(found.group(2), validate=False)
    except ValueError:
        return None
