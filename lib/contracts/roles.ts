/** What a member of a book may be. */
export const ROLES = ["teacher", "student", "listener"] as const;
export type Role = (typeof ROLES)[number];

/** Teachers and students write in the shared song; listeners read and play. */
export const WRITING_ROLES: readonly Role[] = ["teacher", "student"];
