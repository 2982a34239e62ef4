// What is sent: JSON without numbers that JSON cannot carry, or the file of a plan.
import type { FieldError } from "./errors.js";

/** The body holds infinite or undefined numbers, which JSON would turn into null. */
export class NotFinite extends Error {
  constructor(readonly errors: readonly FieldError[]) {
    super("The request was not sent: it holds numbers that are not finite");
  }
}

/** The request as JSON; throws `NotFinite` with the place of each number that JSON cannot carry. */
export function toJson(body: unknown): string {
  const pointers = [...notFinite(body, "")];
  if (pointers.length > 0) {
    const detail = "must be a finite number";
    throw new NotFinite(pointers.map((pointer) => ({ pointer, code: "not_finite", detail })));
  }
  return JSON.stringify(body);
}

function* notFinite(value: unknown, pointer: string): Generator<string> {
  if (typeof value === "number" && !Number.isFinite(value)) yield pointer;
  if (typeof value !== "object" || value === null) return;
  for (const [key, member] of Object.entries(value)) {
    yield* notFinite(member, `${pointer}/${key.replaceAll("~", "~0").replaceAll("/", "~1")}`);
  }
}

/** XML begins with a bracket, whatever its encoding; everything else is taken for a drawing. */
export async function planType(file: Blob): Promise<"application/xml" | "image/vnd.dxf"> {
  const start = new TextDecoder("latin1").decode(await file.slice(0, 64).arrayBuffer());
  return /^[\u00ef\u00bb\u00bf\u00ff\u00fe\0\s]*</.test(start) ? "application/xml" : "image/vnd.dxf";
}
