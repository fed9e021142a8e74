import type { Copedent } from "../Copedent";

/**
 * The ten-string E9 pedal steel with three floor pedals in A-B-C order and the usual knee levers.
 *
 * Strings: note names b0b.com/wp/copedents/understanding-e9th (B. Lee) and guitarlicks.net
 * pedal-steel-guitar-basics; octaves steelguitaramerica.com/instruction/tuning. Pedals: the same two.
 * Levers: F, E, G guitarlicks.net; D with its second stage steelc6th.com (D. Stewart 2015); V henrysenior.co.uk;
 * X howcast.com lesson 512259. Letters and places differ from player to player; these letters are a local choice
 * and ids mean the effect. X and G are both described at the right knee's left throw; X has it here, and G stands
 * at the right vertical lever (place of G: from memory).
 *
 * Splits (a raise and a lower at once on one string give their sum): string 6, X with B, howcast.com lesson
 * 512264; string 5, V with A, the same lesson and b0b.com/tunings/baucum.htm (L. Baucum 1997); string 10 follows
 * string 5, its octave, as calculated from the tuning. A split is adjusted on the single guitar, never certain.
 *
 * Rest of the foot: pedalsteel.com tea/ank/ankle.html. Grips: dmajor7.com/pedal-steel-guitar-chord-chart.
 */
export const E9: Copedent = {
  id: "e9",
  name: "E9, ten strings, three pedals and six levers",
  source:
    "b0b.com (B. Lee), guitarlicks.net, steelguitaramerica.com, steelc6th.com (D. Stewart), howcast.com",
  stoppedBy: "bar",
  strings: [
    { number: 1, openMidi: 66 },
    { number: 2, openMidi: 63 },
    { number: 3, openMidi: 68 },
    { number: 4, openMidi: 64 },
    { number: 5, openMidi: 59 },
    { number: 6, openMidi: 56 },
    { number: 7, openMidi: 54 },
    { number: 8, openMidi: 52 },
    { number: 9, openMidi: 50 },
    { number: 10, openMidi: 47 },
  ],
  changes: [
    { id: "A", label: "A pedal", slot: { kind: "pedal", place: 1 }, stages: [{ 5: 2, 10: 2 }] },
    { id: "B", label: "B pedal", slot: { kind: "pedal", place: 2 }, stages: [{ 3: 1, 6: 1 }] },
    { id: "C", label: "C pedal", slot: { kind: "pedal", place: 3 }, stages: [{ 4: 2, 5: 2 }] },
    {
      id: "F",
      label: "E-raise lever",
      slot: { kind: "knee", knee: "left", throw: "left" },
      stages: [{ 4: 1, 8: 1 }],
    },
    {
      id: "E",
      label: "E-lower lever",
      slot: { kind: "knee", knee: "left", throw: "right" },
      stages: [{ 4: -1, 8: -1 }],
    },
    {
      id: "V",
      label: "B-lower lever",
      slot: { kind: "knee", knee: "left", throw: "up" },
      stages: [{ 5: -1, 10: -1 }],
    },
    {
      id: "D",
      label: "second-string lower lever",
      slot: { kind: "knee", knee: "right", throw: "right" },
      stages: [{ 2: -1 }, { 2: -2, 9: -1 }],
    },
    {
      id: "X",
      label: "sixth-string lower lever",
      slot: { kind: "knee", knee: "right", throw: "left" },
      stages: [{ 6: -2 }],
    },
    {
      id: "G",
      label: "F-sharp raise lever",
      slot: { kind: "knee", knee: "right", throw: "up" },
      stages: [{ 1: 1, 7: 1 }],
    },
  ],
  splits: [5, 6, 10],
  combinations: [],
  footRest: [1, 2],
  grips: [
    [3, 4, 5],
    [4, 5, 6],
    [5, 6, 8],
    [6, 8, 10],
  ],
  fretCount: 24,
};
