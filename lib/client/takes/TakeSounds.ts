import { api } from "@/lib/contracts/api";
import { PeakMaker } from "@/lib/contracts/PeakMaker";
import { encodePeaks } from "@/lib/contracts/peaks";
import { fetchPeaks } from "../record/fetchPeaks";
import { RecordPeaks } from "../record/RecordPeaks";
import { errorOf, reach } from "../requests/request";
import { readWav, type TakeSamples } from "./readWav";

/** So many takes are held as samples: ten minutes of one channel are 115 MB. */
const MOST_HELD = 3;

/** The sounds of a song's takes and their waveforms, fetched as they are wanted. */
export class TakeSounds {
  private readonly held = new Map<string, Promise<TakeSamples>>();
  private readonly peaks = new Map<string, Promise<RecordPeaks | null>>();
  private readonly scope = new AbortController();

  /** @param soundHere the sound of a take that the server does not have yet */
  constructor(
    private readonly songId: string,
    private readonly soundHere: (id: string) => Blob | null,
  ) {}

  /** The file as it was recorded. @throws Error in words for people where it cannot be fetched */
  async file(id: string): Promise<Blob> {
    const here = this.soundHere(id);
    if (here) return here;
    const answer = await reach(
      api.takeSound(this.songId, id),
      { signal: this.scope.signal },
      "The sound of this take could not be fetched: the server was not reached. The take is kept there; try again.",
    );
    if (answer.status === 404)
      throw new Error("This take is not to be heard any more: it was removed, or is kept private again.");
    if (!answer.ok) throw errorOf(await answer.text(), answer.status);
    return answer.blob();
  }

  /** @throws Error in words for people where it cannot be fetched, or is damaged */
  samples(id: string): Promise<TakeSamples> {
    const held = this.held.get(id);
    if (held) {
      // Heard last, so it goes last.
      this.held.delete(id);
      this.held.set(id, held);
      return held;
    }
    const coming = this.file(id).then(async (file) => readWav(await file.arrayBuffer()));
    coming.catch(() => this.held.delete(id));
    this.held.set(id, coming);
    for (const oldest of this.held.keys()) {
      if (this.held.size <= MOST_HELD) break;
      this.held.delete(oldest);
    }
    return coming;
  }

  /** The waveform of a take, opened once. @returns null where it cannot be had now */
  peaksOf(id: string): Promise<RecordPeaks | null> {
    const opened = this.peaks.get(id);
    if (opened) return opened;
    const opening = this.openPeaks(id).catch(() => null);
    this.peaks.set(id, opening);
    // What did not come is asked for again when it is next looked at.
    void opening.then((peaks) => peaks ?? this.peaks.delete(id));
    return opening;
  }

  close(): void {
    this.scope.abort(new Error("closed"));
    for (const peaks of this.peaks.values()) void peaks.then((opened) => opened?.close());
    this.peaks.clear();
    this.held.clear();
  }

  private async openPeaks(id: string): Promise<RecordPeaks | null> {
    const { signal } = this.scope;
    if (!this.soundHere(id)) return RecordPeaks.open(fetchPeaks(api.takePeaks(this.songId, id)), signal);
    const { channels, sampleRateHz } = await this.samples(id);
    const maker = new PeakMaker();
    maker.begin(channels.length, sampleRateHz);
    maker.take(channels, channels[0]!.length);
    const bytes = encodePeaks(maker.finish());
    return RecordPeaks.open(async () => ({ atByte: 0, bytes }), signal);
  }
}
