import * as decoding from "lib0/decoding";
import { IndexeddbPersistence } from "y-indexeddb";
import type { Awareness } from "y-protocols/awareness";
import { messageSync, WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import type { HearingStatus } from "@/lib/contracts/books";
import { MESSAGE_HEARING, MESSAGE_SAVED, MESSAGE_TAKES } from "@/lib/contracts/sync";
import { documentStoreName } from "./documentStore";
import { readSaved, SavedMark } from "./savedMark";

/** How the page stands with the server. `offline` is tried again by itself; `refused` is not. */
export type ConnectionStatus = "connecting" | "connected" | "offline" | "refused";

export interface SongConnection {
  readonly doc: Y.Doc;
  readonly awareness: Awareness;
  readonly status: ConnectionStatus;
  /** The close code (lib/contracts/sync.ts) where the status is `refused`. */
  readonly refusal: number | null;
  /** True once the document holds something to show: the browser's own copy, or the server's. */
  readonly loaded: boolean;
  /** True only while everything in the document is committed by the server. */
  readonly saved: boolean;
  readonly hearing: HearingStatus | null;
  /** How often the hub has said that takes of this song have changed; with each, they are to be asked for anew. */
  readonly takesTold: number;
  /** Calls back whenever any of the above changes; answers with how to stop. */
  subscribe(listener: () => void): () => void;
  close(): void;
}

export interface OpenSong {
  songId: string;
  userId: string;
  /** As in `wss://host/sync`; the song's id is put behind it. */
  serverUrl: string;
  /** For surroundings without a WebSocket of their own. */
  WebSocketPolyfill?: typeof WebSocket;
}

/** RFC 6455: the message was too big. Sending it again would end the same way. */
const CLOSE_TOO_BIG = 1009;

/** A socket that tells of each message as it goes out. */
function telling(Base: typeof WebSocket, sent: (message: Uint8Array) => void): typeof WebSocket {
  return class extends Base {
    override send(data: string | ArrayBufferLike | Blob | ArrayBufferView): void {
      super.send(data as ArrayBuffer);
      if (data instanceof Uint8Array) sent(data);
    }
  };
}

/**
 * Opens a shared song: over the WebSocket with everyone else, and in the browser's own store, so that what is
 * done offline is kept and goes out with the next connection.
 */
export function openSong({ songId, userId, serverUrl, WebSocketPolyfill }: OpenSong): SongConnection {
  const doc = new Y.Doc();
  const mark = new SavedMark();
  const listeners = new Set<() => void>();
  let status: ConnectionStatus = "connecting";
  let refusal: number | null = null;
  let loaded = false;
  let hearing: HearingStatus | null = null;
  let takesTold = 0;
  const tell = () => {
    for (const listener of [...listeners]) listener();
  };

  const provider = new WebsocketProvider(serverUrl, encodeURIComponent(songId), doc, {
    connect: false,
    // Tabs meet at the hub alone: what another tab hands over in the browser may not be saved, and could not be told apart.
    disableBc: true,
    WebSocketPolyfill: telling(WebSocketPolyfill ?? WebSocket, (message) => mark.messageSent(message)),
    shouldReconnect: (event) => !((event.code >= 4400 && event.code < 4500) || event.code === CLOSE_TOO_BIG),
  });
  const { awareness } = provider;

  const applySync = provider.messageHandlers[messageSync]!;
  provider.messageHandlers[messageSync] = (encoder, decoder, ...more) => {
    mark.syncMessageArrived(decoder);
    applySync(encoder, decoder, ...more);
  };
  provider.messageHandlers[MESSAGE_SAVED] = (_encoder, decoder: decoding.Decoder) => {
    const before = mark.saved;
    mark.savedArrived(readSaved(decoder));
    if (mark.saved !== before) tell();
  };
  provider.messageHandlers[MESSAGE_HEARING] = (_encoder, decoder: decoding.Decoder) => {
    hearing = JSON.parse(decoding.readVarString(decoder)) as HearingStatus;
    tell();
  };
  provider.messageHandlers[MESSAGE_TAKES] = () => {
    takesTold++;
    tell();
  };
  provider.on("status", ({ status: line }) => {
    if (line === "connecting") mark.socketOpened();
    // Others forget a page that went away at its last clock; a newer clock shows it to them again.
    else if (line === "connected") awareness.setLocalState(awareness.getLocalState() ?? {});
  });
  provider.on("sync", (synced) => {
    if (!synced) return;
    status = "connected";
    loaded = true;
    tell();
  });
  provider.on("connection-close", () => {
    if (status !== "refused") status = "offline";
    tell();
  });
  provider.on("closed", ({ code }) => {
    status = "refused";
    refusal = code;
    tell();
  });
  // Comes after the provider's own listener, which has sent the update by now if it could.
  doc.on("update", (_update: Uint8Array, origin: unknown) => {
    const before = mark.saved;
    const open = provider.wsconnected && provider.ws?.readyState === provider.ws?.OPEN;
    mark.documentChanged(origin === provider ? "away" : open ? "sent" : "unsent");
    if (before) tell();
  });

  let store: IndexeddbPersistence | null = null;
  if (typeof indexedDB !== "undefined") {
    store = new IndexeddbPersistence(documentStoreName(userId, songId), doc);
    store.on("synced", () => {
      loaded = true;
      tell();
    });
  }
  provider.connect();

  return {
    doc,
    awareness,
    get status() {
      return status;
    },
    get refusal() {
      return refusal;
    },
    get loaded() {
      return loaded;
    },
    get saved() {
      return mark.saved;
    },
    get hearing() {
      return hearing;
    },
    get takesTold() {
      return takesTold;
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close() {
      listeners.clear();
      provider.destroy();
      void store?.destroy();
      doc.destroy();
    },
  };
}
