/**
 * Renders the repository's own annotated recordings anew: `npx tsx tests/quality/own/makeOwnSet.ts`. Needs ffmpeg,
 * for Ogg Vorbis. What it writes is committed, so this runs only when the songs change.
 */
import { execFileSync } from "node:child_process";
import { rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { wavBlocks, wavHeader } from "@/lib/server/media/wavFile";
import { BAND_RATE_HZ, renderSong } from "./band";
import { OWN_SONGS, type OwnSong } from "./songs";

const FOLDER = path.resolve(import.meta.dirname, "../../fixtures/quality");

function writeSong(song: OwnSong): Record<string, unknown> {
  const { samples, beats, chords, durationSec } = renderSong(song);
  const file = (ending: string) => path.join(FOLDER, `${song.id}${ending}`);
  writeFileSync(
    file(".wav"),
    Buffer.concat([wavHeader(1, BAND_RATE_HZ, 16, samples.length), ...wavBlocks([samples], 16)]),
  );
  const encoder = ["-c:a", "libvorbis", "-q:a", "0", "-fflags", "+bitexact", "-flags:a", "+bitexact"];
  execFileSync("ffmpeg", ["-v", "error", "-y", "-i", file(".wav"), ...encoder, file(".ogg")]);
  rmSync(file(".wav"));
  const lines = (rows: (string | number)[][]) => `${rows.map((row) => row.join("\t")).join("\n")}\n`;
  writeFileSync(
    file(".lab"),
    lines(chords.map((c) => [c.startSec.toFixed(4), c.endSec.toFixed(4), c.label])),
  );
  writeFileSync(file(".beats.txt"), lines(beats.map(({ timeSec, inBar }) => [timeSec.toFixed(4), inBar])));
  let fromBar = 0;
  const barSec = (bar: number) => beats[bar * song.beatsPerBar]?.timeSec ?? durationSec;
  const homes = song.homes.map(({ tonic, mode, bars }) => {
    const start = fromBar === 0 ? 0 : barSec(fromBar);
    fromBar += bars;
    return { start, end: barSec(fromBar), tonic, mode };
  });
  const [first] = song.homes;
  return {
    id: song.id,
    group: song.group,
    audio: `${song.id}.ogg`,
    durationSec,
    // A song of two homes has no one key.
    tasks: ["tuning", ...(homes.length === 1 ? ["key"] : []), "homes", "beats", "chords"],
    tuningCents: song.tuningCents,
    key: homes.length === 1 ? { tonic: first!.tonic, mode: first!.mode } : null,
    homes,
    tempoBpm: song.bpm,
    beats: `${song.id}.beats.txt`,
    chords: `${song.id}.lab`,
  };
}

const manifest = { licence: "Own work of this project, CC0", items: OWN_SONGS.map(writeSong) };
writeFileSync(path.join(FOLDER, "manifest.json"), `${JSON.stringify(manifest, null, 2)}\n`);
