"""A plan as architects have it, made into a request of designs, with a report of what is taken, guessed, missing."""

from __future__ import annotations

from .checking import check
from .errors import UnreadableFileError
from .plan_import.assembly import assembled
from .plan_import.gbxml import read_gbxml
from .plan_import.other_formats import refuse_other_formats
from .plan_import.records import (
    FileFormat,
    FoundLayer,
    FoundRoom,
    FoundStorey,
    ImportedPart,
    LengthUnit,
    PlanImportsInputs,
    PlanImportsResult,
)

__all__ = [
    "FileFormat",
    "FoundLayer",
    "FoundRoom",
    "FoundStorey",
    "ImportedPart",
    "LengthUnit",
    "PlanImportsInputs",
    "PlanImportsResult",
    "read_plan",
]


def read_plan(content: bytes, file_format: FileFormat, inputs: PlanImportsInputs) -> PlanImportsResult:
    """Read a file into the request of a design. DXF needs the extra ``imports``.

    Rooms that cannot be taken are reported and the rest goes on; a heat load is never guessed. Raises
    ``UnreadableFileError`` for a file that is not of its format, has a document type, is nested too deep or holds not
    one room, and ``InputError`` for options out of range::

        with open("plan.xml", "rb") as file:
            found = read_plan(file.read(), "gbxml", PlanImportsInputs(external_temperature=-12.0))
        design = designs.calculate(found.request)
    """
    check(inputs)
    refuse_other_formats(content)
    if file_format == "gbxml":
        return assembled(read_gbxml(content, inputs.length_unit), inputs)
    try:
        from .plan_import.dxf import read_dxf  # noqa: PLC0415 - needs the extra "imports"
    except ImportError as fault:
        raise UnreadableFileError.because(
            "DXF cannot be read here: the extra imports is not installed"
        ) from fault
    return assembled(read_dxf(content, inputs), inputs)
