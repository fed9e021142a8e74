/** A part of the song, by its id. */
export type PartGroup = `part:${string}`;

/**
 * What is played together: each part and the band, which follow the song, and what is played at once, by steel or band,
 * whether the song runs or not.
 */
export type GroupName = PartGroup | "band" | "steelNow" | "bandNow" | "drone";

/** The name of a part among the groups. */
export function partGroup(partId: string): PartGroup {
  return `part:${partId}`;
}

export function isPartGroup(name: GroupName): name is PartGroup {
  return name.startsWith("part:");
}
