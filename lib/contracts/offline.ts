/**
 * What a browser keeps so that songs open without the server, and under what names: written by the pages, read by the
 * service worker too. Songs lie in a cache of the person who opened them, the pages' own files in one of their build.
 */

/** Begins the name of a person's cache of songs; the person's id follows. */
export const KEPT_CACHES = "liftbook-kept/";

/** Begins the name of a build's cache of the pages' files; the build's id follows. */
export const BUILD_CACHES = "liftbook-build/";

/** Of a kept song's page: when it was last opened, in milliseconds since 1970. */
export const VISITED_HEADER = "x-liftbook-visited";

/** Where the start puts the service worker: at the root, since it answers for every page. */
export const WORKER_PATH = "/offline.js";

/** What the pages of one build consist of. */
export interface BuildFiles {
  id: string;
  /** Their names tell what is in them: they never change. */
  hashed: readonly string[];
  /** Under these names stands something else after the next build. */
  plain: readonly string[];
}
