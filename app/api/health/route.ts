import { house } from "@/lib/server/house";

/** For whoever watches over the server: whether it answers and reaches its database. */
export async function GET(): Promise<Response> {
  const { db, log } = house();
  try {
    await db.$queryRaw`SELECT 1`;
    return Response.json({ ok: true }, { headers: { "cache-control": "no-store" } });
  } catch (err) {
    log.error({ err }, "the database does not answer");
    return Response.json({ ok: false }, { status: 503, headers: { "cache-control": "no-store" } });
  }
}
