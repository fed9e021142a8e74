import { readFileSync } from "node:fs";

/** Newer Node than the oldest we run on has this. */
interface WithThreadCpu {
  threadCpuUsage?: () => { user: number; system: number };
}

/**
 * Seconds of work done so far by the thread that asks, whatever else the machine does: from Node where it tells,
 * else from Linux (proc_pid_schedstat: time on the processor in nanoseconds).
 * @returns null where neither tells
 */
export function threadCpuSec(): number | null {
  const usage = (process as WithThreadCpu).threadCpuUsage?.();
  if (usage) return (usage.user + usage.system) / 1e6;
  try {
    return Number(readFileSync("/proc/thread-self/schedstat", "utf8").split(" ")[0]) / 1e9;
  } catch {
    return null;
  }
}
