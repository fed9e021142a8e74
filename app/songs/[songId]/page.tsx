import type { Metadata } from "next";
import { orNotFound, signedIn } from "@/app/signedIn";
import { pages } from "@/lib/contracts/api";
import { house } from "@/lib/server/house";
import { readSong } from "@/lib/server/services/readSong";
import { SongDesk } from "./parts/SongDesk";

export const metadata: Metadata = { title: "Song" };

export default async function SongRoute({ params }: { params: Promise<{ songId: string }> }) {
  const { songId } = await params;
  const actor = await signedIn(pages.song(songId));
  const page = await orNotFound(readSong(house().db, actor, songId));
  return <SongDesk page={page} />;
}
