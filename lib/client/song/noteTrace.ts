import type { HeardGlide } from "@/lib/hearing/Hearing";
import type { Midi, Seconds } from "@/lib/units/quantities";

/** What a trace is drawn from, and what can be heard of a note. */
export interface TracedNote {
  startSec: Seconds;
  endSec: Seconds;
  midi: Midi;
  glides: readonly HeardGlide[];
}

export interface TracePoint {
  timeSec: Seconds;
  midi: Midi;
}

/**
 * The way of a note's pitch as points in ascending time, straight lines between them: flat from the pick, sloping
 * where it glides, flat to the end. A glide that is cut off by the next or by the end goes no further than that.
 */
export function noteTrace({ startSec, endSec, midi, glides }: TracedNote): TracePoint[] {
  const points: TracePoint[] = [{ timeSec: startSec, midi }];
  let fromMidi = midi;
  let soFarSec = startSec;
  for (const { atSec, durationSec, toMidi } of glides) {
    const beginSec = Math.min(endSec, Math.max(soFarSec, atSec - durationSec / 2));
    const doneSec = Math.min(endSec, Math.max(beginSec, atSec + durationSec / 2));
    points.push({ timeSec: beginSec, midi: fromMidi }, { timeSec: doneSec, midi: toMidi });
    fromMidi = toMidi;
    soFarSec = doneSec;
  }
  points.push({ timeSec: endSec, midi: fromMidi });
  return points;
}

/** Where the pitch of a trace lies at a time; that of its nearer end outside it. */
export function traceMidiAt(trace: readonly TracePoint[], timeSec: Seconds): Midi {
  const next = trace.findIndex((point) => point.timeSec > timeSec);
  const to = trace[next];
  const from = trace[next - 1];
  if (!to) return trace.at(-1)?.midi ?? 0;
  if (!from) return to.midi;
  return from.midi + ((to.midi - from.midi) * (timeSec - from.timeSec)) / (to.timeSec - from.timeSec);
}
