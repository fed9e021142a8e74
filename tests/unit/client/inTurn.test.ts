import { describe, expect, it } from "vitest";
import { InTurn } from "@/lib/client/requests/InTurn";

/** A server that answers when it is told to. */
function slowServer() {
  const sent: { wish: string; answer: (fault?: Error) => void }[] = [];
  const told: { shown: string; isSettled: boolean; fault: unknown }[] = [];
  const turn = new InTurn(
    "none",
    (wish) =>
      new Promise<void>((resolve, reject) =>
        sent.push({ wish, answer: (fault) => (fault ? reject(fault) : resolve()) }),
      ),
    (state) => told.push(state),
  );
  return { turn, sent, told };
}
const settled = () => new Promise((resolve) => setTimeout(resolve));

describe("wishes in turn", () => {
  it("are sent one after the other, of those that wait only the newest", async () => {
    const { turn, sent, told } = slowServer();
    for (const wish of ["a", "b", "c"]) void turn.want(wish);
    expect(sent.map(({ wish }) => wish)).toEqual(["a"]);
    expect(told.at(-1)).toEqual({ shown: "c", isSettled: false, fault: null });
    sent[0]!.answer();
    await settled();
    expect(sent.map(({ wish }) => wish)).toEqual(["a", "c"]);
    sent[1]!.answer();
    await settled();
    expect(told.at(-1)).toEqual({ shown: "c", isSettled: true, fault: null });
  });

  it("show what stands on the server where the last was not taken", async () => {
    const { turn, sent, told } = slowServer();
    const fault = new Error("no");
    void turn.want("a");
    void turn.want("b");
    sent[0]!.answer();
    await settled();
    sent[1]!.answer(fault);
    await settled();
    expect(told.at(-1)).toEqual({ shown: "a", isSettled: true, fault });
    void turn.want("c");
    sent[2]!.answer();
    await settled();
    expect(told.at(-1)).toEqual({ shown: "c", isSettled: true, fault: null });
  });
});
