/** Whether keys typed there belong to a field. */
export function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  return (
    target.isContentEditable ||
    /^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName) ||
    target.closest("dialog") !== null
  );
}

/** Space and Enter on a button are that button's own; on what lies in a lane they are the lane's. */
export function isOnButton({ target }: KeyboardEvent): boolean {
  return (
    target instanceof HTMLElement &&
    target.closest("button, a, summary") !== null &&
    !target.matches("[data-change], [data-section], [data-study], [data-question]")
  );
}
