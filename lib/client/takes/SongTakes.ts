import type { SongGrid } from "../axis/songGrid";
import { browserStore } from "../page/browserStore";
import type { Player } from "../player/Player";
import { TakeInput } from "./TakeInput";
import { TakeListening } from "./TakeListening";
import { TakeRecorder } from "./TakeRecorder";
import { TakeShelf } from "./TakeShelf";
import { TakeSounds } from "./TakeSounds";
import type { TakeWish } from "./takeStates";
import { type UnsentTake, UnsentTakes } from "./UnsentTakes";

/** What of takes is told to the page. */
export interface TakeEvents {
  say(words: string): void;
  /** A take was recorded and is listed. */
  recorded(take: UnsentTake): void;
}

/** Everything of a song's takes: recording, keeping, hearing. One for as long as its page is open. */
export class SongTakes {
  readonly input = new TakeInput(browserStore);
  readonly shelf: TakeShelf;
  readonly sounds: TakeSounds;
  readonly recorder: TakeRecorder;
  readonly listening: TakeListening;

  constructor(
    readonly player: Player,
    of: { songId: string; userId: string; name: string },
    events: TakeEvents,
  ) {
    this.shelf = new TakeShelf(of, new UnsentTakes());
    this.sounds = new TakeSounds(of.songId, (id) => this.shelf.soundOf(id));
    this.listening = new TakeListening(player, this.sounds);
    this.recorder = new TakeRecorder(player, this.input, of, {
      say: events.say,
      keep: ({ take, caution }) => {
        void this.shelf.add(take).then((isKept) => events.say(keptWords(isKept, caution)));
        events.recorded(take);
      },
    });
  }

  /** Begins a take, unless one is being recorded; what is heard of others ends. To be called from a press. */
  async record(wish: TakeWish, grid: SongGrid | null): Promise<void> {
    this.listening.stop();
    await this.recorder.start(wish, grid);
  }

  close(): void {
    this.recorder.close();
    this.listening.close();
    this.shelf.close();
    this.sounds.close();
  }
}

function keptWords(isKept: boolean, caution: string | null): string {
  const kept = isKept
    ? "The take is kept. Only you hear it until you share it."
    : "The take could not be kept in this browser. Leave the page open until the server has it, or download it.";
  return caution === null ? kept : `${caution} ${kept}`;
}
