import { describe, expect, it } from "vitest";
import { readMidiMessage } from "@/lib/client/entry/midiMessage";

/** Rows of the MIDI 1.0 specification's table of status bytes ("Summary of MIDI messages"); n is the channel. */
describe("a MIDI message about keys", () => {
  it("1001nnnn 0kkkkkkk 0vvvvvvv: note on, of any channel; 60 is middle C", () => {
    expect(readMidiMessage([0x90, 60, 100])).toEqual({ kind: "down", channel: 0, midi: 60 });
    for (let channel = 0; channel < 16; channel += 1)
      expect(readMidiMessage([0x90 | channel, 127, 1])).toEqual({ kind: "down", channel, midi: 127 });
  });

  it("1000nnnn 0kkkkkkk 0vvvvvvv: note off, whatever the velocity", () => {
    for (const velocity of [0, 64, 127])
      expect(readMidiMessage([0x8f, 0, velocity])).toEqual({ kind: "up", channel: 15, midi: 0 });
  });

  it("note on with velocity 0 is note off", () => {
    expect(readMidiMessage([0x93, 71, 0])).toEqual({ kind: "up", channel: 3, midi: 71 });
  });

  it.each([120, 123, 124, 125, 126, 127])("channel mode message %i lets all keys of its channel go", (c) => {
    expect(readMidiMessage([0xb2, c, 0])).toEqual({ kind: "allUp", channel: 2 });
  });

  it("11111111: a reset lets all keys go", () => {
    expect(readMidiMessage([0xff])).toEqual({ kind: "allUp", channel: null });
  });

  it.each([
    ["key pressure", [0xa0, 60, 30]],
    ["the sustain pedal", [0xb0, 64, 127]],
    ["reset all controllers", [0xb0, 121, 0]],
    ["local control", [0xb0, 122, 0]],
    ["program change", [0xc0, 5]],
    ["channel pressure", [0xd0, 90]],
    ["pitch wheel", [0xe0, 0, 64]],
    ["exclusive", [0xf0, 0x7e, 0x7f, 9, 1, 0xf7]],
    ["clock", [0xf8]],
    ["active sensing", [0xfe]],
  ])("%s says nothing of keys", (_, data) => {
    expect(readMidiMessage(data)).toBeNull();
  });

  it.each([[[]], [[0x90]], [[0x90, 60]], [[0x90, 200, 10]], [[60, 100, 0]], [[0x90, 60, 0x90]]])(
    "what is broken off says nothing: %j",
    (data) => {
      expect(readMidiMessage(data)).toBeNull();
    },
  );

  it("is read from the bytes that a browser hands over", () => {
    expect(readMidiMessage(new Uint8Array([0x95, 64, 1]))).toEqual({ kind: "down", channel: 5, midi: 64 });
  });
});
