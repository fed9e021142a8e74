import type { Metadata } from "next";
import { cache } from "react";
import { orNotFound, signedIn } from "@/app/signedIn";
import { pages } from "@/lib/contracts/api";
import { house } from "@/lib/server/house";
import { readSong } from "@/lib/server/services/readSong";
import { SongDesk } from "./parts/SongDesk";

interface Props {
  params: Promise<{ songId: string }>;
}

/** Read once a request, for the title and for the page. */
const openSong = cache(async (songId: string) => {
  const actor = await signedIn(pages.song(songId));
  return orNotFound(readSong(house().db, actor, songId));
});

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: (await openSong((await params).songId)).title };
}

export default async function SongRoute({ params }: Props) {
  return <SongDesk page={await openSong((await params).songId)} />;
}
