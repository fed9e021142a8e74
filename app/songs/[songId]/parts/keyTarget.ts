/** Whether keys typed there belong to a field, or to the sheet that lies over the page, whatever of it has the focus. */
export function isTyping(target: EventTarget | null): boolean {
  if (document.querySelector("dialog[open]") !== null) return true;
  if (!(target instanceof HTMLElement)) return false;
  return target.isContentEditable || /^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName);
}

/** Space and Enter on a button are that button's own; on what lies in a lane they are the lane's. */
export function isOnButton({ target }: KeyboardEvent): boolean {
  return (
    target instanceof HTMLElement &&
    target.closest("button, a, summary") !== null &&
    !target.matches("[data-change], [data-section], [data-study], [data-question]")
  );
}
