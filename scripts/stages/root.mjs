import path from "node:path";
import { fileURLToPath } from "node:url";

/** The folder of this clone. */
export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");

/** A path inside this clone. */
export const inRoot = (...parts) => path.join(root, ...parts);
