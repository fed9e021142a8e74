import { useMemo } from "react";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { SongHomes } from "./selection";

/** What says where home is, the same as long as that is: the changes are a part of it only where they spell notes under a cover. */
export function useSongHomes({ homes, unseenHome, changes: all }: SongSnapshot): SongHomes {
  const changes = unseenHome && all;
  return useMemo(() => ({ homes, unseenHome, changes }), [homes, unseenHome, changes]);
}
