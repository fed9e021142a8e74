import { z } from "zod";
import { ROLES, type Role } from "./roles";

export const roleSchema = z.enum(ROLES);

export const newBookSchema = z.object({ title: z.string().trim().min(1, "a title is needed").max(120) });
export type NewBook = z.infer<typeof newBookSchema>;

export const newInviteSchema = z.object({
  role: roleSchema,
  /** How often the link works; null for any number of times until it runs out. */
  uses: z.number().int().min(1).max(500).nullable(),
  /** Days until the link runs out. */
  days: z.number().int().min(1).max(90),
});
export type NewInvite = z.infer<typeof newInviteSchema>;

export interface BookCard {
  id: string;
  title: string;
  role: Role;
  isMaker: boolean;
  memberCount: number;
  songCount: number;
}

export interface MemberRow {
  userId: string;
  name: string;
  role: Role;
  isMaker: boolean;
}

export interface InviteRow {
  id: string;
  role: Role;
  usesLeft: number | null;
  expiresAt: string;
  madeByName: string;
}

/** The link is shown once, when it is made: only its hash is kept. */
export interface MadeInvite extends InviteRow {
  url: string;
}

/** What a person who holds a link sees before accepting. */
export interface InviteOffer {
  bookTitle: string;
  role: Role;
  madeByName: string;
}

export interface BookPage extends BookCard {
  members: MemberRow[];
  songs: SongRow[];
  /** Empty for members who may not invite. */
  invites: InviteRow[];
}

export const hearingStateSchema = z.enum(["waiting", "running", "done", "failed", "cancelled"]);
export type HearingStateName = z.infer<typeof hearingStateSchema>;

/** How far the machine is with a song. `step` is `decode`, `peaks`, one of HEARING_STEPS or `notes`. */
export interface HearingStatus {
  runId: string;
  state: HearingStateName;
  step: string | null;
  /** 0 to 1 over the whole run. */
  fraction: number;
  /** In words, where the run failed. */
  message: string | null;
}

export interface SongRow {
  id: string;
  title: string;
  durationSec: number;
  /** Who may remove it, besides the book's maker. */
  addedById: string;
  addedByName: string;
  addedAt: string;
  hearing: HearingStatus | null;
}

/** What the song page starts from; everything else comes through the shared document. */
export interface SongPage {
  id: string;
  title: string;
  bookId: string;
  bookTitle: string;
  role: Role;
  durationSec: number;
  sampleRateHz: number;
  channelCount: number;
  /** Ranged; in a form that browsers play. */
  recordUrl: string;
  peaksUrl: string;
  me: { id: string; name: string };
  members: MemberRow[];
  hearing: HearingStatus | null;
}

export const songTitleSchema = z.object({ title: z.string().trim().min(1).max(200) });
