// The packed client, compiled strictly, against a service (SERVICE) and against servers that refuse, break off and stall.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createServer, type RequestListener } from "node:http";
import type { AddressInfo } from "node:net";
import { test } from "node:test";
import {
  type Answer, type CalculationPath, type CallError, Client, dataOf, type PlanOptions, type ProblemCode, type Reply,
  type Schemas, TepidariumError,
} from "tepidarium-client";
import { exampleCalls, exampleDesign } from "./example_calls.js";

const SERVICE = process.env["SERVICE"] ?? "";
const client = new Client(SERVICE);
const FLOOR: Schemas["LoopLengthRequest"] = { area: 12, pipe_spacing: 0.15, tail_length: 4 };
const RESULT = { pipe_length: 88 };

// No answer is of a type that lets everything pass.
type IsAny<T> = 0 extends 1 & T ? true : false;
type Loose = { [P in CalculationPath]: IsAny<Answer<P>> extends true ? P : never }[CalculationPath];
const noneIsLoose: [Loose] extends [never] ? true : false = true;

/** A server of this test, stopped with it. */
async function served(context: { after(end: () => void): void }, listener: RequestListener): Promise<string> {
  const server = createServer(listener);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  context.after(() => {
    server.closeAllConnections();
    server.close();
  });
  const { port } = server.address() as AddressInfo;
  return `http://127.0.0.1:${port}`;
}

/** A listener that gives one answer after the other, the last one again and again. */
function script(...answers: RequestListener[]): RequestListener & { count: number } {
  const listener: RequestListener & { count: number } = Object.assign(
    (...pair: Parameters<RequestListener>) => answers[Math.min(listener.count++, answers.length - 1)]?.(...pair),
    { count: 0 },
  );
  return listener;
}

const answer = (status: number, body: object, headers: Record<string, string> = {}): RequestListener =>
  (_, response) => {
    const type = status === 200 ? "application/json" : "application/problem+json";
    response.writeHead(status, { "Content-Type": type, ...headers }).end(JSON.stringify(body));
  };
const problem = (status: number, slug: ProblemCode, headers = {}): RequestListener =>
  answer(status, { type: `/problems/${slug}`, title: slug, status, detail: "as the test wants it" }, headers);
const good = answer(200, RESULT);
const brokenOff: RequestListener = (request) => request.socket.destroy();
const stalled: RequestListener = () => undefined;

async function errorOf<T>(reply: Promise<Reply<T>>): Promise<CallError> {
  const { error } = await reply;
  assert.ok(error);
  return error;
}

test("every example is answered as the service answers it", async () => {
  assert.equal(noneIsLoose, true);
  for (const [path, call] of Object.entries(exampleCalls(client))) {
    const { body, reply } = call;
    const plain = await fetch(`${SERVICE}${path}`, {
      method: "POST", body: JSON.stringify(body), headers: { "Content-Type": "application/json" },
    });
    assert.deepEqual(dataOf(await reply()), await plain.json(), path);
  }
});

test("points are pairs of numbers", async () => {
  type Path = Schemas["RouteCircuit"]["path"];
  const outline: Path = [[0, 0], [4, 0], [4, 3], [0, 3]];
  // @ts-expect-error three numbers are no point
  const triples: Path = [[0, 0, 0]];
  const { circuits } = dataOf(await client.routes({ outline, entry: [2, 0], pipe_spacing: 0.2 }));
  assert.ok((circuits[0]?.path.length ?? 0) > 10 && triples.length === 1);
});

test("files come as blobs of their type", async () => {
  const svg = dataOf(await client.designsDrawing(exampleDesign));
  assert.equal(svg.type, "image/svg+xml");
  assert.match(await svg.text(), /^<svg|^<\?xml/);
  const csv = dataOf(await client.designsSchedule(exampleDesign));
  assert.equal(csv.type.split(";")[0], "text/csv");
  const starts = [
    [client.designsDocument, "%PDF"], [client.designsWorkbook, "PK"], [client.designsFiles, "PK"],
    [client.designsCalendar, "BEGIN:VCALENDAR"], [client.designsCadDrawing, "  0"],
  ] as const;
  for (const [method, start] of starts) {
    const file = dataOf(await method.call(client, exampleDesign));
    assert.equal(new TextDecoder().decode((await file.arrayBuffer()).slice(0, start.length)), start);
  }
});

test("a plan becomes the request of a design", async () => {
  const options: PlanOptions = { external_temperature: -12, annual_mean_temperature: 9 };
  const plan = dataOf(await client.planImports(await readFile("plan.xml"), options));
  assert.ok(plan.request.rooms.length > 1);
  const error = await errorOf(client.planImports("no drawing", options));
  assert.equal(error.kind, "invalid-input");
  assert.equal(error.kind === "invalid-input" && error.code, "unreadable-file");
});

