/** A name that is being typed, and the one that stood when it was begun. */
export interface TypedName {
  text: string;
  before: string;
}

/** With what the field now holds. @param stands the name as the song has it */
export function typedOn(typed: TypedName | null, text: string, stands: string): TypedName {
  return { text, before: typed?.before ?? stands };
}

/** What another called it while a name was being typed; null where nobody did, or it is what was typed. */
export function namedMeanwhile(typed: TypedName | null, stands: string): string | null {
  return typed !== null && stands !== typed.before && stands !== typed.text.trim() ? stands : null;
}
