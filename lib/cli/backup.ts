import { backUp } from "@/lib/store/backup/write-backup";
import { bytesText, countText, dayOf, runOnFile, showTables } from "./backup-run";

const USAGE = `Writes everything this Padwright keeps into one file, and reads it back.

  npm run -s backup -- FILE [--force]

  FILE     the file to make, such as padwright-2026-11-26.backup
  --force  write over a file that is there

Works while Padwright runs. The file holds guests' data and what passwords are checked against: keep it where nobody else can read it.
Ends with 0 when the backup is whole, 2 when there is none.`;

void runOnFile(USAGE, { force: { type: "boolean", default: false } }, async (file, { force, signal, url }) => {
  const { header, rows, tables, size } = await backUp(url, file, { force, signal, report: showTables() });
  return `${file}: ${countText(rows, "row")} of ${countText(tables.length, "table")}, ${bytesText(size)}, read back and whole. As of ${dayOf(header.madeAt)}.`;
});
