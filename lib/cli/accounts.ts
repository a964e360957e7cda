import { readFileSync } from "node:fs";
import path from "node:path";
import { parseArgs } from "node:util";
import { linkForOperator, linkHours } from "@/lib/store/accounts/links";
import { roles, type Role } from "@/lib/store/accounts/sessions";
import { disconnect } from "@/lib/store/client";
import { environment } from "@/lib/store/environment";
import { StoreError } from "@/lib/store/errors";
import { Fault } from "@/lib/store/fault";
import { getDefaultPark, listParks } from "@/lib/store/parks";

const USAGE = `Makes a link by which one person can join a park: for who is locked out.

  npm run -s accounts -- link --role manager|desk [--park SLUG] [--address URL]

  --role     what the person may act as
  --park     which park; the first one where left out
  --address  how Padwright is reached, such as https://park.example; where left out, as it was started

The link works once, for ${linkHours} hours. Ends with 0 when it has printed it, 2 when it could not.`;

class Refusal extends Error {}

void main();

async function main(): Promise<void> {
  try {
    const { values, positionals } = parse();
    if (values.help) return console.log(USAGE);
    const role = roles.find((name) => name === values.role);
    if (positionals.length !== 1 || positionals[0] !== "link" || !role) throw new Refusal(USAGE);
    console.log(await makeLink(role, values.park, values.address));
  } catch (error) {
    if (!(error instanceof Refusal) && !(error instanceof Fault) && !(error instanceof StoreError)) throw error;
    console.error(error.message);
    process.exitCode = 2;
  } finally {
    await disconnect();
  }
}

function parse() {
  try {
    return parseArgs({ allowPositionals: true, options: { role: { type: "string" }, park: { type: "string" }, address: { type: "string" }, help: { type: "boolean", short: "h" } } });
  } catch (error) {
    throw new Refusal(`${error instanceof Error ? error.message : String(error)}\n\n${USAGE}`);
  }
}

async function makeLink(role: Role, asked: string | undefined, address: string | undefined): Promise<string> {
  const slug = asked ?? (await getDefaultPark())?.slug;
  const slugs = (await listParks()).map((park) => park.slug);
  if (slug === undefined || !slugs.includes(slug)) throw new Refusal(slugs.length === 0 ? "There is no park yet." : `There is no park ${slug}. There is: ${slugs.join(", ")}.`);
  return `${(address ?? addressStarted()).replace(/\/+$/, "")}/join/${await linkForOperator(slug, role)}`;
}

/** What `npm run up` noted when it began to answer. */
function addressStarted(): string {
  const { PADWRIGHT_DATA, PORT } = environment();
  try {
    const { address } = JSON.parse(readFileSync(path.join(PADWRIGHT_DATA, "lock"), "utf8")) as { address?: unknown };
    if (typeof address === "string") return address;
  } catch {
    // Started on a database elsewhere: no note here.
  }
  return `http://localhost:${PORT ?? 3000}`;
}
