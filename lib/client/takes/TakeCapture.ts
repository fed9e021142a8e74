import type { Seconds } from "@/lib/units/quantities";
import { CapturedSound } from "./CapturedSound";
import { type InputDevice, toldDelay } from "./TakeInput";
import { type CapturedChunk, type CaptureMessage, TAKE_PROCESSOR, TAKE_URL } from "./takeMessages";

/** Contexts whose audio thread has the recorder's code already. */
const LOADED = new WeakMap<AudioContext, Promise<void>>();

/**
 * Takes in what comes by a microphone or line, by the frames of the audio context that plays the record too, so that both
 * lie on one clock. The browser's own filters, which are made for speech, are off. Nothing of it is heard.
 */
export class TakeCapture {
  readonly sound = new CapturedSound();

  private constructor(
    private readonly stream: MediaStream,
    private readonly source: MediaStreamAudioSourceNode,
    private readonly node: AudioWorkletNode,
    /** As far as the browser tells. */
    readonly toldDelaySec: Seconds,
    readonly device: InputDevice,
  ) {}

  /**
   * Opens a device: to be called from a press, browsers then ask the person whether the page may.
   * @param deviceId null for the browser's own choice
   * @param silent where its silence goes, so that the audio thread runs it
   * @param events told of each chunk that came in, and when the device has gone
   * @throws DOMException as getUserMedia does
   */
  static async open(
    deviceId: string | null,
    silent: AudioNode,
    signal: AbortSignal,
    events: { came(): void; gone(): void },
  ): Promise<TakeCapture> {
    if (!navigator.mediaDevices?.getUserMedia) throw new DOMException("", "NotSupportedError");
    const context = silent.context as AudioContext;
    if (!context.audioWorklet) throw new DOMException("", "NotSupportedError");
    const stream = await navigator.mediaDevices.getUserMedia({
      audio: {
        ...(deviceId === null ? {} : { deviceId: { exact: deviceId } }),
        echoCancellation: false,
        noiseSuppression: false,
        autoGainControl: false,
        channelCount: { ideal: 2 },
      },
    });
    const giveBack = () => {
      for (const track of stream.getTracks()) track.stop();
    };
    try {
      signal.throwIfAborted();
      const loading = LOADED.get(context) ?? context.audioWorklet.addModule(TAKE_URL);
      LOADED.set(context, loading);
      await loading.catch((fault: unknown) => {
        LOADED.delete(context);
        throw fault;
      });
      signal.throwIfAborted();
      const [track] = stream.getAudioTracks();
      if (!track) throw new DOMException("", "NotFoundError");
      const source = context.createMediaStreamSource(stream);
      const node = new AudioWorkletNode(context, TAKE_PROCESSOR, {
        numberOfInputs: 1,
        numberOfOutputs: 1,
        outputChannelCount: [1],
        channelCount: 2,
        channelCountMode: "max",
      });
      const device = { id: track.getSettings().deviceId ?? "", name: track.label };
      const capture = new TakeCapture(stream, source, node, toldDelay(context, track), device);
      node.port.onmessage = ({ data }: MessageEvent<CapturedChunk>) => {
        capture.sound.add(data);
        events.came();
      };
      track.addEventListener("ended", () => events.gone());
      source.connect(node).connect(silent);
      return capture;
    } catch (fault) {
      giveBack();
      throw fault;
    }
  }

  /** Gives the device back. What was captured stays. */
  close(): void {
    this.node.port.onmessage = null;
    this.node.port.postMessage({ kind: "close" } satisfies CaptureMessage);
    this.source.disconnect();
    this.node.disconnect();
    for (const track of this.stream.getTracks()) track.stop();
  }
}
