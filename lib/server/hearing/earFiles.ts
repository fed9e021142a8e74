import { readdir } from "node:fs/promises";
import path from "node:path";
import type { EarListing } from "@/lib/contracts/ear";
import type { WeightFile } from "@/lib/hearing/learned/loadWeights";
import { AppError } from "../AppError";
import { readWeightFile, WEIGHTS_FOLDER, WeightsDamaged } from "./weightFiles";

/**
 * The files of this installation's ear, for browsers, which hear passages by the same weights. It hangs on the house
 * because it finds them beside our own source, which a bundle of Next is not.
 */
export interface EarFiles {
  /** @throws {AppError} no-ear where none are installed; ear-damaged */
  list(): Promise<EarListing>;
  /** The weights of that checksum. @throws {AppError} not-found; ear-damaged */
  read(sha256: string): Promise<Uint8Array>;
}

/** @param folder holds `NAME.json` and `NAME.bin` for each network */
export function openEarFiles(folder = WEIGHTS_FOLDER): EarFiles {
  let reading: Promise<Map<string, WeightFile>> | null = null;

  async function readAll(): Promise<Map<string, WeightFile>> {
    const all = new Map<string, WeightFile>();
    for (const file of await readdir(folder).catch(() => [])) {
      const { name, ext } = path.parse(file);
      const read = ext === ".json" ? await readWeightFile(name, folder) : null;
      if (read) all.set(name, read);
    }
    return all;
  }

  /** Kept in memory once some were found, and all of them good. */
  async function files(): Promise<Map<string, WeightFile>> {
    reading ??= readAll();
    try {
      const all = await reading;
      if (all.size === 0) reading = null;
      return all;
    } catch (fault) {
      reading = null;
      throw fault instanceof WeightsDamaged ? new AppError("ear-damaged", {}, { cause: fault }) : fault;
    }
  }

  return {
    async list() {
      const all = await files();
      if (all.size === 0) throw new AppError("no-ear");
      return Object.fromEntries([...all].map(([name, { manifest }]) => [name, manifest]));
    },

    async read(sha256) {
      const found = [...(await files()).values()].find(({ manifest }) => manifest.sha256 === sha256);
      if (!found) throw new AppError("not-found");
      return found.bytes;
    },
  };
}
