import { digest } from "lib0/hash/sha256";
import { api } from "@/lib/contracts/api";
import type { EarListing } from "@/lib/contracts/ear";
import { errorMessage } from "@/lib/contracts/errors";
import { loadLearnedEar } from "@/lib/hearing/learned/loadLearnedEar";
import { loadNotesEar } from "@/lib/hearing/learned/loadNotesEar";
import type { WeightsManifest } from "@/lib/hearing/learned/loadWeights";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { errorOf, RequestError, reach, request } from "../../requests/request";

const UNREACHED =
  "The ear's weights could not be fetched: the server was not reached. Nothing was changed. Check the connection and try again.";
const NOT_WHOLE =
  "The ear's weights did not arrive as the server has them, so nothing was heard. Nothing was changed. Try again; if it happens again, something between here and the server changes what it passes on.";

/**
 * Fetches this house's ear for notes, by the same weights as the server hears with: the notes ear, or where there is
 * none the ear. They are kept by the browser under their checksum, which is checked.
 * @throws RequestError in words for people
 */
export async function fetchEar(): Promise<NotesEar> {
  const { ear, "notes-ear": notesEar } = await request<EarListing>("GET", api.ear());
  if (notesEar) return loadNotesEar({ manifest: notesEar, bytes: await fetchWhole(notesEar) });
  if (ear) return loadLearnedEar({ manifest: ear, bytes: await fetchWhole(ear) }).notesEar;
  throw new RequestError(errorMessage("no-ear"), "no-ear", 404);
}

async function fetchWhole(manifest: WeightsManifest): Promise<Uint8Array> {
  const url = api.earWeights(manifest.sha256);
  let bytes = await fetchWeights(url, "default");
  // What the browser kept may be damaged: fetched anew it may be whole.
  if (!isWhole(bytes, manifest)) bytes = await fetchWeights(url, "reload");
  if (!isWhole(bytes, manifest)) throw new RequestError(NOT_WHOLE, null, 0);
  return bytes;
}

async function fetchWeights(url: string, cache: RequestCache): Promise<Uint8Array> {
  const response = await reach(url, { cache }, UNREACHED);
  if (!response.ok) throw errorOf(await response.text(), response.status);
  try {
    return new Uint8Array(await response.arrayBuffer());
  } catch {
    throw new RequestError(UNREACHED, null, 0);
  }
}

/** By SHA-256 in plain code: browsers have none of their own where a house is reached without https. */
function isWhole(bytes: Uint8Array, { byteLength, sha256 }: WeightsManifest): boolean {
  if (bytes.length !== byteLength) return false;
  return Array.from(digest(bytes), (byte) => byte.toString(16).padStart(2, "0")).join("") === sha256;
}
