import { hashOf, stampAt } from "./stamp.mjs";
import { runNode } from "./programs.mjs";

const stamp = stampAt("lib", "store", "generated", ".stamp");
const wantedHash = () => hashOf(["prisma/schema.prisma", "node_modules/prisma/package.json"]);

/** Whether the typed client is the one of this schema. */
export const clientIsReady = () => stamp.matches(wantedHash());

/** Generates the typed database client where the schema has changed since. Needs no network. */
export async function generateClient(say) {
  const wanted = wantedHash();
  if (stamp.matches(wanted)) return "up to date";
  say("generating");
  await runNode(["node_modules/prisma/build/index.js", "generate", "--schema", "prisma/schema.prisma"], {
    // `generate` runs no schema engine but insists on having one: naming any program keeps it from fetching it.
    // Never do this with `migrate` or `db`, which then do nothing and say they did.
    env: { ...process.env, PRISMA_SCHEMA_ENGINE_BINARY: process.execPath, CHECKPOINT_DISABLE: "1", PRISMA_HIDE_UPDATE_MESSAGE: "1" },
    what: "The database client could not be generated",
  });
  stamp.write(wanted);
  return "generated";
}
