"""What can be set for the plugin in `mkdocs.yml`? The plugin reads this table; the page of options says the same."""

from __future__ import annotations

from mkdocs.config import base
from mkdocs.config import config_options as c


class MethodSheetsConfig(base.Config):  # type: ignore[no-untyped-call]
    """The plugin's options in `mkdocs.yml`."""

    methods = c.Type((str, list), default="methods")
    """Folder of the method files, or several; from the folder of `mkdocs.yml`. They may lie inside `docs_dir`."""
    workshops = c.Optional(c.Type(str))
    """Folder of the workshops; by default `workshops` in the first folder of methods."""
    folder = c.Type(str, default="methods")
    """Folder of the generated pages within the site."""
    title = c.Type(str, default="Methods")
    """Name of their section in the menu."""
    menu = c.Type(bool, default=True)
    """Whether to put that section into the menu."""
    tags = c.Choice(("derive", "off", False), default="derive")
    """Whether pages of methods get tags from what the method uses; YAML reads a bare `off` as false."""
    reference = c.Type(bool, default=True)
    """Whether to publish the chapter on everything that can be worked out."""
    units = c.Choice(("metric", "inch"), default="metric")
    """What readers see until they choose."""
    on_error = c.Choice(("warn", "fail"), default="warn")
    """Whether a problem in a method is a warning (which `--strict` turns into a failure) or fails every build."""
    cache = c.Type(bool, default=True)
    """Whether to keep what was worked out between builds."""
    cache_dir = c.Type(str, default=".cache/plugin/methodsheets")
    """Where; from the folder of `mkdocs.yml`."""
    concurrency = c.Type(int, default=0)
    """How many processes work out methods that changed; 0 takes one for each core. While serving it is always one."""
    fresh = c.Type(bool, default=False)
    """Whether to work everything out anew."""
    trust_authors = c.Type(bool, default=False)
    """Whether all markup of a method's prose is let through, scripts and outside pictures as well."""
    policy = c.Type(bool, default=True)
    """Whether made pages tell the browser to run no script but those of the site; not where authors are trusted."""
