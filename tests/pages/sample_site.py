"""Builds a whole site with MkDocs from the sample handbook, for tests of faces and browsers."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
import samples
import yaml

CONFIG: dict[str, Any] = {
    "site_name": "Sample handbook",
    "site_url": "https://example.org/handbook/",
    "repo_url": "https://example.org/repo",
    "edit_uri": "edit/main/docs/",
    "theme": {
        "name": "material",
        "font": False,
        "palette": [
            {
                "media": f"(prefers-color-scheme: {name})",
                "scheme": scheme,
                "toggle": {"icon": "material/weather-sunny", "name": words},  # without it the theme is always light
            }
            for name, scheme, words in (("light", "default", "Go dark"), ("dark", "slate", "Go light"))
        ],
        "features": ["navigation.sections", "content.action.edit"],
    },
    "plugins": ["search", "tags", "methodsheets"],
    "markdown_extensions": ["admonition", "attr_list", "tables", "pymdownx.superfences", {"toc": {"permalink": True}}],
    "validation": {"links": {"anchors": "warn"}},
}


class Warnings(logging.Handler):
    """Keeps every counted warning of a build."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.lines.append(record.getMessage())


@contextmanager
def watched() -> Iterator[Warnings]:
    """Warnings that `--strict` would count."""
    handler = Warnings()
    logger = logging.getLogger("mkdocs")
    before = logger.level
    logger.setLevel(logging.INFO)
    logger.addHandler(handler)
    try:
        yield handler
    finally:
        logger.removeHandler(handler)
        logger.setLevel(before)


def make_project(folder: Path, **changes: Any) -> Path:
    """A project with a home page; gives its mkdocs.yml."""
    (folder / "docs").mkdir(parents=True, exist_ok=True)
    (folder / "methods" / "workshops").mkdir(parents=True, exist_ok=True)
    home = folder / "docs" / "index.md"
    if not home.exists():
        home.write_text("# Home\n\nSee [all methods](methods/index.md).\n", "utf-8")
    config = folder / "mkdocs.yml"
    config.write_text(yaml.safe_dump({**CONFIG, **changes}), "utf-8")
    return config


def build(
    config_file: Path, handbook: Any = None, monkeypatch: pytest.MonkeyPatch | None = None
) -> tuple[Path, list[str]]:
    """Build a site; gives its folder and the counted warnings. `handbook` stands in for the evaluated one."""
    from mkdocs.commands.build import build as mkdocs_build
    from mkdocs.config import load_config

    import methodsheets.handbook.build as room

    if monkeypatch is not None:
        made = handbook or samples.handbook()
        monkeypatch.setattr(room, "build_handbook", lambda *given, **named: made)
    config = load_config(str(config_file))
    with watched() as warnings:
        config.plugins.run_event("startup", command="build", dirty=False)
        mkdocs_build(config)
        config.plugins.run_event("shutdown")
    return Path(config.site_dir), warnings.lines
