import type { Awareness } from "y-protocols/awareness";
import type { Presence } from "@/lib/contracts/sync";
import type { CoveredSong } from "@/lib/document/read/coverSong";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { GuessLane } from "@/lib/lesson/GuessValue";

/** Another page on the same song. The same person may have two. */
export interface Other extends Presence {
  clientId: number;
}

/**
 * The others on the page, in a fixed order; one's own other windows, and states that cannot be read, are left out.
 */
export function readOthers(awareness: Awareness, myId: string): Other[] {
  const others: Other[] = [];
  for (const [clientId, state] of awareness.getStates()) {
    if (clientId === awareness.clientID) continue;
    const presence = readPresence(state);
    if (presence && presence.user.id !== myId) others.push({ ...presence, clientId });
  }
  return others.sort((a, b) => a.clientId - b.clientId);
}

type PageLane = NonNullable<Presence["cursor"]>["lane"];

/** In which covered lane what is done in a lane of the page lies; none of them for the record, the sections and what is asked. */
const LANE_OF: { readonly [L in PageLane]?: GuessLane } = {
  changes: "changes",
  bass: "changes",
  notes: "heard",
  part: "places",
};

/**
 * The others without where they are, as far as that lies under a cover or they hold what is covered: it would tell that
 * something stands there, and where.
 */
export function othersSeen(others: readonly Other[], { song, stretches }: CoveredSong): readonly Other[] {
  return others.map((other) => {
    const { cursor } = other;
    const lane = cursor && LANE_OF[cursor.lane];
    const covers = lane ? stretches[lane] : [];
    if (!cursor || covers.length === 0) return other;
    const { timeSec, recordId } = cursor;
    const isUnder = covers.some(({ startSec, endSec }) => timeSec >= startSec && timeSec < endSec);
    const isUnseen = recordId !== null && !seenIn(song, cursor.lane).some(({ id }) => id === recordId);
    return isUnder || isUnseen ? { ...other, cursor: null } : other;
  });
}

function seenIn(song: SongSnapshot, lane: PageLane): readonly { id: string }[] {
  const { changes, bass, notes, bandNotes, parts, sections } = song;
  switch (lane) {
    case "changes":
      return changes;
    case "bass":
      return bass;
    case "notes":
      return [...notes, ...bandNotes];
    case "part":
      return parts.flatMap(({ events }) => events);
    default:
      return sections;
  }
}

function readPresence(state: unknown): Presence | null {
  if (typeof state !== "object" || state === null) return null;
  const { user, cursor, playing } = state as Partial<Presence>;
  if (typeof user?.id !== "string" || typeof user.name !== "string") return null;
  const at = typeof cursor?.timeSec === "number" && Number.isFinite(cursor.timeSec) ? cursor : null;
  return { user: { id: user.id, name: user.name }, cursor: at, playing: playing === true };
}

/** First letters of a name, for a small round sign; the full name stands in its title. */
export function initials(name: string): string {
  const words = name.trim().split(/\s+/);
  return (
    words.length > 1 ? `${words[0]![0]}${words.at(-1)![0]}` : (words[0] ?? "?").slice(0, 1)
  ).toUpperCase();
}
