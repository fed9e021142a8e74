import type { Awareness } from "y-protocols/awareness";
import type { Presence } from "@/lib/contracts/sync";
import { type CoveredSong, LANE_OF } from "@/lib/document/read/coverSong";
import { type CoveredKind, shownOf } from "@/lib/document/read/shownOf";

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

/** What lies in a lane of the page that can be covered: not so the record, the sections and what is asked. */
const KIND_OF: { readonly [L in PageLane]?: CoveredKind } = {
  changes: "change",
  bass: "bass",
  notes: "note",
  part: "part",
};

/**
 * The others without where they are, as far as that lies under a cover or they hold what is covered: it would tell that
 * something stands there, and where.
 */
export function othersSeen(others: readonly Other[], { song, stretches }: CoveredSong): readonly Other[] {
  return others.map((other) => {
    const { cursor } = other;
    const kind = cursor && KIND_OF[cursor.lane];
    const lane = kind && LANE_OF[kind];
    const covers = lane ? stretches[lane] : [];
    if (!kind || covers.length === 0) return other;
    const { timeSec, recordId } = cursor;
    const isUnder = covers.some(({ startSec, endSec }) => timeSec >= startSec && timeSec < endSec);
    const isUnseen = recordId !== null && !shownOf(kind, song).some(({ id }) => id === recordId);
    return isUnder || isUnseen ? { ...other, cursor: null } : other;
  });
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
