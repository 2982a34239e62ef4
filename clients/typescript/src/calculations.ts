// What a client can be asked: one method for each calculation and each of its files, named as in the Python client.
// Numbers are in SI units; each field says its unit. Every file is a Blob: `text()`, `arrayBuffer()`, or an object URL.
import type { Client, MethodResponse } from "openapi-fetch";
import { planType } from "./body.js";
import type { CallOptions, Sending, Sent } from "./call.js";
import type { Reply } from "./errors.js";
import type { components, operations, paths } from "./schema.js";

/** Requests, answers and their parts by name. */
export type Schemas = components["schemas"];
/** The paths of all calculations and of their files. */
export type CalculationPath = {
  [P in keyof paths]: paths[P] extends { post: object } ? P : never;
}[keyof paths];
/** What a path answers in JSON. */
export type Answer<P extends CalculationPath> = MethodResponse<Client<paths>, "post", P>;
type Answered<P extends CalculationPath> = Promise<Reply<Answer<P>>>;
/** What the import of a plan may be told besides the file. */
export type PlanOptions = NonNullable<operations["plan_imports"]["parameters"]["query"]>;

const JSON_TYPE = "application/json";
const CALENDAR = "text/calendar";
const CSV = "text/csv";
const DXF = "image/vnd.dxf";
const PDF = "application/pdf";
const SVG = "image/svg+xml";
const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
const ZIP = "application/zip";

export abstract class Calculations {
  protected abstract readonly http: Client<paths>;
  protected abstract ask<T>(
    accept: string, options: CallOptions | undefined, send: (sending: Sending) => Promise<Sent<T>>,
  ): Promise<Reply<T>>;

