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
import { askedBy, type Asked } from "../context";
import { offersFor, type Offers } from "../offers";
import { WhenForm } from "../when-form";
import { Ranking } from "../ranking";
import { UnitsSwitch } from "../units-switch";
import { addressOf, queryWithoutUnits, type Standpoint } from "./address";
import { answerFor, standpointOf } from "./answer";
import { CompareBar } from "./compare-bar";
import { FilterForm } from "./filter-form";
import { AnyThatFits, ForDates, splitFor } from "./for-dates";
import { passes, type Entry } from "./filters";
import { loopsOf } from "./loops";
import { MapPanel } from "./map-panel";
import { isAsking, MeasureNext } from "./measure-next";
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

async function Answer({ asked, rig, standpoint, asking }: { readonly asked: Asked; readonly rig: Rig; readonly standpoint: Standpoint; readonly asking: boolean }) {
  const { sites, park, when } = asked;
  if (sites.length === 0) return <p className={styles.notice}>{catalogueOf().guestSites.noSites}</p>;
  const [answer, offers] = await Promise.all([answerFor(asked, rig), offersFor(asked)]);
  if ("stopped" in answer) return <Stopped why={answer.stopped} again={addressOf("/sites", standpoint)} />;
  const { entries, questions } = answer, record = readParkRecord(park.record);
  const shown = entries.filter((entry) => passes(entry, standpoint.filters));
  const all = offers && splitFor(entries, offers);
  return (
    <>
      <WhenForm when={when} standpoint={standpoint} path="/sites" submit={guestStay.when.show} invite={guestStay.when.invite} />
      {all && offers && all.offered.length === 0
        ? <NothingFree asked={asked} rig={rig} offers={offers} entries={entries} standpoint={standpoint} />
        : <Summary entries={entries} asked={asked} found={all && offers && guestStay.sites.found(all.offered.length, all.taken.length, offers.nights)} />}
      {all && all.offered.length > 0 && <AnyThatFits standpoint={standpoint} />}
      {asked.form && <MeasureNext form={asked.form} rig={rig} questions={questions} standpoint={standpoint} unfolded={asking} />}
      <div className={styles.columns}>
        <div className={styles.list} id="sites" tabIndex={-1}>
          <FilterForm entries={entries} standpoint={standpoint} loops={loopsOf(sites, record)} shown={shown.length} />
          <p className={styles.jump}><a href="#map">{catalogueOf().guestSites.toMap}</a></p>
          {offers ? <ForDates asked={asked} rig={rig} offers={offers} split={splitFor(shown, offers)} standpoint={standpoint} elsewhere={all !== null && all.offered.length > 0} /> : <Ranking entries={shown} rig={rig} policy={park.policy} standpoint={standpoint} />}
          {shown.length > 0 && <CompareBar standpoint={standpoint} hidden={unseen(standpoint.picked, shown, offers)} />}
        </div>
        <MapPanel entries={entries} asked={asked} record={record} standpoint={standpoint} {...(all ? { isTaken: (entry) => all.taken.includes(entry) } : {})} />
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

/** Ticked sites that the filters hide, or that the list of what is taken holds without a tick: the form keeps them all the same. */
function unseen(picked: readonly string[], shown: readonly Entry[], offers: Offers | null): string[] {
  const ticks = offers ? [...splitFor(shown, offers).offered, ...splitFor(shown, offers).refused] : shown;
  return picked.filter((id) => !ticks.some(({ site }) => site.id === id));
}
