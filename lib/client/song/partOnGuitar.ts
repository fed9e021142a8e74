import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { fretOn } from "@/lib/instrument/frets";
import { effectMap } from "@/lib/instrument/mapByEffect";
import { allStages } from "@/lib/instrument/stages";

/** Why an event does not fit a guitar. */
export interface EventFlag {
  /** The event as it is written. */
  written: ShownPart;
  /** One sentence a reason; at least one. */
  reasons: readonly string[];
}

/** A part as it is read on one guitar. */
export interface PartOnGuitar {
  /**
   * In the same order and under the same ids. A flagged event keeps what of it this guitar has, so that it can be drawn and
   * reckoned with; what it sounds like there is not what was written.
   */
  part: ShownPart[];
  /** By id of the event. */
  flags: ReadonlyMap<string, EventFlag>;
}

/** Where an event is played instead. */
export type PlacesInstead = ReadonlyMap<
  string,
  Pick<ShownPart, "strings" | "fret" | "frets" | "changes" | "articulation">
>;

/** A part on the guitar that it was written for. What fits is the very same object. */
export function partAsWritten(part: readonly ShownPart[], on: Copedent): PartOnGuitar {
  const reader = readerOf(on);
  return read(
    part,
    (event) => {
      const reasons = reader.faultsOf(event);
      return reasons.length === 0 ? event : { written: event, reasons };
    },
    reader.keepKnown,
  );
}

/** What of a part its instrument can play; the very same list where that is all of it. */
export function playableOn(part: readonly ShownPart[], on: Copedent): readonly ShownPart[] {
  const { flags } = partAsWritten(part, on);
  return flags.size === 0 ? part : part.filter(({ id }) => !flags.has(id));
}

/**
 * A part on another guitar: every event under the pedals and levers that sound the same there, on the strings that match.
 * @param instead places of events that cannot be carried over so
 */
export function partOnGuitar(
  part: readonly ShownPart[],
  from: Copedent,
  to: Copedent,
  instead: PlacesInstead = new Map(),
): PartOnGuitar {
  const reader = readerOf(from);
  const translate = effectMap(from, to);
  return read(
    part,
    (event) => {
      const reasons = reader.faultsOf(event);
      if (reasons.length > 0) return { written: event, reasons };
      const mapped = translate(event);
      if (mapped.kind === "mapped") return { ...event, ...inOrder(mapped.stopped) };
      const place = instead.get(event.id);
      if (place) return { ...event, ...place };
      return { written: event, reasons: mapped.reasons.map(({ why }) => why) };
    },
    readerOf(to).keepKnown,
  );
}

function read(
  part: readonly ShownPart[],
  onGuitar: (event: ShownPart) => ShownPart | EventFlag,
  keepKnown: (event: ShownPart) => ShownPart,
): PartOnGuitar {
  const flags = new Map<string, EventFlag>();
  const shown = part.map((event) => {
    const read = onGuitar(event);
    if (!("reasons" in read)) return read;
    flags.set(event.id, read);
    return keepKnown(event);
  });
  return { part: shown, flags };
}

function readerOf(copedent: Copedent) {
  const strings = copedent.strings.map(({ number }) => number);
  const stages = allStages(copedent).map(({ id }) => id);
  return {
    faultsOf(event: ShownPart): string[] {
      const unknown = event.changes.filter((id) => !stages.includes(id));
      const missing = event.strings.filter((string) => !strings.includes(string));
      const reasons = [
        ...unknown.map((id) => `${id} is no pedal or lever of ${copedent.name}.`),
        ...missing.map((string) => `${copedent.name} has no string ${string}.`),
      ];
      if (reasons.length > 0) return reasons;
      return stoppedPitches(copedent, event).flatMap((midi, at) => {
        const string = event.strings[at];
        if (midi !== null) return [];
        return [
          `String ${string} gives no dependable pitch on ${copedent.name}${event.changes.length > 0 ? ` with ${event.changes.join(", ")}` : ` at fret ${event.fret}`}.`,
        ];
      });
    },
    /** What of an event can be drawn here; its first string stands where it has none of them. */
    keepKnown(event: ShownPart): ShownPart {
      const kept = event.strings.filter((string) => strings.includes(string));
      return {
        ...event,
        strings: kept.length > 0 ? kept : strings.slice(0, 1),
        frets: event.frets && kept.length > 0 ? kept.map((string) => fretOn(event, string)) : null,
        changes: event.changes.filter((id) => stages.includes(id)),
      };
    },
  };
}

/** Strings as parts have them, ascending, each with its fret. */
function inOrder(stopped: {
  strings: readonly number[];
  fret: number;
  frets?: readonly number[] | null;
  changes: readonly string[];
}): Pick<ShownPart, "strings" | "fret" | "frets" | "changes"> {
  const strings = [...stopped.strings].sort((a, b) => a - b);
  const frets = stopped.frets ? strings.map((string) => fretOn(stopped, string)) : null;
  return { strings, fret: stopped.fret, frets, changes: [...stopped.changes] };
}
