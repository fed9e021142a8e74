/** Under which name the browser stores a shared song for a person (IndexedDB). */
export function documentStoreName(userId: string, songId: string): string {
  return `liftbook/${userId}/${songId}`;
}

/** Whose song a store holds; null where it is none of ours. */
export function readDocumentStoreName(name: string): { userId: string; songId: string } | null {
  const [, userId, songId] = /^liftbook\/([^/]+)\/([^/]+)$/.exec(name) ?? [];
  return userId && songId ? { userId, songId } : null;
}
