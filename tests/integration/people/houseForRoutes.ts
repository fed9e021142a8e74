import { pino } from "pino";
import { type Auth, createAuth } from "@/lib/server/auth/auth";
import { openEarFiles } from "@/lib/server/hearing/earFiles";
import { type House, openHouse } from "@/lib/server/house";
import { ownOrigins } from "@/lib/server/http/ownOrigins";
import { createJobs } from "@/lib/server/jobs/jobs";
import { songMember } from "@/lib/server/services/memberOf";
import { openDiskBlobs } from "@/lib/server/storage/diskBlobs";
import { createEarCopies } from "@/lib/server/storage/earCopies";
import { createIntake } from "@/lib/server/storage/intake";
import { createHub } from "@/lib/server/sync/hub";
import { openTestHouse } from "../testHouse";

export const ORIGIN = "http://127.0.0.1:4280";

/** The whole house without a port, with routes reaching it as they do in the server. */
export interface RouteHouse extends House {
  /** A request as a browser on our own page sends it. */
  request(
    method: string,
    path: string,
    options?: { cookie?: string; body?: unknown; origin?: string | null },
  ): Request;
  /** Signs a new person up and in; their cookie and id. */
  signUp(name: string): Promise<{ cookie: string; userId: string; email: string }>;
  close(): Promise<void>;
}

export const PASSWORD = "plenty of letters";

/** The session cookie that an answer sets. */
export function cookieOf(answer: Response): string {
  return answer.headers
    .getSetCookie()
    .map((cookie) => cookie.split(";")[0])
    .join("; ");
}

export async function openRouteHouse(env: Record<string, string> = {}): Promise<RouteHouse> {
  const test = await openTestHouse({ env });
  const { db, config } = test;
  const log = pino({ level: "silent" });
  const origins = ownOrigins(config, 4280);
  const auth: Auth = createAuth({ config, db, log, secret: "a secret that only this test knows", origins });
  const blobs = await openDiskBlobs(config.dataFolder);
  const intake = createIntake(config, blobs);
  const hub = createHub({
    db,
    log,
    session: async () => null,
    membership: (songId, userId) => songMember(db, songId, userId),
    allowedOrigins: origins,
  });
  const jobs = await createJobs({ config, db, hub, blobs, log, databaseUrl: config.databaseUrl! });
  const earCopies = createEarCopies({ config, db, blobs, log });
  const earFiles = openEarFiles();
  const house: House = { config, db, auth, blobs, intake, earCopies, earFiles, hub, jobs, log, origins };
  openHouse(house);

  const request: RouteHouse["request"] = (method, path, { cookie, body, origin = ORIGIN } = {}) => {
    const headers = new Headers({ "content-type": "application/json" });
    if (cookie) headers.set("cookie", cookie);
    if (origin !== null) headers.set("origin", origin);
    return new Request(`${ORIGIN}${path}`, {
      method,
      headers,
      body: body === undefined ? undefined : JSON.stringify(body),
    });
  };
  return {
    ...house,
    request,
    async signUp(name) {
      const email = `${name.toLowerCase()}@example.org`;
      const body = { name, email, password: PASSWORD };
      const answer = await auth.handler(request("POST", "/api/auth/sign-up/email", { body }));
      const { user } = (await answer.json()) as { user: { id: string } };
      return { cookie: cookieOf(answer), userId: user.id, email };
    },
    async close() {
      await jobs.stop();
      await hub.stop();
      await earCopies.stop();
      await test.close();
    },
  };
}
