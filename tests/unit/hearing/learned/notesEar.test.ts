import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Signal } from "@/lib/dsp/Signal";
import type { StereoSignal } from "@/lib/dsp/StereoSignal";
import { HEARING_VERSION, hearingVersion } from "@/lib/hearing/hear";
import { loadNotesEar, NOTES_EAR } from "@/lib/hearing/learned/loadNotesEar";
import { loadWeights, type WeightsManifest } from "@/lib/hearing/learned/loadWeights";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { NotesNetwork } from "@/lib/hearing/learned/NotesNetwork";
import { NoteMaps } from "@/lib/hearing/notes/NoteMaps";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { addTones, RATE_HZ, silence } from "../band";
import { handMadeNotesEar } from "./handMadeNotesEar";
import { plainNotesNetwork } from "./plainNotesNetwork";

vi.setConfig({ testTimeout: 60_000 });

const SMALL = handMadeNotesEar(8, 16);
const FRAMES = 40;
const WIDTH = 4 * 288;
const OFFSET = 3;

/** Features that look like sound: lines that come and go, and a balance that turns from one side to the other. */
const features = Float32Array.from({ length: FRAMES * WIDTH }, (_, at) => {
  const [frame, bank, bin] = [Math.floor(at / WIDTH), Math.floor(at / 288) % 4, at % 288];
  if (bank === 3) return Math.sin(0.3 * bin + 0.1 * frame);
  const line = bin % 19 === 4 ? 1.2 * Math.sin(0.2 * frame + bin) ** 2 : 0;
  return 0.1 + line + 0.1 * Math.sin(0.7 * at) ** 2;
});

/** What the network says of every frame, map by map: raw outputs are compared as what is told of them. */
function said(rowsAtOnce: number, rounded?: boolean): number[] {
  const maps: number[] = new Array(8 * FRAMES * 96);
  const weights = loadWeights(NOTES_EAR, SMALL);
  const network = new NotesNetwork(
    weights,
    true,
    ({ index, values, step }) => {
      for (let map = 0; map < 8; map++)
        for (let s = 0; s < 96; s++) maps[(map * FRAMES + index) * 96 + s] = values[s * step + map]!;
    },
    rowsAtOnce,
    rounded,
  );
  for (let frame = 0; frame < FRAMES; frame += rowsAtOnce) {
    const rows = Math.min(rowsAtOnce, FRAMES - frame);
    network.push(features.subarray(frame * WIDTH, (frame + rows) * WIDTH), rows);
  }
  network.finish();
  return maps;
}

function stereoSound(): { left: Float32Array; right: Float32Array } {
  const notes = (midis: readonly number[]) =>
    midis.map((midi, i) => ({ startSec: 0.3 * i, endSec: 0.3 * i + 0.8, midi, level: 0.2 }));
  return {
    left: addTones(silence(1.5), notes([52, 64, 71])),
    right: addTones(silence(1.5), notes([59, 67, 40])),
  };
}

function midSide(left: Float32Array, right: Float32Array): StereoSignal {
  return {
    signal: Signal.of(
      left.map((value, i) => (value + right[i]!) / 2),
      RATE_HZ,
    ),
    side: Signal.of(
      left.map((value, i) => (value - right[i]!) / 2),
      RATE_HZ,
    ),
  };
}

function heardBy(ear: NotesEar, sound: StereoSignal, rowsAtOnce?: number): Float32Array[] {
  const frames: Float32Array[] = [];
  ear.listen(
    sound,
    ({ index, values }) => {
      expect(index).toBe(frames.length);
      frames.push(values.slice());
    },
    undefined,
    rowsAtOnce,
  );
  return frames;
}

describe("the network of the notes ear", () => {
  it("says what plain loops over its weights say, edges included", () => {
    const found = said(16, false);
    const wanted = plainNotesNetwork(SMALL, features, FRAMES).flatMap((rows, map) =>
      rows.flat().map((value) => (map === OFFSET ? 0.6 * Math.tanh(value) : 1 / (1 + Math.exp(-value)))),
    );
    expect(found).toHaveLength(wanted.length);
    const apart = found.map((value, i) => Math.abs(value - wanted[i]!));
    expect(apart.reduce((most, value) => Math.max(most, value), 0)).toBeLessThan(1e-4);
    // Every map says something.
    for (let map = 0; map < 8; map++) {
      const values = wanted.slice(map * FRAMES * 96, (map + 1) * FRAMES * 96);
      const [least, most] = [
        values.reduce((a, b) => Math.min(a, b)),
        values.reduce((a, b) => Math.max(a, b)),
      ];
      expect(most - least).toBeGreaterThan(0.1);
    }
  });

  it("says nearly the same with numbers of 16 bits, as the notes ear does", () => {
    const exact = said(16, false);
    const rounded = said(16);
    const apart = rounded.map((value, i) => Math.abs(value - exact[i]!));
    const most = apart.reduce((a, b) => Math.max(a, b));
    // These weights, of chance, let errors grow more than trained ones do.
    expect(most).toBeLessThan(3e-3);
    expect(most).toBeGreaterThan(0);
  });

  it("says the same however many frames come at once", () => {
    for (const rounded of [false, true]) {
      const whole = said(FRAMES, rounded);
      for (const rowsAtOnce of [1, 7, 32]) expect(said(rowsAtOnce, rounded)).toEqual(whole);
    }
  });

  it("takes no more frames at once than it was made for", () => {
    const network = new NotesNetwork(loadWeights(NOTES_EAR, SMALL), true, () => {}, 4);
    expect(() => network.push(features, 5)).toThrow(/At most 4 frames/);
  });
});

