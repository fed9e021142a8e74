import { createHash, randomUUID } from "node:crypto";
import { createReadStream } from "node:fs";
import { access, mkdir, open, readdir, rename, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { type BlobStore, type Incoming, type ReceiveLimits, TooManyBytes } from "./BlobStore";

const SHA_256 = /^[0-9a-f]{64}$/;

async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, "r");
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}

/**
 * Bytes on disk: `blobs/ab/cd/abcd...` under the data folder, with `incoming` beside it for what is under way.
 * Whatever an earlier run left in `incoming` was never kept, and is removed here.
 */
export async function openDiskBlobs(dataFolder: string): Promise<BlobStore> {
  const incomingFolder = join(dataFolder, "incoming");
  const blobFolder = join(dataFolder, "blobs");
  await mkdir(incomingFolder, { recursive: true });
  await mkdir(blobFolder, { recursive: true });
  for (const left of await readdir(incomingFolder)) {
    await rm(join(incomingFolder, left), { recursive: true, force: true });
  }

  const fileOf = (sha256: string): string => {
    if (!SHA_256.test(sha256)) throw new Error("not the name of a blob");
    return join(blobFolder, sha256.slice(0, 2), sha256.slice(2, 4), sha256);
  };

  async function receive(stream: AsyncIterable<Uint8Array>, limits: ReceiveLimits): Promise<Incoming> {
    limits.signal?.throwIfAborted();
    const path = join(incomingFolder, randomUUID());
    const hash = createHash("sha256");
    let byteCount = 0;
    try {
      const file = await open(path, "wx");
      try {
        for await (const chunk of stream) {
          limits.signal?.throwIfAborted();
          byteCount += chunk.byteLength;
          if (byteCount > limits.maxBytes) throw new TooManyBytes(limits.maxBytes);
          hash.update(chunk);
          let written = 0;
          while (written < chunk.byteLength) {
            written += (await file.write(chunk, written, chunk.byteLength - written)).bytesWritten;
          }
        }
        limits.signal?.throwIfAborted();
        await file.sync();
      } finally {
        await file.close();
      }
    } catch (fault) {
      await rm(path, { force: true });
      throw fault;
    }
    return { path, byteCount, sha256: hash.digest("hex") };
  }

  return {
    receive,

    // Opened before it is read: a stream that opens it by itself would throw a missing file where nobody listens yet.
    async receiveFile(path, limits) {
      const file = await open(path, "r");
      try {
        return await receive(file.createReadStream({ autoClose: false }), limits);
      } finally {
        await file.close();
      }
    },

    scratchPath: (ending) => join(incomingFolder, `${randomUUID()}${ending}`),

    async commit(incoming) {
      const path = fileOf(incoming.sha256);
      const folder = dirname(path);
      const madeFrom = await mkdir(folder, { recursive: true });
      // Over an equal file where there is one: the bytes are the same, and a torn one is healed.
      await rename(incoming.path, path);
      await syncFolder(folder);
      if (madeFrom) {
        await syncFolder(dirname(folder));
        await syncFolder(blobFolder);
      }
    },

    async discard({ path }) {
      await rm(path, { force: true });
    },

    async pathOf(sha256) {
      const path = fileOf(sha256);
      await access(path);
      return path;
    },

    openRange: (sha256, start, end) => createReadStream(fileOf(sha256), { start, end }),

    async byteCount(sha256) {
      return (await stat(fileOf(sha256))).size;
    },

    async remove(sha256) {
      await rm(fileOf(sha256), { force: true });
    },
  };
}
