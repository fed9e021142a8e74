/** Seconds of computing that this process has taken, in all its threads. */
export function cpuSec(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
