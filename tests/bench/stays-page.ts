import { linkForOperator } from "@/lib/store/accounts/links";
import { joinByLink } from "@/lib/store/accounts/people";
import { sessionCookie } from "@/lib/store/accounts/auth";
import { signIn } from "@/lib/store/accounts/sessions";
import { buildApplication } from "../../scripts/stages/build.mjs";
import { startServer } from "../../scripts/stages/server.mjs";
import { digits, told } from "./measure";
import type { Reading } from "./stays-reading";
import { timesOf } from "./stays-reading";
import { reportScrolling } from "./stays-scroll";
import { YEAR, type FilledPark } from "./stays-parks";
import { freePort } from "../setup/free-port";

type Aim = (what: string, met: boolean, measured: string) => void;

/** What the page of nights is held to. */
const AIM = { sites: 400, ms: 1000 } as const;

/** The page of nights as the built application answers it over HTTP, and as a browser scrolls it. */
export async function reportPages(url: string, parks: readonly FilledPark[], readings: ReadonlyMap<string, Reading>, rounds: number, aim: Aim): Promise<void> {
  console.log("\nThe page of nights, 52 weeks of it, by the built application over HTTP");
  await buildApplication((what) => console.log(`  ${what}`));
  const port = await freePort();
  const server = await startServer({ PORT: port, HOST: "127.0.0.1", DATABASE_URL: url, dev: false });
  const address = `http://127.0.0.1:${port}/desk/nights?weeks=52`;
  try {
    for (const park of parks) {
      const session = await joinDesk(park), headers = { cookie: `${sessionCookie}=${encodeURIComponent(session)}` };
      let size = 0;
      const whole = await timesOf(rounds, async () => { size = (await readPage(address, headers)).length; });
      const { sites, board, lanes } = readings.get(park.slug)!, known = sites.median + board.median + lanes.median;
      console.log(`  ${park.sites.toLocaleString("en-US")} sites: ${told(whole)} ms until the last byte of ${digits(size / 1e6)} MB; reading and laying out are ${digits(known)} ms of it where they run alone`);
      if (park.sites !== AIM.sites) continue;
      aim(`${AIM.sites} sites, ${YEAR - 1} nights, ${park.stays.toLocaleString("en-US")} stays in under ${AIM.ms} ms of server time`, whole.median < AIM.ms, `${digits(whole.median)} ms`);
      await reportScrolling(address, session, aim);
    }
  } finally {
    await server.stop();
  }
}

async function readPage(address: string, headers: Record<string, string>): Promise<string> {
  const answer = await fetch(address, { headers, redirect: "error" });
  const text = await answer.text();
  if (answer.status !== 200) throw new Error(`${address} answered ${answer.status}`);
  return text;
}

/** Joins as people do, and signs in: what the cookie holds. */
async function joinDesk({ slug }: FilledPark): Promise<string> {
  const [email, password] = [`desk@${slug}.test`, "quills in the meadow"];
  await joinByLink(await linkForOperator(slug, "desk"), slug, { name: "Dell Okoro", email, password });
  const outcome = await signIn(email, password, { address: null, agent: "bench" });
  if (outcome.state !== "in") throw new Error(`not signed in: ${outcome.state}`);
  return outcome.cookie;
}