test("questions about the service", async () => {
  assert.equal(dataOf(await client.ready()), true);
  assert.ok(dataOf(await client.limits()).numbers.length > 50);
  assert.ok(dataOf(await client.calculations()).calculations.some((one) => one.name === "designs"));
  assert.equal((await errorOf(new Client("http://127.0.0.1:1").ready())).kind, "network");
});

test("a refusal points to its field and knows its code", async () => {
  const error = await errorOf(client.loopLength({ ...FLOOR, pipe_spacing: 150 }));
  assert.ok(error.kind === "invalid-input");
  const status: 400 | 413 | 415 | 422 = error.status;
  assert.deepEqual([status, error.code, error.errors.map((field) => field.pointer)], [422, "invalid-input", ["/pipe_spacing"]]);
  assert.ok(error.requestId && error.problem?.instance?.includes(error.requestId));
  assert.throws(() => dataOf({ error }), (thrown) => thrown instanceof TepidariumError && thrown.error === error);
  // @ts-expect-error the field has another name
  const misspelt = await errorOf(client.loopLength({ ...FLOOR, pipe_spacings: 0.15 }));
  assert.ok(misspelt.kind === "invalid-input");
});

test("numbers without a form in JSON are not sent", async (context) => {
  const listener = script(good);
  const error = await errorOf(new Client(await served(context, listener)).loopLength({ ...FLOOR, area: NaN }));
  assert.ok(error.kind === "not-sent");
  assert.deepEqual(error.errors.map((field) => field.pointer), ["/area"]);
  assert.equal(listener.count, 0);
});

test("a thousand at once: none is lost", async () => {
  const pipe = { outside_diameter: 0.016, wall_thickness: 0.002 };
  const layers_below = [{ thickness: 0.06, thermal_conductivity: 0.035 }];
  const numbers = Array.from({ length: 1000 }, (_, number) => number);
  const ask = async (number: number): Promise<number> => {
    const pipe_spacing = 0.1 + (number % 20) / 100;
    if (number % 10 > 0) return dataOf(await client.loopLength({ ...FLOOR, pipe_spacing })).pipe_length;
    const floor = { pipe_spacing, screed_cover: 0.045, pipe, layers_below, water_temperature: 35 };
    return dataOf(await client.floorSection(floor)).heat_output;
  };
  const values = await Promise.all(numbers.map(ask));
  assert.equal(new Set(values).size, 20);
  assert.deepEqual(values, numbers.map((number) => values[number % 20]));
});

test("a busy service is asked again, not before it wants", async (context) => {
  const listener = script(problem(503, "overloaded", { "Retry-After": "1" }), brokenOff, good);
  const began = performance.now();
  const reply = await new Client(await served(context, listener)).loopLength(FLOOR);
  assert.deepEqual([reply.data, listener.count], [RESULT, 3]);
  assert.ok(performance.now() - began >= 1000);
});

test("a calculation that passes the deadline of the service is not repeated", async (context) => {
  const slow = script(problem(503, "deadline-exceeded", { "Retry-After": "1" }), good);
  const error = await errorOf(new Client(await served(context, slow)).loopLength(FLOOR));
  assert.ok(error.kind === "unavailable" && error.code === "deadline-exceeded" && slow.count === 1);
});

test("a service that stays busy is an error after all attempts", async (context) => {
  const busy = script(problem(429, "too-many-requests", { "Retry-After": "0" }));
  const error = await errorOf(new Client(await served(context, busy), { retries: 1 }).loopLength(FLOOR));
  assert.ok(error.kind === "throttled");
  assert.deepEqual([error.status, error.code, error.retryAfter, busy.count], [429, "too-many-requests", 0, 2]);
  const later = script(problem(503, "overloaded", { "Retry-After": new Date(Date.now() + 3_600_000).toUTCString() }));
  const patient = await errorOf(new Client(await served(context, later)).loopLength(FLOOR));
  assert.ok(patient.kind === "unavailable" && (patient.retryAfter ?? 0) > 3500 && later.count === 1);
});

test("no more are under way than allowed, fewer after refusals, and every one is answered", async (context) => {
  let underWay = 0, most = 0, refused = 0;
  const url = await served(context, (request, response) => {
    most = Math.max(most, ++underWay);
    setTimeout(() => {
      const full = underWay > 6;
      refused += Number(full);
      underWay -= 1;
      (full ? problem(503, "overloaded", { "Retry-After": "0" }) : good)(request, response);
    }, 5);
  });
  const many = new Client(url, { concurrency: 12, retries: 10 });
  const replies = await Promise.all(Array.from({ length: 200 }, () => many.loopLength(FLOOR)));
  assert.ok(replies.every((reply) => reply.data !== undefined));
  assert.ok(most <= 12 && refused > 0 && refused < 100, `${most} ${refused}`);
});

