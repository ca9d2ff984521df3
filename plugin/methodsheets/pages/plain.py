"""How does a page look that needs no theme? Words on paper with a way back, under the handbook's own stylesheet."""

from __future__ import annotations

from html import escape

from .policy import with_policy

_POLICY = (
    "default-src 'none'; script-src 'self' file:; style-src 'self' file: 'unsafe-inline'; img-src 'self' file: data:;"
    " font-src data:; form-action 'none'; base-uri 'none'"
)


def plain_page(title: str, content: str, *, back: str, style: str, script: str) -> str:
    """A whole page without a theme.

    Parameters:
        title: its title, in words.
        content: its content, finished markup.
        back: address of the page that it belongs to.
        style, script: addresses of the handbook's own stylesheet and script.
    """
    whole = (
        f'<!doctype html>\n<html lang="en" class="ms-alone">\n<head>\n<meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<meta name="robots" content="noindex">\n<title>{escape(title)}</title>\n'
        f'<link rel="stylesheet" href="{escape(style)}">\n</head>\n<body class="ms-alone-body">\n'
        f'<main class="md-typeset">\n<p><a href="{escape(back)}">Back to the page</a></p>\n<h1>{escape(title)}</h1>\n'
        f'{content}\n</main>\n<script src="{escape(script)}"></script>\n</body>\n</html>\n'
    )
    return with_policy(whole, _POLICY)
