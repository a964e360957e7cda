import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { Cautions } from "../../components/cautions/cautions";
import { readParkRecord } from "../../components/park-map/record";
import { KeepLink, nameOfRig } from "../../components/rig-form/keep-link";
import type { Params } from "../../components/rig-form/params";
import { withoutNights } from "../../components/rig-form/query";
import { RememberRig } from "../../components/rig-form/remember-rig";
import type { Rig } from "@/lib/rig";
import { catalogueOf } from "@/lib/wording";
import { guestMayHave } from "@/lib/jobs/stay-fit";
import type { Site } from "@/lib/park";
import { countNights } from "@/lib/stays";
import { askedBy, type Asked } from "../context";
import { offersFor, type Offers } from "../offers";
import { WhenForm } from "../when-form";
import { Ranking } from "../ranking";
import { UnitsSwitch } from "../units-switch";
import { addressOf, queryWithoutUnits, type Standpoint } from "./address";
import { answerFor, standpointOf } from "./answer";
import { CompareBar } from "./compare-bar";
import { FilterForm } from "./filter-form";
import { passes, type Entry } from "./filters";
import { loopsOf } from "./loops";
import { MapPanel } from "./map-panel";
import { isAsking, MeasureNext } from "./measure-next";
import nights from "./nights.module.css";
import { NothingFree } from "./nothing-free";
import { RigLine } from "./rig-line";
import { Stopped } from "./stopped";
import { Summary } from "./summary";
import { Unknowns } from "./unknowns";
import styles from "./sites.module.css";

export const metadata: Metadata = { title: catalogueOf().guestSites.title };

const { guestStay } = catalogueOf();

/** Every site for the rig of the address, best first, in a list and on the map. */
export default async function SitesPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const params = await searchParams;
  const asked = await askedBy(params);
  const { guestSites: words } = catalogueOf();
  if (!asked) return <main className={styles.main}><h1>{words.title}</h1><p className={styles.notice}>{words.noPark}</p></main>;
  const { form, park } = asked;
  if (!form) redirect("/");
  const standpoint = standpointOf(params, asked);
  return (
    <main className={styles.main}>
      <div className={styles.head}>
        <div>
          <p className={styles.park}>{park.name}</p>
          <h1>{words.title}</h1>
          <RigLine form={form} />
        </div>
        <UnitsSwitch path="/sites" query={queryWithoutUnits(standpoint)} units={asked.units} />
      </div>
      {form.rig && <RememberRig name={nameOfRig(form)} query={`${withoutNights(form.query)}&units=${asked.units}`} />}
      {form.rig ? <Answer asked={asked} rig={form.rig} standpoint={standpoint} asking={isAsking(params)} /> : (
        <div className={styles.alert} role="alert">
          <p>{words.faults(Object.keys(form.faults).length)} <a href={`/rig?${form.query}&units=${asked.units}`}>{words.faultsLink}</a></p>
        </div>
      )}
    </main>
  );
}

/** The price of a free site in words; null where it is not free. */
function priceOf(offers: Offers, rig: Rig): (site: Site) => string | null {
  const many = countNights(offers.nights);
  return (site) => {
    if (!offers.isFree(site.id)) return null;
    const quote = offers.quoteOn(site, rig);
    if (!quote) return guestStay.sites.noPrice;
    return quote.ok ? guestStay.sites.price(quote.quote.total, quote.quote.currency, many) : quote.faults.map(catalogueOf().stays.fault).join(" ");
  };
}

async function Answer({ asked, rig, standpoint, asking }: { readonly asked: Asked; readonly rig: Rig; readonly standpoint: Standpoint; readonly asking: boolean }) {
  const { sites, park } = asked;
  if (sites.length === 0) return <p className={styles.notice}>{catalogueOf().guestSites.noSites}</p>;
  const answer = await answerFor(asked, rig);
  if ("stopped" in answer) return <Stopped why={answer.stopped} again={addressOf("/sites", standpoint)} />;
  const { entries, questions } = answer;
  const offers = await offersFor(asked);
  const passing = entries.filter((entry) => passes(entry, standpoint.filters));
  const mayHave = ({ result, site }: Entry) => guestMayHave(result.verdict) && offers?.isFree(site.id);
  // What does not fit is shown whoever has it; of what fits, for some nights, what is free.
  const shown = offers ? passing.filter((entry) => mayHave(entry) || !guestMayHave(entry.result.verdict)) : passing;
  const taken = offers ? passing.filter(({ result, site }) => guestMayHave(result.verdict) && !offers.isFree(site.id)) : [];
  const record = readParkRecord(park.record);
  return (
    <>
      <WhenForm when={asked.when} standpoint={standpoint} path="/sites" submit={guestStay.when.show} invite={guestStay.when.invite} />
      {offers && (passing.some(mayHave) ? <p className={nights.found} role="status">{guestStay.sites.found(passing.filter(mayHave).length, taken.length, offers.nights)}</p> : <NothingFree asked={asked} rig={rig} offers={offers} entries={entries} standpoint={standpoint} />)}
      <Summary entries={entries} asked={asked} />
      {asked.form && <MeasureNext form={asked.form} rig={rig} questions={questions} standpoint={standpoint} unfolded={asking} />}
      <div className={styles.columns}>
        <div className={styles.list} id="sites" tabIndex={-1}>
          <FilterForm entries={entries} standpoint={standpoint} loops={loopsOf(sites, record)} shown={shown.length} />
          <p className={styles.jump}><a href="#map">{catalogueOf().guestSites.toMap}</a></p>
          <Ranking entries={shown} rig={rig} policy={park.policy} standpoint={standpoint} {...(offers ? { priceOf: priceOf(offers, rig) } : {})} />
          {taken.length > 0 && (
            <details className={nights.taken}>
              <summary>{guestStay.sites.taken(taken.length)}</summary>
              <p>{guestStay.sites.takenLine}</p>
              <Ranking entries={taken} rig={rig} policy={park.policy} standpoint={standpoint} />
            </details>
          )}
          {shown.length > 0 && <CompareBar standpoint={standpoint} hidden={unseen(standpoint.picked, shown)} />}
        </div>
        <MapPanel entries={entries} asked={asked} record={record} standpoint={standpoint} />
      </div>
      <div className={styles.after}>
        <Unknowns />
        <div>
          {asked.form && <KeepLink form={asked.form} />}
          <Cautions />
        </div>
      </div>
    </>
  );
}

/** Ticked sites that the filters hide: the form keeps them all the same. */
function unseen(picked: readonly string[], shown: readonly Entry[]): string[] {
  return picked.filter((id) => !shown.some(({ site }) => site.id === id));
}
