import type { Midi } from "@/lib/units/quantities";
import { Watched } from "../watched/Watched";
import { type Gathered, gather, NOTHING_GATHERED, notesOf } from "./gatherNotes";
import { midiFault } from "./listenFaults";
import { readMidiMessage } from "./midiMessage";

/** Off, waiting for the person's leave, or listening. */
export type ListeningState = "off" | "asking" | "listening";

export interface KeyboardsState {
  state: ListeningState;
  /** Keyboards that are heard; they may come and go. */
  names: readonly string[];
  /** Why none is heard, or not all, in words; null where there is nothing to say. */
  fault: string | null;
}

/** Notes of a set, ascending, each time it changes. */
export type OnPlayed = (midis: readonly Midi[], why: "struck" | "letGo") => void;

/**
 * Hears every MIDI keyboard by the Web MIDI API (W3C). {@link open} asks for leave; {@link close} lets go of all
 * ports, after which it can be opened again.
 */
export class MidiKeyboards extends Watched<KeyboardsState> {
  private scope: AbortController | null = null;
  /** By the id of the port. */
  private readonly heard = new Map<
    string,
    { port: MIDIInput; stop: AbortController; fault: string | null }
  >();
  private gathered: Gathered = NOTHING_GATHERED;

  constructor(private readonly onPlayed: OnPlayed) {
    super({ state: "off", names: [], fault: null });
  }

  /** To be called from a press: browsers then ask the person whether the page may. */
  async open(): Promise<void> {
    if (this.scope) return;
    const scope = new AbortController();
    this.scope = scope;
    this.tell({ state: "asking", fault: null });
    try {
      if (typeof navigator.requestMIDIAccess !== "function") throw new DOMException("", "NotSupportedError");
      const access = await navigator.requestMIDIAccess({ sysex: false });
      if (scope.signal.aborted) return;
      access.addEventListener("statechange", () => this.follow(access), { signal: scope.signal });
      this.tell({ state: "listening" });
      this.follow(access);
    } catch (thrown) {
      if (scope.signal.aborted) return;
      this.close();
      this.tell({ fault: midiFault(thrown, isSecureContext) });
    }
  }

  readonly close = (): void => {
    this.scope?.abort();
    this.scope = null;
    for (const id of [...this.heard.keys()]) this.drop(id);
    this.gathered = NOTHING_GATHERED;
    this.tell({ state: "off", names: [], fault: null });
  };

  /** Hears the keyboards that are there, and no longer those that are not. */
  private follow(access: MIDIAccess): void {
    const there = [...access.inputs.values()].filter(({ state }) => state === "connected");
    for (const [id, { port }] of [...this.heard]) if (!there.includes(port)) this.drop(id);
    for (const port of there) if (!this.heard.has(port.id)) this.hear(port);
    this.tell({ names: there.map(({ name }) => name || "a keyboard without a name"), fault: this.fault() });
  }

  private hear(port: MIDIInput): void {
    const stop = new AbortController();
    const one = { port, stop, fault: null as string | null };
    this.heard.set(port.id, one);
    const onMessage = ({ data, timeStamp }: MIDIMessageEvent) => {
      const message = data && readMidiMessage(data);
      if (message) this.take(gather(this.gathered, port.id, message, timeStamp), message.kind === "down");
    };
    port.addEventListener("midimessage", onMessage, { signal: stop.signal });
    // A listener alone opens no port (Web MIDI API, "MIDIInput": only the handler attribute does).
    port.open().catch((thrown: unknown) => {
      if (stop.signal.aborted) return;
      one.fault = midiFault(thrown, isSecureContext, port.name);
      this.tell({ fault: this.fault() });
    });
  }

  /** Of a keyboard that is there; gone with it, so that plugging it in anew clears it. */
  private fault(): string | null {
    return [...this.heard.values()].find(({ fault }) => fault !== null)?.fault ?? null;
  }

  private drop(id: string): void {
    const one = this.heard.get(id);
    if (!one) return;
    this.heard.delete(id);
    one.stop.abort();
    this.gathered = gather(this.gathered, id, { kind: "allUp", channel: null }, Number.POSITIVE_INFINITY);
    void one.port.close().catch(() => {});
  }

  private take(next: Gathered, isStruck: boolean): void {
    const before = notesOf(this.gathered);
    this.gathered = next;
    const midis = notesOf(next);
    const isSame = midis.length === before.length && midis.every((midi, at) => midi === before[at]);
    if (isStruck || !isSame) this.onPlayed(midis, isStruck ? "struck" : "letGo");
  }
}
