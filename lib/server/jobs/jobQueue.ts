import PgBoss from "pg-boss";
import type { Logger } from "pino";
import type { Prisma } from "../db/generated/client";

/** pg-boss's tables stand in a schema of their own beside Liftbook's. */
const SCHEMA = "pgboss";
const POLL_MS = 5_000;

/** A job under way. */
export interface Ticket<Data> {
  id: string;
  data: Data;
  /** True where this is the last try. */
  last: boolean;
}

export interface QueueOptions<Data> {
  name: string;
  databaseUrl: string;
  concurrency: number;
  /** Tries after the first. */
  retries: number;
  log: Logger;
  /** Resolves when the job is done with; rejects where it is to be tried again. */
  handle(ticket: Ticket<Data>): Promise<void>;
}

/** Runs a statement of pg-boss inside a transaction of ours. */
const within = (tx: Prisma.TransactionClient): PgBoss.Db => ({
  async executeSql(text, values) {
    const plain = values.map((value: unknown) =>
      typeof value === "object" && value !== null && !(value instanceof Date) ? JSON.stringify(value) : value,
    );
    return { rows: await tx.$queryRawUnsafe<Record<string, unknown>[]>(text, ...plain) };
  },
});

/**
 * One queue of pg-boss, taken from by as many loops as may run at once. (pg-boss's own `work` writes a job's end
 * without waiting for it, so that a database away at that moment would end the process.)
 */
export class JobQueue<Data extends object> {
  private readonly boss: PgBoss;
  private loops: Promise<void>[] = [];
  private stopping = false;
  private wakers: (() => void)[] = [];
  private wakes = 0;

  constructor(private readonly options: QueueOptions<Data>) {
    this.boss = new PgBoss({
      connectionString: options.databaseUrl,
      schema: SCHEMA,
      schedule: false,
      max: options.concurrency + 2,
    });
    this.boss.on("error", (err) => options.log.warn({ err }, "the job queue met a fault"));
  }

  async open(): Promise<void> {
    const { name, retries } = this.options;
    await this.boss.start();
    // Longer than any job: a job is only given up by whoever runs it, or at the next start.
    const policy = { name, retryLimit: retries, retryDelay: 0, expireInHours: 23 };
    if (await this.boss.getQueue(name)) await this.boss.updateQueue(name, policy);
    else await this.boss.createQueue(name, policy);
  }

  /** Begins to take jobs. */
  begin(): void {
    this.loops = Array.from({ length: this.options.concurrency }, () => this.take());
  }

  /** Puts a job in the queue, in the caller's transaction where one is given; the same id goes in once. */
  async add(id: string, data: Data, tx?: Prisma.TransactionClient): Promise<void> {
    await this.boss.send(this.options.name, data, tx ? { id, db: within(tx) } : { id });
  }

  /** Looks for jobs at once, where it would have looked some seconds later. */
  wake(): void {
    this.wakes++;
    for (const waker of this.wakers.splice(0)) waker();
  }

  async remove(id: string): Promise<void> {
    await this.boss.deleteJob(this.options.name, id);
  }

  /**
   * Takes up a job that an earlier process left, or puts it in where it is missing.
   * @returns false where its tries are used up
   */
  async takeUp(id: string, data: Data): Promise<boolean> {
    const { name } = this.options;
    const found = await this.boss.getJobById(name, id);
    if (found?.state === "created" || found?.state === "retry") return true;
    if (found?.state === "failed") return false;
    if (found?.state === "active") {
      if (found.retryCount >= found.retryLimit) return false;
      await this.boss.fail(name, id, { message: "the server stopped" });
      return true;
    }
    if (found) await this.remove(id);
    await this.add(id, data);
    return true;
  }

  private async take(): Promise<void> {
    const { name, handle, log } = this.options;
    while (!this.stopping) {
      const wakes = this.wakes;
      try {
        const [job] = await this.boss.fetch<Data>(name, { includeMetadata: true, batchSize: 1 });
        if (!job) {
          await this.pause(wakes);
          continue;
        }
        const last = job.retryCount >= job.retryLimit;
        try {
          await handle({ id: job.id, data: job.data, last });
          await this.untilWritten(() => this.boss.complete(name, job.id));
        } catch (err) {
          if (this.stopping) break;
          log.error({ err, jobId: job.id, last }, "a job failed");
          const message = err instanceof Error ? err.message : String(err);
          await this.untilWritten(() => this.boss.fail(name, job.id, { message }));
        }
      } catch (err) {
        if (this.stopping) break;
        log.warn({ err }, "the job queue could not be read");
        await this.pause(wakes);
      }
    }
  }

  /** Writes how a job ended; a database that is away is waited for, or the job would count as under way. */
  private async untilWritten(write: () => Promise<unknown>): Promise<void> {
    for (;;) {
      try {
        await write();
        return;
      } catch (err) {
        if (this.stopping) throw err;
        this.options.log.warn({ err }, "a job's end was not written");
        await this.pause(this.wakes);
      }
    }
  }

  /** Waits a while, or until woken; not at all where that was since `wakes`. */
  private async pause(wakes: number): Promise<void> {
    if (wakes !== this.wakes) return;
    await new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, POLL_MS);
      this.wakers.push(() => {
        clearTimeout(timer);
        resolve();
      });
    });
  }

  /** Takes no more jobs and waits for those under way. */
  async drain(): Promise<void> {
    this.stopping = true;
    this.wake();
    await Promise.allSettled(this.loops);
  }

  async close(): Promise<void> {
    await this.drain();
    await this.boss.stop({ graceful: false, wait: true, timeout: 1_000 });
  }
}
