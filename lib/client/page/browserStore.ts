/** What the browser keeps for this site; reached for only when it is used, since that may itself be refused, and then throws. */
export const browserStore: Pick<Storage, "getItem" | "setItem" | "removeItem"> = {
  getItem: (key) => window.localStorage.getItem(key),
  setItem: (key, value) => window.localStorage.setItem(key, value),
  removeItem: (key) => window.localStorage.removeItem(key),
};
