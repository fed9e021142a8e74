import type { IncomingHttpHeaders } from "node:http";
import { house } from "../house";
import type { Auth } from "./auth";

/** Who does something: the person of a session. */
export interface Actor {
  userId: string;
  name: string;
  email: string;
}

/** Node's headers as the web's. */
export function webHeaders(headers: Headers | IncomingHttpHeaders): Headers {
  if (headers instanceof Headers) return headers;
  const result = new Headers();
  for (const [name, value] of Object.entries(headers)) {
    for (const one of Array.isArray(value) ? value : [value]) {
      if (one !== undefined) result.append(name, one);
    }
  }
  return result;
}

/** The person whose session cookie the headers carry; null where there is none that holds. */
export async function readSession(auth: Auth, headers: Headers | IncomingHttpHeaders): Promise<Actor | null> {
  const session = await auth.api.getSession({ headers: webHeaders(headers) });
  if (!session) return null;
  const { id, name, email } = session.user;
  return { userId: id, name, email };
}

/** {@link readSession} in the running house. */
export function sessionOf(headers: Headers | IncomingHttpHeaders): Promise<Actor | null> {
  return readSession(house().auth, headers);
}
