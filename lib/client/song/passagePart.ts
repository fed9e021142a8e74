import type { PartEventFields } from "@/lib/document/commands/part";
import { fretOn, fretsOf, settleFrets } from "@/lib/instrument/frets";
import type { Place } from "@/lib/places/Place";
import type { Seconds } from "@/lib/units/quantities";
import { type HeldEvent, soundingArticulation } from "./partTyping";
import type { Moment, PassageNote } from "./passageMoments";

/** Strings of one stroke that stop this near to each other stop together. */
const STOPPED_TOGETHER_SEC: Seconds = 0.12;
/** No event is shorter. */
const SHORTEST_EVENT_SEC: Seconds = 0.05;

/** A moment with the place that was chosen for it; `sounding` says which of its notes the place's strings sound. */
export interface PlacedMoment {
  moment: Moment;
  /** Null where its notes cannot be played. */
  place: (Place & { sounding: readonly number[] }) | null;
  /** Whether it stands in the part already. */
  isWritten: boolean;
}

/** One string that an event of the part begins on. */
interface Begun {
  string: number;
  endSec: Seconds;
}

/**
 * The events of the part that placed moments come to: a pick for each stroke, and for each glide a slide, a press or
 * a release of all that sounds then. Strings of a stroke that stop apart stand in events of their own, since an event
 * ends whole (rule D14 of the shared song).
 * @param notes the passage that the moments' `voices` count in
 * @returns in order of time
 */
export function passagePart(
  placed: readonly PlacedMoment[],
  notes: readonly PassageNote[],
): PartEventFields[] {
  const playable = placed.filter(
    (each): each is PlacedMoment & { place: NonNullable<PlacedMoment["place"]> } => each.place !== null,
  );
  const strings = playable.map(({ moment, place }) => {
    const sounding = place.sounding.map((note, at) => [moment.voices[note]!, place.strings[at]!] as const);
    return new Map(sounding.filter(([voice]) => voice >= 0));
  });
  const listed = playable.map(({ moment, isWritten }, at) => {
    const { soundsOn = [], voices } = moment;
    const here = strings[at]!;
    const stays = (voice: number) => here.get(voice) === strings[at - 1]?.get(voice);
    const sounding = voices.flatMap((voice, note) =>
      here.has(voice) ? [{ voice, link: soundsOn[note] }] : [],
    );
    const moved = sounding.filter(({ voice, link }) => link?.glides && stays(voice));
    const picked = sounding.filter(({ voice, link }) => !link || (link.glides && !stays(voice)));
    const held = moved.length > 0 ? sounding.filter(({ link }) => link && !link.glides) : [];
    if (isWritten) return { picked: [], moved: [], all: sounding.map(({ voice }) => voice) };
    return {
      picked: picked.map(({ voice }) => voice),
      moved: [...moved, ...held].map(({ voice }) => voice),
      all: [...picked, ...moved, ...held].map(({ voice }) => voice),
    };
  });

  return playable.flatMap(({ moment, place }, at) => {
    const { startSec } = moment;
    const changes = [...place.changes];
    const begin = (voices: readonly number[]) =>
      voices.map((voice): Begun => ({ string: strings[at]!.get(voice)!, endSec: endOf(voice, at) }));
    const event = (begun: readonly Begun[], articulation: PartEventFields["articulation"]) =>
      byEnd(begun).map((group): PartEventFields => {
        const endSec = Math.max(startSec + SHORTEST_EVENT_SEC, ...group.map((each) => each.endSec));
        const on = group.map(({ string }) => string).sort((a, b) => a - b);
        const held = settleFrets(on.map((string) => fretOn(place, string)));
        return { startSec, endSec, strings: on, ...held, changes, articulation };
      });
    const { picked, moved } = listed[at]!;
    const before = playable[at - 1]?.place;
    const way = soundingArticulation(before ? heldAt(before) : null, heldAt(place));
    return [...event(begin(picked), "pick"), ...event(begin(moved), way)];
  });

  /** Until it is written again, is stopped for what comes, or ends by itself. */
  function endOf(voice: number, at: number): Seconds {
    const endSec = notes[voice]!.endSec;
    for (let next = at + 1; next < playable.length; next += 1) {
      const { startSec, voices } = playable[next]!.moment;
      if (listed[next]!.all.includes(voice)) return startSec;
      if (voices.includes(voice) && !strings[next]!.has(voice)) return Math.min(endSec, startSec);
      if (startSec >= endSec) break;
    }
    return endSec;
  }
}

function heldAt({ strings, changes, ...place }: Place): HeldEvent {
  const held = settleFrets(fretsOf({ ...place, strings }));
  return { ...held, strings: [...strings], changes: [...changes] };
}

/** Strings by when they stop, those that stop about together in one. */
function byEnd(begun: readonly Begun[]): Begun[][] {
  const groups: Begun[][] = [];
  for (const each of [...begun].sort((a, b) => a.endSec - b.endSec)) {
    const last = groups.at(-1);
    if (last && each.endSec - last[0]!.endSec <= STOPPED_TOGETHER_SEC) last.push(each);
    else groups.push([each]);
  }
  return groups;
}
