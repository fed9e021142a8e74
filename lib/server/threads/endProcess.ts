/** Ends a program that a thread left running; one that has ended by itself is as good. */
export function endProcess(pid: number): void {
  try {
    process.kill(pid, "SIGKILL");
  } catch {
    // It has ended by itself.
  }
}
