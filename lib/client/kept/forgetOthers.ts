import { browserStore } from "../page/browserStore";
import { forgetClip } from "../song/keptClip";
import { forgetDocuments } from "./forgetDocuments";
import { keptSongsHere } from "./KeptSongs";

/**
 * Gives up all that this browser keeps of songs but for one person; with null for nobody. What was copied does not say whose it is,
 * so it goes too. What the server may not have yet of anyone's
 * writing stays, under that person's own name.
 */
export async function forgetOthers(userId: string | null): Promise<void> {
  forgetClip();
  try {
    await keptSongsHere()?.forgetAllBut(userId);
  } catch (fault) {
    // A private window may refuse to keep anything: then there is nothing to give up.
    if (!(fault instanceof DOMException && fault.name === "SecurityError")) throw fault;
  }
  if (typeof indexedDB === "undefined") return;
  // Where the browser does not say what is unsent, or which songs it stores, all stay.
  await forgetDocuments(userId, indexedDB, browserStore).catch(() => []);
}
