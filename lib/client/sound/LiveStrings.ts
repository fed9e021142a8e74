import { BUSES } from "@/lib/synth/buses";
import type { OutputChain } from "../player/outputChain";
import { type SoundMessage, STRINGS_PROCESSOR, STRINGS_URL } from "./soundMessages";

const NOT_HERE =
  "Nothing can be played beside the record here: browsers allow it only at an address that begins with https, or on the machine itself. The record plays as before.";
const NOT_LOADED =
  "What plays the parts could not be fetched, so nothing sounds beside the record. It plays as before. Check the connection and try again.";

/** The strings of the audio thread, from the page's side: started when they are first wanted. */
export class LiveStrings {
  private node: AudioWorkletNode | null = null;
  private starting: Promise<AudioWorkletNode> | null = null;

  /** Starts the audio thread's strings and lets them out through the chain. @throws Error in words for people */
  async open(chain: OutputChain): Promise<void> {
    this.starting ??= this.start(chain);
    const { starting } = this;
    try {
      const node = await starting;
      // Closed meanwhile: a processor that is told nothing would run on.
      if (this.starting === starting) this.node = node;
      else end(node);
    } catch (fault) {
      if (this.starting === starting) this.starting = null;
      throw fault;
    }
  }

  /** Does nothing before they are open. */
  tell(message: SoundMessage): void {
    this.node?.port.postMessage(message);
  }

  close(): void {
    if (this.node) end(this.node);
    this.node = null;
    this.starting = null;
  }

  private async start({ context, mix }: OutputChain): Promise<AudioWorkletNode> {
    if (!context.audioWorklet) throw new Error(NOT_HERE);
    try {
      await context.audioWorklet.addModule(STRINGS_URL);
    } catch {
      throw new Error(NOT_LOADED);
    }
    const buses = Object.keys(BUSES).length;
    const node = new AudioWorkletNode(context, STRINGS_PROCESSOR, {
      numberOfInputs: 0,
      numberOfOutputs: buses,
      outputChannelCount: Array.from({ length: buses }, () => 1),
    });
    node.connect(mix.parts, BUSES.parts);
    node.connect(mix.band, BUSES.band);
    return node;
  }
}

function end(node: AudioWorkletNode): void {
  node.port.postMessage({ kind: "close" } satisfies SoundMessage);
  node.disconnect();
}
