"""Does the schema for editors agree with what the reader takes?"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from methodsheets.workshop.fields import plain_key
from methodsheets.workshop.schema import workshop_schema

DEMO = Path(__file__).resolve().parents[2] / "methods" / "workshops"


@pytest.mark.parametrize("name", ["osierbank-small", "osierbank-large", "osierbank-inch"])
def test_every_key_of_the_demo_workshops_is_in_the_schema(name: str) -> None:
    data = yaml.safe_load((DEMO / f"{name}.yml").read_text("utf-8"))
    _holds(workshop_schema(), data, name)


def _holds(schema: dict[str, Any], data: Any, where: str) -> None:
    if not isinstance(data, dict):
        return
    known, others = schema.get("properties", {}), schema.get("additionalProperties", True)
    for key, value in data.items():
        inner = known.get(key, known.get(plain_key(str(key)), others))
        assert inner is not False, f"{where}: {key}"
        if isinstance(inner, dict):
            _holds(inner, value, f"{where}.{key}")


def test_choices_and_units_are_told() -> None:
    machine = workshop_schema()["properties"]["machines"]["additionalProperties"]["properties"]
    assert "lathe" in machine["kind"]["enum"]
    assert "mm" in machine["spindle bore"]["description"]
    assert machine["dials"]["additionalProperties"]["properties"]["reads"]["enum"] == ["distance", "radius", "diameter"]
