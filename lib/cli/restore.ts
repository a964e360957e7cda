import { restore } from "@/lib/store/backup/restore";
import { countText, dayOf, runOnFile, showTables } from "./backup-run";

const USAGE = `Puts a backup into an empty database: all of it or, where anything is wrong, none of it.

  npm run -s restore -- FILE

  FILE  a file made by \`npm run -s backup\`

With Padwright stopped, into a new data folder (PADWRIGHT_DATA) or an empty database of yours (DATABASE_URL).
Ends with 0 when everything is there and compared, 2 when nothing was changed.`;

void runOnFile(USAGE, {}, async (file, { signal, url }) => {
  const { header, rows, parks, migrated } = await restore(url, file, { signal, report: showTables() });
  const updated = migrated.length > 0 ? ` Brought up to date by ${countText(migrated.length, "migration")}.` : "";
  return `Restored ${parks.join(", ") || "a backup without a park"} as of ${dayOf(header.madeAt)}: ${countText(rows, "row")}, compared with the file.${updated} Start Padwright with \`npm run up\`.`;
});
