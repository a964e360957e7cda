import { mkdir, readdir, readFile, stat, writeFile } from "node:fs/promises";
import path from "node:path";
import { parseArgs } from "node:util";
import { formats, operatorLimits, planImport, writeInventory, type ExchangeFile, type Format, type ImportPlan, type Inventory, type Missing, type WrittenFile, writeStays } from "@/lib/exchange";
import { turns } from "@/lib/insight";
import { closePool } from "@/lib/jobs/fit-pool";
import { swapOf, weighInPark } from "@/lib/jobs/site-effects";
import { guestMayHave } from "@/lib/jobs/stay-fit";
import { fitStays, listComing } from "@/lib/jobs/stays-fits";
import { disconnect } from "@/lib/store/client";
import { StayRefused, StoreError } from "@/lib/store/errors";
import { Fault } from "@/lib/store/fault";
import { applyImport, readInventory } from "@/lib/store/inventory";
import { getDefaultPark, getPark, listParks } from "@/lib/store/parks";
import { SitesInUse, type Manager } from "@/lib/store/site-changes";
import { listStayLines } from "@/lib/store/stays-export";
import { changingPlaces } from "@/lib/store/stays-import";
import { catalogueOf, numbersFor, sentence } from "@/lib/wording";
import { inventory as words } from "@/lib/wording/en/inventory";

const USAGE = `Hands a park's inventory out as files, and reads files into it.

  npm run -s inventory -- export [--park SLUG] [--format json|csv|geojson] [--stays] --out DIR
  npm run -s inventory -- import [--park SLUG] [--dry-run] [--remove] [--why TEXT] DIR|FILE ...

  --park     which park; the first one where left out
  --format   json (everything; where left out), csv (tables) or geojson (a map)
  --stays    with --format csv: stays.csv too, which holds guests' names, addresses and
             numbers; keep it where nobody else can read it
  --out      the folder to write to; it is made where it is not there
  --dry-run  only tells what would change
  --remove   takes out what the files do not name; without it that stays as it is
             (stays are never canceled this way)
  --why      for the record, beside the change of each site and stay

Which stays to come would no longer fit, or begin to, is told first. All of the files are read in, or nothing. Ends with 0 when it is
done, 1 when the files hold faults, each of which it lists, 2 when it could not.`;

class Refusal extends Error {}

/** A terminal's sign for: what stands on this line is gone (ECMA-48, EL). */
const LINE_ERASED = "\u001b[K";

/** Who runs a command waits longer than for a page. Milliseconds. */
const FITS_TIME = 120_000;
/** How long the stays to come are looked at before files are read in, which tells the desk in any case. Milliseconds. */
const BEFORE_TIME = 15_000;

/** So many lines of changes are printed; the rest is counted. */
const MOST_LINES = 200;

void main();

async function main(): Promise<void> {
  try {
    const { values, positionals } = parse(), [verb, ...paths] = positionals;
    if (values.help) return console.log(USAGE);
    const format = formats.find((one) => one === (values.format ?? "json"));
    if (values.stays && format !== "csv") throw new Refusal(`Stays are handed out as tables alone: --format csv --stays.\n\n${USAGE}`);
    if (verb === "export" && values.out !== undefined && paths.length === 0 && format) await exportTo(await operatorOf(values.park), format, values.out, values.stays === true);
    else if (verb === "import" && paths.length > 0) await importFrom(await operatorOf(values.park), paths, values.remove ? "remove" : "keep", { dryRun: values["dry-run"] === true, why: values.why ?? "" });
    else throw new Refusal(USAGE);
  } catch (error) {
    if (!(error instanceof Refusal) && !(error instanceof Fault) && !(error instanceof StoreError)) throw error;
    console.error(sentenceOf(error));
    process.exitCode = 2;
  } finally {
    await closePool();
    await disconnect();
  }
}

function sentenceOf(error: Error): string {
  if (error instanceof SitesInUse) return words.preview.inUse(error.sites.map(({ siteId }) => siteId));
  if (error instanceof StayRefused && error.faults.some(({ code }) => code === "reason-needed")) return `${words.preview.whyMissing} (--why)`;
  if (error instanceof StoreError && error.constraint === changingPlaces) return words.preview.changePlaces;
  return error instanceof StoreError && error.kind === "stale" ? words.preview.stale : error.message;
}

