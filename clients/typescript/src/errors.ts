// Everything that can go wrong between a caller and the service, as values: `kind` tells which.
import { retryAfter } from "./retry.js";
import type { components, operations } from "./schema.js";

/** What the service answers in place of a result (RFC 9457). */
export type Problem = components["schemas"]["Problem"];
/** What is wrong with one field of the request. */
export type FieldError = components["schemas"]["FieldError"];
/** One operation of a JSON Patch (RFC 6902) on the request. */
export type Operation = components["schemas"]["Operation"];
/** The name of a type of problem; `/problems/<code>` of the service explains it. */
export type ProblemCode = operations["explain_problem"]["parameters"]["path"]["slug"];

interface Refusal<Kind extends string, Status extends number> {
  readonly kind: Kind;
  readonly message: string;
  readonly status: Status;
  /** Undefined where a proxy or another server answered in place of the service. */
  readonly code: ProblemCode | undefined;
  readonly problem: Problem | undefined;
  /** The faulty fields, each with a JSON pointer into the request. */
  readonly errors: readonly FieldError[];
  /** [s]. The advice of the service, if it gave one. */
  readonly retryAfter: number | undefined;
  /** By this the service's log knows the request. */
  readonly requestId: string | undefined;
}

/** The request cannot be computed; `errors` names the fields. */
export type InvalidInput = Refusal<"invalid-input", 400 | 413 | 415 | 422>;
/** Too many requests in a short time. */
export type Throttled = Refusal<"throttled", 429>;
/** The service is starting, overloaded or past its deadline. The same request may succeed later. */
export type Unavailable = Refusal<"unavailable", 502 | 503 | 504>;
/** Any other answer that is no result: a key is missing, or the service failed. */
export type Refused = Refusal<"refused", number>;

/** The client did not send the request: it holds numbers that JSON cannot carry. */
export interface NotSent {
  readonly kind: "not-sent";
  readonly message: string;
  readonly errors: readonly FieldError[];
}

/** No answer: the service was not reached or the connection broke, it did not answer in time, or the caller's signal
 * ended the call (`cause` is its reason). `unreadable`: a success that is no result, such as a page of another server. */
export interface NoAnswer {
  readonly kind: "network" | "timed-out" | "aborted" | "unreadable";
  readonly message: string;
  readonly cause: unknown;
}

/** Everything that can go wrong with a call; `kind` tells which. */
export type CallError = InvalidInput | Throttled | Unavailable | Refused | NotSent | NoAnswer;

/** The answer, or what came in place of it. */
export type Reply<T> = { data: T; error?: undefined } | { data?: undefined; error: CallError };

/** What `dataOf` throws. */
export class TepidariumError extends Error {
  constructor(readonly error: CallError) {
    super(error.message, "cause" in error ? { cause: error.cause } : undefined);
    this.name = "TepidariumError";
  }
}

/** The data of a reply; throws a `TepidariumError` when there are none. */
export function dataOf<T>(reply: Reply<T>): T {
  if (reply.error) throw new TepidariumError(reply.error);
  return reply.data;
}

const INVALID = [400, 413, 415, 422] as const;
const UNAVAILABLE = [502, 503, 504] as const;

// The contract names the codes; a new one does not compile until it stands here.
const CODES: Record<ProblemCode, true> = {
  "unreadable-body": true,
  "bad-request": true,
  "key-needed": true,
  "not-found": true,
  "method-not-allowed": true,
  "not-acceptable": true,
  "body-timeout": true,
  "body-too-large": true,
  "unsupported-media-type": true,
  "invalid-input": true,
  "unreadable-file": true,
  "memory-exceeded": true,
  "too-many-requests": true,
  "internal-error": true,
  abandoned: true,
  "calculation-lost": true,
  "deadline-exceeded": true,
  overloaded: true,
  "not-ready": true,
};

/** The error that a response stands for which is no success; `body` is what was read of it. */
export function refusal(response: Response, body: unknown): CallError {
  const problem = isProblem(body) ? body : undefined;
  const slug = problem?.type.split("/").pop() ?? "";
  const { status } = response;
  const found = {
    message: `${status}: ${problem?.detail ?? (response.statusText || "no reason given")}`,
    code: isCode(slug) ? slug : undefined,
    problem,
    errors: problem?.errors ?? [],
    retryAfter: retryAfter(response),
    requestId: response.headers.get("X-Request-Id") ?? undefined,
  };
  if (isOneOf(INVALID, status)) return { kind: "invalid-input", status, ...found };
  if (isOneOf(UNAVAILABLE, status)) return { kind: "unavailable", status, ...found };
  if (status === 429) return { kind: "throttled", status: 429, ...found };
  return { kind: "refused", status, ...found };
}

function isOneOf<T extends number>(list: readonly T[], status: number): status is T {
  return list.some((one) => one === status);
}

function isCode(slug: string): slug is ProblemCode {
  return Object.hasOwn(CODES, slug);
}

function isProblem(body: unknown): body is Problem {
  return (
    typeof body === "object" && body !== null &&
    "type" in body && typeof body.type === "string" &&
    "title" in body && typeof body.title === "string" &&
    "status" in body && typeof body.status === "number" &&
    "detail" in body && typeof body.detail === "string" &&
    (!("errors" in body) || Array.isArray(body.errors))
  );
}
