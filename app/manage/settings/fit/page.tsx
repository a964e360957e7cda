import type { Metadata } from "next";
import { unitSystems } from "@/lib/measure/parse";
import { listSettingsChanges } from "@/lib/store/park-settings";
import { getRates } from "@/lib/store/rates";
import { catalogueOf } from "@/lib/wording";
import { one, type Params } from "../../../components/rig-form/params";
import { Cautions } from "../../../components/cautions/cautions";
import { UnitsLinks } from "../../../components/staff-nav/units-links";
import { policyChanges } from "../policy-words";
import { StaleNotice } from "../stale-notice";
import { effectsContext, policyContext, readAddress, type AskedForm, type PolicyContext } from "./context";
import { policyFields } from "./fields";
import { PolicyFields } from "./policy-form";
import { Preview } from "./preview";
import { shortParams } from "./read-policy";
import styles from "../settings.module.css";

const { settings: words, pages, insight } = catalogueOf();

export const metadata: Metadata = { title: words.fit.title };

/** Every value of the park's fit policy; with changes in its address, what they would do, and the button that saves them. */
export default async function FitSettingsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const [params, context] = await Promise.all([searchParams, policyContext()]);
  if (!context) return <main className={styles.page}><h1>{words.fit.title}</h1><p>{insight.noPark}</p></main>;
  const asked = readAddress(params, context), { form, units } = asked;
  const faults = policyFields.filter(({ name }) => form.faults[name]);
  const addressIn = (system: string) => { const query = shortParams(params, units); query.set("units", system); if (one(params.based)) query.set("based", one(params.based)!); if (one(params.checked)) query.set("checked", "yes"); return query.toString(); };
  const checked = one(params.checked) !== undefined;
  return (
    <main className={styles.page}>
      <p className={styles.park}><a href="/manage/settings">{words.back}</a> · {context.park.name}</p>
      <h1>{words.fit.title}</h1>
      <p className={styles.lead}>{words.fit.lead}</p>
      <UnitsLinks units={units} names={pages.units} hrefOf={(system) => `/manage/settings/fit?${addressIn(unitSystems.find((known) => known === system)!)}`} />
      <Stale params={params} context={context} asked={asked} />
      {faults.length > 0 && (
        <section id="found" className={styles.faults} role="alert" aria-labelledby="faults">
          <h2 id="faults">{words.faults.title(faults.length)}</h2>
          <ul>{faults.map(({ name }) => <li key={name}><a href={`#${name}`}>{words.policy[name].label}</a>: {form.faults[name]}</li>)}</ul>
        </section>
      )}
      {checked && form.policy && form.changed.length === 0 && <p id="found" className={styles.warning} role="status">{words.fit.same}</p>}
      {form.policy && form.changed.length > 0 && <><Preview context={context} over={await effectsContext(context)} form={form} policy={form.policy} units={units} query={addressIn(units)} patient={one(params.patient) !== undefined} /><Cautions /></>}
      <p className={styles.bare}>{words.fit.bare[units]}</p>
      <PolicyFields key={JSON.stringify([form.texts, context.version, units])} context={context} form={form} units={units} />
    </main>
  );
}

/** So much of the history is told at once. */
const mostTold = 20;

/** Where somebody saved since the form was opened. */
async function Stale({ params, context: { actor, park, version, policy, zone }, asked: { units, form } }: { readonly params: Params; readonly context: PolicyContext; readonly asked: AskedForm }) {
  const based = Number(one(params.based) ?? version);
  if (!Number.isInteger(based) || based < 1 || based >= version || form.changed.length === 0) return null;
  const [theirs, rates] = await Promise.all([listSettingsChanges(actor, park.slug, Math.min(version - based, mostTold)), getRates(park.slug)]);
  const oldest = theirs.at(-1);
  const changedByThem = new Set(oldest ? policyChanges(oldest.before.policy, policy, units).map(({ name }) => name) : []);
  const both = form.changed.map(({ name }) => words.policy[name].label).filter((label) => changedByThem.has(label));
  return <StaleNotice theirs={theirs} both={both} units={units} zone={zone} currency={rates?.card.currency ?? "USD"} />;
}