  /** Heat loss of rooms, by room and by element. */
  heatLoss(body: Schemas["HeatLossRequest"], options?: CallOptions): Answered<"/v1/heat-loss"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/heat-loss", { ...sending, body }));
  }

  /** Heat loss of rooms and elements as PDF. */
  heatLossDocument(body: Schemas["HeatLossRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/heat-loss/document", { ...sending, body, parseAs: "blob" }));
  }

  /** Heat loss of each room as CSV. */
  heatLossSchedule(body: Schemas["HeatLossRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CSV, options, (sending) =>
      this.http.POST("/v1/heat-loss/schedule", { ...sending, body, parseAs: "blob" }));
  }

  /** Insulation below a heated floor against EN 1264-4 and a local limit. */
  insulationCheck(body: Schemas["InsulationCheckRequest"], options?: CallOptions): Answered<"/v1/insulation-check"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/insulation-check", { ...sending, body }));
  }

  /** Heat output and surface temperature of a heated floor. */
  heatOutput(body: Schemas["HeatOutputRequest"], options?: CallOptions): Answered<"/v1/heat-output"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/heat-output", { ...sending, body }));
  }

  /** Temperatures and heat flows in the section of a heated floor, and its warm-up. */
  floorSection(body: Schemas["FloorSectionRequest"], options?: CallOptions): Answered<"/v1/floor-section"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/floor-section", { ...sending, body }));
  }

  /** The section of a heated floor with its isotherms as an SVG drawing to scale. */
  floorSectionDrawing(body: Schemas["FloorSectionRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(SVG, options, (sending) =>
      this.http.POST("/v1/floor-section/drawing", { ...sending, body, parseAs: "blob" }));
  }

  /** Supply temperature and pipe spacing for the heat that the rooms need. */
  supplyTemperature(
    body: Schemas["SupplyTemperatureRequest"], options?: CallOptions,
  ): Answered<"/v1/supply-temperature"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/supply-temperature", { ...sending, body }));
  }

  /** Circuits and pipe length of an area. */
  loopLength(body: Schemas["LoopLengthRequest"], options?: CallOptions): Answered<"/v1/loop-length"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/loop-length", { ...sending, body }));
  }

  /** The pipe's way through a room, as lines and arcs. */
  routes(body: Schemas["RoutesRequest"], options?: CallOptions): Answered<"/v1/routes"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/routes", { ...sending, body }));
  }

  /** The pipe's way through a room as an SVG drawing to scale. */
  routesDrawing(body: Schemas["RoutesRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(SVG, options, (sending) =>
      this.http.POST("/v1/routes/drawing", { ...sending, body, parseAs: "blob" }));
  }

  /** The pipe's way through a room as a DXF drawing in real size. */
  routesCadDrawing(body: Schemas["RoutesRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(DXF, options, (sending) =>
      this.http.POST("/v1/routes/cad-drawing", { ...sending, body, parseAs: "blob" }));
  }

  /** The pipe's way through a room as a PDF drawing to scale. */
  routesDocument(body: Schemas["RoutesRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/routes/document", { ...sending, body, parseAs: "blob" }));
  }

  /** Where the manifold of a storey should stand: least pipe in all tails. */
  manifoldPosition(body: Schemas["ManifoldPositionRequest"], options?: CallOptions): Answered<"/v1/manifold-position"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/manifold-position", { ...sending, body }));
  }

  /** Flows, pressure drops, balancing, pump and expansion vessel of a manifold. */
  hydraulics(body: Schemas["HydraulicsRequest"], options?: CallOptions): Answered<"/v1/hydraulics"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/hydraulics", { ...sending, body }));
  }

  /** Flows, valves, pump and vessel of a manifold as PDF. */
  hydraulicsDocument(body: Schemas["HydraulicsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/hydraulics/document", { ...sending, body, parseAs: "blob" }));
  }

  /** Flow and valve of each circuit as CSV. */
  hydraulicsSchedule(body: Schemas["HydraulicsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CSV, options, (sending) =>
      this.http.POST("/v1/hydraulics/schedule", { ...sending, body, parseAs: "blob" }));
  }

  /** Dates and daily supply temperatures from pouring the screed to covering it. */
  curingPlan(body: Schemas["CuringPlanRequest"], options?: CallOptions): Answered<"/v1/curing-plan"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/curing-plan", { ...sending, body }));
  }

  /** The curing plan as an iCalendar text for a calendar program. */
  curingPlanCalendar(body: Schemas["CuringPlanRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CALENDAR, options, (sending) =>
      this.http.POST("/v1/curing-plan/calendar", { ...sending, body, parseAs: "blob" }));
  }

  /** The curing plan as PDF. */
  curingPlanDocument(body: Schemas["CuringPlanRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/curing-plan/document", { ...sending, body, parseAs: "blob" }));
  }

  /** The supply temperature of each day as CSV. */
  curingPlanSchedule(body: Schemas["CuringPlanRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CSV, options, (sending) =>
      this.http.POST("/v1/curing-plan/schedule", { ...sending, body, parseAs: "blob" }));
  }

  /** Whether a screed is dry enough for its covering. */
  moistureReading(body: Schemas["MoistureReadingRequest"], options?: CallOptions): Answered<"/v1/moisture-reading"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/moisture-reading", { ...sending, body }));
  }

  /** The readings with their limits and the judgement as PDF, to sign. */
  moistureReadingDocument(body: Schemas["MoistureReadingRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/moisture-reading/document", { ...sending, body, parseAs: "blob" }));
  }

  /** Each reading with its limit as CSV. */
  moistureReadingSchedule(body: Schemas["MoistureReadingRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CSV, options, (sending) =>
      this.http.POST("/v1/moisture-reading/schedule", { ...sending, body, parseAs: "blob" }));
  }

  /** The readings and the limits of several rules as XLSX. */
  moistureReadingWorkbook(body: Schemas["MoistureReadingRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(XLSX, options, (sending) =>
      this.http.POST("/v1/moisture-reading/workbook", { ...sending, body, parseAs: "blob" }));
  }

  /** Which circuits are cut from which coils, with metre marks. */
  coilPlan(body: Schemas["CoilPlanRequest"], options?: CallOptions): Answered<"/v1/coil-plan"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/coil-plan", { ...sending, body }));
  }

  /** The plan of coils as PDF. */
  coilPlanDocument(body: Schemas["CoilPlanRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/coil-plan/document", { ...sending, body, parseAs: "blob" }));
  }

  /** The cuts of each coil as CSV. */
  coilPlanSchedule(body: Schemas["CoilPlanRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CSV, options, (sending) =>
      this.http.POST("/v1/coil-plan/schedule", { ...sending, body, parseAs: "blob" }));
  }

  /** The plan of coils as XLSX. */
  coilPlanWorkbook(body: Schemas["CoilPlanRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(XLSX, options, (sending) =>
      this.http.POST("/v1/coil-plan/workbook", { ...sending, body, parseAs: "blob" }));
  }

  /** What to order, with rule, source and waste of each quantity. */
  materials(body: Schemas["MaterialsRequest"], options?: CallOptions): Answered<"/v1/materials"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/materials", { ...sending, body }));
  }

  /** The order as PDF, with the rule of each quantity. */
  materialsDocument(body: Schemas["MaterialsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/materials/document", { ...sending, body, parseAs: "blob" }));
  }

  /** The order as CSV. */
  materialsSchedule(body: Schemas["MaterialsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CSV, options, (sending) =>
      this.http.POST("/v1/materials/schedule", { ...sending, body, parseAs: "blob" }));
  }

  /** The order and its plan of coils as XLSX. */
  materialsWorkbook(body: Schemas["MaterialsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(XLSX, options, (sending) =>
      this.http.POST("/v1/materials/workbook", { ...sending, body, parseAs: "blob" }));
  }

  /** Low, likely and high values for a quotation. */
  estimates(body: Schemas["EstimatesRequest"], options?: CallOptions): Answered<"/v1/estimates"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/estimates", { ...sending, body }));
  }

  /** Drawn circuits as a fitter follows them, with metre marks. */
  layingSheets(body: Schemas["LayingSheetsRequest"], options?: CallOptions): Answered<"/v1/laying-sheets"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/laying-sheets", { ...sending, body }));
  }

  /** The laying sheets as PDF, each with a plan to scale. */
  layingSheetsDocument(body: Schemas["LayingSheetsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/laying-sheets/document", { ...sending, body, parseAs: "blob" }));
  }

  /** The straights and turns of all circuits as CSV. */
  layingSheetsSchedule(body: Schemas["LayingSheetsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CSV, options, (sending) =>
      this.http.POST("/v1/laying-sheets/schedule", { ...sending, body, parseAs: "blob" }));
  }

  /** The straights and turns as XLSX, a sheet for each circuit. */
  layingSheetsWorkbook(body: Schemas["LayingSheetsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(XLSX, options, (sending) =>
      this.http.POST("/v1/laying-sheets/workbook", { ...sending, body, parseAs: "blob" }));
  }

  /** Leak test, flushing, filling, frost protection and their records. */
  commissioning(body: Schemas["CommissioningRequest"], options?: CallOptions): Answered<"/v1/commissioning"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/commissioning", { ...sending, body }));
  }

  /** The records of commissioning as PDF, to fill in. */
  commissioningDocument(body: Schemas["CommissioningRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/commissioning/document", { ...sending, body, parseAs: "blob" }));
  }

  /** The records of commissioning as XLSX. */
  commissioningWorkbook(body: Schemas["CommissioningRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(XLSX, options, (sending) =>
      this.http.POST("/v1/commissioning/workbook", { ...sending, body, parseAs: "blob" }));
  }

  /** The floor heating of a whole storey or house. */
  designs(body: Schemas["DesignsRequest"], options?: CallOptions): Answered<"/v1/designs"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/designs", { ...sending, body }));
  }

  /** The pipe of a whole storey as an SVG drawing to scale; needs `doorways`. */
  designsDrawing(body: Schemas["DesignsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(SVG, options, (sending) =>
      this.http.POST("/v1/designs/drawing", { ...sending, body, parseAs: "blob" }));
  }

  /** The dates of all screeds of a house as an iCalendar text for a calendar program. */
  designsCalendar(body: Schemas["DesignsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CALENDAR, options, (sending) =>
      this.http.POST("/v1/designs/calendar", { ...sending, body, parseAs: "blob" }));
  }

  /** The pipe of each storey as a DXF drawing in real size; needs `doorways`. */
  designsCadDrawing(body: Schemas["DesignsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(DXF, options, (sending) =>
      this.http.POST("/v1/designs/cad-drawing", { ...sending, body, parseAs: "blob" }));
  }

  /** The handover pack of a house as PDF. */
  designsDocument(body: Schemas["DesignsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/designs/document", { ...sending, body, parseAs: "blob" }));
  }

  /** The circuits of a house as CSV, with coils and metre marks. */
  designsSchedule(body: Schemas["DesignsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(CSV, options, (sending) =>
      this.http.POST("/v1/designs/schedule", { ...sending, body, parseAs: "blob" }));
  }

  /** The tables of a house as XLSX. */
  designsWorkbook(body: Schemas["DesignsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(XLSX, options, (sending) =>
      this.http.POST("/v1/designs/workbook", { ...sending, body, parseAs: "blob" }));
  }

  /** Every document of a house and its `result.json`, as ZIP. */
  designsFiles(body: Schemas["DesignsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(ZIP, options, (sending) =>
      this.http.POST("/v1/designs/files", { ...sending, body, parseAs: "blob" }));
  }

  /** What a house could be instead, and what each option takes beside the next. */
  designOptions(body: Schemas["DesignOptionsRequest"], options?: CallOptions): Answered<"/v1/design-options"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/design-options", { ...sending, body }));
  }

  /** The options of a house as an SVG plot with their table. */
  designOptionsDrawing(body: Schemas["DesignOptionsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(SVG, options, (sending) =>
      this.http.POST("/v1/design-options/drawing", { ...sending, body, parseAs: "blob" }));
  }

  /** The options of a house as PDF: plot, tables, and the choices of each room. */
  designOptionsDocument(body: Schemas["DesignOptionsRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/design-options/document", { ...sending, body, parseAs: "blob" }));
  }

  /** How a design reacts to one change at a time, and how much more heat its rooms may need. */
  designSensitivity(
    body: Schemas["DesignSensitivityRequest"], options?: CallOptions,
  ): Answered<"/v1/design-sensitivity"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/design-sensitivity", { ...sending, body }));
  }

  /** The changes of a house as an SVG table with bars. */
  designSensitivityDrawing(body: Schemas["DesignSensitivityRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(SVG, options, (sending) =>
      this.http.POST("/v1/design-sensitivity/drawing", { ...sending, body, parseAs: "blob" }));
  }

  /** The changes of a house and how much more heat it bears as PDF. */
  designSensitivityDocument(body: Schemas["DesignSensitivityRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/design-sensitivity/document", { ...sending, body, parseAs: "blob" }));
  }

  /** The heating curve of a house, and its room controls, flow, heat and electricity through the year. */
  heatingSeason(body: Schemas["HeatingSeasonRequest"], options?: CallOptions): Answered<"/v1/heating-season"> {
    return this.ask(JSON_TYPE, options, (sending) => this.http.POST("/v1/heating-season", { ...sending, body }));
  }

  /** The heating curve as an SVG plot with the year in a table. */
  heatingSeasonDrawing(body: Schemas["HeatingSeasonRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(SVG, options, (sending) =>
      this.http.POST("/v1/heating-season/drawing", { ...sending, body, parseAs: "blob" }));
  }

  /** The heating curve, the year and the room controls as PDF. */
  heatingSeasonDocument(body: Schemas["HeatingSeasonRequest"], options?: CallOptions): Promise<Reply<Blob>> {
    return this.ask(PDF, options, (sending) =>
      this.http.POST("/v1/heating-season/document", { ...sending, body, parseAs: "blob" }));
  }


  /** The request of a design from the file of a plan, gbXML or DXF, with what was guessed and what is missing. */
  async planImports(file: BlobPart, query: PlanOptions = {}, options?: CallOptions): Answered<"/v1/plan-imports"> {
    const content = new Blob([file]);
    const type = await planType(content);
    return this.ask(JSON_TYPE, options, ({ signal, headers }) =>
      this.http.POST("/v1/plan-imports", {
        signal,
        headers: { ...headers, "Content-Type": type },
        params: { query },
        body: "",
        bodySerializer: () => content,
      }));
  }
}
