import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Cautions } from "../../../components/cautions/cautions";
import { readParkRecord, type ParkRecord } from "../../../components/park-map/record";
import { Plan } from "../../../components/plan/plan";
import { one, type Params } from "../../../components/rig-form/params";
import { GettingInSection } from "../../../components/way-player/getting-in-section";
import { RankingStopped, rankInPool } from "@/lib/jobs/fit-pool";
import type { FitResult } from "@/lib/fit";
import type { Site } from "@/lib/park";
import { catalogueOf } from "@/lib/wording";
import { askedBy, guestContext, type Asked } from "../../context";
import { UnitsSwitch } from "../../units-switch";
import { addressOf, queryWithoutUnits, siteAddress, type Standpoint } from "../address";
import { answerFor, standpointOf } from "../answer";
import { passes, type Entry } from "../filters";
import { loopsOf } from "../loops";
import { RigLine } from "../rig-line";
import { Stopped } from "../stopped";
import { ForNights } from "./for-nights";
import { Locator } from "./locator";
import { SetUp } from "./set-up";
import { SiteFacts } from "./site-facts";
import { SiteVerdict } from "./site-verdict";
import { WayAsks } from "./way-asks";
import styles from "./site.module.css";

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const { id } = await params;
  const site = (await guestContext())?.sites.find((s) => s.id === id);
  return { title: site ? catalogueOf().guestSites.site.title(site.label ?? site.id) : catalogueOf().pages.notFound.title };
}

/** One site: its answer and its plan for the rig of the address, or its plan alone where there is none. */
export default async function SitePage({ params, searchParams }: PageProps) {
  const [{ id }, query] = await Promise.all([params, searchParams]);
  const asked = await askedBy(query);
  const site = asked?.sites.find((s) => s.id === id);
  if (!asked || !site) notFound();
  const { site: words } = catalogueOf().guestSites;
  const { units, form } = asked, standpoint = standpointOf(query, asked);
  return (
    <main className={styles.main}>
      <div className={styles.top}>
        <Link href={form ? addressOf("/sites", standpoint) : "/"} prefetch={false}>{words.back}</Link>
        <UnitsSwitch path={`/sites/${encodeURIComponent(site.id)}`} query={queryWithoutUnits(standpoint)} units={units} />
      </div>
      <h1>{words.title(site.label ?? site.id)}</h1>
      {form ? <RigLine form={form} /> : <p>{words.noRig} <Link href="/" prefetch={false}>{words.chooseRig}</Link></p>}
      <Body asked={asked} site={site} standpoint={standpoint} missed={one(query.missed) !== undefined} from={one(query.from)} />
    </main>
  );
}

async function Body({ asked, site, standpoint, missed, from }: { readonly asked: Asked; readonly site: Site; readonly standpoint: Standpoint; readonly missed: boolean; readonly from: string | undefined }) {
  const { guestSites } = catalogueOf();
  const { form, units, sites, park } = asked, rig = form?.rig;
  const record = readParkRecord(park.record);
  const [answer, refused] = rig ? await Promise.all([answerFor(asked, rig), withRemedies(asked, site)]) : [null, null];
  if (answer && "stopped" in answer) return <Stopped why={answer.stopped} again={siteAddress(site.id, standpoint)} />;
  const entries = answer?.entries.filter((entry) => entry.site.id === site.id || passes(entry, standpoint.filters)) ?? [];
  const entry = entries.find((e) => e.site.id === site.id);
  const result = entry && refused ? { ...entry.result, remedies: refused.remedies } : refused ?? entry?.result;
  return (
    <>
      {form && !rig && <p className={styles.notice} role="alert">{guestSites.faults(Object.keys(form.faults).length)} <a href={`/rig?${form.query}&units=${units}`}>{guestSites.faultsLink}</a></p>}
      <div className={styles.columns}>
        <div className={styles.words}>
          {rig && result && <SiteVerdict site={site} rig={rig} result={result} units={units} sought={refused !== null} />}
          <ForNights asked={asked} site={site} rig={rig ?? null} result={refused ?? result ?? null} entries={answer?.entries ?? []} standpoint={standpoint} missed={missed} />
          {rig && result?.pose && <SetUp entry={{ site, result }} context={{ rig, policy: park.policy, units, loops: loopsOf(sites, record) }} />}
          {form && result?.pose && <p><a href={`/sites/${encodeURIComponent(site.id)}/card?${form.query}&units=${units}`}>{guestSites.site.card}</a></p>}
          {entry && <Around entries={entries} entry={entry} standpoint={standpoint} />}
        </div>
        <Plan site={site} rig={rig ?? undefined} result={result} units={units} />
      </div>
      {rig && result && <GettingInSection site={site} rig={rig} result={result} policy={park.policy} units={units} from={from === "left" || from === "right" ? from : null} hrefFrom={(side) => `${siteAddress(site.id, standpoint)}&from=${side}#getting-in`} />}
      {form && rig && result && <WayAsks form={form} site={site} rig={rig} result={result} policy={park.policy} standpoint={standpoint} />}
      <Below asked={asked} site={site} record={record} result={result ?? null} standpoint={standpoint} />
    </>
  );
}

/** A refusal again, with what would turn it; the order of the sites needs none. Null where that was given up: the answer stands without. */
async function withRemedies({ form, park }: Asked, site: Site): Promise<FitResult | null> {
  try {
    return (await rankInPool([site], form!.rig!, park.policy, { remedies: true, access: true }))[0] ?? null;
  } catch (error) {
    if (error instanceof RankingStopped) return null;
    throw error;
  }
}

function Below({ asked, site, record, result, standpoint }: { readonly asked: Asked; readonly site: Site; readonly record: ParkRecord; readonly result: FitResult | null; readonly standpoint: Standpoint }) {
  return (
    <div className={styles.below}>
      <SiteFacts site={site} units={asked.units} loops={loopsOf(asked.sites, record)} />
      <Locator asked={asked} site={site} record={record} verdict={result?.verdict ?? null} standpoint={standpoint} />
      {result && <Cautions />}
    </div>
  );
}

/** The site before and after this one in the order of the list, and its place in it. */
function Around({ entries, entry, standpoint }: { readonly entries: readonly Entry[]; readonly entry: Entry; readonly standpoint: Standpoint }) {
  const { site: words } = catalogueOf().guestSites;
  const at = entries.indexOf(entry), before = entries[at - 1], after = entries[at + 1];
  const label = ({ site }: Entry) => site.label ?? site.id;
  const picked = [...new Set([...standpoint.picked, entry.site.id])];
  return (
    <nav className={styles.around} aria-label={words.around}>
      <p>{words.place(at + 1, entries.length)}</p>
      {before && <Link href={siteAddress(before.site.id, standpoint)} prefetch={false} rel="prev">{words.previous(label(before))}</Link>}
      {after && <Link href={siteAddress(after.site.id, standpoint)} prefetch={false} rel="next">{words.next(label(after))}</Link>}
      <Link href={addressOf("/compare", { ...standpoint, picked })} prefetch={false}>{words.compareWith}</Link>
    </nav>
  );
}
