/**
 * The wire of `/sync/:songId`, a WebSocket.
 *
 * Messages are those of y-protocols (varUint type, then payload): 0 sync, 1 awareness, 2 auth, 3 query awareness,
 * and two of our own, both from the hub only:
 *
 *   100 SAVED     varUint8Array: a Yjs state vector. Everything it covers is committed to the database.
 *   101 HEARING   varString: JSON of a HearingStatus (lib/contracts/books.ts), sent on joining and on every
 *                 change of a run.
 *
 * A listener's updates are dropped by the hub (sync step 2 and update messages are ignored).
 */
export const MESSAGE_SAVED = 100;
export const MESSAGE_HEARING = 101;

/** Close codes. A client stops for good on 44xx and tries again on 45xx. */
export const CLOSE = {
  notSignedIn: 4401,
  notFound: 4404,
  tooBig: 4413,
  badMessage: 4422,
  leavingBook: 4403,
  serverStopping: 4503,
  notSaved: 4500,
} as const;

export const SYNC_PATH = "/sync";

/** What each person shows the others; travels as y-protocols awareness state. */
export interface Presence {
  user: { id: string; name: string };
  /** Where they are on the time axis, and what they have selected. */
  cursor: { timeSec: number; lane: "changes" | "part" | "record"; recordId: string | null } | null;
  playing: boolean;
}
