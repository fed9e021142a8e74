/**
 * The service worker: lets a song that was opened before open again without the server. The start bundles it into one file
 * that names the files of its build (lib/cli/start/bundleOffline.ts). It takes over only when no page of the build before is
 * open any more (Service Workers, "Activate"), so that no page is given files of another build.
 */
import type { BuildFiles } from "@/lib/contracts/offline";
import { OfflineAnswers } from "./OfflineAnswers";

/** Put in by the bundler. */
declare const LIFTBOOK_BUILD: BuildFiles;

/** What of a ServiceWorkerGlobalScope is used (Service Workers, "The ServiceWorkerGlobalScope interface"). */
interface WorkerEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface RequestEvent extends WorkerEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface WorkerScope {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  addEventListener(kind: "install" | "activate", listener: (event: WorkerEvent) => void): void;
  addEventListener(kind: "fetch", listener: (event: RequestEvent) => void): void;
}

const scope = globalThis as unknown as WorkerScope;
const answers = new OfflineAnswers(LIFTBOOK_BUILD, scope.location.origin, caches, (request, init) =>
  fetch(request, init),
);

scope.addEventListener("install", (event) => event.waitUntil(answers.keepBuild()));
scope.addEventListener("activate", (event) =>
  event.waitUntil(answers.forgetOtherBuilds().then(() => scope.clients.claim())),
);
scope.addEventListener("fetch", (event) => {
  const answer = answers.answer(event.request);
  if (answer) event.respondWith(answer);
});
