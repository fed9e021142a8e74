import type { ShownChange } from "@/lib/document/read/SongSnapshot";
import type { Certainty, GlideKind } from "@/lib/hearing/Hearing";
import type { Glide } from "@/lib/places/glideActs";
import type { HeardEvent, SoundingOn } from "@/lib/places/HeardEvent";
import type { Midi, Seconds } from "@/lib/units/quantities";
import type { TracedNote } from "./noteTrace";
import { SAME_MOMENT_SEC } from "./sameMoment";
import { MOST_NOTES } from "./wantedPitches";

/** A heard note that is to be written into the part. */
export type PassageNote = TracedNote & { confidence: Certainty | null };

/** What is to be played at one moment: notes are picked or glide there, and others sound on beside them. */
export interface Moment extends HeardEvent {
  /** For each of `notesMidi` the note of the passage that it is, as an index; -1 where it is none of them. */
  voices: readonly number[];
}

/** Notes that begin this close together are one stroke, and a glide that begins with them is of one act with them. */
const TOGETHER_SEC: Seconds = 0.06;
/** Glides that begin this close together are one move of the hand, foot or knee (common practice, no source). */
const MOVED_TOGETHER_SEC: Seconds = 0.12;
/** A note that sounds this little into what comes next was stopped for it: ends are heard no closer than that. */
const RINGS_FROM_SEC: Seconds = 0.12;
/** More strings than this are not followed at once. */
const MOST_SOUNDING = 5;

/** A note's pick, or one of its glides. */
interface Act {
  timeSec: Seconds;
  voice: number;
  /** Whole, as it is on the neck. */
  midi: Midi;
  /** Null for the pick. */
  kind: GlideKind | null;
  /** How far it glides. */
  interval: number;
}

/**
 * Heard notes as what is played from moment to moment, for the search of places: strokes, glides, and what rings on
 * through them. Pitches are taken as the nearest of the even scale; glides that stay within one are none. Of more
 * notes in a stroke than a hand picks the surest are taken.
 * @param notes in any order
 * @param changes the chords in force
 * @returns in order of time; notes that are in none of the moments are left out of the part
 */
export function passageMoments(notes: readonly PassageNote[], changes: readonly ShownChange[]): Moment[] {
  const moments: Moment[] = [];
  const acts = notes.flatMap(actsOf).sort((a, b) => a.timeSec - b.timeSec);
  const groups = together(acts);
  groups.forEach((group, index) => {
    const { startSec } = group;
    const chordLabel = changes.find(
      (each) => each.startSec <= startSec + SAME_MOMENT_SEC && each.endSec > startSec + SAME_MOMENT_SEC,
    );
    const moment = momentOf(group.acts, startSec, moments.at(-1)?.voices ?? []);
    if (!moment) return;
    const untilSec = Math.max(startSec, ...moment.voices.map((voice) => notes[voice]!.endSec));
    const endSec = Math.min(untilSec, groups[index + 1]?.startSec ?? untilSec);
    moments.push({ ...moment, startSec, endSec, ...(chordLabel && { chordLabel: chordLabel.label }) });
  });
  return moments;

  function momentOf(group: readonly Act[], startSec: Seconds, before: readonly number[]) {
    const picks = group
      .filter(({ kind }) => kind === null)
      .sort((a, b) => sureness(b.voice) - sureness(a.voice))
      .slice(0, MOST_NOTES);
    const isKnown = ({ voice }: Act) => before.includes(voice);
    const glides = group.filter((act) => act.kind !== null && isKnown(act));
    if (picks.length + glides.length === 0) return null;
    const ringing = before
      .map((voice) => ({ voice, midi: pitchAt(voice, startSec), forSec: notes[voice]!.endSec - startSec }))
      .filter(({ voice, midi, forSec }) => {
        const isOther = group.every((act) => act.voice !== voice && act.midi !== midi);
        return isOther && (forSec >= RINGS_FROM_SEC || movesAfter(voice, startSec));
      })
      .sort((a, b) => b.forSec - a.forSec)
      .slice(0, Math.max(0, MOST_SOUNDING - picks.length - glides.length));
    const link = (voice: number, glides: boolean): SoundingOn => ({
      from: before.indexOf(voice),
      forSec: notes[voice]!.endSec - startSec,
      glides,
    });
    const glide = glideOf(glides, ringing.length);
    return {
      voices: [...picks, ...glides, ...ringing].map(({ voice }) => voice),
      notesMidi: [...picks, ...glides, ...ringing].map(({ midi }) => midi),
      soundsOn: [
        ...picks.map(() => null),
        ...glides.map(({ voice }) => link(voice, true)),
        ...ringing.map(({ voice }) => link(voice, false)),
      ],
      ...(glide && { glide }),
    };
  }

  function sureness(voice: number): Certainty {
    return notes[voice]!.confidence ?? 1;
  }

  function pitchAt(voice: number, timeSec: Seconds): Midi {
    return acts.findLast((act) => act.voice === voice && act.timeSec <= timeSec)?.midi ?? 0;
  }

  function movesAfter(voice: number, timeSec: Seconds): boolean {
    return acts.some((act) => act.voice === voice && act.timeSec > timeSec);
  }
}

/** A note's pick and then its glides to another key, each at its beginning. */
function actsOf({ startSec, endSec, midi, glides }: PassageNote, voice: number): Act[] {
  const acts: Act[] = [{ timeSec: startSec, voice, midi: Math.round(midi), kind: null, interval: 0 }];
  for (const { kind, toMidi, atSec, durationSec } of glides) {
    const before = acts.at(-1)!;
    const to = Math.round(toMidi);
    // Nearer to the pick, the two would be one event of the part.
    const timeSec = Math.max(before.timeSec + SAME_MOMENT_SEC, atSec - durationSec / 2);
    if (to === before.midi || timeSec > endSec - SAME_MOMENT_SEC) continue;
    acts.push({ timeSec, voice, midi: to, kind, interval: to - before.midi });
  }
  return acts;
}

/** Acts by the moment that they belong to; a note acts once in each. */
function together(acts: readonly Act[]): { startSec: Seconds; acts: Act[] }[] {
  const groups: { startSec: Seconds; acts: Act[] }[] = [];
  for (const act of acts) {
    const last = groups.at(-1);
    const isMove = act.kind !== null && last?.acts.every(({ kind }) => kind !== null);
    const reachSec = isMove ? MOVED_TOGETHER_SEC : TOGETHER_SEC;
    const belongs =
      last !== undefined &&
      act.timeSec - last.startSec <= reachSec &&
      last.acts.every(({ voice }) => voice !== act.voice);
    if (belongs) last.acts.push(act);
    else groups.push({ startSec: act.timeSec, acts: [act] });
  }
  return groups;
}

/**
 * What a glide says of hands and feet: what the ear or a person said made it, most notes first; where nobody could
 * tell, one voice against a held one is a pedal or lever, several alike are the bar, and one alone says nothing.
 */
function glideOf(glides: readonly Act[], heldCount: number): Glide | null {
  if (glides.length === 0) return null;
  const count = (kind: GlideKind) => glides.filter((each) => each.kind === kind).length;
  if (count("pedal") !== count("bar")) return count("pedal") > count("bar") ? "oblique" : "parallel";
  const isAlike = glides.every(({ interval }) => interval === glides[0]!.interval);
  if (heldCount > 0 || !isAlike) return "oblique";
  return glides.length > 1 ? "parallel" : null;
}
