import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { rankSites } from "@/lib/fit";
import { MAX_SITES_WITH_REMEDIES, parseFitRequest, type Fault } from "@/lib/fit/request";
import { answerOf, type Answer } from "@/lib/wording";
import { resultsTable } from "./results-table";

const USAGE = `Ranks sites for a rig.

  npm run -s fit -- --sites FILE --rig FILE [--policy FILE] [--units ft-in|metric] [--json]

  --sites   a JSON file: a list of sites, or { "sites": [ … ] }
  --rig     a JSON file: a rig, or { "rig": … }
  --policy  a JSON file: a park's own settings, where they differ from the defaults
  --units   of the sentences; ft-in where left out
  --json    the whole answer as data; without it, a table and the reasons

FILE may be - for standard input, once. Ends with 0 when it has answered, 2 when it could not read what it was asked.`;

/** A complaint for whoever typed the command, without a stack. */
class Refusal extends Error {}

// A reader that has seen enough (`… | head`) closes the pipe: no fault of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});
main();

function main(): void {
  try {
    const { values } = parse();
    if (values.help) return console.log(USAGE);
    if (!values.sites || !values.rig) throw new Refusal(`give --sites and --rig\n\n${USAGE}`);
    const asked = {
      sites: unwrap(readJson(values.sites), "sites"),
      rig: unwrap(readJson(values.rig), "rig"),
      ...(values.policy ? { policy: readJson(values.policy) } : {}),
      ...(values.units ? { units: values.units } : {}),
    };
    const answer = rank(asked, values.json === true);
    console.log(answer);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    console.error(error.message);
    process.exitCode = 2;
  }
}

function parse() {
  try {
    return parseArgs({
      options: {
        sites: { type: "string" }, rig: { type: "string" }, policy: { type: "string" }, units: { type: "string" },
        json: { type: "boolean" }, help: { type: "boolean", short: "h" },
      },
    });
  } catch (error) {
    throw new Refusal(`${error instanceof Error ? error.message : String(error)}\n\n${USAGE}`);
  }
}

function rank(asked: unknown, json: boolean): string {
  const parsed = parseFitRequest(asked);
  if (!parsed.ok) throw new Refusal(`This cannot be used:\n${parsed.faults.map(faultLine).join("\n")}`);
  const { sites = [], rig, policy, units } = parsed.request;
  const answer: Answer = answerOf(rankSites(sites, rig, policy, { unknowns: parsed.unknowns, remedies: sites.length <= MAX_SITES_WITH_REMEDIES, access: true }), sites, rig, units);
  return json ? JSON.stringify(answer) : resultsTable({ answer, sites, rig, policy, units });
}

function faultLine({ path, message }: Fault): string {
  return `  ${path || "(the whole)"}: ${message}`;
}

function readJson(file: string): unknown {
  let text: string;
  try {
    text = readFileSync(file === "-" ? 0 : file, "utf8");
  } catch (error) {
    throw new Refusal(`cannot read ${file}: ${error instanceof Error ? error.message : String(error)}`);
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Refusal(`${file} is not JSON: ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** A file may hold the thing itself, or an object with it under its name. */
function unwrap(value: unknown, name: "sites" | "rig"): unknown {
  return typeof value === "object" && value !== null && name in value ? (value as Record<string, unknown>)[name] : value;
}
