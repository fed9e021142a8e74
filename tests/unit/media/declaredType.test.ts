import { describe, expect, it } from "vitest";
import { falsePromise } from "@/lib/server/media/declaredType";
import type { FormatName } from "@/lib/server/media/formats";

describe("what a file is declared as", () => {
  it.each<[string, string | null, FormatName]>([
    ["song.wav", "audio/wav", "wav"],
    ["SONG.WAV", "audio/x-wav", "wav"],
    ["song.aif", "audio/x-aiff", "aiff"],
    ["song.mp3", "audio/mpeg", "mp3"],
    ["song.ogg", "audio/ogg; codecs=opus", "opus"],
    ["song.opus", "audio/ogg", "opus"],
    ["song.ogg", "video/ogg", "ogg-vorbis"],
    ["song.m4a", "audio/x-m4a", "mp4"],
    ["song", null, "flac"],
    ["song.take2", "application/octet-stream", "flac"],
    ["song.flac", "audio/who-knows", "flac"],
  ])("%s (%s) may be %s", (fileName, mediaType, found) => {
    expect(falsePromise({ fileName, mediaType }, found)).toBeNull();
  });

  it.each<[string, string | null, FormatName, string]>([
    ["song.mp3", "audio/mpeg", "wav", "MP3"],
    ["song.wav", null, "flac", "WAV"],
    ["song.ogg", null, "mp3", "Ogg Vorbis"],
    ["song", "audio/flac", "mp3", "FLAC"],
    ["song.flac", "audio/mpeg", "flac", "MP3"],
    ["notes.txt", "text/plain", "wav", "text"],
    ["song", "image/png", "wav", "image/png"],
  ])("%s (%s) may not be %s", (fileName, mediaType, found, words) => {
    expect(falsePromise({ fileName, mediaType }, found)).toBe(words);
  });
});
