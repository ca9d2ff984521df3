"""How does a page look that needs no theme? Words on paper with a way back, under the handbook's own stylesheet."""

from __future__ import annotations

from html import escape

from .assets import first_script, with_first_script
from .policy import digest, with_policy

_POLICY = (
    f"default-src 'none'; script-src 'self' file: {digest(first_script())}; style-src 'self' file: 'unsafe-inline';"
    " img-src 'self' file: data:;"
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
    return with_policy(with_first_script(whole), _POLICY)
