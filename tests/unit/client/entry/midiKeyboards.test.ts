import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { MidiKeyboards } from "@/lib/client/entry/MidiKeyboards";
import { installFakeMidi } from "../../../fixtures/entry/fakeMidi";

let played: { midis: readonly number[]; why: string }[];
let keyboards: MidiKeyboards;

beforeEach(() => {
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("isSecureContext", true);
  installFakeMidi();
  played = [];
  keyboards = new MidiKeyboards((midis, why) => played.push({ midis, why }));
});
afterEach(() => {
  keyboards.close();
  vi.unstubAllGlobals();
});

describe("MIDI keyboards", () => {
  it("are asked for when they are wanted, and not before", async () => {
    expect(midi.askedCount).toBe(0);
    const opening = keyboards.open();
    expect(keyboards.now().state).toBe("asking");
    await opening;
    expect(midi.askedCount).toBe(1);
    expect(keyboards.now()).toEqual({ state: "listening", names: [], fault: null });
  });

  it("are heard, those that were there and those that come later, until they go", async () => {
    midi.plug("One");
    await keyboards.open();
    midi.send("One", 0x90, 60, 80);
    midi.plug("Two");
    expect(keyboards.now().names).toEqual(["One", "Two"]);
    midi.send("Two", 0x95, 64, 80);
    expect(played).toEqual([
      { midis: [60], why: "struck" },
      { midis: [60, 64], why: "struck" },
    ]);
    midi.unplug("One");
    expect(keyboards.now().names).toEqual(["Two"]);
    // What the first still held went with it; a little later, so that it was not struck together with the next.
    await new Promise((resolve) => setTimeout(resolve, 80));
    midi.send("Two", 0x95, 67, 80);
    expect(played.at(-1)?.midis).toEqual([64, 67]);
  });

  it("say nothing of clocks, pedals and keys let go", async () => {
    midi.plug("One");
    await keyboards.open();
    midi.send("One", 0x90, 60, 80);
    midi.send("One", 0xf8);
    midi.send("One", 0xb0, 64, 127);
    midi.send("One", 0x80, 60, 0);
    expect(played).toHaveLength(1);
  });

  it("are let go of when listening ends, and can be heard again, with nothing held from before", async () => {
    midi.plug("One");
    await keyboards.open();
    midi.send("One", 0x90, 60, 80);
    keyboards.close();
    await Promise.resolve();
    expect(midi.openPorts()).toEqual([]);
    midi.plug("Two");
    expect(keyboards.now()).toEqual({ state: "off", names: [], fault: null });
    await keyboards.open();
    expect(midi.openPorts()).toEqual(["One", "Two"]);
    midi.send("One", 0x90, 64, 80);
    expect(played.at(-1)?.midis).toEqual([64]);
  });

  it("stay unheard where leave comes after the page has turned to something else", async () => {
    midi.plug("One");
    const opening = keyboards.open();
    keyboards.close();
    await opening;
    expect(keyboards.now().state).toBe("off");
    expect(midi.openPorts()).toEqual([]);
  });

  it.each([
    ["NotAllowedError", /Allow it beside the address/],
    ["SecurityError", /Allow it beside the address/],
    ["InvalidStateError", /Plug it in anew/],
  ])("say in words why they are not heard: %s", async (name, words) => {
    midi.refusal = name;
    await keyboards.open();
    expect(keyboards.now().state).toBe("off");
    expect(keyboards.now().fault).toMatch(words);
    midi.refusal = null;
    await keyboards.open();
    expect(keyboards.now()).toMatchObject({ state: "listening", fault: null });
  });

  it("say so where the browser has none, or has them by https alone", async () => {
    vi.stubGlobal("navigator", {});
    await keyboards.open();
    expect(keyboards.now().fault).toMatch(/This browser cannot hear a MIDI keyboard.*typed meanwhile/);
    vi.stubGlobal("isSecureContext", false);
    await keyboards.open();
    expect(keyboards.now().fault).toMatch(/begins with https/);
  });

  it("name the one that another program holds, and go on hearing the others", async () => {
    midi.plug("Free");
    midi.areHeld = true;
    midi.plug("Taken");
    await keyboards.open();
    await vi.waitFor(() => expect(keyboards.now().fault).toMatch(/^Taken is held by another program/));
    midi.send("Free", 0x90, 60, 80);
    expect(played).toHaveLength(1);
  });

  it("are told as held no longer than they are: who plugs one in anew, as was said, hears it", async () => {
    await keyboards.open();
    midi.areHeld = true;
    midi.plug("Taken");
    await vi.waitFor(() => expect(keyboards.now().fault).toMatch(/^Taken is held by another program/));
    // Another that comes meanwhile takes nothing of that back.
    midi.areHeld = false;
    midi.plug("Free");
    await Promise.resolve();
    expect(keyboards.now().fault).toMatch(/^Taken is held by another program/);
    midi.unplug("Taken");
    midi.plug("Taken");
    expect(keyboards.now().fault).toBeNull();
    midi.send("Taken", 0x90, 60, 80);
    expect(played).toHaveLength(1);
  });
});
