import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { decodeHere } from "@/lib/server/media/decode";
import { IntakeReceiver } from "@/lib/server/media/IntakeReceiver";
import { type Played, playOwn } from "./own/playOwn";
import type { Source } from "./Subject";

const LIMITS = { maxDurationSec: 3_600, timeLimitSec: 600, ffmpeg: "ffmpeg" };

/** The file of a recording, or a song of our own, played. */
export function soundOf(source: Source): string | Played {
  return source.kind === "file" ? source.path : playOwn(source.song, source.damage);
}

/** What the ear takes of a sound: of a file, decoded, or of a song that has been played. */
export async function takeSound(sound: string | Played): Promise<RecordSignal> {
  const receiver = new IntakeReceiver();
  if (typeof sound === "string") await decodeHere(sound, { ...LIMITS, receiver });
  else {
    receiver.begin(sound.channels.length, sound.sampleRateHz);
    receiver.take(sound.channels, sound.channels[0]!.length);
  }
  return receiver.finish();
}
