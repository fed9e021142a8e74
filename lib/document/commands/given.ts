/** The fields that were given; one that is `undefined` was not. */
export function given<F extends object>(fields: F): F {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as F;
}