test("a time-out is final", async (context) => {
  const listener = script(stalled);
  const url = await served(context, listener);
  const error = await errorOf(new Client(url, { timeoutSeconds: 0.1 }).loopLength(FLOOR));
  assert.deepEqual([error.kind, listener.count], ["timed-out", 1]);
  const own = await errorOf(new Client(url).loopLength(FLOOR, { timeoutSeconds: 0.1 }));
  assert.equal(own.kind, "timed-out");
});

test("a signal ends a call before it is sent, while it waits, pauses or computes", async (context) => {
  const reason = new Error("another house was chosen");
  const ended = async (url: string, concurrency = 64): Promise<CallError[]> => {
    const ending = new AbortController();
    const one = new Client(url, { concurrency });
    const all = Array.from({ length: 3 }, () => errorOf(one.loopLength(FLOOR, { signal: ending.signal })));
    setTimeout(() => ending.abort(reason), 100);
    return Promise.all(all);
  };
  const stall = script(stalled);
  const errors = [
    ...(await ended(await served(context, stall), 1)),
    ...(await ended(await served(context, script(problem(503, "overloaded", { "Retry-After": "30" }))))),
    await errorOf(client.loopLength(FLOOR, { signal: AbortSignal.abort(reason) })),
  ];
  assert.equal(stall.count, 1);
  assert.deepEqual(errors.map((one) => [one.kind, "cause" in one && one.cause]), errors.map(() => ["aborted", reason]));
});

test("a signal that many calls share ends them all", async (context) => {
  const warnings: Error[] = [];
  const listen = (warning: Error): void => void warnings.push(warning);
  process.on("warning", listen);
  context.after(() => process.off("warning", listen));
  const ending = new AbortController();
  const one = new Client(await served(context, script(stalled)));
  const all = Array.from({ length: 100 }, () => errorOf(one.loopLength(FLOOR, { signal: ending.signal })));
  setTimeout(() => ending.abort(), 100);
  assert.ok((await Promise.all(all)).every((error) => error.kind === "aborted"));
  assert.deepEqual(warnings, []);
});

test("an aborted call gives its place to the next", async (context) => {
  const ending = new AbortController();
  const one = new Client(await served(context, script(stalled, good)), { concurrency: 1 });
  const stuck = errorOf(one.loopLength(FLOOR, { signal: ending.signal }));
  const next = one.loopLength(FLOOR);
  setTimeout(() => ending.abort(), 50);
  assert.equal((await stuck).kind, "aborted");
  assert.deepEqual((await next).data, RESULT);
});

test("answers of other servers are no results", async (context) => {
  const page = (status: number, type: string, text: string): RequestListener =>
    (_, response) => void response.writeHead(status, { "Content-Type": type }).end(text);
  const kind = async (listener: RequestListener): Promise<string> =>
    (await errorOf(new Client(await served(context, listener), { retries: 0 }).loopLength(FLOOR))).kind;
  assert.equal(await kind(page(200, "text/html", "<p>Sign in</p>")), "unreadable");
  assert.equal(await kind(page(200, "text/html", "{}")), "unreadable");
  assert.equal(await kind(page(200, "application/json", "{")), "unreadable");
  assert.equal(await kind(page(200, "application/json", "")), "unreadable");
  assert.equal(await kind(page(502, "text/html", "<p>Bad gateway</p>")), "unavailable");
  assert.equal(await kind(page(404, "text/html", "<p>Nothing here</p>")), "refused");
  assert.equal(await kind(brokenOff), "network");
});

test("options that make no sense are refused at once", () => {
  assert.throws(() => new Client("no address"), TypeError);
  assert.throws(() => new Client("ftp://127.0.0.1"), TypeError);
  for (const options of [{ concurrency: 0 }, { retries: -1 }, { timeoutSeconds: 0 }, { timeoutSeconds: NaN }]) {
    assert.throws(() => new Client(SERVICE, options), RangeError);
  }
});

test("headers of the caller are sent", async (context) => {
  const keys: unknown[] = [];
  const url = await served(context, (request, response) => {
    keys.push(request.headers["x-api-key"], request.headers["content-type"], request.headers.accept);
    good(request, response);
  });
  await new Client(url, { headers: { "X-API-Key": "of the test" } }).loopLength(FLOOR);
  assert.deepEqual(keys, ["of the test", "application/json", "application/json, application/problem+json"]);
});
