"""The project file as a JSON Schema, for editors that complete and check as one types."""

from __future__ import annotations

from typing import Any

from pydantic.json_schema import GenerateJsonSchema

from yokefellow.project_file.fields import NamedLength
from yokefellow.project_file.models import MOST_CHARTS, Project
from yokefellow.project_file.statements import field_help, field_label


class _Schema(GenerateJsonSchema):
    """Pydantic's generator, with defaults as they are typed in the file."""

    def encode_default(self, dft: Any) -> Any:
        """Write a named length by its name."""
        return dft.name if isinstance(dft, NamedLength) else super().encode_default(dft)


def schema() -> dict[str, Any]:
    """Give the JSON Schema (draft 2020-12) of the project file.

    It is at places stricter than the program, which also reads units in
    capitals; and it cannot know what two fields say about each other.
    """
    made = Project.model_json_schema(schema_generator=_Schema)
    for name, model in {"Project": made, **made["$defs"]}.items():
        _describe(name, model)
    yarns = made["properties"]["yarn"]
    yarns["additionalProperties"] = False
    yarns["required"] = ["MC"]
    charts = made["properties"]["charts"]
    charts["additionalProperties"] = False
    charts["maxProperties"] = MOST_CHARTS
    _from_file_or_here(made["$defs"]["ChartChoices"])
    _counted_or_weighed(made["$defs"]["Yarn"])
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **made,
        "title": "Yokefellow project file",
    }


def _from_file_or_here(chart: dict[str, Any]) -> None:
    """Need a chart's fields only where it has no file of its own."""
    del chart["properties"]["times"]["default"]  # it depends on the kind
    chart["anyOf"] = [{"required": chart.pop("required")}, {"required": ["file"]}]


def _counted_or_weighed(yarn: dict[str, Any]) -> None:
    """Need the number of balls only where their weights are not given."""
    yarn["required"].remove("balls")
    yarn["anyOf"] = [{"required": ["balls"]}, {"required": ["weights"]}]


def _describe(name: str, model: dict[str, Any]) -> None:
    """Put the note on each field, and take out what only repeats its name or its defaults."""
    for field, properties in model["properties"].items():
        properties["title"] = field_label(name, field)
        if isinstance(properties.get("default"), dict):
            del properties["default"]
        if properties.get("default", "") is None:
            del properties["default"]
        note = field_help(name, field)
        if note:
            properties["description"] = note
