# Generated from api/openapi.json by clients/python/generate_models.py; do not edit.
"""The unit of every number of the service, by field name."""

__all__ = ["UNITS"]

UNITS: dict[str, str] = {
    "heat_output": "W/m2",
    "outside_diameter": "m",
}
