// When a request is sent again, and after which pause. All calculations are pure, so sending one twice does no harm.
// A time-out while the service computes, ours or its own, is final: the same work would take the same time again.

import { onAbort } from "./aborting.js";

const FIRST_PAUSE = 0.25;
const LONGEST_PAUSE = 8;
/** [s]. When the service asks for a longer wait than this, the caller decides, not the client. */
const LONGEST_ADVICE = 60;

const WORTH_REPEATING: readonly number[] = [429, 503];
const TOO_MUCH: readonly number[] = [429, 502, 503, 504];

/** What decides about another attempt: the response, or that the connection found no server or broke. */
export type Outcome = Response | "no connection" | "final";

/** Pause [s] before the attempt after number `attempt` (from 0), undefined when the outcome is final. It doubles from
 * attempt to attempt, at random so that many clients do not come back at once, and is never shorter than `Retry-After`. */
export function pauseBeforeRetry(outcome: Outcome, attempt: number): number | undefined {
  if (outcome === "final") return undefined;
  const pause = Math.min(LONGEST_PAUSE, FIRST_PAUSE * 2 ** attempt) * (0.5 + Math.random() / 2);
  if (outcome === "no connection") return pause;
  if (!WORTH_REPEATING.includes(outcome.status)) return undefined;
  const advice = retryAfter(outcome) ?? 0;
  return advice <= LONGEST_ADVICE ? advice + pause : undefined;
}

/** The `Retry-After` header in seconds from now (RFC 9110, 10.2.3: seconds or a date), if there is one. */
export function retryAfter(response: Response): number | undefined {
  const text = response.headers.get("Retry-After")?.trim() ?? "";
  if (/^[0-9]+$/.test(text)) return Number(text);
  const moment = Date.parse(text);
  return Number.isNaN(moment) ? undefined : Math.max(0, (moment - Date.now()) / 1000);
}

/** Whether the service dealt with the request, so that as many may be under way. */
export function serviceTook(outcome: Outcome): boolean {
  return outcome instanceof Response && !TOO_MUCH.includes(outcome.status);
}

/** Waits so many seconds; rejects with the signal's reason when it is aborted before. */
export function sleep(seconds: number, signal: AbortSignal | undefined): Promise<void> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => {
      forget();
      resolve();
    }, seconds * 1000);
    const forget = onAbort(signal, (reason) => {
      clearTimeout(timer);
      reject(reason);
    });
  });
}
