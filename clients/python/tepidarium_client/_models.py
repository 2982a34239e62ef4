# Generated from api/openapi.json by clients/python/generate_models.py; do not edit.
# ruff: noqa: E501
"""Requests and answers of the service, as structs."""

from __future__ import annotations

from datetime import date as date_aliased
from typing import Annotated, Any, Literal, TypeAlias

from msgspec import UNSET, Meta, Struct, UnsetType, convert, field

__all__ = [
    "AntifreezeOption",
    "AreaQuantities",
    "BackflowProtection",
    "BalancingRow",
    "BareSpot",
    "BendCount",
    "BesideNeighbour",
    "BoardCount",
    "BoardSize",
    "BoardSizeInput",
    "BuildUp",
    "BuildUpCheck",
    "BuildUpInput",
    "BuildUpPlan",
    "Catalogue",
    "CatalogueEntry",
    "Caution",
    "CautionEntry",
    "CheckLayer",
    "CheckLayerInput",
    "ChosenFloor",
    "Circuit",
    "CircuitDesign",
    "CircuitHydraulics",
    "CircuitInput",
    "CircuitQuantities",
    "CircuitToCommission",
    "CircuitToCommissionInput",
    "CircuitToCut",
    "CircuitToCutInput",
    "CircuitToLay",
    "CircuitToLayInput",
    "ClimateBin",
    "ClimateBinInput",
    "CodeCatalogue",
    "CoilCut",
    "CoilInStock",
    "CoilInStockInput",
    "CoilOrder",
    "CoilPlanInputs",
    "CoilPlanRequest",
    "CoilPlanResponse",
    "CoilPlanResult",
    "CoilPrice",
    "CoilPriceInput",
    "ColdEdge",
    "ColdEdgeInput",
    "Commissioning",
    "CommissioningInput",
    "CommissioningInputs",
    "CommissioningRequest",
    "CommissioningResponse",
    "CommissioningResult",
    "ComparedSection",
    "Construction",
    "ConstructionInput",
    "CountedBends",
    "CountedBendsInput",
    "CoveringOption",
    "CoveringOptionInput",
    "CuringPlanInputs",
    "CuringPlanInputsInput",
    "CuringPlanRequest",
    "CuringPlanResponse",
    "CuringPlanResult",
    "CuringStage",
    "DateLimit",
    "DesignChange",
    "DesignComparison",
    "DesignConvergence",
    "DesignJoint",
    "DesignLayout",
    "DesignLimits",
    "DesignLimitsInput",
    "DesignObjective",
    "DesignObjectiveInput",
    "DesignOption",
    "DesignOptionsInputs",
    "DesignOptionsRequest",
    "DesignOptionsResponse",
    "DesignOptionsResult",
    "DesignRoom",
    "DesignRoomInput",
    "DesignScreed",
    "DesignScreedInput",
    "DesignSensitivityInputs",
    "DesignSensitivityRequest",
    "DesignSensitivityResponse",
    "DesignSensitivityResult",
    "DesignsInputs",
    "DesignsRequest",
    "DesignsResponse",
    "Documents",
    "DrawingSheet",
    "DrawingSheetInput",
    "DrawnCircuit",
    "DrawnDoorway",
    "DrawnManifold",
    "DrawnSleeve",
    "EdgeInsulation",
    "EdgeInsulationInput",
    "EdgeResult",
    "EfficiencyPoint",
    "EfficiencyPointInput",
    "Element",
    "ElementInput",
    "ElementLoss",
    "EnergyOfYear",
    "EstimateRange",
    "EstimateRoom",
    "EstimateRoomInput",
    "EstimatedMaterial",
    "EstimatesInputs",
    "EstimatesRequest",
    "EstimatesResponse",
    "Expansion",
    "ExpansionInput",
    "ExpansionVessel",
    "ExplainedFinding",
    "Factors",
    "FieldError",
    "Filling",
    "FillingStep",
    "FilmRoll",
    "FilmRollInput",
    "FilmSheet",
    "Finding",
    "FindingChange",
    "FindingEntry",
    "FindingExample",
    "FindingPlace",
    "FindingTolerance",
    "FloorSectionInputs",
    "FloorSectionRequest",
    "FloorSectionResponse",
    "FloorSectionResult",
    "Fluid",
    "FluidInput",
    "Flushing",
    "FlushingInput",
    "FlushingRow",
    "FormField",
    "FormerCircuit",
    "FormerCircuitInput",
    "FormerDates",
    "FormerDatesInput",
    "FormerDesign",
    "FormerDesignInput",
    "FormerFinding",
    "FormerFindingInput",
    "FormerFloor",
    "FormerFloorInput",
    "FormerInputs",
    "FormerInputsInput",
    "FormerLayout",
    "FormerLayoutInput",
    "FormerManifold",
    "FormerManifoldInput",
    "FormerMaterials",
    "FormerMaterialsInput",
    "FormerPlace",
    "FormerPlaceInput",
    "FormerPlan",
    "FormerPlanInput",
    "FormerPump",
    "FormerPumpInput",
    "FormerQuantity",
    "FormerQuantityInput",
    "FormerRoom",
    "FormerRoomInput",
    "FormerStrip",
    "FormerStripInput",
    "FoundLayer",
    "FoundRoom",
    "FoundStorey",
    "FrostProtection",
    "Ground",
    "GroundContact",
    "GroundContactInput",
    "GroundFloor",
    "GroundInput",
    "Health",
    "HeatLossInputs",
    "HeatLossInputsInput",
    "HeatLossRequest",
    "HeatLossResponse",
    "HeatLossRoom",
    "HeatLossRoomInput",
    "HeatOutputInputs",
    "HeatOutputRequest",
    "HeatOutputResponse",
    "HeatPump",
    "HeatPumpInput",
    "HeatSource",
    "HeatSourceInput",
    "HeatUpRow",
    "HeatingCurve",
    "HeatingSeasonInputs",
    "HeatingSeasonRequest",
    "HeatingSeasonResponse",
    "HeatingSeasonResult",
    "HouseToDesign",
    "HouseToDesignInput",
    "HydraulicsInputs",
    "HydraulicsLimits",
    "HydraulicsLimitsInput",
    "HydraulicsRequest",
    "HydraulicsResponse",
    "ImportedPart",
    "InsulationCheckInputs",
    "InsulationCheckInputsInput",
    "InsulationCheckRequest",
    "InsulationCheckResponse",
    "InsulationCheckResult",
    "InsulationLayer",
    "InsulationLayerInput",
    "JointMovement",
    "JointSpan",
    "JointSpanInput",
    "JudgedReading",
    "LaidSpacing",
    "Layer",
    "LayerInput",
    "LayingRoom",
    "LayingRoomInput",
    "LayingSheet",
    "LayingSheetsInputs",
    "LayingSheetsRequest",
    "LayingSheetsResponse",
    "LayingStep",
    "LeakTest",
    "LeakTestEdition",
    "LeakTestInput",
    "LeakTestPlan",
    "LeakTestStep",
    "LengthLimit",
    "Limits",
    "LocalLimit",
    "LocalLimitInput",
    "LoopCircuit",
    "LoopLengthInputs",
    "LoopLengthRequest",
    "LoopLengthResponse",
    "MakerRules",
    "MakerRulesInput",
    "Manifold",
    "ManifoldDesign",
    "ManifoldInput",
    "ManifoldParts",
    "ManifoldPartsInput",
    "ManifoldPorts",
    "ManifoldPositionInputs",
    "ManifoldPositionRequest",
    "ManifoldPositionResponse",
    "ManifoldRoom",
    "ManifoldRoomInput",
    "MaterialArea",
    "MaterialAreaInput",
    "MaterialBuildUp",
    "MaterialBuildUpInput",
    "MaterialCircuit",
    "MaterialCircuitInput",
    "MaterialJoint",
    "MaterialJointInput",
    "MaterialManifold",
    "MaterialManifoldInput",
    "MaterialOverride",
    "MaterialOverrideInput",
    "MaterialQuantity",
    "MaterialsInputs",
    "MaterialsRequest",
    "MaterialsResponse",
    "MaterialsResult",
    "Mixing",
    "MoistureLimit",
    "MoistureLimitRow",
    "MoistureReadingInputs",
    "MoistureReadingRequest",
    "MoistureReadingResponse",
    "MoistureRow",
    "NumberLimit",
    "ObjectiveOutcome",
    "OpenFlow",
    "OpenValves",
    "Opening2",
    "OpeningInput",
    "Operation",
    "OptionCoils",
    "OptionPrices",
    "OptionPricesInput",
    "OptionRoom",
    "Ordering",
    "OrderingInput",
    "OtherRoom",
    "OtherRoomInput",
    "OutputByMethod",
    "PathPiece",
    "PathPieceInput",
    "PatternOption",
    "PatternOptionInput",
    "PeripheralArea",
    "PeripheralAreaInput",
    "PeripheralStrip",
    "PeripheralStripInput",
    "Pipe",
    "PipeInput",
    "PlacedManifold",
    "PlanDoorway",
    "PlanDoorwayInput",
    "PlanImportsInputs",
    "PlanImportsResponse",
    "PlannedCoil",
    "PressureDrift",
    "Price",
    "PriceInput",
    "PriceList",
    "PriceListInput",
    "Problem",
    "ProblemType",
    "ProfilePoint",
    "ProgrammeDay",
    "Pump",
    "PumpStage",
    "PumpStageInput",
    "Reading",
    "ReadingInput",
    "RecordForm",
    "RefusalEntry",
    "Remedy",
    "RoomDesign",
    "RoomEffect",
    "RoomLoss",
    "RoomOnSupply",
    "RoomSensitivity",
    "RoomTails",
    "RoomTolerance",
    "RouteCircuit",
    "RouteCoverage",
    "RouteQuality",
    "RouteSleeve",
    "RoutesInputs",
    "RoutesRequest",
    "RoutesResponse",
    "RuleRequirement",
    "ScreedResult",
    "ScreedSection",
    "ScreedSectionInput",
    "ScreedSupply",
    "ScreedSupplyInput",
    "ScreedToHeat",
    "ScreedToHeatInput",
    "SeasonBin",
    "SeasonQuestions",
    "SeasonQuestionsInput",
    "SeasonRoom",
    "SectionLayer",
    "SectionLayerInput",
    "SensitivityLine",
    "SensitivityQuestions",
    "SensitivityQuestionsInput",
    "ServiceLimit",
    "Setback",
    "SetbackInput",
    "SetbackResult",
    "Slab",
    "SlabInput",
    "SpaceTemperature",
    "SpacingOption",
    "Storey",
    "StoreyInput",
    "StoreySiting",
    "StripDesign",
    "StripOption",
    "StripOptionInput",
    "SupplyTemperatureInputs",
    "SupplyTemperatureRequest",
    "SupplyTemperatureResponse",
    "TailInsulation",
    "TailInsulationInput",
    "ToleranceChange",
    "UnderfloorSpace",
    "UnderfloorSpaceInput",
    "UnheatedSpace",
    "UnheatedSpaceInput",
    "UnplacedCircuit",
    "ValveSetting",
    "ValveSettingInput",
    "Wall",
    "WallAllowed",
    "WallAllowedInput",
    "WallDistance",
    "WallInput",
    "WallStretch",
    "WallStretchInput",
    "WarmUp",
    "WarmUpInput",
    "WarmUpPoint",
    "WarmUpResult",
    "WaterLimits",
    "WaterSide",
    "WaterSideInput",
    "Working",
]


class AntifreezeOption(Struct, kw_only=True):
    fluid: Annotated[str, Meta(description="The glycol")]
    concentration_by_volume: (
        Annotated[float, Meta(description="Concentration by volume that just stands the frost [1]")] | None
    )
    concentration_by_mass: (
        Annotated[float, Meta(description="Concentration by mass that just stands the frost [1]")] | None
    )
    glycol_volume: (
        Annotated[float, Meta(description="Glycol in the system at the concentration as used [m3]")] | None
    )
    flushes: Annotated[
        int,
        Meta(description="Times that the system is flushed when the antifreeze is taken out [1]"),
    ]
    flush_volume: Annotated[float, Meta(description="Clean water for that [m3]")]


class BackflowProtection(Struct, kw_only=True):
    fluid_category: Annotated[int, Meta(description="Fluid category of EN 1717 [1]")]
    protection: Annotated[Literal["BA", "CA"], Meta(description="Kind of protection by EN 1717: CA or BA")]
    reason: Annotated[str, Meta(description="Why it was chosen or not")]
    source: Annotated[str, Meta(description="Document, edition and clause, or a named trade practice")]


class BalancingRow(Struct, kw_only=True):
    circuit: Annotated[str, Meta(description="The id of a circuit")]
    room: Annotated[str, Meta(description="The id of a room")]
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    port: Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]")] | None
    volume_flow: (
        Annotated[float, Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]")] | None
    )
    valve_setting: Annotated[float, Meta(description="Setting on the valve's own scale [1]")] | None


class BareSpot(Struct, kw_only=True):
    area: Annotated[float, Meta(description="Floor area [m2]")]
    place: Annotated[
        tuple[float, float],
        Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items"),
    ]
    width: Annotated[float, Meta(description="Diameter of the largest circle in it [m]")]
    pipe_distance: Annotated[float, Meta(description="From its middle to the pipe [m]")]


class BendCount(Struct, kw_only=True):
    right_angle: Annotated[int, Meta(description="Bends by a right angle [1]")]
    u_turn: Annotated[
        int,
        Meta(description="U-turns: two right angles at about one spacing, or one bend [1]"),
    ]
    other: Annotated[int, Meta(description="Bends by other angles [1]")]


class BesideNeighbour(Struct, kw_only=True):
    supply_difference: Annotated[
        float, Meta(description="Supply temperature less that of the option before [K]")
    ]
    pipe_difference: Annotated[float, Meta(description="Pipe less that of the option before [m]")]
    circuit_difference: Annotated[int, Meta(description="Circuits less those of the option before [1]")]
    missing_difference: Annotated[float, Meta(description="Missing heat less that of the option before [W]")]
    power_difference: Annotated[float, Meta(description="Pump power less that of the option before [W]")]
    material_difference: (
        Annotated[float, Meta(description="Price of material less that of the option before [1]")] | None
    )
    use_difference: (
        Annotated[float, Meta(description="Cost of use less that of the option before [1]")] | None
    )
    message: Annotated[str, Meta(description="The same in words")]


class BoardCount(Struct, kw_only=True):
    thickness: Annotated[float, Meta(description="Thickness of the layer [m]")] | None
    boards: Annotated[int, Meta(description="Boards for the layer in this area [1]")] | None
    cut_off: Annotated[float, Meta(description="What of the boards does not lie on the floor [m2]")] | None


class BoardSize(Struct, kw_only=True):
    length: Annotated[float, Meta(description="Length of a board or roll of insulation [m]")]
    width: Annotated[float, Meta(description="Width of a board or roll of insulation [m]")]


class BoardSizeInput(Struct, kw_only=True):
    length: Annotated[
        float,
        Meta(
            description="Length of a board or roll of insulation (default 1.0) [m]; at least 0.2; at most 50"
        ),
    ] = 1.0
    width: Annotated[
        float,
        Meta(description="Width of a board or roll of insulation (default 0.5) [m]; at least 0.2; at most 5"),
    ] = 0.5


class CatalogueEntry(Struct, kw_only=True):
    """
    One calculation that the service offers.
    """

    name: Annotated[str, Meta(description="Name of the calculation")]
    summary: Annotated[str, Meta(description="What it computes")]
    path: Annotated[str, Meta(description="Path to POST the request to")]
    heavy: Annotated[bool, Meta(description="Whether it runs in a worker process under the deadline")]
    media_types: Annotated[list[str], Meta(description="Media types of the answer, chosen by Accept")]


class Caution(Struct, kw_only=True):
    code: Annotated[str, Meta(description="Code that stays the same from release to release")]
    message: Annotated[str, Meta(description="The same in words")]


class CautionEntry(Struct, kw_only=True):
    """
    One caution.
    """

    code: Annotated[str, Meta(description="Stable code of the caution")]
    message: Annotated[str, Meta(description="What endangers people or the building, and what to do")]


class CheckLayer(Struct, kw_only=True):
    thickness: Annotated[float, Meta(description="Thickness of the layer [m]")] | None
    thermal_conductivity: (
        Annotated[float, Meta(description="Design thermal conductivity of the layer [W/(m.K)]")] | None
    )
    thermal_resistance: (
        Annotated[
            float,
            Meta(
                description="Thermal resistance of the layer, in place of thickness and conductivity [m2.K/W]"
            ),
        ]
        | None
    )
    part: Annotated[
        Literal["insulation", "structure"],
        Meta(description="insulation (counts for the requirement) or structure (slab, plaster)"),
    ]
    compressibility: Annotated[
        float,
        Meta(description="How far the layer gives way under load: c of the product's label (EN 13163) [m]"),
    ]
    name: Annotated[str, Meta(description="Name for people")]


class CheckLayerInput(Struct, kw_only=True):
    thickness: (
        Annotated[float, Meta(description="Thickness of the layer [m]; at least 0.0001; at most 5")]
        | UnsetType
        | None
    ) = UNSET
    thermal_conductivity: (
        Annotated[
            float,
            Meta(
                description="Design thermal conductivity of the layer [W/(m.K)]; at least 0.001; at most 500"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    thermal_resistance: (
        Annotated[
            float,
            Meta(
                description="Thermal resistance of the layer, in place of thickness and conductivity [m2.K/W]; at least 0.001; at most 50"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    part: Annotated[
        Literal["insulation", "structure"],
        Meta(
            description="insulation (counts for the requirement) or structure (slab, plaster) (default insulation)"
        ),
    ] = "insulation"
    compressibility: Annotated[
        float,
        Meta(
            description="How far the layer gives way under load: c of the product's label (EN 13163) (default 0.0) [m]; at least 0; at most 0.03"
        ),
    ] = 0.0
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class CircuitDesign(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    port: Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]")]
    room: Annotated[str, Meta(description="The id of a room")]
    area: Annotated[float, Meta(description="Floor area [m2]")]
    field_length: Annotated[float, Meta(description="Pipe in the heated field, without the tails [m]")]
    tail_length: Annotated[
        float,
        Meta(description="Both ways between manifold and field, flow and return together [m]"),
    ]
    total_length: Annotated[float, Meta(description="Field and both tails of a circuit [m]")]
    heat_flow: Annotated[
        float,
        Meta(description="Heat that the water gives, to the room and downwards [W]"),
    ]
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")]
    volume_flow: Annotated[
        float,
        Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]"),
    ]
    temperature_drop: Annotated[float, Meta(description="Supply minus return temperature of the water [K]")]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    velocity: Annotated[float, Meta(description="Mean velocity in the bore [m/s]")]
    pressure_drop: Annotated[
        float,
        Meta(description="Pressure drop of the pipe with its bends, by Churchill [Pa]"),
    ]
    pressure_drop_upper: Annotated[
        float,
        Meta(description="Pressure drop of the pipe with its bends, upper bound in the transition zone [Pa]"),
    ]
    valve_pressure_drop: Annotated[
        float,
        Meta(description="Pressure drop that the presetting valve must take up [Pa]"),
    ]
    total_pressure_drop: Annotated[
        float, Meta(description="Pressure drop of pipe, flow meter and set valve [Pa]")
    ]
    valve_kv: Annotated[
        float,
        Meta(
            description="Flow coefficient of the presetting valve as set: m3/h of water at a drop of 1 bar [m3/h]"
        ),
    ]
    valve_setting: Annotated[float, Meta(description="Setting on the valve's own scale [1]")] | None
    open_flow_ratio: Annotated[
        float,
        Meta(
            description="Flow divided by design flow if all valves are open and the pump holds its pressure [1]"
        ),
    ]
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    lost_on_the_way: Annotated[
        float,
        Meta(description="Heat that the circuit's tails leave in rooms of others [W]"),
    ]


class CircuitQuantities(Struct, kw_only=True):
    circuit: Annotated[str, Meta(description="The id of a circuit")]
    length: Annotated[
        float,
        Meta(description="Length along the pipe's axis, arcs and both tails included [m]"),
    ]
    coil: Annotated[str, Meta(description="Number of the coil in the order in which they are opened")] | None
    start_mark: (
        Annotated[float, Meta(description="Metre mark of the coil at which the piece begins [m]")] | None
    )
    end_mark: Annotated[float, Meta(description="Metre mark of the coil at which the piece ends [m]")] | None
    fixings_on_straights: Annotated[int, Meta(description="Fixings on straight pipe [1]")]
    fixings_at_bends: Annotated[int, Meta(description="Fixings at bends [1]")]
    water_content: Annotated[float, Meta(description="Volume of fluid in the pipe [m3]")]


class CircuitToCommission(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    length: Annotated[
        float,
        Meta(description="Length along the pipe's axis, arcs and both tails included [m]"),
    ]
    volume_flow: (
        Annotated[float, Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]")] | None
    )
    valve_setting: Annotated[float, Meta(description="Setting on the valve's own scale [1]")] | None
    room: Annotated[str, Meta(description="The id of a room")]
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    port: Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]")] | None


class CircuitToCommissionInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    length: Annotated[
        float,
        Meta(
            description="Length along the pipe's axis, arcs and both tails included [m]; at least 0.1; at most 1000"
        ),
    ]
    volume_flow: (
        Annotated[
            float,
            Meta(
                description="Volume flow of the fluid; what a flow meter shows [m3/s]; at least 1e-09; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    valve_setting: (
        Annotated[float, Meta(description="Setting on the valve's own scale [1]; at least 0; at most 1000")]
        | UnsetType
        | None
    ) = UNSET
    room: Annotated[
        str,
        Meta(description="The id of a room; at least 0 characters; at most 64 characters"),
    ] = ""
    manifold: Annotated[
        str,
        Meta(description="The id of a manifold (default 1); at least 1 characters; at most 64 characters"),
    ] = "1"
    port: (
        Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]; at least 1; at most 256")]
        | UnsetType
        | None
    ) = UNSET


class CircuitToCut(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    length: Annotated[
        float,
        Meta(description="Length along the pipe's axis, arcs and both tails included [m]"),
    ]


class CircuitToCutInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    length: Annotated[
        float,
        Meta(
            description="Length along the pipe's axis, arcs and both tails included [m]; at least 0.1; at most 1000"
        ),
    ]


class ClimateBin(Struct, kw_only=True):
    outside_temperature: Annotated[float, Meta(description="Temperature of the outside air [degC]")]
    hours: Annotated[float, Meta(description="Hours of a year [h]")]


class ClimateBinInput(Struct, kw_only=True):
    outside_temperature: Annotated[
        float,
        Meta(description="Temperature of the outside air [degC]; at least -60; at most 50"),
    ]
    hours: Annotated[float, Meta(description="Hours of a year [h]; at least 0; at most 8784")]


class CoilCut(Struct, kw_only=True):
    circuit: Annotated[str, Meta(description="The id of a circuit")]
    length: Annotated[
        float,
        Meta(description="Length of the piece, with the allowance at both ends [m]"),
    ]
    start_mark: Annotated[float, Meta(description="Metre mark of the coil at which the piece begins [m]")]
    end_mark: Annotated[float, Meta(description="Metre mark of the coil at which the piece ends [m]")]


class CoilInStock(Struct, kw_only=True):
    length: Annotated[float, Meta(description="Length of a coil of pipe [m]")]
    count: Annotated[int, Meta(description="Number of coils of this length [1]")]
    name: Annotated[str, Meta(description="Name for people")]


class CoilInStockInput(Struct, kw_only=True):
    length: Annotated[
        float,
        Meta(description="Length of a coil of pipe [m]; at least 1; at most 1000"),
    ]
    count: Annotated[
        int,
        Meta(description="Number of coils of this length (default 1) [1]; at least 1; at most 100"),
    ] = 1
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class CoilOrder(Struct, kw_only=True):
    length: Annotated[float, Meta(description="Length of a coil of pipe [m]")]
    count: Annotated[int, Meta(description="Number of coils of this length [1]")]


class CoilPlanInputs(Struct, kw_only=True):
    circuits: Annotated[
        list[CircuitToCut],
        Meta(description="Circuits in the order in which they are laid"),
    ]
    coil_lengths: Annotated[list[float], Meta(description="Lengths of coils that can be bought [m]")]
    stock: Annotated[
        list[CoilInStock],
        Meta(description="Coils and rests of coils at hand, used before any is bought"),
    ]
    cutting_allowance: Annotated[
        float,
        Meta(description="Pipe beyond what was measured, at each end of a circuit [m]"),
    ]


class CoilPlanRequest(Struct, kw_only=True):
    circuits: Annotated[
        list[CircuitToCutInput],
        Meta(description="Circuits in the order in which they are laid; at least 1 items; at most 256 items"),
    ]
    coil_lengths: Annotated[
        list[float],
        Meta(description="Lengths of coils that can be bought [m]; at least 1 items; at most 24 items"),
    ] = field(default_factory=lambda: [50.0, 60.0, 80.0, 100.0, 120.0, 200.0, 240.0, 300.0, 500.0, 600.0])
    stock: Annotated[
        list[CoilInStockInput],
        Meta(
            description="Coils and rests of coils at hand, used before any is bought; at least 0 items; at most 64 items"
        ),
    ] = field(default_factory=list)
    cutting_allowance: Annotated[
        float,
        Meta(
            description="Pipe beyond what was measured, at each end of a circuit (default 0.5) [m]; at least 0; at most 5"
        ),
    ] = 0.5
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class CoilPrice(Struct, kw_only=True):
    length: Annotated[float, Meta(description="Length of a coil of pipe [m]")]
    coil_price: Annotated[float, Meta(description="Price of a coil [1]")]


class CoilPriceInput(Struct, kw_only=True):
    length: Annotated[
        float,
        Meta(description="Length of a coil of pipe [m]; at least 1; at most 1000"),
    ]
    coil_price: Annotated[float, Meta(description="Price of a coil [1]; at least 0; at most 100000")]


class ColdEdge(Struct, kw_only=True):
    distance: Annotated[
        float,
        Meta(description="From the axis of the outermost pipe to the edge of the screed [m]"),
    ]
    temperature: Annotated[float, Meta(description="Temperature beyond the edge [degC]")]
    resistance: Annotated[
        float,
        Meta(
            description="Resistance from the edge of the floor outwards: edge strip, wall and surface [m2.K/W]"
        ),
    ]


class ColdEdgeInput(Struct, kw_only=True):
    distance: Annotated[
        float,
        Meta(
            description="From the axis of the outermost pipe to the edge of the screed [m]; at least 0.01; at most 1"
        ),
    ]
    temperature: Annotated[
        float,
        Meta(description="Temperature beyond the edge [degC]; at least -50; at most 60"),
    ]
    resistance: Annotated[
        float,
        Meta(
            description="Resistance from the edge of the floor outwards: edge strip, wall and surface [m2.K/W]; at least 0.02; at most 20"
        ),
    ]


class ComparedSection(Struct, kw_only=True):
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    water_temperature: Annotated[float, Meta(description="Mean temperature of the water in the pipe [degC]")]
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    downward_heat_loss: Annotated[float, Meta(description="Heat lost downwards per floor area [W/m2]")]
    total_heat_output: Annotated[
        float,
        Meta(description="Heat from the water per floor area, up and down [W/m2]"),
    ]
    heat_transmittance: Annotated[
        float,
        Meta(description="Heat output per kelvin of mean excess temperature [W/(m2.K)]"),
    ]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    highest_surface_temperature: Annotated[
        float, Meta(description="Highest floor surface temperature [degC]")
    ]
    lowest_surface_temperature: Annotated[float, Meta(description="Lowest floor surface temperature [degC]")]
    pipe_surface_temperature: Annotated[
        float, Meta(description="Mean temperature of the screed at the pipe [degC]")
    ]
    below_covering_temperature: Annotated[
        float,
        Meta(description="Mean temperature of the top face of the screed, below all that lies on it [degC]"),
    ]


class CountedBends(Struct, kw_only=True):
    count: Annotated[int, Meta(description="Number of equal bends [1]")]
    angle: Annotated[float, Meta(description="Angle by which the pipe turns [deg]")]
    radius: (
        Annotated[
            float,
            Meta(description="Radius of the bend's centre line; the pipe's least radius if not given [m]"),
        ]
        | None
    )


class CountedBendsInput(Struct, kw_only=True):
    count: Annotated[int, Meta(description="Number of equal bends [1]; at least 1; at most 10000")]
    angle: Annotated[
        float,
        Meta(description="Angle by which the pipe turns (default 90.0) [deg]; at least 10; at most 360"),
    ] = 90.0
    radius: (
        Annotated[
            float,
            Meta(
                description="Radius of the bend's centre line; the pipe's least radius if not given [m]; at least 0.02; at most 5"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class CoveringOption(Struct, kw_only=True):
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    covering_resistance: Annotated[
        float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")
    ]
    rooms: Annotated[
        list[str],
        Meta(description="The ids of the rooms that may have it; none named: all"),
    ]
    price: Annotated[
        float,
        Meta(
            description="Price of 1 m2 above that of the room's own covering, in the currency of the prices [1/m2]"
        ),
    ]


class CoveringOptionInput(Struct, kw_only=True):
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    covering_resistance: Annotated[
        float,
        Meta(description="Thermal resistance of the floor covering [m2.K/W]; at least 0; at most 1"),
    ]
    rooms: Annotated[
        list[str],
        Meta(
            description="The ids of the rooms that may have it; none named: all; at least 0 items; at most 64 items"
        ),
    ] = field(default_factory=list)
    price: Annotated[
        float,
        Meta(
            description="Price of 1 m2 above that of the room's own covering, in the currency of the prices (default 0.0) [1/m2]; at least 0; at most 10000"
        ),
    ] = 0.0


class CuringStage(Struct, kw_only=True):
    stage: Annotated[
        Literal[
            "covering",
            "curing",
            "drying",
            "first_heat_up",
            "heating_off",
            "maturity_heating",
            "moisture_test",
            "pour",
            "waiting",
        ],
        Meta(description="Stage of the plan"),
    ]
    start_date: Annotated[date_aliased, Meta(description="Day on which it begins, in 1990 to 2199")]
    end_date: Annotated[
        date_aliased,
        Meta(description="Day on which it is over and the next begins, in 1990 to 2199"),
    ]
    days: Annotated[int, Meta(description="Length in days of 24 hours [d]")]
    description: Annotated[str, Meta(description="What is to be done")]


class DateLimit(Struct, kw_only=True):
    """
    Range of a date in requests.
    """

    name: Annotated[str, Meta(description="Name of the field")]
    first_year: Annotated[int, Meta(description="First year that is accepted")]
    last_year: Annotated[int, Meta(description="Last year that is accepted")]
    description: Annotated[str, Meta(description="Meaning of the field")]


class DesignChange(Struct, kw_only=True):
    what: Annotated[str, Meta(description="What it is, in words")]
    subject: Annotated[
        str,
        Meta(description="The room, circuit or other thing concerned, as people call it"),
    ]
    where: Annotated[
        str,
        Meta(description="JSON pointer (RFC 6901) to what the finding is about, into the document where_in"),
    ]
    where_in: Annotated[
        Literal["answer", "request"],
        Meta(
            description="request: your request, or where you left the field out the inputs of the answer; answer: the answer"
        ),
    ]
    quantity: (
        Annotated[str, Meta(description="What value and limit are of: a field name, such as volume_flow")]
        | None
    )
    unit: Annotated[str, Meta(description="Unit")] | None
    value_before: Annotated[float, Meta(description="What it was, in the unit of its quantity [1]")] | None
    value_after: Annotated[float, Meta(description="What it is, in the unit of its quantity [1]")] | None
    text_before: Annotated[str, Meta(description="What it was, in units of the trade")]
    text_after: Annotated[str, Meta(description="What it is, in units of the trade")]
    because: Annotated[
        str,
        Meta(description="Why it changed where nobody asked for it; empty elsewhere"),
    ]


class DesignConvergence(Struct, kw_only=True):
    rounds: Annotated[int, Meta(description="Number of rounds [1]")]
    residual: Annotated[
        float,
        Meta(description="Greatest change of a room's or circuit's heat in the last round [W]"),
    ]
    tolerance: Annotated[
        float,
        Meta(description="Change of heat from round to round that counts as none [W]"),
    ]
    settled: Annotated[
        bool,
        Meta(description="Whether the last round changed no heat by more than the tolerance"),
    ]


Point: TypeAlias = tuple[float, float]


class DesignJoint(Struct, kw_only=True):
    room: Annotated[str, Meta(description="The id of a room")]
    doorway: Annotated[
        list[str],
        Meta(description="The ids of the two rooms of the doorway that the joint lies in; none in a room"),
    ]
    state: Annotated[
        Literal["adopted", "due", "given"],
        Meta(
            description="given with the room, adopted as proposed, or due: asked for by the rules and not laid out"
        ),
    ]
    reason: (
        Annotated[
            Literal["doorway", "field_area", "field_ratio", "field_side", "re_entrant_corner"],
            Meta(description="Which rule asks for the joint; none where it was given"),
        ]
        | None
    )
    points: Annotated[list[Point], Meta(description="The joint from end to end [m]")]
    length: Annotated[float, Meta(description="Length of the joint [m]")]
    sleeve_count: Annotated[int, Meta(description="Sleeves for tails through the joint [1]")]


class DesignLimits(Struct, kw_only=True):
    pipe_spacings: Annotated[list[float], Meta(description="Distances between pipe centres to compare [m]")]
    maximum_circuit_length: (
        Annotated[float, Meta(description="Longest permitted circuit, tails included [m]")] | None
    )
    maximum_pressure_drop: Annotated[
        float,
        Meta(description="Highest pressure drop of a circuit with open valve [Pa]"),
    ]
    maximum_temperature_drop: Annotated[
        float, Meta(description="Supply minus return temperature of the water [K]")
    ]
    maximum_circuits: Annotated[int, Meta(description="Most circuits on one manifold [1]")]
    wall_clearance: Annotated[
        float,
        Meta(description="Distance of the outermost pipe's centre line from walls and voids [m]"),
    ]
    tail_pitch: Annotated[
        float,
        Meta(description="Distance between the centres of flow and return at the entry [m]"),
    ]
    maximum_tail_length: (
        Annotated[float, Meta(description="Longest permitted way from a manifold to a room, one way [m]")]
        | None
    )


class DesignLimitsInput(Struct, kw_only=True):
    pipe_spacings: Annotated[
        list[float],
        Meta(description="Distances between pipe centres to compare [m]; at least 1 items; at most 12 items"),
    ] = field(default_factory=lambda: [0.1, 0.15, 0.2])
    maximum_circuit_length: (
        Annotated[
            float, Meta(description="Longest permitted circuit, tails included [m]; at least 5; at most 500")
        ]
        | UnsetType
        | None
    ) = UNSET
    maximum_pressure_drop: Annotated[
        float,
        Meta(
            description="Highest pressure drop of a circuit with open valve (default 25000.0) [Pa]; at least 0; at most 1e+06"
        ),
    ] = 25000.0
    maximum_temperature_drop: Annotated[
        float,
        Meta(
            description="Supply minus return temperature of the water (default 10.0) [K]; at least 0.5; at most 30"
        ),
    ] = 10.0
    maximum_circuits: Annotated[
        int,
        Meta(description="Most circuits on one manifold (default 12) [1]; at least 1; at most 200"),
    ] = 12
    wall_clearance: Annotated[
        float,
        Meta(
            description="Distance of the outermost pipe's centre line from walls and voids (default 0.075) [m]; at least 0.02; at most 1"
        ),
    ] = 0.075
    tail_pitch: Annotated[
        float,
        Meta(
            description="Distance between the centres of flow and return at the entry (default 0.06) [m]; at least 0.01; at most 1"
        ),
    ] = 0.06
    maximum_tail_length: (
        Annotated[
            float,
            Meta(
                description="Longest permitted way from a manifold to a room, one way [m]; at least 0.5; at most 200"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


OutlineItem: TypeAlias = tuple[float, float]


Void: TypeAlias = tuple[float, float]


Entry: TypeAlias = Annotated[
    tuple[float, float],
    Meta(description="Where the pipes come into the room, x and y [m]; at least 2 items; at most 2 items"),
]


MovementJoint: TypeAlias = tuple[float, float]


class Documents(Struct, kw_only=True):
    """
    Where to read on.
    """

    engine_version: Annotated[str, Meta(description="Version of the engine")]
    docs: Annotated[str, Meta(description="Path of the documents for people")]
    handbook: Annotated[str, Meta(description="Path of the handbook: methods and examples")]
    openapi: Annotated[str, Meta(description="Path of the OpenAPI document")]
    calculations: Annotated[str, Meta(description="Path of the list of calculations")]
    limits: Annotated[str, Meta(description="Path of the list of limits")]
    ready: Annotated[
        str,
        Meta(description="Path of the probe that says whether the service can compute"),
    ]


class DrawingSheet(Struct, kw_only=True):
    paper: (
        Annotated[
            Literal["A0", "A1", "A2", "A3", "A4"],
            Meta(description="Format of the sheet (ISO 216); null takes the first that fits, from A3 on"),
        ]
        | None
    )
    orientation: (
        Annotated[
            Literal["landscape", "portrait"],
            Meta(description="Whether the sheet lies or stands; null takes what fits"),
        ]
        | None
    )
    scale: Annotated[int, Meta(description="Scale of the drawing: 50 stands for 1:50 (ISO 5455) [1]")] | None
    project: Annotated[str, Meta(description="Name of the project, printed on the records")]
    revision: Annotated[str, Meta(description="Revision of the drawing, printed in the title block")]
    author: Annotated[str, Meta(description="Who drew it, printed in the title block")]
    drawn_on: Annotated[date_aliased, Meta(description="Calendar date, in 1990 to 2199")] | None
    north: (
        Annotated[float, Meta(description="Direction of north, clockwise from the y axis of the plan [deg]")]
        | None
    )
    storey: Annotated[str, Meta(description="The id of a storey")] | None
    room: Annotated[str, Meta(description="The id of a room")] | None


class DrawingSheetInput(Struct, kw_only=True):
    paper: (
        Annotated[
            Literal["A0", "A1", "A2", "A3", "A4"],
            Meta(description="Format of the sheet (ISO 216); null takes the first that fits, from A3 on"),
        ]
        | UnsetType
        | None
    ) = UNSET
    orientation: (
        Annotated[
            Literal["landscape", "portrait"],
            Meta(description="Whether the sheet lies or stands; null takes what fits"),
        ]
        | UnsetType
        | None
    ) = UNSET
    scale: (
        Annotated[
            int,
            Meta(
                description="Scale of the drawing: 50 stands for 1:50 (ISO 5455) [1]; at least 10; at most 1000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    project: Annotated[
        str,
        Meta(
            description="Name of the project, printed on the records; at least 0 characters; at most 120 characters"
        ),
    ] = ""
    revision: Annotated[
        str,
        Meta(
            description="Revision of the drawing, printed in the title block; at least 0 characters; at most 20 characters"
        ),
    ] = ""
    author: Annotated[
        str,
        Meta(
            description="Who drew it, printed in the title block; at least 0 characters; at most 60 characters"
        ),
    ] = ""
    drawn_on: (
        Annotated[date_aliased, Meta(description="Calendar date, in 1990 to 2199")] | UnsetType | None
    ) = UNSET
    north: (
        Annotated[
            float,
            Meta(
                description="Direction of north, clockwise from the y axis of the plan [deg]; at least -360; at most 360"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    storey: (
        Annotated[str, Meta(description="The id of a storey; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    room: (
        Annotated[str, Meta(description="The id of a room; at least 0 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET


Jamb: TypeAlias = tuple[float, float]


OppositeJamb: TypeAlias = tuple[float, float]


class DrawnDoorway(Struct, kw_only=True):
    jambs: Annotated[list[Jamb], Meta(description="Both jambs on the outline of the first room [m]")]
    opposite_jambs: Annotated[
        list[OppositeJamb],
        Meta(description="Both jambs on the outline of the second room [m]"),
    ]
    rooms: Annotated[list[str], Meta(description="The ids of the two rooms that the doorway joins")]


class DrawnManifold(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    room: Annotated[str, Meta(description="The id of a room")]
    place: Annotated[
        tuple[float, float],
        Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items"),
    ]
    position: Annotated[
        tuple[float, float],
        Meta(description="Where the manifold stands, x and y [m]; at least 2 items; at most 2 items"),
    ]
    position_found: Annotated[bool, Meta(description="Whether the position was found, or given")]
    tail_pitch: Annotated[
        float,
        Meta(description="Distance between the centres of flow and return at the entry [m]"),
    ]


class DrawnSleeve(Struct, kw_only=True):
    circuit: Annotated[str, Meta(description="The id of a circuit")]
    place: Annotated[
        tuple[float, float],
        Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items"),
    ]
    ahead: Annotated[
        tuple[float, float],
        Meta(
            description="Unit vector of the direction of travel, x and y [1]; at least 2 items; at most 2 items"
        ),
    ]
    room: Annotated[str, Meta(description="The id of a room")]


class EdgeInsulation(Struct, kw_only=True):
    placement: Annotated[
        Literal["horizontal", "vertical"],
        Meta(description="horizontal (a strip below the floor's edge) or vertical (down the foundation)"),
    ]
    extent: Annotated[float, Meta(description="Width of the strip, or depth down the foundation [m]")]
    thickness: Annotated[float, Meta(description="Thickness of the insulation [m]")]
    thermal_conductivity: Annotated[
        float, Meta(description="Thermal conductivity of the insulation [W/(m.K)]")
    ]


class EdgeInsulationInput(Struct, kw_only=True):
    placement: Annotated[
        Literal["horizontal", "vertical"],
        Meta(description="horizontal (a strip below the floor's edge) or vertical (down the foundation)"),
    ]
    extent: Annotated[
        float,
        Meta(description="Width of the strip, or depth down the foundation [m]; at least 0.05; at most 10"),
    ]
    thickness: Annotated[
        float,
        Meta(description="Thickness of the insulation [m]; at least 0.001; at most 1"),
    ]
    thermal_conductivity: Annotated[
        float,
        Meta(description="Thermal conductivity of the insulation [W/(m.K)]; at least 0.01; at most 1"),
    ]


class EfficiencyPoint(Struct, kw_only=True):
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    coefficient_of_performance: Annotated[float, Meta(description="Heat given over electricity taken [1]")]


class EfficiencyPointInput(Struct, kw_only=True):
    supply_temperature: Annotated[
        float,
        Meta(description="Water temperature into the circuit [degC]; at least -10; at most 95"),
    ]
    coefficient_of_performance: Annotated[
        float,
        Meta(description="Heat given over electricity taken [1]; at least 0.5; at most 20"),
    ]


class Element(Struct, kw_only=True):
    surface: Annotated[
        Literal["ceiling", "door", "floor", "wall", "window"],
        Meta(
            description="wall, floor, ceiling (roofs too), window or door: decides the direction of heat flow"
        ),
    ]
    area: Annotated[float, Meta(description="Area of the element [m2]")]
    construction: Annotated[str, Meta(description="The id of a construction")] | None
    u_value: (
        Annotated[
            float,
            Meta(
                description="Thermal transmittance with both surface resistances; of a floor or wall on ground without the soil [W/(m2.K)]"
            ),
        ]
        | None
    )
    beyond: Annotated[
        Literal["adiabatic", "ground", "heated_neighbour", "outside", "room", "underfloor_space", "unheated"],
        Meta(
            description="What lies beyond: outside air, ground, the ventilated underfloor_space of a suspended floor, an unheated space, a heated_neighbour (at neighbour_temperature), another room of this request, or adiabatic (nothing is lost)"
        ),
    ]
    neighbour: Annotated[str, Meta(description="The id of the room or unheated space beyond")] | None
    neighbour_temperature: Annotated[float, Meta(description="Temperature beyond the element [degC]")] | None
    temperature_factor: (
        Annotated[
            float,
            Meta(
                description="Share of the difference between room and outside air that lies across an element to an unheated space (0.5 when nothing is known) or across a suspended floor (from the heat balance below it if not given) [1]"
            ),
        ]
        | None
    )
    thermal_bridge_supplement: (
        Annotated[
            float,
            Meta(
                description="Supplement for the thermal bridges of this element, in place of the general one [W/(m2.K)]"
            ),
        ]
        | None
    )
    name: Annotated[str, Meta(description="Name for people")]


class ElementInput(Struct, kw_only=True):
    surface: Annotated[
        Literal["ceiling", "door", "floor", "wall", "window"],
        Meta(
            description="wall, floor, ceiling (roofs too), window or door: decides the direction of heat flow"
        ),
    ]
    area: Annotated[
        float,
        Meta(description="Area of the element [m2]; at least 0.01; at most 10000"),
    ]
    construction: (
        Annotated[
            str, Meta(description="The id of a construction; at least 1 characters; at most 64 characters")
        ]
        | UnsetType
        | None
    ) = UNSET
    u_value: (
        Annotated[
            float,
            Meta(
                description="Thermal transmittance with both surface resistances; of a floor or wall on ground without the soil [W/(m2.K)]; at least 0.01; at most 20"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    beyond: Annotated[
        Literal["adiabatic", "ground", "heated_neighbour", "outside", "room", "underfloor_space", "unheated"],
        Meta(
            description="What lies beyond: outside air, ground, the ventilated underfloor_space of a suspended floor, an unheated space, a heated_neighbour (at neighbour_temperature), another room of this request, or adiabatic (nothing is lost) (default outside)"
        ),
    ] = "outside"
    neighbour: (
        Annotated[
            str,
            Meta(
                description="The id of the room or unheated space beyond; at least 1 characters; at most 64 characters"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    neighbour_temperature: (
        Annotated[float, Meta(description="Temperature beyond the element [degC]; at least -60; at most 60")]
        | UnsetType
        | None
    ) = UNSET
    temperature_factor: (
        Annotated[
            float,
            Meta(
                description="Share of the difference between room and outside air that lies across an element to an unheated space (0.5 when nothing is known) or across a suspended floor (from the heat balance below it if not given) [1]; at least 0; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    thermal_bridge_supplement: (
        Annotated[
            float,
            Meta(
                description="Supplement for the thermal bridges of this element, in place of the general one [W/(m2.K)]; at least 0; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class ElementLoss(Struct, kw_only=True):
    where: Annotated[
        str,
        Meta(description="JSON pointer (RFC 6901) to what the finding is about, into the document where_in"),
    ]
    name: Annotated[str, Meta(description="Name for people")]
    surface: Annotated[
        Literal["ceiling", "door", "floor", "wall", "window"],
        Meta(
            description="wall, floor, ceiling (roofs too), window or door: decides the direction of heat flow"
        ),
    ]
    beyond: Annotated[
        Literal["adiabatic", "ground", "heated_neighbour", "outside", "room", "underfloor_space", "unheated"],
        Meta(
            description="What lies beyond: outside air, ground, the ventilated underfloor_space of a suspended floor, an unheated space, a heated_neighbour (at neighbour_temperature), another room of this request, or adiabatic (nothing is lost)"
        ),
    ]
    neighbour: Annotated[str, Meta(description="The id of the room or unheated space beyond")] | None
    area: Annotated[float, Meta(description="Area of the element [m2]")]
    u_value: Annotated[
        float,
        Meta(description="Thermal transmittance as used, soil and thermal bridges included [W/(m2.K)]"),
    ]
    temperature_beyond: Annotated[float, Meta(description="Temperature beyond the element [degC]")]
    through_heated_floor: Annotated[
        bool,
        Meta(description="Whether this is lost through the heated floor and so not in the demand"),
    ]
    heat_loss: Annotated[
        float,
        Meta(description="Heat lost; of a room or building without that through heated floors [W]"),
    ]


class EnergyOfYear(Struct, kw_only=True):
    heating_energy: Annotated[float, Meta(description="Heat of a year [kWh]")]
    coefficient_of_performance: Annotated[float, Meta(description="Heat given over electricity taken [1]")]
    electricity: Annotated[float, Meta(description="Electricity of a year [kWh]")]
    yearly_cost: (
        Annotated[float, Meta(description="Price of the electricity of a year; null without its price [1]")]
        | None
    )
    cost_of_use: (
        Annotated[
            float,
            Meta(
                description="Material and all years of electricity, without interest; null without prices [1]"
            ),
        ]
        | None
    )


class EstimateRange(Struct, kw_only=True):
    low: Annotated[float, Meta(description="Low end of the range, in its unit [1]")]
    likely: Annotated[float, Meta(description="Likely value, in the unit of the range [1]")]
    high: Annotated[float, Meta(description="High end of the range, in its unit [1]")]
    unit: Annotated[
        str,
        Meta(description="Unit of low, likely and high; 1 for a pure number or for money"),
    ]
    basis: Annotated[str, Meta(description="What the range rests on")]


class EstimateRoom(Struct, kw_only=True):
    area: Annotated[float, Meta(description="Floor area [m2]")]
    use: Annotated[
        Literal["bathroom", "occupied"],
        Meta(
            description="occupied, or bathroom: its surface may be 9 K above the room, see also counts_for_supply"
        ),
    ]
    name: Annotated[str, Meta(description="Name for people")]


class EstimateRoomInput(Struct, kw_only=True):
    area: Annotated[float, Meta(description="Floor area [m2]; at least 0.05; at most 10000")]
    use: Annotated[
        Literal["bathroom", "occupied"],
        Meta(
            description="occupied, or bathroom: its surface may be 9 K above the room, see also counts_for_supply (default occupied)"
        ),
    ] = "occupied"
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class EstimatedMaterial(Struct, kw_only=True):
    item: Annotated[str, Meta(description="Id of the item, as in quantities")]
    name: Annotated[str, Meta(description="Name for people")]
    status: Annotated[
        Literal["due", "if_wanted", "needed"],
        Meta(
            description="needed; due: of joints that the rules ask for but nobody has decided on; if_wanted: where local practice asks"
        ),
    ]
    quantity: Annotated[EstimateRange, Meta(description="What to order, with waste and in whole packs")]
    waste_share: Annotated[float, Meta(description="Share of the quantity that is added for waste [1]")]
    pack_size: Annotated[float, Meta(description="Size of a pack, in the unit of the line [1]")] | None
    rule: Annotated[str, Meta(description="How the quantity is counted")]
    source: Annotated[str, Meta(description="Where the rule comes from")]
    unit_price: (
        Annotated[
            float,
            Meta(description="Price of one unit of the item, without tax, in the currency of the list [1]"),
        ]
        | None
    )
    cost: Annotated[EstimateRange, Meta(description="Cost in the currency of the price list")] | None


class Expansion(Struct, kw_only=True):
    additional_volume: Annotated[
        float,
        Meta(description="Fluid outside the circuits: in source, store and mains [m3]"),
    ]
    fill_temperature: Annotated[
        float,
        Meta(description="Temperature of the fluid when the system is filled [degC]"),
    ]
    maximum_temperature: (
        Annotated[float, Meta(description="Highest temperature that the fluid can reach [degC]")] | None
    )
    static_height: Annotated[
        float,
        Meta(description="Height of the system's highest point above the vessel [m]"),
    ]
    safety_valve_pressure: Annotated[
        float, Meta(description="Response pressure of the safety valve (gauge) [Pa]")
    ]
    precharge_pressure: (
        Annotated[float, Meta(description="Gas pressure of the empty vessel (gauge) [Pa]")] | None
    )
    expansion_ratio: (
        Annotated[
            float,
            Meta(
                description="Growth of the fluid from filling to the highest temperature, in place of what its density says [1]"
            ),
        ]
        | None
    )
    water_reserve: (
        Annotated[float, Meta(description="Water to keep in the cold vessel against losses; 0 for none [m3]")]
        | None
    )


class ExpansionInput(Struct, kw_only=True):
    additional_volume: Annotated[
        float,
        Meta(
            description="Fluid outside the circuits: in source, store and mains (default 0.0) [m3]; at least 0; at most 100"
        ),
    ] = 0.0
    fill_temperature: Annotated[
        float,
        Meta(
            description="Temperature of the fluid when the system is filled (default 10.0) [degC]; at least 0; at most 60"
        ),
    ] = 10.0
    maximum_temperature: (
        Annotated[
            float,
            Meta(description="Highest temperature that the fluid can reach [degC]; at least 5; at most 95"),
        ]
        | UnsetType
        | None
    ) = UNSET
    static_height: Annotated[
        float,
        Meta(
            description="Height of the system's highest point above the vessel (default 5.0) [m]; at least 0; at most 100"
        ),
    ] = 5.0
    safety_valve_pressure: Annotated[
        float,
        Meta(
            description="Response pressure of the safety valve (gauge) (default 300000.0) [Pa]; at least 50000; at most 1e+06"
        ),
    ] = 300000.0
    precharge_pressure: (
        Annotated[
            float,
            Meta(description="Gas pressure of the empty vessel (gauge) [Pa]; at least 10000; at most 1e+06"),
        ]
        | UnsetType
        | None
    ) = UNSET
    expansion_ratio: (
        Annotated[
            float,
            Meta(
                description="Growth of the fluid from filling to the highest temperature, in place of what its density says [1]; at least 0; at most 0.2"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    water_reserve: (
        Annotated[
            float,
            Meta(
                description="Water to keep in the cold vessel against losses; 0 for none [m3]; at least 0; at most 10"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class ExpansionVessel(Struct, kw_only=True):
    expansion_ratio: Annotated[
        float,
        Meta(description="Growth of the fluid's volume from filling to the highest temperature [1]"),
    ]
    expansion_volume: Annotated[float, Meta(description="Growth of the system's volume [m3]")]
    water_reserve: Annotated[float, Meta(description="Water kept in the cold vessel against losses [m3]")]
    precharge_pressure: Annotated[float, Meta(description="Gas pressure of the empty vessel (gauge) [Pa]")]
    final_pressure: Annotated[float, Meta(description="Pressure at the highest temperature (gauge) [Pa]")]
    minimum_volume: Annotated[float, Meta(description="Least volume of the vessel [m3]")]
    nominal_volume: Annotated[float, Meta(description="Next common size of vessel [m3]")] | None
    fill_pressure: (
        Annotated[float, Meta(description="Pressure to fill the cold system to (gauge) [Pa]")] | None
    )


class Factors(Struct, kw_only=True):
    system_coefficient: Annotated[
        float, Meta(description="B: coefficient of the system and its pipe [W/(m2.K)]")
    ]
    covering_factor: Annotated[float, Meta(description="a_B: factor of the floor covering [1]")]
    spacing_factor: Annotated[float, Meta(description="a_T: base of the factor of the pipe spacing [1]")]
    spacing_exponent: Annotated[
        float, Meta(description="m_T: exponent of the factor of the pipe spacing [1]")
    ]
    cover_factor: Annotated[float, Meta(description="a_U: base of the factor of the screed cover [1]")]
    cover_exponent: Annotated[float, Meta(description="m_U: exponent of the factor of the screed cover [1]")]
    diameter_factor: Annotated[float, Meta(description="a_D: base of the factor of the pipe diameter [1]")]
    diameter_exponent: Annotated[
        float, Meta(description="m_D: exponent of the factor of the pipe diameter [1]")
    ]
    limit_coefficient: Annotated[float, Meta(description="B_G: coefficient of the limit curve [W/m2]")]
    limit_exponent: Annotated[float, Meta(description="n_G: exponent of the limit curve [1]")]
    surface_factor: Annotated[
        float,
        Meta(description="phi: permitted surface excess over 9 K, to the power 1.1 [1]"),
    ]
    wide_spacing_factor: Annotated[
        float,
        Meta(description="f_G: limit curve at spacings beyond 0.375 m; 1 up to there [1]"),
    ]


class FillingStep(Struct, kw_only=True):
    number: Annotated[int, Meta(description="Number of the step [1]")]
    action: Annotated[str, Meta(description="What is done")]


class FilmRoll(Struct, kw_only=True):
    width: Annotated[float, Meta(description="Width of the film [m]")]
    length: Annotated[float, Meta(description="Length of a roll of film [m]")]
    lap: Annotated[float, Meta(description="Least lap of neighbouring sheets [m]")]
    upturn: (
        Annotated[
            float,
            Meta(description="Film turned up at the edges; the thickness of the screed if not given [m]"),
        ]
        | None
    )


class FilmRollInput(Struct, kw_only=True):
    width: Annotated[
        float,
        Meta(description="Width of the film (default 2.0) [m]; at least 0.2; at most 20"),
    ] = 2.0
    length: Annotated[
        float,
        Meta(description="Length of a roll of film (default 50.0) [m]; at least 1; at most 500"),
    ] = 50.0
    lap: Annotated[
        float,
        Meta(description="Least lap of neighbouring sheets (default 0.08) [m]; at least 0; at most 1"),
    ] = 0.08
    upturn: (
        Annotated[
            float,
            Meta(
                description="Film turned up at the edges; the thickness of the screed if not given [m]; at least 0; at most 0.5"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class FilmSheet(Struct, kw_only=True):
    start: Annotated[
        tuple[float, float],
        Meta(description="Where it starts, x and y [m]; at least 2 items; at most 2 items"),
    ]
    end: Annotated[
        tuple[float, float],
        Meta(description="Where it ends, x and y [m]; at least 2 items; at most 2 items"),
    ]
    width: Annotated[float, Meta(description="Width of the film [m]")]


class FindingChange(Struct, kw_only=True):
    code: Annotated[str, Meta(description="Code that stays the same from release to release")]
    change: Annotated[
        Literal["gone", "new", "places", "severity"],
        Meta(
            description="new; gone; severity: another severity; places: it holds for other rooms or circuits"
        ),
    ]
    former_severity: (
        Annotated[
            Literal["note", "violation", "warning"],
            Meta(description="Its severity before; null where it is new"),
        ]
        | None
    )
    severity: (
        Annotated[
            Literal["note", "violation", "warning"],
            Meta(description="Its severity now; null where it is gone"),
        ]
        | None
    )
    where: Annotated[
        str,
        Meta(description="JSON pointer (RFC 6901) to what the finding is about, into the document where_in"),
    ]
    subjects: Annotated[list[str], Meta(description="Rooms and circuits that it is new or gone for")]
    message: Annotated[str, Meta(description="The same in words")]


class FindingEntry(Struct, kw_only=True):
    """
    One kind of finding.
    """

    code: Annotated[str, Meta(description="Stable code of the finding")]
    severities: Annotated[
        list[Literal["note", "violation", "warning"]],
        Meta(description="How serious it can be, the most serious first"),
    ]
    stage: Annotated[
        str,
        Meta(description="Stage of the work that it belongs to; stages come in their order"),
    ]
    meaning: Annotated[str, Meta(description="What happens and why it matters")]
    cause: Annotated[str, Meta(description="What it usually comes from")]
    remedy: Annotated[str, Meta(description="What to do")]
    calculations: Annotated[list[str], Meta(description="Names of the calculations that can report it")]
    guard: Annotated[
        bool,
        Meta(
            description="Whether it only watches over the engine's own work: no request is known that gives it"
        ),
    ]


class FindingExample(Struct, kw_only=True):
    """
    A request to send with POST, and what its answer reports.
    """

    codes: Annotated[list[str], Meta(description="Codes of findings that the answer holds")]
    path: Annotated[str, Meta(description="Path to send it to, with its query string")]
    media_type: Annotated[str, Meta(description="Media type of the body")]
    body: Annotated[
        dict[str, Any] | str,
        Meta(description="The body: an object to send as JSON, or the text of a file"),
    ]


Point1: TypeAlias = Annotated[
    tuple[float, float],
    Meta(description="x and y [m]; at least 2 items; at most 2 items"),
]


class FindingPlace(Struct, kw_only=True):
    where: Annotated[
        str,
        Meta(description="JSON pointer (RFC 6901) to what the finding is about, into the document where_in"),
    ]
    where_in: Annotated[
        Literal["answer", "request"],
        Meta(
            description="request: your request, or where you left the field out the inputs of the answer; answer: the answer"
        ),
    ]
    subject: Annotated[
        str,
        Meta(description="The room, circuit or other thing concerned, as people call it"),
    ]
    message: Annotated[str, Meta(description="The same in words")]
    value: Annotated[float, Meta(description="The value concerned, in the unit of its quantity [1]")] | None
    limit: Annotated[float, Meta(description="The limit concerned, in the unit of its quantity [1]")] | None
    point: Annotated[Point1, Meta(description="x and y [m]; at least 2 items; at most 2 items")] | None


class Fluid(Struct, kw_only=True):
    kind: Annotated[
        Literal["ethylene_glycol", "propylene_glycol", "water"],
        Meta(description="Water, or which glycol in water"),
    ]
    concentration: Annotated[
        float,
        Meta(description="Fraction of glycol: by mass 0 to 0.6, by volume 0.1 to 0.6; 0 with water [1]"),
    ]
    basis: Annotated[
        Literal["mass", "volume"],
        Meta(description="Whether the concentration is a fraction by mass or by volume"),
    ]


class FluidInput(Struct, kw_only=True):
    kind: Annotated[
        Literal["ethylene_glycol", "propylene_glycol", "water"],
        Meta(description="Water, or which glycol in water (default water)"),
    ] = "water"
    concentration: Annotated[
        float,
        Meta(
            description="Fraction of glycol: by mass 0 to 0.6, by volume 0.1 to 0.6; 0 with water (default 0.0) [1]; at least 0; at most 0.6"
        ),
    ] = 0.0
    basis: Annotated[
        Literal["mass", "volume"],
        Meta(description="Whether the concentration is a fraction by mass or by volume (default volume)"),
    ] = "volume"


class Flushing(Struct, kw_only=True):
    velocity: Annotated[float, Meta(description="Velocity at which air is carried along [m/s]")]
    exchanges: Annotated[int, Meta(description="How often the water of a circuit is replaced [1]")]
    water_temperature: Annotated[float, Meta(description="Temperature of the water for flushing [degC]")]


class FlushingInput(Struct, kw_only=True):
    velocity: Annotated[
        float,
        Meta(
            description="Velocity at which air is carried along (default 0.6) [m/s]; at least 0.1; at most 3"
        ),
    ] = 0.6
    exchanges: Annotated[
        int,
        Meta(
            description="How often the water of a circuit is replaced (default 3) [1]; at least 1; at most 20"
        ),
    ] = 3
    water_temperature: Annotated[
        float,
        Meta(
            description="Temperature of the water for flushing (default 10.0) [degC]; at least 1; at most 40"
        ),
    ] = 10.0


class FlushingRow(Struct, kw_only=True):
    circuit: Annotated[str, Meta(description="The id of a circuit")]
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    port: Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]")] | None
    volume_flow: Annotated[
        float,
        Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]"),
    ]
    velocity: Annotated[float, Meta(description="Mean velocity in the bore [m/s]")]
    flushing_time: Annotated[float, Meta(description="Time to flush the circuit [s]")]
    water_volume: Annotated[float, Meta(description="Water for all exchanges [m3]")]
    pressure_drop: Annotated[
        float,
        Meta(description="Pressure drop of the pipe with its bends, by Churchill [Pa]"),
    ]


class FormField(Struct, kw_only=True):
    label: Annotated[str, Meta(description="What the field is for")]
    unit: Annotated[str, Meta(description="Unit of the value, in SI")]
    design_value: (
        Annotated[float, Meta(description="Value of the design, in the unit of the field [1]")] | None
    )
    design_text: Annotated[str, Meta(description="Words of the design")]


class FormerCircuit(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    room: Annotated[str, Meta(description="The id of a room")]
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    port: Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]")] | None
    field_length: Annotated[float, Meta(description="Pipe in the heated field, without the tails [m]")] | None
    total_length: Annotated[float, Meta(description="Field and both tails of a circuit [m]")] | None
    volume_flow: (
        Annotated[float, Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]")] | None
    )
    total_pressure_drop: (
        Annotated[float, Meta(description="Pressure drop of pipe, flow meter and set valve [Pa]")] | None
    )
    valve_kv: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the presetting valve as set: m3/h of water at a drop of 1 bar [m3/h]"
            ),
        ]
        | None
    )
    valve_setting: Annotated[float, Meta(description="Setting on the valve's own scale [1]")] | None


class FormerCircuitInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    room: Annotated[
        str,
        Meta(description="The id of a room; at least 0 characters; at most 64 characters"),
    ]
    manifold: Annotated[
        str,
        Meta(description="The id of a manifold (default 1); at least 1 characters; at most 64 characters"),
    ] = "1"
    port: (
        Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]; at least 1; at most 256")]
        | UnsetType
        | None
    ) = UNSET
    field_length: (
        Annotated[
            float,
            Meta(description="Pipe in the heated field, without the tails [m]; at least 0; at most 20000"),
        ]
        | UnsetType
        | None
    ) = UNSET
    total_length: (
        Annotated[float, Meta(description="Field and both tails of a circuit [m]; at least 0; at most 20000")]
        | UnsetType
        | None
    ) = UNSET
    volume_flow: (
        Annotated[
            float,
            Meta(
                description="Volume flow of the fluid; what a flow meter shows [m3/s]; at least 1e-09; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    total_pressure_drop: (
        Annotated[
            float,
            Meta(
                description="Pressure drop of pipe, flow meter and set valve [Pa]; at least 0; at most 1e+12"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    valve_kv: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the presetting valve as set: m3/h of water at a drop of 1 bar [m3/h]; at least 0.001; at most 100"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    valve_setting: (
        Annotated[float, Meta(description="Setting on the valve's own scale [1]; at least 0; at most 1000")]
        | UnsetType
        | None
    ) = UNSET


class FormerDates(Struct, kw_only=True):
    earliest_heating: (
        Annotated[date_aliased, Meta(description="First day on which heating may start, in 1990 to 2199")]
        | None
    )
    earliest_covering: (
        Annotated[
            date_aliased,
            Meta(
                description="First day for which the covering can be planned; only a moisture measurement releases the floor, in 1990 to 2199"
            ),
        ]
        | None
    )


class FormerDatesInput(Struct, kw_only=True):
    earliest_heating: (
        Annotated[date_aliased, Meta(description="First day on which heating may start, in 1990 to 2199")]
        | UnsetType
        | None
    ) = UNSET
    earliest_covering: (
        Annotated[
            date_aliased,
            Meta(
                description="First day for which the covering can be planned; only a moisture measurement releases the floor, in 1990 to 2199"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class FormerManifold(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    position: Annotated[
        tuple[float, float],
        Meta(description="Where the manifold stands, x and y [m]; at least 2 items; at most 2 items"),
    ]


class FormerManifoldInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    position: Annotated[
        tuple[float, float],
        Meta(description="Where the manifold stands, x and y [m]; at least 2 items; at most 2 items"),
    ]


class FormerPlace(Struct, kw_only=True):
    where: Annotated[
        str,
        Meta(description="JSON pointer (RFC 6901) to what the finding is about, into the document where_in"),
    ]
    subject: Annotated[
        str,
        Meta(description="The room, circuit or other thing concerned, as people call it"),
    ]


class FormerPlaceInput(Struct, kw_only=True):
    where: Annotated[
        str,
        Meta(
            description="JSON pointer (RFC 6901) to what the finding is about, into the document where_in; at least 0 characters; at most 400 characters"
        ),
    ] = ""
    subject: Annotated[
        str,
        Meta(
            description="The room, circuit or other thing concerned, as people call it; at least 0 characters; at most 400 characters"
        ),
    ] = ""


class FormerPlan(Struct, kw_only=True):
    build_up: Annotated[str, Meta(description="The id of the room's build-up")]
    plan: Annotated[FormerDates, Meta(description="The days that others wait for")]


class FormerPlanInput(Struct, kw_only=True):
    build_up: Annotated[
        str,
        Meta(description="The id of the room's build-up; at least 1 characters; at most 64 characters"),
    ]
    plan: Annotated[FormerDatesInput, Meta(description="The days that others wait for")] = field(
        default_factory=lambda: convert(
            {"earliest_heating": None, "earliest_covering": None}, type=FormerDatesInput
        )
    )


class FormerPump(Struct, kw_only=True):
    volume_flow: (
        Annotated[float, Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]")] | None
    )
    pressure: (
        Annotated[float, Meta(description="Pressure of the pump, with the upper bound of friction [Pa]")]
        | None
    )


class FormerPumpInput(Struct, kw_only=True):
    volume_flow: (
        Annotated[
            float,
            Meta(
                description="Volume flow of the fluid; what a flow meter shows [m3/s]; at least 1e-09; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    pressure: (
        Annotated[
            float,
            Meta(
                description="Pressure of the pump, with the upper bound of friction [Pa]; at least 0; at most 1e+12"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class FormerQuantity(Struct, kw_only=True):
    item: Annotated[str, Meta(description="Id of the item, as in quantities")]
    name: Annotated[str, Meta(description="Name for people")]
    unit: Annotated[
        str,
        Meta(
            description="Unit of net_quantity, order_quantity and pack_size: m, m2, m3, kg, or 1 for pieces"
        ),
    ]
    order_quantity: Annotated[
        float,
        Meta(description="Quantity to order with waste, in the unit of the line [1]"),
    ]


class FormerQuantityInput(Struct, kw_only=True):
    item: Annotated[
        str,
        Meta(description="Id of the item, as in quantities; at least 1 characters; at most 120 characters"),
    ]
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ]
    unit: Annotated[
        str,
        Meta(
            description="Unit of net_quantity, order_quantity and pack_size: m, m2, m3, kg, or 1 for pieces; at least 0 characters; at most 8 characters"
        ),
    ] = ""
    order_quantity: Annotated[
        float,
        Meta(
            description="Quantity to order with waste, in the unit of the line (default 0.0) [1]; at least 0; at most 1e+09"
        ),
    ] = 0.0


class FoundLayer(Struct, kw_only=True):
    name: Annotated[str, Meta(description="Name for people")]
    use: Annotated[
        str,
        Meta(description="What the layer was used for: rooms, names, doorways; empty: nothing"),
    ]
    outline_count: Annotated[int, Meta(description="Closed outlines on it [1]")]
    open_line_count: Annotated[int, Meta(description="Open lines on it [1]")]
    text_count: Annotated[int, Meta(description="Texts on it [1]")]
    block_count: Annotated[int, Meta(description="Blocks on it [1]")]
    other_count: Annotated[int, Meta(description="All else on it [1]")]


class FoundRoom(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    storey: Annotated[str, Meta(description="The id of a storey")]
    area: Annotated[float, Meta(description="Area of the outline, 0 where there is none [m2]")]
    state: Annotated[
        Literal["left_out", "not_asked_for", "not_heated", "taken"],
        Meta(description="taken into the request, not_heated, not_asked_for or left_out"),
    ]
    reason: Annotated[str, Meta(description="Why the room is not in the request; empty where it is")]
    element: Annotated[
        str,
        Meta(description="Element of the file; empty where nothing in the file says it"),
    ]
    file_line: Annotated[int, Meta(description="Line of the file; null where it has none [1]")] | None


class FoundStorey(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    level: Annotated[float, Meta(description="Height of the storey's floor [m]")] | None
    room_count: Annotated[int, Meta(description="Number of its rooms in the file [1]")]
    taken: Annotated[bool, Meta(description="Whether rooms of the storey are in the request")]


class FrostProtection(Struct, kw_only=True):
    freezing_point: Annotated[float, Meta(description="Freezing point of the fluid [degC]")]
    frost_margin: Annotated[float, Meta(description="Frost temperature minus freezing point [K]")]
    required_concentration: (
        Annotated[
            float, Meta(description="Lowest concentration that protects down to the frost temperature [1]")
        ]
        | None
    )
    glycol_volume: (
        Annotated[float, Meta(description="Glycol in the system at the concentration as used [m3]")] | None
    )


class Ground(Struct, kw_only=True):
    thermal_conductivity: Annotated[
        float,
        Meta(
            description="Thermal conductivity of the soil: clay or silt 1.5, sand or gravel 2, rock 3.5 [W/(m.K)]"
        ),
    ]
    wall_thickness: Annotated[float, Meta(description="Thickness of the walls that stand on the ground [m]")]
    floor_area: (
        Annotated[
            float,
            Meta(
                description="Area of the building's whole floor on the ground; that of the rooms if not given [m2]"
            ),
        ]
        | None
    )
    exposed_perimeter: (
        Annotated[
            float,
            Meta(
                description="Length of its edge towards outside or unheated spaces; from the outlines if not given [m]"
            ),
        ]
        | None
    )
    edge_insulation: (
        Annotated[EdgeInsulation, Meta(description="Insulation along the edge of a floor on the ground")]
        | None
    )
    groundwater_depth: (
        Annotated[float, Meta(description="How deep below the floor the groundwater stands [m]")] | None
    )


class GroundContact(Struct, kw_only=True):
    floor_area: Annotated[
        float,
        Meta(
            description="Area of the building's whole floor on the ground; that of the rooms if not given [m2]"
        ),
    ]
    exposed_perimeter: Annotated[
        float,
        Meta(
            description="Length of its edge towards outside or unheated spaces; from the outlines if not given [m]"
        ),
    ]
    depth_below_ground: Annotated[
        float,
        Meta(description="How deep the room's floor lies below the ground outside [m]"),
    ]
    base_u_value: Annotated[
        float,
        Meta(description="Thermal transmittance of the base from air to air, without soil [W/(m2.K)]"),
    ]
    wall_u_value: Annotated[
        float,
        Meta(
            description="Thermal transmittance of the space's walls from air to air, without soil [W/(m2.K)]"
        ),
    ]


class GroundContactInput(Struct, kw_only=True):
    floor_area: Annotated[
        float,
        Meta(
            description="Area of the building's whole floor on the ground; that of the rooms if not given [m2]; at least 0.05; at most 100000"
        ),
    ]
    exposed_perimeter: Annotated[
        float,
        Meta(
            description="Length of its edge towards outside or unheated spaces; from the outlines if not given [m]; at least 0.01; at most 10000"
        ),
    ]
    depth_below_ground: Annotated[
        float,
        Meta(
            description="How deep the room's floor lies below the ground outside [m]; at least 0; at most 20"
        ),
    ]
    base_u_value: Annotated[
        float,
        Meta(
            description="Thermal transmittance of the base from air to air, without soil [W/(m2.K)]; at least 0.01; at most 20"
        ),
    ]
    wall_u_value: Annotated[
        float,
        Meta(
            description="Thermal transmittance of the space's walls from air to air, without soil [W/(m2.K)]; at least 0.01; at most 20"
        ),
    ]


class GroundFloor(Struct, kw_only=True):
    floor_area: Annotated[
        float,
        Meta(
            description="Area of the building's whole floor on the ground; that of the rooms if not given [m2]"
        ),
    ]
    exposed_perimeter: Annotated[
        float,
        Meta(
            description="Length of its edge towards outside or unheated spaces; from the outlines if not given [m]"
        ),
    ]
    characteristic_dimension: Annotated[
        float,
        Meta(description="B': floor area divided by half its exposed perimeter [m]"),
    ]


class GroundInput(Struct, kw_only=True):
    thermal_conductivity: Annotated[
        float,
        Meta(
            description="Thermal conductivity of the soil: clay or silt 1.5, sand or gravel 2, rock 3.5 (default 2.0) [W/(m.K)]; at least 0.1; at most 10"
        ),
    ] = 2.0
    wall_thickness: Annotated[
        float,
        Meta(
            description="Thickness of the walls that stand on the ground (default 0.3) [m]; at least 0; at most 3"
        ),
    ] = 0.3
    floor_area: (
        Annotated[
            float,
            Meta(
                description="Area of the building's whole floor on the ground; that of the rooms if not given [m2]; at least 0.05; at most 100000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    exposed_perimeter: (
        Annotated[
            float,
            Meta(
                description="Length of its edge towards outside or unheated spaces; from the outlines if not given [m]; at least 0.01; at most 10000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    edge_insulation: (
        Annotated[EdgeInsulationInput, Meta(description="Insulation along the edge of a floor on the ground")]
        | UnsetType
        | None
    ) = UNSET
    groundwater_depth: (
        Annotated[
            float,
            Meta(description="How deep below the floor the groundwater stands [m]; at least 0; at most 100"),
        ]
        | UnsetType
        | None
    ) = UNSET


class Health(Struct, kw_only=True):
    """
    State of the service.
    """

    status: Annotated[str, Meta(description="live or ready")]


class HeatPump(Struct, kw_only=True):
    efficiency: Annotated[
        list[EfficiencyPoint],
        Meta(description="Heat over electricity by supply temperature, coldest first"),
    ]
    heating_energy: Annotated[float, Meta(description="Heat of a year [kWh]")] | None
    electricity_price: Annotated[float, Meta(description="Price of 1 kWh of electricity [1/kWh]")] | None
    years: Annotated[float, Meta(description="Years over which an option is used [1]")]
    heating_hours: (
        Annotated[
            float,
            Meta(
                description="Hours of the whole demand that come to the heat of a year, in place of that heat [h]"
            ),
        ]
        | None
    )


class HeatPumpInput(Struct, kw_only=True):
    efficiency: Annotated[
        list[EfficiencyPointInput],
        Meta(
            description="Heat over electricity by supply temperature, coldest first; at least 1 items; at most 24 items"
        ),
    ]
    heating_energy: (
        Annotated[float, Meta(description="Heat of a year [kWh]; at least 1; at most 1e+07")]
        | UnsetType
        | None
    ) = UNSET
    electricity_price: (
        Annotated[float, Meta(description="Price of 1 kWh of electricity [1/kWh]; at least 0; at most 100")]
        | UnsetType
        | None
    ) = UNSET
    years: Annotated[
        float,
        Meta(description="Years over which an option is used (default 20.0) [1]; at least 0; at most 100"),
    ] = 20.0
    heating_hours: (
        Annotated[
            float,
            Meta(
                description="Hours of the whole demand that come to the heat of a year, in place of that heat [h]; at least 1; at most 8784"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class HeatSource(Struct, kw_only=True):
    maximum_supply_temperature: Annotated[
        float, Meta(description="Highest supply temperature of the design [degC]")
    ]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")] | None
    temperature_drop: Annotated[float, Meta(description="Supply minus return temperature of the water [K]")]
    primary_temperature: (
        Annotated[float, Meta(description="Temperature that the source delivers to the mixing set [degC]")]
        | None
    )


class HeatSourceInput(Struct, kw_only=True):
    maximum_supply_temperature: Annotated[
        float,
        Meta(
            description="Highest supply temperature of the design (default 45.0) [degC]; at least 20; at most 90"
        ),
    ] = 45.0
    supply_temperature: (
        Annotated[
            float, Meta(description="Water temperature into the circuit [degC]; at least -10; at most 95")
        ]
        | UnsetType
        | None
    ) = UNSET
    temperature_drop: Annotated[
        float,
        Meta(
            description="Supply minus return temperature of the water (default 5.0) [K]; at least 0.5; at most 30"
        ),
    ] = 5.0
    primary_temperature: (
        Annotated[
            float,
            Meta(
                description="Temperature that the source delivers to the mixing set [degC]; at least -10; at most 95"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class HeatUpRow(Struct, kw_only=True):
    date: Annotated[date_aliased, Meta(description="Calendar date, in 1990 to 2199")]
    day: Annotated[int, Meta(description="Days since the pour [d]")]
    stage: Annotated[
        Literal[
            "covering",
            "curing",
            "drying",
            "first_heat_up",
            "heating_off",
            "maturity_heating",
            "moisture_test",
            "pour",
            "waiting",
        ],
        Meta(description="Stage of the plan"),
    ]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]


class HeatingCurve(Struct, kw_only=True):
    basis_room: Annotated[str, Meta(description="The id of a room")]
    basis_temperature: Annotated[
        float, Meta(description="Temperature of the room that the curve is for [degC]")
    ]
    design_outside_temperature: Annotated[float, Meta(description="Outside temperature of the design [degC]")]
    design_supply_temperature: Annotated[float, Meta(description="Supply at that outside temperature [degC]")]
    exponent: Annotated[
        float,
        Meta(
            description="Exponent of the heat over the excess temperature: 1 for floors after EN 1264-2 [1]"
        ),
    ]
    slope: Annotated[
        float,
        Meta(description="Kelvin of supply over the room for each kelvin outside below it [1]"),
    ]


class HydraulicsLimits(Struct, kw_only=True):
    advised_pressure_drop: Annotated[
        float,
        Meta(description="Pressure drop of a circuit with open valve above which there is a warning [Pa]"),
    ]
    maximum_pressure_drop: Annotated[
        float,
        Meta(description="Highest pressure drop of a circuit with open valve [Pa]"),
    ]
    maximum_valve_pressure_drop: Annotated[
        float,
        Meta(description="Drop of a presetting valve above which it may be heard [Pa]"),
    ]
    minimum_velocity: Annotated[
        float, Meta(description="Velocity below which air is not carried along [m/s]")
    ]
    advised_velocity: Annotated[float, Meta(description="Velocity above which there is a warning [m/s]")]
    maximum_velocity: Annotated[float, Meta(description="Highest velocity [m/s]")]
    advised_length: (
        Annotated[
            float,
            Meta(
                description="Circuit length above which there is a warning; by size of pipe if not given [m]"
            ),
        ]
        | None
    )
    maximum_length: (
        Annotated[float, Meta(description="Highest circuit length; by size of pipe if not given [m]")] | None
    )
    minimum_meter_flow: Annotated[float, Meta(description="Least flow that the flow meter shows [m3/s]")]
    maximum_meter_flow: Annotated[float, Meta(description="Highest flow that the flow meter shows [m3/s]")]
    maximum_circuits: Annotated[int, Meta(description="Most circuits on one manifold [1]")]
    supply_temperature_limit: Annotated[
        float,
        Meta(description="Highest water temperature that the screed can bear [degC]"),
    ]


class HydraulicsLimitsInput(Struct, kw_only=True):
    advised_pressure_drop: Annotated[
        float,
        Meta(
            description="Pressure drop of a circuit with open valve above which there is a warning (default 20000.0) [Pa]; at least 0; at most 1e+06"
        ),
    ] = 20000.0
    maximum_pressure_drop: Annotated[
        float,
        Meta(
            description="Highest pressure drop of a circuit with open valve (default 30000.0) [Pa]; at least 0; at most 1e+06"
        ),
    ] = 30000.0
    maximum_valve_pressure_drop: Annotated[
        float,
        Meta(
            description="Drop of a presetting valve above which it may be heard (default 25000.0) [Pa]; at least 0; at most 1e+06"
        ),
    ] = 25000.0
    minimum_velocity: Annotated[
        float,
        Meta(
            description="Velocity below which air is not carried along (default 0.25) [m/s]; at least 0; at most 10"
        ),
    ] = 0.25
    advised_velocity: Annotated[
        float,
        Meta(
            description="Velocity above which there is a warning (default 0.6) [m/s]; at least 0; at most 10"
        ),
    ] = 0.6
    maximum_velocity: Annotated[
        float,
        Meta(description="Highest velocity (default 1.0) [m/s]; at least 0; at most 10"),
    ] = 1.0
    advised_length: (
        Annotated[
            float,
            Meta(
                description="Circuit length above which there is a warning; by size of pipe if not given [m]; at least 1; at most 1000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    maximum_length: (
        Annotated[
            float,
            Meta(
                description="Highest circuit length; by size of pipe if not given [m]; at least 1; at most 1000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    minimum_meter_flow: Annotated[
        float,
        Meta(
            description="Least flow that the flow meter shows (default 8.333333333333334e-6) [m3/s]; at least 0; at most 0.01"
        ),
    ] = 8.333333333333334e-06
    maximum_meter_flow: Annotated[
        float,
        Meta(
            description="Highest flow that the flow meter shows (default 0.00008333333333333333) [m3/s]; at least 0; at most 0.01"
        ),
    ] = 8.333333333333333e-05
    maximum_circuits: Annotated[
        int,
        Meta(description="Most circuits on one manifold (default 12) [1]; at least 1; at most 200"),
    ] = 12
    supply_temperature_limit: Annotated[
        float,
        Meta(
            description="Highest water temperature that the screed can bear (default 55.0) [degC]; at least 10; at most 95"
        ),
    ] = 55.0


class ImportedPart(Struct, kw_only=True):
    where: Annotated[str, Meta(description="JSON pointer (RFC 6901) into request of this answer")]
    message: Annotated[str, Meta(description="The same in words")]
    element: Annotated[
        str,
        Meta(description="Element of the file; empty where nothing in the file says it"),
    ]
    file_line: Annotated[int, Meta(description="Line of the file; null where it has none [1]")] | None


class InsulationLayer(Struct, kw_only=True):
    thickness: Annotated[float, Meta(description="Thickness of the layer [m]")] | None
    board: Annotated[BoardSize, Meta(description="Size of this layer's boards; none: that of all")] | None
    name: Annotated[str, Meta(description="Name for people")]


class InsulationLayerInput(Struct, kw_only=True):
    thickness: (
        Annotated[float, Meta(description="Thickness of the layer [m]; at least 0.0001; at most 5")]
        | UnsetType
        | None
    ) = UNSET
    board: (
        Annotated[BoardSizeInput, Meta(description="Size of this layer's boards; none: that of all")]
        | UnsetType
        | None
    ) = UNSET
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class JointMovement(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    room: Annotated[str, Meta(description="The id of a room")]
    movement: Annotated[float, Meta(description="How far both edges move against each other [m]")]
    allowed_movement: Annotated[float, Meta(description="What an edge strip of usual thickness takes [m]")]


class JointSpan(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    lengths: Annotated[
        list[float],
        Meta(
            description="Lengths of the two fields beside the joint, square to it; 0 for a side without heated screed [m]"
        ),
    ]
    room: Annotated[str, Meta(description="The id of a room")]


class JointSpanInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    lengths: Annotated[
        list[float],
        Meta(
            description="Lengths of the two fields beside the joint, square to it; 0 for a side without heated screed [m]; at least 2 items; at most 2 items"
        ),
    ]
    room: Annotated[
        str,
        Meta(description="The id of a room; at least 0 characters; at most 64 characters"),
    ] = ""


class JudgedReading(Struct, kw_only=True):
    point: Annotated[str, Meta(description="Name of the test point")]
    method: Annotated[
        Literal["carbide", "relative_humidity"],
        Meta(description="carbide, or relative_humidity under a sealed hygrometer"),
    ]
    moisture: Annotated[
        float,
        Meta(description="Moisture: carbide method [kg/kg], or relative humidity [1]"),
    ]
    highest: Annotated[
        float,
        Meta(description="Moisture: carbide method [kg/kg], or relative humidity [1]"),
    ]
    margin: Annotated[float, Meta(description="Limit less reading [1]")]
    passed: Annotated[bool, Meta(description="Whether it is dry enough to be covered")]


class LaidSpacing(Struct, kw_only=True):
    place: Annotated[
        tuple[float, float],
        Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items"),
    ]
    area: Annotated[float, Meta(description="Floor area [m2]")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    pipe_count: Annotated[int, Meta(description="Pipes side by side across this part of the floor [1]")]
    reason: Annotated[str, Meta(description="Why it was chosen or not")]


class Layer(Struct, kw_only=True):
    thickness: Annotated[float, Meta(description="Thickness of the layer [m]")] | None
    thermal_conductivity: (
        Annotated[float, Meta(description="Design thermal conductivity of the layer [W/(m.K)]")] | None
    )
    thermal_resistance: (
        Annotated[
            float,
            Meta(
                description="Thermal resistance of the layer, in place of thickness and conductivity [m2.K/W]"
            ),
        ]
        | None
    )
    bridge_share: Annotated[
        float,
        Meta(
            description="Share of the layer's area that studs, joists, rafters or mortar joints take up [1]"
        ),
    ]
    bridge_conductivity: (
        Annotated[float, Meta(description="Thermal conductivity of what bridges the layer [W/(m.K)]")] | None
    )
    name: Annotated[str, Meta(description="Name for people")]


class LayerInput(Struct, kw_only=True):
    thickness: (
        Annotated[float, Meta(description="Thickness of the layer [m]; at least 0.0001; at most 5")]
        | UnsetType
        | None
    ) = UNSET
    thermal_conductivity: (
        Annotated[
            float,
            Meta(
                description="Design thermal conductivity of the layer [W/(m.K)]; at least 0.001; at most 500"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    thermal_resistance: (
        Annotated[
            float,
            Meta(
                description="Thermal resistance of the layer, in place of thickness and conductivity [m2.K/W]; at least 0.001; at most 50"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    bridge_share: Annotated[
        float,
        Meta(
            description="Share of the layer's area that studs, joists, rafters or mortar joints take up (default 0.0) [1]; at least 0; at most 0.95"
        ),
    ] = 0.0
    bridge_conductivity: (
        Annotated[
            float,
            Meta(
                description="Thermal conductivity of what bridges the layer [W/(m.K)]; at least 0.001; at most 500"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class LayingRoom(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    outline: Annotated[
        list[OutlineItem],
        Meta(description="Corners of the outline in order, without repeating the first [m]"),
    ]
    voids: Annotated[list[list[Void]], Meta(description="Rings of areas that stay free of pipe [m]")]
    storey: Annotated[str, Meta(description="The id of a storey")] | None
    name: Annotated[str, Meta(description="Name for people")]


class LayingRoomInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    outline: Annotated[
        list[OutlineItem],
        Meta(
            description="Corners of the outline in order, without repeating the first [m]; at least 3 items; at most 256 items"
        ),
    ]
    voids: Annotated[
        list[list[Void]],
        Meta(description="Rings of areas that stay free of pipe [m]; at least 0 items; at most 32 items"),
    ] = field(default_factory=list)
    storey: (
        Annotated[str, Meta(description="The id of a storey; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class LayingStep(Struct, kw_only=True):
    number: Annotated[int, Meta(description="Number of the step [1]")]
    kind: Annotated[Literal["straight", "turn"], Meta(description="straight or turn")]
    mark: Annotated[float, Meta(description="Metre from the port at which the step begins [m]")]
    coil_mark: (
        Annotated[float, Meta(description="Metre mark of the coil at which the step begins [m]")] | None
    )
    step_length: Annotated[float, Meta(description="Pipe in the step [m]")]
    start: Annotated[
        tuple[float, float],
        Meta(description="Where it starts, x and y [m]; at least 2 items; at most 2 items"),
    ]
    end: Annotated[
        tuple[float, float],
        Meta(description="Where it ends, x and y [m]; at least 2 items; at most 2 items"),
    ]
    from_datum: Annotated[
        tuple[float, float],
        Meta(
            description="Where the step begins, along and across the datum's direction [m] [m]; at least 2 items; at most 2 items"
        ),
    ]
    heading: Annotated[
        float,
        Meta(
            description="Direction of travel where the step begins, counter-clockwise from the x axis [deg]"
        ),
    ]
    hand: (
        Annotated[
            Literal["left", "right"],
            Meta(description="To which side the turn goes: left or right; none for a straight"),
        ]
        | None
    )
    angle: Annotated[float, Meta(description="Angle of the turn [deg]")] | None
    radius: Annotated[float, Meta(description="Radius of the arc [m]")] | None
    room: Annotated[str, Meta(description="The id of a room")]
    part: Annotated[
        Literal["core", "flow", "return", "tail"],
        Meta(
            description="tail: on the way to the room or back; flow: inwards; core: the turn there; return: the way back"
        ),
    ]
    fixings: Annotated[int, Meta(description="Fixings on the step, that at its end not counted [1]")]


class LeakTest(Struct, kw_only=True):
    medium: Annotated[
        Literal["air", "water"],
        Meta(description="Water, or compressed air where frost forbids water"),
    ]
    operating_pressure: (
        Annotated[float, Meta(description="Highest pressure in operation (gauge) [Pa]")] | None
    )
    component_rating: Annotated[
        float,
        Meta(description="Least rating of pipe, fittings and manifold (gauge) [Pa]"),
    ]
    test_pressure: (
        Annotated[float, Meta(description="Test pressure (gauge); by the standard if not given [Pa]")] | None
    )
    duration: Annotated[float, Meta(description="Duration of the test [s]")]
    test_temperature: Annotated[
        float,
        Meta(description="Temperature of pipe and medium when the test begins [degC]"),
    ]
    temperature_change: Annotated[
        float,
        Meta(description="Change of temperature during the test that is looked at [K]"),
    ]
    trapped_air: Annotated[
        float,
        Meta(description="Air left in the circuits at the test, over their volume [1]"),
    ]


class LeakTestEdition(Struct, kw_only=True):
    edition: Annotated[str, Meta(description="Document and edition")]
    medium: Annotated[
        Literal["air", "water"],
        Meta(description="Water, or compressed air where frost forbids water"),
    ]
    lowest_pressure: Annotated[float, Meta(description="Lowest test pressure (gauge) [Pa]")]
    highest_pressure: Annotated[float, Meta(description="Highest test pressure (gauge) [Pa]")]
    duration: Annotated[float, Meta(description="Duration of the test [s]")] | None
    note: Annotated[str, Meta(description="What the text adds")]
    source: Annotated[str, Meta(description="Document, edition and clause, or a named trade practice")]


class LeakTestInput(Struct, kw_only=True):
    medium: Annotated[
        Literal["air", "water"],
        Meta(description="Water, or compressed air where frost forbids water (default water)"),
    ] = "water"
    operating_pressure: (
        Annotated[
            float,
            Meta(description="Highest pressure in operation (gauge) [Pa]; at least 10000; at most 1e+06"),
        ]
        | UnsetType
        | None
    ) = UNSET
    component_rating: Annotated[
        float,
        Meta(
            description="Least rating of pipe, fittings and manifold (gauge) (default 600000.0) [Pa]; at least 50000; at most 2e+06"
        ),
    ] = 600000.0
    test_pressure: (
        Annotated[
            float,
            Meta(
                description="Test pressure (gauge); by the standard if not given [Pa]; at least 10000; at most 1.6e+06"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    duration: Annotated[
        float,
        Meta(description="Duration of the test (default 86400.0) [s]; at least 600; at most 2.592e+06"),
    ] = 86400.0
    test_temperature: Annotated[
        float,
        Meta(
            description="Temperature of pipe and medium when the test begins (default 15.0) [degC]; at least 1; at most 40"
        ),
    ] = 15.0
    temperature_change: Annotated[
        float,
        Meta(
            description="Change of temperature during the test that is looked at (default 5.0) [K]; at least -30; at most 30"
        ),
    ] = 5.0
    trapped_air: Annotated[
        float,
        Meta(
            description="Air left in the circuits at the test, over their volume (default 0.005) [1]; at least 0; at most 0.5"
        ),
    ] = 0.005


class LeakTestStep(Struct, kw_only=True):
    after: Annotated[float, Meta(description="Time since the pressure was first reached [s]")]
    action: Annotated[str, Meta(description="What is done")]
    pressure: Annotated[
        float,
        Meta(description="What the gauge shows in a tight system at the same temperature [Pa]"),
    ]


class LengthLimit(Struct, kw_only=True):
    """
    Length of a list or text in requests.
    """

    name: Annotated[str, Meta(description="Name of the field")]
    minimum: Annotated[int, Meta(description="Least number of items or characters")]
    maximum: Annotated[int, Meta(description="Greatest number of items or characters")]
    description: Annotated[str, Meta(description="Meaning of the field")]


class LocalLimit(Struct, kw_only=True):
    resistance: (
        Annotated[float, Meta(description="Least thermal resistance that local rules ask for [m2.K/W]")]
        | None
    )
    u_value: (
        Annotated[
            float, Meta(description="Highest U-value that local rules permit for the whole floor [W/(m2.K)]")
        ]
        | None
    )
    counts: Annotated[
        Literal["insulation", "whole_floor"],
        Meta(
            description="Whether the local resistance is meant for the insulation alone or for the whole_floor"
        ),
    ]
    name: Annotated[str, Meta(description="Name for people")]


class LocalLimitInput(Struct, kw_only=True):
    resistance: (
        Annotated[
            float,
            Meta(
                description="Least thermal resistance that local rules ask for [m2.K/W]; at least 0.01; at most 30"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    u_value: (
        Annotated[
            float,
            Meta(
                description="Highest U-value that local rules permit for the whole floor [W/(m2.K)]; at least 0.03; at most 10"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    counts: Annotated[
        Literal["insulation", "whole_floor"],
        Meta(
            description="Whether the local resistance is meant for the insulation alone or for the whole_floor (default insulation)"
        ),
    ] = "insulation"
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class LoopCircuit(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    area: Annotated[float, Meta(description="Floor area [m2]")]
    field_length: Annotated[float, Meta(description="Pipe in the heated field, without the tails [m]")]
    total_length: Annotated[float, Meta(description="Field and both tails of a circuit [m]")]
    tail_length: Annotated[
        float,
        Meta(description="Both ways between manifold and field, flow and return together [m]"),
    ]


class MakerRules(Struct, kw_only=True):
    earliest_heating_days: Annotated[int, Meta(description="Days from the pour to the earliest heating [d]")]
    start_days: Annotated[int, Meta(description="Days at the start temperature [d]")]
    temperature_step: (
        Annotated[float, Meta(description="Largest rise of the supply temperature from day to day [K]")]
        | None
    )
    hold_days: Annotated[int, Meta(description="Days at the highest supply temperature [d]")]
    cooling_step: (
        Annotated[float, Meta(description="Largest fall of the supply temperature from day to day [K]")]
        | None
    )
    curing_days: Annotated[
        int,
        Meta(description="Days of curing: protected from drying, draught and frost [d]"),
    ]


class MakerRulesInput(Struct, kw_only=True):
    earliest_heating_days: Annotated[
        int,
        Meta(description="Days from the pour to the earliest heating [d]; at least 1; at most 120"),
    ]
    start_days: Annotated[
        int,
        Meta(description="Days at the start temperature (default 3) [d]; at least 1; at most 30"),
    ] = 3
    temperature_step: (
        Annotated[
            float,
            Meta(
                description="Largest rise of the supply temperature from day to day [K]; at least 0.5; at most 40"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    hold_days: Annotated[
        int,
        Meta(description="Days at the highest supply temperature (default 4) [d]; at least 1; at most 60"),
    ] = 4
    cooling_step: (
        Annotated[
            float,
            Meta(
                description="Largest fall of the supply temperature from day to day [K]; at least 0.5; at most 40"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    curing_days: Annotated[
        int,
        Meta(
            description="Days of curing: protected from drying, draught and frost (default 3) [d]; at least 1; at most 60"
        ),
    ] = 3


Position: TypeAlias = Annotated[
    tuple[float, float],
    Meta(description="Where the manifold stands, x and y [m]; at least 2 items; at most 2 items"),
]


class ManifoldDesign(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    room_ids: Annotated[list[str], Meta(description="The ids of the rooms that it serves")]
    circuit_count: Annotated[int, Meta(description="Number of its circuits [1]")]
    heat_flow: Annotated[
        float,
        Meta(description="Heat that the water gives, to the room and downwards [W]"),
    ]
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")]
    volume_flow: Annotated[
        float,
        Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]"),
    ]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    index_circuit: Annotated[
        str,
        Meta(description="Identifier of the circuit that decides the pump; its valve stays open"),
    ]
    manifold_pressure: Annotated[
        float, Meta(description="Pressure across the balanced manifold's circuits [Pa]")
    ]
    balancing_pressure_drop: Annotated[
        float,
        Meta(
            description="Pressure drop of the balancing valve before the manifold, so that each manifold gets its flow from the common pump [Pa]"
        ),
    ]
    balancing_kv: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient to which that valve is set: m3/h of water at a drop of 1 bar [m3/h]"
            ),
        ]
        | None
    )


class ManifoldParts(Struct, kw_only=True):
    actuators: Annotated[bool, Meta(description="Whether every circuit gets an actuator")]
    port_pitch: Annotated[float, Meta(description="Distance between the ports of a manifold [m]")]
    end_length: Annotated[
        float,
        Meta(description="Width that valves and vents at both ends take in the cabinet [m]"),
    ]
    cabinet_widths: Annotated[list[float], Meta(description="Widths of cabinets to choose from [m]")]


class ManifoldPartsInput(Struct, kw_only=True):
    actuators: Annotated[
        bool,
        Meta(description="Whether every circuit gets an actuator (default true)"),
    ] = True
    port_pitch: Annotated[
        float,
        Meta(
            description="Distance between the ports of a manifold (default 0.05) [m]; at least 0.02; at most 0.2"
        ),
    ] = 0.05
    end_length: Annotated[
        float,
        Meta(
            description="Width that valves and vents at both ends take in the cabinet (default 0.25) [m]; at least 0; at most 2"
        ),
    ] = 0.25
    cabinet_widths: Annotated[
        list[float],
        Meta(description="Widths of cabinets to choose from [m]; at least 1 items; at most 40 items"),
    ] = field(default_factory=lambda: [0.45, 0.6, 0.75, 0.9, 1.05, 1.2, 1.5])


class ManifoldPorts(Struct, kw_only=True):
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    circuit_count: Annotated[int, Meta(description="Number of its circuits [1]")]


class ManifoldRoom(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    outline: Annotated[
        list[OutlineItem],
        Meta(description="Corners of the outline in order, without repeating the first [m]"),
    ]
    voids: Annotated[list[list[Void]], Meta(description="Rings of areas that stay free of pipe [m]")]
    circuits: Annotated[
        int,
        Meta(description="Circuits of the room; 0 for one that pipes only pass [1]"),
    ]


class ManifoldRoomInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    outline: Annotated[
        list[OutlineItem],
        Meta(
            description="Corners of the outline in order, without repeating the first [m]; at least 3 items; at most 256 items"
        ),
    ]
    voids: Annotated[
        list[list[Void]],
        Meta(description="Rings of areas that stay free of pipe [m]; at least 0 items; at most 32 items"),
    ] = field(default_factory=list)
    circuits: Annotated[
        int,
        Meta(
            description="Circuits of the room; 0 for one that pipes only pass (default 1) [1]; at least 0; at most 24"
        ),
    ] = 1


Opening: TypeAlias = tuple[float, float]


class MaterialArea(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    build_up: Annotated[str, Meta(description="The id of the room's build-up")]
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(description="Corners of the outline in order, without repeating the first [m]"),
        ]
        | None
    )
    voids: Annotated[list[list[Void]], Meta(description="Rings of areas that stay free of pipe [m]")]
    area: Annotated[float, Meta(description="Floor area [m2]")] | None
    openings: Annotated[
        list[list[Opening]],
        Meta(description="Doorways, each by both jambs on the outline [m]"),
    ]
    wall_length: (
        Annotated[
            float, Meta(description="Wall along which edge strip runs; from the outline if not given [m]")
        ]
        | None
    )
    storey: Annotated[str, Meta(description="The id of a storey")] | None
    name: Annotated[str, Meta(description="Name for people")]


class MaterialAreaInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    build_up: Annotated[
        str,
        Meta(description="The id of the room's build-up; at least 1 characters; at most 64 characters"),
    ]
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(
                description="Corners of the outline in order, without repeating the first [m]; at least 3 items; at most 256 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    voids: Annotated[
        list[list[Void]],
        Meta(description="Rings of areas that stay free of pipe [m]; at least 0 items; at most 32 items"),
    ] = field(default_factory=list)
    area: (
        Annotated[float, Meta(description="Floor area [m2]; at least 0.05; at most 10000")] | UnsetType | None
    ) = UNSET
    openings: Annotated[
        list[list[Opening]],
        Meta(
            description="Doorways, each by both jambs on the outline [m]; at least 0 items; at most 32 items"
        ),
    ] = field(default_factory=list)
    wall_length: (
        Annotated[
            float,
            Meta(
                description="Wall along which edge strip runs; from the outline if not given [m]; at least 0; at most 5000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    storey: (
        Annotated[str, Meta(description="The id of a storey; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class MaterialBuildUp(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    screed_thickness: Annotated[
        float,
        Meta(description="Whole thickness of the screed on the insulation, pipe included [m]"),
    ]
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    insulation: (
        Annotated[
            list[InsulationLayer],
            Meta(description="Layers of insulation boards from below; empty: the floor has none"),
        ]
        | None
    )
    covering_thickness: Annotated[float, Meta(description="Thickness of the covering with its bed [m]")]


class MaterialBuildUpInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    screed_thickness: Annotated[
        float,
        Meta(
            description="Whole thickness of the screed on the insulation, pipe included [m]; at least 0.01; at most 0.2"
        ),
    ]
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560) (default cement)"
        ),
    ] = "cement"
    insulation: (
        Annotated[
            list[InsulationLayerInput],
            Meta(
                description="Layers of insulation boards from below; empty: the floor has none; at least 0 items; at most 6 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    covering_thickness: Annotated[
        float,
        Meta(
            description="Thickness of the covering with its bed (default 0.02) [m]; at least 0; at most 0.2"
        ),
    ] = 0.02


LineItem: TypeAlias = tuple[float, float]


class MaterialJoint(Struct, kw_only=True):
    line: Annotated[list[LineItem], Meta(description="Points of a movement joint in order [m]")] | None
    length: Annotated[float, Meta(description="Length of the joint [m]")] | None
    sleeves: (
        Annotated[int, Meta(description="Pipes that pass the joint; those drawn over it if not given [1]")]
        | None
    )
    due: Annotated[
        bool,
        Meta(description="Whether the joint is due by the rules but not decided on yet"),
    ]
    storey: Annotated[str, Meta(description="The id of a storey")] | None


class MaterialJointInput(Struct, kw_only=True):
    line: (
        Annotated[
            list[LineItem],
            Meta(description="Points of a movement joint in order [m]; at least 2 items; at most 64 items"),
        ]
        | UnsetType
        | None
    ) = UNSET
    length: (
        Annotated[float, Meta(description="Length of the joint [m]; at least 0; at most 1000")]
        | UnsetType
        | None
    ) = UNSET
    sleeves: (
        Annotated[
            int,
            Meta(
                description="Pipes that pass the joint; those drawn over it if not given [1]; at least 0; at most 1000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    due: Annotated[
        bool,
        Meta(description="Whether the joint is due by the rules but not decided on yet (default false)"),
    ] = False
    storey: (
        Annotated[str, Meta(description="The id of a storey; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET


class MaterialManifold(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    balancing_valve: Annotated[
        bool,
        Meta(description="Whether a balancing valve is needed before the manifold"),
    ]


class MaterialManifoldInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(
            description="The caller's own name for this item (default 1); at least 1 characters; at most 64 characters"
        ),
    ] = "1"
    balancing_valve: Annotated[
        bool,
        Meta(description="Whether a balancing valve is needed before the manifold (default false)"),
    ] = False


class MaterialOverride(Struct, kw_only=True):
    item: Annotated[str, Meta(description="Id of the item, as in quantities")]
    net_quantity: (
        Annotated[
            float, Meta(description="Quantity before waste, in the item's unit; the rule's if not given [1]")
        ]
        | None
    )
    waste_share: (
        Annotated[float, Meta(description="Share of the quantity that is added for waste [1]")] | None
    )
    pack_size: (
        Annotated[float, Meta(description="Size of a pack in the item's unit; the rule's if not given [1]")]
        | None
    )


class MaterialOverrideInput(Struct, kw_only=True):
    item: Annotated[
        str,
        Meta(description="Id of the item, as in quantities; at least 1 characters; at most 120 characters"),
    ]
    net_quantity: (
        Annotated[
            float,
            Meta(
                description="Quantity before waste, in the item's unit; the rule's if not given [1]; at least 0; at most 1e+06"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    waste_share: (
        Annotated[
            float,
            Meta(description="Share of the quantity that is added for waste [1]; at least 0; at most 10"),
        ]
        | UnsetType
        | None
    ) = UNSET
    pack_size: (
        Annotated[
            float,
            Meta(
                description="Size of a pack in the item's unit; the rule's if not given [1]; at least 1e-06; at most 1e+06"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class MaterialQuantity(Struct, kw_only=True):
    item: Annotated[str, Meta(description="Id of the item, as in quantities")]
    name: Annotated[str, Meta(description="Name for people")]
    status: Annotated[
        Literal["due", "if_wanted", "needed"],
        Meta(
            description="needed; due: of joints that the rules ask for but nobody has decided on; if_wanted: where local practice asks"
        ),
    ]
    unit: Annotated[
        str,
        Meta(
            description="Unit of net_quantity, order_quantity and pack_size: m, m2, m3, kg, or 1 for pieces"
        ),
    ]
    net_quantity: Annotated[float, Meta(description="Quantity without waste, in the unit of the line [1]")]
    waste_share: Annotated[float, Meta(description="Share of the quantity that is added for waste [1]")]
    pack_size: Annotated[float, Meta(description="Size of a pack, in the unit of the line [1]")] | None
    packs: Annotated[int, Meta(description="Whole packs to order [1]")] | None
    order_quantity: Annotated[
        float,
        Meta(description="Quantity to order with waste, in the unit of the line [1]"),
    ]
    rule: Annotated[str, Meta(description="How the quantity is counted")]
    source: Annotated[str, Meta(description="Where the rule comes from")]
    unit_price: (
        Annotated[
            float,
            Meta(description="Price of one unit of the item, without tax, in the currency of the list [1]"),
        ]
        | None
    )
    cost: Annotated[float, Meta(description="Cost of the line in the currency of the price list [1]")] | None


class Mixing(Struct, kw_only=True):
    primary_share: Annotated[
        float,
        Meta(description="Flow from the source divided by the flow through the manifold [1]"),
    ]
    recirculated_share: Annotated[
        float,
        Meta(description="Return water mixed in, divided by the flow through the manifold [1]"),
    ]
    primary_mass_flow: Annotated[float, Meta(description="Mass flow from the source [kg/s]")]
    primary_volume_flow: Annotated[
        float,
        Meta(description="Volume flow from the source, at primary temperature [m3/s]"),
    ]


class MoistureLimit(Struct, kw_only=True):
    carbide_moisture: Annotated[
        float,
        Meta(description="Moisture by the carbide method (1.8 CM-% is 0.018) [kg/kg]"),
    ]
    relative_humidity: Annotated[
        float,
        Meta(description="Equilibrium relative humidity under a sealed hygrometer [1]"),
    ]


class MoistureLimitRow(Struct, kw_only=True):
    rule: Annotated[str, Meta(description="The rule")]
    method: Annotated[
        Literal["carbide", "relative_humidity"],
        Meta(description="carbide, or relative_humidity under a sealed hygrometer"),
    ]
    moisture: Annotated[
        float,
        Meta(description="Moisture: carbide method [kg/kg], or relative humidity [1]"),
    ]
    applied: Annotated[bool, Meta(description="Whether readings are judged by it")]
    source: Annotated[str, Meta(description="Document, edition and clause, or a named trade practice")]


class MoistureRow(Struct, kw_only=True):
    screed: Annotated[str, Meta(description="Name of the screed, or its number")]
    room: Annotated[str, Meta(description="The id of a room")]
    area_number: Annotated[int, Meta(description="Number of the floor in room_areas [1]")]
    point_number: Annotated[int, Meta(description="Number of the test point in its floor [1]")]
    carbide_moisture: Annotated[
        float,
        Meta(description="Moisture by the carbide method (1.8 CM-% is 0.018) [kg/kg]"),
    ]
    relative_humidity: Annotated[
        float,
        Meta(description="Equilibrium relative humidity under a sealed hygrometer [1]"),
    ]


class NumberLimit(Struct, kw_only=True):
    """
    Range of a number in requests.
    """

    name: Annotated[str, Meta(description="Name of the field")]
    unit: Annotated[str, Meta(description="Unit of the number and of its bounds")]
    minimum: Annotated[float, Meta(description="Least value that is accepted")]
    maximum: Annotated[float, Meta(description="Greatest value that is accepted")]
    description: Annotated[str, Meta(description="Meaning of the field")]


class ObjectiveOutcome(Struct, kw_only=True):
    least: Annotated[
        Literal["cost_of_use", "material", "pump_power", "supply_temperature"],
        Meta(
            description="supply_temperature; material: pipe, or its price with prices; pump_power; cost_of_use: material and the electricity of all years"
        ),
    ]
    taken: Annotated[
        Literal["best", "rule"],
        Meta(
            description="best: the best house by area, designed completely; rule: that by the rule is no worse"
        ),
    ]
    value: Annotated[
        float,
        Meta(description="What was to be least, in degC, m, W or the currency [1]"),
    ]
    value_by_rule: Annotated[float, Meta(description="The same of the house by the rule [1]")]
    beside_rule: Annotated[
        BesideNeighbour,
        Meta(
            description="What the house takes more or less than the one by the rule, both designed completely"
        ),
    ]
    design_drop: Annotated[float, Meta(description="Temperature drop of the governing room [K]")]
    pump_stage: (
        Annotated[
            int,
            Meta(
                description="Number of the pump's setting in the request; null: none does, or none is given [1]"
            ),
        ]
        | None
    )
    proven: Annotated[
        bool,
        Meta(
            description="Whether by area no other choice of spacings, circuits and manifolds is better, on any supply from which on a room can have another spacing"
        ),
    ]
    gap: (
        Annotated[
            float,
            Meta(
                description="Share by which one could be better on the supplies looked at; null where no bound is known [1]"
            ),
        ]
        | None
    )
    solver: Annotated[
        str,
        Meta(description="What solved them, with its version; empty where none was needed"),
    ]


class OpenFlow(Struct, kw_only=True):
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")]
    flow_ratio: Annotated[float, Meta(description="Flow divided by the design flow [1]")]
    temperature_drop: Annotated[float, Meta(description="Supply minus return temperature of the water [K]")]


class OpenValves(Struct, kw_only=True):
    same_flow_pressure: Annotated[
        float,
        Meta(description="Pressure that drives the design flow in total, valves open [Pa]"),
    ]
    same_pressure_mass_flow: Annotated[
        float,
        Meta(description="Total flow at the balanced pressure, valves open [kg/s]"),
    ]


class Opening2(Struct, kw_only=True):
    u_value: Annotated[
        float,
        Meta(
            description="Thermal transmittance with both surface resistances; of a floor or wall on ground without the soil [W/(m2.K)]"
        ),
    ]
    surface: Annotated[
        Literal["door", "window"],
        Meta(
            description="wall, floor, ceiling (roofs too), window or door: decides the direction of heat flow"
        ),
    ]
    width: Annotated[float, Meta(description="Width of the opening [m]")] | None
    height: Annotated[float, Meta(description="Height of the opening [m]")] | None
    area: Annotated[float, Meta(description="Area of the element [m2]")] | None
    name: Annotated[str, Meta(description="Name for people")]


class OpeningInput(Struct, kw_only=True):
    u_value: Annotated[
        float,
        Meta(
            description="Thermal transmittance with both surface resistances; of a floor or wall on ground without the soil [W/(m2.K)]; at least 0.01; at most 20"
        ),
    ]
    surface: Annotated[
        Literal["door", "window"],
        Meta(
            description="wall, floor, ceiling (roofs too), window or door: decides the direction of heat flow (default window)"
        ),
    ] = "window"
    width: (
        Annotated[float, Meta(description="Width of the opening [m]; at least 0.05; at most 50")]
        | UnsetType
        | None
    ) = UNSET
    height: (
        Annotated[float, Meta(description="Height of the opening [m]; at least 0.05; at most 20")]
        | UnsetType
        | None
    ) = UNSET
    area: (
        Annotated[float, Meta(description="Area of the element [m2]; at least 0.01; at most 10000")]
        | UnsetType
        | None
    ) = UNSET
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


ValueItem: TypeAlias = tuple[float, float]


class Operation(Struct, kw_only=True):
    """
    One operation of a JSON Patch (RFC 6902).
    """

    op: Annotated[
        Literal["remove", "replace"],
        Meta(description="What to do with the value at the path"),
    ]
    path: Annotated[str, Meta(description="JSON pointer (RFC 6901) into the request")]
    value: (
        Annotated[
            list[ValueItem],
            Meta(
                description="In place of what is there: the points of an outline [m]; missing where one is removed"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class OptionCoils(Struct, kw_only=True):
    to_buy: Annotated[
        list[CoilOrder],
        Meta(description="How many coils of each length are bought, the longest first"),
    ]
    bought_length: Annotated[float, Meta(description="Length of all coils to buy [m]")]
    coils_price: Annotated[float, Meta(description="Price of these coils [1]")]


class OptionPrices(Struct, kw_only=True):
    pipe: Annotated[float, Meta(description="Price of 1 m of pipe, laid [1/m]")]
    circuit: Annotated[
        float,
        Meta(description="Price of a circuit with its ports, valve and connections [1]"),
    ]
    currency: Annotated[str, Meta(description="Currency of the prices")]
    coils: Annotated[
        list[CoilPrice],
        Meta(description="Coils that are bought whole; none: pipe is bought by the metre"),
    ]


class OptionPricesInput(Struct, kw_only=True):
    pipe: Annotated[
        float,
        Meta(description="Price of 1 m of pipe, laid (default 0.0) [1/m]; at least 0; at most 10000"),
    ] = 0.0
    circuit: Annotated[
        float,
        Meta(
            description="Price of a circuit with its ports, valve and connections (default 0.0) [1]; at least 0; at most 100000"
        ),
    ] = 0.0
    currency: Annotated[
        str,
        Meta(
            description="Currency of the prices (default EUR); at least 1 characters; at most 12 characters"
        ),
    ] = "EUR"
    coils: Annotated[
        list[CoilPriceInput],
        Meta(
            description="Coils that are bought whole; none: pipe is bought by the metre; at least 0 items; at most 12 items"
        ),
    ] = field(default_factory=list)


class OutputByMethod(Struct, kw_only=True):
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    heat_transmittance: Annotated[
        float,
        Meta(description="Heat output per kelvin of mean excess temperature [W/(m2.K)]"),
    ]
    downward_heat_loss: Annotated[float, Meta(description="Heat lost downwards per floor area [W/m2]")]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    highest_surface_temperature: (
        Annotated[float, Meta(description="Highest floor surface temperature [degC]")] | None
    )
    limit_heat_output: Annotated[
        float,
        Meta(description="Heat output at which the surface limit is reached [W/m2]"),
    ]
    limit_excess_temperature: Annotated[
        float, Meta(description="Mean excess temperature at the limit heat output [K]")
    ]


Centre: TypeAlias = Annotated[
    tuple[float, float],
    Meta(description="Centre of the arc, x and y [m]; at least 2 items; at most 2 items"),
]


class PathPiece(Struct, kw_only=True):
    kind: Annotated[Literal["arc", "line"], Meta(description="line or arc")]
    start: Annotated[
        tuple[float, float],
        Meta(description="Where it starts, x and y [m]; at least 2 items; at most 2 items"),
    ]
    end: Annotated[
        tuple[float, float],
        Meta(description="Where it ends, x and y [m]; at least 2 items; at most 2 items"),
    ]
    centre: (
        Annotated[
            Centre, Meta(description="Centre of the arc, x and y [m]; at least 2 items; at most 2 items")
        ]
        | None
    )
    radius: Annotated[float, Meta(description="Radius of the arc [m]")] | None
    sweep: (
        Annotated[
            float, Meta(description="Angle that the arc turns by, counter-clockwise when positive [rad]")
        ]
        | None
    )


class PathPieceInput(Struct, kw_only=True):
    kind: Annotated[Literal["arc", "line"], Meta(description="line or arc")]
    start: Annotated[
        tuple[float, float],
        Meta(description="Where it starts, x and y [m]; at least 2 items; at most 2 items"),
    ]
    end: Annotated[
        tuple[float, float],
        Meta(description="Where it ends, x and y [m]; at least 2 items; at most 2 items"),
    ]
    centre: (
        Annotated[
            Centre, Meta(description="Centre of the arc, x and y [m]; at least 2 items; at most 2 items")
        ]
        | UnsetType
        | None
    ) = UNSET
    radius: (
        Annotated[float, Meta(description="Radius of the arc [m]; at least 0.001; at most 1000")]
        | UnsetType
        | None
    ) = UNSET
    sweep: (
        Annotated[
            float,
            Meta(
                description="Angle that the arc turns by, counter-clockwise when positive [rad]; at least -6.28319; at most 6.28319"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class PatternOption(Struct, kw_only=True):
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
        ),
    ]
    rooms: Annotated[
        list[str],
        Meta(description="The ids of the rooms that may have it; none named: all"),
    ]
    price: Annotated[
        float,
        Meta(
            description="Price of 1 m2 above that of the room's own pattern, in the currency of the prices [1/m2]"
        ),
    ]


class PatternOptionInput(Struct, kw_only=True):
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
        ),
    ]
    rooms: Annotated[
        list[str],
        Meta(
            description="The ids of the rooms that may have it; none named: all; at least 0 items; at most 64 items"
        ),
    ] = field(default_factory=list)
    price: Annotated[
        float,
        Meta(
            description="Price of 1 m2 above that of the room's own pattern, in the currency of the prices (default 0.0) [1/m2]; at least 0; at most 10000"
        ),
    ] = 0.0


class PeripheralArea(Struct, kw_only=True):
    edges: Annotated[
        list[int],
        Meta(description="Walls of the outline: 0 runs from its first corner to its second, and so on [1]"),
    ]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    width: Annotated[float, Meta(description="Width of the strip along the outside walls [m]")]
    own_circuit: Annotated[
        bool,
        Meta(description="Whether the strip is a circuit of its own, which comes in at second_entry"),
    ]


class PeripheralAreaInput(Struct, kw_only=True):
    edges: Annotated[
        list[int],
        Meta(
            description="Walls of the outline: 0 runs from its first corner to its second, and so on [1]; at least 1 items; at most 256 items"
        ),
    ]
    pipe_spacing: Annotated[
        float,
        Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6"),
    ]
    width: Annotated[
        float,
        Meta(
            description="Width of the strip along the outside walls (default 1.0) [m]; at least 0.1; at most 3"
        ),
    ] = 1.0
    own_circuit: Annotated[
        bool,
        Meta(
            description="Whether the strip is a circuit of its own, which comes in at second_entry (default false)"
        ),
    ] = False


class PeripheralStrip(Struct, kw_only=True):
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    width: Annotated[float, Meta(description="Width of the strip along the outside walls [m]")]
    edges: Annotated[
        list[int],
        Meta(
            description="Outside walls along which the strip runs: 0 from the outline's first corner to its second, and so on [1]"
        ),
    ]
    length: Annotated[float, Meta(description="Length of the strip in a room without an outline [m]")] | None


class PeripheralStripInput(Struct, kw_only=True):
    pipe_spacing: Annotated[
        float,
        Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6"),
    ]
    width: Annotated[
        float,
        Meta(
            description="Width of the strip along the outside walls (default 1.0) [m]; at least 0.1; at most 3"
        ),
    ] = 1.0
    edges: Annotated[
        list[int],
        Meta(
            description="Outside walls along which the strip runs: 0 from the outline's first corner to its second, and so on [1]; at least 0 items; at most 256 items"
        ),
    ] = field(default_factory=list)
    length: (
        Annotated[
            float,
            Meta(
                description="Length of the strip in a room without an outline [m]; at least 0.1; at most 500"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class Pipe(Struct, kw_only=True):
    outside_diameter: Annotated[float, Meta(description="Outside diameter of the pipe, without a sheath [m]")]
    wall_thickness: Annotated[float, Meta(description="Wall thickness of the pipe [m]")]
    thermal_conductivity: Annotated[float, Meta(description="Thermal conductivity [W/(m.K)]")]
    sheath_diameter: (
        Annotated[float, Meta(description="Outside diameter of a sheath round the pipe [m]")] | None
    )
    sheath_conductivity: (
        Annotated[float, Meta(description="Thermal conductivity of the sheath [W/(m.K)]")] | None
    )
    roughness: Annotated[float, Meta(description="Absolute roughness of the bore [m]")]
    minimum_bend_radius: (
        Annotated[float, Meta(description="Smallest permitted bend radius of the pipe's centre line [m]")]
        | None
    )


class PipeInput(Struct, kw_only=True):
    outside_diameter: Annotated[
        float,
        Meta(description="Outside diameter of the pipe, without a sheath [m]; at least 0.008; at most 0.032"),
    ]
    wall_thickness: Annotated[
        float,
        Meta(description="Wall thickness of the pipe [m]; at least 0.0005; at most 0.006"),
    ]
    thermal_conductivity: Annotated[
        float,
        Meta(description="Thermal conductivity (default 0.35) [W/(m.K)]; at least 0.05; at most 500"),
    ] = 0.35
    sheath_diameter: (
        Annotated[
            float,
            Meta(description="Outside diameter of a sheath round the pipe [m]; at least 0.008; at most 0.05"),
        ]
        | UnsetType
        | None
    ) = UNSET
    sheath_conductivity: (
        Annotated[
            float,
            Meta(description="Thermal conductivity of the sheath [W/(m.K)]; at least 0.02; at most 500"),
        ]
        | UnsetType
        | None
    ) = UNSET
    roughness: Annotated[
        float,
        Meta(description="Absolute roughness of the bore (default 7e-6) [m]; at least 0; at most 0.0005"),
    ] = 7e-06
    minimum_bend_radius: (
        Annotated[
            float,
            Meta(
                description="Smallest permitted bend radius of the pipe's centre line [m]; at least 0.02; at most 0.5"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class PlanDoorway(Struct, kw_only=True):
    rooms: Annotated[list[str], Meta(description="The ids of the two rooms that the doorway joins")]
    place: Annotated[
        tuple[float, float],
        Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items"),
    ]
    width: Annotated[float, Meta(description="Clear width of the doorway [m]")]


class PlanDoorwayInput(Struct, kw_only=True):
    rooms: Annotated[
        list[str],
        Meta(
            description="The ids of the two rooms that the doorway joins; at least 2 items; at most 2 items"
        ),
    ]
    place: Annotated[
        tuple[float, float],
        Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items"),
    ]
    width: Annotated[
        float,
        Meta(description="Clear width of the doorway (default 0.8) [m]; at least 0.3; at most 10"),
    ] = 0.8


class PlanImportsInputs(Struct, kw_only=True):
    length_unit: (
        Annotated[
            Literal["cm", "dm", "ft", "in", "km", "m", "mi", "mm", "yd"],
            Meta(description="Unit of the file's lengths, in place of the one that it names"),
        ]
        | None
    )
    snap_tolerance: Annotated[float, Meta(description="Gaps and overlaps of the drawing that are closed [m]")]
    thickest_wall: Annotated[
        float,
        Meta(description="Rooms that face each other over no more have a wall in common [m]"),
    ]
    room_layer: Annotated[str, Meta(description="A layer of the drawing")] | None
    name_layer: Annotated[str, Meta(description="A layer of the drawing")] | None
    doorway_layer: Annotated[str, Meta(description="A layer of the drawing")] | None
    find_doorways: Annotated[
        bool,
        Meta(description="Whether rooms that no doorway of the file reaches get one to a neighbour"),
    ]
    doorway_width: Annotated[float, Meta(description="Clear width of the doorway [m]")]
    external_temperature: (
        Annotated[float, Meta(description="Design temperature of the outside air [degC]")] | None
    )
    annual_mean_temperature: (
        Annotated[float, Meta(description="Mean temperature of the outside air over a year [degC]")] | None
    )
    storeys: Annotated[
        list[str],
        Meta(description="Ids of the storeys to take; all where there are none"),
    ]


class PlannedCoil(Struct, kw_only=True):
    coil: Annotated[
        str,
        Meta(description="Number of the coil in the order in which they are opened"),
    ]
    length: Annotated[float, Meta(description="Length of a coil of pipe [m]")]
    in_stock: Annotated[bool, Meta(description="Whether the coil is at hand and need not be bought")]
    stock_name: Annotated[str, Meta(description="Name of the coil at hand")]
    cuts: Annotated[list[CoilCut], Meta(description="Pieces in the order of laying")]
    offcut: Annotated[float, Meta(description="What remains of the coil [m]")]


class PressureDrift(Struct, kw_only=True):
    pressure_per_kelvin: Annotated[
        float,
        Meta(
            description="Change of the reading by temperature, of an elastic pipe; plastic creeps and moves less [Pa/K]"
        ),
    ]
    temperature_change: Annotated[
        float,
        Meta(description="Change of temperature during the test that is looked at [K]"),
    ]
    pressure_change: Annotated[float, Meta(description="Change of the reading for temperature_change [Pa]")]
    practice_pressure_change: (
        Annotated[
            float, Meta(description="What the trade expects of plastic pipe: up to 1 bar for 10 K [Pa]")
        ]
        | None
    )
    pressure_loss: Annotated[float, Meta(description="Loss of pressure that is looked at [Pa]")]
    volume_for_loss: Annotated[float, Meta(description="Volume that has to leak for that loss [m3]")]
    drip_pressure_loss: Annotated[float, Meta(description="Loss in an hour by a drip of 3 ml/min [Pa]")]


class Price(Struct, kw_only=True):
    item: Annotated[str, Meta(description="Id of the item, as in quantities")]
    unit_price: Annotated[
        float,
        Meta(description="Price of one unit of the item, without tax, in the currency of the list [1]"),
    ]


class PriceInput(Struct, kw_only=True):
    item: Annotated[
        str,
        Meta(description="Id of the item, as in quantities; at least 1 characters; at most 120 characters"),
    ]
    unit_price: Annotated[
        float,
        Meta(
            description="Price of one unit of the item, without tax, in the currency of the list [1]; at least 0; at most 1e+06"
        ),
    ]


class PriceList(Struct, kw_only=True):
    prices: Annotated[list[Price], Meta(description="Price of each item")]
    currency: Annotated[str, Meta(description="Currency of the prices")]


class PriceListInput(Struct, kw_only=True):
    prices: Annotated[
        list[PriceInput],
        Meta(description="Price of each item; at least 1 items; at most 2000 items"),
    ]
    currency: Annotated[
        str,
        Meta(
            description="Currency of the prices (default EUR); at least 1 characters; at most 12 characters"
        ),
    ] = "EUR"


class ProblemType(Struct, kw_only=True):
    """
    One type of problem and what to do about it.
    """

    slug: Annotated[str, Meta(description="Name of the type in its path")]
    status: Annotated[int, Meta(description="HTTP status code")]
    title: Annotated[str, Meta(description="Name of the type for people")]
    explanation: Annotated[str, Meta(description="What it means and what to do about it")]


class ProfilePoint(Struct, kw_only=True):
    distance: Annotated[float, Meta(description="Distance along the floor [m]")]
    temperature: Annotated[float, Meta(description="Floor surface temperature there [degC]")]


class ProgrammeDay(Struct, kw_only=True):
    date: Annotated[date_aliased, Meta(description="Calendar date, in 1990 to 2199")]
    day: Annotated[int, Meta(description="Days since the pour [d]")]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    stage: Annotated[
        Literal[
            "covering",
            "curing",
            "drying",
            "first_heat_up",
            "heating_off",
            "maturity_heating",
            "moisture_test",
            "pour",
            "waiting",
        ],
        Meta(description="Stage of the plan"),
    ]


class Pump(Struct, kw_only=True):
    volume_flow: Annotated[
        float,
        Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]"),
    ]
    pressure: Annotated[
        float,
        Meta(description="Pressure of the pump, with the upper bound of friction [Pa]"),
    ]
    head: Annotated[
        float,
        Meta(description="Head of the pump, with the upper bound of friction [m]"),
    ]
    hydraulic_power: Annotated[float, Meta(description="Power that the pump gives to the fluid [W]")]
    pressure_best_estimate: Annotated[float, Meta(description="Pressure of the pump by Churchill [Pa]")]
    head_best_estimate: Annotated[float, Meta(description="Head of the pump by Churchill [m]")]
    electric_power_low: Annotated[float, Meta(description="Electric power at a pump efficiency of 0.45 [W]")]
    electric_power_high: Annotated[float, Meta(description="Electric power at a pump efficiency of 0.15 [W]")]


class PumpStage(Struct, kw_only=True):
    pressure: Annotated[float, Meta(description="Pressure that the pump gives at this setting [Pa]")]
    maximum_volume_flow: (
        Annotated[float, Meta(description="Most flow that the pump gives at this pressure [m3/s]")] | None
    )


class PumpStageInput(Struct, kw_only=True):
    pressure: Annotated[
        float,
        Meta(description="Pressure that the pump gives at this setting [Pa]; at least 100; at most 1e+06"),
    ]
    maximum_volume_flow: (
        Annotated[
            float,
            Meta(
                description="Most flow that the pump gives at this pressure [m3/s]; at least 1e-06; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class Reading(Struct, kw_only=True):
    carbide_moisture: (
        Annotated[float, Meta(description="Moisture by the carbide method (1.8 CM-% is 0.018) [kg/kg]")]
        | None
    )
    relative_humidity: (
        Annotated[float, Meta(description="Equilibrium relative humidity under a sealed hygrometer [1]")]
        | None
    )
    point: Annotated[str, Meta(description="Name of the test point")]


class ReadingInput(Struct, kw_only=True):
    carbide_moisture: (
        Annotated[
            float,
            Meta(
                description="Moisture by the carbide method (1.8 CM-% is 0.018) [kg/kg]; at least 0; at most 0.1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    relative_humidity: (
        Annotated[
            float,
            Meta(
                description="Equilibrium relative humidity under a sealed hygrometer [1]; at least 0; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    point: Annotated[
        str,
        Meta(description="Name of the test point; at least 0 characters; at most 64 characters"),
    ] = ""


class RecordForm(Struct, kw_only=True):
    code: Annotated[str, Meta(description="Code that stays the same from release to release")]
    title: Annotated[str, Meta(description="Title of the form")]
    fields: Annotated[
        list[FormField],
        Meta(description="Fields at the head of the form, to be filled in where they hold no design value"),
    ]
    table: Annotated[
        str,
        Meta(description="Name of the list of this answer that the form shows as its table"),
    ]
    columns: Annotated[list[FormField], Meta(description="Empty columns beside the rows of the table")]
    basis: Annotated[str, Meta(description="Which text asks for the record")]


class RefusalEntry(Struct, kw_only=True):
    """
    One code of a faulty field in a problem document.
    """

    code: Annotated[str, Meta(description="Stable code of the fault")]
    meaning: Annotated[str, Meta(description="What is wrong")]
    remedy: Annotated[str, Meta(description="What to do")]
    guard: Annotated[
        bool,
        Meta(
            description="Whether it only watches over the engine's own work: no request is known that gives it"
        ),
    ]


class Remedy(Struct, kw_only=True):
    code: Annotated[str, Meta(description="Code that stays the same from release to release")]
    message: Annotated[str, Meta(description="The same in words")]
    heat_given: Annotated[
        float,
        Meta(description="Heat that the floor gives to the room at the design's flows [W]"),
    ]
    heat_missing: Annotated[
        float,
        Meta(description="Heat demand that the floor cannot give; 0 when it can [W]"),
    ]


class RoomEffect(Struct, kw_only=True):
    kind: Annotated[
        Literal["covering", "demand", "room_temperature", "screed", "supply_limit"],
        Meta(description="What is changed"),
    ]
    of_house: Annotated[bool, Meta(description="Whether the change concerns all rooms")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    supply_difference: Annotated[float, Meta(description="Supply temperature less that of the design [K]")]
    missing_difference: Annotated[float, Meta(description="Missing heat less that of the design [W]")]
    pipe_difference: Annotated[float, Meta(description="Pipe less that of the design [m]")]
    circuit_difference: Annotated[int, Meta(description="Circuits less those of the design [1]")]
    message: Annotated[str, Meta(description="The same in words")]


class RoomLoss(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    room_temperature: Annotated[float, Meta(description="Design temperature of the room [degC]")]
    area: Annotated[float, Meta(description="Floor area [m2]")]
    volume: Annotated[float, Meta(description="Volume of air [m3]")]
    transmission_loss: Annotated[
        float,
        Meta(description="Heat lost through elements, without that through heated floors [W]"),
    ]
    ventilation_loss: Annotated[float, Meta(description="Heat to warm up the air that comes in [W]")]
    heat_loss: Annotated[
        float,
        Meta(description="Heat lost; of a room or building without that through heated floors [W]"),
    ]
    heated_floor_loss: Annotated[
        float,
        Meta(description="Heat lost through the heated floors as if they were as warm as the room [W]"),
    ]
    reheat_power: Annotated[float, Meta(description="Extra power to warm up after a setback [W]")]
    heat_demand: Annotated[
        float,
        Meta(description="Heat that the room needs, without the loss through its own heated floor [W]"),
    ]
    required_heat_output: Annotated[
        float, Meta(description="Heat that the floor must give per floor area [W/m2]")
    ]
    elements: Annotated[
        list[ElementLoss],
        Meta(description="What is lost through each element of the room"),
    ]


class RoomOnSupply(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    reached: Annotated[bool, Meta(description="Whether the floor gives the heat that the room needs")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    heat_transmittance: Annotated[
        float,
        Meta(description="Heat output per kelvin of mean excess temperature [W/(m2.K)]"),
    ]
    mean_excess_temperature: Annotated[
        float, Meta(description="Logarithmic mean of water minus room temperature [K]")
    ]
    temperature_drop: Annotated[float, Meta(description="Supply minus return temperature of the water [K]")]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    missing_heat_output: Annotated[
        float,
        Meta(description="Heat demand per floor area that the floor cannot give [W/m2]"),
    ]
    limit_heat_output: Annotated[
        float,
        Meta(description="Heat output at which the surface limit is reached [W/m2]"),
    ]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    downward_heat_loss: Annotated[float, Meta(description="Heat lost downwards per floor area [W/m2]")]
    mass_flow_per_area: Annotated[float, Meta(description="Water per floor area [kg/(s.m2)]")]
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")]


class RoomSensitivity(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    effects: Annotated[
        list[RoomEffect],
        Meta(description="One change each, the greatest effect on the room first"),
    ]


class RoomTails(Struct, kw_only=True):
    room: Annotated[str, Meta(description="The id of a room")]
    circuit_ids: Annotated[
        list[str],
        Meta(description="The ids of the room's circuits; none where tails alone heat it"),
    ]
    tail_length: Annotated[
        float,
        Meta(description="One way from the manifold to where the pipes come into the room [m]"),
    ]


class RoomTolerance(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    heat_demand: Annotated[
        float,
        Meta(description="Heat that the room needs, without the loss through its own heated floor [W]"),
    ]
    tolerance_on_supply: Annotated[
        float,
        Meta(description="The same on the supply of the design, as a share of the demand [1]"),
    ]
    tolerance_at_most: Annotated[
        float,
        Meta(
            description="The same on the warmest supply that the source gives, as a share of the demand [1]"
        ),
    ]
    limited_by: Annotated[
        Literal["supply", "surface"],
        Meta(description="What ends it: the supply, or the limit of the surface"),
    ]


PathItem: TypeAlias = tuple[float, float]


class RouteCoverage(Struct, kw_only=True):
    heated_area: Annotated[
        float,
        Meta(description="Floor within half a spacing of where pipe may lie [m2]"),
    ]
    coverage_half: Annotated[
        float,
        Meta(description="Share of the heated area within half a spacing of the pipe [1]"),
    ]
    coverage_three_quarters: Annotated[
        float,
        Meta(description="Share of the heated area within three quarters of a spacing of the pipe [1]"),
    ]
    bare_area: Annotated[
        float,
        Meta(description="Heated area beyond three quarters of a spacing of the pipe [m2]"),
    ]
    bare_spots: Annotated[
        list[BareSpot],
        Meta(description="The largest pieces of the bare area, largest first"),
    ]


class RouteQuality(Struct, kw_only=True):
    length_ratio: Annotated[
        float,
        Meta(
            description="Length divided by that of pipe laid evenly at the spacing (served area / spacing) [1]"
        ),
    ]
    coverage_half: Annotated[
        float,
        Meta(description="Share of the heated area within half a spacing of the pipe [1]"),
    ]
    coverage_three_quarters: Annotated[
        float,
        Meta(description="Share of the heated area within three quarters of a spacing of the pipe [1]"),
    ]
    gap_95: (
        Annotated[
            float,
            Meta(
                description="Distance to what lies square to the pipe, in spacings: 95 % of these distances are not greater [1]"
            ),
        ]
        | None
    )
    least_distance: (
        Annotated[float, Meta(description="Least distance between parts of the pipe, in spacings [1]")] | None
    )
    distance_1: (
        Annotated[
            float,
            Meta(
                description="Distance to other parts of the pipe, in spacings: along 1 % of the pipe it is smaller [1]"
            ),
        ]
        | None
    )
    close_share: Annotated[
        float,
        Meta(description="Share of the pipe nearer than 0.75 spacings to other pipe [1]"),
    ]
    mixed_share: (
        Annotated[
            float,
            Meta(
                description="Share of the pipe that has only pipe of the other half beside it: counterflow nearly 1 [1]"
            ),
        ]
        | None
    )
    temperature_spread: (
        Annotated[
            float,
            Meta(
                description="Share of the water's temperature drop by which the floor differs from place to place [1]"
            ),
        ]
        | None
    )


class RouteSleeve(Struct, kw_only=True):
    circuit: Annotated[str, Meta(description="The id of a circuit")]
    place: Annotated[
        tuple[float, float],
        Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items"),
    ]
    ahead: Annotated[
        tuple[float, float],
        Meta(
            description="Unit vector of the direction of travel, x and y [1]; at least 2 items; at most 2 items"
        ),
    ]


DoorwayItem: TypeAlias = tuple[float, float]


ManifoldPlace: TypeAlias = Annotated[
    tuple[float, float],
    Meta(
        description="Where the manifold stands; the pipes come in where the outline is nearest to it [m]; at least 2 items; at most 2 items"
    ),
]


SecondEntry: TypeAlias = Annotated[
    tuple[float, float],
    Meta(
        description="Where a second circuit of the same room comes in, x and y [m]; at least 2 items; at most 2 items"
    ),
]


class RuleRequirement(Struct, kw_only=True):
    rule: Annotated[
        Literal["en_1264_4", "local_resistance", "local_u_value"],
        Meta(description="The rule"),
    ]
    required_resistance: Annotated[
        float,
        Meta(
            description="Least thermal resistance of the insulation, by the rule that asks for most [m2.K/W]"
        ),
    ]
    source: Annotated[str, Meta(description="Document, edition and clause, or a named trade practice")]


class ScreedResult(Struct, kw_only=True):
    nominal_thickness: Annotated[
        float, Meta(description="Least thickness in the table, without the pipe [m]")
    ]
    minimum_screed_cover: Annotated[
        float,
        Meta(description="Least screed above the pipe that the rules ask for [m]"),
    ]
    minimum_thickness: Annotated[
        float,
        Meta(description="Least whole thickness that the rules ask for, pipe included [m]"),
    ]
    compressibility: Annotated[float, Meta(description="Compressibility of all layers together [m]")]
    compressibility_limit: Annotated[float, Meta(description="Highest compressibility for this load [m]")]
    adequate: Annotated[
        bool,
        Meta(description="Whether the cover carries the load and the insulation is firm enough"),
    ]


class ScreedSection(Struct, kw_only=True):
    screed_cover: Annotated[float, Meta(description="Screed above the top of the pipe [m]")]
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    flexural_class: Annotated[
        Literal["F4", "F5", "F7"],
        Meta(
            description="Flexural strength class of EN 13813; F4 is the lowest and needs the greatest thickness"
        ),
    ]
    pipe_outside_diameter: Annotated[
        float, Meta(description="Outside diameter of the pipe, without a sheath [m]")
    ]
    imposed_load: Annotated[
        float,
        Meta(description="Imposed load on the floor area (2000 in a dwelling) [N/m2]"),
    ]
    concentrated_load: Annotated[
        float,
        Meta(description="Largest single load on the floor; 0 where only the load per area is demanded [N]"),
    ]


class ScreedSectionInput(Struct, kw_only=True):
    screed_cover: Annotated[
        float,
        Meta(description="Screed above the top of the pipe [m]; at least 0.005; at most 0.3"),
    ]
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560) (default cement)"
        ),
    ] = "cement"
    flexural_class: Annotated[
        Literal["F4", "F5", "F7"],
        Meta(
            description="Flexural strength class of EN 13813; F4 is the lowest and needs the greatest thickness (default F4)"
        ),
    ] = "F4"
    pipe_outside_diameter: Annotated[
        float,
        Meta(
            description="Outside diameter of the pipe, without a sheath (default 0.016) [m]; at least 0.008; at most 0.032"
        ),
    ] = 0.016
    imposed_load: Annotated[
        float,
        Meta(
            description="Imposed load on the floor area (2000 in a dwelling) (default 2000.0) [N/m2]; at least 500; at most 50000"
        ),
    ] = 2000.0
    concentrated_load: Annotated[
        float,
        Meta(
            description="Largest single load on the floor; 0 where only the load per area is demanded (default 0.0) [N]; at least 0; at most 50000"
        ),
    ] = 0.0


class ScreedSupply(Struct, kw_only=True):
    form: (
        Annotated[
            Literal["bags", "ready_mixed", "site_mixed"],
            Meta(description="In bags, mixed on site, or ready mixed; by binder if not given"),
        ]
        | None
    )
    density: Annotated[float, Meta(description="Density of the screed [kg/m3]")]
    bag_mass: Annotated[float, Meta(description="Mass of a bag [kg]")]
    bag_yield: Annotated[float, Meta(description="Screed that a bag gives [m3]")]
    mixer_load: Annotated[float, Meta(description="Screed that one load of the mixer gives [m3]")]
    cement_content: Annotated[float, Meta(description="Cement in the screed [kg/m3]")]
    sand_content: Annotated[float, Meta(description="Sand in the screed [kg/m3]")]
    additive_share: Annotated[float, Meta(description="Additive over cement, by mass [1]")]
    pump_rest: Annotated[float, Meta(description="Screed that stays in pump and hoses [m3]")]


class ScreedSupplyInput(Struct, kw_only=True):
    form: (
        Annotated[
            Literal["bags", "ready_mixed", "site_mixed"],
            Meta(description="In bags, mixed on site, or ready mixed; by binder if not given"),
        ]
        | UnsetType
        | None
    ) = UNSET
    density: Annotated[
        float,
        Meta(description="Density of the screed (default 2200.0) [kg/m3]; at least 1000; at most 3000"),
    ] = 2200.0
    bag_mass: Annotated[
        float,
        Meta(description="Mass of a bag (default 40.0) [kg]; at least 1; at most 2000"),
    ] = 40.0
    bag_yield: Annotated[
        float,
        Meta(description="Screed that a bag gives (default 0.02) [m3]; at least 0.0005; at most 2"),
    ] = 0.02
    mixer_load: Annotated[
        float,
        Meta(
            description="Screed that one load of the mixer gives (default 0.2) [m3]; at least 0.01; at most 10"
        ),
    ] = 0.2
    cement_content: Annotated[
        float,
        Meta(description="Cement in the screed (default 390.0) [kg/m3]; at least 50; at most 1000"),
    ] = 390.0
    sand_content: Annotated[
        float,
        Meta(description="Sand in the screed (default 1600.0) [kg/m3]; at least 500; at most 2500"),
    ] = 1600.0
    additive_share: Annotated[
        float,
        Meta(description="Additive over cement, by mass (default 0.008) [1]; at least 0; at most 0.1"),
    ] = 0.008
    pump_rest: Annotated[
        float,
        Meta(description="Screed that stays in pump and hoses (default 0.2) [m3]; at least 0; at most 5"),
    ] = 0.2


class SeasonBin(Struct, kw_only=True):
    outside_temperature: Annotated[float, Meta(description="Temperature of the outside air [degC]")]
    hours: Annotated[float, Meta(description="Hours of a year [h]")]
    load_share: Annotated[
        float,
        Meta(description="Heat that the basis room needs over that of the design [1]"),
    ]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")] | None
    return_temperature: (
        Annotated[float, Meta(description="Water temperature out of the circuit [degC]")] | None
    )
    heat: Annotated[float, Meta(description="Heat that is given in these hours [kWh]")]
    flow_share: Annotated[float, Meta(description="Mean flow over design flow [1]")]
    volume_flow: Annotated[
        float,
        Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]"),
    ]
    pump_power: Annotated[float, Meta(description="Power that the pump gives to the water [W]")]
    duties: Annotated[
        list[float],
        Meta(
            description="Share of the time that the control of each room is open, in the order of the rooms [1]"
        ),
    ]
    coefficient_of_performance: (
        Annotated[float, Meta(description="Heat given over electricity taken [1]")] | None
    )
    electricity: Annotated[float, Meta(description="Electricity of a year [kWh]")] | None


class SeasonQuestions(Struct, kw_only=True):
    climate: Annotated[list[ClimateBin], Meta(description="The year in bins of outside temperature")]
    outside_temperature: Annotated[
        float,
        Meta(description="Outside temperature of the demands: they grow with the distance from it [degC]"),
    ]
    heating_limit: Annotated[
        float,
        Meta(description="Outside temperature from which nothing is heated [degC]"),
    ]
    exponent: Annotated[
        float,
        Meta(
            description="Exponent of the heat over the excess temperature: 1 for floors after EN 1264-2 [1]"
        ),
    ]
    efficiency: Annotated[
        list[EfficiencyPoint],
        Meta(description="Heat over electricity by supply temperature, coldest first"),
    ]


class SeasonQuestionsInput(Struct, kw_only=True):
    climate: Annotated[
        list[ClimateBinInput],
        Meta(description="The year in bins of outside temperature; at least 1 items; at most 80 items"),
    ]
    outside_temperature: Annotated[
        float,
        Meta(
            description="Outside temperature of the demands: they grow with the distance from it (default -12.0) [degC]; at least -50; at most 20"
        ),
    ] = -12.0
    heating_limit: Annotated[
        float,
        Meta(
            description="Outside temperature from which nothing is heated (default 15.0) [degC]; at least 0; at most 25"
        ),
    ] = 15.0
    exponent: Annotated[
        float,
        Meta(
            description="Exponent of the heat over the excess temperature: 1 for floors after EN 1264-2 (default 1.0) [1]; at least 0.8; at most 1.6"
        ),
    ] = 1.0
    efficiency: Annotated[
        list[EfficiencyPointInput],
        Meta(
            description="Heat over electricity by supply temperature, coldest first; at least 0 items; at most 24 items"
        ),
    ] = field(default_factory=list)


class SeasonRoom(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    design_duty: Annotated[
        float,
        Meta(description="Share of the time that the control is open at the design [1]"),
    ]
    mean_duty: Annotated[float, Meta(description="The same on average over the heating hours [1]")]
    heat: Annotated[float, Meta(description="Heat that is given in these hours [kWh]")]
    heat_lacking: Annotated[float, Meta(description="Heat that the room lacks in the year [kWh]")]


class SectionLayer(Struct, kw_only=True):
    thickness: Annotated[float, Meta(description="Thickness of the layer [m]")]
    thermal_conductivity: Annotated[float, Meta(description="Thermal conductivity of the layer [W/(m.K)]")]
    volumetric_heat_capacity: Annotated[
        float,
        Meta(description="Heat capacity of the layer per volume; matters in time only [J/(m3.K)]"),
    ]


class SectionLayerInput(Struct, kw_only=True):
    thickness: Annotated[
        float,
        Meta(description="Thickness of the layer [m]; at least 0.0002; at most 1"),
    ]
    thermal_conductivity: Annotated[
        float,
        Meta(description="Thermal conductivity of the layer [W/(m.K)]; at least 0.01; at most 500"),
    ]
    volumetric_heat_capacity: Annotated[
        float,
        Meta(
            description="Heat capacity of the layer per volume; matters in time only (default 1500000.0) [J/(m3.K)]; at least 1000; at most 1e+07"
        ),
    ] = 1500000.0


class SensitivityLine(Struct, kw_only=True):
    kind: Annotated[
        Literal["covering", "demand", "room_temperature", "screed", "supply_limit"],
        Meta(description="What is changed"),
    ]
    room: Annotated[str, Meta(description="The id of a room")]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    supply_difference: Annotated[float, Meta(description="Supply temperature less that of the design [K]")]
    missing_difference: Annotated[float, Meta(description="Missing heat less that of the design [W]")]
    pipe_difference: Annotated[float, Meta(description="Pipe less that of the design [m]")]
    circuit_difference: Annotated[int, Meta(description="Circuits less those of the design [1]")]
    power_difference: Annotated[float, Meta(description="Pump power less that of the design [W]")]
    message: Annotated[str, Meta(description="The same in words")]


class SensitivityQuestions(Struct, kw_only=True):
    covering_resistance: Annotated[
        float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")
    ]
    demand_rise: Annotated[float, Meta(description="Share by which heat demands rise [1]")]
    warmer_by: Annotated[float, Meta(description="By how much a room is kept warmer [K]")]
    outside_temperature: Annotated[
        float,
        Meta(description="Outside temperature of the demands: they grow with the distance from it [degC]"),
    ]
    added_screed: Annotated[float, Meta(description="Further screed over the pipes [m]")]
    supply_limit: (
        Annotated[float, Meta(description="Warmest supply that is looked at; null: not looked at [degC]")]
        | None
    )


class SensitivityQuestionsInput(Struct, kw_only=True):
    covering_resistance: Annotated[
        float,
        Meta(
            description="Thermal resistance of the floor covering (default 0.15) [m2.K/W]; at least 0; at most 1"
        ),
    ] = 0.15
    demand_rise: Annotated[
        float,
        Meta(description="Share by which heat demands rise (default 0.1) [1]; at least 0; at most 2"),
    ] = 0.1
    warmer_by: Annotated[
        float,
        Meta(description="By how much a room is kept warmer (default 2.0) [K]; at least 0; at most 10"),
    ] = 2.0
    outside_temperature: Annotated[
        float,
        Meta(
            description="Outside temperature of the demands: they grow with the distance from it (default -12.0) [degC]; at least -50; at most 20"
        ),
    ] = -12.0
    added_screed: Annotated[
        float,
        Meta(description="Further screed over the pipes (default 0.02) [m]; at least 0; at most 0.1"),
    ] = 0.02
    supply_limit: (
        Annotated[
            float,
            Meta(
                description="Warmest supply that is looked at; null: not looked at (default 35.0) [degC]; at least 20; at most 90"
            ),
        ]
        | None
    ) = 35.0


class ServiceLimit(Struct, kw_only=True):
    """
    A limit that is not the range of one field.
    """

    name: Annotated[str, Meta(description="Name of the limit")]
    value: Annotated[float, Meta(description="Value of the limit in its unit")]
    unit: Annotated[str, Meta(description="Unit of the value")]
    description: Annotated[str, Meta(description="What is limited")]


class Setback(Struct, kw_only=True):
    duration: Annotated[float, Meta(description="Length of the setback [s]")]
    water_temperature: (
        Annotated[float, Meta(description="Mean temperature of the water in the pipe [degC]")] | None
    )


class SetbackInput(Struct, kw_only=True):
    duration: Annotated[
        float,
        Meta(description="Length of the setback [s]; at least 600; at most 604800"),
    ]
    water_temperature: (
        Annotated[
            float,
            Meta(description="Mean temperature of the water in the pipe [degC]; at least -10; at most 95"),
        ]
        | UnsetType
        | None
    ) = UNSET


class Slab(Struct, kw_only=True):
    construction: Annotated[str, Meta(description="The id of a construction")] | None
    beyond: Annotated[
        Literal["adiabatic", "ground", "heated_neighbour", "outside", "room", "underfloor_space", "unheated"],
        Meta(
            description="What lies beyond: outside air, ground, the ventilated underfloor_space of a suspended floor, an unheated space, a heated_neighbour (at neighbour_temperature), another room of this request, or adiabatic (nothing is lost)"
        ),
    ]
    neighbour: Annotated[str, Meta(description="The id of the room or unheated space beyond")] | None
    neighbour_temperature: Annotated[float, Meta(description="Temperature beyond the element [degC]")] | None
    temperature_factor: (
        Annotated[
            float,
            Meta(
                description="Share of the difference between room and outside air that lies across an element to an unheated space (0.5 when nothing is known) or across a suspended floor (from the heat balance below it if not given) [1]"
            ),
        ]
        | None
    )
    thermal_bridge_supplement: (
        Annotated[
            float,
            Meta(
                description="Supplement for the thermal bridges of this element, in place of the general one [W/(m2.K)]"
            ),
        ]
        | None
    )
    area: Annotated[float, Meta(description="Area of the element [m2]")] | None
    openings: Annotated[list[Opening2], Meta(description="Windows and doors in the element")]
    name: Annotated[str, Meta(description="Name for people")]


class SlabInput(Struct, kw_only=True):
    construction: (
        Annotated[
            str, Meta(description="The id of a construction; at least 1 characters; at most 64 characters")
        ]
        | UnsetType
        | None
    ) = UNSET
    beyond: Annotated[
        Literal["adiabatic", "ground", "heated_neighbour", "outside", "room", "underfloor_space", "unheated"],
        Meta(
            description="What lies beyond: outside air, ground, the ventilated underfloor_space of a suspended floor, an unheated space, a heated_neighbour (at neighbour_temperature), another room of this request, or adiabatic (nothing is lost) (default outside)"
        ),
    ] = "outside"
    neighbour: (
        Annotated[
            str,
            Meta(
                description="The id of the room or unheated space beyond; at least 1 characters; at most 64 characters"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    neighbour_temperature: (
        Annotated[float, Meta(description="Temperature beyond the element [degC]; at least -60; at most 60")]
        | UnsetType
        | None
    ) = UNSET
    temperature_factor: (
        Annotated[
            float,
            Meta(
                description="Share of the difference between room and outside air that lies across an element to an unheated space (0.5 when nothing is known) or across a suspended floor (from the heat balance below it if not given) [1]; at least 0; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    thermal_bridge_supplement: (
        Annotated[
            float,
            Meta(
                description="Supplement for the thermal bridges of this element, in place of the general one [W/(m2.K)]; at least 0; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    area: (
        Annotated[float, Meta(description="Area of the element [m2]; at least 0.01; at most 10000")]
        | UnsetType
        | None
    ) = UNSET
    openings: Annotated[
        list[OpeningInput],
        Meta(description="Windows and doors in the element; at least 0 items; at most 32 items"),
    ] = field(default_factory=list)
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class SpaceTemperature(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    temperature: Annotated[
        float,
        Meta(description="Temperature of the unheated space; from its heat balance if not given [degC]"),
    ]


class SpacingOption(Struct, kw_only=True):
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    pipe_length_per_area: Annotated[
        float, Meta(description="Pipe in the field per floor area: 1 / spacing [1/m]")
    ]
    heat_transmittance: Annotated[
        float,
        Meta(description="Heat output per kelvin of mean excess temperature [W/(m2.K)]"),
    ]
    mean_excess_temperature: Annotated[
        float, Meta(description="Logarithmic mean of water minus room temperature [K]")
    ]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    limit_heat_output: Annotated[
        float,
        Meta(description="Heat output at which the surface limit is reached [W/m2]"),
    ]
    within_limits: Annotated[bool, Meta(description="Whether every room keeps its surface limit")]
    chosen: Annotated[bool, Meta(description="Whether this one was chosen")]
    reason: Annotated[str, Meta(description="Why it was chosen or not")]


class Storey(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]


class StoreyInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


Place: TypeAlias = tuple[float, float]


class StoreySiting(Struct, kw_only=True):
    storey: Annotated[str, Meta(description="The id of a storey")] | None
    places: Annotated[list[Place], Meta(description="Where manifolds stand best, on walls [m]")]
    tail_pipe: Annotated[float, Meta(description="Pipe in tails, flow and return together [m]")] | None
    position_tail_pipe: (
        Annotated[float, Meta(description="Pipe in tails from the position that was given [m]")] | None
    )
    position_excess: (
        Annotated[float, Meta(description="Pipe in tails that the given position takes in addition [m]")]
        | None
    )


class StripDesign(Struct, kw_only=True):
    strip: Annotated[
        PeripheralStrip,
        Meta(description="A strip along outside walls with closer pipe"),
    ]
    area: Annotated[
        float,
        Meta(description="Floor of the strip, without what tails of others take [m2]"),
    ]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    surface_temperature_limit: Annotated[
        float, Meta(description="Highest permitted floor surface temperature [degC]")
    ]
    rest_heat_output: Annotated[float, Meta(description="Heat output beside the strip [W/m2]")]
    rest_surface_temperature: Annotated[
        float,
        Meta(description="Mean temperature of the surface beside the strip [degC]"),
    ]


class StripOption(Struct, kw_only=True):
    room: Annotated[str, Meta(description="The id of a room")]
    strip: Annotated[
        PeripheralStrip,
        Meta(description="A strip along outside walls with closer pipe"),
    ]


class StripOptionInput(Struct, kw_only=True):
    room: Annotated[
        str,
        Meta(description="The id of a room; at least 0 characters; at most 64 characters"),
    ]
    strip: Annotated[
        PeripheralStripInput,
        Meta(description="A strip along outside walls with closer pipe"),
    ]


class TailInsulation(Struct, kw_only=True):
    thickness: Annotated[float, Meta(description="Thickness of the insulation round a tail [m]")]
    thermal_conductivity: Annotated[
        float, Meta(description="Thermal conductivity of the insulation [W/(m.K)]")
    ]
    insulated_pipes: Annotated[
        Literal["both", "flow"],
        Meta(description="both pipes of a tail, or the flow alone"),
    ]


class TailInsulationInput(Struct, kw_only=True):
    thickness: Annotated[
        float,
        Meta(
            description="Thickness of the insulation round a tail (default 0.009) [m]; at least 0.002; at most 0.05"
        ),
    ] = 0.009
    thermal_conductivity: Annotated[
        float,
        Meta(
            description="Thermal conductivity of the insulation (default 0.04) [W/(m.K)]; at least 0.01; at most 1"
        ),
    ] = 0.04
    insulated_pipes: Annotated[
        Literal["both", "flow"],
        Meta(description="both pipes of a tail, or the flow alone (default both)"),
    ] = "both"


class ToleranceChange(Struct, kw_only=True):
    code: Annotated[str, Meta(description="Code that stays the same from release to release")]
    change: Annotated[Literal["gone", "new"], Meta(description="new; gone")]
    severity: Annotated[
        Literal["note", "violation", "warning"],
        Meta(
            description="note (worth knowing), warning (have a second look) or violation (do not build it like this)"
        ),
    ]
    subject: Annotated[
        str,
        Meta(description="The room, circuit or other thing concerned, as people call it"),
    ]
    message: Annotated[str, Meta(description="The same in words")]


class UnderfloorSpace(Struct, kw_only=True):
    floor_height: Annotated[
        float,
        Meta(description="Height of the floor's upper side above the ground outside [m]"),
    ]
    wall_u_value: Annotated[
        float,
        Meta(
            description="Thermal transmittance of the space's walls from air to air, without soil [W/(m2.K)]"
        ),
    ]
    ventilation_openings: Annotated[
        float,
        Meta(description="Area of the ventilation openings per metre of exposed perimeter [m2/m]"),
    ]
    wind_speed: Annotated[float, Meta(description="Mean wind at a height of 10 m in open country [m/s]")]
    shielding: Annotated[
        Literal["average", "exposed", "sheltered"],
        Meta(description="sheltered (town centre), average (suburb) or exposed (open country)"),
    ]
    ground_insulation: Annotated[
        float, Meta(description="Thermal resistance of insulation on the soil [m2.K/W]")
    ]


class UnderfloorSpaceInput(Struct, kw_only=True):
    floor_height: Annotated[
        float,
        Meta(
            description="Height of the floor's upper side above the ground outside (default 0.3) [m]; at least 0; at most 3"
        ),
    ] = 0.3
    wall_u_value: Annotated[
        float,
        Meta(
            description="Thermal transmittance of the space's walls from air to air, without soil (default 1.7) [W/(m2.K)]; at least 0.01; at most 20"
        ),
    ] = 1.7
    ventilation_openings: Annotated[
        float,
        Meta(
            description="Area of the ventilation openings per metre of exposed perimeter (default 0.0015) [m2/m]; at least 0; at most 0.5"
        ),
    ] = 0.0015
    wind_speed: Annotated[
        float,
        Meta(
            description="Mean wind at a height of 10 m in open country (default 3.0) [m/s]; at least 0; at most 30"
        ),
    ] = 3.0
    shielding: Annotated[
        Literal["average", "exposed", "sheltered"],
        Meta(
            description="sheltered (town centre), average (suburb) or exposed (open country) (default average)"
        ),
    ] = "average"
    ground_insulation: Annotated[
        float,
        Meta(
            description="Thermal resistance of insulation on the soil (default 0.0) [m2.K/W]; at least 0; at most 50"
        ),
    ] = 0.0


class UnheatedSpace(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    temperature: (
        Annotated[
            float,
            Meta(description="Temperature of the unheated space; from its heat balance if not given [degC]"),
        ]
        | None
    )
    external_transmittance: (
        Annotated[
            float, Meta(description="Areas times U-values of the unheated space towards the outside [W/K]")
        ]
        | None
    )
    volume: Annotated[float, Meta(description="Volume of air [m3]")] | None
    air_change: Annotated[
        float,
        Meta(description="Outside air by leaks and windows, in volumes of the room [1/h]"),
    ]
    ground_contact: (
        Annotated[GroundContact, Meta(description="Base and buried walls of an unheated basement")] | None
    )


class UnheatedSpaceInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""
    temperature: (
        Annotated[
            float,
            Meta(
                description="Temperature of the unheated space; from its heat balance if not given [degC]; at least -60; at most 60"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    external_transmittance: (
        Annotated[
            float,
            Meta(
                description="Areas times U-values of the unheated space towards the outside [W/K]; at least 0; at most 1e+06"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    volume: (
        Annotated[float, Meta(description="Volume of air [m3]; at least 0; at most 1e+06")] | UnsetType | None
    ) = UNSET
    air_change: Annotated[
        float,
        Meta(
            description="Outside air by leaks and windows, in volumes of the room (default 0.5) [1/h]; at least 0; at most 20"
        ),
    ] = 0.5
    ground_contact: (
        Annotated[GroundContactInput, Meta(description="Base and buried walls of an unheated basement")]
        | UnsetType
        | None
    ) = UNSET


Place1: TypeAlias = Annotated[
    tuple[float, float],
    Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items"),
]


class UnplacedCircuit(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    room: Annotated[str, Meta(description="The id of a room")]
    code: Annotated[str, Meta(description="Code that stays the same from release to release")]
    place: (
        Annotated[
            Place1, Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items")
        ]
        | None
    )
    message: Annotated[str, Meta(description="The same in words")]


class ValveSetting(Struct, kw_only=True):
    setting: Annotated[float, Meta(description="Setting on the valve's own scale [1]")]
    kv: Annotated[
        float,
        Meta(
            description="Flow coefficient of the presetting valve as set: m3/h of water at a drop of 1 bar [m3/h]"
        ),
    ]


class ValveSettingInput(Struct, kw_only=True):
    setting: Annotated[
        float,
        Meta(description="Setting on the valve's own scale [1]; at least 0; at most 1000"),
    ]
    kv: Annotated[
        float,
        Meta(
            description="Flow coefficient of the presetting valve as set: m3/h of water at a drop of 1 bar [m3/h]; at least 0.001; at most 100"
        ),
    ]


class Wall(Struct, kw_only=True):
    edge: Annotated[
        int,
        Meta(description="Wall of the outline: 0 runs from its first corner to its second, and so on [1]"),
    ]
    construction: Annotated[str, Meta(description="The id of a construction")] | None
    beyond: Annotated[
        Literal["adiabatic", "ground", "heated_neighbour", "outside", "room", "underfloor_space", "unheated"],
        Meta(
            description="What lies beyond: outside air, ground, the ventilated underfloor_space of a suspended floor, an unheated space, a heated_neighbour (at neighbour_temperature), another room of this request, or adiabatic (nothing is lost)"
        ),
    ]
    neighbour: Annotated[str, Meta(description="The id of the room or unheated space beyond")] | None
    neighbour_temperature: Annotated[float, Meta(description="Temperature beyond the element [degC]")] | None
    temperature_factor: (
        Annotated[
            float,
            Meta(
                description="Share of the difference between room and outside air that lies across an element to an unheated space (0.5 when nothing is known) or across a suspended floor (from the heat balance below it if not given) [1]"
            ),
        ]
        | None
    )
    thermal_bridge_supplement: (
        Annotated[
            float,
            Meta(
                description="Supplement for the thermal bridges of this element, in place of the general one [W/(m2.K)]"
            ),
        ]
        | None
    )
    length: (
        Annotated[
            float,
            Meta(
                description="Length of this part of the edge; what other walls leave of the edge if not given [m]"
            ),
        ]
        | None
    )
    openings: Annotated[list[Opening2], Meta(description="Windows and doors in the element")]
    name: Annotated[str, Meta(description="Name for people")]


StretchItem: TypeAlias = tuple[float, float]


class WallAllowed(Struct, kw_only=True):
    room: Annotated[str, Meta(description="The id of a room")]
    stretch: (
        Annotated[
            list[StretchItem],
            Meta(description="The two ends of a straight stretch of wall, on the outline [m]"),
        ]
        | None
    )


class WallAllowedInput(Struct, kw_only=True):
    room: Annotated[
        str,
        Meta(description="The id of a room; at least 0 characters; at most 64 characters"),
    ]
    stretch: (
        Annotated[
            list[StretchItem],
            Meta(
                description="The two ends of a straight stretch of wall, on the outline [m]; at least 2 items; at most 2 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class WallDistance(Struct, kw_only=True):
    ring: Annotated[int, Meta(description="0 for the outline, then the voids in order [1]")]
    edge: Annotated[
        int,
        Meta(description="Wall of the outline: 0 runs from its first corner to its second, and so on [1]"),
    ]
    distance: Annotated[
        float,
        Meta(description="From the wall to the pipe's centre line, square to the wall [m]"),
    ]
    on_wall: Annotated[
        tuple[float, float],
        Meta(
            description="End of the dimension line on the wall, x and y [m] [m]; at least 2 items; at most 2 items"
        ),
    ]
    on_pipe: Annotated[
        tuple[float, float],
        Meta(
            description="End of the dimension line on the pipe, x and y [m] [m]; at least 2 items; at most 2 items"
        ),
    ]
    step: Annotated[int, Meta(description="Number of the step [1]")]


class WallInput(Struct, kw_only=True):
    edge: Annotated[
        int,
        Meta(
            description="Wall of the outline: 0 runs from its first corner to its second, and so on [1]; at least 0; at most 255"
        ),
    ]
    construction: (
        Annotated[
            str, Meta(description="The id of a construction; at least 1 characters; at most 64 characters")
        ]
        | UnsetType
        | None
    ) = UNSET
    beyond: Annotated[
        Literal["adiabatic", "ground", "heated_neighbour", "outside", "room", "underfloor_space", "unheated"],
        Meta(
            description="What lies beyond: outside air, ground, the ventilated underfloor_space of a suspended floor, an unheated space, a heated_neighbour (at neighbour_temperature), another room of this request, or adiabatic (nothing is lost) (default outside)"
        ),
    ] = "outside"
    neighbour: (
        Annotated[
            str,
            Meta(
                description="The id of the room or unheated space beyond; at least 1 characters; at most 64 characters"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    neighbour_temperature: (
        Annotated[float, Meta(description="Temperature beyond the element [degC]; at least -60; at most 60")]
        | UnsetType
        | None
    ) = UNSET
    temperature_factor: (
        Annotated[
            float,
            Meta(
                description="Share of the difference between room and outside air that lies across an element to an unheated space (0.5 when nothing is known) or across a suspended floor (from the heat balance below it if not given) [1]; at least 0; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    thermal_bridge_supplement: (
        Annotated[
            float,
            Meta(
                description="Supplement for the thermal bridges of this element, in place of the general one [W/(m2.K)]; at least 0; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    length: (
        Annotated[
            float,
            Meta(
                description="Length of this part of the edge; what other walls leave of the edge if not given [m]; at least 0.01; at most 200"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    openings: Annotated[
        list[OpeningInput],
        Meta(description="Windows and doors in the element; at least 0 items; at most 32 items"),
    ] = field(default_factory=list)
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class WallStretch(Struct, kw_only=True):
    wall_clearance: Annotated[
        float,
        Meta(description="Distance of the outermost pipe's centre line from walls and voids [m]"),
    ]
    edge: (
        Annotated[
            int,
            Meta(
                description="Wall of the outline: 0 runs from its first corner to its second, and so on [1]"
            ),
        ]
        | None
    )
    stretch: (
        Annotated[
            list[StretchItem],
            Meta(description="The two ends of a straight stretch of wall, on the outline [m]"),
        ]
        | None
    )


class WallStretchInput(Struct, kw_only=True):
    wall_clearance: Annotated[
        float,
        Meta(
            description="Distance of the outermost pipe's centre line from walls and voids [m]; at least 0.02; at most 1"
        ),
    ]
    edge: (
        Annotated[
            int,
            Meta(
                description="Wall of the outline: 0 runs from its first corner to its second, and so on [1]; at least 0; at most 255"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    stretch: (
        Annotated[
            list[StretchItem],
            Meta(
                description="The two ends of a straight stretch of wall, on the outline [m]; at least 2 items; at most 2 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class WarmUp(Struct, kw_only=True):
    duration: Annotated[float, Meta(description="How long the section is followed [s]")]
    time_step: Annotated[float, Meta(description="Step of time [s]")]
    initial_temperature: (
        Annotated[
            float,
            Meta(
                description="Temperature of the whole floor at the start; without it the floor as it lies unheated [degC]"
            ),
        ]
        | None
    )
    source_power: (
        Annotated[float, Meta(description="Greatest heat that the source can give per floor area [W/m2]")]
        | None
    )
    setback: Annotated[Setback, Meta(description="A setback at night from the steady state")] | None


class WarmUpInput(Struct, kw_only=True):
    duration: Annotated[
        float,
        Meta(
            description="How long the section is followed (default 172800.0) [s]; at least 600; at most 2.6e+06"
        ),
    ] = 172800.0
    time_step: Annotated[
        float,
        Meta(description="Step of time (default 900.0) [s]; at least 1; at most 86400"),
    ] = 900.0
    initial_temperature: (
        Annotated[
            float,
            Meta(
                description="Temperature of the whole floor at the start; without it the floor as it lies unheated [degC]; at least -10; at most 60"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    source_power: (
        Annotated[
            float,
            Meta(
                description="Greatest heat that the source can give per floor area [W/m2]; at least 1; at most 2000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    setback: (
        Annotated[SetbackInput, Meta(description="A setback at night from the steady state")]
        | UnsetType
        | None
    ) = UNSET


class WarmUpPoint(Struct, kw_only=True):
    time: Annotated[
        float,
        Meta(description="Time since the start of the warm-up or of the setback [s]"),
    ]
    water_temperature: (
        Annotated[float, Meta(description="Mean temperature of the water in the pipe [degC]")] | None
    )
    water_heat: Annotated[float, Meta(description="Heat that the water gives per floor area [W/m2]")]
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    downward_heat_loss: Annotated[float, Meta(description="Heat lost downwards per floor area [W/m2]")]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]


class WaterLimits(Struct, kw_only=True):
    specific_volume: (
        Annotated[float, Meta(description="Content of the system over the output of the source [m3/W]")]
        | None
    )
    limited: Annotated[bool, Meta(description="Whether there is a limit of hardness for this system")]
    hardness_limit: (
        Annotated[float, Meta(description="Highest sum of alkaline earths in the water [mol/m3]")] | None
    )
    hardness: (
        Annotated[
            float,
            Meta(description="Sum of alkaline earths in the water; 1 degree dH is 0.178 mol/m3 [mol/m3]"),
        ]
        | None
    )
    lowest_ph: Annotated[float, Meta(description="Lowest pH [1]")]
    highest_ph: Annotated[float, Meta(description="Highest pH [1]")]
    low_salt_conductivity: Annotated[
        float,
        Meta(description="Highest conductivity of water that counts as low in salt [S/m]"),
    ]
    highest_conductivity: Annotated[float, Meta(description="Highest conductivity [S/m]")]
    source: Annotated[str, Meta(description="Document, edition and clause, or a named trade practice")]


class WaterSide(Struct, kw_only=True):
    source_output: Annotated[float, Meta(description="Least output of a single heat source [W]")] | None
    kind: Annotated[
        Literal["small_content", "usual"],
        Meta(description="usual, or small_content: less than 0.3 l/kW of water in it, or an electric heater"),
    ]
    hardness: (
        Annotated[
            float,
            Meta(description="Sum of alkaline earths in the water; 1 degree dH is 0.178 mol/m3 [mol/m3]"),
        ]
        | None
    )
    aluminium: Annotated[bool, Meta(description="Whether the water touches aluminium")]
    precharge_pressure: (
        Annotated[float, Meta(description="Gas pressure of the empty vessel (gauge) [Pa]")] | None
    )
    fill_pressure: (
        Annotated[float, Meta(description="Pressure to fill the cold system to (gauge) [Pa]")] | None
    )


class WaterSideInput(Struct, kw_only=True):
    source_output: (
        Annotated[
            float, Meta(description="Least output of a single heat source [W]; at least 500; at most 5e+06")
        ]
        | UnsetType
        | None
    ) = UNSET
    kind: Annotated[
        Literal["small_content", "usual"],
        Meta(
            description="usual, or small_content: less than 0.3 l/kW of water in it, or an electric heater (default usual)"
        ),
    ] = "usual"
    hardness: (
        Annotated[
            float,
            Meta(
                description="Sum of alkaline earths in the water; 1 degree dH is 0.178 mol/m3 [mol/m3]; at least 0; at most 20"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    aluminium: Annotated[
        bool,
        Meta(description="Whether the water touches aluminium (default false)"),
    ] = False
    precharge_pressure: (
        Annotated[
            float,
            Meta(description="Gas pressure of the empty vessel (gauge) [Pa]; at least 10000; at most 1e+06"),
        ]
        | UnsetType
        | None
    ) = UNSET
    fill_pressure: (
        Annotated[
            float,
            Meta(description="Pressure to fill the cold system to (gauge) [Pa]; at least 0; at most 1e+07"),
        ]
        | UnsetType
        | None
    ) = UNSET


class Working(Struct, kw_only=True):
    symbol: Annotated[str, Meta(description="Symbol of the formula")]
    name: Annotated[str, Meta(description="Name for people")]
    value: Annotated[float, Meta(description="The value concerned, in the unit of its quantity [1]")]
    unit: Annotated[str, Meta(description="Unit")]
    formula: Annotated[str, Meta(description="The formula with its symbols")]
    source: Annotated[str, Meta(description="Document, edition and clause, or a named trade practice")]


class AreaQuantities(Struct, kw_only=True):
    area_id: Annotated[str, Meta(description="The id of an area")]
    floor_area: Annotated[float, Meta(description="Floor area net of voids [m2]")]
    measured: Annotated[
        bool,
        Meta(description="Whether boards, film and edge strip were measured on an outline"),
    ]
    pipe_length: Annotated[
        float,
        Meta(description="Pipe that lies in this floor, that of other rooms' tails included [m]"),
    ]
    wall_length: Annotated[float, Meta(description="Walls and voids along which edge strip runs [m]")]
    edge_strip_height: Annotated[float, Meta(description="Height that the edge strip needs [m]")]
    boards: Annotated[list[BoardCount], Meta(description="Boards by layer, from below")]
    film_area: Annotated[float, Meta(description="Film with laps and what is turned up [m2]")]
    film_sheets: Annotated[list[FilmSheet], Meta(description="Sheets of film as they lie")]
    film_lap: Annotated[float, Meta(description="Lap of neighbouring sheets as laid [m]")] | None
    tape_length: Annotated[
        float,
        Meta(description="Tape along laps, and along walls under flowing screed [m]"),
    ]
    screed_volume: Annotated[float, Meta(description="Screed without the pipe in it [m3]")]
    total_screed_mass: Annotated[float, Meta(description="Mass of the screed in all [kg]")]


class Catalogue(Struct, kw_only=True):
    """
    All calculations that the service offers.
    """

    engine_version: Annotated[str, Meta(description="Version of the engine")]
    calculations: Annotated[list[CatalogueEntry], Meta(description="The calculations in a fixed order")]


class Circuit(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    length: Annotated[
        float,
        Meta(description="Length along the pipe's axis, arcs and both tails included [m]"),
    ]
    heat_flow: (
        Annotated[float, Meta(description="Heat that the water gives, to the room and downwards [W]")] | None
    )
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")] | None
    temperature_drop: (
        Annotated[float, Meta(description="Supply minus return temperature of the water [K]")] | None
    )
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")] | None
    bend_allowance: (
        Annotated[float, Meta(description="Addition to the straight pipe's friction for its bends [1]")]
        | None
    )
    bends: (
        Annotated[
            list[CountedBends], Meta(description="Bends counted on the drawing; they replace the allowance")
        ]
        | None
    )
    valve_kv_open: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the presetting valve fully open: m3/h of water at a drop of 1 bar [m3/h]"
            ),
        ]
        | None
    )


class CircuitHydraulics(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    heat_flow: Annotated[
        float,
        Meta(description="Heat that the water gives, to the room and downwards [W]"),
    ]
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")]
    volume_flow: Annotated[
        float,
        Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]"),
    ]
    temperature_drop: Annotated[float, Meta(description="Supply minus return temperature of the water [K]")]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    mean_temperature: Annotated[
        float,
        Meta(description="Mean of the circuit's supply and return temperature [degC]"),
    ]
    density: Annotated[float, Meta(description="Density [kg/m3]")]
    heat_capacity: Annotated[float, Meta(description="Specific heat capacity [J/(kg.K)]")]
    dynamic_viscosity: Annotated[float, Meta(description="Dynamic viscosity [Pa.s]")]
    velocity: Annotated[float, Meta(description="Mean velocity in the bore [m/s]")]
    reynolds: Annotated[float, Meta(description="Reynolds number [1]")]
    regime: Annotated[
        Literal["laminar", "transitional", "turbulent"],
        Meta(
            description="laminar below a Reynolds number of 2000, turbulent from 4000, transitional between"
        ),
    ]
    friction_factor: Annotated[float, Meta(description="Darcy friction factor by Churchill [1]")]
    friction_factor_upper: Annotated[
        float,
        Meta(
            description="Darcy friction factor, the larger of Churchill and Colebrook-White in the transition zone [1]"
        ),
    ]
    pressure_gradient: Annotated[
        float,
        Meta(description="Friction of the straight pipe per length, by Churchill [Pa/m]"),
    ]
    pressure_drop: Annotated[
        float,
        Meta(description="Pressure drop of the pipe with its bends, by Churchill [Pa]"),
    ]
    pressure_drop_upper: Annotated[
        float,
        Meta(description="Pressure drop of the pipe with its bends, upper bound in the transition zone [Pa]"),
    ]
    fixed_pressure_drop: Annotated[float, Meta(description="Pressure drop of the flow meter [Pa]")]
    open_valve_pressure_drop: Annotated[
        float, Meta(description="Pressure drop of the presetting valve fully open [Pa]")
    ]
    valve_pressure_drop: Annotated[
        float,
        Meta(description="Pressure drop that the presetting valve must take up [Pa]"),
    ]
    total_pressure_drop: Annotated[
        float, Meta(description="Pressure drop of pipe, flow meter and set valve [Pa]")
    ]
    valve_kv: Annotated[
        float,
        Meta(
            description="Flow coefficient of the presetting valve as set: m3/h of water at a drop of 1 bar [m3/h]"
        ),
    ]
    valve_setting: Annotated[float, Meta(description="Setting on the valve's own scale [1]")] | None
    valve_authority: Annotated[
        float,
        Meta(description="Pressure drop of the open valve divided by that of the whole circuit [1]"),
    ]
    water_content: Annotated[float, Meta(description="Volume of fluid in the pipe [m3]")]
    open_same_pressure: Annotated[
        OpenFlow,
        Meta(description="Flow with all valves open at the balanced manifold's pressure"),
    ]
    open_same_flow: Annotated[
        OpenFlow,
        Meta(description="Flow with all valves open when the manifold gets its design flow in total"),
    ]


class CircuitInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    length: Annotated[
        float,
        Meta(
            description="Length along the pipe's axis, arcs and both tails included [m]; at least 0.1; at most 1000"
        ),
    ]
    heat_flow: (
        Annotated[
            float,
            Meta(
                description="Heat that the water gives, to the room and downwards [W]; at least 0.1; at most 100000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    mass_flow: (
        Annotated[float, Meta(description="Mass flow of the fluid [kg/s]; at least 1e-06; at most 5")]
        | UnsetType
        | None
    ) = UNSET
    temperature_drop: (
        Annotated[
            float,
            Meta(description="Supply minus return temperature of the water [K]; at least 0.5; at most 30"),
        ]
        | UnsetType
        | None
    ) = UNSET
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] | UnsetType | None = UNSET
    bend_allowance: (
        Annotated[
            float,
            Meta(
                description="Addition to the straight pipe's friction for its bends [1]; at least 0; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    bends: (
        Annotated[
            list[CountedBendsInput],
            Meta(
                description="Bends counted on the drawing; they replace the allowance; at least 0 items; at most 50 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    valve_kv_open: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the presetting valve fully open: m3/h of water at a drop of 1 bar [m3/h]; at least 0.001; at most 100"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class CircuitToLay(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    room: Annotated[str, Meta(description="The id of a room")]
    pieces: Annotated[
        list[PathPiece],
        Meta(description="Straight lines and arcs of the pipe's centre line from flow to return"),
    ]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
        ),
    ]
    port_height: Annotated[
        float,
        Meta(description="Pipe between a port of the manifold and the screed, one way [m]"),
    ]
    storey: Annotated[str, Meta(description="The id of a storey")] | None
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    port: Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]")] | None
    coil: Annotated[str, Meta(description="Number of the coil in the order in which they are opened")] | None
    coil_start_mark: Annotated[
        float,
        Meta(description="Metre mark of the coil at which the circuit's piece begins [m]"),
    ]


class CircuitToLayInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    room: Annotated[
        str,
        Meta(description="The id of a room; at least 0 characters; at most 64 characters"),
    ]
    pieces: Annotated[
        list[PathPieceInput],
        Meta(
            description="Straight lines and arcs of the pipe's centre line from flow to return; at least 1 items; at most 1000 items"
        ),
    ]
    pipe_spacing: Annotated[
        float,
        Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6"),
    ]
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room (default counterflow)"
        ),
    ] = "counterflow"
    port_height: Annotated[
        float,
        Meta(
            description="Pipe between a port of the manifold and the screed, one way (default 0.0) [m]; at least 0; at most 5"
        ),
    ] = 0.0
    storey: (
        Annotated[str, Meta(description="The id of a storey; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    manifold: Annotated[
        str,
        Meta(description="The id of a manifold (default 1); at least 1 characters; at most 64 characters"),
    ] = "1"
    port: (
        Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]; at least 1; at most 256")]
        | UnsetType
        | None
    ) = UNSET
    coil: (
        Annotated[
            str,
            Meta(
                description="Number of the coil in the order in which they are opened; at least 0 characters; at most 16 characters"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    coil_start_mark: Annotated[
        float,
        Meta(
            description="Metre mark of the coil at which the circuit's piece begins (default 0.0) [m]; at least 0; at most 1000"
        ),
    ] = 0.0


class CodeCatalogue(Struct, kw_only=True):
    """
    Every code that answers and problem documents can hold.
    """

    engine_version: Annotated[str, Meta(description="Version of the engine")]
    findings: Annotated[
        list[FindingEntry],
        Meta(description="The findings, in the order in which to deal with them"),
    ]
    refusals: Annotated[list[RefusalEntry], Meta(description="The faults of fields that are refused")]
    cautions: Annotated[list[CautionEntry], Meta(description="The cautions")]


class Commissioning(Struct, kw_only=True):
    pipe_material: Annotated[
        Literal["PB", "PE-RT", "PE-X", "PP-R", "multilayer"],
        Meta(description="Material of the pipe, for its give and its thermal expansion"),
    ]
    leak_test: Annotated[LeakTest, Meta(description="The leak test before the pour")]
    flushing: Annotated[Flushing, Meta(description="How the circuits are flushed")]
    water_side: Annotated[WaterSide, Meta(description="The heat source and the water to fill with")]
    pour_temperature: Annotated[float, Meta(description="Temperature of the fresh screed [degC]")]
    project: Annotated[str, Meta(description="Name of the project, printed on the records")]


class CommissioningInput(Struct, kw_only=True):
    pipe_material: Annotated[
        Literal["PB", "PE-RT", "PE-X", "PP-R", "multilayer"],
        Meta(description="Material of the pipe, for its give and its thermal expansion (default PE-X)"),
    ] = "PE-X"
    leak_test: Annotated[LeakTestInput, Meta(description="The leak test before the pour")] = field(
        default_factory=lambda: convert(
            {
                "medium": "water",
                "operating_pressure": None,
                "component_rating": 600000.0,
                "test_pressure": None,
                "duration": 86400.0,
                "test_temperature": 15.0,
                "temperature_change": 5.0,
                "trapped_air": 0.005,
            },
            type=LeakTestInput,
        )
    )
    flushing: Annotated[FlushingInput, Meta(description="How the circuits are flushed")] = field(
        default_factory=lambda: convert(
            {"velocity": 0.6, "exchanges": 3, "water_temperature": 10.0}, type=FlushingInput
        )
    )
    water_side: Annotated[
        WaterSideInput,
        Meta(description="The heat source and the water to fill with"),
    ] = field(
        default_factory=lambda: convert(
            {
                "source_output": None,
                "kind": "usual",
                "hardness": None,
                "aluminium": False,
                "precharge_pressure": None,
                "fill_pressure": None,
            },
            type=WaterSideInput,
        )
    )
    pour_temperature: Annotated[
        float,
        Meta(description="Temperature of the fresh screed (default 15.0) [degC]; at least 0; at most 40"),
    ] = 15.0
    project: Annotated[
        str,
        Meta(
            description="Name of the project, printed on the records; at least 0 characters; at most 120 characters"
        ),
    ] = ""


class Construction(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    u_value: (
        Annotated[
            float,
            Meta(
                description="Thermal transmittance with both surface resistances; of a floor or wall on ground without the soil [W/(m2.K)]"
            ),
        ]
        | None
    )
    layers: Annotated[list[Layer], Meta(description="Layers of the construction, in order")]
    name: Annotated[str, Meta(description="Name for people")]


class ConstructionInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    u_value: (
        Annotated[
            float,
            Meta(
                description="Thermal transmittance with both surface resistances; of a floor or wall on ground without the soil [W/(m2.K)]; at least 0.01; at most 20"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    layers: Annotated[
        list[LayerInput],
        Meta(description="Layers of the construction, in order; at least 0 items; at most 24 items"),
    ] = field(default_factory=list)
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class CuringPlanInputs(Struct, kw_only=True):
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    thickness: Annotated[
        float,
        Meta(description="Whole thickness of the screed on the insulation, pipe included [m]"),
    ]
    pour_date: Annotated[
        date_aliased,
        Meta(description="Day on which the screed is poured: day 0 of the plan, in 1990 to 2150"),
    ]
    maximum_supply_temperature: Annotated[
        float, Meta(description="Highest supply temperature of the design [degC]")
    ]
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    flexural_class: Annotated[
        Literal["F4", "F5", "F7"],
        Meta(
            description="Flexural strength class of EN 13813; F4 is the lowest and needs the greatest thickness"
        ),
    ]
    pipe_outside_diameter: Annotated[
        float, Meta(description="Outside diameter of the pipe, without a sheath [m]")
    ]
    imposed_load: Annotated[
        float,
        Meta(description="Imposed load on the floor area (2000 in a dwelling) [N/m2]"),
    ]
    concentrated_load: Annotated[
        float,
        Meta(description="Largest single load on the floor; 0 where only the load per area is demanded [N]"),
    ]
    insulation_compressibility: Annotated[
        float,
        Meta(description="Compressibility c of all insulation below the screed together (EN 13163) [m]"),
    ]
    rule_set: Annotated[
        Literal["cautious", "maker", "standard"],
        Meta(
            description="Rules of the first heat-up: standard (EN 1264-4), cautious (longer wait, small steps) or maker (the values of the screed maker's sheet in maker_rules)"
        ),
    ]
    maker_rules: (
        Annotated[
            MakerRules,
            Meta(
                description="The values of the screed maker's sheet; given if and only if rule_set is maker"
            ),
        ]
        | None
    )
    start_temperature: (
        Annotated[float, Meta(description="Supply temperature on the first days of heating [degC]")] | None
    )
    maturity_heating: Annotated[
        bool,
        Meta(description="Whether a second heating period follows before the moisture test"),
    ]
    planned_heating_date: (
        Annotated[
            date_aliased, Meta(description="Day on which the site plans to start heating, in 1990 to 2150")
        ]
        | None
    )
    planned_covering_date: (
        Annotated[
            date_aliased, Meta(description="Day on which the site plans to lay the covering, in 1990 to 2150")
        ]
        | None
    )
    lowest_air_temperature: (
        Annotated[
            float,
            Meta(description="Lowest air temperature expected at the floor between pour and handover [degC]"),
        ]
        | None
    )
    room_areas: Annotated[
        list[float],
        Meta(description="Floor areas of the rooms, for the moisture test points [m2]"),
    ]


class CuringPlanInputsInput(Struct, kw_only=True):
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    thickness: Annotated[
        float,
        Meta(
            description="Whole thickness of the screed on the insulation, pipe included [m]; at least 0.01; at most 0.2"
        ),
    ]
    pour_date: Annotated[
        date_aliased,
        Meta(description="Day on which the screed is poured: day 0 of the plan, in 1990 to 2150"),
    ]
    maximum_supply_temperature: Annotated[
        float,
        Meta(description="Highest supply temperature of the design [degC]; at least 20; at most 90"),
    ]
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    flexural_class: Annotated[
        Literal["F4", "F5", "F7"],
        Meta(
            description="Flexural strength class of EN 13813; F4 is the lowest and needs the greatest thickness (default F4)"
        ),
    ] = "F4"
    pipe_outside_diameter: Annotated[
        float,
        Meta(
            description="Outside diameter of the pipe, without a sheath (default 0.016) [m]; at least 0.008; at most 0.032"
        ),
    ] = 0.016
    imposed_load: Annotated[
        float,
        Meta(
            description="Imposed load on the floor area (2000 in a dwelling) (default 2000.0) [N/m2]; at least 500; at most 50000"
        ),
    ] = 2000.0
    concentrated_load: Annotated[
        float,
        Meta(
            description="Largest single load on the floor; 0 where only the load per area is demanded (default 0.0) [N]; at least 0; at most 50000"
        ),
    ] = 0.0
    insulation_compressibility: Annotated[
        float,
        Meta(
            description="Compressibility c of all insulation below the screed together (EN 13163) (default 0.005) [m]; at least 0; at most 0.03"
        ),
    ] = 0.005
    rule_set: Annotated[
        Literal["cautious", "maker", "standard"],
        Meta(
            description="Rules of the first heat-up: standard (EN 1264-4), cautious (longer wait, small steps) or maker (the values of the screed maker's sheet in maker_rules) (default standard)"
        ),
    ] = "standard"
    maker_rules: (
        Annotated[
            MakerRulesInput,
            Meta(
                description="The values of the screed maker's sheet; given if and only if rule_set is maker"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    start_temperature: (
        Annotated[
            float,
            Meta(
                description="Supply temperature on the first days of heating [degC]; at least 10; at most 60"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    maturity_heating: Annotated[
        bool,
        Meta(description="Whether a second heating period follows before the moisture test (default false)"),
    ] = False
    planned_heating_date: (
        Annotated[
            date_aliased, Meta(description="Day on which the site plans to start heating, in 1990 to 2150")
        ]
        | UnsetType
        | None
    ) = UNSET
    planned_covering_date: (
        Annotated[
            date_aliased, Meta(description="Day on which the site plans to lay the covering, in 1990 to 2150")
        ]
        | UnsetType
        | None
    ) = UNSET
    lowest_air_temperature: (
        Annotated[
            float,
            Meta(
                description="Lowest air temperature expected at the floor between pour and handover [degC]; at least -50; at most 40"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    room_areas: Annotated[
        list[float],
        Meta(
            description="Floor areas of the rooms, for the moisture test points [m2]; at least 0 items; at most 500 items"
        ),
    ] = field(default_factory=list)


class CuringPlanRequest(Struct, kw_only=True):
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    thickness: Annotated[
        float,
        Meta(
            description="Whole thickness of the screed on the insulation, pipe included [m]; at least 0.01; at most 0.2"
        ),
    ]
    pour_date: Annotated[
        date_aliased,
        Meta(description="Day on which the screed is poured: day 0 of the plan, in 1990 to 2150"),
    ]
    maximum_supply_temperature: Annotated[
        float,
        Meta(description="Highest supply temperature of the design [degC]; at least 20; at most 90"),
    ]
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    flexural_class: Annotated[
        Literal["F4", "F5", "F7"],
        Meta(
            description="Flexural strength class of EN 13813; F4 is the lowest and needs the greatest thickness (default F4)"
        ),
    ] = "F4"
    pipe_outside_diameter: Annotated[
        float,
        Meta(
            description="Outside diameter of the pipe, without a sheath (default 0.016) [m]; at least 0.008; at most 0.032"
        ),
    ] = 0.016
    imposed_load: Annotated[
        float,
        Meta(
            description="Imposed load on the floor area (2000 in a dwelling) (default 2000.0) [N/m2]; at least 500; at most 50000"
        ),
    ] = 2000.0
    concentrated_load: Annotated[
        float,
        Meta(
            description="Largest single load on the floor; 0 where only the load per area is demanded (default 0.0) [N]; at least 0; at most 50000"
        ),
    ] = 0.0
    insulation_compressibility: Annotated[
        float,
        Meta(
            description="Compressibility c of all insulation below the screed together (EN 13163) (default 0.005) [m]; at least 0; at most 0.03"
        ),
    ] = 0.005
    rule_set: Annotated[
        Literal["cautious", "maker", "standard"],
        Meta(
            description="Rules of the first heat-up: standard (EN 1264-4), cautious (longer wait, small steps) or maker (the values of the screed maker's sheet in maker_rules) (default standard)"
        ),
    ] = "standard"
    maker_rules: (
        Annotated[
            MakerRulesInput,
            Meta(
                description="The values of the screed maker's sheet; given if and only if rule_set is maker"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    start_temperature: (
        Annotated[
            float,
            Meta(
                description="Supply temperature on the first days of heating [degC]; at least 10; at most 60"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    maturity_heating: Annotated[
        bool,
        Meta(description="Whether a second heating period follows before the moisture test (default false)"),
    ] = False
    planned_heating_date: (
        Annotated[
            date_aliased, Meta(description="Day on which the site plans to start heating, in 1990 to 2150")
        ]
        | UnsetType
        | None
    ) = UNSET
    planned_covering_date: (
        Annotated[
            date_aliased, Meta(description="Day on which the site plans to lay the covering, in 1990 to 2150")
        ]
        | UnsetType
        | None
    ) = UNSET
    lowest_air_temperature: (
        Annotated[
            float,
            Meta(
                description="Lowest air temperature expected at the floor between pour and handover [degC]; at least -50; at most 40"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    room_areas: Annotated[
        list[float],
        Meta(
            description="Floor areas of the rooms, for the moisture test points [m2]; at least 0 items; at most 500 items"
        ),
    ] = field(default_factory=list)
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class DesignComparison(Struct, kw_only=True):
    former_version: Annotated[str, Meta(description="Version of the engine that made the former design")]
    kept: Annotated[
        bool,
        Meta(description="Whether the former decisions were kept where they still hold"),
    ]
    asked: Annotated[
        list[DesignChange],
        Meta(description="What the request asks for that is another"),
    ]
    decisions: Annotated[list[DesignChange], Meta(description="Decisions that are others")]
    figures: Annotated[
        list[DesignChange],
        Meta(description="Figures that are others by more than can be seen on site"),
    ]
    findings: Annotated[list[FindingChange], Meta(description="Findings that are new, gone or others")]
    unchanged_rooms: Annotated[
        list[str],
        Meta(description="The ids of the rooms in which nothing is laid otherwise"),
    ]


class DesignObjective(Struct, kw_only=True):
    least: Annotated[
        Literal["cost_of_use", "material", "pump_power", "supply_temperature"],
        Meta(
            description="supply_temperature; material: pipe, or its price with prices; pump_power; cost_of_use: material and the electricity of all years"
        ),
    ]
    prices: (
        Annotated[
            OptionPrices, Meta(description="Prices of the material; without them metres of pipe are counted")
        ]
        | None
    )
    heat_pump: (
        Annotated[
            HeatPump, Meta(description="What the source makes of electricity, for energy and cost of a year")
        ]
        | None
    )
    coverings: Annotated[
        list[CoveringOption],
        Meta(description="Coverings that rooms may have in place of their own"),
    ]
    patterns: Annotated[
        list[PatternOption],
        Meta(description="Patterns that rooms may have in place of their own"),
    ]
    strips: Annotated[list[StripOption], Meta(description="Strips of closer pipe that rooms may have")]
    maximum_surface_range: (
        Annotated[
            float,
            Meta(description="How much warmer a floor may be at one end than at the other; null: any [K]"),
        ]
        | None
    )
    temperature_drops: Annotated[
        list[float],
        Meta(description="Temperature drops of the governing room to look at in place of the source's [K]"),
    ]
    pump_stages: Annotated[
        list[PumpStage],
        Meta(description="Settings of the pump; none: any pressure within the limits"),
    ]


class DesignObjectiveInput(Struct, kw_only=True):
    least: Annotated[
        Literal["cost_of_use", "material", "pump_power", "supply_temperature"],
        Meta(
            description="supply_temperature; material: pipe, or its price with prices; pump_power; cost_of_use: material and the electricity of all years"
        ),
    ]
    prices: (
        Annotated[
            OptionPricesInput,
            Meta(description="Prices of the material; without them metres of pipe are counted"),
        ]
        | UnsetType
        | None
    ) = UNSET
    heat_pump: (
        Annotated[
            HeatPumpInput,
            Meta(description="What the source makes of electricity, for energy and cost of a year"),
        ]
        | UnsetType
        | None
    ) = UNSET
    coverings: Annotated[
        list[CoveringOptionInput],
        Meta(
            description="Coverings that rooms may have in place of their own; at least 0 items; at most 6 items"
        ),
    ] = field(default_factory=list)
    patterns: Annotated[
        list[PatternOptionInput],
        Meta(
            description="Patterns that rooms may have in place of their own; at least 0 items; at most 4 items"
        ),
    ] = field(default_factory=list)
    strips: Annotated[
        list[StripOptionInput],
        Meta(description="Strips of closer pipe that rooms may have; at least 0 items; at most 128 items"),
    ] = field(default_factory=list)
    maximum_surface_range: (
        Annotated[
            float,
            Meta(
                description="How much warmer a floor may be at one end than at the other; null: any [K]; at least 0.1; at most 15"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    temperature_drops: Annotated[
        list[float],
        Meta(
            description="Temperature drops of the governing room to look at in place of the source's [K]; at least 0 items; at most 4 items"
        ),
    ] = field(default_factory=list)
    pump_stages: Annotated[
        list[PumpStageInput],
        Meta(
            description="Settings of the pump; none: any pressure within the limits; at least 0 items; at most 6 items"
        ),
    ] = field(default_factory=list)


class DesignRoom(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    build_up: Annotated[str, Meta(description="The id of the room's build-up")]
    heat_demand: (
        Annotated[
            float,
            Meta(description="Heat that the room needs, without the loss through its own heated floor [W]"),
        ]
        | None
    )
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(description="Corners of the outline in order, without repeating the first [m]"),
        ]
        | None
    )
    voids: Annotated[list[list[Void]], Meta(description="Rings of areas that stay free of pipe [m]")]
    area: Annotated[float, Meta(description="Floor area [m2]")] | None
    name: Annotated[str, Meta(description="Name for people")]
    use: Annotated[
        Literal["bathroom", "occupied"],
        Meta(
            description="occupied, or bathroom: its surface may be 9 K above the room, see also counts_for_supply"
        ),
    ]
    room_temperature: Annotated[float, Meta(description="Design temperature of the room [degC]")]
    entry: (
        Annotated[
            Entry,
            Meta(
                description="Where the pipes come into the room, x and y [m]; at least 2 items; at most 2 items"
            ),
        ]
        | None
    )
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
        ),
    ]
    tail_length: (
        Annotated[
            float,
            Meta(
                description="One way from the manifold to the field; counted twice, for flow and return [m]"
            ),
        ]
        | None
    )
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")] | None
    surface_temperature_limit: (
        Annotated[float, Meta(description="Highest permitted floor surface temperature [degC]")] | None
    )
    storey: Annotated[str, Meta(description="The id of a storey")] | None
    manifold: Annotated[str, Meta(description="The id of a manifold")] | None
    movement_joints: Annotated[
        list[list[MovementJoint]],
        Meta(description="Movement joints of the screed, each a line of points [m]"),
    ]
    counts_for_supply: (
        Annotated[
            bool,
            Meta(
                description="Whether the room counts when the common supply is chosen; null: a bathroom does not, any other room does"
            ),
        ]
        | None
    )
    peripheral: (
        Annotated[PeripheralStrip, Meta(description="A strip along outside walls with closer pipe")] | None
    )


class DesignRoomInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    build_up: Annotated[
        str,
        Meta(description="The id of the room's build-up; at least 1 characters; at most 64 characters"),
    ]
    heat_demand: (
        Annotated[
            float,
            Meta(
                description="Heat that the room needs, without the loss through its own heated floor [W]; at least 1; at most 500000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(
                description="Corners of the outline in order, without repeating the first [m]; at least 3 items; at most 256 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    voids: Annotated[
        list[list[Void]],
        Meta(description="Rings of areas that stay free of pipe [m]; at least 0 items; at most 32 items"),
    ] = field(default_factory=list)
    area: (
        Annotated[float, Meta(description="Floor area [m2]; at least 0.05; at most 10000")] | UnsetType | None
    ) = UNSET
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""
    use: Annotated[
        Literal["bathroom", "occupied"],
        Meta(
            description="occupied, or bathroom: its surface may be 9 K above the room, see also counts_for_supply (default occupied)"
        ),
    ] = "occupied"
    room_temperature: Annotated[
        float,
        Meta(description="Design temperature of the room (default 20.0) [degC]; at least -10; at most 45"),
    ] = 20.0
    entry: (
        Annotated[
            Entry,
            Meta(
                description="Where the pipes come into the room, x and y [m]; at least 2 items; at most 2 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room (default counterflow)"
        ),
    ] = "counterflow"
    tail_length: (
        Annotated[
            float,
            Meta(
                description="One way from the manifold to the field; counted twice, for flow and return [m]; at least 0; at most 200"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    pipe_spacing: (
        Annotated[float, Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6")]
        | UnsetType
        | None
    ) = UNSET
    surface_temperature_limit: (
        Annotated[
            float,
            Meta(description="Highest permitted floor surface temperature [degC]; at least -10; at most 60"),
        ]
        | UnsetType
        | None
    ) = UNSET
    storey: (
        Annotated[str, Meta(description="The id of a storey; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    manifold: (
        Annotated[str, Meta(description="The id of a manifold; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    movement_joints: Annotated[
        list[list[MovementJoint]],
        Meta(
            description="Movement joints of the screed, each a line of points [m]; at least 0 items; at most 16 items"
        ),
    ] = field(default_factory=list)
    counts_for_supply: (
        Annotated[
            bool,
            Meta(
                description="Whether the room counts when the common supply is chosen; null: a bathroom does not, any other room does"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    peripheral: (
        Annotated[PeripheralStripInput, Meta(description="A strip along outside walls with closer pipe")]
        | UnsetType
        | None
    ) = UNSET


class DesignScreed(Struct, kw_only=True):
    pour_date: Annotated[
        date_aliased,
        Meta(description="Day on which the screed is poured: day 0 of the plan, in 1990 to 2150"),
    ]
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    flexural_class: Annotated[
        Literal["F4", "F5", "F7"],
        Meta(
            description="Flexural strength class of EN 13813; F4 is the lowest and needs the greatest thickness"
        ),
    ]
    imposed_load: Annotated[
        float,
        Meta(description="Imposed load on the floor area (2000 in a dwelling) [N/m2]"),
    ]
    rule_set: Annotated[
        Literal["cautious", "maker", "standard"],
        Meta(
            description="Rules of the first heat-up: standard (EN 1264-4), cautious (longer wait, small steps) or maker (the values of the screed maker's sheet in maker_rules)"
        ),
    ]
    maker_rules: (
        Annotated[
            MakerRules,
            Meta(
                description="The values of the screed maker's sheet; given if and only if rule_set is maker"
            ),
        ]
        | None
    )
    lowest_air_temperature: (
        Annotated[
            float,
            Meta(description="Lowest air temperature expected at the floor between pour and handover [degC]"),
        ]
        | None
    )


class DesignScreedInput(Struct, kw_only=True):
    pour_date: Annotated[
        date_aliased,
        Meta(description="Day on which the screed is poured: day 0 of the plan, in 1990 to 2150"),
    ]
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560) (default cement)"
        ),
    ] = "cement"
    flexural_class: Annotated[
        Literal["F4", "F5", "F7"],
        Meta(
            description="Flexural strength class of EN 13813; F4 is the lowest and needs the greatest thickness (default F4)"
        ),
    ] = "F4"
    imposed_load: Annotated[
        float,
        Meta(
            description="Imposed load on the floor area (2000 in a dwelling) (default 2000.0) [N/m2]; at least 500; at most 50000"
        ),
    ] = 2000.0
    rule_set: Annotated[
        Literal["cautious", "maker", "standard"],
        Meta(
            description="Rules of the first heat-up: standard (EN 1264-4), cautious (longer wait, small steps) or maker (the values of the screed maker's sheet in maker_rules) (default standard)"
        ),
    ] = "standard"
    maker_rules: (
        Annotated[
            MakerRulesInput,
            Meta(
                description="The values of the screed maker's sheet; given if and only if rule_set is maker"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    lowest_air_temperature: (
        Annotated[
            float,
            Meta(
                description="Lowest air temperature expected at the floor between pour and handover [degC]; at least -50; at most 40"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class DrawnCircuit(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    port: Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]")]
    room: Annotated[str, Meta(description="The id of a room")]
    length: Annotated[
        float,
        Meta(description="Length of the pipe's centre line as drawn, from entry to entry [m]"),
    ]
    field_length: Annotated[float, Meta(description="Pipe in the heated field, without the tails [m]")]
    pieces: Annotated[
        list[PathPiece],
        Meta(description="Straight lines and arcs of the pipe's centre line from flow to return"),
    ]
    manifold: Annotated[str, Meta(description="The id of a manifold")]


class EdgeResult(Struct, kw_only=True):
    bay_width: Annotated[
        float,
        Meta(description="From the edge to midway between the outermost pipe and the next [m]"),
    ]
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    downward_heat_loss: Annotated[float, Meta(description="Heat lost downwards per floor area [W/m2]")]
    edge_heat_loss: Annotated[float, Meta(description="Heat lost through the edge per length of it [W/m]")]
    water_heat: Annotated[float, Meta(description="Heat that the water gives per floor area [W/m2]")]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    lowest_surface_temperature: Annotated[float, Meta(description="Lowest floor surface temperature [degC]")]
    surface_profile: Annotated[
        list[ProfilePoint],
        Meta(description="Floor surface from the pipe to midway to the next, or from the edge on"),
    ]


class ExplainedFinding(Struct, kw_only=True):
    """
    One kind of finding, and a request that leads to it.
    """

    finding: Annotated[FindingEntry, Meta(description="The kind of finding")]
    example: (
        Annotated[
            FindingExample,
            Meta(description="The request; null for a guard, and where only slow ones are known"),
        ]
        | None
    )


class FieldError(Struct, kw_only=True):
    """
    One thing wrong with one field of the request. The value that was sent is never repeated.
    """

    pointer: Annotated[
        str,
        Meta(description="JSON pointer (RFC 6901) into the request; empty for the whole body"),
    ]
    code: Annotated[str, Meta(description="Stable code of the fault")]
    detail: Annotated[
        str,
        Meta(description="What is wrong, with the unit of the field where it has one"),
    ]
    limit: (
        Annotated[float, Meta(description="The bound that was missed, in the unit of the field")]
        | UnsetType
        | None
    ) = UNSET
    changes: Annotated[
        list[Operation],
        Meta(
            description="A JSON Patch (RFC 6902) of the request that mends this fault, and all that belongs to it; missing where no answer is ready"
        ),
    ] = field(default_factory=list)


class Filling(Struct, kw_only=True):
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")]
    precharge_pressure: (
        Annotated[float, Meta(description="Gas pressure of the empty vessel (gauge) [Pa]")] | None
    )
    fill_pressure: (
        Annotated[float, Meta(description="Pressure to fill the cold system to (gauge) [Pa]")] | None
    )
    steps: Annotated[list[FillingStep], Meta(description="Steps in order")]


class Finding(Struct, kw_only=True):
    code: Annotated[str, Meta(description="Code that stays the same from release to release")]
    severity: Annotated[
        Literal["note", "violation", "warning"],
        Meta(
            description="note (worth knowing), warning (have a second look) or violation (do not build it like this)"
        ),
    ]
    where: Annotated[
        str,
        Meta(description="JSON pointer (RFC 6901) to what the finding is about, into the document where_in"),
    ]
    where_in: Annotated[
        Literal["answer", "request"],
        Meta(
            description="request: your request, or where you left the field out the inputs of the answer; answer: the answer"
        ),
    ]
    message: Annotated[str, Meta(description="The same in words")]
    value: Annotated[float, Meta(description="The value concerned, in the unit of its quantity [1]")] | None
    limit: Annotated[float, Meta(description="The limit concerned, in the unit of its quantity [1]")] | None
    quantity: (
        Annotated[str, Meta(description="What value and limit are of: a field name, such as volume_flow")]
        | None
    )
    unit: Annotated[str, Meta(description="Unit")] | None
    source: Annotated[str, Meta(description="Document, edition and clause, or a named trade practice")] | None
    places: Annotated[
        list[FindingPlace],
        Meta(description="Every place that the finding holds for, the worst first"),
    ]


class FindingTolerance(Struct, kw_only=True):
    room: Annotated[str, Meta(description="The id of a room")]
    name: Annotated[str, Meta(description="Name for people")]
    tolerable_rise: (
        Annotated[
            float,
            Meta(
                description="Greatest rise of the demand with the same findings; null: none changes up to twice of it [1]"
            ),
        ]
        | None
    )
    changes: Annotated[
        list[ToleranceChange],
        Meta(description="Findings that are new or gone just above"),
    ]


class FloorSectionInputs(Struct, kw_only=True):
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    screed_cover: Annotated[float, Meta(description="Screed above the top of the pipe [m]")]
    layers_below: Annotated[
        list[SectionLayer],
        Meta(description="Layers under the screed, from the insulation downwards"),
    ]
    water_temperature: Annotated[float, Meta(description="Mean temperature of the water in the pipe [degC]")]
    screed_conductivity: Annotated[float, Meta(description="Thermal conductivity of the screed [W/(m.K)]")]
    screed_thickness: (
        Annotated[
            float,
            Meta(
                description="Whole thickness of the screed; cover and pipe if not given, so that the pipe lies below [m]"
            ),
        ]
        | None
    )
    screed_heat_capacity: Annotated[
        float, Meta(description="Heat capacity of the screed per volume [J/(m3.K)]")
    ]
    layers_above: Annotated[
        list[SectionLayer],
        Meta(description="Layers between screed and covering, from the screed upwards"),
    ]
    covering_resistance: Annotated[
        float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")
    ]
    surface_resistance_below: Annotated[
        float,
        Meta(description="Surface resistance of the ceiling below: 0.17 over a room, 0 over ground [m2.K/W]"),
    ]
    room_temperature: Annotated[float, Meta(description="Design temperature of the room [degC]")]
    temperature_below: Annotated[float, Meta(description="Temperature below the floor [degC]")] | None
    surface_exchange: Annotated[
        Literal["basic_curve", "constant", "given"],
        Meta(
            description="Heat transfer to the room by convection and radiation: constant 10.8 W/(m2.K), by the basic characteristic curve of EN 1264-2, or as given"
        ),
    ]
    surface_coefficient: (
        Annotated[float, Meta(description="Heat transfer from the floor surface to the room [W/(m2.K)]")]
        | None
    )
    water_velocity: Annotated[
        float,
        Meta(description="Mean velocity of the water, for the film on the bore [m/s]"),
    ]
    film_coefficient: (
        Annotated[
            float,
            Meta(
                description="Heat transfer from the water to the bore; from the velocity if not given [W/(m2.K)]"
            ),
        ]
        | None
    )
    cold_edge: Annotated[ColdEdge, Meta(description="The cold edge of the outermost bay")] | None
    warm_up: Annotated[WarmUp, Meta(description="The section in time, from cold")] | None
    compared_spacings: Annotated[
        list[float],
        Meta(description="Further distances between pipe centres at which the floor is solved [m]"),
    ]
    compared_water_temperatures: Annotated[
        list[float],
        Meta(description="Further mean temperatures of the water with which the floor is solved [degC]"),
    ]


class FloorSectionRequest(Struct, kw_only=True):
    pipe_spacing: Annotated[
        float,
        Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6"),
    ]
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")]
    screed_cover: Annotated[
        float,
        Meta(description="Screed above the top of the pipe [m]; at least 0.005; at most 0.3"),
    ]
    layers_below: Annotated[
        list[SectionLayerInput],
        Meta(
            description="Layers under the screed, from the insulation downwards; at least 0 items; at most 6 items"
        ),
    ]
    water_temperature: Annotated[
        float,
        Meta(description="Mean temperature of the water in the pipe [degC]; at least -10; at most 95"),
    ]
    screed_conductivity: Annotated[
        float,
        Meta(
            description="Thermal conductivity of the screed (default 1.2) [W/(m.K)]; at least 0.2; at most 5"
        ),
    ] = 1.2
    screed_thickness: (
        Annotated[
            float,
            Meta(
                description="Whole thickness of the screed; cover and pipe if not given, so that the pipe lies below [m]; at least 0.013; at most 0.5"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    screed_heat_capacity: Annotated[
        float,
        Meta(
            description="Heat capacity of the screed per volume (default 2100000.0) [J/(m3.K)]; at least 100000; at most 1e+07"
        ),
    ] = 2100000.0
    layers_above: Annotated[
        list[SectionLayerInput],
        Meta(
            description="Layers between screed and covering, from the screed upwards; at least 0 items; at most 6 items"
        ),
    ] = field(default_factory=list)
    covering_resistance: Annotated[
        float,
        Meta(
            description="Thermal resistance of the floor covering (default 0.1) [m2.K/W]; at least 0; at most 1"
        ),
    ] = 0.1
    surface_resistance_below: Annotated[
        float,
        Meta(
            description="Surface resistance of the ceiling below: 0.17 over a room, 0 over ground (default 0.17) [m2.K/W]; at least 0; at most 1"
        ),
    ] = 0.17
    room_temperature: Annotated[
        float,
        Meta(description="Design temperature of the room (default 20.0) [degC]; at least -10; at most 45"),
    ] = 20.0
    temperature_below: (
        Annotated[float, Meta(description="Temperature below the floor [degC]; at least -50; at most 60")]
        | UnsetType
        | None
    ) = UNSET
    surface_exchange: Annotated[
        Literal["basic_curve", "constant", "given"],
        Meta(
            description="Heat transfer to the room by convection and radiation: constant 10.8 W/(m2.K), by the basic characteristic curve of EN 1264-2, or as given (default constant)"
        ),
    ] = "constant"
    surface_coefficient: (
        Annotated[
            float,
            Meta(
                description="Heat transfer from the floor surface to the room [W/(m2.K)]; at least 0.5; at most 100"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    water_velocity: Annotated[
        float,
        Meta(
            description="Mean velocity of the water, for the film on the bore (default 0.3) [m/s]; at least 0.001; at most 5"
        ),
    ] = 0.3
    film_coefficient: (
        Annotated[
            float,
            Meta(
                description="Heat transfer from the water to the bore; from the velocity if not given [W/(m2.K)]; at least 20; at most 1e+06"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    cold_edge: (
        Annotated[ColdEdgeInput, Meta(description="The cold edge of the outermost bay")] | UnsetType | None
    ) = UNSET
    warm_up: Annotated[WarmUpInput, Meta(description="The section in time, from cold")] | UnsetType | None = (
        UNSET
    )
    compared_spacings: Annotated[
        list[float],
        Meta(
            description="Further distances between pipe centres at which the floor is solved [m]; at least 0 items; at most 12 items"
        ),
    ] = field(default_factory=list)
    compared_water_temperatures: Annotated[
        list[float],
        Meta(
            description="Further mean temperatures of the water with which the floor is solved [degC]; at least 0 items; at most 12 items"
        ),
    ] = field(default_factory=list)
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class FormerFinding(Struct, kw_only=True):
    code: Annotated[str, Meta(description="Code that stays the same from release to release")]
    severity: Annotated[
        Literal["note", "violation", "warning"],
        Meta(
            description="note (worth knowing), warning (have a second look) or violation (do not build it like this)"
        ),
    ]
    where: Annotated[
        str,
        Meta(description="JSON pointer (RFC 6901) to what the finding is about, into the document where_in"),
    ]
    message: Annotated[str, Meta(description="The same in words")]
    places: Annotated[list[FormerPlace], Meta(description="Every place that it held for")]


class FormerFindingInput(Struct, kw_only=True):
    code: Annotated[
        str,
        Meta(
            description="Code that stays the same from release to release; at least 0 characters; at most 64 characters"
        ),
    ]
    severity: Annotated[
        Literal["note", "violation", "warning"],
        Meta(
            description="note (worth knowing), warning (have a second look) or violation (do not build it like this)"
        ),
    ]
    where: Annotated[
        str,
        Meta(
            description="JSON pointer (RFC 6901) to what the finding is about, into the document where_in; at least 0 characters; at most 400 characters"
        ),
    ] = ""
    message: Annotated[
        str,
        Meta(description="The same in words; at least 0 characters; at most 2000 characters"),
    ] = ""
    places: Annotated[
        list[FormerPlaceInput],
        Meta(description="Every place that it held for; at least 0 items; at most 1000 items"),
    ] = field(default_factory=list)


class FormerLayout(Struct, kw_only=True):
    placed_manifolds: Annotated[
        list[FormerManifold],
        Meta(description="The manifolds of the storeys that are drawn"),
    ]


class FormerLayoutInput(Struct, kw_only=True):
    placed_manifolds: Annotated[
        list[FormerManifoldInput],
        Meta(description="The manifolds of the storeys that are drawn; at least 0 items; at most 16 items"),
    ] = field(default_factory=list)


class FormerMaterials(Struct, kw_only=True):
    quantities: Annotated[list[FormerQuantity], Meta(description="Lines of the order")]


class FormerMaterialsInput(Struct, kw_only=True):
    quantities: Annotated[
        list[FormerQuantityInput],
        Meta(description="Lines of the order; at least 0 items; at most 200 items"),
    ] = field(default_factory=list)


class FormerStrip(Struct, kw_only=True):
    strip: Annotated[
        PeripheralStrip,
        Meta(description="A strip along outside walls with closer pipe"),
    ]


class FormerStripInput(Struct, kw_only=True):
    strip: Annotated[
        PeripheralStripInput,
        Meta(description="A strip along outside walls with closer pipe"),
    ]


class HeatLossRoom(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    room_temperature: Annotated[float, Meta(description="Design temperature of the room [degC]")]
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(description="Corners of the outline in order, without repeating the first [m]"),
        ]
        | None
    )
    voids: Annotated[list[list[Void]], Meta(description="Rings of areas that stay free of pipe [m]")]
    area: Annotated[float, Meta(description="Floor area [m2]")] | None
    storey_height: (
        Annotated[
            float,
            Meta(description="From floor to floor: height of the walls that follow from an outline [m]"),
        ]
        | None
    )
    room_height: (
        Annotated[float, Meta(description="Clear height of the room, for its volume of air [m]")] | None
    )
    depth_below_ground: Annotated[
        float,
        Meta(description="How deep the room's floor lies below the ground outside [m]"),
    ]
    walls: Annotated[list[Wall], Meta(description="The walls along the edges of the outline")]
    floors: Annotated[list[Slab], Meta(description="What lies below the outline")]
    ceilings: Annotated[list[Slab], Meta(description="What lies above the outline")]
    elements: Annotated[list[Element], Meta(description="Elements given by their area")]
    heated_floor: Annotated[
        bool,
        Meta(
            description="Whether the room's floor is heated: what is lost through it is then shown separately"
        ),
    ]
    air_change: (
        Annotated[float, Meta(description="Outside air by leaks and windows, in volumes of the room [1/h]")]
        | None
    )
    air_flow: Annotated[float, Meta(description="Air supplied to the room by a fan [m3/s]")] | None
    supply_air_temperature: (
        Annotated[float, Meta(description="Temperature of the air supplied by the fan [degC]")] | None
    )
    reheat_per_area: Annotated[
        float,
        Meta(description="Extra power per floor area to warm up after a setback [W/m2]"),
    ]


class HeatLossRoomInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""
    room_temperature: Annotated[
        float,
        Meta(description="Design temperature of the room (default 20.0) [degC]; at least -10; at most 45"),
    ] = 20.0
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(
                description="Corners of the outline in order, without repeating the first [m]; at least 3 items; at most 256 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    voids: Annotated[
        list[list[Void]],
        Meta(description="Rings of areas that stay free of pipe [m]; at least 0 items; at most 32 items"),
    ] = field(default_factory=list)
    area: (
        Annotated[float, Meta(description="Floor area [m2]; at least 0.05; at most 10000")] | UnsetType | None
    ) = UNSET
    storey_height: (
        Annotated[
            float,
            Meta(
                description="From floor to floor: height of the walls that follow from an outline [m]; at least 1.5; at most 20"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    room_height: (
        Annotated[
            float,
            Meta(description="Clear height of the room, for its volume of air [m]; at least 1.5; at most 20"),
        ]
        | UnsetType
        | None
    ) = UNSET
    depth_below_ground: Annotated[
        float,
        Meta(
            description="How deep the room's floor lies below the ground outside (default 0.0) [m]; at least 0; at most 20"
        ),
    ] = 0.0
    walls: Annotated[
        list[WallInput],
        Meta(description="The walls along the edges of the outline; at least 0 items; at most 256 items"),
    ] = field(default_factory=list)
    floors: Annotated[
        list[SlabInput],
        Meta(description="What lies below the outline; at least 0 items; at most 16 items"),
    ] = field(default_factory=list)
    ceilings: Annotated[
        list[SlabInput],
        Meta(description="What lies above the outline; at least 0 items; at most 16 items"),
    ] = field(default_factory=list)
    elements: Annotated[
        list[ElementInput],
        Meta(description="Elements given by their area; at least 0 items; at most 256 items"),
    ] = field(default_factory=list)
    heated_floor: Annotated[
        bool,
        Meta(
            description="Whether the room's floor is heated: what is lost through it is then shown separately (default true)"
        ),
    ] = True
    air_change: (
        Annotated[
            float,
            Meta(
                description="Outside air by leaks and windows, in volumes of the room [1/h]; at least 0; at most 20"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    air_flow: (
        Annotated[
            float, Meta(description="Air supplied to the room by a fan [m3/s]; at least 0; at most 100")
        ]
        | UnsetType
        | None
    ) = UNSET
    supply_air_temperature: (
        Annotated[
            float,
            Meta(description="Temperature of the air supplied by the fan [degC]; at least -60; at most 60"),
        ]
        | UnsetType
        | None
    ) = UNSET
    reheat_per_area: Annotated[
        float,
        Meta(
            description="Extra power per floor area to warm up after a setback (default 0.0) [W/m2]; at least 0; at most 200"
        ),
    ] = 0.0


class HeatOutputInputs(Struct, kw_only=True):
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    screed_cover: Annotated[float, Meta(description="Screed above the top of the pipe [m]")]
    resistance_below: Annotated[
        float,
        Meta(
            description="Thermal resistance from the pipes down to temperature_below, surface resistance of the ceiling below (0.17 over a room, 0 over ground) included [m2.K/W]"
        ),
    ]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    screed_conductivity: Annotated[float, Meta(description="Thermal conductivity of the screed [W/(m.K)]")]
    covering_resistance: Annotated[
        float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")
    ]
    room_temperature: Annotated[float, Meta(description="Design temperature of the room [degC]")]
    temperature_below: Annotated[float, Meta(description="Temperature below the floor [degC]")] | None
    surface_temperature_limit: (
        Annotated[float, Meta(description="Highest permitted floor surface temperature [degC]")] | None
    )
    method: Annotated[
        Literal["automatic", "section", "standard"],
        Meta(
            description="standard: EN 1264-2; section: the solved section leads; automatic: the standard, with the section beside it beyond the tables and with poor insulation below, where the section leads if the standard promises too much"
        ),
    ]


class HeatOutputRequest(Struct, kw_only=True):
    pipe_spacing: Annotated[
        float,
        Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6"),
    ]
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")]
    screed_cover: Annotated[
        float,
        Meta(description="Screed above the top of the pipe [m]; at least 0.005; at most 0.3"),
    ]
    resistance_below: Annotated[
        float,
        Meta(
            description="Thermal resistance from the pipes down to temperature_below, surface resistance of the ceiling below (0.17 over a room, 0 over ground) included [m2.K/W]; at least 0.05; at most 50"
        ),
    ]
    supply_temperature: Annotated[
        float,
        Meta(description="Water temperature into the circuit [degC]; at least -10; at most 95"),
    ]
    return_temperature: Annotated[
        float,
        Meta(description="Water temperature out of the circuit [degC]; at least -10; at most 95"),
    ]
    screed_conductivity: Annotated[
        float,
        Meta(
            description="Thermal conductivity of the screed (default 1.2) [W/(m.K)]; at least 0.2; at most 5"
        ),
    ] = 1.2
    covering_resistance: Annotated[
        float,
        Meta(
            description="Thermal resistance of the floor covering (default 0.1) [m2.K/W]; at least 0; at most 1"
        ),
    ] = 0.1
    room_temperature: Annotated[
        float,
        Meta(description="Design temperature of the room (default 20.0) [degC]; at least -10; at most 45"),
    ] = 20.0
    temperature_below: (
        Annotated[float, Meta(description="Temperature below the floor [degC]; at least -50; at most 60")]
        | UnsetType
        | None
    ) = UNSET
    surface_temperature_limit: (
        Annotated[
            float,
            Meta(description="Highest permitted floor surface temperature [degC]; at least -10; at most 60"),
        ]
        | UnsetType
        | None
    ) = UNSET
    method: Annotated[
        Literal["automatic", "section", "standard"],
        Meta(
            description="standard: EN 1264-2; section: the solved section leads; automatic: the standard, with the section beside it beyond the tables and with poor insulation below, where the section leads if the standard promises too much (default automatic)"
        ),
    ] = "automatic"
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class HeatOutputResponse(Struct, kw_only=True):
    inputs: Annotated[HeatOutputInputs, Meta(description="The inputs as used, defaults filled in")]
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    heat_transmittance: Annotated[
        float,
        Meta(description="Heat output per kelvin of mean excess temperature [W/(m2.K)]"),
    ]
    mean_excess_temperature: Annotated[
        float, Meta(description="Logarithmic mean of water minus room temperature [K]")
    ]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    limit_heat_output: Annotated[
        float,
        Meta(description="Heat output at which the surface limit is reached [W/m2]"),
    ]
    limit_excess_temperature: Annotated[
        float, Meta(description="Mean excess temperature at the limit heat output [K]")
    ]
    heat_output_margin: Annotated[float, Meta(description="Limit heat output minus heat output [W/m2]")]
    maximum_heat_output: Annotated[
        float,
        Meta(description="Heat output of any floor whose whole surface is at the surface limit [W/m2]"),
    ]
    downward_heat_loss: Annotated[float, Meta(description="Heat lost downwards per floor area [W/m2]")]
    total_heat_output: Annotated[
        float,
        Meta(description="Heat from the water per floor area, up and down [W/m2]"),
    ]
    factors: Annotated[Factors, Meta(description="The factors of the calculation")] | None
    leading_method: Annotated[
        Literal["section", "standard"],
        Meta(description="The method that gave the numbers outside by_standard and by_section"),
    ]
    by_standard: (
        Annotated[OutputByMethod, Meta(description="Result by EN 1264-2; null where it has no value")] | None
    )
    by_section: (
        Annotated[
            OutputByMethod, Meta(description="What the solved section says; null when it was not needed")
        ]
        | None
    )
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class HeatingSeasonResult(Struct, kw_only=True):
    curve: Annotated[
        HeatingCurve,
        Meta(description="Supply temperature over outside temperature, as controls take it"),
    ]
    bins: Annotated[
        list[SeasonBin],
        Meta(description="The house at each outside temperature, in the order of the request"),
    ]
    rooms: Annotated[list[SeasonRoom], Meta(description="The rooms through the season")]
    heating_hours: Annotated[float, Meta(description="Hours that are heated [h]")]
    heat: Annotated[float, Meta(description="Heat that is given in these hours [kWh]")]
    mean_supply_temperature: Annotated[float, Meta(description="Mean over the heating hours [degC]")] | None
    mean_flow_share: Annotated[float, Meta(description="Mean over the heating hours [1]")] | None
    pump_energy: Annotated[
        float,
        Meta(description="What the pump gives to the water in the heating hours [kWh]"),
    ]
    electricity: Annotated[float, Meta(description="Electricity of a year [kWh]")] | None
    seasonal_performance: (
        Annotated[float, Meta(description="Heat of the year over its electricity [1]")] | None
    )
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]


class HydraulicsInputs(Struct, kw_only=True):
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    circuits: Annotated[list[Circuit], Meta(description="The circuits of one manifold")]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    temperature_drop: Annotated[float, Meta(description="Supply minus return temperature of the water [K]")]
    fluid: Annotated[Fluid, Meta(description="The fluid in the circuits")]
    bend_allowance: Annotated[
        float,
        Meta(description="Addition to the straight pipe's friction for its bends [1]"),
    ]
    valve_kv_open: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the presetting valve fully open: m3/h of water at a drop of 1 bar [m3/h]"
            ),
        ]
        | None
    )
    flow_meter_kv: (
        Annotated[
            float,
            Meta(description="Flow coefficient of the flow meter: m3/h of water at a drop of 1 bar [m3/h]"),
        ]
        | None
    )
    valve_table: Annotated[
        list[ValveSetting],
        Meta(description="The valve maker's settings and flow coefficients, both rising"),
    ]
    manifold_pressure_drop: Annotated[
        float,
        Meta(description="Pressure drop of the manifold's bars and shut-off valves [Pa]"),
    ]
    mains_pressure_drop: Annotated[
        float,
        Meta(description="Pressure drop of mains, mixing set and source that the same pump overcomes [Pa]"),
    ]
    primary_temperature: (
        Annotated[float, Meta(description="Temperature that the source delivers to the mixing set [degC]")]
        | None
    )
    frost_temperature: (
        Annotated[float, Meta(description="Lowest temperature that the filled system must withstand [degC]")]
        | None
    )
    expansion: Annotated[
        Expansion,
        Meta(description="The closed system round the circuits, for its expansion vessel"),
    ]
    limits: Annotated[HydraulicsLimits, Meta(description="Limits that the circuits are compared with")]


class HydraulicsRequest(Struct, kw_only=True):
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")]
    circuits: Annotated[
        list[CircuitInput],
        Meta(description="The circuits of one manifold; at least 1 items; at most 200 items"),
    ]
    supply_temperature: Annotated[
        float,
        Meta(
            description="Water temperature into the circuit (default 37.5) [degC]; at least -10; at most 95"
        ),
    ] = 37.5
    temperature_drop: Annotated[
        float,
        Meta(
            description="Supply minus return temperature of the water (default 5.0) [K]; at least 0.5; at most 30"
        ),
    ] = 5.0
    fluid: Annotated[FluidInput, Meta(description="The fluid in the circuits")] = field(
        default_factory=lambda: convert(
            {"kind": "water", "concentration": 0.0, "basis": "volume"}, type=FluidInput
        )
    )
    bend_allowance: Annotated[
        float,
        Meta(
            description="Addition to the straight pipe's friction for its bends (default 0.05) [1]; at least 0; at most 1"
        ),
    ] = 0.05
    valve_kv_open: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the presetting valve fully open: m3/h of water at a drop of 1 bar [m3/h]; at least 0.001; at most 100"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    flow_meter_kv: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the flow meter: m3/h of water at a drop of 1 bar [m3/h]; at least 0.001; at most 100"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    valve_table: Annotated[
        list[ValveSettingInput],
        Meta(
            description="The valve maker's settings and flow coefficients, both rising; at least 0 items; at most 60 items"
        ),
    ] = field(default_factory=list)
    manifold_pressure_drop: Annotated[
        float,
        Meta(
            description="Pressure drop of the manifold's bars and shut-off valves (default 0.0) [Pa]; at least 0; at most 1e+06"
        ),
    ] = 0.0
    mains_pressure_drop: Annotated[
        float,
        Meta(
            description="Pressure drop of mains, mixing set and source that the same pump overcomes (default 0.0) [Pa]; at least 0; at most 1e+06"
        ),
    ] = 0.0
    primary_temperature: (
        Annotated[
            float,
            Meta(
                description="Temperature that the source delivers to the mixing set [degC]; at least -10; at most 95"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    frost_temperature: (
        Annotated[
            float,
            Meta(
                description="Lowest temperature that the filled system must withstand [degC]; at least -60; at most 5"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    expansion: Annotated[
        ExpansionInput,
        Meta(description="The closed system round the circuits, for its expansion vessel"),
    ] = field(
        default_factory=lambda: convert(
            {
                "additional_volume": 0.0,
                "fill_temperature": 10.0,
                "maximum_temperature": None,
                "static_height": 5.0,
                "safety_valve_pressure": 300000.0,
                "precharge_pressure": None,
                "expansion_ratio": None,
                "water_reserve": None,
            },
            type=ExpansionInput,
        )
    )
    limits: Annotated[
        HydraulicsLimitsInput,
        Meta(description="Limits that the circuits are compared with"),
    ] = field(
        default_factory=lambda: convert(
            {
                "advised_pressure_drop": 20000.0,
                "maximum_pressure_drop": 30000.0,
                "maximum_valve_pressure_drop": 25000.0,
                "minimum_velocity": 0.25,
                "advised_velocity": 0.6,
                "maximum_velocity": 1.0,
                "advised_length": None,
                "maximum_length": None,
                "minimum_meter_flow": 8.333333333333334e-06,
                "maximum_meter_flow": 8.333333333333333e-05,
                "maximum_circuits": 12,
                "supply_temperature_limit": 55.0,
            },
            type=HydraulicsLimitsInput,
        )
    )
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class HydraulicsResponse(Struct, kw_only=True):
    inputs: Annotated[HydraulicsInputs, Meta(description="The inputs as used, defaults filled in")]
    circuits: Annotated[list[CircuitHydraulics], Meta(description="The circuits of one manifold")]
    index_circuit: Annotated[
        str,
        Meta(description="Identifier of the circuit that decides the pump; its valve stays open"),
    ]
    manifold_pressure: Annotated[
        float, Meta(description="Pressure across the balanced manifold's circuits [Pa]")
    ]
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")]
    volume_flow: Annotated[
        float,
        Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]"),
    ]
    heat_flow: Annotated[
        float,
        Meta(description="Heat that the water gives, to the room and downwards [W]"),
    ]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")]
    freezing_point: Annotated[float, Meta(description="Freezing point of the fluid [degC]")]
    pump: Annotated[Pump, Meta(description="Pump duty")]
    open_valves: Annotated[
        OpenValves,
        Meta(description="The manifold if all presetting valves are fully open"),
    ]
    mixing: (
        Annotated[
            Mixing,
            Meta(
                description="The mixing set; null without a primary, or with one that is colder than the supply"
            ),
        ]
        | None
    )
    expansion_vessel: Annotated[ExpansionVessel, Meta(description="The expansion vessel")]
    frost_protection: Annotated[FrostProtection, Meta(description="Check of the fluid against frost")] | None
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class InsulationCheckInputs(Struct, kw_only=True):
    below: Annotated[
        Literal["ground", "heated_room", "intermittently_heated_room", "outside", "unheated_room"],
        Meta(description="What lies below the floor"),
    ]
    layers: Annotated[list[CheckLayer], Meta(description="Layers from the pipes downwards")]
    temperature_below: Annotated[float, Meta(description="Temperature below the floor [degC]")] | None
    local_limit: Annotated[LocalLimit, Meta(description="What local rules ask for")] | None
    ground: Annotated[Ground, Meta(description="The ground and the building's whole floor on it")] | None
    board_conductivity: (
        Annotated[float, Meta(description="Thermal conductivity of the board that would be added [W/(m.K)]")]
        | None
    )
    screed: Annotated[ScreedSection, Meta(description="The screed that lies on the insulation")] | None


class InsulationCheckInputsInput(Struct, kw_only=True):
    below: Annotated[
        Literal["ground", "heated_room", "intermittently_heated_room", "outside", "unheated_room"],
        Meta(description="What lies below the floor"),
    ]
    layers: Annotated[
        list[CheckLayerInput],
        Meta(description="Layers from the pipes downwards; at least 1 items; at most 24 items"),
    ]
    temperature_below: (
        Annotated[float, Meta(description="Temperature below the floor [degC]; at least -50; at most 60")]
        | UnsetType
        | None
    ) = UNSET
    local_limit: (
        Annotated[LocalLimitInput, Meta(description="What local rules ask for")] | UnsetType | None
    ) = UNSET
    ground: (
        Annotated[GroundInput, Meta(description="The ground and the building's whole floor on it")]
        | UnsetType
        | None
    ) = UNSET
    board_conductivity: (
        Annotated[
            float,
            Meta(
                description="Thermal conductivity of the board that would be added [W/(m.K)]; at least 0.01; at most 0.2"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    screed: (
        Annotated[ScreedSectionInput, Meta(description="The screed that lies on the insulation")]
        | UnsetType
        | None
    ) = UNSET


class InsulationCheckRequest(Struct, kw_only=True):
    below: Annotated[
        Literal["ground", "heated_room", "intermittently_heated_room", "outside", "unheated_room"],
        Meta(description="What lies below the floor"),
    ]
    layers: Annotated[
        list[CheckLayerInput],
        Meta(description="Layers from the pipes downwards; at least 1 items; at most 24 items"),
    ]
    temperature_below: (
        Annotated[float, Meta(description="Temperature below the floor [degC]; at least -50; at most 60")]
        | UnsetType
        | None
    ) = UNSET
    local_limit: (
        Annotated[LocalLimitInput, Meta(description="What local rules ask for")] | UnsetType | None
    ) = UNSET
    ground: (
        Annotated[GroundInput, Meta(description="The ground and the building's whole floor on it")]
        | UnsetType
        | None
    ) = UNSET
    board_conductivity: (
        Annotated[
            float,
            Meta(
                description="Thermal conductivity of the board that would be added [W/(m.K)]; at least 0.01; at most 0.2"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    screed: (
        Annotated[ScreedSectionInput, Meta(description="The screed that lies on the insulation")]
        | UnsetType
        | None
    ) = UNSET
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class InsulationCheckResponse(Struct, kw_only=True):
    inputs: Annotated[
        InsulationCheckInputs,
        Meta(description="The inputs as used, defaults filled in"),
    ]
    required_resistance: Annotated[
        float,
        Meta(
            description="Least thermal resistance of the insulation, by the rule that asks for most [m2.K/W]"
        ),
    ]
    actual_resistance: Annotated[float, Meta(description="Thermal resistance of the insulation [m2.K/W]")]
    adequate: Annotated[
        bool,
        Meta(description="Whether the insulation is enough for the governing rule"),
    ]
    governing_rule: Annotated[
        Literal["en_1264_4", "local_resistance", "local_u_value"],
        Meta(description="The rule that asks for most: EN 1264-4, or the local resistance or U-value"),
    ]
    missing_resistance: Annotated[
        float,
        Meta(description="What the insulation lacks; 0 when it is enough [m2.K/W]"),
    ]
    missing_thickness: (
        Annotated[
            float, Meta(description="Thickness of the given board that is missing; null without a board [m]")
        ]
        | None
    )
    floor_u_value: Annotated[
        float,
        Meta(
            description="U-value of all layers given, with surface resistances and, if known, soil [W/(m2.K)]"
        ),
    ]
    rules: Annotated[
        list[RuleRequirement],
        Meta(description="Every rule with what it asks of the insulation"),
    ]
    screed: (
        Annotated[ScreedResult, Meta(description="The screed against its rules; null without a screed")]
        | None
    )
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class InsulationCheckResult(Struct, kw_only=True):
    required_resistance: Annotated[
        float,
        Meta(
            description="Least thermal resistance of the insulation, by the rule that asks for most [m2.K/W]"
        ),
    ]
    actual_resistance: Annotated[float, Meta(description="Thermal resistance of the insulation [m2.K/W]")]
    adequate: Annotated[
        bool,
        Meta(description="Whether the insulation is enough for the governing rule"),
    ]
    governing_rule: Annotated[
        Literal["en_1264_4", "local_resistance", "local_u_value"],
        Meta(description="The rule that asks for most: EN 1264-4, or the local resistance or U-value"),
    ]
    missing_resistance: Annotated[
        float,
        Meta(description="What the insulation lacks; 0 when it is enough [m2.K/W]"),
    ]
    missing_thickness: (
        Annotated[
            float, Meta(description="Thickness of the given board that is missing; null without a board [m]")
        ]
        | None
    )
    floor_u_value: Annotated[
        float,
        Meta(
            description="U-value of all layers given, with surface resistances and, if known, soil [W/(m2.K)]"
        ),
    ]
    rules: Annotated[
        list[RuleRequirement],
        Meta(description="Every rule with what it asks of the insulation"),
    ]
    screed: (
        Annotated[ScreedResult, Meta(description="The screed against its rules; null without a screed")]
        | None
    )
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]


class LayingSheet(Struct, kw_only=True):
    circuit: Annotated[str, Meta(description="The id of a circuit")]
    room: Annotated[str, Meta(description="The id of a room")]
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    port: Annotated[int, Meta(description="Port of the manifold, counted from 1 [1]")] | None
    coil: Annotated[str, Meta(description="Number of the coil in the order in which they are opened")] | None
    coil_start_mark: (
        Annotated[float, Meta(description="Metre mark of the coil at which the circuit's piece begins [m]")]
        | None
    )
    coil_end_mark: (
        Annotated[float, Meta(description="Metre mark of the coil at which the circuit's piece ends [m]")]
        | None
    )
    total_length: Annotated[float, Meta(description="Field and both tails of a circuit [m]")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    spacer_length: Annotated[
        float,
        Meta(
            description="Clear distance between neighbouring pipes, to cut a spacer: centres minus outside diameter [m]"
        ),
    ]
    infeed_spacing: (
        Annotated[
            float,
            Meta(
                description="Centres of a counterflow's first pass, inwards: twice the spacing; none for a serpentine [m]"
            ),
        ]
        | None
    )
    infeed_spacer_length: (
        Annotated[
            float, Meta(description="Spacer for the first pass: its centres minus outside diameter [m]")
        ]
        | None
    )
    core_mark: (
        Annotated[float, Meta(description="Metre from the port at which flow turns into return [m]")] | None
    )
    datum: Annotated[
        tuple[float, float],
        Meta(
            description="Corner of the room from which from_datum counts, x and y [m] [m]; at least 2 items; at most 2 items"
        ),
    ]
    datum_direction: Annotated[
        tuple[float, float],
        Meta(
            description="Unit vector of the datum's first axis, along the walls; the second lies to its left [1]; at least 2 items; at most 2 items"
        ),
    ]
    fixings_on_straights: Annotated[int, Meta(description="Fixings on straight pipe [1]")]
    fixings_at_bends: Annotated[int, Meta(description="Fixings at bends [1]")]
    steps: Annotated[list[LayingStep], Meta(description="Straights and turns in the order of laying")]
    wall_distances: Annotated[
        list[WallDistance],
        Meta(description="From the walls to the first straight beside them"),
    ]


class LayingSheetsInputs(Struct, kw_only=True):
    circuits: Annotated[
        list[CircuitToLay],
        Meta(description="Circuits as drawn; sheets do not depend on each other"),
    ]
    rooms: Annotated[list[LayingRoom], Meta(description="Rooms that pipe runs through")]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    fixing_distance: Annotated[float, Meta(description="Distance between fixings on straight pipe [m]")]
    cutting_allowance: Annotated[
        float,
        Meta(description="Pipe beyond what was measured, at each end of a circuit [m]"),
    ]


class LayingSheetsRequest(Struct, kw_only=True):
    circuits: Annotated[
        list[CircuitToLayInput],
        Meta(
            description="Circuits as drawn; sheets do not depend on each other; at least 1 items; at most 64 items"
        ),
    ]
    rooms: Annotated[
        list[LayingRoomInput],
        Meta(description="Rooms that pipe runs through; at least 1 items; at most 64 items"),
    ]
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    fixing_distance: Annotated[
        float,
        Meta(
            description="Distance between fixings on straight pipe (default 0.4) [m]; at least 0.05; at most 2"
        ),
    ] = 0.4
    cutting_allowance: Annotated[
        float,
        Meta(
            description="Pipe beyond what was measured, at each end of a circuit (default 0.5) [m]; at least 0; at most 5"
        ),
    ] = 0.5
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class LayingSheetsResponse(Struct, kw_only=True):
    inputs: Annotated[LayingSheetsInputs, Meta(description="The inputs as used, defaults filled in")]
    sheets: Annotated[list[LayingSheet], Meta(description="One sheet for each circuit")]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class LeakTestPlan(Struct, kw_only=True):
    medium: Annotated[
        Literal["air", "water"],
        Meta(description="Water, or compressed air where frost forbids water"),
    ]
    test_pressure: Annotated[
        float,
        Meta(description="Test pressure (gauge); by the standard if not given [Pa]"),
    ]
    duration: Annotated[float, Meta(description="Duration of the test [s]")]
    holding_pressure: Annotated[
        float,
        Meta(description="Pressure kept at least while the screed is poured (gauge) [Pa]"),
    ]
    isolate: Annotated[list[str], Meta(description="What is shut off before the test")]
    steps: Annotated[list[LeakTestStep], Meta(description="Steps in order")]
    editions: Annotated[list[LeakTestEdition], Meta(description="What each text asks for, side by side")]
    drift: Annotated[
        PressureDrift,
        Meta(description="How the reading of a tight system moves with temperature"),
    ]
    test_energy: Annotated[float, Meta(description="Energy that the test medium would set free [J]")]
    energy_of_water: Annotated[
        float,
        Meta(description="Energy that water would set free at the same pressure [J]"),
    ]


class Limits(Struct, kw_only=True):
    """
    Every limit that a request is checked against.
    """

    engine_version: Annotated[str, Meta(description="Version of the engine")]
    service: Annotated[list[ServiceLimit], Meta(description="Limits of the service")]
    work: Annotated[
        list[ServiceLimit],
        Meta(description="Limits of what one request may ask to be computed"),
    ]
    numbers: Annotated[
        list[NumberLimit],
        Meta(description="Ranges of the numbers, by name of the field"),
    ]
    lists: Annotated[
        list[LengthLimit],
        Meta(description="Lengths of the lists, by name of the field"),
    ]
    texts: Annotated[
        list[LengthLimit],
        Meta(description="Lengths of the texts, by name of the field"),
    ]
    dates: Annotated[list[DateLimit], Meta(description="Ranges of the dates, by name of the field")]


class LoopLengthInputs(Struct, kw_only=True):
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    tail_length: Annotated[
        float,
        Meta(description="One way from the manifold to the field; counted twice, for flow and return [m]"),
    ]
    area: Annotated[float, Meta(description="Floor area [m2]")] | None
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(description="Corners of the outline in order, without repeating the first [m]"),
        ]
        | None
    )
    voids: Annotated[list[list[Void]], Meta(description="Rings of areas that stay free of pipe [m]")]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    maximum_circuit_length: (
        Annotated[float, Meta(description="Longest permitted circuit, tails included [m]")] | None
    )
    wall_clearance: Annotated[
        float,
        Meta(description="Distance of the outermost pipe's centre line from walls and voids [m]"),
    ]
    entry: (
        Annotated[
            Entry,
            Meta(
                description="Where the pipes come into the room, x and y [m]; at least 2 items; at most 2 items"
            ),
        ]
        | None
    )
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
        ),
    ]
    measured: Annotated[
        bool,
        Meta(
            description="Whether to lay a route in the outline and measure it; else its length follows from the area"
        ),
    ]
    quick: Annotated[
        bool,
        Meta(description="Whether to skip the search for the spacings that fit the room best"),
    ]
    fixing_distance: Annotated[float, Meta(description="Distance between fixings on straight pipe [m]")]
    right_angle_bends: (
        Annotated[int, Meta(description="Right-angled bends of all circuits; a U-turn counts as two [1]")]
        | None
    )


class LoopLengthRequest(Struct, kw_only=True):
    pipe_spacing: Annotated[
        float,
        Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6"),
    ]
    tail_length: Annotated[
        float,
        Meta(
            description="One way from the manifold to the field; counted twice, for flow and return [m]; at least 0; at most 200"
        ),
    ]
    area: (
        Annotated[float, Meta(description="Floor area [m2]; at least 0.05; at most 10000")] | UnsetType | None
    ) = UNSET
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(
                description="Corners of the outline in order, without repeating the first [m]; at least 3 items; at most 256 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    voids: Annotated[
        list[list[Void]],
        Meta(description="Rings of areas that stay free of pipe [m]; at least 0 items; at most 32 items"),
    ] = field(default_factory=list)
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    maximum_circuit_length: (
        Annotated[
            float, Meta(description="Longest permitted circuit, tails included [m]; at least 5; at most 500")
        ]
        | UnsetType
        | None
    ) = UNSET
    wall_clearance: Annotated[
        float,
        Meta(
            description="Distance of the outermost pipe's centre line from walls and voids (default 0.075) [m]; at least 0.02; at most 1"
        ),
    ] = 0.075
    entry: (
        Annotated[
            Entry,
            Meta(
                description="Where the pipes come into the room, x and y [m]; at least 2 items; at most 2 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room (default counterflow)"
        ),
    ] = "counterflow"
    measured: Annotated[
        bool,
        Meta(
            description="Whether to lay a route in the outline and measure it; else its length follows from the area (default true)"
        ),
    ] = True
    quick: Annotated[
        bool,
        Meta(description="Whether to skip the search for the spacings that fit the room best (default true)"),
    ] = True
    fixing_distance: Annotated[
        float,
        Meta(
            description="Distance between fixings on straight pipe (default 0.4) [m]; at least 0.05; at most 2"
        ),
    ] = 0.4
    right_angle_bends: (
        Annotated[
            int,
            Meta(
                description="Right-angled bends of all circuits; a U-turn counts as two [1]; at least 0; at most 10000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class LoopLengthResponse(Struct, kw_only=True):
    inputs: Annotated[LoopLengthInputs, Meta(description="The inputs as used, defaults filled in")]
    area: Annotated[float, Meta(description="Floor area [m2]")]
    ideal_length: Annotated[
        float,
        Meta(
            description="Served area divided by spacing: length of pipe that lies exactly at its spacing [m]"
        ),
    ]
    field_length: Annotated[float, Meta(description="Pipe in the heated field, without the tails [m]")]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    length_method: Annotated[
        Literal["area", "outline", "route"],
        Meta(
            description="area: floor area divided by spacing; outline: served area of the outline divided by spacing; route: measured on a route"
        ),
    ]
    maximum_circuit_length: Annotated[
        float, Meta(description="Longest permitted circuit, tails included [m]")
    ]
    maximum_circuit_area: Annotated[
        float,
        Meta(description="Floor area that one circuit of the permitted length covers [m2]"),
    ]
    pipe_length_per_area: Annotated[
        float, Meta(description="Pipe in the field per floor area: 1 / spacing [1/m]")
    ]
    spacer_length: Annotated[
        float,
        Meta(
            description="Clear distance between neighbouring pipes, to cut a spacer: centres minus outside diameter [m]"
        ),
    ]
    counterflow_infeed_spacing: Annotated[
        float,
        Meta(
            description="Distance between pipe centres on the way inwards of a counterflow: twice the spacing, as the way back fills the gaps [m]"
        ),
    ]
    fixings: Annotated[int, Meta(description="Fixings (staples) for all pipe [1]")]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    circuits: Annotated[list[LoopCircuit], Meta(description="Circuits of equal length")]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class Manifold(Struct, kw_only=True):
    position: (
        Annotated[
            Position,
            Meta(description="Where the manifold stands, x and y [m]; at least 2 items; at most 2 items"),
        ]
        | None
    )
    height: Annotated[
        float,
        Meta(description="Pipe between a port of the manifold and the screed, one way [m]"),
    ]
    valve_kv_open: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the presetting valve fully open: m3/h of water at a drop of 1 bar [m3/h]"
            ),
        ]
        | None
    )
    flow_meter_kv: (
        Annotated[
            float,
            Meta(description="Flow coefficient of the flow meter: m3/h of water at a drop of 1 bar [m3/h]"),
        ]
        | None
    )
    valve_table: Annotated[
        list[ValveSetting],
        Meta(description="The valve maker's settings and flow coefficients, both rising"),
    ]
    mains_pressure_drop: Annotated[
        float,
        Meta(description="Pressure drop of mains, mixing set and source that the same pump overcomes [Pa]"),
    ]
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    storey: Annotated[str, Meta(description="The id of a storey")] | None
    allowed_places: Annotated[
        list[WallAllowed],
        Meta(description="Walls at which a manifold may stand; all walls when there is none"),
    ]


class ManifoldInput(Struct, kw_only=True):
    position: (
        Annotated[
            Position,
            Meta(description="Where the manifold stands, x and y [m]; at least 2 items; at most 2 items"),
        ]
        | UnsetType
        | None
    ) = UNSET
    height: Annotated[
        float,
        Meta(
            description="Pipe between a port of the manifold and the screed, one way (default 0.5) [m]; at least 0; at most 5"
        ),
    ] = 0.5
    valve_kv_open: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the presetting valve fully open: m3/h of water at a drop of 1 bar [m3/h]; at least 0.001; at most 100"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    flow_meter_kv: (
        Annotated[
            float,
            Meta(
                description="Flow coefficient of the flow meter: m3/h of water at a drop of 1 bar [m3/h]; at least 0.001; at most 100"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    valve_table: Annotated[
        list[ValveSettingInput],
        Meta(
            description="The valve maker's settings and flow coefficients, both rising; at least 0 items; at most 60 items"
        ),
    ] = field(default_factory=list)
    mains_pressure_drop: Annotated[
        float,
        Meta(
            description="Pressure drop of mains, mixing set and source that the same pump overcomes (default 0.0) [Pa]; at least 0; at most 1e+06"
        ),
    ] = 0.0
    id: Annotated[
        str,
        Meta(
            description="The caller's own name for this item (default 1); at least 1 characters; at most 64 characters"
        ),
    ] = "1"
    storey: (
        Annotated[str, Meta(description="The id of a storey; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    allowed_places: Annotated[
        list[WallAllowedInput],
        Meta(
            description="Walls at which a manifold may stand; all walls when there is none; at least 0 items; at most 64 items"
        ),
    ] = field(default_factory=list)


class ManifoldPositionInputs(Struct, kw_only=True):
    rooms: Annotated[
        list[ManifoldRoom],
        Meta(description="Rooms of the storey, those that pipes only pass too"),
    ]
    doorways: Annotated[list[PlanDoorway], Meta(description="Doorways between the rooms")]
    allowed_places: Annotated[
        list[WallAllowed],
        Meta(description="Walls at which a manifold may stand; all walls when there is none"),
    ]
    position: (
        Annotated[
            Position,
            Meta(description="Where the manifold stands, x and y [m]; at least 2 items; at most 2 items"),
        ]
        | None
    )
    maximum_ports: Annotated[int, Meta(description="Highest number of circuits on one manifold [1]")]
    maximum_tail_length: (
        Annotated[float, Meta(description="Longest permitted way from a manifold to a room, one way [m]")]
        | None
    )
    tail_pitch: Annotated[
        float,
        Meta(description="Distance between the centres of flow and return at the entry [m]"),
    ]
    wall_clearance: Annotated[
        float,
        Meta(description="Distance of the outermost pipe's centre line from walls and voids [m]"),
    ]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]


class ManifoldPositionRequest(Struct, kw_only=True):
    rooms: Annotated[
        list[ManifoldRoomInput],
        Meta(
            description="Rooms of the storey, those that pipes only pass too; at least 1 items; at most 64 items"
        ),
    ]
    doorways: Annotated[
        list[PlanDoorwayInput],
        Meta(description="Doorways between the rooms; at least 0 items; at most 128 items"),
    ] = field(default_factory=list)
    allowed_places: Annotated[
        list[WallAllowedInput],
        Meta(
            description="Walls at which a manifold may stand; all walls when there is none; at least 0 items; at most 64 items"
        ),
    ] = field(default_factory=list)
    position: (
        Annotated[
            Position,
            Meta(description="Where the manifold stands, x and y [m]; at least 2 items; at most 2 items"),
        ]
        | UnsetType
        | None
    ) = UNSET
    maximum_ports: Annotated[
        int,
        Meta(
            description="Highest number of circuits on one manifold (default 12) [1]; at least 1; at most 24"
        ),
    ] = 12
    maximum_tail_length: (
        Annotated[
            float,
            Meta(
                description="Longest permitted way from a manifold to a room, one way [m]; at least 0.5; at most 200"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    tail_pitch: Annotated[
        float,
        Meta(
            description="Distance between the centres of flow and return at the entry (default 0.05) [m]; at least 0.01; at most 1"
        ),
    ] = 0.05
    wall_clearance: Annotated[
        float,
        Meta(
            description="Distance of the outermost pipe's centre line from walls and voids (default 0.075) [m]; at least 0.02; at most 1"
        ),
    ] = 0.075
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class MaterialCircuit(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    length: Annotated[
        float,
        Meta(description="Length along the pipe's axis, arcs and both tails included [m]"),
    ]
    area_id: Annotated[str, Meta(description="The id of an area")] | None
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    storey: Annotated[str, Meta(description="The id of a storey")] | None
    pieces: (
        Annotated[
            list[PathPiece],
            Meta(description="Straight lines and arcs of the pipe's centre line from flow to return"),
        ]
        | None
    )
    right_angle_bends: (
        Annotated[int, Meta(description="Right-angled bends of all circuits; a U-turn counts as two [1]")]
        | None
    )


class MaterialCircuitInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    length: Annotated[
        float,
        Meta(
            description="Length along the pipe's axis, arcs and both tails included [m]; at least 0.1; at most 1000"
        ),
    ]
    area_id: (
        Annotated[str, Meta(description="The id of an area; at least 0 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    manifold: Annotated[
        str,
        Meta(description="The id of a manifold (default 1); at least 1 characters; at most 64 characters"),
    ] = "1"
    storey: (
        Annotated[str, Meta(description="The id of a storey; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    pieces: (
        Annotated[
            list[PathPieceInput],
            Meta(
                description="Straight lines and arcs of the pipe's centre line from flow to return; at least 1 items; at most 1000 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    right_angle_bends: (
        Annotated[
            int,
            Meta(
                description="Right-angled bends of all circuits; a U-turn counts as two [1]; at least 0; at most 10000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class MoistureReadingInputs(Struct, kw_only=True):
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    readings: Annotated[list[Reading], Meta(description="Measurements on the floor")]
    heated: Annotated[
        bool,
        Meta(description="Whether the screed is heated; unheated ones may be moister"),
    ]
    rule: Annotated[
        Literal["DIN_18560_1", "SIA_253", "trade_associations"],
        Meta(description="Whose limits of the carbide method hold"),
    ]
    area: Annotated[float, Meta(description="Floor area [m2]")] | None
    heating_off_days: (
        Annotated[int, Meta(description="Days that the heating was off before the measurement [d]")] | None
    )


class MoistureReadingRequest(Struct, kw_only=True):
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    readings: Annotated[
        list[ReadingInput],
        Meta(description="Measurements on the floor; at least 1 items; at most 200 items"),
    ]
    heated: Annotated[
        bool,
        Meta(description="Whether the screed is heated; unheated ones may be moister (default true)"),
    ] = True
    rule: Annotated[
        Literal["DIN_18560_1", "SIA_253", "trade_associations"],
        Meta(description="Whose limits of the carbide method hold (default trade_associations)"),
    ] = "trade_associations"
    area: (
        Annotated[float, Meta(description="Floor area [m2]; at least 0.05; at most 10000")] | UnsetType | None
    ) = UNSET
    heating_off_days: (
        Annotated[
            int,
            Meta(
                description="Days that the heating was off before the measurement [d]; at least 0; at most 365"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class MoistureReadingResponse(Struct, kw_only=True):
    inputs: Annotated[
        MoistureReadingInputs,
        Meta(description="The inputs as used, defaults filled in"),
    ]
    passed: Annotated[bool, Meta(description="Whether it is dry enough to be covered")]
    readings: Annotated[list[JudgedReading], Meta(description="The readings with their limits")]
    limits: Annotated[
        list[MoistureLimitRow],
        Meta(description="Limits of several rules, for comparison"),
    ]
    points_needed: Annotated[int, Meta(description="Test points that a floor of this size needs [1]")] | None
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class OptionRoom(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    covering_resistance: Annotated[
        float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")
    ]
    covering_option: (
        Annotated[int, Meta(description="Number of the covering in the request; null: the room's own [1]")]
        | None
    )
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
        ),
    ]
    pattern_option: (
        Annotated[int, Meta(description="Number of the pattern in the request; null: the room's own [1]")]
        | None
    )
    peripheral: (
        Annotated[PeripheralStrip, Meta(description="A strip along outside walls with closer pipe")] | None
    )
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    circuit_count: Annotated[int, Meta(description="Number of its circuits [1]")]
    circuit_length: Annotated[float, Meta(description="Length of each of its circuits with both tails [m]")]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    heat_demand: Annotated[
        float,
        Meta(description="Heat that the room needs, without the loss through its own heated floor [W]"),
    ]
    heat_given: Annotated[
        float,
        Meta(description="Heat that the floor gives to the room at the design's flows [W]"),
    ]
    heat_missing: Annotated[
        float,
        Meta(description="Heat demand that the floor cannot give; 0 when it can [W]"),
    ]
    temperature_drop: Annotated[float, Meta(description="Supply minus return temperature of the water [K]")]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    surface_range: Annotated[
        float,
        Meta(description="How much warmer the floor is where the water comes in [K]"),
    ]
    pressure_drop_upper: Annotated[
        float,
        Meta(description="Pressure drop of the pipe with its bends, upper bound in the transition zone [Pa]"),
    ]


class Ordering(Struct, kw_only=True):
    coil_lengths: Annotated[list[float], Meta(description="Lengths of coils that can be bought [m]")]
    stock: Annotated[
        list[CoilInStock],
        Meta(description="Coils and rests of coils at hand, used before any is bought"),
    ]
    cutting_allowance: Annotated[
        float,
        Meta(description="Pipe beyond what was measured, at each end of a circuit [m]"),
    ]
    fixing_distance: Annotated[float, Meta(description="Distance between fixings on straight pipe [m]")]
    fixings_per_box: Annotated[int, Meta(description="Fixings in a box [1]")]
    board: Annotated[BoardSize, Meta(description="Size of the insulation boards")]
    film: (
        Annotated[
            FilmRoll,
            Meta(description="Film over the insulation; null where the boards' own foil replaces it"),
        ]
        | None
    )
    edge_strip_roll: Annotated[float, Meta(description="Edge strip on a roll [m]")]
    tape_roll: Annotated[float, Meta(description="Tape on a roll [m]")]
    joint_profile_length: Annotated[float, Meta(description="Length of a piece of joint profile [m]")]
    sleeve_length: Annotated[float, Meta(description="Length of a sleeve on pipe through a joint [m]")]
    screed_supply: Annotated[ScreedSupply, Meta(description="How the screed comes to the site")]
    manifold_parts: Annotated[ManifoldParts, Meta(description="What goes with manifolds")]
    inhibitor_share: Annotated[float, Meta(description="Inhibitor over water, by volume [1]")]
    overrides: Annotated[
        list[MaterialOverride],
        Meta(description="What holds for single items instead of their rules"),
    ]
    price_list: (
        Annotated[PriceList, Meta(description="Prices by item; without it there is no money in the answer")]
        | None
    )


class OrderingInput(Struct, kw_only=True):
    coil_lengths: Annotated[
        list[float],
        Meta(description="Lengths of coils that can be bought [m]; at least 1 items; at most 24 items"),
    ] = field(default_factory=lambda: [50.0, 60.0, 80.0, 100.0, 120.0, 200.0, 240.0, 300.0, 500.0, 600.0])
    stock: Annotated[
        list[CoilInStockInput],
        Meta(
            description="Coils and rests of coils at hand, used before any is bought; at least 0 items; at most 64 items"
        ),
    ] = field(default_factory=list)
    cutting_allowance: Annotated[
        float,
        Meta(
            description="Pipe beyond what was measured, at each end of a circuit (default 0.5) [m]; at least 0; at most 5"
        ),
    ] = 0.5
    fixing_distance: Annotated[
        float,
        Meta(
            description="Distance between fixings on straight pipe (default 0.4) [m]; at least 0.05; at most 2"
        ),
    ] = 0.4
    fixings_per_box: Annotated[
        int,
        Meta(description="Fixings in a box (default 300) [1]; at least 1; at most 100000"),
    ] = 300
    board: Annotated[BoardSizeInput, Meta(description="Size of the insulation boards")] = field(
        default_factory=lambda: convert({"length": 1.0, "width": 0.5}, type=BoardSizeInput)
    )
    film: (
        Annotated[
            FilmRollInput,
            Meta(description="Film over the insulation; null where the boards' own foil replaces it"),
        ]
        | None
    ) = field(
        default_factory=lambda: convert(
            {"width": 2.0, "length": 50.0, "lap": 0.08, "upturn": None}, type=FilmRollInput
        )
    )
    edge_strip_roll: Annotated[
        float,
        Meta(description="Edge strip on a roll (default 50.0) [m]; at least 1; at most 500"),
    ] = 50.0
    tape_roll: Annotated[
        float,
        Meta(description="Tape on a roll (default 50.0) [m]; at least 1; at most 500"),
    ] = 50.0
    joint_profile_length: Annotated[
        float,
        Meta(description="Length of a piece of joint profile (default 2.0) [m]; at least 0.1; at most 100"),
    ] = 2.0
    sleeve_length: Annotated[
        float,
        Meta(
            description="Length of a sleeve on pipe through a joint (default 0.3) [m]; at least 0.05; at most 2"
        ),
    ] = 0.3
    screed_supply: Annotated[ScreedSupplyInput, Meta(description="How the screed comes to the site")] = field(
        default_factory=lambda: convert(
            {
                "form": None,
                "density": 2200.0,
                "bag_mass": 40.0,
                "bag_yield": 0.02,
                "mixer_load": 0.2,
                "cement_content": 390.0,
                "sand_content": 1600.0,
                "additive_share": 0.008,
                "pump_rest": 0.2,
            },
            type=ScreedSupplyInput,
        )
    )
    manifold_parts: Annotated[ManifoldPartsInput, Meta(description="What goes with manifolds")] = field(
        default_factory=lambda: convert(
            {
                "actuators": True,
                "port_pitch": 0.05,
                "end_length": 0.25,
                "cabinet_widths": [0.45, 0.6, 0.75, 0.9, 1.05, 1.2, 1.5],
            },
            type=ManifoldPartsInput,
        )
    )
    inhibitor_share: Annotated[
        float,
        Meta(description="Inhibitor over water, by volume (default 0.01) [1]; at least 0; at most 0.1"),
    ] = 0.01
    overrides: Annotated[
        list[MaterialOverrideInput],
        Meta(
            description="What holds for single items instead of their rules; at least 0 items; at most 100 items"
        ),
    ] = field(default_factory=list)
    price_list: (
        Annotated[
            PriceListInput, Meta(description="Prices by item; without it there is no money in the answer")
        ]
        | UnsetType
        | None
    ) = UNSET


class OtherRoom(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    required_heat_output: Annotated[
        float, Meta(description="Heat that the floor must give per floor area [W/m2]")
    ]
    area: Annotated[float, Meta(description="Floor area [m2]")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")] | None
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")] | None
    screed_cover: Annotated[float, Meta(description="Screed above the top of the pipe [m]")] | None
    screed_conductivity: (
        Annotated[float, Meta(description="Thermal conductivity of the screed [W/(m.K)]")] | None
    )
    covering_resistance: (
        Annotated[float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")] | None
    )
    resistance_below: (
        Annotated[
            float,
            Meta(
                description="Thermal resistance from the pipes down to temperature_below, surface resistance of the ceiling below (0.17 over a room, 0 over ground) included [m2.K/W]"
            ),
        ]
        | None
    )
    room_temperature: Annotated[float, Meta(description="Design temperature of the room [degC]")] | None
    temperature_below: Annotated[float, Meta(description="Temperature below the floor [degC]")] | None
    surface_temperature_limit: (
        Annotated[float, Meta(description="Highest permitted floor surface temperature [degC]")] | None
    )
    counts_for_supply: (
        Annotated[
            bool,
            Meta(
                description="Whether the room counts when the room that sets the supply is sought; null: one of 24 degC and more does not"
            ),
        ]
        | None
    )


class OtherRoomInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    required_heat_output: Annotated[
        float,
        Meta(description="Heat that the floor must give per floor area [W/m2]; at least 1; at most 400"),
    ]
    area: Annotated[float, Meta(description="Floor area [m2]; at least 0.05; at most 10000")]
    pipe_spacing: (
        Annotated[float, Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6")]
        | UnsetType
        | None
    ) = UNSET
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] | UnsetType | None = UNSET
    screed_cover: (
        Annotated[
            float, Meta(description="Screed above the top of the pipe [m]; at least 0.005; at most 0.3")
        ]
        | UnsetType
        | None
    ) = UNSET
    screed_conductivity: (
        Annotated[
            float, Meta(description="Thermal conductivity of the screed [W/(m.K)]; at least 0.2; at most 5")
        ]
        | UnsetType
        | None
    ) = UNSET
    covering_resistance: (
        Annotated[
            float,
            Meta(description="Thermal resistance of the floor covering [m2.K/W]; at least 0; at most 1"),
        ]
        | UnsetType
        | None
    ) = UNSET
    resistance_below: (
        Annotated[
            float,
            Meta(
                description="Thermal resistance from the pipes down to temperature_below, surface resistance of the ceiling below (0.17 over a room, 0 over ground) included [m2.K/W]; at least 0.05; at most 50"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    room_temperature: (
        Annotated[float, Meta(description="Design temperature of the room [degC]; at least -10; at most 45")]
        | UnsetType
        | None
    ) = UNSET
    temperature_below: (
        Annotated[float, Meta(description="Temperature below the floor [degC]; at least -50; at most 60")]
        | UnsetType
        | None
    ) = UNSET
    surface_temperature_limit: (
        Annotated[
            float,
            Meta(description="Highest permitted floor surface temperature [degC]; at least -10; at most 60"),
        ]
        | UnsetType
        | None
    ) = UNSET
    counts_for_supply: (
        Annotated[
            bool,
            Meta(
                description="Whether the room counts when the room that sets the supply is sought; null: one of 24 degC and more does not"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET


class PlacedManifold(Struct, kw_only=True):
    place: Annotated[
        tuple[float, float],
        Meta(description="Where in the plan, x and y [m]; at least 2 items; at most 2 items"),
    ]
    ahead: Annotated[
        tuple[float, float],
        Meta(
            description="Unit vector of the direction of travel, x and y [1]; at least 2 items; at most 2 items"
        ),
    ]
    room: Annotated[str, Meta(description="The id of a room")]
    ports: Annotated[
        list[str],
        Meta(description="Ids of the circuits by port, from the right-hand end"),
    ]
    manifold_width: Annotated[
        float,
        Meta(description="Wall that the pipes of all ports take side by side [m]"),
    ]
    tail_pipe: Annotated[float, Meta(description="Pipe in tails, flow and return together [m]")]
    room_tails: Annotated[list[RoomTails], Meta(description="The ways to the rooms that it serves")]


class Problem(Struct, kw_only=True):
    """
    What went wrong with one request (RFC 9457).
    """

    type: Annotated[
        str,
        Meta(description="Type of the problem; a path that answers with an explanation"),
    ]
    title: Annotated[str, Meta(description="Name of the type, always the same for the same type")]
    status: Annotated[int, Meta(description="HTTP status code")]
    detail: Annotated[str, Meta(description="What happened this time")]
    instance: Annotated[
        str,
        Meta(description="The request id as a URN; quote it when you report the problem"),
    ] = ""
    errors: Annotated[list[FieldError], Meta(description="The faulty fields, at most 20")] = field(
        default_factory=list
    )


class RoomDesign(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    name: Annotated[str, Meta(description="Name for people")]
    area: Annotated[float, Meta(description="Floor area [m2]")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")] | None
    spacer_length: (
        Annotated[
            float,
            Meta(
                description="Clear distance between neighbouring pipes, to cut a spacer: centres minus outside diameter [m]"
            ),
        ]
        | None
    )
    heat_demand: Annotated[
        float,
        Meta(description="Heat that the room needs, without the loss through its own heated floor [W]"),
    ]
    heat_given: Annotated[
        float,
        Meta(description="Heat that the floor gives to the room at the design's flows [W]"),
    ]
    heat_missing: Annotated[
        float,
        Meta(description="Heat demand that the floor cannot give; 0 when it can [W]"),
    ]
    required_heat_output: Annotated[
        float, Meta(description="Heat that the floor must give per floor area [W/m2]")
    ]
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    limit_heat_output: (
        Annotated[float, Meta(description="Heat output at which the surface limit is reached [W/m2]")] | None
    )
    downward_heat_flow: Annotated[float, Meta(description="Heat lost downwards [W]")]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    surface_temperature_limit: Annotated[
        float, Meta(description="Highest permitted floor surface temperature [degC]")
    ]
    temperature_drop: (
        Annotated[float, Meta(description="Supply minus return temperature of the water [K]")] | None
    )
    return_temperature: (
        Annotated[float, Meta(description="Water temperature out of the circuit [degC]")] | None
    )
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    circuit_ids: Annotated[
        list[str],
        Meta(description="The ids of the room's circuits; none where tails alone heat it"),
    ]
    remedies: Annotated[
        list[Remedy],
        Meta(description="Changes that make the floor give more heat, each by itself"),
    ]
    manifold: Annotated[str, Meta(description="The id of a manifold")]
    field_supply_temperature: (
        Annotated[
            float,
            Meta(
                description="Water that enters the room's own field, cooled on its way from the manifold [degC]"
            ),
        ]
        | None
    )
    tails_heat: Annotated[float, Meta(description="Heat that tails of other rooms give to the room [W]")]
    tails_area: Annotated[float, Meta(description="Floor that tails of other rooms take [m2]")]
    pattern: (
        Annotated[
            Literal["counterflow", "serpentine"],
            Meta(
                description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
            ),
        ]
        | None
    )
    peripheral: (
        Annotated[StripDesign, Meta(description="The closer strip as it is in the end; null without one")]
        | None
    )


class RouteCircuit(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    engine: (
        Annotated[
            Literal["comb", "lattice", "rings"],
            Meta(
                description="How the pattern was made: rings, comb or lattice; null for a path that came with the request"
            ),
        ]
        | None
    )
    entry: Annotated[
        tuple[float, float],
        Meta(
            description="Where the pipes come into the room, x and y [m]; at least 2 items; at most 2 items"
        ),
    ]
    tail_pitch: Annotated[
        float,
        Meta(description="Distance between the centres of flow and return at the entry [m]"),
    ]
    area: Annotated[float, Meta(description="Floor area [m2]")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    valid: Annotated[
        bool,
        Meta(description="Whether the pipe can be laid as drawn: it passes every check"),
    ]
    length: Annotated[
        float,
        Meta(description="Length of the pipe's centre line as drawn, from entry to entry [m]"),
    ]
    total_length: Annotated[float, Meta(description="Field and both tails of a circuit [m]")]
    least_radius: Annotated[float, Meta(description="Least radius of all bends as drawn [m]")] | None
    bends: Annotated[BendCount, Meta(description="Number of bends by kind")]
    laid_spacings: Annotated[
        list[LaidSpacing],
        Meta(description="Parts of the floor where the pipe lies at another spacing than asked for"),
    ]
    quality: Annotated[RouteQuality, Meta(description="How good the route is")]
    path: Annotated[
        list[PathItem],
        Meta(description="Points of the pipe's centre line from flow to return [m]"),
    ]
    pieces: Annotated[
        list[PathPiece],
        Meta(description="Straight lines and arcs of the pipe's centre line from flow to return"),
    ]
    pattern: Annotated[
        Literal["counterflow", "given", "serpentine"],
        Meta(description="The pattern laid; given for a path that came with the request"),
    ]
    tail_length: Annotated[
        float,
        Meta(description="Both ways between manifold and field, flow and return together [m]"),
    ]
    inner_tail_length: Annotated[
        float,
        Meta(description="Pipe from the entry to the circuit's own floor and back, part of its length [m]"),
    ]


class RoutesInputs(Struct, kw_only=True):
    outline: Annotated[
        list[OutlineItem],
        Meta(description="Corners of the outline in order, without repeating the first [m]"),
    ]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    entry: (
        Annotated[
            Entry,
            Meta(
                description="Where the pipes come into the room, x and y [m]; at least 2 items; at most 2 items"
            ),
        ]
        | None
    )
    doorway: (
        Annotated[
            list[DoorwayItem],
            Meta(description="Both jambs of the doorway through which the pipes come in, on the outline [m]"),
        ]
        | None
    )
    manifold_place: (
        Annotated[
            ManifoldPlace,
            Meta(
                description="Where the manifold stands; the pipes come in where the outline is nearest to it [m]; at least 2 items; at most 2 items"
            ),
        ]
        | None
    )
    second_entry: (
        Annotated[
            SecondEntry,
            Meta(
                description="Where a second circuit of the same room comes in, x and y [m]; at least 2 items; at most 2 items"
            ),
        ]
        | None
    )
    tail_pitch: (
        Annotated[float, Meta(description="Distance between the centres of flow and return at the entry [m]")]
        | None
    )
    voids: Annotated[list[list[Void]], Meta(description="Rings of areas that stay free of pipe [m]")]
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
        ),
    ]
    outermost_pipe: Annotated[
        Literal["flow", "return"],
        Meta(description="Which of flow and return runs along the walls"),
    ]
    wall_clearance: Annotated[
        float,
        Meta(description="Distance of the outermost pipe's centre line from walls and voids [m]"),
    ]
    wall_stretches: Annotated[
        list[WallStretch],
        Meta(description="Walls from which the pipe keeps more than wall_clearance"),
    ]
    peripheral: (
        Annotated[PeripheralArea, Meta(description="A strip along outside walls with closer pipe")] | None
    )
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    movement_joints: Annotated[
        list[list[MovementJoint]],
        Meta(description="Movement joints of the screed, each a line of points [m]"),
    ]
    tail_length: Annotated[
        float,
        Meta(description="One way from the manifold to the field; counted twice, for flow and return [m]"),
    ]
    maximum_circuit_length: (
        Annotated[float, Meta(description="Longest permitted circuit, tails included [m]")] | None
    )
    circuits: Annotated[int, Meta(description="Number of circuits that share the entry [1]")] | None
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    quick: Annotated[
        bool,
        Meta(description="Whether to skip the search for the spacings that fit the room best"),
    ]
    chord_error: Annotated[
        float,
        Meta(description="How far the points of path may lie off the bends of the pipe [m]"),
    ]
    path: (
        Annotated[
            list[PathItem], Meta(description="Points of the pipe's centre line from flow to return [m]")
        ]
        | None
    )
    pieces: (
        Annotated[
            list[PathPiece],
            Meta(description="Straight lines and arcs of the pipe's centre line from flow to return"),
        ]
        | None
    )
    drawing: Annotated[
        DrawingSheet,
        Meta(description="How drawings are laid out, and what their title block says; it changes no number"),
    ]


class RoutesRequest(Struct, kw_only=True):
    outline: Annotated[
        list[OutlineItem],
        Meta(
            description="Corners of the outline in order, without repeating the first [m]; at least 3 items; at most 256 items"
        ),
    ]
    pipe_spacing: Annotated[
        float,
        Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6"),
    ]
    entry: (
        Annotated[
            Entry,
            Meta(
                description="Where the pipes come into the room, x and y [m]; at least 2 items; at most 2 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    doorway: (
        Annotated[
            list[DoorwayItem],
            Meta(
                description="Both jambs of the doorway through which the pipes come in, on the outline [m]; at least 2 items; at most 2 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    manifold_place: (
        Annotated[
            ManifoldPlace,
            Meta(
                description="Where the manifold stands; the pipes come in where the outline is nearest to it [m]; at least 2 items; at most 2 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    second_entry: (
        Annotated[
            SecondEntry,
            Meta(
                description="Where a second circuit of the same room comes in, x and y [m]; at least 2 items; at most 2 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    tail_pitch: (
        Annotated[
            float,
            Meta(
                description="Distance between the centres of flow and return at the entry [m]; at least 0.01; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    voids: Annotated[
        list[list[Void]],
        Meta(description="Rings of areas that stay free of pipe [m]; at least 0 items; at most 32 items"),
    ] = field(default_factory=list)
    pattern: Annotated[
        Literal["counterflow", "serpentine"],
        Meta(
            description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room (default counterflow)"
        ),
    ] = "counterflow"
    outermost_pipe: Annotated[
        Literal["flow", "return"],
        Meta(description="Which of flow and return runs along the walls (default flow)"),
    ] = "flow"
    wall_clearance: Annotated[
        float,
        Meta(
            description="Distance of the outermost pipe's centre line from walls and voids (default 0.075) [m]; at least 0.02; at most 1"
        ),
    ] = 0.075
    wall_stretches: Annotated[
        list[WallStretchInput],
        Meta(
            description="Walls from which the pipe keeps more than wall_clearance; at least 0 items; at most 32 items"
        ),
    ] = field(default_factory=list)
    peripheral: (
        Annotated[PeripheralAreaInput, Meta(description="A strip along outside walls with closer pipe")]
        | UnsetType
        | None
    ) = UNSET
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    movement_joints: Annotated[
        list[list[MovementJoint]],
        Meta(
            description="Movement joints of the screed, each a line of points [m]; at least 0 items; at most 16 items"
        ),
    ] = field(default_factory=list)
    tail_length: Annotated[
        float,
        Meta(
            description="One way from the manifold to the field; counted twice, for flow and return (default 0.0) [m]; at least 0; at most 200"
        ),
    ] = 0.0
    maximum_circuit_length: (
        Annotated[
            float, Meta(description="Longest permitted circuit, tails included [m]; at least 5; at most 500")
        ]
        | UnsetType
        | None
    ) = UNSET
    circuits: (
        Annotated[
            int, Meta(description="Number of circuits that share the entry [1]; at least 1; at most 24")
        ]
        | UnsetType
        | None
    ) = UNSET
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560) (default cement)"
        ),
    ] = "cement"
    quick: Annotated[
        bool,
        Meta(
            description="Whether to skip the search for the spacings that fit the room best (default false)"
        ),
    ] = False
    chord_error: Annotated[
        float,
        Meta(
            description="How far the points of path may lie off the bends of the pipe (default 0.001) [m]; at least 1e-05; at most 0.05"
        ),
    ] = 0.001
    path: (
        Annotated[
            list[PathItem],
            Meta(
                description="Points of the pipe's centre line from flow to return [m]; at least 2 items; at most 2500 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    pieces: (
        Annotated[
            list[PathPieceInput],
            Meta(
                description="Straight lines and arcs of the pipe's centre line from flow to return; at least 1 items; at most 1000 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    drawing: Annotated[
        DrawingSheetInput,
        Meta(description="How drawings are laid out, and what their title block says; it changes no number"),
    ] = field(
        default_factory=lambda: convert(
            {
                "paper": None,
                "orientation": None,
                "scale": None,
                "project": "",
                "revision": "",
                "author": "",
                "drawn_on": None,
                "north": None,
                "storey": None,
                "room": None,
            },
            type=DrawingSheetInput,
        )
    )
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class RoutesResponse(Struct, kw_only=True):
    inputs: Annotated[RoutesInputs, Meta(description="The inputs as used, defaults filled in")]
    area: Annotated[float, Meta(description="Floor area [m2]")]
    bend_radius: Annotated[
        float,
        Meta(description="Radius of the bend's centre line; the pipe's least radius if not given [m]"),
    ]
    maximum_circuit_length: Annotated[
        float, Meta(description="Longest permitted circuit, tails included [m]")
    ]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    spacer_length: Annotated[
        float,
        Meta(
            description="Clear distance between neighbouring pipes, to cut a spacer: centres minus outside diameter [m]"
        ),
    ]
    coverage: Annotated[RouteCoverage, Meta(description="How much of the floor the pipe reaches")]
    sleeves: Annotated[
        list[RouteSleeve],
        Meta(description="Where tails pass movement joints in a sleeve"),
    ]
    length_spread: (
        Annotated[
            float,
            Meta(
                description="Longest minus shortest circuit of a divided room, divided by their mean, tails included [1]"
            ),
        ]
        | None
    )
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    circuits: Annotated[list[RouteCircuit], Meta(description="The circuits as laid")]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class ScreedToHeat(Struct, kw_only=True):
    curing: Annotated[CuringPlanInputs, Meta(description="What curing-plan takes")]
    rooms: Annotated[list[str], Meta(description="Names of the rooms in the order of room_areas")]
    name: Annotated[str, Meta(description="Name for people")]


class ScreedToHeatInput(Struct, kw_only=True):
    curing: Annotated[CuringPlanInputsInput, Meta(description="What curing-plan takes")]
    rooms: Annotated[
        list[str],
        Meta(
            description="Names of the rooms in the order of room_areas; at least 0 items; at most 500 items"
        ),
    ] = field(default_factory=list)
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""


class SetbackResult(Struct, kw_only=True):
    heat_output_at_end: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    surface_temperature_at_end: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    released_energy: Annotated[
        float,
        Meta(description="Heat that the floor gave off during the setback [J/m2]"),
    ]
    recovery_time: (
        Annotated[
            float, Meta(description="Time from the end of the setback to nine tenths of the output [s]")
        ]
        | None
    )
    course: Annotated[list[WarmUpPoint], Meta(description="The section at even distances of time")]


class SupplyTemperatureInputs(Struct, kw_only=True):
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    screed_cover: Annotated[float, Meta(description="Screed above the top of the pipe [m]")]
    resistance_below: Annotated[
        float,
        Meta(
            description="Thermal resistance from the pipes down to temperature_below, surface resistance of the ceiling below (0.17 over a room, 0 over ground) included [m2.K/W]"
        ),
    ]
    required_heat_output: Annotated[
        float, Meta(description="Heat that the floor must give per floor area [W/m2]")
    ]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")] | None
    pipe_spacings: (
        Annotated[list[float], Meta(description="Distances between pipe centres to compare [m]")] | None
    )
    screed_conductivity: Annotated[float, Meta(description="Thermal conductivity of the screed [W/(m.K)]")]
    covering_resistance: Annotated[
        float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")
    ]
    room_temperature: Annotated[float, Meta(description="Design temperature of the room [degC]")]
    temperature_below: Annotated[float, Meta(description="Temperature below the floor [degC]")] | None
    surface_temperature_limit: (
        Annotated[float, Meta(description="Highest permitted floor surface temperature [degC]")] | None
    )
    temperature_drop: Annotated[float, Meta(description="Supply minus return temperature of the water [K]")]
    area: Annotated[float, Meta(description="Floor area [m2]")] | None
    other_rooms: Annotated[
        list[OtherRoom],
        Meta(description="Further rooms on the supply of the governing room"),
    ]


class SupplyTemperatureRequest(Struct, kw_only=True):
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")]
    screed_cover: Annotated[
        float,
        Meta(description="Screed above the top of the pipe [m]; at least 0.005; at most 0.3"),
    ]
    resistance_below: Annotated[
        float,
        Meta(
            description="Thermal resistance from the pipes down to temperature_below, surface resistance of the ceiling below (0.17 over a room, 0 over ground) included [m2.K/W]; at least 0.05; at most 50"
        ),
    ]
    required_heat_output: Annotated[
        float,
        Meta(description="Heat that the floor must give per floor area [W/m2]; at least 1; at most 400"),
    ]
    pipe_spacing: (
        Annotated[float, Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6")]
        | UnsetType
        | None
    ) = UNSET
    pipe_spacings: (
        Annotated[
            list[float],
            Meta(
                description="Distances between pipe centres to compare [m]; at least 1 items; at most 12 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    screed_conductivity: Annotated[
        float,
        Meta(
            description="Thermal conductivity of the screed (default 1.2) [W/(m.K)]; at least 0.2; at most 5"
        ),
    ] = 1.2
    covering_resistance: Annotated[
        float,
        Meta(
            description="Thermal resistance of the floor covering (default 0.1) [m2.K/W]; at least 0; at most 1"
        ),
    ] = 0.1
    room_temperature: Annotated[
        float,
        Meta(description="Design temperature of the room (default 20.0) [degC]; at least -10; at most 45"),
    ] = 20.0
    temperature_below: (
        Annotated[float, Meta(description="Temperature below the floor [degC]; at least -50; at most 60")]
        | UnsetType
        | None
    ) = UNSET
    surface_temperature_limit: (
        Annotated[
            float,
            Meta(description="Highest permitted floor surface temperature [degC]; at least -10; at most 60"),
        ]
        | UnsetType
        | None
    ) = UNSET
    temperature_drop: Annotated[
        float,
        Meta(
            description="Supply minus return temperature of the water (default 5.0) [K]; at least 0.5; at most 30"
        ),
    ] = 5.0
    area: (
        Annotated[float, Meta(description="Floor area [m2]; at least 0.05; at most 10000")] | UnsetType | None
    ) = UNSET
    other_rooms: Annotated[
        list[OtherRoomInput],
        Meta(
            description="Further rooms on the supply of the governing room; at least 0 items; at most 200 items"
        ),
    ] = field(default_factory=list)
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class SupplyTemperatureResponse(Struct, kw_only=True):
    inputs: Annotated[
        SupplyTemperatureInputs,
        Meta(description="The inputs as used, defaults filled in"),
    ]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")]
    reason: Annotated[str, Meta(description="Why it was chosen or not")]
    heat_transmittance: Annotated[
        float,
        Meta(description="Heat output per kelvin of mean excess temperature [W/(m2.K)]"),
    ]
    mean_excess_temperature: Annotated[
        float, Meta(description="Logarithmic mean of water minus room temperature [K]")
    ]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    limit_heat_output: Annotated[
        float,
        Meta(description="Heat output at which the surface limit is reached [W/m2]"),
    ]
    limit_excess_temperature: Annotated[
        float, Meta(description="Mean excess temperature at the limit heat output [K]")
    ]
    missing_heat_output: Annotated[
        float,
        Meta(description="Heat demand per floor area that the floor cannot give [W/m2]"),
    ]
    downward_heat_loss: Annotated[float, Meta(description="Heat lost downwards per floor area [W/m2]")]
    total_heat_output: Annotated[
        float,
        Meta(description="Heat from the water per floor area, up and down [W/m2]"),
    ]
    pipe_length_per_area: Annotated[
        float, Meta(description="Pipe in the field per floor area: 1 / spacing [1/m]")
    ]
    mass_flow_per_area: Annotated[float, Meta(description="Water per floor area [kg/(s.m2)]")]
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")] | None
    total_mass_flow: Annotated[float, Meta(description="Water of all rooms together [kg/s]")] | None
    options: Annotated[list[SpacingOption], Meta(description="The spacings compared, closest first")]
    rooms_on_supply: Annotated[
        list[RoomOnSupply],
        Meta(description="The other rooms on the chosen supply, in the order of the request"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class WarmUpResult(Struct, kw_only=True):
    warm_up_time: (
        Annotated[float, Meta(description="Time from the start to nine tenths of the steady heat output [s]")]
        | None
    )
    steady_heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    stored_energy: Annotated[
        float,
        Meta(description="Heat held by the floor at the end beyond what it held at first [J/m2]"),
    ]
    supplied_energy: Annotated[float, Meta(description="Heat that the water gave [J/m2]")]
    energy_to_room: Annotated[float, Meta(description="Heat that the room got [J/m2]")]
    energy_downwards: Annotated[float, Meta(description="Heat that went down [J/m2]")]
    balance_error: Annotated[
        float,
        Meta(description="Largest error of the heat balance of a step, divided by the heat moved [1]"),
    ]
    course: Annotated[list[WarmUpPoint], Meta(description="The section at even distances of time")]
    setback: Annotated[SetbackResult, Meta(description="Effect of the setback")] | None


class BuildUp(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    resistance_below: Annotated[
        float,
        Meta(
            description="Thermal resistance from the pipes down to temperature_below, surface resistance of the ceiling below (0.17 over a room, 0 over ground) included [m2.K/W]"
        ),
    ]
    temperature_below: Annotated[float, Meta(description="Temperature below the floor [degC]")]
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    covering_resistance: Annotated[
        float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")
    ]
    screed_cover: Annotated[float, Meta(description="Screed above the top of the pipe [m]")]
    screed_conductivity: Annotated[float, Meta(description="Thermal conductivity of the screed [W/(m.K)]")]
    name: Annotated[str, Meta(description="Name for people")]
    insulation: (
        Annotated[InsulationCheckInputs, Meta(description="What insulation-check takes, for this build-up")]
        | None
    )


class BuildUpInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    resistance_below: Annotated[
        float,
        Meta(
            description="Thermal resistance from the pipes down to temperature_below, surface resistance of the ceiling below (0.17 over a room, 0 over ground) included [m2.K/W]; at least 0.05; at most 50"
        ),
    ]
    temperature_below: Annotated[
        float,
        Meta(description="Temperature below the floor [degC]; at least -50; at most 60"),
    ]
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering (default ceramic)"),
    ] = "ceramic"
    covering_resistance: Annotated[
        float,
        Meta(
            description="Thermal resistance of the floor covering (default 0.1) [m2.K/W]; at least 0; at most 1"
        ),
    ] = 0.1
    screed_cover: Annotated[
        float,
        Meta(description="Screed above the top of the pipe (default 0.045) [m]; at least 0.005; at most 0.3"),
    ] = 0.045
    screed_conductivity: Annotated[
        float,
        Meta(
            description="Thermal conductivity of the screed (default 1.2) [W/(m.K)]; at least 0.2; at most 5"
        ),
    ] = 1.2
    name: Annotated[
        str,
        Meta(description="Name for people; at least 0 characters; at most 120 characters"),
    ] = ""
    insulation: (
        Annotated[
            InsulationCheckInputsInput, Meta(description="What insulation-check takes, for this build-up")
        ]
        | UnsetType
        | None
    ) = UNSET


class ChosenFloor(Struct, kw_only=True):
    build_up: Annotated[
        BuildUp,
        Meta(description="The build-up with the covering that was chosen, as a request takes it"),
    ]
    like: Annotated[str, Meta(description="The id of the room's build-up")]
    covering_option: (
        Annotated[
            int,
            Meta(
                description="Number of the covering in the objective; null where a former design chose it [1]"
            ),
        ]
        | None
    )
    rooms: Annotated[list[str], Meta(description="The ids of the rooms that have it")]


class CoilPlanResponse(Struct, kw_only=True):
    inputs: Annotated[CoilPlanInputs, Meta(description="The inputs as used, defaults filled in")]
    coils: Annotated[
        list[PlannedCoil],
        Meta(description="Coils in the order in which they are opened"),
    ]
    to_buy: Annotated[list[CoilOrder], Meta(description="Coils to buy, longest first")]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    cut_length: Annotated[float, Meta(description="All pieces with their allowances [m]")]
    bought_length: Annotated[float, Meta(description="Length of all coils to buy [m]")]
    least_bought_length: Annotated[float, Meta(description="Length below which no plan can buy: proven [m]")]
    opened_coils: Annotated[int, Meta(description="Coils that are opened, those at hand included [1]")]
    fewest_coils: Annotated[
        int,
        Meta(description="Number below which no plan that buys as little can open: proven [1]"),
    ]
    proven: Annotated[
        bool,
        Meta(description="Whether no plan buys less, and none that buys as little opens fewer coils"),
    ]
    offcut_length: Annotated[float, Meta(description="What remains of all coils [m]")]
    usable_offcut_length: Annotated[float, Meta(description="Rests of at least 10 m, worth keeping [m]")]
    waste_share: Annotated[
        float,
        Meta(description="Share of the opened coils that does not become circuit [1]"),
    ]
    not_planned: Annotated[list[str], Meta(description="Ids of circuits that are longer than any coil")]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class CoilPlanResult(Struct, kw_only=True):
    coils: Annotated[
        list[PlannedCoil],
        Meta(description="Coils in the order in which they are opened"),
    ]
    to_buy: Annotated[list[CoilOrder], Meta(description="Coils to buy, longest first")]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    cut_length: Annotated[float, Meta(description="All pieces with their allowances [m]")]
    bought_length: Annotated[float, Meta(description="Length of all coils to buy [m]")]
    least_bought_length: Annotated[float, Meta(description="Length below which no plan can buy: proven [m]")]
    opened_coils: Annotated[int, Meta(description="Coils that are opened, those at hand included [1]")]
    fewest_coils: Annotated[
        int,
        Meta(description="Number below which no plan that buys as little can open: proven [1]"),
    ]
    proven: Annotated[
        bool,
        Meta(description="Whether no plan buys less, and none that buys as little opens fewer coils"),
    ]
    offcut_length: Annotated[float, Meta(description="What remains of all coils [m]")]
    usable_offcut_length: Annotated[float, Meta(description="Rests of at least 10 m, worth keeping [m]")]
    waste_share: Annotated[
        float,
        Meta(description="Share of the opened coils that does not become circuit [1]"),
    ]
    not_planned: Annotated[list[str], Meta(description="Ids of circuits that are longer than any coil")]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]


class CommissioningInputs(Struct, kw_only=True):
    circuits: Annotated[
        list[CircuitToCommission],
        Meta(description="The circuits in the order of the manifold's ports"),
    ]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    pipe_material: Annotated[
        Literal["PB", "PE-RT", "PE-X", "PP-R", "multilayer"],
        Meta(description="Material of the pipe, for its give and its thermal expansion"),
    ]
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")] | None
    additional_volume: Annotated[
        float,
        Meta(description="Fluid outside the circuits: in source, store and mains [m3]"),
    ]
    fluid: Annotated[Fluid, Meta(description="The fluid in the circuits")]
    frost_temperature: (
        Annotated[float, Meta(description="Lowest temperature that the filled system must withstand [degC]")]
        | None
    )
    leak_test: Annotated[LeakTest, Meta(description="The leak test before the pour")]
    flushing: Annotated[Flushing, Meta(description="How the circuits are flushed")]
    water_side: Annotated[WaterSide, Meta(description="The heat source and the water to fill with")]
    screeds: Annotated[
        list[ScreedToHeat],
        Meta(description="Screeds for the heat-up log and the moisture record"),
    ]
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560)"
        ),
    ]
    maximum_supply_temperature: Annotated[
        float, Meta(description="Highest supply temperature of the design [degC]")
    ]
    pour_temperature: Annotated[float, Meta(description="Temperature of the fresh screed [degC]")]
    joints: Annotated[list[JointSpan], Meta(description="Movement joints with the fields beside them")]
    project: Annotated[str, Meta(description="Name of the project, printed on the records")]


class CommissioningRequest(Struct, kw_only=True):
    circuits: Annotated[
        list[CircuitToCommissionInput],
        Meta(
            description="The circuits in the order of the manifold's ports; at least 1 items; at most 256 items"
        ),
    ]
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    pipe_material: Annotated[
        Literal["PB", "PE-RT", "PE-X", "PP-R", "multilayer"],
        Meta(description="Material of the pipe, for its give and its thermal expansion (default PE-X)"),
    ] = "PE-X"
    system_volume: (
        Annotated[
            float, Meta(description="Volume of fluid in the system [m3]; at least 0.0001; at most 1000")
        ]
        | UnsetType
        | None
    ) = UNSET
    additional_volume: Annotated[
        float,
        Meta(
            description="Fluid outside the circuits: in source, store and mains (default 0.0) [m3]; at least 0; at most 100"
        ),
    ] = 0.0
    fluid: Annotated[FluidInput, Meta(description="The fluid in the circuits")] = field(
        default_factory=lambda: convert(
            {"kind": "water", "concentration": 0.0, "basis": "volume"}, type=FluidInput
        )
    )
    frost_temperature: (
        Annotated[
            float,
            Meta(
                description="Lowest temperature that the filled system must withstand [degC]; at least -60; at most 5"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    leak_test: Annotated[LeakTestInput, Meta(description="The leak test before the pour")] = field(
        default_factory=lambda: convert(
            {
                "medium": "water",
                "operating_pressure": None,
                "component_rating": 600000.0,
                "test_pressure": None,
                "duration": 86400.0,
                "test_temperature": 15.0,
                "temperature_change": 5.0,
                "trapped_air": 0.005,
            },
            type=LeakTestInput,
        )
    )
    flushing: Annotated[FlushingInput, Meta(description="How the circuits are flushed")] = field(
        default_factory=lambda: convert(
            {"velocity": 0.6, "exchanges": 3, "water_temperature": 10.0}, type=FlushingInput
        )
    )
    water_side: Annotated[
        WaterSideInput,
        Meta(description="The heat source and the water to fill with"),
    ] = field(
        default_factory=lambda: convert(
            {
                "source_output": None,
                "kind": "usual",
                "hardness": None,
                "aluminium": False,
                "precharge_pressure": None,
                "fill_pressure": None,
            },
            type=WaterSideInput,
        )
    )
    screeds: Annotated[
        list[ScreedToHeatInput],
        Meta(
            description="Screeds for the heat-up log and the moisture record; at least 0 items; at most 16 items"
        ),
    ] = field(default_factory=list)
    binder: Annotated[
        Literal["calcium_sulphate", "calcium_sulphate_flowing", "cement"],
        Meta(
            description="Binder of the screed in the words of EN 13813: cement (CT), calcium_sulphate (CA) or calcium_sulphate_flowing (CA laid as flowing screed, CAF in DIN 18560) (default cement)"
        ),
    ] = "cement"
    maximum_supply_temperature: Annotated[
        float,
        Meta(
            description="Highest supply temperature of the design (default 45.0) [degC]; at least 20; at most 90"
        ),
    ] = 45.0
    pour_temperature: Annotated[
        float,
        Meta(description="Temperature of the fresh screed (default 15.0) [degC]; at least 0; at most 40"),
    ] = 15.0
    joints: Annotated[
        list[JointSpanInput],
        Meta(description="Movement joints with the fields beside them; at least 0 items; at most 256 items"),
    ] = field(default_factory=list)
    project: Annotated[
        str,
        Meta(
            description="Name of the project, printed on the records; at least 0 characters; at most 120 characters"
        ),
    ] = ""
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class CommissioningResponse(Struct, kw_only=True):
    inputs: Annotated[CommissioningInputs, Meta(description="The inputs as used, defaults filled in")]
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")]
    leak_test: Annotated[LeakTestPlan, Meta(description="The leak test with its steps")]
    flushing: Annotated[list[FlushingRow], Meta(description="Circuits to flush one by one")]
    filling: Annotated[Filling, Meta(description="How the system is filled")]
    antifreeze: Annotated[
        list[AntifreezeOption],
        Meta(description="Both glycols for the frost temperature; empty without one"),
    ]
    water_limits: Annotated[WaterLimits, Meta(description="Limits of the heating water")]
    backflow: Annotated[
        BackflowProtection,
        Meta(description="What stands between drinking water and the system while it is filled"),
    ]
    balancing: Annotated[list[BalancingRow], Meta(description="What to set at each circuit")]
    heat_up_log: Annotated[
        list[HeatUpRow],
        Meta(description="Days of the first heating; empty without a curing plan"),
    ]
    moisture_points: Annotated[
        list[MoistureRow],
        Meta(description="Test points floor by floor; empty without a curing plan"),
    ]
    joint_movements: Annotated[list[JointMovement], Meta(description="Thermal movement at joints")]
    edge_movement_limit: Annotated[float, Meta(description="Movement that the edge strip must allow [m]")]
    forms: Annotated[list[RecordForm], Meta(description="Records to fill in on site")]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class CommissioningResult(Struct, kw_only=True):
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")]
    leak_test: Annotated[LeakTestPlan, Meta(description="The leak test with its steps")]
    flushing: Annotated[list[FlushingRow], Meta(description="Circuits to flush one by one")]
    filling: Annotated[Filling, Meta(description="How the system is filled")]
    antifreeze: Annotated[
        list[AntifreezeOption],
        Meta(description="Both glycols for the frost temperature; empty without one"),
    ]
    water_limits: Annotated[WaterLimits, Meta(description="Limits of the heating water")]
    backflow: Annotated[
        BackflowProtection,
        Meta(description="What stands between drinking water and the system while it is filled"),
    ]
    balancing: Annotated[list[BalancingRow], Meta(description="What to set at each circuit")]
    heat_up_log: Annotated[
        list[HeatUpRow],
        Meta(description="Days of the first heating; empty without a curing plan"),
    ]
    moisture_points: Annotated[
        list[MoistureRow],
        Meta(description="Test points floor by floor; empty without a curing plan"),
    ]
    joint_movements: Annotated[list[JointMovement], Meta(description="Thermal movement at joints")]
    edge_movement_limit: Annotated[float, Meta(description="Movement that the edge strip must allow [m]")]
    forms: Annotated[list[RecordForm], Meta(description="Records to fill in on site")]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]


class CuringPlanResponse(Struct, kw_only=True):
    inputs: Annotated[CuringPlanInputs, Meta(description="The inputs as used, defaults filled in")]
    earliest_heating: Annotated[
        date_aliased,
        Meta(description="First day on which heating may start, in 1990 to 2199"),
    ]
    earliest_covering: Annotated[
        date_aliased,
        Meta(
            description="First day for which the covering can be planned; only a moisture measurement releases the floor, in 1990 to 2199"
        ),
    ]
    stages: Annotated[list[CuringStage], Meta(description="Stages in order, without gap or overlap")]
    daily_programme: Annotated[
        list[ProgrammeDay],
        Meta(description="Supply temperature of every heating day in order"),
    ]
    screed_cover: Annotated[float, Meta(description="Screed above the top of the pipe [m]")]
    nominal_thickness: Annotated[
        float, Meta(description="Least thickness in the table, without the pipe [m]")
    ]
    minimum_screed_cover: Annotated[
        float,
        Meta(description="Least screed above the pipe that the rules ask for [m]"),
    ]
    minimum_thickness: Annotated[
        float,
        Meta(description="Least whole thickness that the rules ask for, pipe included [m]"),
    ]
    screed_mass: Annotated[
        float,
        Meta(description="Mass of the screed per floor area, at the upper usual density [kg/m2]"),
    ]
    film_thickness: Annotated[
        float,
        Meta(description="Least thickness of the film between insulation and screed [m]"),
    ]
    film_lap: Annotated[float, Meta(description="Smallest overlap of the film's sheets [m]")]
    highest_supply_temperature: Annotated[
        float, Meta(description="Highest supply temperature in the programme [degC]")
    ]
    binder_temperature_limit: Annotated[
        float, Meta(description="Highest temperature that the screed can bear [degC]")
    ]
    surface_temperature_limit: Annotated[
        float, Meta(description="Highest permitted floor surface temperature [degC]")
    ]
    drying_days: Annotated[
        int,
        Meta(description="Estimated drying time after curing, unheated; a planning value [d]"),
    ]
    moisture_limit: Annotated[
        MoistureLimit,
        Meta(description="Residual moisture at which the covering may be laid on the heated screed"),
    ]
    test_points: Annotated[
        list[int],
        Meta(description="Moisture test points of each room, in the order of room_areas [1]"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class CuringPlanResult(Struct, kw_only=True):
    earliest_heating: Annotated[
        date_aliased,
        Meta(description="First day on which heating may start, in 1990 to 2199"),
    ]
    earliest_covering: Annotated[
        date_aliased,
        Meta(
            description="First day for which the covering can be planned; only a moisture measurement releases the floor, in 1990 to 2199"
        ),
    ]
    stages: Annotated[list[CuringStage], Meta(description="Stages in order, without gap or overlap")]
    daily_programme: Annotated[
        list[ProgrammeDay],
        Meta(description="Supply temperature of every heating day in order"),
    ]
    screed_cover: Annotated[float, Meta(description="Screed above the top of the pipe [m]")]
    nominal_thickness: Annotated[
        float, Meta(description="Least thickness in the table, without the pipe [m]")
    ]
    minimum_screed_cover: Annotated[
        float,
        Meta(description="Least screed above the pipe that the rules ask for [m]"),
    ]
    minimum_thickness: Annotated[
        float,
        Meta(description="Least whole thickness that the rules ask for, pipe included [m]"),
    ]
    screed_mass: Annotated[
        float,
        Meta(description="Mass of the screed per floor area, at the upper usual density [kg/m2]"),
    ]
    film_thickness: Annotated[
        float,
        Meta(description="Least thickness of the film between insulation and screed [m]"),
    ]
    film_lap: Annotated[float, Meta(description="Smallest overlap of the film's sheets [m]")]
    highest_supply_temperature: Annotated[
        float, Meta(description="Highest supply temperature in the programme [degC]")
    ]
    binder_temperature_limit: Annotated[
        float, Meta(description="Highest temperature that the screed can bear [degC]")
    ]
    surface_temperature_limit: Annotated[
        float, Meta(description="Highest permitted floor surface temperature [degC]")
    ]
    drying_days: Annotated[
        int,
        Meta(description="Estimated drying time after curing, unheated; a planning value [d]"),
    ]
    moisture_limit: Annotated[
        MoistureLimit,
        Meta(description="Residual moisture at which the covering may be laid on the heated screed"),
    ]
    test_points: Annotated[
        list[int],
        Meta(description="Moisture test points of each room, in the order of room_areas [1]"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]


class DesignLayout(Struct, kw_only=True):
    manifold_place: Annotated[
        tuple[float, float],
        Meta(
            description="Where the manifold stands; the pipes come in where the outline is nearest to it [m]; at least 2 items; at most 2 items"
        ),
    ]
    drawn_length: Annotated[float, Meta(description="Sum of the drawn circuits [m]")]
    drawn_circuits: Annotated[
        list[DrawnCircuit],
        Meta(description="Circuits in the order of manifolds and their ports"),
    ]
    doorway_stretches: Annotated[
        list[DrawnDoorway],
        Meta(description="The doorways as they were found on the outlines"),
    ]
    sleeves: Annotated[
        list[DrawnSleeve],
        Meta(description="Where tails pass movement joints in a sleeve"),
    ]
    unplaced: Annotated[
        list[UnplacedCircuit],
        Meta(description="Circuits that could not be drawn, and why"),
    ]
    placed_manifolds: Annotated[
        list[DrawnManifold],
        Meta(description="The manifolds of the storeys that are drawn"),
    ]
    sitings: Annotated[
        list[StoreySiting],
        Meta(description="Pipe that the places of the manifolds take, by storey, where places were searched"),
    ]


class DesignOption(Struct, kw_only=True):
    number: Annotated[
        int,
        Meta(description="Number of the option, counted from 1; 0: the house by the rule [1]"),
    ]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    design_drop: Annotated[float, Meta(description="Temperature drop of the governing room [K]")]
    rooms: Annotated[list[OptionRoom], Meta(description="What each room is in this option")]
    manifolds: Annotated[list[ManifoldPorts], Meta(description="The manifolds that serve rooms")]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    circuit_count: Annotated[int, Meta(description="Number of its circuits [1]")]
    heat_missing: Annotated[
        float,
        Meta(description="Heat demand that the floor cannot give; 0 when it can [W]"),
    ]
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")]
    pump: Annotated[Pump, Meta(description="Pump duty")]
    pump_stage: (
        Annotated[
            int,
            Meta(
                description="Number of the pump's setting in the request; null: none does, or none is given [1]"
            ),
        ]
        | None
    )
    material_cost: Annotated[float, Meta(description="Price of the material; null without prices [1]")] | None
    coils: (
        Annotated[
            OptionCoils, Meta(description="The coils that the pipe is cut from; null without their prices")
        ]
        | None
    )
    energy: (
        Annotated[
            EnergyOfYear, Meta(description="Electricity of a year and its cost; null without a heat pump")
        ]
        | None
    )
    proven: Annotated[
        bool,
        Meta(description="Whether no other choice at this supply is better of its kind"),
    ]
    gap: Annotated[
        float,
        Meta(description="Share by which another choice could be better; 0 where proven [1]"),
    ]
    breaks: Annotated[list[str], Meta(description="Limits that it breaks, by the codes of designs")]
    beside: (
        Annotated[
            BesideNeighbour,
            Meta(description="What it takes more or less than the option before; null for the first"),
        ]
        | None
    )


class DesignOptionsResult(Struct, kw_only=True):
    options: Annotated[
        list[DesignOption],
        Meta(description="The options from the warmest supply to the coldest"),
    ]
    by_rule: Annotated[DesignOption, Meta(description="The house as designs does it, by area")]
    least_material: Annotated[int, Meta(description="The option with the least material [1]")]
    least_supply: Annotated[int, Meta(description="The option with the coldest supply [1]")]
    least_pump_power: Annotated[int, Meta(description="The option with the least pump power [1]")]
    least_cost_of_use: (
        Annotated[
            int, Meta(description="The option that costs least with its energy; null without prices [1]")
        ]
        | None
    )
    supplies_considered: Annotated[int, Meta(description="Supply temperatures that were looked at [1]")]
    searches: Annotated[int, Meta(description="Mixed-integer programmes that were solved [1]")]
    solver: Annotated[
        str,
        Meta(description="What solved them, with its version; empty where none was needed"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]


class DesignSensitivityResult(Struct, kw_only=True):
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    heat_missing: Annotated[
        float,
        Meta(description="Heat demand that the floor cannot give; 0 when it can [W]"),
    ]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    circuit_count: Annotated[int, Meta(description="Number of its circuits [1]")]
    pump_power: Annotated[float, Meta(description="Power that the pump gives to the water [W]")]
    lines: Annotated[
        list[SensitivityLine],
        Meta(description="The design with one change each, the greatest effect first"),
    ]
    rooms: Annotated[
        list[RoomSensitivity],
        Meta(description="What its own changes and those of the house do to each room"),
    ]
    tolerances: Annotated[
        list[RoomTolerance],
        Meta(description="How much more heat each room may need at its spacing"),
    ]
    demand_tolerance: Annotated[float, Meta(description="The least of these of all rooms [1]")]
    finding_tolerances: Annotated[
        list[FindingTolerance],
        Meta(
            description="How much more heat may be needed before a finding changes: all rooms together, then each alone"
        ),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]


class EstimatesInputs(Struct, kw_only=True):
    floor_area: Annotated[float, Meta(description="Floor area [m2]")] | None
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(description="Corners of the outline in order, without repeating the first [m]"),
        ]
        | None
    )
    rooms: Annotated[list[EstimateRoom], Meta(description="Heated rooms by their areas")]
    room_count: Annotated[int, Meta(description="Number of heated rooms [1]")] | None
    storey_count: Annotated[int, Meta(description="Number of storeys, each with a manifold of its own [1]")]
    building_standard: Annotated[
        Literal["new", "renovated", "unrenovated"],
        Meta(
            description="Standard of the building: new, renovated (better windows, some insulation), or unrenovated"
        ),
    ]
    specific_heat_demand: (
        Annotated[float, Meta(description="Heat demand of the house per heated floor area [W/m2]")] | None
    )
    heat_demand: (
        Annotated[
            float,
            Meta(description="Heat that the room needs, without the loss through its own heated floor [W]"),
        ]
        | None
    )
    outside_design_temperature: Annotated[
        float, Meta(description="Outside design temperature of the region [degC]")
    ]
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering"),
    ]
    covering_resistance: (
        Annotated[float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")] | None
    )
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    maximum_supply_temperature: Annotated[
        float, Meta(description="Highest supply temperature of the design [degC]")
    ]
    ordering: Annotated[
        Ordering,
        Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
    ]


class EstimatesRequest(Struct, kw_only=True):
    floor_area: (
        Annotated[float, Meta(description="Floor area [m2]; at least 0.05; at most 10000")] | UnsetType | None
    ) = UNSET
    outline: (
        Annotated[
            list[OutlineItem],
            Meta(
                description="Corners of the outline in order, without repeating the first [m]; at least 3 items; at most 256 items"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    rooms: Annotated[
        list[EstimateRoomInput],
        Meta(description="Heated rooms by their areas; at least 0 items; at most 64 items"),
    ] = field(default_factory=list)
    room_count: (
        Annotated[int, Meta(description="Number of heated rooms [1]; at least 1; at most 64")]
        | UnsetType
        | None
    ) = UNSET
    storey_count: Annotated[
        int,
        Meta(
            description="Number of storeys, each with a manifold of its own (default 1) [1]; at least 1; at most 8"
        ),
    ] = 1
    building_standard: Annotated[
        Literal["new", "renovated", "unrenovated"],
        Meta(
            description="Standard of the building: new, renovated (better windows, some insulation), or unrenovated (default new)"
        ),
    ] = "new"
    specific_heat_demand: (
        Annotated[
            float,
            Meta(
                description="Heat demand of the house per heated floor area [W/m2]; at least 1; at most 400"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    heat_demand: (
        Annotated[
            float,
            Meta(
                description="Heat that the room needs, without the loss through its own heated floor [W]; at least 1; at most 500000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    outside_design_temperature: Annotated[
        float,
        Meta(
            description="Outside design temperature of the region (default -12.0) [degC]; at least -50; at most 15"
        ),
    ] = -12.0
    covering: Annotated[
        Literal["carpet", "ceramic", "laminate", "natural_stone", "resilient", "timber"],
        Meta(description="Family of the floor covering (default ceramic)"),
    ] = "ceramic"
    covering_resistance: (
        Annotated[
            float,
            Meta(description="Thermal resistance of the floor covering [m2.K/W]; at least 0; at most 1"),
        ]
        | UnsetType
        | None
    ) = UNSET
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    maximum_supply_temperature: Annotated[
        float,
        Meta(
            description="Highest supply temperature of the design (default 45.0) [degC]; at least 20; at most 90"
        ),
    ] = 45.0
    ordering: Annotated[
        OrderingInput,
        Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
    ] = field(
        default_factory=lambda: convert(
            {
                "coil_lengths": [50.0, 60.0, 80.0, 100.0, 120.0, 200.0, 240.0, 300.0, 500.0, 600.0],
                "stock": [],
                "cutting_allowance": 0.5,
                "fixing_distance": 0.4,
                "fixings_per_box": 300,
                "board": {"length": 1.0, "width": 0.5},
                "film": {"width": 2.0, "length": 50.0, "lap": 0.08, "upturn": None},
                "edge_strip_roll": 50.0,
                "tape_roll": 50.0,
                "joint_profile_length": 2.0,
                "sleeve_length": 0.3,
                "screed_supply": {
                    "form": None,
                    "density": 2200.0,
                    "bag_mass": 40.0,
                    "bag_yield": 0.02,
                    "mixer_load": 0.2,
                    "cement_content": 390.0,
                    "sand_content": 1600.0,
                    "additive_share": 0.008,
                    "pump_rest": 0.2,
                },
                "manifold_parts": {
                    "actuators": True,
                    "port_pitch": 0.05,
                    "end_length": 0.25,
                    "cabinet_widths": [0.45, 0.6, 0.75, 0.9, 1.05, 1.2, 1.5],
                },
                "inhibitor_share": 0.01,
                "overrides": [],
                "price_list": None,
            },
            type=OrderingInput,
        )
    )
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class EstimatesResponse(Struct, kw_only=True):
    inputs: Annotated[EstimatesInputs, Meta(description="The inputs as used, defaults filled in")]
    floor_area: Annotated[float, Meta(description="Floor area net of voids [m2]")]
    room_count: Annotated[int, Meta(description="Number of heated rooms [1]")]
    specific_heat_demand: Annotated[EstimateRange, Meta(description="Heat demand per heated floor area")]
    pipe_length: Annotated[EstimateRange, Meta(description="Pipe of all circuits, tails included")]
    circuit_count: Annotated[EstimateRange, Meta(description="Number of circuits")]
    manifold_count: Annotated[EstimateRange, Meta(description="Number of manifolds")]
    heat_output: Annotated[EstimateRange, Meta(description="Heat that the floors give to the rooms")]
    supply_temperature: Annotated[
        EstimateRange,
        Meta(description="Supply temperature on the coldest day of design"),
    ]
    materials: Annotated[list[EstimatedMaterial], Meta(description="Lines of the order")]
    currency: Annotated[str, Meta(description="Currency of the prices")] | None
    total_cost: Annotated[EstimateRange, Meta(description="Cost in the currency of the price list")] | None
    without_price: Annotated[
        list[str],
        Meta(description="Items of this order that the price list does not have"),
    ]
    house_class: Annotated[str, Meta(description="What is known of the rooms: rooms, count or area")]
    drawn_designs: Annotated[
        int,
        Meta(description="Drawn designs on which the spread of this class was measured [1]"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class FloorSectionResponse(Struct, kw_only=True):
    inputs: Annotated[FloorSectionInputs, Meta(description="The inputs as used, defaults filled in")]
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    downward_heat_loss: Annotated[float, Meta(description="Heat lost downwards per floor area [W/m2]")]
    total_heat_output: Annotated[
        float,
        Meta(description="Heat from the water per floor area, up and down [W/m2]"),
    ]
    heat_transmittance: Annotated[
        float,
        Meta(description="Heat output per kelvin of mean excess temperature [W/(m2.K)]"),
    ]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    highest_surface_temperature: Annotated[
        float, Meta(description="Highest floor surface temperature [degC]")
    ]
    lowest_surface_temperature: Annotated[float, Meta(description="Lowest floor surface temperature [degC]")]
    pipe_surface_temperature: Annotated[
        float, Meta(description="Mean temperature of the screed at the pipe [degC]")
    ]
    below_covering_temperature: Annotated[
        float,
        Meta(description="Mean temperature of the top face of the screed, below all that lies on it [degC]"),
    ]
    highest_below_covering_temperature: Annotated[
        float,
        Meta(description="Highest temperature of the top face of the screed [degC]"),
    ]
    screed_underside_temperature: Annotated[
        float,
        Meta(description="Mean temperature at the underside of the screed [degC]"),
    ]
    surface_coefficient: Annotated[
        float,
        Meta(description="Heat transfer from the floor surface to the room [W/(m2.K)]"),
    ]
    film_coefficient: Annotated[
        float,
        Meta(
            description="Heat transfer from the water to the bore; from the velocity if not given [W/(m2.K)]"
        ),
    ]
    pipe_resistance: Annotated[
        float,
        Meta(description="Resistance of film and wall per length of pipe [m.K/W]"),
    ]
    surface_profile: Annotated[
        list[ProfilePoint],
        Meta(description="Floor surface from the pipe to midway to the next, or from the edge on"),
    ]
    edge_bay: Annotated[EdgeResult, Meta(description="The outermost bay, with its cold edge")] | None
    warm_up: Annotated[WarmUpResult, Meta(description="The section in time; null when not asked for")] | None
    comparison: Annotated[
        list[ComparedSection],
        Meta(description="The floor at each compared spacing with each compared water"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class FloorSectionResult(Struct, kw_only=True):
    heat_output: Annotated[float, Meta(description="Heat given to the room per floor area [W/m2]")]
    downward_heat_loss: Annotated[float, Meta(description="Heat lost downwards per floor area [W/m2]")]
    total_heat_output: Annotated[
        float,
        Meta(description="Heat from the water per floor area, up and down [W/m2]"),
    ]
    heat_transmittance: Annotated[
        float,
        Meta(description="Heat output per kelvin of mean excess temperature [W/(m2.K)]"),
    ]
    mean_surface_temperature: Annotated[float, Meta(description="Mean floor surface temperature [degC]")]
    highest_surface_temperature: Annotated[
        float, Meta(description="Highest floor surface temperature [degC]")
    ]
    lowest_surface_temperature: Annotated[float, Meta(description="Lowest floor surface temperature [degC]")]
    pipe_surface_temperature: Annotated[
        float, Meta(description="Mean temperature of the screed at the pipe [degC]")
    ]
    below_covering_temperature: Annotated[
        float,
        Meta(description="Mean temperature of the top face of the screed, below all that lies on it [degC]"),
    ]
    highest_below_covering_temperature: Annotated[
        float,
        Meta(description="Highest temperature of the top face of the screed [degC]"),
    ]
    screed_underside_temperature: Annotated[
        float,
        Meta(description="Mean temperature at the underside of the screed [degC]"),
    ]
    surface_coefficient: Annotated[
        float,
        Meta(description="Heat transfer from the floor surface to the room [W/(m2.K)]"),
    ]
    film_coefficient: Annotated[
        float,
        Meta(
            description="Heat transfer from the water to the bore; from the velocity if not given [W/(m2.K)]"
        ),
    ]
    pipe_resistance: Annotated[
        float,
        Meta(description="Resistance of film and wall per length of pipe [m.K/W]"),
    ]
    surface_profile: Annotated[
        list[ProfilePoint],
        Meta(description="Floor surface from the pipe to midway to the next, or from the edge on"),
    ]
    edge_bay: Annotated[EdgeResult, Meta(description="The outermost bay, with its cold edge")] | None
    warm_up: Annotated[WarmUpResult, Meta(description="The section in time; null when not asked for")] | None
    comparison: Annotated[
        list[ComparedSection],
        Meta(description="The floor at each compared spacing with each compared water"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]


class FormerFloor(Struct, kw_only=True):
    build_up: Annotated[
        BuildUp,
        Meta(description="The build-up with the covering that was chosen, as a request takes it"),
    ]
    like: Annotated[str, Meta(description="The id of the room's build-up")]
    rooms: Annotated[list[str], Meta(description="The ids of the rooms that have it")]


class FormerFloorInput(Struct, kw_only=True):
    build_up: Annotated[
        BuildUpInput,
        Meta(description="The build-up with the covering that was chosen, as a request takes it"),
    ]
    like: Annotated[
        str,
        Meta(description="The id of the room's build-up; at least 1 characters; at most 64 characters"),
    ]
    rooms: Annotated[
        list[str],
        Meta(description="The ids of the rooms that have it; at least 0 items; at most 64 items"),
    ] = field(default_factory=list)


class FormerRoom(Struct, kw_only=True):
    id: Annotated[str, Meta(description="The caller's own name for this item")]
    manifold: Annotated[str, Meta(description="The id of a manifold")] | None
    pipe_spacing: Annotated[float, Meta(description="Distance between pipe centres [m]")] | None
    circuit_ids: Annotated[
        list[str],
        Meta(description="The ids of the room's circuits; none where tails alone heat it"),
    ]
    heat_demand: (
        Annotated[
            float,
            Meta(description="Heat that the room needs, without the loss through its own heated floor [W]"),
        ]
        | None
    )
    heat_given: (
        Annotated[float, Meta(description="Heat that the floor gives to the room at the design's flows [W]")]
        | None
    )
    heat_missing: (
        Annotated[float, Meta(description="Heat demand that the floor cannot give; 0 when it can [W]")] | None
    )
    mean_surface_temperature: (
        Annotated[float, Meta(description="Mean floor surface temperature [degC]")] | None
    )
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")] | None
    pattern: (
        Annotated[
            Literal["counterflow", "serpentine"],
            Meta(
                description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
            ),
        ]
        | None
    )
    peripheral: (
        Annotated[FormerStrip, Meta(description="The closer strip as it is in the end; null without one")]
        | None
    )


class FormerRoomInput(Struct, kw_only=True):
    id: Annotated[
        str,
        Meta(description="The caller's own name for this item; at least 1 characters; at most 64 characters"),
    ]
    manifold: (
        Annotated[str, Meta(description="The id of a manifold; at least 1 characters; at most 64 characters")]
        | UnsetType
        | None
    ) = UNSET
    pipe_spacing: (
        Annotated[float, Meta(description="Distance between pipe centres [m]; at least 0.03; at most 0.6")]
        | UnsetType
        | None
    ) = UNSET
    circuit_ids: Annotated[
        list[str],
        Meta(
            description="The ids of the room's circuits; none where tails alone heat it; at least 0 items; at most 256 items"
        ),
    ] = field(default_factory=list)
    heat_demand: (
        Annotated[
            float,
            Meta(
                description="Heat that the room needs, without the loss through its own heated floor [W]; at least 1; at most 500000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    heat_given: (
        Annotated[
            float,
            Meta(
                description="Heat that the floor gives to the room at the design's flows [W]; at least 0; at most 500000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    heat_missing: (
        Annotated[
            float,
            Meta(
                description="Heat demand that the floor cannot give; 0 when it can [W]; at least 0; at most 500000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    mean_surface_temperature: (
        Annotated[float, Meta(description="Mean floor surface temperature [degC]; at least -50; at most 150")]
        | UnsetType
        | None
    ) = UNSET
    pipe_length: (
        Annotated[
            float, Meta(description="Pipe of all circuits, tails included [m]; at least 0; at most 20000")
        ]
        | UnsetType
        | None
    ) = UNSET
    pattern: (
        Annotated[
            Literal["counterflow", "serpentine"],
            Meta(
                description="counterflow: flow and return side by side, inwards and back; serpentine: to and fro across the room"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    peripheral: (
        Annotated[
            FormerStripInput, Meta(description="The closer strip as it is in the end; null without one")
        ]
        | UnsetType
        | None
    ) = UNSET


class HeatLossInputs(Struct, kw_only=True):
    external_temperature: Annotated[float, Meta(description="Design temperature of the outside air [degC]")]
    rooms: Annotated[list[HeatLossRoom], Meta(description="Rooms heated by the floor")]
    constructions: Annotated[list[Construction], Meta(description="Constructions that elements name")]
    annual_mean_temperature: (
        Annotated[float, Meta(description="Mean temperature of the outside air over a year [degC]")] | None
    )
    storey_height: Annotated[
        float,
        Meta(description="From floor to floor: height of the walls that follow from an outline [m]"),
    ]
    wall_area_ratio: Annotated[
        float,
        Meta(
            description="Outer divided by inner area of outside walls, where outlines run along the inner faces: 1 when they are outer dimensions, 1.25 when nothing is known [1]"
        ),
    ]
    thermal_bridge_supplement: Annotated[
        float,
        Meta(description="Supplement to the U-values for thermal bridges at junctions [W/(m2.K)]"),
    ]
    ground: Annotated[Ground, Meta(description="The ground and the building's whole floor on it")]
    underfloor_space: Annotated[
        UnderfloorSpace, Meta(description="The ventilated space below suspended floors")
    ]
    unheated_spaces: Annotated[
        list[UnheatedSpace],
        Meta(description="Spaces without heating that rooms border on"),
    ]


class HeatLossInputsInput(Struct, kw_only=True):
    external_temperature: Annotated[
        float,
        Meta(description="Design temperature of the outside air [degC]; at least -60; at most 30"),
    ]
    rooms: Annotated[
        list[HeatLossRoomInput],
        Meta(description="Rooms heated by the floor; at least 1 items; at most 64 items"),
    ]
    constructions: Annotated[
        list[ConstructionInput],
        Meta(description="Constructions that elements name; at least 0 items; at most 64 items"),
    ] = field(default_factory=list)
    annual_mean_temperature: (
        Annotated[
            float,
            Meta(
                description="Mean temperature of the outside air over a year [degC]; at least -20; at most 30"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    storey_height: Annotated[
        float,
        Meta(
            description="From floor to floor: height of the walls that follow from an outline (default 2.5) [m]; at least 1.5; at most 20"
        ),
    ] = 2.5
    wall_area_ratio: Annotated[
        float,
        Meta(
            description="Outer divided by inner area of outside walls, where outlines run along the inner faces: 1 when they are outer dimensions, 1.25 when nothing is known (default 1.0) [1]; at least 1; at most 2"
        ),
    ] = 1.0
    thermal_bridge_supplement: Annotated[
        float,
        Meta(
            description="Supplement to the U-values for thermal bridges at junctions (default 0.1) [W/(m2.K)]; at least 0; at most 1"
        ),
    ] = 0.1
    ground: Annotated[
        GroundInput,
        Meta(description="The ground and the building's whole floor on it"),
    ] = field(
        default_factory=lambda: convert(
            {
                "thermal_conductivity": 2.0,
                "wall_thickness": 0.3,
                "floor_area": None,
                "exposed_perimeter": None,
                "edge_insulation": None,
                "groundwater_depth": None,
            },
            type=GroundInput,
        )
    )
    underfloor_space: Annotated[
        UnderfloorSpaceInput,
        Meta(description="The ventilated space below suspended floors"),
    ] = field(
        default_factory=lambda: convert(
            {
                "floor_height": 0.3,
                "wall_u_value": 1.7,
                "ventilation_openings": 0.0015,
                "wind_speed": 3.0,
                "shielding": "average",
                "ground_insulation": 0.0,
            },
            type=UnderfloorSpaceInput,
        )
    )
    unheated_spaces: Annotated[
        list[UnheatedSpaceInput],
        Meta(description="Spaces without heating that rooms border on; at least 0 items; at most 16 items"),
    ] = field(default_factory=list)


class HeatLossRequest(Struct, kw_only=True):
    external_temperature: Annotated[
        float,
        Meta(description="Design temperature of the outside air [degC]; at least -60; at most 30"),
    ]
    rooms: Annotated[
        list[HeatLossRoomInput],
        Meta(description="Rooms heated by the floor; at least 1 items; at most 64 items"),
    ]
    constructions: Annotated[
        list[ConstructionInput],
        Meta(description="Constructions that elements name; at least 0 items; at most 64 items"),
    ] = field(default_factory=list)
    annual_mean_temperature: (
        Annotated[
            float,
            Meta(
                description="Mean temperature of the outside air over a year [degC]; at least -20; at most 30"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    storey_height: Annotated[
        float,
        Meta(
            description="From floor to floor: height of the walls that follow from an outline (default 2.5) [m]; at least 1.5; at most 20"
        ),
    ] = 2.5
    wall_area_ratio: Annotated[
        float,
        Meta(
            description="Outer divided by inner area of outside walls, where outlines run along the inner faces: 1 when they are outer dimensions, 1.25 when nothing is known (default 1.0) [1]; at least 1; at most 2"
        ),
    ] = 1.0
    thermal_bridge_supplement: Annotated[
        float,
        Meta(
            description="Supplement to the U-values for thermal bridges at junctions (default 0.1) [W/(m2.K)]; at least 0; at most 1"
        ),
    ] = 0.1
    ground: Annotated[
        GroundInput,
        Meta(description="The ground and the building's whole floor on it"),
    ] = field(
        default_factory=lambda: convert(
            {
                "thermal_conductivity": 2.0,
                "wall_thickness": 0.3,
                "floor_area": None,
                "exposed_perimeter": None,
                "edge_insulation": None,
                "groundwater_depth": None,
            },
            type=GroundInput,
        )
    )
    underfloor_space: Annotated[
        UnderfloorSpaceInput,
        Meta(description="The ventilated space below suspended floors"),
    ] = field(
        default_factory=lambda: convert(
            {
                "floor_height": 0.3,
                "wall_u_value": 1.7,
                "ventilation_openings": 0.0015,
                "wind_speed": 3.0,
                "shielding": "average",
                "ground_insulation": 0.0,
            },
            type=UnderfloorSpaceInput,
        )
    )
    unheated_spaces: Annotated[
        list[UnheatedSpaceInput],
        Meta(description="Spaces without heating that rooms border on; at least 0 items; at most 16 items"),
    ] = field(default_factory=list)
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class HeatLossResponse(Struct, kw_only=True):
    inputs: Annotated[HeatLossInputs, Meta(description="The inputs as used, defaults filled in")]
    heat_loss: Annotated[
        float,
        Meta(description="Heat lost; of a room or building without that through heated floors [W]"),
    ]
    transmission_loss: Annotated[
        float,
        Meta(description="Heat lost through elements, without that through heated floors [W]"),
    ]
    ventilation_loss: Annotated[float, Meta(description="Heat to warm up the air that comes in [W]")]
    heated_floor_loss: Annotated[
        float,
        Meta(description="Heat lost through the heated floors as if they were as warm as the room [W]"),
    ]
    reheat_power: Annotated[float, Meta(description="Extra power to warm up after a setback [W]")]
    heat_demand: Annotated[
        float,
        Meta(description="Heat that the room needs, without the loss through its own heated floor [W]"),
    ]
    rooms: Annotated[list[RoomLoss], Meta(description="The rooms in the order of the request")]
    unheated_spaces: Annotated[
        list[SpaceTemperature],
        Meta(description="The unheated spaces in the order of the request"),
    ]
    ground: (
        Annotated[
            GroundFloor,
            Meta(description="The building's floor on the ground; null when no element borders on ground"),
        ]
        | None
    )
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class HouseToDesign(Struct, kw_only=True):
    rooms: Annotated[list[DesignRoom], Meta(description="Rooms heated by the floor")]
    build_ups: Annotated[
        list[BuildUp],
        Meta(description="Floors by their layers; rooms name one of them"),
    ]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    manifold: Annotated[
        Manifold,
        Meta(description="The manifold that serves the rooms, where there is one"),
    ]
    source: Annotated[HeatSource, Meta(description="What the source of heat can give")]
    fluid: Annotated[Fluid, Meta(description="The fluid in the circuits")]
    frost_temperature: (
        Annotated[float, Meta(description="Lowest temperature that the filled system must withstand [degC]")]
        | None
    )
    expansion: Annotated[
        Expansion,
        Meta(description="The closed system round the circuits, for its expansion vessel"),
    ]
    limits: Annotated[DesignLimits, Meta(description="What the design must keep")]
    screed: Annotated[DesignScreed, Meta(description="The screed and the day of its pour")] | None
    heat_loss: (
        Annotated[
            HeatLossInputs,
            Meta(description="Elements of the rooms whose heat demand is not given; as heat-loss takes them"),
        ]
        | None
    )
    doorways: Annotated[
        list[PlanDoorway],
        Meta(description="Doorways between rooms; with them every pipe is drawn"),
    ]
    quick: Annotated[
        bool,
        Meta(description="Whether to skip the search for the spacings that fit the room best"),
    ]
    solve_sections: Annotated[
        bool,
        Meta(description="Whether to solve the section of each build-up under the room that asks most of it"),
    ]
    storeys: Annotated[
        list[Storey],
        Meta(description="Storeys of the house from below; none: there is one"),
    ]
    manifolds: Annotated[
        list[Manifold],
        Meta(description="The manifolds where there are several, in place of manifold"),
    ]
    tail_insulation: (
        Annotated[
            TailInsulation,
            Meta(description="Insulation round tails in the rooms they cross; none: they are bare"),
        ]
        | None
    )
    movement_joints: Annotated[
        Literal["given", "proposed"],
        Meta(
            description="given: joints are those of the rooms; proposed: those that the rules ask for beside them are adopted, too"
        ),
    ]
    ordering: (
        Annotated[
            Ordering,
            Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
        ]
        | None
    )
    commissioning: (
        Annotated[
            Commissioning, Meta(description="How the floor is tested, filled and heated; null leaves it out")
        ]
        | None
    )
    laying_sheets: Annotated[
        bool,
        Meta(description="Whether to make the laying sheet of each circuit that is drawn"),
    ]
    drawing: Annotated[
        DrawingSheet,
        Meta(description="How drawings are laid out, and what their title block says; it changes no number"),
    ]


class HouseToDesignInput(Struct, kw_only=True):
    rooms: Annotated[
        list[DesignRoomInput],
        Meta(description="Rooms heated by the floor; at least 1 items; at most 64 items"),
    ]
    build_ups: Annotated[
        list[BuildUpInput],
        Meta(
            description="Floors by their layers; rooms name one of them; at least 1 items; at most 16 items"
        ),
    ]
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    manifold: Annotated[
        ManifoldInput,
        Meta(description="The manifold that serves the rooms, where there is one"),
    ] = field(
        default_factory=lambda: convert(
            {
                "position": None,
                "height": 0.5,
                "valve_kv_open": None,
                "flow_meter_kv": None,
                "valve_table": [],
                "mains_pressure_drop": 0.0,
                "id": "1",
                "storey": None,
                "allowed_places": [],
            },
            type=ManifoldInput,
        )
    )
    source: Annotated[HeatSourceInput, Meta(description="What the source of heat can give")] = field(
        default_factory=lambda: convert(
            {
                "maximum_supply_temperature": 45.0,
                "supply_temperature": None,
                "temperature_drop": 5.0,
                "primary_temperature": None,
            },
            type=HeatSourceInput,
        )
    )
    fluid: Annotated[FluidInput, Meta(description="The fluid in the circuits")] = field(
        default_factory=lambda: convert(
            {"kind": "water", "concentration": 0.0, "basis": "volume"}, type=FluidInput
        )
    )
    frost_temperature: (
        Annotated[
            float,
            Meta(
                description="Lowest temperature that the filled system must withstand [degC]; at least -60; at most 5"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    expansion: Annotated[
        ExpansionInput,
        Meta(description="The closed system round the circuits, for its expansion vessel"),
    ] = field(
        default_factory=lambda: convert(
            {
                "additional_volume": 0.0,
                "fill_temperature": 10.0,
                "maximum_temperature": None,
                "static_height": 5.0,
                "safety_valve_pressure": 300000.0,
                "precharge_pressure": None,
                "expansion_ratio": None,
                "water_reserve": None,
            },
            type=ExpansionInput,
        )
    )
    limits: Annotated[DesignLimitsInput, Meta(description="What the design must keep")] = field(
        default_factory=lambda: convert(
            {
                "pipe_spacings": [0.1, 0.15, 0.2],
                "maximum_circuit_length": None,
                "maximum_pressure_drop": 25000.0,
                "maximum_temperature_drop": 10.0,
                "maximum_circuits": 12,
                "wall_clearance": 0.075,
                "tail_pitch": 0.06,
                "maximum_tail_length": None,
            },
            type=DesignLimitsInput,
        )
    )
    screed: (
        Annotated[DesignScreedInput, Meta(description="The screed and the day of its pour")]
        | UnsetType
        | None
    ) = UNSET
    heat_loss: (
        Annotated[
            HeatLossInputsInput,
            Meta(description="Elements of the rooms whose heat demand is not given; as heat-loss takes them"),
        ]
        | UnsetType
        | None
    ) = UNSET
    doorways: Annotated[
        list[PlanDoorwayInput],
        Meta(
            description="Doorways between rooms; with them every pipe is drawn; at least 0 items; at most 128 items"
        ),
    ] = field(default_factory=list)
    quick: Annotated[
        bool,
        Meta(description="Whether to skip the search for the spacings that fit the room best (default true)"),
    ] = True
    solve_sections: Annotated[
        bool,
        Meta(
            description="Whether to solve the section of each build-up under the room that asks most of it (default false)"
        ),
    ] = False
    storeys: Annotated[
        list[StoreyInput],
        Meta(
            description="Storeys of the house from below; none: there is one; at least 0 items; at most 8 items"
        ),
    ] = field(default_factory=list)
    manifolds: Annotated[
        list[ManifoldInput],
        Meta(
            description="The manifolds where there are several, in place of manifold; at least 0 items; at most 16 items"
        ),
    ] = field(default_factory=list)
    tail_insulation: (
        Annotated[
            TailInsulationInput,
            Meta(description="Insulation round tails in the rooms they cross; none: they are bare"),
        ]
        | UnsetType
        | None
    ) = UNSET
    movement_joints: Annotated[
        Literal["given", "proposed"],
        Meta(
            description="given: joints are those of the rooms; proposed: those that the rules ask for beside them are adopted, too (default given)"
        ),
    ] = "given"
    ordering: (
        Annotated[
            OrderingInput,
            Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
        ]
        | None
    ) = field(
        default_factory=lambda: convert(
            {
                "coil_lengths": [50.0, 60.0, 80.0, 100.0, 120.0, 200.0, 240.0, 300.0, 500.0, 600.0],
                "stock": [],
                "cutting_allowance": 0.5,
                "fixing_distance": 0.4,
                "fixings_per_box": 300,
                "board": {"length": 1.0, "width": 0.5},
                "film": {"width": 2.0, "length": 50.0, "lap": 0.08, "upturn": None},
                "edge_strip_roll": 50.0,
                "tape_roll": 50.0,
                "joint_profile_length": 2.0,
                "sleeve_length": 0.3,
                "screed_supply": {
                    "form": None,
                    "density": 2200.0,
                    "bag_mass": 40.0,
                    "bag_yield": 0.02,
                    "mixer_load": 0.2,
                    "cement_content": 390.0,
                    "sand_content": 1600.0,
                    "additive_share": 0.008,
                    "pump_rest": 0.2,
                },
                "manifold_parts": {
                    "actuators": True,
                    "port_pitch": 0.05,
                    "end_length": 0.25,
                    "cabinet_widths": [0.45, 0.6, 0.75, 0.9, 1.05, 1.2, 1.5],
                },
                "inhibitor_share": 0.01,
                "overrides": [],
                "price_list": None,
            },
            type=OrderingInput,
        )
    )
    commissioning: (
        Annotated[
            CommissioningInput,
            Meta(description="How the floor is tested, filled and heated; null leaves it out"),
        ]
        | None
    ) = field(
        default_factory=lambda: convert(
            {
                "pipe_material": "PE-X",
                "leak_test": {
                    "medium": "water",
                    "operating_pressure": None,
                    "component_rating": 600000.0,
                    "test_pressure": None,
                    "duration": 86400.0,
                    "test_temperature": 15.0,
                    "temperature_change": 5.0,
                    "trapped_air": 0.005,
                },
                "flushing": {"velocity": 0.6, "exchanges": 3, "water_temperature": 10.0},
                "water_side": {
                    "source_output": None,
                    "kind": "usual",
                    "hardness": None,
                    "aluminium": False,
                    "precharge_pressure": None,
                    "fill_pressure": None,
                },
                "pour_temperature": 15.0,
                "project": "",
            },
            type=CommissioningInput,
        )
    )
    laying_sheets: Annotated[
        bool,
        Meta(description="Whether to make the laying sheet of each circuit that is drawn (default false)"),
    ] = False
    drawing: Annotated[
        DrawingSheetInput,
        Meta(description="How drawings are laid out, and what their title block says; it changes no number"),
    ] = field(
        default_factory=lambda: convert(
            {
                "paper": None,
                "orientation": None,
                "scale": None,
                "project": "",
                "revision": "",
                "author": "",
                "drawn_on": None,
                "north": None,
                "storey": None,
                "room": None,
            },
            type=DrawingSheetInput,
        )
    )


class ManifoldPositionResponse(Struct, kw_only=True):
    inputs: Annotated[
        ManifoldPositionInputs,
        Meta(description="The inputs as used, defaults filled in"),
    ]
    manifolds: Annotated[list[PlacedManifold], Meta(description="The manifolds, each at its best place")]
    tail_pipe: Annotated[float, Meta(description="Pipe in tails, flow and return together [m]")]
    position_tail_pipe: (
        Annotated[float, Meta(description="Pipe in tails from the position that was given [m]")] | None
    )
    position_excess: (
        Annotated[float, Meta(description="Pipe in tails that the given position takes in addition [m]")]
        | None
    )
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class MaterialsInputs(Struct, kw_only=True):
    circuits: Annotated[
        list[MaterialCircuit],
        Meta(description="The circuits in the order in which they are laid"),
    ]
    areas: Annotated[list[MaterialArea], Meta(description="The heated floors")]
    build_ups: Annotated[
        list[MaterialBuildUp],
        Meta(description="Layers of the floors; areas name one of them"),
    ]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    joints: Annotated[list[MaterialJoint], Meta(description="Movement joints, given or due")]
    manifolds: Annotated[
        list[MaterialManifold],
        Meta(description="Manifolds that circuits name; those alone where it is empty"),
    ]
    fluid: Annotated[Fluid, Meta(description="The fluid in the circuits")]
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")] | None
    mixing_set: Annotated[bool, Meta(description="Whether the floor is fed through a mixing set")]
    expansion_vessel: (
        Annotated[float, Meta(description="Size of the expansion vessel; none: not ordered here [m3]")] | None
    )
    room_controls: (
        Annotated[int, Meta(description="Room controls; one for each area if not given [1]")] | None
    )
    tail_insulation: Annotated[
        float,
        Meta(description="Insulation round tails, one metre for each of a pipe [m]"),
    ]
    ordering: Annotated[
        Ordering,
        Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
    ]


class MaterialsRequest(Struct, kw_only=True):
    circuits: Annotated[
        list[MaterialCircuitInput],
        Meta(
            description="The circuits in the order in which they are laid; at least 1 items; at most 256 items"
        ),
    ]
    areas: Annotated[
        list[MaterialAreaInput],
        Meta(description="The heated floors; at least 1 items; at most 64 items"),
    ]
    build_ups: Annotated[
        list[MaterialBuildUpInput],
        Meta(description="Layers of the floors; areas name one of them; at least 1 items; at most 16 items"),
    ]
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    joints: Annotated[
        list[MaterialJointInput],
        Meta(description="Movement joints, given or due; at least 0 items; at most 256 items"),
    ] = field(default_factory=list)
    manifolds: Annotated[
        list[MaterialManifoldInput],
        Meta(
            description="Manifolds that circuits name; those alone where it is empty; at least 0 items; at most 16 items"
        ),
    ] = field(default_factory=list)
    fluid: Annotated[FluidInput, Meta(description="The fluid in the circuits")] = field(
        default_factory=lambda: convert(
            {"kind": "water", "concentration": 0.0, "basis": "volume"}, type=FluidInput
        )
    )
    system_volume: (
        Annotated[
            float, Meta(description="Volume of fluid in the system [m3]; at least 0.0001; at most 1000")
        ]
        | UnsetType
        | None
    ) = UNSET
    mixing_set: Annotated[
        bool,
        Meta(description="Whether the floor is fed through a mixing set (default false)"),
    ] = False
    expansion_vessel: (
        Annotated[
            float,
            Meta(
                description="Size of the expansion vessel; none: not ordered here [m3]; at least 0.001; at most 100"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    room_controls: (
        Annotated[
            int,
            Meta(description="Room controls; one for each area if not given [1]; at least 0; at most 1000"),
        ]
        | UnsetType
        | None
    ) = UNSET
    tail_insulation: Annotated[
        float,
        Meta(
            description="Insulation round tails, one metre for each of a pipe (default 0.0) [m]; at least 0; at most 100000"
        ),
    ] = 0.0
    ordering: Annotated[
        OrderingInput,
        Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
    ] = field(
        default_factory=lambda: convert(
            {
                "coil_lengths": [50.0, 60.0, 80.0, 100.0, 120.0, 200.0, 240.0, 300.0, 500.0, 600.0],
                "stock": [],
                "cutting_allowance": 0.5,
                "fixing_distance": 0.4,
                "fixings_per_box": 300,
                "board": {"length": 1.0, "width": 0.5},
                "film": {"width": 2.0, "length": 50.0, "lap": 0.08, "upturn": None},
                "edge_strip_roll": 50.0,
                "tape_roll": 50.0,
                "joint_profile_length": 2.0,
                "sleeve_length": 0.3,
                "screed_supply": {
                    "form": None,
                    "density": 2200.0,
                    "bag_mass": 40.0,
                    "bag_yield": 0.02,
                    "mixer_load": 0.2,
                    "cement_content": 390.0,
                    "sand_content": 1600.0,
                    "additive_share": 0.008,
                    "pump_rest": 0.2,
                },
                "manifold_parts": {
                    "actuators": True,
                    "port_pitch": 0.05,
                    "end_length": 0.25,
                    "cabinet_widths": [0.45, 0.6, 0.75, 0.9, 1.05, 1.2, 1.5],
                },
                "inhibitor_share": 0.01,
                "overrides": [],
                "price_list": None,
            },
            type=OrderingInput,
        )
    )
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class MaterialsResponse(Struct, kw_only=True):
    inputs: Annotated[MaterialsInputs, Meta(description="The inputs as used, defaults filled in")]
    quantities: Annotated[list[MaterialQuantity], Meta(description="Lines of the order")]
    circuits: Annotated[list[CircuitQuantities], Meta(description="What each circuit takes")]
    areas: Annotated[list[AreaQuantities], Meta(description="What each floor takes, before waste")]
    coil_plan: Annotated[CoilPlanResult, Meta(description="Which circuits are cut from which coils")]
    floor_area: Annotated[float, Meta(description="Floor area net of voids [m2]")]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    screed_volume: Annotated[float, Meta(description="Screed without the pipe in it [m3]")]
    total_screed_mass: Annotated[float, Meta(description="Mass of the screed in all [kg]")]
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")]
    currency: Annotated[str, Meta(description="Currency of the prices")] | None
    total_cost: (
        Annotated[float, Meta(description="Cost of all lines that are needed and have a price [1]")] | None
    )
    without_price: Annotated[
        list[str],
        Meta(description="Items of this order that the price list does not have"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class MaterialsResult(Struct, kw_only=True):
    quantities: Annotated[list[MaterialQuantity], Meta(description="Lines of the order")]
    circuits: Annotated[list[CircuitQuantities], Meta(description="What each circuit takes")]
    areas: Annotated[list[AreaQuantities], Meta(description="What each floor takes, before waste")]
    coil_plan: Annotated[CoilPlanResult, Meta(description="Which circuits are cut from which coils")]
    floor_area: Annotated[float, Meta(description="Floor area net of voids [m2]")]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    screed_volume: Annotated[float, Meta(description="Screed without the pipe in it [m3]")]
    total_screed_mass: Annotated[float, Meta(description="Mass of the screed in all [kg]")]
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")]
    currency: Annotated[str, Meta(description="Currency of the prices")] | None
    total_cost: (
        Annotated[float, Meta(description="Cost of all lines that are needed and have a price [1]")] | None
    )
    without_price: Annotated[
        list[str],
        Meta(description="Items of this order that the price list does not have"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]


class BuildUpCheck(Struct, kw_only=True):
    build_up: Annotated[str, Meta(description="The id of the room's build-up")]
    insulation: Annotated[InsulationCheckResult, Meta(description="What insulation-check answers")] | None
    section_inputs: (
        Annotated[
            FloorSectionInputs,
            Meta(description="What the section was solved from; floor-section takes it as it is"),
        ]
        | None
    )
    section: Annotated[FloorSectionResult, Meta(description="What floor-section answers")] | None


class BuildUpPlan(Struct, kw_only=True):
    build_up: Annotated[str, Meta(description="The id of the room's build-up")]
    plan_inputs: Annotated[
        CuringPlanInputs,
        Meta(description="What the plan was made from; curing-plan takes it as it is"),
    ]
    plan: Annotated[CuringPlanResult, Meta(description="The dated plan")]


class DesignOptionsInputs(Struct, kw_only=True):
    design: Annotated[
        HouseToDesign,
        Meta(
            description="A request of designs; what concerns drawings, dates and orders does not matter here"
        ),
    ]
    supply_temperatures: Annotated[
        list[float],
        Meta(
            description="Supply temperatures to look at; none: all at which the choice of a room changes [degC]"
        ),
    ]
    temperature_drops: Annotated[
        list[float],
        Meta(description="Temperature drops of the governing room to look at in place of the source's [K]"),
    ]
    additional_circuits: Annotated[
        int,
        Meta(description="Circuits that a room may have above the fewest that hold [1]"),
    ]
    coverings: Annotated[
        list[CoveringOption],
        Meta(description="Coverings that rooms may have in place of their own"),
    ]
    patterns: Annotated[
        list[PatternOption],
        Meta(description="Patterns that rooms may have in place of their own"),
    ]
    strips: Annotated[list[StripOption], Meta(description="Strips of closer pipe that rooms may have")]
    maximum_surface_range: (
        Annotated[
            float,
            Meta(description="How much warmer a floor may be at one end than at the other; null: any [K]"),
        ]
        | None
    )
    pump_stages: Annotated[
        list[PumpStage],
        Meta(description="Settings of the pump; none: any pressure within the limits"),
    ]
    permitted_heat_missing: Annotated[
        float,
        Meta(description="Heat that all rooms may lack above what they lack by the rule of designs [W]"),
    ]
    prices: (
        Annotated[
            OptionPrices, Meta(description="Prices of the material; without them metres of pipe are counted")
        ]
        | None
    )
    heat_pump: (
        Annotated[
            HeatPump, Meta(description="What the source makes of electricity, for energy and cost of a year")
        ]
        | None
    )
    maximum_options: Annotated[
        int,
        Meta(description="Most options to answer; those that differ most are taken [1]"),
    ]
    nodes: Annotated[int, Meta(description="Most nodes of each search for a house [1]")]


class DesignOptionsRequest(Struct, kw_only=True):
    design: Annotated[
        HouseToDesignInput,
        Meta(
            description="A request of designs; what concerns drawings, dates and orders does not matter here"
        ),
    ]
    supply_temperatures: Annotated[
        list[float],
        Meta(
            description="Supply temperatures to look at; none: all at which the choice of a room changes [degC]; at least 0 items; at most 48 items"
        ),
    ] = field(default_factory=list)
    temperature_drops: Annotated[
        list[float],
        Meta(
            description="Temperature drops of the governing room to look at in place of the source's [K]; at least 0 items; at most 4 items"
        ),
    ] = field(default_factory=list)
    additional_circuits: Annotated[
        int,
        Meta(
            description="Circuits that a room may have above the fewest that hold (default 1) [1]; at least 0; at most 4"
        ),
    ] = 1
    coverings: Annotated[
        list[CoveringOptionInput],
        Meta(
            description="Coverings that rooms may have in place of their own; at least 0 items; at most 6 items"
        ),
    ] = field(default_factory=list)
    patterns: Annotated[
        list[PatternOptionInput],
        Meta(
            description="Patterns that rooms may have in place of their own; at least 0 items; at most 4 items"
        ),
    ] = field(default_factory=list)
    strips: Annotated[
        list[StripOptionInput],
        Meta(description="Strips of closer pipe that rooms may have; at least 0 items; at most 128 items"),
    ] = field(default_factory=list)
    maximum_surface_range: (
        Annotated[
            float,
            Meta(
                description="How much warmer a floor may be at one end than at the other; null: any [K]; at least 0.1; at most 15"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    pump_stages: Annotated[
        list[PumpStageInput],
        Meta(
            description="Settings of the pump; none: any pressure within the limits; at least 0 items; at most 6 items"
        ),
    ] = field(default_factory=list)
    permitted_heat_missing: Annotated[
        float,
        Meta(
            description="Heat that all rooms may lack above what they lack by the rule of designs (default 0.0) [W]; at least 0; at most 500000"
        ),
    ] = 0.0
    prices: (
        Annotated[
            OptionPricesInput,
            Meta(description="Prices of the material; without them metres of pipe are counted"),
        ]
        | UnsetType
        | None
    ) = UNSET
    heat_pump: (
        Annotated[
            HeatPumpInput,
            Meta(description="What the source makes of electricity, for energy and cost of a year"),
        ]
        | UnsetType
        | None
    ) = UNSET
    maximum_options: Annotated[
        int,
        Meta(
            description="Most options to answer; those that differ most are taken (default 12) [1]; at least 2; at most 40"
        ),
    ] = 12
    nodes: Annotated[
        int,
        Meta(
            description="Most nodes of each search for a house (default 2000) [1]; at least 1; at most 100000"
        ),
    ] = 2000
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class DesignOptionsResponse(Struct, kw_only=True):
    inputs: Annotated[DesignOptionsInputs, Meta(description="The inputs as used, defaults filled in")]
    options: Annotated[
        list[DesignOption],
        Meta(description="The options from the warmest supply to the coldest"),
    ]
    by_rule: Annotated[DesignOption, Meta(description="The house as designs does it, by area")]
    least_material: Annotated[int, Meta(description="The option with the least material [1]")]
    least_supply: Annotated[int, Meta(description="The option with the coldest supply [1]")]
    least_pump_power: Annotated[int, Meta(description="The option with the least pump power [1]")]
    least_cost_of_use: (
        Annotated[
            int, Meta(description="The option that costs least with its energy; null without prices [1]")
        ]
        | None
    )
    supplies_considered: Annotated[int, Meta(description="Supply temperatures that were looked at [1]")]
    searches: Annotated[int, Meta(description="Mixed-integer programmes that were solved [1]")]
    solver: Annotated[
        str,
        Meta(description="What solved them, with its version; empty where none was needed"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class DesignSensitivityInputs(Struct, kw_only=True):
    design: Annotated[
        HouseToDesign,
        Meta(
            description="A request of designs; what concerns drawings, dates and orders does not matter here"
        ),
    ]
    covering_resistance: Annotated[
        float, Meta(description="Thermal resistance of the floor covering [m2.K/W]")
    ]
    demand_rise: Annotated[float, Meta(description="Share by which heat demands rise [1]")]
    warmer_by: Annotated[float, Meta(description="By how much a room is kept warmer [K]")]
    outside_temperature: Annotated[
        float,
        Meta(description="Outside temperature of the demands: they grow with the distance from it [degC]"),
    ]
    added_screed: Annotated[float, Meta(description="Further screed over the pipes [m]")]
    supply_limit: (
        Annotated[float, Meta(description="Warmest supply that is looked at; null: not looked at [degC]")]
        | None
    )


class DesignSensitivityRequest(Struct, kw_only=True):
    design: Annotated[
        HouseToDesignInput,
        Meta(
            description="A request of designs; what concerns drawings, dates and orders does not matter here"
        ),
    ]
    covering_resistance: Annotated[
        float,
        Meta(
            description="Thermal resistance of the floor covering (default 0.15) [m2.K/W]; at least 0; at most 1"
        ),
    ] = 0.15
    demand_rise: Annotated[
        float,
        Meta(description="Share by which heat demands rise (default 0.1) [1]; at least 0; at most 2"),
    ] = 0.1
    warmer_by: Annotated[
        float,
        Meta(description="By how much a room is kept warmer (default 2.0) [K]; at least 0; at most 10"),
    ] = 2.0
    outside_temperature: Annotated[
        float,
        Meta(
            description="Outside temperature of the demands: they grow with the distance from it (default -12.0) [degC]; at least -50; at most 20"
        ),
    ] = -12.0
    added_screed: Annotated[
        float,
        Meta(description="Further screed over the pipes (default 0.02) [m]; at least 0; at most 0.1"),
    ] = 0.02
    supply_limit: (
        Annotated[
            float,
            Meta(
                description="Warmest supply that is looked at; null: not looked at (default 35.0) [degC]; at least 20; at most 90"
            ),
        ]
        | None
    ) = 35.0
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class DesignSensitivityResponse(Struct, kw_only=True):
    inputs: Annotated[
        DesignSensitivityInputs,
        Meta(description="The inputs as used, defaults filled in"),
    ]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    heat_missing: Annotated[
        float,
        Meta(description="Heat demand that the floor cannot give; 0 when it can [W]"),
    ]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    circuit_count: Annotated[int, Meta(description="Number of its circuits [1]")]
    pump_power: Annotated[float, Meta(description="Power that the pump gives to the water [W]")]
    lines: Annotated[
        list[SensitivityLine],
        Meta(description="The design with one change each, the greatest effect first"),
    ]
    rooms: Annotated[
        list[RoomSensitivity],
        Meta(description="What its own changes and those of the house do to each room"),
    ]
    tolerances: Annotated[
        list[RoomTolerance],
        Meta(description="How much more heat each room may need at its spacing"),
    ]
    demand_tolerance: Annotated[float, Meta(description="The least of these of all rooms [1]")]
    finding_tolerances: Annotated[
        list[FindingTolerance],
        Meta(
            description="How much more heat may be needed before a finding changes: all rooms together, then each alone"
        ),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class FormerInputs(Struct, kw_only=True):
    rooms: Annotated[list[DesignRoom], Meta(description="Rooms heated by the floor")]
    build_ups: Annotated[
        list[BuildUp],
        Meta(description="Floors by their layers; rooms name one of them"),
    ]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    manifold: Annotated[
        Manifold,
        Meta(description="The manifold that serves the rooms, where there is one"),
    ]
    source: Annotated[HeatSource, Meta(description="What the source of heat can give")]
    fluid: Annotated[Fluid, Meta(description="The fluid in the circuits")]
    frost_temperature: (
        Annotated[float, Meta(description="Lowest temperature that the filled system must withstand [degC]")]
        | None
    )
    expansion: Annotated[
        Expansion,
        Meta(description="The closed system round the circuits, for its expansion vessel"),
    ]
    limits: Annotated[DesignLimits, Meta(description="What the design must keep")]
    screed: Annotated[DesignScreed, Meta(description="The screed and the day of its pour")] | None
    heat_loss: (
        Annotated[
            HeatLossInputs,
            Meta(description="Elements of the rooms whose heat demand is not given; as heat-loss takes them"),
        ]
        | None
    )
    doorways: Annotated[
        list[PlanDoorway],
        Meta(description="Doorways between rooms; with them every pipe is drawn"),
    ]
    quick: Annotated[
        bool,
        Meta(description="Whether to skip the search for the spacings that fit the room best"),
    ]
    solve_sections: Annotated[
        bool,
        Meta(description="Whether to solve the section of each build-up under the room that asks most of it"),
    ]
    storeys: Annotated[
        list[Storey],
        Meta(description="Storeys of the house from below; none: there is one"),
    ]
    manifolds: Annotated[
        list[Manifold],
        Meta(description="The manifolds where there are several, in place of manifold"),
    ]
    tail_insulation: (
        Annotated[
            TailInsulation,
            Meta(description="Insulation round tails in the rooms they cross; none: they are bare"),
        ]
        | None
    )
    movement_joints: Annotated[
        Literal["given", "proposed"],
        Meta(
            description="given: joints are those of the rooms; proposed: those that the rules ask for beside them are adopted, too"
        ),
    ]
    ordering: (
        Annotated[
            Ordering,
            Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
        ]
        | None
    )
    commissioning: (
        Annotated[
            Commissioning, Meta(description="How the floor is tested, filled and heated; null leaves it out")
        ]
        | None
    )
    laying_sheets: Annotated[
        bool,
        Meta(description="Whether to make the laying sheet of each circuit that is drawn"),
    ]
    drawing: Annotated[
        DrawingSheet,
        Meta(description="How drawings are laid out, and what their title block says; it changes no number"),
    ]


class FormerInputsInput(Struct, kw_only=True):
    rooms: Annotated[
        list[DesignRoomInput],
        Meta(description="Rooms heated by the floor; at least 1 items; at most 64 items"),
    ]
    build_ups: Annotated[
        list[BuildUpInput],
        Meta(
            description="Floors by their layers; rooms name one of them; at least 1 items; at most 16 items"
        ),
    ]
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    manifold: Annotated[
        ManifoldInput,
        Meta(description="The manifold that serves the rooms, where there is one"),
    ] = field(
        default_factory=lambda: convert(
            {
                "position": None,
                "height": 0.5,
                "valve_kv_open": None,
                "flow_meter_kv": None,
                "valve_table": [],
                "mains_pressure_drop": 0.0,
                "id": "1",
                "storey": None,
                "allowed_places": [],
            },
            type=ManifoldInput,
        )
    )
    source: Annotated[HeatSourceInput, Meta(description="What the source of heat can give")] = field(
        default_factory=lambda: convert(
            {
                "maximum_supply_temperature": 45.0,
                "supply_temperature": None,
                "temperature_drop": 5.0,
                "primary_temperature": None,
            },
            type=HeatSourceInput,
        )
    )
    fluid: Annotated[FluidInput, Meta(description="The fluid in the circuits")] = field(
        default_factory=lambda: convert(
            {"kind": "water", "concentration": 0.0, "basis": "volume"}, type=FluidInput
        )
    )
    frost_temperature: (
        Annotated[
            float,
            Meta(
                description="Lowest temperature that the filled system must withstand [degC]; at least -60; at most 5"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    expansion: Annotated[
        ExpansionInput,
        Meta(description="The closed system round the circuits, for its expansion vessel"),
    ] = field(
        default_factory=lambda: convert(
            {
                "additional_volume": 0.0,
                "fill_temperature": 10.0,
                "maximum_temperature": None,
                "static_height": 5.0,
                "safety_valve_pressure": 300000.0,
                "precharge_pressure": None,
                "expansion_ratio": None,
                "water_reserve": None,
            },
            type=ExpansionInput,
        )
    )
    limits: Annotated[DesignLimitsInput, Meta(description="What the design must keep")] = field(
        default_factory=lambda: convert(
            {
                "pipe_spacings": [0.1, 0.15, 0.2],
                "maximum_circuit_length": None,
                "maximum_pressure_drop": 25000.0,
                "maximum_temperature_drop": 10.0,
                "maximum_circuits": 12,
                "wall_clearance": 0.075,
                "tail_pitch": 0.06,
                "maximum_tail_length": None,
            },
            type=DesignLimitsInput,
        )
    )
    screed: (
        Annotated[DesignScreedInput, Meta(description="The screed and the day of its pour")]
        | UnsetType
        | None
    ) = UNSET
    heat_loss: (
        Annotated[
            HeatLossInputsInput,
            Meta(description="Elements of the rooms whose heat demand is not given; as heat-loss takes them"),
        ]
        | UnsetType
        | None
    ) = UNSET
    doorways: Annotated[
        list[PlanDoorwayInput],
        Meta(
            description="Doorways between rooms; with them every pipe is drawn; at least 0 items; at most 128 items"
        ),
    ] = field(default_factory=list)
    quick: Annotated[
        bool,
        Meta(description="Whether to skip the search for the spacings that fit the room best (default true)"),
    ] = True
    solve_sections: Annotated[
        bool,
        Meta(
            description="Whether to solve the section of each build-up under the room that asks most of it (default false)"
        ),
    ] = False
    storeys: Annotated[
        list[StoreyInput],
        Meta(
            description="Storeys of the house from below; none: there is one; at least 0 items; at most 8 items"
        ),
    ] = field(default_factory=list)
    manifolds: Annotated[
        list[ManifoldInput],
        Meta(
            description="The manifolds where there are several, in place of manifold; at least 0 items; at most 16 items"
        ),
    ] = field(default_factory=list)
    tail_insulation: (
        Annotated[
            TailInsulationInput,
            Meta(description="Insulation round tails in the rooms they cross; none: they are bare"),
        ]
        | UnsetType
        | None
    ) = UNSET
    movement_joints: Annotated[
        Literal["given", "proposed"],
        Meta(
            description="given: joints are those of the rooms; proposed: those that the rules ask for beside them are adopted, too (default given)"
        ),
    ] = "given"
    ordering: (
        Annotated[
            OrderingInput,
            Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
        ]
        | None
    ) = field(
        default_factory=lambda: convert(
            {
                "coil_lengths": [50.0, 60.0, 80.0, 100.0, 120.0, 200.0, 240.0, 300.0, 500.0, 600.0],
                "stock": [],
                "cutting_allowance": 0.5,
                "fixing_distance": 0.4,
                "fixings_per_box": 300,
                "board": {"length": 1.0, "width": 0.5},
                "film": {"width": 2.0, "length": 50.0, "lap": 0.08, "upturn": None},
                "edge_strip_roll": 50.0,
                "tape_roll": 50.0,
                "joint_profile_length": 2.0,
                "sleeve_length": 0.3,
                "screed_supply": {
                    "form": None,
                    "density": 2200.0,
                    "bag_mass": 40.0,
                    "bag_yield": 0.02,
                    "mixer_load": 0.2,
                    "cement_content": 390.0,
                    "sand_content": 1600.0,
                    "additive_share": 0.008,
                    "pump_rest": 0.2,
                },
                "manifold_parts": {
                    "actuators": True,
                    "port_pitch": 0.05,
                    "end_length": 0.25,
                    "cabinet_widths": [0.45, 0.6, 0.75, 0.9, 1.05, 1.2, 1.5],
                },
                "inhibitor_share": 0.01,
                "overrides": [],
                "price_list": None,
            },
            type=OrderingInput,
        )
    )
    commissioning: (
        Annotated[
            CommissioningInput,
            Meta(description="How the floor is tested, filled and heated; null leaves it out"),
        ]
        | None
    ) = field(
        default_factory=lambda: convert(
            {
                "pipe_material": "PE-X",
                "leak_test": {
                    "medium": "water",
                    "operating_pressure": None,
                    "component_rating": 600000.0,
                    "test_pressure": None,
                    "duration": 86400.0,
                    "test_temperature": 15.0,
                    "temperature_change": 5.0,
                    "trapped_air": 0.005,
                },
                "flushing": {"velocity": 0.6, "exchanges": 3, "water_temperature": 10.0},
                "water_side": {
                    "source_output": None,
                    "kind": "usual",
                    "hardness": None,
                    "aluminium": False,
                    "precharge_pressure": None,
                    "fill_pressure": None,
                },
                "pour_temperature": 15.0,
                "project": "",
            },
            type=CommissioningInput,
        )
    )
    laying_sheets: Annotated[
        bool,
        Meta(description="Whether to make the laying sheet of each circuit that is drawn (default false)"),
    ] = False
    drawing: Annotated[
        DrawingSheetInput,
        Meta(description="How drawings are laid out, and what their title block says; it changes no number"),
    ] = field(
        default_factory=lambda: convert(
            {
                "paper": None,
                "orientation": None,
                "scale": None,
                "project": "",
                "revision": "",
                "author": "",
                "drawn_on": None,
                "north": None,
                "storey": None,
                "room": None,
            },
            type=DrawingSheetInput,
        )
    )


class HeatingSeasonInputs(Struct, kw_only=True):
    design: Annotated[
        HouseToDesign,
        Meta(
            description="A request of designs; what concerns drawings, dates and orders does not matter here"
        ),
    ]
    climate: Annotated[list[ClimateBin], Meta(description="The year in bins of outside temperature")]
    outside_temperature: Annotated[
        float,
        Meta(description="Outside temperature of the demands: they grow with the distance from it [degC]"),
    ]
    heating_limit: Annotated[
        float,
        Meta(description="Outside temperature from which nothing is heated [degC]"),
    ]
    exponent: Annotated[
        float,
        Meta(
            description="Exponent of the heat over the excess temperature: 1 for floors after EN 1264-2 [1]"
        ),
    ]
    efficiency: Annotated[
        list[EfficiencyPoint],
        Meta(description="Heat over electricity by supply temperature, coldest first"),
    ]


class HeatingSeasonRequest(Struct, kw_only=True):
    design: Annotated[
        HouseToDesignInput,
        Meta(
            description="A request of designs; what concerns drawings, dates and orders does not matter here"
        ),
    ]
    climate: Annotated[
        list[ClimateBinInput],
        Meta(description="The year in bins of outside temperature; at least 1 items; at most 80 items"),
    ]
    outside_temperature: Annotated[
        float,
        Meta(
            description="Outside temperature of the demands: they grow with the distance from it (default -12.0) [degC]; at least -50; at most 20"
        ),
    ] = -12.0
    heating_limit: Annotated[
        float,
        Meta(
            description="Outside temperature from which nothing is heated (default 15.0) [degC]; at least 0; at most 25"
        ),
    ] = 15.0
    exponent: Annotated[
        float,
        Meta(
            description="Exponent of the heat over the excess temperature: 1 for floors after EN 1264-2 (default 1.0) [1]; at least 0.8; at most 1.6"
        ),
    ] = 1.0
    efficiency: Annotated[
        list[EfficiencyPointInput],
        Meta(
            description="Heat over electricity by supply temperature, coldest first; at least 0 items; at most 24 items"
        ),
    ] = field(default_factory=list)
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class HeatingSeasonResponse(Struct, kw_only=True):
    inputs: Annotated[HeatingSeasonInputs, Meta(description="The inputs as used, defaults filled in")]
    curve: Annotated[
        HeatingCurve,
        Meta(description="Supply temperature over outside temperature, as controls take it"),
    ]
    bins: Annotated[
        list[SeasonBin],
        Meta(description="The house at each outside temperature, in the order of the request"),
    ]
    rooms: Annotated[list[SeasonRoom], Meta(description="The rooms through the season")]
    heating_hours: Annotated[float, Meta(description="Hours that are heated [h]")]
    heat: Annotated[float, Meta(description="Heat that is given in these hours [kWh]")]
    mean_supply_temperature: Annotated[float, Meta(description="Mean over the heating hours [degC]")] | None
    mean_flow_share: Annotated[float, Meta(description="Mean over the heating hours [1]")] | None
    pump_energy: Annotated[
        float,
        Meta(description="What the pump gives to the water in the heating hours [kWh]"),
    ]
    electricity: Annotated[float, Meta(description="Electricity of a year [kWh]")] | None
    seasonal_performance: (
        Annotated[float, Meta(description="Heat of the year over its electricity [1]")] | None
    )
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class FormerDesign(Struct, kw_only=True):
    inputs: Annotated[FormerInputs, Meta(description="The request of the former answer")]
    engine_version: Annotated[str, Meta(description="Version of the engine that made it")]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")] | None
    return_temperature: (
        Annotated[float, Meta(description="Water temperature out of the circuit [degC]")] | None
    )
    heat_given: (
        Annotated[float, Meta(description="Heat that the floor gives to the room at the design's flows [W]")]
        | None
    )
    heat_missing: (
        Annotated[float, Meta(description="Heat demand that the floor cannot give; 0 when it can [W]")] | None
    )
    volume_flow: (
        Annotated[float, Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]")] | None
    )
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")] | None
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")] | None
    pump: Annotated[FormerPump, Meta(description="The former pump")] | None
    rooms: Annotated[list[FormerRoom], Meta(description="The former rooms")]
    circuits: Annotated[list[FormerCircuit], Meta(description="The former circuits")]
    layout: Annotated[FormerLayout, Meta(description="Of the former drawing: where manifolds stand")] | None
    curing_plans: Annotated[list[FormerPlan], Meta(description="The former curing plans")]
    materials: Annotated[FormerMaterials, Meta(description="The former order")] | None
    findings: Annotated[list[FormerFinding], Meta(description="The former findings")]
    chosen_floors: Annotated[
        list[FormerFloor],
        Meta(description="Floors whose covering was chosen, in place of build-ups of the request"),
    ]


class FormerDesignInput(Struct, kw_only=True):
    inputs: Annotated[FormerInputsInput, Meta(description="The request of the former answer")]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine that made it; at least 0 characters; at most 64 characters"),
    ] = ""
    supply_temperature: (
        Annotated[
            float, Meta(description="Water temperature into the circuit [degC]; at least -10; at most 95")
        ]
        | UnsetType
        | None
    ) = UNSET
    return_temperature: (
        Annotated[
            float, Meta(description="Water temperature out of the circuit [degC]; at least -10; at most 95")
        ]
        | UnsetType
        | None
    ) = UNSET
    heat_given: (
        Annotated[
            float,
            Meta(
                description="Heat that the floor gives to the room at the design's flows [W]; at least 0; at most 500000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    heat_missing: (
        Annotated[
            float,
            Meta(
                description="Heat demand that the floor cannot give; 0 when it can [W]; at least 0; at most 500000"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    volume_flow: (
        Annotated[
            float,
            Meta(
                description="Volume flow of the fluid; what a flow meter shows [m3/s]; at least 1e-09; at most 1"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    pipe_length: (
        Annotated[
            float, Meta(description="Pipe of all circuits, tails included [m]; at least 0; at most 20000")
        ]
        | UnsetType
        | None
    ) = UNSET
    system_volume: (
        Annotated[
            float, Meta(description="Volume of fluid in the system [m3]; at least 0.0001; at most 1000")
        ]
        | UnsetType
        | None
    ) = UNSET
    pump: Annotated[FormerPumpInput, Meta(description="The former pump")] | UnsetType | None = UNSET
    rooms: Annotated[
        list[FormerRoomInput],
        Meta(description="The former rooms; at least 0 items; at most 64 items"),
    ] = field(default_factory=list)
    circuits: Annotated[
        list[FormerCircuitInput],
        Meta(description="The former circuits; at least 0 items; at most 256 items"),
    ] = field(default_factory=list)
    layout: (
        Annotated[FormerLayoutInput, Meta(description="Of the former drawing: where manifolds stand")]
        | UnsetType
        | None
    ) = UNSET
    curing_plans: Annotated[
        list[FormerPlanInput],
        Meta(description="The former curing plans; at least 0 items; at most 64 items"),
    ] = field(default_factory=list)
    materials: Annotated[FormerMaterialsInput, Meta(description="The former order")] | UnsetType | None = (
        UNSET
    )
    findings: Annotated[
        list[FormerFindingInput],
        Meta(description="The former findings; at least 0 items; at most 1000 items"),
    ] = field(default_factory=list)
    chosen_floors: Annotated[
        list[FormerFloorInput],
        Meta(
            description="Floors whose covering was chosen, in place of build-ups of the request; at least 0 items; at most 64 items"
        ),
    ] = field(default_factory=list)


class DesignsInputs(Struct, kw_only=True):
    rooms: Annotated[list[DesignRoom], Meta(description="Rooms heated by the floor")]
    build_ups: Annotated[
        list[BuildUp],
        Meta(description="Floors by their layers; rooms name one of them"),
    ]
    pipe: Annotated[Pipe, Meta(description="The pipe laid in the screed")]
    manifold: Annotated[
        Manifold,
        Meta(description="The manifold that serves the rooms, where there is one"),
    ]
    source: Annotated[HeatSource, Meta(description="What the source of heat can give")]
    fluid: Annotated[Fluid, Meta(description="The fluid in the circuits")]
    frost_temperature: (
        Annotated[float, Meta(description="Lowest temperature that the filled system must withstand [degC]")]
        | None
    )
    expansion: Annotated[
        Expansion,
        Meta(description="The closed system round the circuits, for its expansion vessel"),
    ]
    limits: Annotated[DesignLimits, Meta(description="What the design must keep")]
    screed: Annotated[DesignScreed, Meta(description="The screed and the day of its pour")] | None
    heat_loss: (
        Annotated[
            HeatLossInputs,
            Meta(description="Elements of the rooms whose heat demand is not given; as heat-loss takes them"),
        ]
        | None
    )
    doorways: Annotated[
        list[PlanDoorway],
        Meta(description="Doorways between rooms; with them every pipe is drawn"),
    ]
    quick: Annotated[
        bool,
        Meta(description="Whether to skip the search for the spacings that fit the room best"),
    ]
    solve_sections: Annotated[
        bool,
        Meta(description="Whether to solve the section of each build-up under the room that asks most of it"),
    ]
    storeys: Annotated[
        list[Storey],
        Meta(description="Storeys of the house from below; none: there is one"),
    ]
    manifolds: Annotated[
        list[Manifold],
        Meta(description="The manifolds where there are several, in place of manifold"),
    ]
    tail_insulation: (
        Annotated[
            TailInsulation,
            Meta(description="Insulation round tails in the rooms they cross; none: they are bare"),
        ]
        | None
    )
    movement_joints: Annotated[
        Literal["given", "proposed"],
        Meta(
            description="given: joints are those of the rooms; proposed: those that the rules ask for beside them are adopted, too"
        ),
    ]
    ordering: (
        Annotated[
            Ordering,
            Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
        ]
        | None
    )
    commissioning: (
        Annotated[
            Commissioning, Meta(description="How the floor is tested, filled and heated; null leaves it out")
        ]
        | None
    )
    laying_sheets: Annotated[
        bool,
        Meta(description="Whether to make the laying sheet of each circuit that is drawn"),
    ]
    drawing: Annotated[
        DrawingSheet,
        Meta(description="How drawings are laid out, and what their title block says; it changes no number"),
    ]
    objective: (
        Annotated[
            DesignObjective,
            Meta(
                description="What the house is to have least of; none: the coldest supply that serves the rooms, on it the widest spacings"
            ),
        ]
        | None
    )
    former: (
        Annotated[
            FormerDesign,
            Meta(
                description="A former answer of designs for this house: its decisions are kept where they still hold, and comparison says what has changed. Further members are ignored. With inputs alone it is designed again"
            ),
        ]
        | None
    )
    sensitivity: (
        Annotated[
            SensitivityQuestions,
            Meta(
                description="Changes to look at one at a time, as in design-sensitivity; null: none, {}: those that are usual"
            ),
        ]
        | None
    )
    season: (
        Annotated[
            SeasonQuestions,
            Meta(description="The year to operate the design through, as in heating-season; null: none"),
        ]
        | None
    )


class DesignsRequest(Struct, kw_only=True):
    rooms: Annotated[
        list[DesignRoomInput],
        Meta(description="Rooms heated by the floor; at least 1 items; at most 64 items"),
    ]
    build_ups: Annotated[
        list[BuildUpInput],
        Meta(
            description="Floors by their layers; rooms name one of them; at least 1 items; at most 16 items"
        ),
    ]
    pipe: Annotated[PipeInput, Meta(description="The pipe laid in the screed")] = field(
        default_factory=lambda: convert(
            {
                "outside_diameter": 0.016,
                "wall_thickness": 0.002,
                "thermal_conductivity": 0.35,
                "sheath_diameter": None,
                "sheath_conductivity": None,
                "roughness": 7e-06,
                "minimum_bend_radius": None,
            },
            type=PipeInput,
        )
    )
    manifold: Annotated[
        ManifoldInput,
        Meta(description="The manifold that serves the rooms, where there is one"),
    ] = field(
        default_factory=lambda: convert(
            {
                "position": None,
                "height": 0.5,
                "valve_kv_open": None,
                "flow_meter_kv": None,
                "valve_table": [],
                "mains_pressure_drop": 0.0,
                "id": "1",
                "storey": None,
                "allowed_places": [],
            },
            type=ManifoldInput,
        )
    )
    source: Annotated[HeatSourceInput, Meta(description="What the source of heat can give")] = field(
        default_factory=lambda: convert(
            {
                "maximum_supply_temperature": 45.0,
                "supply_temperature": None,
                "temperature_drop": 5.0,
                "primary_temperature": None,
            },
            type=HeatSourceInput,
        )
    )
    fluid: Annotated[FluidInput, Meta(description="The fluid in the circuits")] = field(
        default_factory=lambda: convert(
            {"kind": "water", "concentration": 0.0, "basis": "volume"}, type=FluidInput
        )
    )
    frost_temperature: (
        Annotated[
            float,
            Meta(
                description="Lowest temperature that the filled system must withstand [degC]; at least -60; at most 5"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    expansion: Annotated[
        ExpansionInput,
        Meta(description="The closed system round the circuits, for its expansion vessel"),
    ] = field(
        default_factory=lambda: convert(
            {
                "additional_volume": 0.0,
                "fill_temperature": 10.0,
                "maximum_temperature": None,
                "static_height": 5.0,
                "safety_valve_pressure": 300000.0,
                "precharge_pressure": None,
                "expansion_ratio": None,
                "water_reserve": None,
            },
            type=ExpansionInput,
        )
    )
    limits: Annotated[DesignLimitsInput, Meta(description="What the design must keep")] = field(
        default_factory=lambda: convert(
            {
                "pipe_spacings": [0.1, 0.15, 0.2],
                "maximum_circuit_length": None,
                "maximum_pressure_drop": 25000.0,
                "maximum_temperature_drop": 10.0,
                "maximum_circuits": 12,
                "wall_clearance": 0.075,
                "tail_pitch": 0.06,
                "maximum_tail_length": None,
            },
            type=DesignLimitsInput,
        )
    )
    screed: (
        Annotated[DesignScreedInput, Meta(description="The screed and the day of its pour")]
        | UnsetType
        | None
    ) = UNSET
    heat_loss: (
        Annotated[
            HeatLossInputsInput,
            Meta(description="Elements of the rooms whose heat demand is not given; as heat-loss takes them"),
        ]
        | UnsetType
        | None
    ) = UNSET
    doorways: Annotated[
        list[PlanDoorwayInput],
        Meta(
            description="Doorways between rooms; with them every pipe is drawn; at least 0 items; at most 128 items"
        ),
    ] = field(default_factory=list)
    quick: Annotated[
        bool,
        Meta(description="Whether to skip the search for the spacings that fit the room best (default true)"),
    ] = True
    solve_sections: Annotated[
        bool,
        Meta(
            description="Whether to solve the section of each build-up under the room that asks most of it (default false)"
        ),
    ] = False
    storeys: Annotated[
        list[StoreyInput],
        Meta(
            description="Storeys of the house from below; none: there is one; at least 0 items; at most 8 items"
        ),
    ] = field(default_factory=list)
    manifolds: Annotated[
        list[ManifoldInput],
        Meta(
            description="The manifolds where there are several, in place of manifold; at least 0 items; at most 16 items"
        ),
    ] = field(default_factory=list)
    tail_insulation: (
        Annotated[
            TailInsulationInput,
            Meta(description="Insulation round tails in the rooms they cross; none: they are bare"),
        ]
        | UnsetType
        | None
    ) = UNSET
    movement_joints: Annotated[
        Literal["given", "proposed"],
        Meta(
            description="given: joints are those of the rooms; proposed: those that the rules ask for beside them are adopted, too (default given)"
        ),
    ] = "given"
    ordering: (
        Annotated[
            OrderingInput,
            Meta(description="In what sizes things are ordered, what is added for waste, and prices"),
        ]
        | None
    ) = field(
        default_factory=lambda: convert(
            {
                "coil_lengths": [50.0, 60.0, 80.0, 100.0, 120.0, 200.0, 240.0, 300.0, 500.0, 600.0],
                "stock": [],
                "cutting_allowance": 0.5,
                "fixing_distance": 0.4,
                "fixings_per_box": 300,
                "board": {"length": 1.0, "width": 0.5},
                "film": {"width": 2.0, "length": 50.0, "lap": 0.08, "upturn": None},
                "edge_strip_roll": 50.0,
                "tape_roll": 50.0,
                "joint_profile_length": 2.0,
                "sleeve_length": 0.3,
                "screed_supply": {
                    "form": None,
                    "density": 2200.0,
                    "bag_mass": 40.0,
                    "bag_yield": 0.02,
                    "mixer_load": 0.2,
                    "cement_content": 390.0,
                    "sand_content": 1600.0,
                    "additive_share": 0.008,
                    "pump_rest": 0.2,
                },
                "manifold_parts": {
                    "actuators": True,
                    "port_pitch": 0.05,
                    "end_length": 0.25,
                    "cabinet_widths": [0.45, 0.6, 0.75, 0.9, 1.05, 1.2, 1.5],
                },
                "inhibitor_share": 0.01,
                "overrides": [],
                "price_list": None,
            },
            type=OrderingInput,
        )
    )
    commissioning: (
        Annotated[
            CommissioningInput,
            Meta(description="How the floor is tested, filled and heated; null leaves it out"),
        ]
        | None
    ) = field(
        default_factory=lambda: convert(
            {
                "pipe_material": "PE-X",
                "leak_test": {
                    "medium": "water",
                    "operating_pressure": None,
                    "component_rating": 600000.0,
                    "test_pressure": None,
                    "duration": 86400.0,
                    "test_temperature": 15.0,
                    "temperature_change": 5.0,
                    "trapped_air": 0.005,
                },
                "flushing": {"velocity": 0.6, "exchanges": 3, "water_temperature": 10.0},
                "water_side": {
                    "source_output": None,
                    "kind": "usual",
                    "hardness": None,
                    "aluminium": False,
                    "precharge_pressure": None,
                    "fill_pressure": None,
                },
                "pour_temperature": 15.0,
                "project": "",
            },
            type=CommissioningInput,
        )
    )
    laying_sheets: Annotated[
        bool,
        Meta(description="Whether to make the laying sheet of each circuit that is drawn (default false)"),
    ] = False
    drawing: Annotated[
        DrawingSheetInput,
        Meta(description="How drawings are laid out, and what their title block says; it changes no number"),
    ] = field(
        default_factory=lambda: convert(
            {
                "paper": None,
                "orientation": None,
                "scale": None,
                "project": "",
                "revision": "",
                "author": "",
                "drawn_on": None,
                "north": None,
                "storey": None,
                "room": None,
            },
            type=DrawingSheetInput,
        )
    )
    objective: (
        Annotated[
            DesignObjectiveInput,
            Meta(
                description="What the house is to have least of; none: the coldest supply that serves the rooms, on it the widest spacings"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    former: (
        Annotated[
            FormerDesignInput,
            Meta(
                description="A former answer of designs for this house: its decisions are kept where they still hold, and comparison says what has changed. Further members are ignored. With inputs alone it is designed again"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    sensitivity: (
        Annotated[
            SensitivityQuestionsInput,
            Meta(
                description="Changes to look at one at a time, as in design-sensitivity; null: none, {}: those that are usual"
            ),
        ]
        | UnsetType
        | None
    ) = UNSET
    season: (
        Annotated[
            SeasonQuestionsInput,
            Meta(description="The year to operate the design through, as in heating-season; null: none"),
        ]
        | UnsetType
        | None
    ) = UNSET
    workings: Annotated[
        bool,
        Meta(
            description="Whether the answer carries its workings: the intermediate values with formula and source (default false)"
        ),
    ] = False


class DesignsResponse(Struct, kw_only=True):
    inputs: Annotated[DesignsInputs, Meta(description="The inputs as used, defaults filled in")]
    supply_temperature: Annotated[float, Meta(description="Water temperature into the circuit [degC]")]
    return_temperature: Annotated[float, Meta(description="Water temperature out of the circuit [degC]")]
    governing_room: Annotated[str, Meta(description="The id of the room that sets the supply temperature")]
    heat_demand: Annotated[
        float,
        Meta(description="Heat that the room needs, without the loss through its own heated floor [W]"),
    ]
    heat_given: Annotated[
        float,
        Meta(description="Heat that the floor gives to the room at the design's flows [W]"),
    ]
    heat_missing: Annotated[
        float,
        Meta(description="Heat demand that the floor cannot give; 0 when it can [W]"),
    ]
    heat_flow: Annotated[
        float,
        Meta(description="Heat that the water gives, to the room and downwards [W]"),
    ]
    mass_flow: Annotated[float, Meta(description="Mass flow of the fluid [kg/s]")]
    volume_flow: Annotated[
        float,
        Meta(description="Volume flow of the fluid; what a flow meter shows [m3/s]"),
    ]
    pipe_length: Annotated[float, Meta(description="Pipe of all circuits, tails included [m]")]
    rooms: Annotated[list[RoomDesign], Meta(description="The rooms as designed")]
    circuits: Annotated[
        list[CircuitDesign],
        Meta(description="The circuits in the order of manifolds and their ports"),
    ]
    index_circuit: Annotated[
        str,
        Meta(description="Identifier of the circuit that decides the pump; its valve stays open"),
    ]
    pump: Annotated[Pump, Meta(description="Pump duty")]
    mixing: (
        Annotated[
            Mixing,
            Meta(
                description="The mixing set; null without a primary, or with one that is colder than the supply"
            ),
        ]
        | None
    )
    system_volume: Annotated[float, Meta(description="Volume of fluid in the system [m3]")]
    expansion_vessel: Annotated[ExpansionVessel, Meta(description="The expansion vessel")]
    frost_protection: Annotated[FrostProtection, Meta(description="Check of the fluid against frost")] | None
    curing_plans: Annotated[list[BuildUpPlan], Meta(description="The curing plan of each build-up in use")]
    layout: Annotated[DesignLayout, Meta(description="The storeys as drawn; null without doorways")] | None
    build_up_checks: Annotated[
        list[BuildUpCheck],
        Meta(description="Further checks of the build-ups that ask for them"),
    ]
    manifolds: Annotated[
        list[ManifoldDesign],
        Meta(description="The manifolds as designed, in the order of the request"),
    ]
    sleeve_count: Annotated[
        int,
        Meta(description="Sleeves for pipes through movement joints, flow and return each one [1]"),
    ]
    movement_joint_length: Annotated[
        float,
        Meta(description="Movement joints that are laid out, given or adopted [m]"),
    ]
    due_sleeve_count: Annotated[
        int,
        Meta(description="Sleeves where tails as drawn pass the joints that are due [1]"),
    ]
    due_joint_length: Annotated[
        float,
        Meta(description="Movement joints that the rules ask for beside those that are laid out [m]"),
    ]
    joints: Annotated[
        list[DesignJoint],
        Meta(description="Movement joints of rooms and doorways: laid out, then those that are due"),
    ]
    insulated_tail_length: Annotated[
        float,
        Meta(description="Insulation round tails, one metre for each of a pipe [m]"),
    ]
    materials: (
        Annotated[MaterialsResult, Meta(description="What materials answers; none where ordering is null")]
        | None
    )
    commissioning: (
        Annotated[
            CommissioningResult, Meta(description="What commissioning answers; none where it was left out")
        ]
        | None
    )
    laying_sheets: Annotated[list[LayingSheet], Meta(description="One sheet for each circuit")]
    convergence: Annotated[
        DesignConvergence,
        Meta(description="How spacings, supply, flows, lengths and heat of tails came to agree"),
    ]
    chosen_floors: Annotated[
        list[ChosenFloor],
        Meta(description="Floors whose covering was chosen, in place of build-ups of the request"),
    ]
    objective: (
        Annotated[
            ObjectiveOutcome,
            Meta(description="The house beside the one by the rule; null without an objective"),
        ]
        | None
    )
    comparison: (
        Annotated[
            DesignComparison, Meta(description="What has changed since the former design; null without one")
        ]
        | None
    )
    options: (
        Annotated[
            DesignOptionsResult,
            Meta(
                description="What the house could be instead, by area: the options that the objective was chosen from; null without one"
            ),
        ]
        | None
    )
    sensitivity: (
        Annotated[
            DesignSensitivityResult,
            Meta(description="How the design reacts to them, by area; null where nobody asked"),
        ]
        | None
    )
    season: (
        Annotated[
            HeatingSeasonResult, Meta(description="The heating curve and the year; null where nobody asked")
        ]
        | None
    )
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET


class PlanImportsResponse(Struct, kw_only=True):
    inputs: Annotated[PlanImportsInputs, Meta(description="The inputs as used, defaults filled in")]
    format: Annotated[Literal["dxf", "gbxml"], Meta(description="Format of the file")]
    length_unit: Annotated[str, Meta(description="Unit of the file's lengths")]
    metres_per_unit: Annotated[float, Meta(description="Metres in one unit of the file [m]")]
    request: Annotated[
        DesignsInputs,
        Meta(
            description="A request of designs; it can be computed once what is in missing has been filled in"
        ),
    ]
    taken: Annotated[list[ImportedPart], Meta(description="What was taken from the file")]
    guessed: Annotated[
        list[ImportedPart],
        Meta(description="What the file does not say and was guessed: look at each"),
    ]
    missing: Annotated[
        list[ImportedPart],
        Meta(description="What must be filled in before the request can be computed"),
    ]
    storeys_found: Annotated[list[FoundStorey], Meta(description="The storeys of the file from below")]
    rooms_found: Annotated[
        list[FoundRoom],
        Meta(description="The rooms of the file and what became of each"),
    ]
    layers_found: Annotated[
        list[FoundLayer],
        Meta(description="The layers of a drawing; none in other files"),
    ]
    findings: Annotated[
        list[Finding],
        Meta(description="What can be computed but should be looked at, the most urgent first"),
    ]
    cautions: Annotated[
        list[Caution],
        Meta(description="Warnings about people's safety, each code once"),
    ]
    engine_version: Annotated[
        str,
        Meta(description="Version of the engine: the same request to the same version gives the same answer"),
    ]
    workings: (
        Annotated[
            list[Working],
            Meta(
                description="The intermediate values, enough to redo the calculation by hand; present when asked for"
            ),
        ]
        | UnsetType
    ) = UNSET
