/** Keys that lead somewhere or turn something up and down: they go on while they are held. Digits are typed, as in a field. */
const GOES_ON = /^(Arrow(Left|Right|Up|Down)|Page(Up|Down)|\d|[-+=,.[\]{}();:])$/;

/** Taking back and doing again go on too. */
const GOES_ON_WITH_CTRL = /^[zy]$/i;

/**
 * Whether a key is merely held on whose act is done once a press: what turns something on and off would flicker, and what
 * inks or tries a place would run on to the next.
 */
export function isHeldOn(event: Pick<KeyboardEvent, "key" | "repeat" | "ctrlKey" | "metaKey">): boolean {
  const goesOn = event.ctrlKey || event.metaKey ? GOES_ON_WITH_CTRL : GOES_ON;
  return event.repeat && !goesOn.test(event.key);
}
