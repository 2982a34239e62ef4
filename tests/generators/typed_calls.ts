// Compiled strictly against the types that openapi-typescript writes, and run against a service: what a web page does
// with the service, without a cast. The test adds a call for every example and reads what is printed.
import createClient from "openapi-fetch";
import type { components, paths } from "./schema.js";
import { callEveryExample } from "./example_calls.js";

declare const process: { argv: string[] };

type Point = [x: number, y: number];

const client = createClient<paths>({ baseUrl: process.argv[2] ?? "" });

// Only what has no default is sent.
const floor: components["schemas"]["HeatOutputRequest"] = {
  pipe_spacing: 0.15,
  pipe: { outside_diameter: 0.016, wall_thickness: 0.002 },
  screed_cover: 0.045,
  resistance_below: 1.5,
  supply_temperature: 38,
  return_temperature: 31,
};
const output = await client.POST("/v1/heat-output", { body: floor });
const heat: number = output.data?.heat_output ?? NaN;
const conductivity: number = output.data?.inputs.screed_conductivity ?? NaN;

// Points are pairs of numbers.
const outline: Point[] = [[0, 0], [4, 0], [4, 3], [0, 3]];
const room: components["schemas"]["RoutesRequest"] = { outline, entry: [2, 0], pipe_spacing: 0.2 };
const routes = await client.POST("/v1/routes", { body: room });
// openapi-fetch, not the document, widens pairs that come back to lists.
const path: number[][] = routes.data?.circuits[0]?.path ?? [];
type Path = components["schemas"]["RouteCircuit"]["path"];
const pairs: Path = outline;
// @ts-expect-error three numbers are no point
const triples: Path = [[0, 0, 0]];
const lengths: number[] = routes.data?.circuits.map((circuit) => circuit.total_length) ?? [];

// A drawing is text.
const drawing = await client.POST("/v1/routes/drawing", { body: room, parseAs: "text" });
const svg: string = drawing.data ?? "";

// A refusal points to the field.
const refusal = await client.POST("/v1/heat-output", { body: { ...floor, pipe_spacing: 150 } });
const pointers: string[] = refusal.error?.errors?.map((fault) => fault.pointer) ?? [];

const limits = await client.GET("/v1/limits");
const names: string[] = limits.data?.numbers.map((limit) => limit.name) ?? [];

const results = await callEveryExample(client);
console.log(JSON.stringify({ heat, conductivity, path, lengths, svg, pointers, names, results, pairs, triples }));
