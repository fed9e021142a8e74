/**
 * The wire of `/sync/:songId`, a WebSocket.
 *
 * Messages are those of y-protocols (varUint type, then payload): 0 sync, 1 awareness, 2 auth, 3 query awareness,
 * and three of our own, all from the hub only:
 *
 *   100 SAVED     varUint: how many messages that carry an update (sync step 2 or update) the hub has received on
 *                 this socket since it opened, and has committed to the database; then varUint: how many such
 *                 messages it has sent on this socket whose content is committed. Counts, not a state vector,
 *                 because a vector says nothing about deletions (Yjs keeps those in delete sets): an act made of
 *                 deletions alone would look saved before it is. Sent after every commit to everyone on the
 *                 song, and every few seconds as a sign of life.
 *   101 HEARING   varString: JSON of a HearingStatus (lib/contracts/books.ts), sent on joining and on every
 *                 change of a run.
 *   102 TAKES     nothing more: takes of the song that the person may hear have come, gone or changed, and are to be
 *                 asked for anew. A private take's goes to its owner's pages alone.
 *
 * A listener's updates are dropped by the hub; one that held anything new is not counted in SAVED, nor is any
 * after it, so that a page never calls saved what was dropped.
 */
export const MESSAGE_SAVED = 100;
export const MESSAGE_HEARING = 101;
export const MESSAGE_TAKES = 102;

/** The largest message a client may send, in bytes; a larger one closes the socket with {@link CLOSE}.tooBig. */
export const MAX_SYNC_MESSAGE_BYTES = 4 * 1024 * 1024;

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

/**
 * What each person shows the others; travels as y-protocols awareness state. The hub lets a socket set only the
 * first awareness id it names, fills in `user` from the session, and drops a state that claims to be another.
 */
export interface Presence {
  user: { id: string; name: string };
  /** Where they are on the time axis, and what they have selected. */
  cursor: {
    timeSec: number;
    lane: "sections" | "record" | "asked" | "changes" | "bass" | "notes" | "part";
    recordId: string | null;
    /** In which part, of the lane `part`; left out, as older pages do, in the first. */
    partId?: string | undefined;
  } | null;
  playing: boolean;
}
