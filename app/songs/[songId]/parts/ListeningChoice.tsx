import controls from "@/app/parts/controls.module.css";

/** Several of which one holds, side by side. */
export function ListeningChoice<Choice extends string | number>({
  choices,
  chosen,
  words,
  onChoose,
  labelledBy,
}: {
  choices: readonly Choice[];
  chosen: Choice;
  words: Readonly<Record<Choice, string>>;
  onChoose: (choice: Choice) => void;
  /** Id of what names them, where the group around does not. */
  labelledBy?: string;
}) {
  const Group = labelledBy ? "fieldset" : "div";
  return (
    <Group className={controls.toggles} aria-labelledby={labelledBy}>
      {choices.map((choice) => (
        <button
          key={choice}
          type="button"
          className={controls.toggle}
          aria-pressed={chosen === choice}
          onClick={() => onChoose(choice)}
        >
          {words[choice]}
        </button>
      ))}
    </Group>
  );
}
