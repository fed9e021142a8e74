import type { Player } from "./Player";

/**
 * Waits until the record plays from memory, where it does so to the sample, or never will.
 * @throws the signal's reason where that ended it
 */
export async function untilInMemory(
  player: Pick<Player, "now" | "watch">,
  signal: AbortSignal,
): Promise<void> {
  signal.throwIfAborted();
  const isDecided = () => ["ready", "failed"].includes(player.now().memory.kind);
  if (isDecided()) return;
  await new Promise<void>((resolve, reject) => {
    const end = () => {
      stop();
      signal.removeEventListener("abort", onAbort);
    };
    const onAbort = () => {
      end();
      reject(signal.reason);
    };
    const stop = player.watch(() => {
      if (!isDecided()) return;
      end();
      resolve();
    });
    signal.addEventListener("abort", onAbort);
  });
}
