import { headers } from "next/headers";
import { notFound, redirect } from "next/navigation";
import { pages } from "@/lib/contracts/api";
import { isAppError } from "@/lib/server/AppError";
import { type Actor, sessionOf } from "@/lib/server/auth/session";

/** The person who asks for this page, or null. */
export async function whoAsks(): Promise<Actor | null> {
  return sessionOf(await headers());
}

/** The person who asks; whoever is not signed in goes to sign in, and comes back to `here`. */
export async function signedIn(here: string): Promise<Actor> {
  return (await whoAsks()) ?? redirect(pages.signIn(here));
}

/** What the service gives; the page "not found" where it says that there is nothing for this person. */
export async function orNotFound<T>(answer: Promise<T>): Promise<T> {
  try {
    return await answer;
  } catch (error) {
    if (isAppError(error) && error.code === "not-found") notFound();
    throw error;
  }
}
