import { midiToHertz } from "@/lib/units/pitch";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import { ENDINGS, type EndingName, type Pluck } from "./Pluck";
import { pitchAt, vibratoAfter, vibratoLeft } from "./pitchTrack";
import type { SongClock } from "./SongClock";
import { nextState, stateToSample } from "./seededNoise";
import type { StringTimbre } from "./timbres";

/** Samples between two looks at pitch and gain; in between both move in a straight line. */
const CHUNK = 32;
/** Samples over which the partials stand still before they die a little further. */
const STILL = 8;
/** Partials of the lowest string of any instrument, B0 at 31 Hz, up to 9.5 kHz. */
const MOST_PARTIALS = 308;
/** 100 dB below full level. */
const INAUDIBLE = 1e-5;
const SCRAPE_SEC: Seconds = 0.006;
const TURN = 2 * Math.PI;

/**
 * One string that sounds: picked, moved by bar and pedals, shaken, swelled, stopped. It is the same for a record that is
 * rendered at once and for the audio thread, where it gives the next few samples at a time, in whatever portions, and
 * allocates nothing.
 *
 * It is a sum of harmonic partials. At the start they stand as on an ideal string plucked at one point and heard at
 * another (N. H. Fletcher, T. D. Rossing, "The Physics of Musical Instruments", 2nd ed. 1998, section 2.7), then each dies
 * at its own rate, damping + airDamping * frequency^2 (after A. Chaigne, A. Askenfelt, JASA 95(2), 1994). All partials run
 * from one phase, so that the pitch may move freely while the string sounds; they are added up by Clenshaw's recurrence
 * (C. W. Clenshaw, Mathematical Tables and Other Aids to Computation 9(51), 1955), four samples side by side.
 *
 * A digital waveguide (M. Karjalainen, V. Välimäki, T. Tolonen, Computer Music Journal 22(3), 1998) would cost less for
 * each string, but its pitch is a delay in samples: a fractional delay filter for it (T. Laakso et al., IEEE Signal
 * Processing Magazine 13(1), 1996) detunes what its loop filter damps, and moving it while it sounds, which is what a steel
 * does most, changes level and tone. Here pitch and decay are what they are declared to be, and a second of a string
 * takes 2 to 6 ms of one core, the lowest most, which leaves room for all strings of a neck (`npm run -s bench -- voice`).
 */
export class StringVoice {
  private pluckNow: Pluck | null = null;
  private sounding = 0;
  private readonly amplitudes = new Float64Array(MOST_PARTIALS);
  private readonly decays = new Float64Array(MOST_PARTIALS);
  /** Decays once the string is being stopped; before, where each partial lies, in hertz. */
  private readonly stoppedDecays = new Float64Array(MOST_PARTIALS);
  private readonly phases = new Float64Array(CHUNK);
  /** Samples made and not given yet, from `given` on. */
  private readonly chunk = new Float64Array(CHUNK);
  private given = CHUNK;
  private startFrame = 0;
  /** Of the next chunk. */
  private frame = 0;
  private phase = 0;
  private hertz: Hertz = 0;
  private gain = 0;
  /** When it began to be stopped; infinite before. */
  private stopFrame = Number.POSITIVE_INFINITY;
  private stopFrames = 0;
  private vibratoFrame = Number.POSITIVE_INFINITY;
  private isOver = true;
  private scrapeState = 1;
  private scrapeMean = 0;

  constructor(private readonly sampleRateHz: Hertz) {}

  /** Whether anything of it is still to come. */
  get isSounding(): boolean {
    return this.pluckNow !== null;
  }

  /** Whether it is on its way to silence. */
  get isStopping(): boolean {
    return this.stopFrame !== Number.POSITIVE_INFINITY;
  }

  /** Picks the string. @param startFrame where its first sample goes */
  pick(timbre: StringTimbre, pluck: Pluck, startFrame: number, clock: SongClock): void {
    this.pluckNow = pluck;
    this.startFrame = startFrame;
    this.frame = startFrame;
    this.given = CHUNK;
    this.phase = 0;
    this.stopFrame = Number.POSITIVE_INFINITY;
    this.vibratoFrame = Number.POSITIVE_INFINITY;
    this.isOver = false;
    this.scrapeState = pluck.scrapeSeed >>> 0 || 1;
    this.scrapeMean = 0;
    this.placePartials(timbre, pluck);
    this.hertz = this.hertzAt(pluck, startFrame, clock);
    this.gain = this.gainAt(pluck, startFrame);
  }

