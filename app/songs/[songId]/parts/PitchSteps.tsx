import controls from "@/app/parts/controls.module.css";

const STEPS = [
  [1, "Half step up"],
  [-1, "Half step down"],
  [12, "Octave up"],
  [-12, "Octave down"],
] as const;

/** A note moved up and down, by a half step and by an octave. */
export function PitchSteps({ shift }: { shift: (semitones: number) => void }) {
  return STEPS.map(([semitones, words]) => (
    <button key={semitones} type="button" className={controls.button} onClick={() => shift(semitones)}>
      {words}
    </button>
  ));
}
