import { PrismaPg } from "@prisma/adapter-pg";
import { PrismaClient } from "./generated/client";

/** A client of the database; `$disconnect()` it at the end. */
export function connectDatabase(url: string): PrismaClient {
  return new PrismaClient({ adapter: new PrismaPg({ connectionString: url, max: 12 }) });
}
