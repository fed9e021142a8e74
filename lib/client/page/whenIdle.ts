/** Runs something when the page has had some time for itself and has nothing else to do; answers with how not to. */
export function whenIdle(run: () => void, afterMs: number): () => void {
  let idle = 0;
  const timer = setTimeout(() => {
    if ("requestIdleCallback" in window) idle = window.requestIdleCallback(run);
    else run();
  }, afterMs);
  return () => {
    clearTimeout(timer);
    if (idle !== 0) window.cancelIdleCallback(idle);
  };
}
