import type { NoteMap } from "@/lib/hearing/learned/layout";
import { EAR_NOTE_MAPS, LOWEST_MIDI, SEMITONES } from "@/lib/hearing/learned/layout";
import { NoteMaps } from "@/lib/hearing/notes/NoteMaps";

/** A stretch of one map at one pitch: the values from a frame on. */
export interface Drawn {
  map: NoteMap;
  midi: number;
  frame: number;
  values: readonly number[];
}

/** Note maps of so many frames that hold what is drawn and 0 elsewhere; where drawings overlap the later one holds. */
export function drawnMaps(
  frames: number,
  drawn: readonly Drawn[],
  names: readonly NoteMap[] = EAR_NOTE_MAPS,
): NoteMaps {
  const maps = new NoteMaps(names, 0, frames);
  const step = names.length + 1;
  for (let index = 0; index < frames; index++) {
    const values = new Float32Array(SEMITONES * step);
    for (const { map, midi, frame, values: given } of drawn) {
      const value = given[index - frame];
      if (value !== undefined) values[(midi - LOWEST_MIDI) * step + names.indexOf(map)] = value;
    }
    maps.keep({ index, values, step });
  }
  return maps;
}

/** The same value, so many times. */
export function steady(value: number, frames: number): number[] {
  return new Array<number>(frames).fill(value);
}
