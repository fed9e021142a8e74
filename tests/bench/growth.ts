import { execFile } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { promisify } from "node:util";
import { findFfmpeg } from "@/lib/server/media/findFfmpeg";
import { writeLong } from "./longRecord";

const run = promisify(execFile);

export interface Growth {
  what: string;
  minutes: number;
  cpuSec: number;
  growthMb: number;
}

/** Hears records of 1, 5 and 20 minutes, each in a fresh process, as WAV and, where ffmpeg can write it, as MP3. */
export async function timeGrowth(channels: readonly Float32Array[], sampleRateHz: number): Promise<Growth[]> {
  const folder = await mkdtemp(path.join(tmpdir(), "liftbook-bench-"));
  const ffmpeg = await findFfmpeg("ffmpeg");
  const found: Growth[] = [];
  try {
    for (const minutes of [1, 5, 20]) {
      const wav = path.join(folder, `${minutes}.wav`);
      await writeLong(wav, channels, sampleRateHz, minutes);
      const files = [{ what: "WAV", file: wav }];
      if (ffmpeg) {
        const mp3 = path.join(folder, `${minutes}.mp3`);
        await run(ffmpeg, ["-v", "error", "-i", wav, "-b:a", "192k", mp3]);
        files.push({ what: "MP3", file: mp3 });
      }
      for (const { what, file } of files) {
        const child = path.join(import.meta.dirname, "hearingProcess.ts");
        const { stdout } = await run(process.execPath, ["--import", "tsx", child, file]);
        const { cpuSec, growthMb } = JSON.parse(stdout.trim()) as { cpuSec: number; growthMb: number };
        found.push({ what, minutes, cpuSec, growthMb });
        await rm(file);
        await rm(`${file}.ear`);
      }
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
  return found;
}