describe("the notes ear", () => {
  const ear = loadNotesEar(SMALL);

  it("hears the side: what it says of stereo is not what it says of mono", () => {
    const { left, right } = stereoSound();
    const sound = midSide(left, right);
    const stereo = heardBy(ear, sound);
    expect(heardBy(ear, { ...sound, side: null })).not.toEqual(stereo);
    expect(heardBy(ear, midSide(right, left))).not.toEqual(stereo);
    expect(heardBy(ear, midSide(left, right))).toEqual(stereo);
  });

  it("hears two channels that are alike as one", () => {
    const { left } = stereoSound();
    expect(heardBy(ear, midSide(left, left))).toEqual(
      heardBy(ear, { signal: Signal.of(left, RATE_HZ), side: null }),
    );
  });

  it("says the same however many frames it hears at once", () => {
    const { left, right } = stereoSound();
    const sound = midSide(left, right);
    expect(heardBy(ear, sound, 5)).toEqual(heardBy(ear, sound));
  });

  it("tells of pedals, which the maps give back", () => {
    const { left, right } = stereoSound();
    const frames = heardBy(ear, midSide(left, right));
    const maps = new NoteMaps(ear.noteMaps, 0, frames.length);
    frames.forEach((values, index) => {
      maps.keep({ index, values, step: 8 });
    });
    expect(maps.pedalAt(20, 40)).toBe(frames[20]![40 * 8 + 7]);
    expect(maps.pedalAt(20, 40)).toBeGreaterThan(0);
  });
});

describe("the weights of the notes ear", () => {
  const refused = (changed: Partial<WeightsManifest>, bytes = SMALL.bytes) =>
    expect(() => loadNotesEar({ manifest: { ...SMALL.manifest, ...changed } as WeightsManifest, bytes }));
  const reshaped = (name: string, shape: number[]) =>
    SMALL.manifest.tensors.map((tensor) => (tensor.name === name ? { ...tensor, shape } : tensor));

  it("are refused where they are not whole", () => {
    refused({}, SMALL.bytes.subarray(1)).toThrow(/weights of the notes ear are \d+ bytes long, not \d+/);
    refused({ formatVersion: 2 }).toThrow(/of format 2, not 1/);
  });

  it("are refused where they belong to another network", () => {
    refused({ format: "ear-weights" }).toThrow(/"format" is "ear-weights", not "notes-ear-weights"/);
    refused({ sideShifts: [0, 36] }).toThrow(/"sideShifts" is \[0,36\], not \[0,36,57,72\]/);
    refused({ noteOutputs: ["onset", "bass"] }).toThrow(/the note maps are "onset, bass"/);
    refused({ size: { channels: 8, expanded: 24 } }).toThrow(
      /"block0.expand.weight" is 16 by 8, not 24 by 8/,
    );
    refused({ tensors: reshaped("global.in.weight", [8, 8]) }).toThrow(
      /"global.in.weight" is 8 by 8, not 4 by 8/,
    );
    refused({ tensors: SMALL.manifest.tensors.slice(0, -1) }).toThrow(/"note.out.bias" is missing, not 8/);
  });
});

describe("the ears of an installation", () => {
  let folder: string;
  beforeEach(async () => {
    folder = await mkdtemp(path.join(tmpdir(), "ears-"));
    for (const name of ["ear.json", "ear.bin"]) {
      await cp(path.join("lib/hearing/learned/weights", name), path.join(folder, name));
    }
  });
  afterEach(() => rm(folder, { recursive: true }));

  async function install(): Promise<void> {
    await writeFile(path.join(folder, "notes-ear.json"), JSON.stringify(SMALL.manifest));
    await writeFile(path.join(folder, "notes-ear.bin"), SMALL.bytes);
  }

  it("are both named in what is heard", async () => {
    await install();
    const ears = await readLearnedEars(folder);
    expect(ears.notesEar!.noteMaps.at(-1)).toBe("pedal");
    expect(hearingVersion(ears)).toBe(
      `${HEARING_VERSION}+${ears.ear!.version}+notes-ear-${SMALL.manifest.sha256.slice(0, 8)}`,
    );
  });

  it("are one where there is none for notes: the ear hears them, and no pedals", async () => {
    const ears = await readLearnedEars(folder);
    expect(hearingVersion(ears)).toBe(`${HEARING_VERSION}+${ears.ear!.version}`);
    expect(ears.notesEar!.noteMaps).toEqual(ears.ear!.noteMaps);
    const maps = new NoteMaps(ears.notesEar!.noteMaps, 0, 4);
    expect(maps.pedalAt(1, 40)).toBeNull();
    expect(maps.at("pedal", 1, 40)).toBe(0);
  });

  it("are none where no weights are installed", async () => {
    await rm(path.join(folder, "ear.bin"));
    const ears = await readLearnedEars(folder);
    expect(ears).toEqual({ ear: null, notesEar: null });
    expect(hearingVersion(ears)).toBe(HEARING_VERSION);
  });

  it("are refused where one byte is not as it was", async () => {
    await install();
    const file = path.join(folder, "notes-ear.bin");
    const bytes = await readFile(file);
    bytes[1000]! ^= 1;
    await writeFile(file, bytes);
    await expect(readLearnedEars(folder)).rejects.toThrow(/are damaged: their checksum/);
  });

  it("are refused where one stands in the other's place", async () => {
    for (const end of ["json", "bin"]) {
      await cp(path.join(folder, `ear.${end}`), path.join(folder, `notes-ear.${end}`));
    }
    await expect(readLearnedEars(folder)).rejects.toThrow(/notes ear belong to another network: "format"/);
  });
});
