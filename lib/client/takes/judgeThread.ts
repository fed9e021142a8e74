import type { JudgeOrder, JudgeWord } from "./judgeMessages";
import { judgeMoved } from "./judgeMoved";

/** The body of the worker that holds one take against the part; it is ended from outside. */
function say(word: JudgeWord): void {
  self.postMessage(word);
}

self.onmessage = ({ data }: MessageEvent<JudgeOrder>) => {
  try {
    const judged = judgeMoved(data, (fraction) => say({ kind: "progress", fraction }));
    say({ kind: "judged", judged });
  } catch (fault) {
    say({ kind: "fault", why: fault instanceof Error ? fault.message : String(fault) });
  }
};
