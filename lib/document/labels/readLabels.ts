import type * as Y from "yjs";
import type { Seconds } from "@/lib/units/quantities";
import { flatten } from "../read/flatten";
import { gather, type RawRecord } from "../read/gather";
import { compareText } from "../read/rank";
import { readKind } from "../read/readSong";
import { type Settled, settleKind } from "../read/settle";
import { readInk, readRole } from "../records/readRegisters";
import { MACHINE } from "../records/Stamp";
import { type BandHearing, withBand } from "./bandProposals";
import { goneOver } from "./goneOver";
import { LABEL_KINDS, type Label, type LabelKind, type Proposed, type SongLabels } from "./Label";
import { changedNames, labelValues } from "./labelValues";

/**
 * What people made of all that the machine proposed, as data to measure the ear by (rule D35).
 * @param band tells of notes that a person wrote whether the machine had heard them as the band's; null where unknown
 */
export function readLabels(doc: Y.Doc, band: BandHearing | null): SongLabels {
  const labels = Object.fromEntries(
    LABEL_KINDS.map((kind) => [kind, labelsOf(doc, kind)]),
  ) as SongLabels["labels"];
  if (band) labels.note = withBand(labels.note, band);
  return { labels, notesGoneOver: goneOver(labels.note) };
}

function labelsOf<K extends LabelKind>(doc: Y.Doc, kind: K): Label<K>[] {
  const raw = gather(doc, kind);
  const shownIds = new Set([readKind(doc, kind).shown].flat().map((each) => each?.id));
  return [...settleKind(doc, kind).values()]
    .flatMap((settled): { id: string; label: Label<K> }[] => {
      const label = labelOf(kind, settled, raw.get(settled.id), shownIds.has(settled.id));
      return label ? [{ id: settled.id, label }] : [];
    })
    .sort((a, b) => startOf(a.label) - startOf(b.label) || compareText(a.id, b.id))
    .map(({ label }) => label);
}

/** Null for what nobody touched and no hearing proposes any longer, and for what was added and rubbed out again. */
function labelOf<K extends LabelKind>(
  kind: K,
  settled: Settled<K>,
  raw: RawRecord | undefined,
  isShown: boolean,
): Label<K> | null {
  const { record, isInk, standing, rubs } = settled;
  const proposed = proposedOf(kind, settled);
  const none = { proposed, settled: null, changed: [], by: [] };
  const isRubbedOut = standing === "rubbedOut" || (!isInk && rubs.length > 0);
  if (isRubbedOut) {
    return proposed && { ...none, act: "rubbedOut", by: [...new Set(rubs.map(({ by }) => by))] };
  }
  if (!isInk) return standing === "shown" ? { ...none, act: isShown ? "open" : "hidden" } : null;
  const by = raw ? settlers(kind, raw) : [];
  const values = labelValues(kind, record);
  if (proposed === null) return { act: "added", proposed, settled: values, changed: [], by };
  const changed = changedNames(values, proposed.values);
  return { act: changed.length > 0 ? "corrected" : "inked", proposed, settled: values, changed, by };
}

/** Who inked a record or said whose it is, each once. */
function settlers(kind: LabelKind, { inks, roles }: RawRecord): string[] {
  const inked = [...inks].filter(([, ink]) => readInk(kind, ink) !== null);
  const said = [...roles].filter(([, role]) => readRole(role) !== null);
  return [...new Set([...inked, ...said].map(([person]) => person))];
}

/** What the machine said. Where only its name as the maker is left, it is what was seen when it was first inked. */
function proposedOf<K extends LabelKind>(kind: K, settled: Settled<K>): Proposed<K> | null {
  const { proposal, pinned, record } = settled;
  if (proposal === null && record.madeBy !== MACHINE) return null;
  const said = flatten(kind, proposal?.values ?? pinned, proposal, record, null);
  return {
    values: labelValues(kind, said),
    confidence: proposal?.confidence ?? null,
    aside: proposal?.aside ?? null,
    ear: proposal?.ear ?? null,
  };
}

/** Tuning and grid hold for the whole song. */
function startOf<K extends LabelKind>({ settled, proposed }: Label<K>): Seconds {
  const values = settled ?? proposed?.values ?? {};
  return "startSec" in values && typeof values.startSec === "number" ? values.startSec : 0;
}
