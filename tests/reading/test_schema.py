import re

from methodsheets.reading.front_matter import HELP, FrontMatter
from methodsheets.reading.schema import KeyHelp, calc_schema, front_matter_schema, method_schema


def test_front_matter_schema_knows_exactly_the_keys_that_are_read() -> None:
    schema = front_matter_schema()
    fields = set(FrontMatter.__dataclass_fields__) - {"page", "place"}
    assert fields <= set(HELP)
    assert fields <= set(schema["properties"])
    assert schema["required"] == ["method"]
    assert schema["additionalProperties"] is False


def test_blocks_take_the_keys_they_are_given() -> None:
    schema = method_schema(
        {"material": ["EN1A"]},
        [KeyHelp("machine", "Which machine.", offers=("lathe",)), KeyHelp("hold", "How it is held.")],
        [KeyHelp("turn", "Turn a diameter.", examples=["to 38 mm"]), KeyHelp("face", "Face the end.")],
        [KeyHelp("coolant", "Cutting fluid.", ("dry", "oil"))],
        [KeyHelp("round", "A round of the part.")],
        ["turning"],
    )
    operation = schema["$defs"]["op"]
    assert set(operation["properties"]) == {"turn", "face", "coolant"}
    assert operation["anyOf"] == [{"required": [verb]} for verb in ("turn", "face", "turning")]
    assert operation["properties"]["coolant"]["enum"] == ["dry", "oil"]
    assert operation["properties"]["turn"]["examples"] == ["to 38 mm"]
    assert schema["$defs"]["part"]["anyOf"][1]["items"]["properties"].keys() == {"round", "turn", "face"}
    assert re.match(next(iter(operation["patternProperties"])), "turning")
    assert schema["$defs"]["setup"]["properties"]["machine"]["anyOf"][0]["anyOf"][0] == {"enum": ["lathe"]}
    assert schema["$defs"]["front_matter"]["properties"]["material"]["anyOf"][0] == {"enum": ["EN1A"]}


def test_calc_pattern_takes_calculations_and_refuses_other_lines() -> None:
    pattern = re.compile(calc_schema()["pattern"])
    assert pattern.match("throw = 6 mm  # half\n\n# remark\nbore = f(1,\n    2)\n")
    assert not pattern.match("throw: 6 mm")
