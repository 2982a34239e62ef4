// The client: where the service is, how many requests are under way, and how long a caller waits.
import createClient, { type Client as Http } from "openapi-fetch";
import { toJson } from "./body.js";
import { type Call, type CallOptions, perform } from "./call.js";
import { Calculations } from "./calculations.js";
import type { Reply } from "./errors.js";
import { Gate } from "./pace.js";
import type { components, paths } from "./schema.js";

/** What a client may be given. */
export interface ClientOptions {
  /** [s]. For each attempt; 60 by default. */
  readonly timeoutSeconds?: number | undefined;
  /** Attempts after the first; 3 by default. */
  readonly retries?: number | undefined;
  /** So many requests are under way at most, fewer when the service refuses some; 64 by default. */
  readonly concurrency?: number | undefined;
  /** Sent with every request, such as `X-API-Key`. */
  readonly headers?: Readonly<Record<string, string>> | undefined;
  /** In place of the platform's own. */
  readonly fetch?: ((request: Request) => Promise<Response>) | undefined;
}

/** Asks the service at `baseUrl`. Every method resolves with a reply, which has either `data` or an `error`; none
 * rejects. However many calls are made at once, no more requests are under way than the service takes. */
export class Client extends Calculations {
  protected readonly http: Http<paths>;
  readonly #gate: Gate;
  readonly #retries: number;
  readonly #timeoutSeconds: number;

  /** Throws a `RangeError` for numbers that make no sense, a `TypeError` for what is no address. */
  constructor(baseUrl: string, options: ClientOptions = {}) {
    super();
    const { timeoutSeconds = 60, retries = 3, concurrency = 64, headers, fetch } = options;
    if (!(timeoutSeconds > 0)) throw new RangeError("timeoutSeconds must be more than 0");
    if (!(Number.isInteger(retries) && retries >= 0)) throw new RangeError("retries must be 0 or more");
    if (!(Number.isInteger(concurrency) && concurrency >= 1)) throw new RangeError("concurrency must be 1 or more");
    this.http = createClient<paths>({
      baseUrl: address(baseUrl),
      bodySerializer: toJson,
      ...(headers && { headers }),
      ...(fetch && { fetch }),
    });
    this.#gate = new Gate(concurrency);
    this.#retries = retries;
    this.#timeoutSeconds = timeoutSeconds;
  }

  /** The calculations that the service offers. */
  calculations(options?: CallOptions): Promise<Reply<components["schemas"]["Catalogue"]>> {
    return this.#question(options, (sending) => this.http.GET("/v1/calculations", sending));
  }

  /** What the codes of findings, refusals and cautions mean, with remedies. */
  findings(options?: CallOptions): Promise<Reply<components["schemas"]["CodeCatalogue"]>> {
    return this.#question(options, (sending) => this.http.GET("/v1/findings", sending));
  }

  /** Every limit of the service, with value and unit. */
  limits(options?: CallOptions): Promise<Reply<components["schemas"]["Limits"]>> {
    return this.#question(options, (sending) => this.http.GET("/v1/limits", sending));
  }

  /** Whether the service can calculate now; an error of the kind `network` when it is not there at all. */
  async ready(options?: CallOptions): Promise<Reply<boolean>> {
    const reply = await this.#question(options, (sending) => this.http.GET("/health/ready", sending), 0);
    if (reply.error?.kind === "unavailable") return { data: false };
    return reply.error ? reply : { data: true };
  }

  protected ask<T>(accept: string, options: CallOptions | undefined, send: Call<T>["send"]): Promise<Reply<T>> {
    return perform(this.#call(accept, options, send, this.#retries), this.#gate);
  }

  // Questions about the service do not queue.
  #question<T>(options: CallOptions | undefined, send: Call<T>["send"], retries = this.#retries): Promise<Reply<T>> {
    return perform(this.#call("application/json", options, send, retries), new Gate(1));
  }

  #call<T>(accept: string, options: CallOptions | undefined, send: Call<T>["send"], retries: number): Call<T> {
    const timeoutSeconds = options?.timeoutSeconds ?? this.#timeoutSeconds;
    return { accept, send, retries, timeoutSeconds, signal: options?.signal };
  }
}

/** On a web page the address may be relative to it. */
function address(baseUrl: string): string {
  const url = new URL(baseUrl, typeof location === "undefined" ? undefined : location.href);
  if (url.protocol !== "http:" && url.protocol !== "https:") throw new TypeError(`${baseUrl} is not of http or https`);
  return url.href;
}