  /** Stops it now, whatever was written of its end. Does nothing where it is being stopped already. */
  stop(ending: EndingName): void {
    if (this.pluckNow && !this.isStopping) this.beginStop(this.frame, ending);
  }

  /**
   * Adds the next samples.
   * @param firstFrame the frame of `out[offset]`; each call goes on where the one before ended
   */
  addTo(out: Float32Array, offset: number, firstFrame: number, count: number, clock: SongClock): void {
    let at = Math.max(0, this.startFrame - firstFrame);
    while (at < count && this.pluckNow) {
      if (this.given === CHUNK) {
        if (this.isOver) {
          this.pluckNow = null;
          return;
        }
        this.makeChunk(this.pluckNow, clock);
      }
      const portion = Math.min(CHUNK - this.given, count - at);
      for (let index = 0; index < portion; index += 1)
        out[offset + at + index]! += this.chunk[this.given + index]!;
      this.given += portion;
      at += portion;
    }
  }

  private placePartials(timbre: StringTimbre, { pitch, level, tuningCents }: Pluck): void {
    let lowest = Number.POSITIVE_INFINITY;
    let highest = Number.NEGATIVE_INFINITY;
    for (let index = 0; index < pitch.length; index += 1) {
      lowest = Math.min(lowest, pitch[index]!.midi);
      highest = Math.max(highest, pitch[index]!.midi);
    }
    const lowestHz = midiToHertz(lowest, tuningCents);
    const brightestHz = Math.min(timbre.brightestHz, 0.45 * this.sampleRateHz);
    const count = Math.floor(brightestHz / midiToHertz(highest, tuningCents));
    this.sounding = Math.min(MOST_PARTIALS, Math.max(1, count));
    let power = 0;
    for (let index = 0; index < this.sounding; index += 1) {
      const number = index + 1;
      const heard = timbre.pickupPosition === null ? 1 : Math.sin(number * Math.PI * timbre.pickupPosition);
      const amplitude = (Math.sin(number * Math.PI * timbre.pickPosition) * heard) / number ** timbre.slope;
      this.amplitudes[index] = amplitude;
      power += amplitude ** 2;
      const damping = timbre.damping + timbre.airDamping * (number * lowestHz) ** 2;
      this.decays[index] = damping;
      this.stoppedDecays[index] = number * lowestHz;
    }
    const scale = level / Math.sqrt(power || 1);
    for (let index = 0; index < this.sounding; index += 1) {
      this.amplitudes[index]! *= scale;
      this.decays[index] = Math.exp((-this.decays[index]! * STILL) / this.sampleRateHz);
    }
  }

  private hertzAt(pluck: Pluck, frame: number, clock: SongClock): Hertz {
    const sec = clock.secAt(frame);
    const { vibrato } = pluck;
    let shakeCents = 0;
    if (vibrato !== null && sec >= vibrato.startSec) {
      // The hand shakes by the ear's clock, however slowly the record runs.
      if (this.vibratoFrame === Number.POSITIVE_INFINITY)
        this.vibratoFrame = Math.min(frame, clock.frameAt(vibrato.startSec));
      shakeCents =
        vibratoAfter(vibrato, (frame - this.vibratoFrame) / this.sampleRateHz) * vibratoLeft(vibrato, sec);
    }
    return midiToHertz(pitchAt(pluck.pitch, sec), pluck.tuningCents + shakeCents);
  }

