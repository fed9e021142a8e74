import { PASSWORD_LENGTH } from "@/lib/contracts/accounts";
import { forgetOthers } from "../kept/forgetOthers";
import { UNREACHED } from "../requests/request";

/** Signing in or up did not work; the message is in words for people. */
export class AccountError extends Error {
  override readonly name = "AccountError";
}

/** Words for the codes that better-auth answers with. */
const WORDS: Readonly<Record<string, string>> = {
  INVALID_EMAIL_OR_PASSWORD: "That e-mail and password do not belong together. Check both and try again.",
  INVALID_EMAIL: "That is no e-mail address. Write one like name@example.org.",
  PASSWORD_TOO_SHORT: `That password is too short. Take at least ${PASSWORD_LENGTH.min} signs.`,
  PASSWORD_TOO_LONG: `That password is too long. Take at most ${PASSWORD_LENGTH.max} signs.`,
  EMAIL_PASSWORD_SIGN_UP_DISABLED: "This server takes no new accounts. Ask whoever runs it.",
  USER_ALREADY_EXISTS: "There is an account with that e-mail. Sign in with it.",
  USER_ALREADY_EXISTS_USE_ANOTHER_EMAIL: "There is an account with that e-mail. Sign in with it.",
};

/** Signs in; songs that someone else kept in this browser are given up. */
export async function signIn(email: string, password: string): Promise<void> {
  await keepOnlyFor(await post("/api/auth/sign-in/email", { email, password }));
}

/** Makes an account and signs in; songs that someone else kept in this browser are given up. */
export async function signUp(name: string, email: string, password: string): Promise<void> {
  await keepOnlyFor(await post("/api/auth/sign-up/email", { name, email, password }));
}

/** Signs out and gives up the songs that were kept in this browser, recordings and all. */
export async function signOut(): Promise<void> {
  await post("/api/auth/sign-out", {});
  await forgetOthers(null);
}

/** @param answer of better-auth; where it does not say who that is now, nothing stays */
async function keepOnlyFor(answer: unknown): Promise<void> {
  const { user } = (answer ?? {}) as { user?: { id?: unknown } };
  await forgetOthers(typeof user?.id === "string" ? user.id : null);
}

async function post(url: string, body: unknown): Promise<unknown> {
  let response: Response;
  try {
    response = await fetch(url, {
      method: "POST",
      credentials: "same-origin",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(body),
    });
  } catch {
    throw new AccountError(UNREACHED);
  }
  if (response.ok) return response.json().catch(() => null);
  if (response.status === 429) throw new AccountError("Too many tries. Wait a minute, then try again.");
  const answer: { code?: string; message?: string } = await response.json().catch(() => ({}));
  throw new AccountError(
    WORDS[answer.code ?? ""] ?? answer.message ?? `The server answered ${response.status}. Try again.`,
  );
}

/** Where to go after signing in: only an address of this site, else the books. */
export function nextAddress(next: string | null | undefined): string {
  // Browsers read a backslash as a slash, and drop tabs and line breaks before they read (URL Standard, section 4.4).
  return next && /^\/(?![/\\])\P{Cc}*$/u.test(next) ? next : "/books";
}