function parse() {
  const options = { park: { type: "string" }, format: { type: "string" }, stays: { type: "boolean" }, out: { type: "string" }, "dry-run": { type: "boolean" }, remove: { type: "boolean" }, why: { type: "string" }, help: { type: "boolean", short: "h" } } as const;
  try {
    return parseArgs({ allowPositionals: true, options });
  } catch (error) {
    throw new Refusal(`${error instanceof Error ? error.message : String(error)}\n\n${USAGE}`);
  }
}

/** Whoever may run commands here acts as a manager; the record names the command. */
async function operatorOf(asked: string | undefined): Promise<Manager> {
  const slug = asked ?? (await getDefaultPark())?.slug, slugs = (await listParks()).map((park) => park.slug);
  if (slug === undefined || !slugs.includes(slug)) throw new Refusal(slugs.length === 0 ? "There is no park yet." : `There is no park ${slug}. There is: ${slugs.join(", ")}.`);
  return { kind: "manager", account: "npm run inventory", park: slug };
}

async function exportTo(actor: Manager, format: Format, folder: string, withStays: boolean): Promise<void> {
  const inventory = writeInventory(await readInventory(actor), format);
  if (!inventory) throw new Refusal(words.out.mapMissing);
  const files: readonly WrittenFile[] = withStays ? [...inventory, { name: "stays.csv", text: writeStays(await listStayLines(actor)) }] : inventory;
  try {
    await mkdir(folder, { recursive: true });
    for (const { name, text, without } of files) {
      await writeFile(path.join(folder, name), text);
      console.log(path.join(folder, name));
      if (without && without.length > 0) console.error(words.out.mapWithout(without));
    }
  } catch (error) {
    throw new Refusal(`${folder} cannot be written to: ${error instanceof Error ? error.message : String(error)}`);
  }
}

async function importFrom(actor: Manager, paths: readonly string[], missing: Missing, { dryRun, why }: { readonly dryRun: boolean; readonly why: string }): Promise<void> {
  const files = await readFiles(paths), inventory = await readInventory(actor, files);
  const plan = planImport(files, inventory, missing, operatorLimits);
  if (plan.faultCount > 0) {
    for (const fault of plan.faults) console.error([fault.file, words.place(fault, isMap(plan, fault.file))].filter(Boolean).join(", ") + `: ${words.fault(fault)}`);
    if (plan.faultCount > plan.faults.length) console.error(words.preview.faultsMore(plan.faults.length));
    console.error(`${words.preview.faultsTitle(plan.faultCount)}. ${words.preview.faultsLead}`);
    process.exitCode = 1;
    return;
  }
  if (dryRun) {
    printPlan(plan, inventory);
    await printEffects(actor, plan, FITS_TIME);
    return printFits(actor, plan);
  }
  if (plan.sites.length + plan.rigs.length + plan.stays.length === 0 && !plan.park) return console.log(words.preview.nothing);
  await printEffects(actor, plan, BEFORE_TIME);
  const outcome = await applyImport(actor, plan, why, { onProgress: (done, of) => tellProgress(done, of, plan.stays.length > 0) }).finally(endProgress);
  console.log(words.outcome(outcome));
}

/** On one line, written over again: where nobody watches, as in a file, it would only be noise. */
function tellProgress(done: number, of: number, stays: boolean): void {
  if (process.stderr.isTTY) process.stderr.write(`\r${LINE_ERASED}${words.preview.progress(done, of, stays)}`);
}

function endProgress(): void {
  if (process.stderr.isTTY) process.stderr.write(`\r${LINE_ERASED}`);
}

