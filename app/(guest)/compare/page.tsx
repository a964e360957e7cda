import type { Metadata } from "next";
import Link from "next/link";
import { Cautions } from "../../components/cautions/cautions";
import { Plan } from "../../components/plan/plan";
import { readParkRecord } from "../../components/park-map/record";
import { list, type Params } from "../../components/rig-form/params";
import { catalogueOf } from "@/lib/wording";
import { askedBy, type Asked } from "../context";
import { addressOf, queryWithoutUnits, siteAddress, type Standpoint } from "../sites/address";
import { answerFor, standpointOf } from "../sites/answer";
import type { Entry } from "../sites/filters";
import { loopsOf } from "../sites/loops";
import { RigLine } from "../sites/rig-line";
import { Stopped } from "../sites/stopped";
import { UnitsSwitch } from "../units-switch";
import { AddSite } from "./add-site";
import { CompareTable } from "./compare-table";
import { compareRows } from "./rows";
import styles from "./compare-page.module.css";

export const metadata: Metadata = { title: catalogueOf().guestSites.compare.title };

/** Side by side no more find room, on a sheet or in a head. */
const MOST = 3;

/** Two or three sites side by side for the rig of the address. */
export default async function ComparePage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const params = await searchParams;
  const asked = await askedBy(params);
  const { guestSites: { compare: words, noPark } } = catalogueOf();
  if (!asked?.form) {
    return (
      <main className={styles.main}>
        <h1>{words.title}</h1>
        <p className={styles.notice}>{asked ? words.noRig : noPark} {asked && <Link href="/" prefetch={false}>{words.startOver}</Link>}</p>
      </main>
    );
  }
  const standpoint = standpointOf(params, asked);
  const gone = list(params.site).filter((id) => !asked.sites.some((s) => s.id === id));
  return (
    <main className={styles.main}>
      <p className={styles.back}><Link href={addressOf("/sites", standpoint)} prefetch={false}>{words.back}</Link></p>
      <div className={styles.head}>
        <div><h1>{words.title}</h1><RigLine form={asked.form} /></div>
        <UnitsSwitch path="/compare" query={queryWithoutUnits(standpoint)} units={asked.units} />
      </div>
      {gone.length > 0 && <p className={styles.notice} role="alert">{words.gone(gone)}</p>}
      <Comparison asked={asked} standpoint={standpoint} />
      <Cautions />
    </main>
  );
}

async function Comparison({ asked, standpoint }: { readonly asked: Asked; readonly standpoint: Standpoint }) {
  const { guestSites } = catalogueOf(), words = guestSites.compare;
  const { form, sites, park: { policy, record }, units } = asked, rig = form?.rig;
  if (!form || !rig) return <p className={styles.notice} role="alert">{guestSites.faults(Object.keys(form?.faults ?? {}).length)} <a href={`/rig?${form?.query ?? ""}&units=${units}`}>{guestSites.faultsLink}</a></p>;
  const answer = await answerFor(asked, rig);
  if ("stopped" in answer) return <Stopped why={answer.stopped} again={addressOf("/compare", standpoint)} />;
  const chosen = standpoint.picked.slice(0, MOST), here = { ...standpoint, picked: chosen };
  const entries = chosen.flatMap((id) => answer.entries.filter(({ site }) => site.id === id));
  return (
    <>
      {standpoint.picked.length > MOST && <p className={styles.notice} role="status">{words.many(standpoint.picked.length)}</p>}
      {entries.length < 2 && <p className={styles.notice} role="status">{words.few}</p>}
      {entries.length > 0 && (
        <>
          <CompareTable rows={compareRows(entries, { rig, policy, units, loops: loopsOf(sites, readParkRecord(record)) })} entries={entries} standpoint={here} />
          <Plans entries={entries} rig={rig} standpoint={here} />
        </>
      )}
      {entries.length < MOST && <AddSite entries={answer.entries} standpoint={here} />}
    </>
  );
}

function Plans({ entries, rig, standpoint }: { readonly entries: readonly Entry[]; readonly rig: NonNullable<NonNullable<Asked["form"]>["rig"]>; readonly standpoint: Standpoint }) {
  const { compare: words, site: { title } } = catalogueOf().guestSites;
  return (
    <section aria-labelledby="plans" className={styles.plans}>
      <h2 id="plans">{words.plans}</h2>
      <div className={styles.sheets}>
        {entries.map(({ site, result }) => (
          <section key={site.id} aria-labelledby={`plan-of-${site.id}`}>
            <h3 id={`plan-of-${site.id}`}><Link href={siteAddress(site.id, standpoint)} prefetch={false}>{title(site.label ?? site.id)}</Link></h3>
            <Plan site={site} rig={rig} result={result} units={standpoint.units} />
          </section>
        ))}
      </div>
    </section>
  );
}
