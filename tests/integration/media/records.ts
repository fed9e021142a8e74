import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll } from "vitest";
import { MediaError } from "@/lib/server/media/MediaError";

export const TONES = path.resolve("tests/fixtures/audio");
export const tone = (name: string) => path.join(TONES, name);
export const toneBytes = async (name: string) => new Uint8Array(await readFile(tone(name)));

/** Writes bytes to a fresh file and gives its path; all are gone after the tests of the file. */
export function scratch(): (name: string, bytes: Uint8Array) => Promise<string> {
  let folder: Promise<string> | null = null;
  let count = 0;
  afterAll(async () => {
    if (folder) await rm(await folder, { recursive: true, force: true });
  });
  return async (name, bytes) => {
    folder ??= mkdtemp(path.join(tmpdir(), "liftbook-media-"));
    count += 1;
    const file = path.join(await folder, `${count}-${name}`);
    await writeFile(file, bytes);
    return file;
  };
}

/** The code that a promise is refused with; "none" where it is not. */
export async function refusal(promise: Promise<unknown>): Promise<string> {
  try {
    await promise;
  } catch (fault) {
    if (fault instanceof MediaError) return fault.code;
    throw fault;
  }
  return "none";
}

/** Amplitude of a sine of that frequency in the samples (one bin of a discrete Fourier transform). */
export function amplitudeAt(samples: Float32Array, frequencyHz: number, sampleRateHz: number): number {
  let real = 0;
  let imaginary = 0;
  for (let i = 0; i < samples.length; i++) {
    const angle = (2 * Math.PI * frequencyHz * i) / sampleRateHz;
    real += samples[i]! * Math.cos(angle);
    imaginary += samples[i]! * Math.sin(angle);
  }
  return (2 * Math.hypot(real, imaginary)) / samples.length;
}
