/** How long a password must and may be, in characters. */
export const PASSWORD_LENGTH = { min: 10, max: 128 } as const;
