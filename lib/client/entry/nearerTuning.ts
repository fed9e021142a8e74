import type { Cents, Midi } from "@/lib/units/quantities";

/** Pitches by their names, and how far they stand from these. */
export interface NamedPitches {
  midis: Midi[];
  /** For each of them. */
  offCents: Cents[];
}

/**
 * Names pitches as they were measured. Who plays along with a record may be tuned to it or to A440: they are named in
 * the tuning in which they stand nearer to names, all in the same.
 * @param tuningCents of the record
 */
export function nearerTuning(measured: readonly Midi[], tuningCents: Cents): NamedPitches {
  const inTuning = (cents: Cents): NamedPitches => {
    const pitches = measured.map((midi) => midi - cents / 100);
    const midis = pitches.map(Math.round);
    return { midis, offCents: pitches.map((pitch, at) => (pitch - midis[at]!) * 100) };
  };
  const off = ({ offCents }: NamedPitches) => offCents.reduce((sum, cents) => sum + Math.abs(cents), 0);
  const [concert, record] = [inTuning(0), inTuning(tuningCents)];
  return off(record) < off(concert) ? record : concert;
}
