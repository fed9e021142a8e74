import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import * as Y from "yjs";
import type { HearingStatus } from "@/lib/contracts/books";
import { MESSAGE_HEARING, MESSAGE_SAVED, MESSAGE_TAKES } from "@/lib/contracts/sync";

/** Message types of y-protocols, as y-websocket's client sends them. */
const SYNC = 0;
const AWARENESS = 1;
const AUTH = 2;
const QUERY_AWARENESS = 3;

const STEP_1 = 0;
const STEP_2 = 1;
const UPDATE = 2;

/** What a client may say. */
export type ClientMessage =
  | { kind: "step1"; stateVector: Uint8Array }
  | { kind: "update"; update: Uint8Array }
  | { kind: "awareness"; update: Uint8Array }
  | { kind: "queryAwareness" }
  | { kind: "ignored" };

/**
 * Reads one message of a client. An update is decoded once here, so that a malformed one never reaches a document.
 * @throws on anything that is not a well-formed message
 */
export function readMessage(bytes: Uint8Array): ClientMessage {
  const decoder = decoding.createDecoder(bytes);
  switch (decoding.readVarUint(decoder)) {
    case SYNC: {
      const step = decoding.readVarUint(decoder);
      const payload = decoding.readVarUint8Array(decoder);
      if (step === STEP_1) {
        Y.decodeStateVector(payload);
        return { kind: "step1", stateVector: payload };
      }
      if (step !== STEP_2 && step !== UPDATE) throw new Error(`unknown sync step ${step}`);
      Y.decodeUpdate(payload);
      return { kind: "update", update: payload };
    }
    case AWARENESS:
      return { kind: "awareness", update: decoding.readVarUint8Array(decoder) };
    case QUERY_AWARENESS:
      return { kind: "queryAwareness" };
    case AUTH:
      return { kind: "ignored" };
    default:
      throw new Error("unknown message type");
  }
}

function message(type: number, write: (encoder: encoding.Encoder) => void): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, type);
  write(encoder);
  return encoding.toUint8Array(encoder);
}

const syncMessage = (step: number, payload: Uint8Array) =>
  message(SYNC, (encoder) => {
    encoding.writeVarUint(encoder, step);
    encoding.writeVarUint8Array(encoder, payload);
  });

/** Asks for what the hub lacks. */
export const step1Message = (doc: Y.Doc): Uint8Array => syncMessage(STEP_1, Y.encodeStateVector(doc));

/** Gives what the asker lacks. */
export const step2Message = (doc: Y.Doc, stateVector: Uint8Array): Uint8Array =>
  syncMessage(STEP_2, Y.encodeStateAsUpdate(doc, stateVector));

export const updateMessage = (update: Uint8Array): Uint8Array => syncMessage(UPDATE, update);

export const awarenessMessage = (update: Uint8Array): Uint8Array =>
  message(AWARENESS, (encoder) => encoding.writeVarUint8Array(encoder, update));

export const savedMessage = (received: number, sent: number): Uint8Array =>
  message(MESSAGE_SAVED, (encoder) => {
    encoding.writeVarUint(encoder, received);
    encoding.writeVarUint(encoder, sent);
  });

export const hearingMessage = (status: HearingStatus): Uint8Array =>
  message(MESSAGE_HEARING, (encoder) => encoding.writeVarString(encoder, JSON.stringify(status)));

export const takesMessage = (): Uint8Array => message(MESSAGE_TAKES, () => {});
