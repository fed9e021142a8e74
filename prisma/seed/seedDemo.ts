import { randomInt, randomUUID } from "node:crypto";
import { once } from "node:events";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import type { CommandResult } from "@/lib/document/commands/act";
import { addPartEvent } from "@/lib/document/commands/part";
import { answer, ask, setSettled } from "@/lib/document/commands/questions";
import type { Actor } from "@/lib/server/auth/session";
import type { Config } from "@/lib/server/config/config";
import type { House } from "@/lib/server/house";
import { isLoopback } from "@/lib/server/http/ownOrigins";
import { acceptInvite } from "@/lib/server/services/acceptInvite";
import { addSong } from "@/lib/server/services/addSong";
import { createBook } from "@/lib/server/services/createBook";
import { createInvite } from "@/lib/server/services/createInvite";
import { startThread } from "@/lib/server/threads/startThread";
import { DEMO_QUESTIONS } from "../demo/asked";
import { demoTruth, pieceBeatToSeconds } from "../demo/demoTruth";
import { PIECE } from "../demo/piece";
import { DEMO_SCENARIO } from "../demo/scenario";

/** How to sign in as one of the demo's people; the password is kept nowhere else. */
export interface DemoAccount {
  name: string;
  email: string;
  password: string;
}

/** Whether this Liftbook gets the demo: only an empty one, and by itself only one that others cannot reach. */
export async function wantsDemo({ config, db }: Pick<House, "config" | "db">): Promise<boolean> {
  if (!allowsDemo(config)) return false;
  return (await db.user.count()) === 0;
}

function allowsDemo({ demo, host, publicUrl }: Pick<Config, "demo" | "host" | "publicUrl">): boolean {
  if (demo !== "auto") return demo === "on";
  return isLoopback(host) && publicUrl === null;
}

// No letters that are taken for one another: a password is read off a screen.
const LETTERS = "abcdefghjkmnpqrstuvwxyz23456789";

/** 20 letters in groups of five, 98 random bits. */
function newPassword(): string {
  const group = () => Array.from({ length: 5 }, () => LETTERS[randomInt(LETTERS.length)]).join("");
  return Array.from({ length: 4 }, group).join("-");
}

async function signUp({ auth, db }: House, person: { name: string; email: string }) {
  const password = newPassword();
  const { user } = await auth.api.signUpEmail({ body: { ...person, password } });
  // Signing up signs in; nobody uses that session.
  await db.session.deleteMany({ where: { userId: user.id } });
  const actor: Actor = { userId: user.id, ...person };
  return { actor, account: { ...person, password } };
}

async function renderRecord(signal?: AbortSignal): Promise<Uint8Array> {
  const thread = startThread("prisma/seed/renderDemoWorker.ts");
  try {
    const [bytes] = (await once(thread, "message", { signal })) as [Uint8Array];
    return bytes;
  } finally {
    await thread.terminate();
  }
}

async function addDemoSong(
  house: House,
  teacher: Actor,
  bookId: string,
  signal?: AbortSignal,
): Promise<string> {
  const folder = await mkdtemp(path.join(os.tmpdir(), "liftbook-demo-"));
  try {
    const file = path.join(folder, "demo.wav");
    await writeFile(file, await renderRecord(signal));
    const title = DEMO_SCENARIO.songTitle;
    const song = await addSong(house, teacher, bookId, { path: file, fileName: `${title}.wav`, title });
    return song.id;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** The teacher writes the part as they would on the page: every event by the same command. */
async function writePart({ hub }: House, teacher: Actor, songId: string): Promise<void> {
  const results = await hub.edit(songId, (doc) => {
    const ctx = { doc, by: teacher.userId, nowMs: Date.now(), newId: randomUUID, origin: teacher.userId };
    return demoTruth().part.map(({ id: _id, ...event }) => addPartEvent(ctx, event));
  });
  const refused = results.find((result) => !result.ok);
  if (refused) throw new Error(`the part was refused: ${JSON.stringify(refused)}`);
}

/** The student asks, the teacher answers, as they would on the page. */
async function writeQuestions(
  { hub }: House,
  { teacher, student }: { teacher: Actor; student: Actor },
  songId: string,
): Promise<void> {
  await hub.edit(songId, (doc) => {
    const as = ({ userId: by }: Actor) => {
      return { doc, by, nowMs: Date.now(), newId: randomUUID, origin: by };
    };
    for (const { words, answer: answered, ...where } of DEMO_QUESTIONS) {
      const [id] = taken(ask(as(student), { words, ...stretchOf(where) }));
      if (!id || !answered) continue;
      taken(answer(as(teacher), id, { words: answered.words, stretch: stretchOf(answered) }));
      taken(setSettled(as(student), id, true));
    }
  });
}

function stretchOf({ bar, beat, lengthBeats }: { bar: number; beat: number; lengthBeats: number }) {
  const startBeat = (bar - 1) * PIECE.beatsPerBar + beat - 1;
  return { startSec: pieceBeatToSeconds(startBeat), endSec: pieceBeatToSeconds(startBeat + lengthBeats) };
}

/** The ids of a command that must have gone well. */
function taken(result: CommandResult): string[] {
  if (!result.ok) throw new Error(`what is asked was refused: ${result.message}`);
  return result.ids;
}

/**
 * Fills an empty Liftbook with the demo, by the same services as people use: two accounts, a book, an invitation
 * taken up, a record played by the band of the house and added like any other. The hearing job that adding queues
 * then hears it; nothing of that is prepared.
 * @returns the accounts; where anything fails, none of them is left
 */
export async function seedDemo(house: House, signal?: AbortSignal): Promise<DemoAccount[]> {
  const made: string[] = [];
  try {
    const teacher = await signUp(house, DEMO_SCENARIO.teacher);
    made.push(teacher.actor.userId);
    const student = await signUp(house, DEMO_SCENARIO.student);
    made.push(student.actor.userId);
    const { db, origins } = house;
    const book = await createBook(db, teacher.actor, { title: DEMO_SCENARIO.bookTitle });
    const invite = { bookId: book.id, role: "student", uses: 1, days: 1, origin: origins[0]! } as const;
    const { url } = await createInvite(db, teacher.actor, invite);
    await acceptInvite(db, student.actor, url.slice(url.lastIndexOf("/") + 1));
    const songId = await addDemoSong(house, teacher.actor, book.id, signal);
    await writePart(house, teacher.actor, songId);
    await writeQuestions(house, { teacher: teacher.actor, student: student.actor }, songId);
    return [teacher.account, student.account];
  } catch (fault) {
    await house.db.song.deleteMany({ where: { addedById: { in: made } } });
    await house.db.book.deleteMany({ where: { members: { some: { userId: { in: made } } } } });
    await house.db.user.deleteMany({ where: { id: { in: made } } });
    throw fault;
  }
}