/** The files named, and those of the folders named that could be read. */
async function readFiles(paths: readonly string[]): Promise<ExchangeFile[]> {
  const files: ExchangeFile[] = [];
  for (const one of paths) {
    try {
      const names = (await stat(one)).isDirectory() ? (await readdir(one)).filter((name) => /\.(csv|json|geojson)$/i.test(name)).sort().map((name) => path.join(one, name)) : [one];
      for (const name of names) files.push({ name: path.basename(name), bytes: await readFile(name) });
    } catch (error) {
      throw new Refusal(`${one} cannot be read: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  if (files.length === 0) throw new Refusal(`There is no .csv, .json or .geojson file in ${paths.join(", ")}.`);
  return files;
}

function printPlan(plan: ImportPlan, inventory: Inventory): void {
  const n = numbersFor((inventory.park as { units?: unknown }).units === "metric" ? "metric" : "ft-in"), { preview } = catalogueOf().inventory;
  const lines = [...plan.sites, ...plan.rigs].flatMap(({ label, what, changes }) => (what === "changed" ? changes.map((change) => `  ${label}: ${preview.change(change, n)}`) : [`  ${label}: ${preview.whats[what].toLowerCase()}`]));
  for (const stay of plan.stays) lines.push(...(stay.what === "added" ? [`  ${words.stayWords.added(stay)}: ${preview.whats.added.toLowerCase()}`] : stay.changes.map((change) => `  ${words.stayWords.changed(stay)}: ${words.stayWords.change(change)}`)));
  for (const line of lines.slice(0, MOST_LINES)) console.log(line);
  if (lines.length > MOST_LINES) console.log(`  ${preview.moreRecords(lines.length - MOST_LINES)}`);
  for (const { file, passed } of plan.files) if (passed.length > 0) console.log(`${file}: ${preview.passed(passed)}`);
  const told = [preview.sites(plan), preview.rigs(plan), preview.stayPlans(plan), plan.park ? preview.park(plan.park.fields) : null].filter((part) => part !== null);
  console.log(told.length === 0 ? preview.nothing : `${told.join(". ")}. ${preview.unchanged(plan.unchanged)}`);
  if (plan.settingsLeft) console.log(preview.settings);
}

/** Which of the stays to come the changed sites turn, as the page says it; nothing where none is on them. */
async function printEffects(actor: Manager, { sites }: ImportPlan, timeLimit: number): Promise<void> {
  if (sites.length === 0) return;
  const { preview } = words, { settings: { effects: told }, stays: { span } } = catalogueOf();
  const found = await weighInPark(actor, actor.park, sites.map(({ id, before, after }) => swapOf(id, before, after)), timeLimit);
  if (!found) return console.log(preview.staysOpen);
  const { effects: { stays: turned, notWorkedOut, staysAsked } } = found, byId = new Map(found.stays.map((stay) => [stay.id, stay]));
  if (staysAsked === 0) return;
  if (turned.length === 0 && notWorkedOut.length === 0) return console.log(preview.staysNone(staysAsked));
  for (const turn of turns) {
    const those = turned.filter((one) => one.turn === turn).flatMap(({ id }) => byId.get(id) ?? []);
    if (those.length === 0) continue;
    console.log(`${told.stayTurns[turn]} (${those.length}):`);
    for (const { reference, guest, site, nights } of those.slice(0, MOST_LINES)) console.log(`  ${guest ?? told.nameless}, ${reference}: ${site === null ? told.anySite : told.site(site)}, ${span(nights)}`);
    if (those.length > MOST_LINES) console.log(`  ${preview.moreRecords(those.length - MOST_LINES)}`);
  }
  if (notWorkedOut.length > 0) console.log(preview.staysUnknown(notWorkedOut.length));
  console.log(preview.staysDesk);
}

/** Which of the stays would not fit where they come, as the page says it. */
async function printFits(actor: Manager, plan: ImportPlan): Promise<void> {
  const coming = await listComing(actor, plan), park = coming.length > 0 ? await getPark(actor.park) : null;
  if (!park) return;
  const { verdicts } = catalogueOf(), { fits } = words.stayWords, results = await fitStays(coming, park.policy, { timeLimit: FITS_TIME });
  const poor = coming.flatMap(({ plan: { row, guest }, site, rig }, i) => {
    const result = results[i], reason = result?.reasons[0];
    return result && !guestMayHave(result.verdict) ? [fits.line(row, guest?.name ?? "", site.label ?? site.id, verdicts[result.verdict].label, reason ? sentence(reason, site, rig, park.units, result) : null)] : [];
  });
  const looked = results.filter((result) => result).length;
  for (const line of poor.slice(0, MOST_LINES)) console.log(`  ${line}`);
  if (poor.length > MOST_LINES) console.log(`  ${words.preview.moreRecords(poor.length - MOST_LINES)}`);
  console.log(poor.length > 0 ? fits.lead(poor.length, looked) : fits.none(looked));
  if (looked < coming.length) console.log(fits.rest(coming.length - looked));
}

function isMap({ files }: ImportPlan, file: string): boolean {
  return files.some((one) => one.file === file && one.what === "map");
}
