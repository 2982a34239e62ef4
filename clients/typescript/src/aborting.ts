// One listener for each signal, however many calls share it: platforms warn of many.

type Act = (reason: unknown) => void;

const waiting = new WeakMap<AbortSignal, Set<Act>>();

/** Calls `act` when the signal is aborted, at once if it is already; gives back what calls that off. */
export function onAbort(signal: AbortSignal | undefined, act: Act): () => void {
  if (signal === undefined) return () => undefined;
  if (signal.aborted) {
    act(signal.reason);
    return () => undefined;
  }
  const acts = waiting.get(signal) ?? listen(signal);
  acts.add(act);
  return () => void acts.delete(act);
}

function listen(signal: AbortSignal): Set<Act> {
  const acts = new Set<Act>();
  waiting.set(signal, acts);
  signal.addEventListener("abort", () => [...acts].forEach((act) => act(signal.reason)), { once: true });
  return acts;
}
