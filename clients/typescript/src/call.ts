// One call on the wire: sent when its turn comes, repeated where that helps, ended by its time-out or a signal.
import { onAbort } from "./aborting.js";
import { NotFinite } from "./body.js";
import { type CallError, type Reply, refusal } from "./errors.js";
import { type Gate, Place } from "./pace.js";
import { type Outcome, pauseBeforeRetry, serviceTook, sleep } from "./retry.js";

/** What a single call may be given. */
export interface CallOptions {
  /** Ends the call; its error is then of the kind `aborted`. */
  readonly signal?: AbortSignal | undefined;
  /** [s]. For each attempt, in place of the client's. */
  readonly timeoutSeconds?: number | undefined;
}

/** What every request is sent with. */
export type Sending = { readonly signal: AbortSignal; readonly headers: Record<string, string> };

/** What openapi-fetch gives. */
export type Sent<T> =
  | { data: T; error?: never; response: Response }
  | { data?: never; error: unknown; response: Response };

/** How a call is made and read; `accept` is the media type that its answer must have. */
export interface Call<T> {
  readonly accept: string;
  readonly send: (sending: Sending) => Promise<Sent<T>>;
  readonly retries: number;
  readonly timeoutSeconds: number;
  readonly signal: AbortSignal | undefined;
}

interface Attempt<T> {
  readonly reply: Reply<T>;
  readonly outcome: Outcome;
}

/** The reply to a call, after as many attempts as it takes. Never rejects. */
export async function perform<T>(call: Call<T>, gate: Gate): Promise<Reply<T>> {
  const place = new Place();
  const { signal } = call;
  try {
    for (let number = 0; ; number++) {
      await gate.turn(place, signal);
      const { reply, outcome } = await attempt(call);
      gate.settle(place, serviceTook(outcome));
      const pause = number < call.retries ? pauseBeforeRetry(outcome, number) : undefined;
      if (pause === undefined) return reply;
      await sleep(pause, signal);
    }
  } catch (cause) {
    return { error: { kind: "aborted", message: "The call was aborted", cause } };
  } finally {
    gate.leave(place);
  }
}

async function attempt<T>(call: Call<T>): Promise<Attempt<T>> {
  const ending = new AbortController();
  const forget = onAbort(call.signal, (reason) => ending.abort(reason));
  let late = false;
  const timer = setTimeout(() => {
    late = true;
    ending.abort();
  }, call.timeoutSeconds * 1000);
  try {
    const headers = { Accept: `${call.accept}, application/problem+json` };
    const sent = await call.send({ signal: ending.signal, headers });
    const reply = read(sent, call.accept);
    return { reply, outcome: tookTooLong(reply) ? "final" : sent.response };
  } catch (cause) {
    call.signal?.throwIfAborted();
    if (late) {
      const message = `No answer within ${call.timeoutSeconds} s`;
      return { reply: { error: { kind: "timed-out", message, cause } }, outcome: "final" };
    }
    const error = fault(cause);
    return { reply: { error }, outcome: error.kind === "network" ? "no connection" : "final" };
  } finally {
    clearTimeout(timer);
    forget();
  }
}

/** The service stopped the calculation at its deadline, as it would again. */
function tookTooLong(reply: Reply<unknown>): boolean {
  return reply.error?.kind === "unavailable" && reply.error.code === "deadline-exceeded";
}

function read<T>(sent: Sent<T>, accept: string): Reply<T> {
  const { response } = sent;
  if (!response.ok) return { error: refusal(response, sent.error) };
  const type = response.headers.get("Content-Type")?.split(";")[0]?.trim().toLowerCase() ?? "";
  if (sent.data === undefined || type !== accept) {
    const cause = `it is ${type || "of no declared type"}, not ${accept}`;
    return { error: { kind: "unreadable", message: `The answer cannot be read: ${cause}`, cause } };
  }
  return { data: sent.data };
}

function fault(cause: unknown): CallError {
  if (cause instanceof NotFinite) return { kind: "not-sent", message: cause.message, errors: cause.errors };
  const reason = cause instanceof Error ? cause.message : String(cause);
  if (cause instanceof SyntaxError) {
    return { kind: "unreadable", message: `The answer cannot be read: ${reason}`, cause };
  }
  const deeper = cause instanceof Error && cause.cause instanceof Error ? ` (${cause.cause.message})` : "";
  return { kind: "network", message: `No answer: ${reason}${deeper}`, cause };
}
