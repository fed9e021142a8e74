import * as Y from "yjs";
import { setPartCopedent } from "@/lib/document/commands/head";
import type { CopedentSource } from "@/lib/document/records/partHead";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { newId } from "../newId";
import type { Db } from "./memberOf";

/**
 * The first update of a new song, which puts its part on the usual guitar of whoever adds it; null where the person
 * has none, and the part starts as every part does.
 */
export async function firstHead(db: Db, userId: string): Promise<Uint8Array<ArrayBuffer> | null> {
  const usual = await usualChart(db, userId);
  if (usual === null) return null;
  const doc = new Y.Doc();
  const ctx = { doc, by: userId, nowMs: Date.now(), newId, origin: "a new song" };
  const written = setPartCopedent(ctx, usual);
  // Only a chart of a newer version is refused; the song is worth more than its guitar.
  return written.ok ? new Uint8Array(Y.encodeStateAsUpdate(doc)) : null;
}

async function usualChart(db: Db, userId: string): Promise<{ from: CopedentSource; chart: Chart } | null> {
  const usual = await db.usualCopedent.findUnique({
    where: { userId },
    select: { presetId: true, copedent: { select: { id: true, ownerId: true, chart: true } } },
  });
  if (usual?.copedent) {
    const { id, ownerId, chart } = usual.copedent;
    return { from: { kind: "own", id, ownerId }, chart: chart as unknown as Chart };
  }
  const preset = usual?.presetId ? findCopedent(usual.presetId) : null;
  return preset && { from: { kind: "preset", id: preset.id }, chart: writeChart(preset) };
}
