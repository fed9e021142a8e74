import type { Case } from "./Case";
import { hearItems } from "./hearItems";
import { CERTAINTIES, type CertaintyName, judge } from "./judgements";
import { type Reliability, reliability } from "./metrics/reliability";
import type { Prediction } from "./prediction";
import type { Subject, SubjectSet } from "./Subject";
import { scoreItem, type Tells } from "./scoreItem";
import { type Figure, summarise } from "./summary";
import { type WorstOf, worstOfAll } from "./worst";

export interface Group {
  group: string;
  figures: Figure[];
  /** Work of one thread for a minute of record, decoding included; null where the machine does not tell. */
  cpuSecPerMinute: number | null;
}

/** What came of a set. */
export interface Evaluation {
  set: string;
  cases: Case[];
  /** All records together. */
  all: Group;
  groups: Group[];
  /** Records that could not be heard, and why; they score zero. */
  failures: { id: string; fault: string }[];
  tells: Tells;
  certainties: { name: CertaintyName; reliability: Reliability }[];
  worst: WorstOf[];
}

/** Hears a set and scores it. */
export async function evaluate(
  { name, subjects }: SubjectSet,
  onHeard?: (subject: Subject, doneCount: number) => void,
): Promise<Evaluation> {
  const outcomes = await hearItems(subjects, onHeard);
  const failures: Evaluation["failures"] = [];
  const heard = subjects.map((subject) => {
    const outcome = outcomes.get(subject.id);
    if (outcome && "prediction" in outcome)
      return { subject, prediction: outcome.prediction, cpuSec: outcome.cpuSec };
    failures.push({ id: subject.id, fault: outcome ? outcome.fault : "nothing came back" });
    return { subject, prediction: null, cpuSec: null };
  });
  const tells = tellsOf(heard.flatMap(({ prediction }) => prediction ?? []));
  const cases = heard.map((one): Case => ({ ...one, score: scoreItem(one.subject, one.prediction, tells) }));
  const groups = [...new Set(subjects.map(({ group }) => group))];
  return {
    set: name,
    cases,
    all: groupOf("all", cases),
    groups: groups.map((group) =>
      groupOf(
        group,
        cases.filter(({ subject }) => subject.group === group),
      ),
    ),
    failures,
    tells,
    certainties: certaintiesOf(cases),
    worst: worstOfAll(cases),
  };
}

function tellsOf(predictions: readonly Prediction[]): Tells {
  const any = (what: (prediction: Prediction) => boolean) => predictions.some(what);
  return {
    notes: any(({ notes }) => notes !== undefined),
    bass: any(({ hearing }) => hearing.bass.length > 0),
    sections: any(({ hearing }) => hearing.sections.length > 0),
    nextBest: any(({ hearing }) =>
      [...hearing.chords, ...hearing.homes].some(({ nextBest }) => nextBest.length > 0),
    ),
  };
}

function groupOf(group: string, cases: readonly Case[]): Group {
  let [cpuSec, audioSec] = [0, 0];
  for (const one of cases) {
    if (one.cpuSec === null) continue;
    cpuSec += one.cpuSec;
    audioSec += one.subject.durationSec;
  }
  return {
    group,
    figures: summarise(cases.map(({ score }) => score)),
    cpuSecPerMinute: audioSec > 0 ? cpuSec / (audioSec / 60) : null,
  };
}

function certaintiesOf(cases: readonly Case[]): Evaluation["certainties"] {
  const judged = cases.flatMap(({ subject, prediction }) => (prediction ? judge(subject, prediction) : []));
  return (Object.keys(CERTAINTIES) as CertaintyName[]).flatMap((name) => {
    const found = reliability(judged.flatMap((one) => one[name] ?? []));
    return found ? [{ name, reliability: found }] : [];
  });
}
