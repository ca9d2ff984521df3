"""Which kinds of page are there, and what of a page is seen?"""

METHOD = "methods/eccentric-two-pieces.html"
BENCH = "methods/eccentric-two-pieces/bench.html"
KINDS = {
    "home": "index.html",
    "method": METHOD,
    "bench": BENCH,
    "problem": "methods/clamp-block.html",
    "list": "methods/index.html",
    "gallery": "methods/gallery.html",
    "comparison": "methods/compare/eccentric-spindle.html",
    "workshop": "methods/workshops/osierbank-small.html",
    "words": "methods/glossary.html",
    "health": "methods/health.html",
    "reference": "methods/reference/cutting.html",
    "contents": "methods/reference/index.html",
    "workings": "methods/eccentric-two-pieces/eccentric-two-pieces-workings.html",
    "travelling": "methods/eccentric-two-pieces/eccentric-two-pieces.html",
}


def own_texts(page):
    """Everything that stands in our own parts of the page, as it is seen."""
    return page.evaluate(
        "[...document.querySelectorAll('.ms-q')].filter(e => e.getClientRects().length).map(e => e.textContent)"
    )


def seen(page, selector):
    """Texts of the elements that are visible."""
    script = (
        "(s) => [...document.querySelectorAll(s)].filter(e => e.getClientRects().length).map(e => e.textContent.trim())"
    )
    return page.evaluate(script, selector)
