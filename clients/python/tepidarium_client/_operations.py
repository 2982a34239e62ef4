"""What a client can be asked: one line per calculation, and the few questions about the service itself."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping
from typing import Any, Generic, Protocol, Self, TypeVar, overload

import msgspec

from . import _models as models
from ._answers import Answer
from ._wire import (
    CAD,
    CALENDAR,
    DRAWING,
    FILES,
    JSON,
    PDF,
    SCHEDULE,
    WORKBOOK,
    XML,
    Call,
    encode,
    new_request_id,
)

__all__ = [
    "Body",
    "Calculations",
    "Operation",
    "PlanImport",
    "Question",
    "as_it_came",
    "calculation_call",
    "plan_call",
]

Body = msgspec.Struct | Mapping[str, Any]

Q = TypeVar("Q", bound=msgspec.Struct)
R = TypeVar("R")
T = TypeVar("T")


class Waits(Protocol):
    """A client whose calls return when the answer is there."""

    def _perform(self, call: Call[T]) -> T: ...


class Awaits(Protocol):
    """A client whose calls are awaited."""

    def _perform(self, call: Call[T]) -> Awaitable[T]: ...


def calculation_call(name: str, request: Body, read: Callable[[Answer], R], accept: str = JSON) -> Call[R]:
    """The call of the calculation ``name``."""
    request_id = new_request_id()
    return Call("POST", f"/v1/{name}", read, accept, encode(request, request_id), request_id)


def decode_as(kind: type[R]) -> Callable[[Answer], R]:
    """Reads a JSON answer; fields this version does not know are ignored, so the service may add some."""
    decoder = msgspec.json.Decoder(kind)
    return lambda answer: decoder.decode(answer.content)


class Operation(Generic[Q, R]):
    """A calculation. On a client it is a function of the request: a request struct, or a mapping with the
    same fields. ``Client`` returns the answer, ``AsyncClient`` something to await. Raises
    ``TepidariumError``."""

    def __init__(
        self, name: str, request: type[Q], read: Callable[[Answer], R], doc: str, accept: str = JSON
    ) -> None:
        self.name = name
        self.request = request
        self.read = read
        self.accept = accept
        self.__doc__ = doc

    @overload
    def __get__(self, client: None, owner: type) -> Self: ...
    @overload
    def __get__(self, client: Waits, owner: type) -> Callable[[Q | Mapping[str, Any]], R]: ...
    @overload
    def __get__(self, client: Awaits, owner: type) -> Callable[[Q | Mapping[str, Any]], Awaitable[R]]: ...

    def __get__(self, client: Waits | Awaits | None, owner: type) -> Any:
        if client is None:
            return self

        def calculate(request: Q | Mapping[str, Any]) -> Any:
            return client._perform(calculation_call(self.name, request, self.read, self.accept))

        calculate.__doc__ = self.__doc__
        return calculate


class PlanImport:
    """The import of a plan. On a client it is a function of the file's content and of options, which are those of the
    service's ``plan-imports``: ``client.plan_imports(content, external_temperature=-12.0)``. The format follows from
    the content. ``Client`` returns the answer, ``AsyncClient`` something to await. Raises ``TepidariumError``."""

    name = "plan-imports"

    @overload
    def __get__(self, client: None, owner: type) -> Self: ...
    @overload
    def __get__(self, client: Waits, owner: type) -> Callable[..., models.PlanImportsResponse]: ...
    @overload
    def __get__(
        self, client: Awaits, owner: type
    ) -> Callable[..., Awaitable[models.PlanImportsResponse]]: ...

    def __get__(self, client: Waits | Awaits | None, owner: type) -> Any:
        if client is None:
            return self

        def read(content: bytes, **options: Any) -> Any:
            return client._perform(plan_call(content, options, decode_as(models.PlanImportsResponse)))

        read.__doc__ = self.__doc__
        return read


def plan_call(content: bytes, options: Mapping[str, Any], read: Callable[[Answer], R]) -> Call[R]:
    """The call that sends the file of a plan; options of None are left out."""
    given = {name: value for name, value in options.items() if value is not None}
    return Call(
        "POST", "/v1/plan-imports", read, content=content, content_type=_plan_type(content), options=given
    )


def _plan_type(content: bytes) -> str:
    """XML begins with a bracket, whatever its encoding; everything else is taken for a drawing."""
    start = content[:64].lstrip(b"\xef\xbb\xbf\xff\xfe\x00 \t\r\n")
    return XML if start.startswith(b"<") else CAD


class Question(Generic[R]):
    """A question about the service itself, without a request body."""

    def __init__(
        self, path: str, read: Callable[[Answer], R], doc: str, when_unavailable: R | None = None
    ) -> None:
        self.path = path
        self.read = read
        self.when_unavailable = when_unavailable
        self.__doc__ = doc

    @overload
    def __get__(self, client: None, owner: type) -> Self: ...
    @overload
    def __get__(self, client: Waits, owner: type) -> Callable[[], R]: ...
    @overload
    def __get__(self, client: Awaits, owner: type) -> Callable[[], Awaitable[R]]: ...

    def __get__(self, client: Waits | Awaits | None, owner: type) -> Any:
        if client is None:
            return self

        def ask() -> Any:
            return client._perform(Call("GET", self.path, self.read, when_unavailable=self.when_unavailable))

        ask.__doc__ = self.__doc__
        return ask


def as_it_came(answer: Answer) -> Answer:
    return answer


def _text(answer: Answer) -> str:
    return answer.content.decode()


def _bytes(answer: Answer) -> bytes:
    return answer.content


def _always(answer: Answer) -> bool:
    return True


class Calculations:
    """What both clients offer. Requests and answers are in SI units; each field says its unit."""

    heat_loss = Operation(
        "heat-loss",
        models.HeatLossRequest,
        decode_as(models.HeatLossResponse),
        "Heat loss of rooms, by room and by element.",
    )
    heat_loss_document = Operation(
        "heat-loss/document",
        models.HeatLossRequest,
        _bytes,
        "Heat loss of rooms and elements as PDF.",
        accept=PDF,
    )
    heat_loss_schedule = Operation(
        "heat-loss/schedule",
        models.HeatLossRequest,
        _text,
        "Heat loss of each room as CSV.",
        accept=SCHEDULE,
    )
    insulation_check = Operation(
        "insulation-check",
        models.InsulationCheckRequest,
        decode_as(models.InsulationCheckResponse),
        "Insulation below a heated floor against EN 1264-4 and a local limit.",
    )
    heat_output = Operation(
        "heat-output",
        models.HeatOutputRequest,
        decode_as(models.HeatOutputResponse),
        "Heat output and surface temperature of a heated floor.",
    )
    floor_section = Operation(
        "floor-section",
        models.FloorSectionRequest,
        decode_as(models.FloorSectionResponse),
        "Temperatures and heat flows in the section of a heated floor, and its warm-up.",
    )
    floor_section_drawing = Operation(
        "floor-section/drawing",
        models.FloorSectionRequest,
        _text,
        "The section of a heated floor with its isotherms as an SVG drawing to scale.",
        accept=DRAWING,
    )
    supply_temperature = Operation(
        "supply-temperature",
        models.SupplyTemperatureRequest,
        decode_as(models.SupplyTemperatureResponse),
        "Supply temperature and pipe spacing for the heat that the rooms need.",
    )
    loop_length = Operation(
        "loop-length",
        models.LoopLengthRequest,
        decode_as(models.LoopLengthResponse),
        "Circuits and pipe length of an area.",
    )
    routes = Operation(
        "routes",
        models.RoutesRequest,
        decode_as(models.RoutesResponse),
        "The pipe's way through a room, as lines and arcs.",
    )
    routes_drawing = Operation(
        "routes/drawing",
        models.RoutesRequest,
        _text,
        "The pipe's way through a room as an SVG drawing to scale.",
        accept=DRAWING,
    )
    routes_cad_drawing = Operation(
        "routes/cad-drawing",
        models.RoutesRequest,
        _bytes,
        "The pipe's way through a room as a DXF drawing in real size.",
        accept=CAD,
    )
    routes_document = Operation(
        "routes/document",
        models.RoutesRequest,
        _bytes,
        "The pipe's way through a room as a PDF drawing to scale.",
        accept=PDF,
    )
    manifold_position = Operation(
        "manifold-position",
        models.ManifoldPositionRequest,
        decode_as(models.ManifoldPositionResponse),
        "Where the manifold of a storey should stand: least pipe in all tails.",
    )
    hydraulics = Operation(
        "hydraulics",
        models.HydraulicsRequest,
        decode_as(models.HydraulicsResponse),
        "Flows, pressure drops, balancing, pump and expansion vessel of a manifold.",
    )
    hydraulics_document = Operation(
        "hydraulics/document",
        models.HydraulicsRequest,
        _bytes,
        "Flows, valves, pump and vessel of a manifold as PDF.",
        accept=PDF,
    )
    hydraulics_schedule = Operation(
        "hydraulics/schedule",
        models.HydraulicsRequest,
        _text,
        "Flow and valve of each circuit as CSV.",
        accept=SCHEDULE,
    )
    curing_plan = Operation(
        "curing-plan",
        models.CuringPlanRequest,
        decode_as(models.CuringPlanResponse),
        "Dates and daily supply temperatures from pouring the screed to covering it.",
    )
    curing_plan_calendar = Operation(
        "curing-plan/calendar",
        models.CuringPlanRequest,
        _text,
        "The curing plan as an iCalendar text for a calendar program.",
        accept=CALENDAR,
    )
    curing_plan_document = Operation(
        "curing-plan/document",
        models.CuringPlanRequest,
        _bytes,
        "The curing plan as PDF.",
        accept=PDF,
    )
    curing_plan_schedule = Operation(
        "curing-plan/schedule",
        models.CuringPlanRequest,
        _text,
        "The supply temperature of each day as CSV.",
        accept=SCHEDULE,
    )
    moisture_reading = Operation(
        "moisture-reading",
        models.MoistureReadingRequest,
        decode_as(models.MoistureReadingResponse),
        "Whether a screed is dry enough for its covering.",
    )
    moisture_reading_document = Operation(
        "moisture-reading/document",
        models.MoistureReadingRequest,
        _bytes,
        "The readings with their limits and the judgement as PDF, to sign.",
        accept=PDF,
    )
    moisture_reading_schedule = Operation(
        "moisture-reading/schedule",
        models.MoistureReadingRequest,
        _text,
        "Each reading with its limit as CSV.",
        accept=SCHEDULE,
    )
    moisture_reading_workbook = Operation(
        "moisture-reading/workbook",
        models.MoistureReadingRequest,
        _bytes,
        "The readings and the limits of several rules as XLSX.",
        accept=WORKBOOK,
    )
    coil_plan = Operation(
        "coil-plan",
        models.CoilPlanRequest,
        decode_as(models.CoilPlanResponse),
        "Which circuits are cut from which coils, with metre marks.",
    )
    coil_plan_document = Operation(
        "coil-plan/document",
        models.CoilPlanRequest,
        _bytes,
        "The plan of coils as PDF.",
        accept=PDF,
    )
    coil_plan_schedule = Operation(
        "coil-plan/schedule",
        models.CoilPlanRequest,
        _text,
        "The cuts of each coil as CSV.",
        accept=SCHEDULE,
    )
    coil_plan_workbook = Operation(
        "coil-plan/workbook",
        models.CoilPlanRequest,
        _bytes,
        "The plan of coils as XLSX.",
        accept=WORKBOOK,
    )
    materials = Operation(
        "materials",
        models.MaterialsRequest,
        decode_as(models.MaterialsResponse),
        "What to order, with rule, source and waste of each quantity.",
    )
    materials_document = Operation(
        "materials/document",
        models.MaterialsRequest,
        _bytes,
        "The order as PDF, with the rule of each quantity.",
        accept=PDF,
    )
    materials_schedule = Operation(
        "materials/schedule",
        models.MaterialsRequest,
        _text,
        "The order as CSV.",
        accept=SCHEDULE,
    )
    materials_workbook = Operation(
        "materials/workbook",
        models.MaterialsRequest,
        _bytes,
        "The order and its plan of coils as XLSX.",
        accept=WORKBOOK,
    )
    estimates = Operation(
        "estimates",
        models.EstimatesRequest,
        decode_as(models.EstimatesResponse),
        "Low, likely and high values for a quotation.",
    )
    laying_sheets = Operation(
        "laying-sheets",
        models.LayingSheetsRequest,
        decode_as(models.LayingSheetsResponse),
        "Drawn circuits as a fitter follows them, with metre marks.",
    )
    laying_sheets_document = Operation(
        "laying-sheets/document",
        models.LayingSheetsRequest,
        _bytes,
        "The laying sheets as PDF, each with a plan to scale.",
        accept=PDF,
    )
    laying_sheets_schedule = Operation(
        "laying-sheets/schedule",
        models.LayingSheetsRequest,
        _text,
        "The straights and turns of all circuits as CSV.",
        accept=SCHEDULE,
    )
    laying_sheets_workbook = Operation(
        "laying-sheets/workbook",
        models.LayingSheetsRequest,
        _bytes,
        "The straights and turns as XLSX, a sheet for each circuit.",
        accept=WORKBOOK,
    )
    commissioning = Operation(
        "commissioning",
        models.CommissioningRequest,
        decode_as(models.CommissioningResponse),
        "Leak test, flushing, filling, frost protection and their records.",
    )
    commissioning_document = Operation(
        "commissioning/document",
        models.CommissioningRequest,
        _bytes,
        "The records of commissioning as PDF, to fill in.",
        accept=PDF,
    )
    commissioning_workbook = Operation(
        "commissioning/workbook",
        models.CommissioningRequest,
        _bytes,
        "The records of commissioning as XLSX.",
        accept=WORKBOOK,
    )
    designs = Operation(
        "designs",
        models.DesignsRequest,
        decode_as(models.DesignsResponse),
        "The floor heating of a whole storey or house.",
    )
    designs_drawing = Operation(
        "designs/drawing",
        models.DesignsRequest,
        _text,
        "The pipe of a whole storey as an SVG drawing to scale; needs ``doorways``.",
        accept=DRAWING,
    )
    designs_calendar = Operation(
        "designs/calendar",
        models.DesignsRequest,
        _text,
        "The dates of all screeds of a house as an iCalendar text for a calendar program.",
        accept=CALENDAR,
    )
    plan_imports = PlanImport()
    designs_cad_drawing = Operation(
        "designs/cad-drawing",
        models.DesignsRequest,
        _bytes,
        "The pipe of each storey as a DXF drawing in real size; needs ``doorways``.",
        accept=CAD,
    )
    designs_document = Operation(
        "designs/document",
        models.DesignsRequest,
        _bytes,
        "The handover pack of a house as PDF.",
        accept=PDF,
    )
    designs_schedule = Operation(
        "designs/schedule",
        models.DesignsRequest,
        _text,
        "The circuits of a house as CSV, with coils and metre marks.",
        accept=SCHEDULE,
    )
    designs_workbook = Operation(
        "designs/workbook",
        models.DesignsRequest,
        _bytes,
        "The tables of a house as XLSX.",
        accept=WORKBOOK,
    )
    designs_files = Operation(
        "designs/files",
        models.DesignsRequest,
        _bytes,
        "Every document of a house and its ``result.json``, as ZIP.",
        accept=FILES,
    )
    design_options = Operation(
        "design-options",
        models.DesignOptionsRequest,
        decode_as(models.DesignOptionsResponse),
        "What a house could be instead, and what each option takes beside the next.",
    )
    design_options_drawing = Operation(
        "design-options/drawing",
        models.DesignOptionsRequest,
        _text,
        "The options of a house as an SVG plot with their table.",
        accept=DRAWING,
    )
    design_options_document = Operation(
        "design-options/document",
        models.DesignOptionsRequest,
        _bytes,
        "The options of a house as PDF: plot, tables, and the choices of each room.",
        accept=PDF,
    )
    design_sensitivity = Operation(
        "design-sensitivity",
        models.DesignSensitivityRequest,
        decode_as(models.DesignSensitivityResponse),
        "How a design reacts to one change at a time, and how much more heat its rooms may need.",
    )
    design_sensitivity_drawing = Operation(
        "design-sensitivity/drawing",
        models.DesignSensitivityRequest,
        _text,
        "The changes of a house as an SVG table with bars.",
        accept=DRAWING,
    )
    design_sensitivity_document = Operation(
        "design-sensitivity/document",
        models.DesignSensitivityRequest,
        _bytes,
        "The changes of a house and how much more heat it bears as PDF.",
        accept=PDF,
    )
    heating_season = Operation(
        "heating-season",
        models.HeatingSeasonRequest,
        decode_as(models.HeatingSeasonResponse),
        "The heating curve of a house, and its room controls, flow, heat and electricity through the year.",
    )
    heating_season_drawing = Operation(
        "heating-season/drawing",
        models.HeatingSeasonRequest,
        _text,
        "The heating curve as an SVG plot with the year in a table.",
        accept=DRAWING,
    )
    heating_season_document = Operation(
        "heating-season/document",
        models.HeatingSeasonRequest,
        _bytes,
        "The heating curve, the year and the room controls as PDF.",
        accept=PDF,
    )
    calculations = Question(
        "/v1/calculations", decode_as(models.Catalogue), "The calculations that the service offers."
    )
    limits = Question(
        "/v1/limits", decode_as(models.Limits), "Every limit of the service, with value and unit."
    )
    findings = Question(
        "/v1/findings",
        decode_as(models.CodeCatalogue),
        "What the codes of findings, refusals and cautions mean, with remedies.",
    )
    ready = Question(
        "/health/ready",
        _always,
        "Whether the service can calculate now. Raises ``TransportError`` when it is not there at all.",
        when_unavailable=False,
    )
