/** How many events, in words. */
export function countWords(count: number): string {
  return count === 1 ? "1 event" : `${count} events`;
}
