import type { Seconds } from "@/lib/units/quantities";
import { type KeepingStore, KeptState } from "../watched/KeptState";

/** A microphone or line that can be recorded by. */
export interface InputDevice {
  id: string;
  name: string;
}

export interface TakeInputState {
  /** Null for the browser's own choice. */
  deviceId: string | null;
  /** What was measured for each device, from what is sent out to what comes in. */
  delaysSec: Readonly<Record<string, Seconds>>;
}

/** Stands for the browser's own choice of a device. */
const USUAL = "usual";
const MOST_DELAY_SEC: Seconds = 1;

const isDelay = (value: unknown): value is Seconds =>
  typeof value === "number" && value >= 0 && value <= MOST_DELAY_SEC;

/** By which device takes are recorded, and by how much each comes late: kept in this browser, since it is this machine's. */
export class TakeInput extends KeptState<TakeInputState> {
  constructor(store: KeepingStore) {
    super(store, "liftbook.takeInput", { deviceId: null, delaysSec: {} }, ({ deviceId, delaysSec }) => ({
      deviceId: typeof deviceId === "string" ? deviceId : null,
      delaysSec: Object.fromEntries(
        Object.entries(typeof delaysSec === "object" && delaysSec !== null ? delaysSec : {}).filter(
          (entry): entry is [string, Seconds] => isDelay(entry[1]),
        ),
      ),
    }));
  }

  choose(deviceId: string | null): void {
    this.keep({ deviceId });
  }

  /** What was measured for the device in use; null where nothing was. */
  get measuredSec(): Seconds | null {
    const { deviceId, delaysSec } = this.now();
    return delaysSec[deviceId ?? USUAL] ?? null;
  }

  /** @param delaySec null forgets what was measured */
  setMeasured(delaySec: Seconds | null): void {
    const { deviceId, delaysSec } = this.now();
    const { [deviceId ?? USUAL]: _, ...others } = delaysSec;
    this.keep({
      delaysSec: isDelay(delaySec) ? { ...others, [deviceId ?? USUAL]: delaySec } : others,
    });
  }
}

/**
 * What a device probably comes late by, where nobody has measured it: what the browser tells of the way out and of the way in.
 * Many devices tell less than there is.
 */
export function toldDelay(context: Pick<AudioContext, "outputLatency">, track: MediaStreamTrack): Seconds {
  const { latency } = track.getSettings() as MediaTrackSettings & { latency?: Seconds };
  return (context.outputLatency || 0) + (latency ?? 0);
}

/** The microphones and lines there are; without names until the person has let the page listen. */
export async function inputDevices(): Promise<InputDevice[]> {
  const devices = (await navigator.mediaDevices?.enumerateDevices?.()) ?? [];
  return devices
    .filter(({ kind, deviceId }) => kind === "audioinput" && deviceId !== "" && deviceId !== "default")
    .map(({ deviceId, label }, index) => ({ id: deviceId, name: label || `Input ${index + 1}` }));
}
