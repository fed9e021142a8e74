/** How long a password must and may be, in characters. */
export const PASSWORD_LENGTH = { min: 10, max: 128 } as const;
/** How long a name must and may be, in characters. */
export const NAME_LENGTH = { min: 1, max: 80 } as const;
