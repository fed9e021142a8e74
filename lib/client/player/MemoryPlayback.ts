import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Seconds } from "@/lib/units/quantities";
import type { Pace } from "../playback/Deck";
import type {
  Loop,
  LoopManner,
  PlaybackAnswer,
  PlaybackCommand,
  PlaybackMessage,
  PlaybackReport,
} from "../playback/playbackMessages";
import type { Playback, PlaybackEvents, Sounding } from "./Playback";

/** Reports that are remembered: some come before they are heard. */
const REPORTS_KEPT = 64;

/** What of an audio context is needed: what it sends out now is heard after its latency. */
export type HeardClock = Pick<AudioContext, "currentTime" | "outputLatency">;

/** Plays a record from memory: the audio thread's player from the page's side. */
export class MemoryPlayback implements Playback {
  readonly isExact = true;
  private number = 0;
  private reports: PlaybackReport[] = [];
  private isPlaying = false;
  /** Where it was sent, until the audio thread says that it is there. */
  private sentSec: Seconds | null = 0;
  private sentNumber = 0;
  private loop: Loop | null = null;
  private manner: LoopManner | null = null;

  /** @param port to the audio thread, which has the record */
  constructor(
    private readonly port: Pick<MessagePort, "postMessage" | "onmessage">,
    private readonly clock: HeardClock,
    private readonly durationSec: Seconds,
    private readonly events: PlaybackEvents,
  ) {
    port.onmessage = ({ data }: MessageEvent<PlaybackAnswer>) => {
      if (data.kind === "report") this.hear(data.report);
    };
  }

  get timeSec(): Seconds {
    if (this.sentSec !== null) return this.sentSec;
    const heardAtSec = this.clock.currentTime - (this.clock.outputLatency || 0);
    const report = this.reports.findLast(({ atSec }) => atSec <= heardAtSec) ?? this.reports[0];
    return report ? this.secAt(report, heardAtSec) : 0;
  }

  get isPaused(): boolean {
    return !this.isPlaying;
  }

  get isRunning(): boolean {
    return this.sentSec === null && this.isPlaying && this.reports.at(-1)?.isSounding === true;
  }

  sounding(): Sounding {
    const last = this.reports.at(-1);
    if (!last) return { sec: this.sentSec ?? 0, atSec: this.clock.currentTime, speed: 1 };
    const { sec, atSec, speed } = last;
    return { sec, atSec, speed };
  }

  async play(isCountedIn: boolean): Promise<void> {
    const sec = this.timeSec >= this.durationSec ? 0 : this.timeSec;
    this.isPlaying = true;
    this.send(sec, { kind: "play", sec, isCountedIn });
    this.events.began();
  }

  pause(): void {
    if (!this.isPlaying) return;
    this.isPlaying = false;
    // It stands where it was last heard, not where it was sent out.
    const sec = this.timeSec;
    this.send(sec, { kind: "pause", sec });
    this.events.stopped();
  }

  seek(timeSec: Seconds): void {
    const sec = Math.min(Math.max(0, timeSec), this.durationSec);
    this.send(sec, { kind: "seek", sec });
    this.events.moved();
  }

  setPace(pace: Pace): void {
    this.command({ kind: "pace", pace });
  }

  setLoop(loop: Loop | null, timesThrough: number): void {
    this.loop = loop;
    this.command({ kind: "loop", loop, timesThrough });
  }

  setManner(manner: LoopManner): void {
    this.manner = manner;
    this.command({ kind: "manner", manner });
  }

  setBeats(beats: BeatGrid | null): void {
    this.command({ kind: "beats", beats });
  }

  setClicking(isOn: boolean): void {
    this.command({ kind: "clicks", isOn });
  }

  look(): void {}

  close(): void {
    this.port.onmessage = null;
    this.port.postMessage({ kind: "close" } satisfies PlaybackMessage);
  }

  private command(command: PlaybackCommand): void {
    this.number += 1;
    this.port.postMessage({ kind: "command", number: this.number, command } satisfies PlaybackMessage);
  }

  private send(sec: Seconds, command: PlaybackCommand): void {
    this.command(command);
    this.sentSec = sec;
    this.sentNumber = this.number;
    this.reports = [];
  }

  private hear(report: PlaybackReport): void {
    // What was told before it knew where it was sent says nothing any more.
    if (report.number < this.sentNumber) return;
    this.sentSec = null;
    const before = this.reports.at(-1);
    this.reports.push(report);
    if (this.reports.length > REPORTS_KEPT) this.reports.shift();
    if (before && report.timesThrough > before.timesThrough)
      this.events.turned(report.timesThrough, report.speed);
    this.events.passed();
    if (report.isEnded && this.isPlaying) {
      this.isPlaying = false;
      // It stands at its end, however long the last of it takes to the ears.
      this.reports = [report];
      this.events.ended();
    }
  }

  /** Where the record is at a time, from a report; round the loop where it went round since. */
  private secAt({ sec, atSec, isSounding, speed }: PlaybackReport, heardAtSec: Seconds): Seconds {
    const { loop, manner } = this;
    // What has not come to the ears yet stands at its beginning.
    if (!isSounding || heardAtSec <= atSec) return sec;
    const onSec = sec + (heardAtSec - atSec) * speed;
    if (!loop || sec >= loop.endSec || onSec < loop.endSec) return Math.min(onSec, this.durationSec);
    const beginSec = Math.max(0, loop.startSec - (manner?.preRollSec ?? 0));
    return beginSec + ((onSec - loop.endSec) % (loop.endSec - beginSec));
  }
}
