/** A terminal sends Ctrl-C to every program in it, and some hand it on: what follows this soon is the same one. */
const SAME_MS = 1000;

/** Waits for Ctrl-C (or SIGTERM, or a closed terminal); a second one ends the process at once. */
export function stopSignal(): { signal: AbortSignal; asked: Promise<void> } {
  const abort = new AbortController();
  let firstMs = 0;
  const asked = new Promise<void>((resolve) => {
    abort.signal.addEventListener("abort", () => resolve(), { once: true });
  });
  for (const name of ["SIGINT", "SIGTERM", "SIGHUP"] as const) {
    process.on(name, () => {
      if (!abort.signal.aborted) {
        firstMs = Date.now();
        abort.abort(new Error("asked to stop"));
      } else if (Date.now() - firstMs > SAME_MS) process.exit(130);
    });
  }
  return { signal: abort.signal, asked };
}