  private gainAt(pluck: Pluck, frame: number): number {
    const sinceSec = (frame - this.startFrame) / this.sampleRateHz;
    const attack =
      sinceSec >= pluck.attackSec ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * sinceSec) / pluck.attackSec);
    const opening = pluck.opening === 0 ? 1 : 1 + pluck.opening * Math.min(sinceSec / pluck.openingSec, 1);
    const stopped = frame > this.stopFrame ? Math.max(0, 1 - (frame - this.stopFrame) / this.stopFrames) : 1;
    return attack * opening * stopped;
  }

  private beginStop(frame: number, name: EndingName): void {
    const { silentAfterSec, damping, dampingPerHz } = ENDINGS[name];
    this.stopFrame = frame;
    this.stopFrames = silentAfterSec * this.sampleRateHz;
    for (let index = 0; index < this.sounding; index += 1) {
      const more = damping + dampingPerHz * this.stoppedDecays[index]!;
      this.stoppedDecays[index] = this.decays[index]! * Math.exp((-more * STILL) / this.sampleRateHz);
    }
  }

  private makeChunk(pluck: Pluck, clock: SongClock): void {
    const nextFrame = this.frame + CHUNK;
    if (!this.isStopping && clock.secAt(nextFrame) > pluck.endSec)
      this.beginStop(Math.max(this.frame, clock.frameAt(pluck.endSec)), pluck.ending);
    const nextHertz = this.hertzAt(pluck, nextFrame, clock);
    const nextGain = this.gainAt(pluck, nextFrame);
    this.turnPhases(nextHertz);
    // High partials die first; what has died is left out.
    while (this.sounding > 1 && Math.abs(this.amplitudes[this.sounding - 1]!) < INAUDIBLE) this.sounding -= 1;
    const decays = this.isStopping ? this.stoppedDecays : this.decays;
    for (let at = 0; at < CHUNK; at += STILL) {
      this.addUp(at);
      this.addUp(at + 4);
      for (let index = 0; index < this.sounding; index += 1) this.amplitudes[index]! *= decays[index]!;
    }
    const gainStep = (nextGain - this.gain) / CHUNK;
    for (let at = 0; at < CHUNK; at += 1) this.chunk[at]! *= this.gain + at * gainStep;
    this.scrape(pluck);
    this.frame = nextFrame;
    this.given = 0;
    this.hertz = nextHertz;
    this.gain = nextGain;
    this.isOver = this.isStopping && nextGain === 0 && nextFrame >= this.stopFrame + this.stopFrames;
  }

  /** The fundamental's phase at each sample of the chunk. */
  private turnPhases(nextHertz: Hertz): void {
    const turnOfHertz = TURN / this.sampleRateHz;
    const step = (nextHertz - this.hertz) / CHUNK;
    for (let at = 0; at < CHUNK; at += 1) {
      this.phases[at] = this.phase;
      this.phase += turnOfHertz * (this.hertz + at * step);
    }
    this.phase %= TURN;
  }

  /** Sums the partials for four samples: amplitudes[n - 1] * sin(n * phase), by Clenshaw's recurrence. */
  private addUp(at: number): void {
    const { amplitudes, phases, chunk } = this;
    const turn0 = 2 * Math.cos(phases[at]!);
    const turn1 = 2 * Math.cos(phases[at + 1]!);
    const turn2 = 2 * Math.cos(phases[at + 2]!);
    const turn3 = 2 * Math.cos(phases[at + 3]!);
    let now0 = 0;
    let last0 = 0;
    let now1 = 0;
    let last1 = 0;
    let now2 = 0;
    let last2 = 0;
    let now3 = 0;
    let last3 = 0;
    for (let index = this.sounding - 1; index >= 0; index -= 1) {
      const amplitude = amplitudes[index]!;
      const next0 = amplitude + turn0 * now0 - last0;
      last0 = now0;
      now0 = next0;
      const next1 = amplitude + turn1 * now1 - last1;
      last1 = now1;
      now1 = next1;
      const next2 = amplitude + turn2 * now2 - last2;
      last2 = now2;
      now2 = next2;
      const next3 = amplitude + turn3 * now3 - last3;
      last3 = now3;
      now3 = next3;
    }
    chunk[at] = now0 * Math.sin(phases[at]!);
    chunk[at + 1] = now1 * Math.sin(phases[at + 1]!);
    chunk[at + 2] = now2 * Math.sin(phases[at + 2]!);
    chunk[at + 3] = now3 * Math.sin(phases[at + 3]!);
  }

  /** The pick's short scrape: noise less its running mean, so that little of it lies low. */
  private scrape({ scrape, level }: Pluck): void {
    const count = SCRAPE_SEC * this.sampleRateHz;
    const first = this.frame - this.startFrame;
    if (scrape === 0 || first >= count) return;
    for (let at = 0; at < CHUNK && first + at < count; at += 1) {
      this.scrapeState = nextState(this.scrapeState);
      const sample = stateToSample(this.scrapeState);
      this.scrapeMean += (sample - this.scrapeMean) * 0.3;
      const fade = 1 - (first + at) / count;
      this.chunk[at]! += (sample - this.scrapeMean) * fade * fade * scrape * level;
    }
  }
}
