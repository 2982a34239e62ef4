export type { Answer, CalculationPath, PlanOptions, Schemas } from "./calculations.js";
export type { CallOptions } from "./call.js";
export { Client, type ClientOptions } from "./client.js";
export {
  type CallError,
  dataOf,
  type FieldError,
  type InvalidInput,
  type NoAnswer,
  type NotSent,
  type Operation,
  type Problem,
  type ProblemCode,
  type Refused,
  type Reply,
  TepidariumError,
  type Throttled,
  type Unavailable,
} from "./errors.js";
