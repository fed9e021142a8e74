"use client";

import { printed } from "@/lib/client/format/format";
import { setHome } from "@/lib/document/commands/homes";
import type { HomeRecord } from "@/lib/document/records/records";
import { isSameKey, keyToWords } from "@/lib/theory/key";
import { useDesk } from "./DeskContext";
import { Guesses } from "./Guesses";

/** What the machine took home for. */
export function HomeGuesses({ home }: { home: HomeRecord }) {
  const { opened } = useDesk();
  return (
    <Guesses
      guesses={home.guesses}
      isStanding={(guess) => isSameKey(guess, home)}
      show={({ tonic, mode }) => (
        <span>
          <b>{printed(tonic)}</b>
          {mode}
        </span>
      )}
      words={keyToWords}
      take={({ tonic, mode }) =>
        opened.acts.run((ctx) => setHome(ctx, { startSec: home.startSec, tonic, mode }, home.id))
      }
    />
  );
}
