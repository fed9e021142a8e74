/** The page's side of the passage that is heard at once: everything from the act to pencil, but for the drawing. */
import * as Y from "yjs";
import { EarWorker } from "@/lib/client/hearing/passage/EarWorker";
import { PassageHearer } from "@/lib/client/hearing/passage/PassageHearer";
import { EarCopy } from "@/lib/client/record/EarCopy";
import { writePassage } from "@/lib/document/commands/writePassage";
import { readSong } from "@/lib/document/read/readSong";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { transforms } from "./reference";

export interface PassageOrder {
  copyUrl: string;
  workerUrl: string;
  /** Heard one after another, each in a song of its own. */
  passages: readonly HeardStretch[];
}

export interface PassageTimes {
  /** From opening the page: the ear is fetched, loaded and compiled too. */
  firstSec: number;
  /** Each passage with the ear ready. */
  laterSec: number[];
  /** Of the steel, in pencil, in each. */
  noteCounts: number[];
  /** The transforms of the sound of one passage. */
  referenceSec: number;
}

const nowSec = (): number => performance.now() / 1_000;

async function timePassages({ copyUrl, workerUrl, passages }: PassageOrder): Promise<PassageTimes> {
  const startWorker = () => new Worker(workerUrl, { type: "module" });
  const hearer = new PassageHearer(new EarCopy(copyUrl), new EarWorker(startWorker));
  const noteCounts: number[] = [];

  async function act(passage: HeardStretch): Promise<number> {
    const doc = new Y.Doc();
    const start = nowSec();
    const heard = await hearer.hear(passage, 0);
    if (!heard) throw new Error(hearer.now().fault ?? "nothing was heard");
    writePassage({ doc, by: "ann", nowMs: 1, newId: () => "passage", origin: null }, heard);
    noteCounts.push(readSong(doc).notes.length);
    return nowSec() - start;
  }

  const [first, ...later] = passages;
  const firstSec = await act(first!);
  const laterSec: number[] = [];
  for (const passage of later) laterSec.push(await act(passage));
  const start = nowSec();
  transforms(first!.endSec - first!.startSec);
  return { firstSec, laterSec, noteCounts, referenceSec: nowSec() - start };
}

Object.assign(window, { timePassages });
