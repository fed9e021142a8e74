import { newDataFolder, removeDataFolder, startServer } from "./server";

/** Builds the pages once, as a first start does, before servers start beside each other. */
export default async function buildOnce(): Promise<void> {
  const folder = await newDataFolder();
  try {
    await (await startServer(folder)).stop();
  } finally {
    await removeDataFolder(folder);
  }
}
