import { WORKER_PATH } from "@/lib/contracts/offline";

/**
 * Has the browser start the service worker, where it has any (at https addresses and on the machine itself). Pages that are built as they are
 * asked for do without: their files change under the same names, so a worker of an earlier start goes too.
 */
export async function registerWorker(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  if (process.env.NODE_ENV === "production") {
    await navigator.serviceWorker.register(WORKER_PATH, { updateViaCache: "none" });
    return;
  }
  for (const registered of await navigator.serviceWorker.getRegistrations()) await registered.unregister();
}
