import path from "node:path";
import { connect } from "./client";
import { toStoreError } from "./errors";
import { loadPark, readParkFiles, type LoadedPark } from "./load-park";

/** Puts the demo park into the database at `url` if no park is there. Null where one is. */
export async function loadDemo(url: string, folder = path.resolve("seed/quillback-meadow")): Promise<LoadedPark | null> {
  const database = connect(url, 1);
  try {
    if ((await database.park.count()) > 0) return null;
    return await loadPark(readParkFiles(folder), database);
  } catch (error) {
    // Another copy that started at the same time was first.
    if (toStoreError(error).kind === "taken") return null;
    throw error;
  } finally {
    await database.$disconnect();
  }
}
