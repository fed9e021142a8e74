import { stepSnap } from "@/lib/client/axis/snap";
import { inTime, isOfRecord, isOfSteel, type ListedNote } from "@/lib/client/song/heardList";
import { handful } from "@/lib/client/song/noteWords";
import { MOST_NOTES } from "@/lib/client/song/wantedPitches";
import { giveToSteel, setNoteRole } from "@/lib/document/commands/noteRoles";
import { addNote, editNote, inkNotes, rubOutNote } from "@/lib/document/commands/notes";
import type { HeardGlide } from "@/lib/hearing/Hearing";
import { midiToName } from "@/lib/theory/spelling";
import { midiToPitchClass, nearestPitch } from "@/lib/units/pitch";
import type { Seconds, Semitones } from "@/lib/units/quantities";
import { alongActs } from "./alongActs";
import type { Desk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { hearAlone, hearInRecord } from "./hearNotes";
import { pitchClassTyped } from "./pitchClassTyped";
import { chordAt, keyAt, selectedHeard, selectedSpan } from "./selection";

/** Where a note is written that has no neighbour to be near to: about the middle of a steel's strings. */
const USUAL_MIDI = 66;
/** A move that is written by hand: what pedals do most, at about the speed of a foot (common practice, no source). */
const NEW_MOVE = { semitones: 2, durationSec: 0.15 };

/** The acts on the selected heard note, the steel's or the band's; each does nothing where none is selected. */
export function noteActs(desk: Desk) {
  const { opened, selection, select, grid, player, handToBench, say } = desk;
  const { song } = opened;
  const { notes } = song;
  const { run } = opened.acts;
  const note = selectedHeard(song, selection);
  const chosen = note ?? chosenOfBand(desk);
  const choose = (one: ListedNote) =>
    select(isOfRecord(one) ? { kind: "note", id: one.id } : { kind: "band", note: one });
  const isListed = chosen !== null && desk.heardList.includes(chosen);
  const list = chosen && !isListed ? inTime(desk.heardList, [chosen]) : desk.heardList;
  const along = alongActs(desk, { list, chosen, select: choose }, { ink: inkNotes, rubOut: rubOutNote });
  /** What is picked together with it, of the same player, as far as one hand goes. */
  const together = chosen
    ? handful(
        list.filter((each) => isOfSteel(each) === isOfSteel(chosen)),
        chosen,
        MOST_NOTES,
      )
    : [];

  /** All of its way, glides too. */
  function shift(semitones: Semitones) {
    if (!note || semitones === 0) return;
    const glides = note.glides.map((glide) => ({ ...glide, toMidi: glide.toMidi + semitones }));
    run((ctx) => editNote(ctx, note.id, { midi: note.midi + semitones, glides }));
  }

  /** Says whose it is, the other's than it was. */
  function turnOver() {
    if (note) {
      run((ctx) => setNoteRole(ctx, [note.id], isOfSteel(note) ? "band" : "steel"));
    } else if (chosen) {
      const { startSec, endSec, midi, glides } = chosen;
      const ids = run((ctx) => giveToSteel(ctx, { startSec, endSec, midi, glides }));
      if (ids?.[0]) select({ kind: "note", id: ids[0] });
    }
  }

  return {
    ...along,
    note,
    chosen,
    together,
    shift,
    turnOver,
    /** What is the band's only is inked as the steel's. */
    ink() {
      if (chosen && !note) turnOver();
      else along.ink();
    },
    rubOut() {
      if (chosen && !note)
        say("The band's notes stay with what was heard. Only what stands in the song is rubbed out.");
      else along.rubOut();
    },
    /** Selects the first that begins at a time or after it, else the last. @returns whether there is one */
    chooseAt(timeSec: Seconds): boolean {
      const one = list.find((each) => each.startSec > timeSec - 0.02) ?? list.at(-1) ?? null;
      along.choose(one);
      return one !== null;
    },
    /** Moves its start or its end to the next place that times snap to. */
    moveEdge(edge: "start" | "end", direction: -1 | 1) {
      if (!note) return;
      const fromSec = edge === "start" ? note.startSec : note.endSec;
      const toSec = stepSnap(grid, desk.snap.now().snap, fromSec, direction);
      const keptSec = Math.min(toSec, player.durationSec);
      run((ctx) => editNote(ctx, note.id, edge === "start" ? { startSec: keptSec } : { endSec: keptSec }));
    },
    /** Takes a number of home or a letter, in the octave nearest to where it was. @returns whether it was one */
    type(typed: string): boolean {
      const pitchClass = note && pitchClassTyped(desk, typed, note.startSec);
      if (!note || pitchClass === null) return false;
      if (pitchClass === "unseen") return true;
      shift(nearestPitch(pitchClass, Math.round(note.midi)) - note.midi);
      return true;
    },
    /** Says of one of its moves what made it, or where it goes. */
    editGlide(at: number, fields: Partial<HeardGlide>) {
      if (!note) return;
      const glides = note.glides.map((glide, each) => (each === at ? { ...glide, ...fields } : glide));
      run((ctx) => editNote(ctx, note.id, { glides }));
    },
    /** Writes a move at the playhead, up a whole step until it is told otherwise. */
    addGlide() {
      if (!note) return;
      const atSec = player.timeSec;
      if (atSec <= note.startSec || atSec >= note.endSec) {
        say("Put the playhead to where it moves, between the start and the end of the note.");
        return;
      }
      const earlier = note.glides.filter((glide) => glide.atSec <= atSec);
      const later = note.glides.slice(earlier.length);
      const toMidi = (earlier.at(-1)?.toMidi ?? note.midi) + NEW_MOVE.semitones;
      const glide: HeardGlide = { kind: "unsure", toMidi, atSec, durationSec: NEW_MOVE.durationSec };
      run((ctx) => editNote(ctx, note.id, { glides: [...earlier, glide, ...later] }));
    },
    /** Takes one of its moves away: it stays where it was until the next. */
    dropGlide(at: number) {
      if (note)
        run((ctx) => editNote(ctx, note.id, { glides: note.glides.filter((_, each) => each !== at) }));
    },
    /** Writes a note over the selected span: the root of the chord there, near the note before. */
    add() {
      const span = selectedSpan(song, selection, grid);
      if (!span || guessActs(desk).keepsFrom("heard", [span])) return;
      const near = Math.round(notes.findLast((each) => each.startSec < span.startSec)?.midi ?? USUAL_MIDI);
      const midi = nearestPitch(chordAt(song, span.startSec)?.rootPitchClass ?? midiToPitchClass(near), near);
      const { startSec, endSec } = span;
      const ids = run((ctx) => addNote(ctx, { startSec, endSec, midi, glides: [] }));
      if (ids?.[0]) select({ kind: "note", id: ids[0] });
    },
    /** Hands it, with what is picked together with it, to the bench, which shows where they lie. */
    toBench() {
      const first = together[0];
      if (!note || !first) return;
      const startSec = Math.min(...together.map((each) => each.startSec));
      const key = keyAt(song, startSec);
      const text = together.map(({ midi }) => midiToName(midi, key)).join(" ");
      handToBench({ text, startSec, notes: together });
    },
    /** Sounds it by itself, or with what is picked together with it. */
    hear(where: "alone" | "record", isTogether: boolean) {
      if (!chosen) return;
      const sounded = isTogether ? together : [chosen];
      if (where === "alone") hearAlone(desk, sounded);
      else hearInRecord(desk, sounded);
    },
  };
}

/** The selected note of the band, as the list now has it. */
function chosenOfBand({ selection, heardList }: Desk): ListedNote | null {
  if (selection?.kind !== "band") return null;
  return heardList.find(({ id }) => id === selection.note.id) ?? selection.note;
}
