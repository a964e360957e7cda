import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";

/** A new folder for an embedded server's data, which the server's own account may enter. */
export function makeDataFolder(): string {
  const folder = mkdtempSync(path.join(tmpdir(), "padwright-test-"));
  chmodSync(folder, 0o755);
  return folder;
}

/** Where the server's own files are: elsewhere if root could not hand `data` over to the server's account. */
export function homeOf(data: string): string {
  const pointer = path.join(data, "place.json");
  return existsSync(pointer) ? (JSON.parse(readFileSync(pointer, "utf8")) as { home: string }).home : data;
}

/** Deletes a data folder with all that was kept for it elsewhere. */
export function removeDataFolder(data: string): void {
  for (const folder of new Set([homeOf(data), data])) rmSync(folder, { recursive: true, force: true });
}
