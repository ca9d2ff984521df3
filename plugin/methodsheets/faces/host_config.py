"""What does the host read in its `mkdocs.yml`? The settings of a site with those that it inherits, as it has them."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from methodsheets.faces.command import CommandError
from methodsheets.handbook.project import NAME, Project, find_project, read_config
from methodsheets.reading.inside import real


def project_of(options: argparse.Namespace, start: Path) -> Project:
    """The handbook that a command is about: the one of the settings that were named, else the one round a place.

    Raises:
        CommandError: the settings that were named are not there, or do not name our plugin.
    """
    named = getattr(options, "config_file", None)
    if not named:
        return find_project(start, host_settings)
    path = Path(named)
    if not path.is_file():
        raise CommandError(f"there is no file {named}")
    project = read_config(real(path), host_settings)
    if project is None:
        raise CommandError(f"{named} cannot be read, or has no `{NAME}` among its `plugins`")
    return project


def host_settings(path: Path) -> dict[str, Any] | None:
    """The settings of a site: `INHERIT` and `!ENV` as the host takes them; other tags are passed over, never run."""
    import yaml
    from mkdocs.utils.yaml import get_yaml_loader, yaml_load

    loader: Any = get_yaml_loader(yaml.SafeLoader)
    loader.add_multi_constructor("", lambda given, suffix, node: None)
    try:
        with path.open("r", encoding="utf-8-sig") as opened:
            settings = yaml_load(opened, loader)
    except (OSError, ValueError, yaml.YAMLError, RecursionError, TypeError, AttributeError):
        return None
    except Exception as error:
        # What the host raises for settings to inherit that are not there is of a class of its own.
        raise CommandError(f"{path}: {error}") from error
    return settings if isinstance(settings, dict) else None
